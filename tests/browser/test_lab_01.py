"""Lab 01 in JupyterLab, as a learner does it: a name, an answer between the quotes, feedback at once."""

from __future__ import annotations

import json

import pytest

LAB = "labs/lab01/lab01.ipynb"


@pytest.fixture
def sheet(new_tab, jupyter):
    """The released lab, put back afterwards as it was laid out."""
    file = jupyter.workspace / LAB
    before = file.read_bytes()
    tab = new_tab(height=1400)
    tab.open(LAB)
    yield tab
    file.write_bytes(before)
    (jupyter.workspace / ".two-stroke" / "tries" / "lab01.json").unlink(missing_ok=True)


def _write(page, line: str, text: str, others: dict[str, str] | None = None) -> None:
    """Click behind the opening quote of a line, type, and run the cell."""
    for start, words in {line: text, **(others or {})}.items():
        page.locator(".jp-Notebook .cm-line", has_text=f"{start} = ").first.click()
        page.keyboard.press("Home")
        row = page.locator(".jp-Notebook .cm-line", has_text=f"{start} = ").first.inner_text()
        for _ in range(row.index('"') + 1):
            page.keyboard.press("ArrowRight")
        while not row[row.index('"') + 1 :].startswith('"'):
            page.keyboard.press("Delete")
            row = page.locator(".jp-Notebook .cm-line", has_text=f"{start} = ").first.inner_text()
        page.keyboard.type(words)
    page.keyboard.press("Shift+Enter")


def test_does_a_learner_get_a_machine_answer_and_feedback(sheet, jupyter):
    page = sheet.page
    _write(page, "learner", "learner07")
    page.get_by_text("Lab 01: Shop units").last.wait_for()
    page.keyboard.press("Shift+Enter")
    page.get_by_text("27 cm³ brush cutter, demo engine A").first.wait_for()
    for _ in range(2):
        page.keyboard.press("Shift+Enter")
    page.get_by_role("rowheader", name="air gap, magnet to module").wait_for()

    others = {"compression": "11.3 bar", "torque": "3.4 N·m", "storage": "36 degC"}
    _write(page, "air_gap", "0.15", others)
    page.get_by_text("Form: something to mend").first.wait_for()
    _write(page, "air_gap", "0.15 mm")
    page.get_by_text("Form: right").first.wait_for()
    for _ in range(2):
        page.keyboard.press("Shift+Enter")
    page.get_by_text("A thou was taken for a hundredth of a millimetre.").first.wait_for()
    page.get_by_text("Try 1.").first.wait_for()

    tries = json.loads(
        (jupyter.workspace / ".two-stroke" / "tries" / "lab01.json").read_text(encoding="utf-8")
    )
    assert tries["learner07 1"]["metric"][0]["slip"] == "thou_as_hundredth_mm"


def test_is_a_missing_quote_told_in_plain_words(sheet):
    page = sheet.page
    page.locator(".jp-Notebook .cm-line", has_text="learner = ").first.click()
    page.keyboard.press("End")
    page.keyboard.press("Shift+Enter")
    page.get_by_text("First write your name or number").first.wait_for()
    page.locator(".jp-Notebook .cm-line", has_text="learner = ").first.click()
    page.keyboard.press("End")
    page.keyboard.press("Backspace")
    page.keyboard.press("Shift+Enter")
    page.get_by_text("a quote or bracket is missing").first.wait_for()
    assert page.get_by_text("Traceback").count() == 0
