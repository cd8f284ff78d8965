"""Is every lab graded, with all points for the model answers and none for it as handed out?"""

from __future__ import annotations

import pytest
from twostroke import lab as labs
from twostroke.grading import invent, skeleton
from twostroke.grading.examination import place_of
from twostroke.grading.gradebook import read_rows
from twostroke.grading.place import Course
from twostroke.grading.run import grade
from twostroke.grading.states import Reason, State
from twostroke.lab import exam
from twostroke.lab.bench_job import model_route
from twostroke.lab.exam.cases import draw
from twostroke.lab.exam.sitting import Sitting

LABS = Course.at().labs()


def _model(course: Course, number: str) -> dict:
    """Model answers; in the examination the job is done first, on its own side."""
    if labs.load(number).practice:
        return labs.model_answers(number, "learner-01")
    place = exam.Place.make(place_of(course))
    sitting = Sitting(place, "learner-01", 1)
    route = model_route(draw(place.draws, "learner-01"), pairs=True)
    for step, record in enumerate(route[:-1]):
        settings = {**record["settings"], "confirm": record["cautions_confirmed"]}
        assert sitting.do(step, record["action"], settings)["done"]
    receipt = sitting.hand_back(len(route) - 1, route[-1]["diagnosis"], 0.9)["receipt"]
    with exam.using(place.folder):
        return labs.model_answers(number, "learner-01") | {"bench": {"receipt": receipt}}


# The way of every lab by commands, wrong answers too, is tests/labs/test_hand_through.py. Here one lab with
# numbers alone, one with a written answer, and the examination.
_SLOW = ("lab01", "lab04", "lab14")


@pytest.mark.parametrize(
    "lab", [pytest.param(lab, marks=pytest.mark.slow if lab in _SLOW else pytest.mark.long) for lab in LABS]
)
def test_does_the_model_answer_earn_every_point(tmp_path, lab):
    course = Course.at(tmp_path / "home")
    trusted = skeleton.load(course.source_notebook(lab))
    number = lab.removeprefix("lab")
    model = _model(course, number)
    for learner, answers in (("learner-01", model), ("learner-02", {})):
        notebook = invent.fill(trusted, learner, answers)
        invent.put(tmp_path / "inbox", learner, lab, invent.as_bytes(notebook))
    found = {o.learner: o for o in grade(lab, tmp_path / "inbox", course=course, trust=True).outcomes}
    right, untouched = found["learner-01"], found["learner-02"]
    waiting = [task for task in right.tasks if task.waits]
    for task in right.tasks:
        assert task in waiting or task.points == task.max_points, f"{task.task}: {task.steps}"
    assert right.max_points == trusted.max_points
    if waiting:
        assert (right.state, right.final_points) == (State.PERSON, None)
        assert {cause.reason for cause in right.causes} == {Reason.WRITTEN}
        known = read_rows(course, lab)["learner-01"]
        assert all(known.grades[task.grade_id].due for task in waiting)
        assert all(known.grades[task.grade_id].points is None for task in waiting)
    else:
        assert right.state is State.GRADED
    assert untouched.state is State.GRADED
    assert untouched.points == 0
    assert right.notes == untouched.notes == []
