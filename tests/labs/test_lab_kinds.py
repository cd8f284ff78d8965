"""Kinds of step that lab 01 does not use: all that apply, a route on the bench, a written answer."""

from __future__ import annotations

import pytest
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback, Judged
from twostroke.lab.order import Order, Step
from twostroke.lab.page import Page
from twostroke.lab.pick import Option, Pick
from twostroke.lab.route import BenchRoute
from twostroke.lab.task import Lab, Task, Values
from twostroke.lab.written import Written

GIVEN = Variant("90", "someone", 1, {})


def _mark(item, answer):
    task = Task("t", "T", "o", "choice", 4, "safety", (item,), lambda v: Page(""))
    lab = Lab("90", "T", "q", 1, "a", "u", (task,), lambda d: {}, lambda v: Page(""))
    return task.mark(answer, GIVEN, Values(lab, GIVEN))


FLASH = Pick(
    "flash",
    "what a flash proves",
    (
        Option("current", "Current flows in the lead.", True, feedback=Feedback("a", "b", "c")),
        Option("lead", "The lead is whole as far as the lamp.", True, feedback=Feedback("a", "b", "c")),
        Option("plug", "The plug fires under pressure.", feedback=Feedback("Plug is trusted.", "b", "c")),
        Option("timing", "The timing is right.", feedback=Feedback("Timing is trusted.", "b", "c")),
    ),
    several=True,
)


def _letters(*names):
    letters = {option.id: letter for letter, option in FLASH.lettered(GIVEN).items()}
    return " ".join(letters[name] for name in names)


@pytest.mark.parametrize(
    ("names", "points", "slip"),
    [
        (("current", "lead"), 4.0, None),
        (("current",), 2.0, "lead"),
        (("current", "lead", "plug"), 2.0, "plug"),
        (("current", "plug"), 0.0, "plug"),
        (("current", "lead", "plug", "timing"), 0.0, "plug"),
    ],
)
def test_does_each_wrong_letter_take_away_what_a_right_one_gives(names, points, slip):
    mark = _mark(FLASH, _letters(*names))
    assert mark.points == points
    assert (mark.slip is None) == (slip is None)


def test_is_a_state_that_a_later_step_ends_no_longer_there():
    off = Step("off", "pull the lead off", gives=("lead off",))
    on = Step("on", "put the lead on", needs=("lead off",), gives=("lead on",), ends=("lead off",))
    turn = Step(
        "turn", "turn by hand", needs=("lead off",), feedback=Feedback("Turned with the lead on.", "b", "c")
    )
    item = Order("o", "order", (off, turn, on))
    letters = {step.id: letter for letter, step in item.lettered(GIVEN).items()}
    assert _mark(item, [letters["off"], letters["turn"], letters["on"]]).points == 4.0
    late = _mark(item, [letters["off"], letters["on"], letters["turn"]])
    assert (late.points, late.slip) == (3.0, "turn")


BEST = [{"action": "look"}, {"action": "spark_test"}]


def _replay(given, route):
    if any(step.get("reading") == "forged" for step in route):
        return Judged(0.0, "not right", Feedback("A reading is not of this engine.", "b", "c"), "forged")
    return Judged(len(route) / len(BEST), "right", Feedback("Right."))


ROUTE = BenchRoute("route", "route", _replay, lambda v: BEST)


def test_is_a_route_marked_by_replaying_it():
    assert _mark(ROUTE, {"route": BEST}).points == 4.0
    forged = _mark(ROUTE, {"route": [{"action": "look", "reading": "forged"}]})
    assert (forged.points, forged.slip) == (0.0, "forged")
    assert ROUTE.model(GIVEN, None) == ROUTE.truth(GIVEN, None) == BEST
    assert "recorded" in ROUTE.ask(GIVEN)


@pytest.mark.parametrize("answer", ["look", [1, 2], [{"reading": "3 V"}], [{"action": 3}]])
def test_is_a_route_of_another_form_refused_in_words(answer):
    mark = _mark(ROUTE, {"route": answer})
    assert (mark.points, mark.state) == (0.0, "cannot be read")
    assert "machine.route" in mark.message


def test_is_a_written_answer_left_to_a_person():
    item = Written("why", "why", (("names the risk", 1.0),), "Because fuel vapour burns.", fewest=3, most=10)
    mark = _mark(item, "Vapour is heavier than air.")
    assert (mark.points, mark.state) == (0.0, "needs a person")
    assert _mark(item, "Too short").state == "cannot be read"
    assert _mark(item, {"why": 3}).state == "cannot be read"
    assert "names the risk" in item.ask(GIVEN)
    assert item.model(GIVEN, None) == item.truth(GIVEN, None)
