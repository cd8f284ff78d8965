"""The examination handed in and graded: points come from the service's log, whatever the notebook says."""

from __future__ import annotations

import pytest
from exam_helpers import adviser, log_file, made, work_through
from twostroke import lab as labs
from twostroke.grading import invent, skeleton
from twostroke.grading.examination import place_of
from twostroke.grading.gradebook import read_rows
from twostroke.grading.place import Course
from twostroke.grading.run import grade
from twostroke.grading.states import Reason, State
from twostroke.lab import exam

pytestmark = pytest.mark.slow
LAB = "lab14"


def _answers(place, learner, receipt, typed=None):
    with exam.using(place.folder):
        model = labs.model_answers("14", learner)
    return typed or learner, model | {"bench": {"receipt": receipt}}


@pytest.fixture(scope="module")
def graded(tmp_path_factory):
    """A class of ten, each with another way of handing in."""
    folder = tmp_path_factory.mktemp("class")
    course = Course.at(folder / "home")
    place = made(place_of(course))
    trusted = skeleton.load(course.source_notebook(LAB))
    done = {}
    done["passed"] = _answers(place, "passed", work_through(place, "passed"))
    done["no-receipt"] = _answers(place, "no-receipt", work_through(place, "no-receipt") and "")
    done["copied"] = _answers(place, "passed", done["passed"][1]["bench"]["receipt"], typed="passed")
    done["forged"] = _answers(place, "forged", "9-ABCDEFGHIJ-KLMNOPQRST")
    done["nothing"] = ("nothing", {})
    done["open"] = _answers(place, "open", work_through(place, "open", close=False))
    steps, _ = adviser(place, "unsafe")
    bare = [(action, {**settings, "confirm": []}) for action, settings in steps]
    done["unsafe"] = _answers(place, "unsafe", work_through(place, "unsafe", steps=bare))
    done["edited"] = _answers(place, "edited", work_through(place, "edited"))
    file = log_file(place, "edited")
    file.write_text(file.read_text().replace('"money": 0.0', '"money": 0.5', 1))
    work_through(place, "retake", steps=[], fault=None)
    typed, answers = _answers(place, "retake", work_through(place, "retake", attempt=2))
    done["retake"] = (typed, answers)
    done["impossible"] = _answers(place, "impossible", "")
    attempts = {"retake": 2, "impossible": 2000}
    for learner, (typed, answers) in done.items():
        notebook = invent.fill(trusted, typed, answers)
        for cell in notebook.cells:
            cell.source = cell.source.replace("attempt = 1", f"attempt = {attempts.get(learner, 1)}")
        invent.put(folder / "inbox", learner, LAB, invent.as_bytes(notebook))
    summary = grade(LAB, folder / "inbox", course=course, trust=True)
    return course, {outcome.learner: outcome for outcome in summary.outcomes}


def _points(graded, learner, task="bench"):
    return next(each for each in graded[1][learner].tasks if each.task == task)


def _said(graded, learner):
    return " ".join(step.seen for step in _points(graded, learner).steps)


@pytest.mark.parametrize(
    ("learner", "points", "state"),
    [
        ("passed", 14.0, "right"),
        ("no-receipt", 14.0, "right"),
        ("copied", 0.0, "not right"),
        ("forged", 0.0, "not right"),
        ("nothing", 0.0, "empty"),
        ("open", 0.0, "not right"),
        ("unsafe", 0.0, "not right"),
        ("edited", None, "needs a person"),
        ("retake", 14.0, "right"),
    ],
)
def test_do_the_points_of_the_job_come_from_the_log(graded, learner, points, state):
    found = _points(graded, learner)
    assert (found.points, found.state) == (points, state), found.steps


def test_does_the_gradebook_hold_them(graded):
    known = read_rows(graded[0], LAB)
    assert known["passed"].grades["bench_mark"].points == 14.0
    assert known["copied"].grades["bench_mark"].points == 0.0


def test_is_work_under_another_name_seen(graded):
    reasons = {cause.reason for cause in graded[1]["copied"].causes}
    assert Reason.OTHER_LEARNER in reasons
    assert graded[1]["copied"].state is State.PERSON


def test_does_the_message_say_whether_it_is_passed(graded):
    assert _said(graded, "passed").startswith("Passed. Score ")
    assert "Not passed." in _said(graded, "unsafe")
    assert _points(graded, "passed", "safe").state == "right"
    assert _points(graded, "passed", "card").points == 5.0
    assert _points(graded, "open", "card").points == 2.0


def test_are_the_own_route_and_the_best_one_shown_once_it_is_marked(graded):
    course, outcomes = graded
    pair = outcomes["passed"].routes["bench"]
    assert [leg.title for leg in pair.mine] == [leg.title for leg in pair.best]
    assert pair.mine[-1].title == "Handed back"
    assert all(outcomes[name].routes == {} for name in ("open", "edited", "nothing", "impossible"))
    (page,) = (course.feedback / "passed" / LAB).glob("*.html")
    assert "<svg" in page.read_text(encoding="utf-8")
