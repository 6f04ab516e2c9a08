"""What a lesson shows where no kernel runs: saved and opened again, and exported as HTML."""

import json

import nbformat
import pytest
from conftest import ROOT, open_and_run
from looking import picture

LESSONS = sorted((ROOT / "lessons").glob("*.ipynb"))
DRAWN = """() => [...document.querySelectorAll('figure img')].map(
    (image) => [image.complete && image.naturalWidth > 0 && image.offsetHeight > 40, image.alt])"""


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.name[:2])
def test_an_export_shows_the_still_pictures_without_network(page, path, tmp_path):
    from nbconvert import HTMLExporter

    book = nbformat.read(path, as_version=4)
    kept = sum("data:image/svg+xml" in json.dumps(cell.get("outputs", [])) for cell in book.cells)
    exported = tmp_path / "lesson.html"
    exported.write_text(HTMLExporter().from_notebook_node(book)[0], encoding="utf-8")
    page.route("http*://**", lambda route: route.abort())
    page.goto(exported.as_uri(), wait_until="domcontentloaded")
    page.wait_for_function("() => [...document.images].every(image => image.complete)")
    pictures = page.evaluate(DRAWN)
    assert len(pictures) >= kept >= 1
    assert all(drawn and len(words) > 20 for drawn, words in pictures)
    assert page.get_by_text("not for operating decisions").count() >= 1
    page.unroute("http*://**")


def test_a_saved_lesson_opened_without_a_kernel_shows_the_picture_that_was_left(page, lab):
    name = "03_why_the_glass_reads_low.ipynb"
    open_and_run(page, lab, name)
    page.get_by_role("radio", name="It sinks by about 55 mm").check()
    for label in ("Lock my prediction", "Reveal", "half pressure"):
        page.get_by_role("button", name=label, exact=True).click()
    page.wait_for_function(
        "() => !document.querySelector('figure img').alt.includes('194.9 mm')")
    left = page.locator("figure img").first.get_attribute("alt")
    page.keyboard.press("Control+s")
    saved = lab.folder / name
    for _ in range(100):
        if left in json.dumps(json.loads(saved.read_text("utf-8")), ensure_ascii=False):
            break
        page.wait_for_timeout(100)
    book = json.loads(saved.read_text("utf-8"))
    book["metadata"]["kernelspec"] = {"name": "none-here", "display_name": "None here",
                                      "language": "python"}
    (lab.folder / "no_kernel.ipynb").write_text(json.dumps(book), "utf-8")
    page.goto(f"{lab.address}/doc/workspaces/levelkit/tree/no_kernel.ipynb")
    page.get_by_role("button", name="No Kernel", exact=True).click()
    page.locator("figure img").first.wait_for()
    picture(page, "no-kernel-03")
    pictures = page.evaluate(DRAWN)
    assert all(drawn for drawn, _ in pictures)
    assert left in [words for _, words in pictures]
    assert page.get_by_text("by hand").count() >= 1, "the calculation is still there to read"
