"""`levelkit check`: computed values beside published ones, on one page."""

from .page import check_page, discrepancy_lines, summary

__all__ = ["check_page", "discrepancy_lines", "summary"]
