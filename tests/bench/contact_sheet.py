"""Every panel at every size on one page, to be looked at by a person.

Writes contact_sheet.html (and, where Chromium is found, contact_sheet.png and one PNG for each
picture). Run: python tests/bench/contact_sheet.py [folder] [panel, ...]
"""

import sys
from html import escape
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parent), str(HERE.parent / "browser")]
from conftest import ARGUMENTS, CHROMIUM  # noqa: E402
from panel_states import panel_makers, printed  # noqa: E402

SIZES = ("screen", "projector", "print")
STYLE = """body { font: 15px 'DejaVu Sans', sans-serif; margin: 16px; color: #17212b; }
table { border-collapse: collapse; } th { text-align: left; padding: 4px 8px; }
td { vertical-align: top; padding: 6px; border-top: 1px solid #c3cbd2; }
td > svg { width: 1100px; border: 1px solid #d5dbe0; }"""


def drawings_of(panel):
    """Return one drawing of a panel for each size, the truth shown."""
    panel.truth.value = True
    found = {}
    for size in SIZES[:2]:
        panel.projector.value = size == "projector"
        found[size] = panel.drawing
    panel.projector.value = False
    return found | {"print": printed(panel)}


def page_of(drawings):
    """Return the page: a row for each panel, a column for each size."""
    heads = "".join(f"<th>{size}</th>" for size in SIZES)
    rows = "".join(
        f"<tr><th colspan=3>{escape(name)}</th></tr><tr>"
        + "".join(f'<td id="{name}-{size}">{sizes[size].svg}</td>' for size in SIZES) + "</tr>"
        for name, sizes in drawings.items())
    return (f'<!doctype html><html lang="en"><meta charset="utf-8"><title>All panels</title>'
            f"<style>{STYLE}</style><table><tr>{heads}</tr>{rows}</table></html>")


def photograph(path, names):
    """Write the page, and each picture of it, as PNG."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        chromium = play.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        page = chromium.new_page(viewport={"width": 3450, "height": 1200})
        page.goto(path.absolute().as_uri())
        page.screenshot(path=path.with_suffix(".png"), full_page=True, scale="css")
        for name in names:
            for size in SIZES:
                page.locator(f"#{name}-{size} > svg").screenshot(
                    path=path.with_name(f"{name}-{size}.png"))
        chromium.close()


def main(arguments):
    folder = Path(arguments[0] if arguments else "contact-sheet")
    folder.mkdir(parents=True, exist_ok=True)
    wanted = arguments[1:]
    drawings = {name: drawings_of(maker()) for name, maker in panel_makers().items()
                if not wanted or name in wanted}
    path = folder / "contact_sheet.html"
    path.write_text(page_of(drawings), encoding="utf-8")
    if CHROMIUM:
        photograph(path, drawings)
    print(f"{len(drawings)} panels at {len(SIZES)} sizes are in {path}.")


if __name__ == "__main__":
    main(sys.argv[1:])
