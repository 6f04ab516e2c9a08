"""Every lesson runs in JupyterLab without an error, and every card is drawn."""

from pathlib import Path

import pytest
from conftest import ROOT, open_and_run

LESSONS = sorted(path.name for path in (Path(ROOT) / "lessons").glob("*.ipynb"))


@pytest.mark.parametrize("name", LESSONS)
def test_a_lesson_runs_and_shows_its_panels(page, lab, name):
    complaints = []
    page.on("pageerror", lambda fault: complaints.append(str(fault)))
    open_and_run(page, lab, name)
    assert page.locator("[data-mime-type='application/vnd.jupyter.stderr']").count() == 0
    assert page.get_by_text("Traceback (most recent call last)").count() == 0
    assert page.locator(".lk-panel").count() >= 4, "prediction, panel, self-check, exercise"
    assert page.locator(".lk-problem:not(:empty)").count() == 0
    assert page.locator("figure img").count() >= 1
    unnamed = page.evaluate("""() => [...document.querySelectorAll(
        '.lk-panel input, .lk-panel select, .lk-panel button')].filter(e => !(
            e.labels?.length || e.getAttribute('aria-label') || e.textContent.trim() || e.title))
        .map(e => e.outerHTML.slice(0, 120))""")
    assert unnamed == []
    assert complaints == []
