"""Is what is handed out nbgrader's own release, without solution or hidden test, and in the gradebook?"""

from __future__ import annotations

import json
import shutil

import pytest
from twostroke.grading import gradebook, release, skeleton
from twostroke.grading.gradebook import read_rows
from twostroke.grading.place import Course
from twostroke.grading.run import grade
from twostroke.grading.states import GradingError


@pytest.fixture
def course(tmp_path):
    """A course with a source folder of its own."""
    here = Course.at()
    shutil.copytree(here.source / "lab01", tmp_path / "source" / "lab01")
    return Course.at(tmp_path / "home", tmp_path / "source", tmp_path / "release")


def change(course: Course, what) -> None:
    path = course.source_notebook("lab01")
    notebook = json.loads(path.read_text(encoding="utf-8"))
    what(notebook)
    path.write_text(json.dumps(notebook), encoding="utf-8")


def test_is_the_release_byte_by_byte_the_committed_one(course):
    (made,) = release("1", course=course)
    committed = Course.at().release / "lab01" / "lab01.ipynb"
    assert made.notebook.read_bytes() == committed.read_bytes()
    assert (made.tasks, made.points) == (8, 24)


def test_does_the_gradebook_know_the_lab_afterwards(course):
    release(course=course)
    trusted = skeleton.load(course.source_notebook("lab01"))
    assert gradebook.is_registered(course, trusted)


def test_is_a_lab_that_is_not_there_named(course):
    with pytest.raises(GradingError, match="labs there: lab01"):
        release("02", course=course)


def test_is_a_course_without_labs_told_what_to_do(tmp_path):
    with pytest.raises(GradingError, match="twostroke build"):
        release(course=Course.at(tmp_path, tmp_path, tmp_path))


def test_is_a_lab_with_a_broken_region_not_handed_out(course):
    def spoil(notebook):
        for cell in notebook["cells"]:
            if "BEGIN HIDDEN TESTS" in "".join(cell["source"]):
                cell["source"] = "### BEGIN HIDDEN TESTS\nwork.mark('metric')"
                return

    change(course, spoil)
    with pytest.raises(GradingError, match="not a lab that can be graded"):
        release("01", course=course)
    assert not (course.release / "lab01").exists()


def test_are_other_files_of_a_lab_handed_out_and_there_in_grading(course, trusted, tmp_path):
    from twostroke import lab as labs
    from twostroke.grading import invent

    (course.source / "lab01" / "data").mkdir()
    (course.source / "lab01" / "data" / "trace.csv").write_text("t,u\n0,1\n")
    (made,) = release("01", course=course)
    assert (made.notebook.parent / "data" / "trace.csv").read_text() == "t,u\n0,1\n"
    notebook = invent.fill(trusted, "learner-01", labs.model_answers("01", "learner-01"))
    cell = invent.cell_of(notebook, "metric")
    cell.source = f"assert open('data/trace.csv').read().startswith('t,u')\n{cell.source}"
    invent.put(tmp_path / "inbox", "learner-01", "lab01", invent.as_bytes(notebook))
    (outcome,) = grade("01", tmp_path / "inbox", course=course, trust=True).outcomes
    assert outcome.points == 24


def test_do_marks_stay_when_the_lab_gets_other_cells(course, trusted, tmp_path):
    from twostroke.grading import invent

    invent.put(tmp_path / "inbox", "learner-01", "lab01", invent.as_bytes(invent.blank(trusted)))
    grade("01", tmp_path / "inbox", course=course, trust=True)
    change(course, lambda notebook: notebook["cells"].pop(9))
    with pytest.raises(GradingError, match="its cells changed"):
        release("01", course=course)
    grades = read_rows(course, "lab01")["learner-01"].grades.values()
    assert {row.points for row in grades} == {0.0}
