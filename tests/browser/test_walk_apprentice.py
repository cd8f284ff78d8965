"""From the workspace's start page to the feedback on lab 04, as an apprentice goes it."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest
from twostroke import lab as labs
from twostroke import workspace

pytest.importorskip("nbgrader", reason="grading needs the teach extra")

from twostroke.grading import invent, skeleton
from twostroke.grading.confine import Limits
from twostroke.grading.place import Course
from twostroke.grading.run import grade
from twostroke.grading.walls import find_walls

LEARNER = "learner07"
LAB = "labs/lab04/lab04.ipynb"
HERE = ".jp-NotebookPanel:not(.lm-mod-hidden)"
WAY = [  # each page, and the words of the link that leads to it from the page before
    ("lessons/01_shop_units.ipynb", "lesson 01, Shop units"),
    ("lessons/02_two_stroke_cycle.ipynb", "lesson 02, The two-stroke cycle"),
    ("lessons/03_magnet_to_spark.ipynb", "lesson 03, From magnet to spark"),
    ("lessons/04_spark_gap.ipynb", "lesson 04, The spark gap"),
]


@pytest.fixture
def look(tmp_path: Path):
    """Takes a picture of a step; TWOSTROKE_PICTURES names a folder to keep them in."""
    kept = Path(os.environ.get("TWOSTROKE_PICTURES", tmp_path))
    kept.mkdir(parents=True, exist_ok=True)

    def take(page, name: str) -> None:
        page.screenshot(path=kept / f"apprentice_{name}.png")

    return take


def _run_all(page) -> None:
    """Run, then Run All Cells, in the menu, as every lesson begins."""
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.locator(".lm-Menu-itemLabel", has_text=re.compile("^Run All Cells$")).click()


def _go_on(page, words: str, path: str) -> None:
    """Press a link below "Go on" and wait for the page that it opens, and for its kernel."""
    page.locator(f"{HERE} .jp-RenderedMarkdown").get_by_role("link", name=words, exact=True).click()
    page.wait_for_function(
        """path => {
            const now = window.jupyterapp.shell.currentWidget;
            const session = now && now.context && now.context.path === path && now.sessionContext.session;
            return session && session.kernel && session.kernel.status === 'idle';
        }""",
        arg=path,
    )


def _type_between_quotes(page, name: str, words: str) -> None:
    """Click at the end of a line such as `open = ""  # …`, walk to its quotes, type, Shift and Enter."""
    line = page.locator(f"{HERE} .cm-line", has_text=re.compile(rf'^{name} = "')).first
    line.scroll_into_view_if_needed()
    line.click()
    page.keyboard.press("Home")
    before, _, held = line.inner_text().partition('"')
    for _ in range(len(before) + 1):
        page.keyboard.press("ArrowRight")
    for _ in held.partition('"')[0]:
        page.keyboard.press("Delete")
    page.keyboard.type(words)


def _fill_cell(page, grade_id: str, source: str) -> None:
    """Put what was filled in into the cell with this grade id and run it."""
    page.evaluate(
        """async ([grade, source]) => {
            const notebook = window.jupyterapp.shell.currentWidget.content;
            const place = notebook.widgets.findIndex(
                one => (one.model.getMetadata('nbgrader') || {}).grade_id === grade);
            if (place < 0) throw new Error('no cell ' + grade);
            notebook.activeCellIndex = place;
            notebook.activeCell.model.sharedModel.setSource(source);
            await window.jupyterapp.commands.execute('notebook:run-cell');
            notebook.activeCell.node.scrollIntoView({block: 'center'});
        }""",
        [grade_id, source],
    )


@pytest.mark.slow
def test_does_the_way_from_the_start_page_to_feedback_hold(new_tab, fresh, chromium, tmp_path, look) -> None:
    trusted = skeleton.load(Course.at().source_notebook("lab04"))
    model = labs.model_answers("04", LEARNER)
    wrong = {**model, "demand": {**model["demand"], "open": "1 kV"}}
    filled = invent.fill(trusted, LEARNER, wrong)

    tab = new_tab(height=1200)
    page = tab.page
    tab.open(workspace.START)
    _run_all(page)
    page.get_by_role("navigation", name="Map of the course").wait_for()
    page.get_by_role("region", name="Exit check of lesson 00").wait_for()
    look(page, "1_start_here")
    for path, words in WAY:
        _go_on(page, words, path)
    _run_all(page)
    page.locator(HERE).get_by_role("region", name="Exit check of lesson 04").wait_for()
    look(page, "2_lesson_04")
    assert page.get_by_text("Traceback").count() == 0

    file = fresh.workspace / LAB
    before = file.read_bytes()
    try:
        _go_on(page, "lab 04", LAB)
        look(page, "3_lab_as_handed_out")
        _type_between_quotes(page, "learner", LEARNER)
        page.keyboard.press("Shift+Enter")
        page.get_by_text(f"Opened for {LEARNER}").wait_for()
        _type_between_quotes(page, "steps", "d")
        page.keyboard.press("Shift+Enter")
        page.get_by_text('"d" can be read: 1 step.').first.wait_for()
        look(page, "4_typed")
        for grade_id in invent.answer_cells(trusted).values():
            _fill_cell(page, grade_id, invent.cell_of(filled, grade_id).source)
        tab.run_all()
        page.get_by_text("Try 1.").first.wait_for()
        look(page, "5_lab_filled")
        _fill_cell(page, "all_check", "work.check()")
        page.get_by_text("What you hand in is the file labs/lab04/lab04.ipynb").first.wait_for()
        page.get_by_text("up to 4 points once a person has read it").wait_for()
        look(page, "6_before_handing_in")
        assert page.get_by_text("Traceback").count() == 0
        page.evaluate("() => window.jupyterapp.commands.execute('docmanager:save')")
        handed_in = file.read_bytes()
    finally:
        file.write_bytes(before)
        (fresh.workspace / ".two-stroke" / "tries" / "lab04.json").unlink(missing_ok=True)

    inbox = tmp_path / "inbox"
    invent.put(inbox, LEARNER, "lab04", handed_in)
    course = Course.at(tmp_path / "class")
    trust = find_walls().mode != "walled"
    summary = grade("lab04", inbox, course=course, trust=trust, limits=Limits(total_seconds=120.0))
    (outcome,) = summary.outcomes
    assert outcome.learner == LEARNER
    assert 0 < outcome.points < 25, outcome

    (sheet,) = course.feedback.rglob("*.html")
    context = chromium.new_context(viewport={"width": 1000, "height": 1400})
    try:
        read = context.new_page()
        read.goto(sheet.as_uri())
        look(read, "7_feedback")
        words = read.locator("body").inner_text()
    finally:
        context.close()
    assert "open air" in words
    assert "It suggests" in words, "a wrong value is answered with what was seen"
    assert f"{outcome.points:g} of 25 points so far" in words
    assert "Traceback" not in words
