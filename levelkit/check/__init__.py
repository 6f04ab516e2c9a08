"""`levelkit check`: computed values beside published ones, on one page."""

from .page import check_page

__all__ = ["check_page"]
