"""Lab 11 against the library and against plain counting: are the right values right?"""

from __future__ import annotations

from itertools import product

import pytest
from twostroke import lab, resistance, verdict
from twostroke.lab.task import Values

LEARNERS = [f"learner {number}" for number in range(12)]


def _values(learner):
    given = lab.variant("11", learner)
    return given, Values(lab.load("11"), given)


@pytest.mark.parametrize("learner", LEARNERS)
def test_are_the_clean_starts_those_of_the_library(learner):
    given, right = _values(learner)
    chance = given["trial_failed"] / given["trial_starts"]
    assert right["clean.needed"] == verdict.clean_trials(chance, given["trial_confidence_percent"] / 100)
    within = verdict.chance_within(chance, given["trial_tries"])
    assert right["clean.within"] == pytest.approx(100 * within)


def test_does_a_worked_case_come_out():
    # p = 0.30 in each of five independent turns: 1 - 0.7^5 = 0.83193
    from twostroke.lab.draw import Variant
    from twostroke.lab.lab11_trials import CLEAN

    given = Variant("11", "x", 1, {"trial_tries": 5, "trial_confidence_percent": 95})
    _, within, needed = CLEAN.items
    assert within.truth(given, {"clean.chance": 30.0}) == pytest.approx(83.193, abs=1e-3)
    assert needed.truth(given, {"clean.chance": 30.0}) == 9


@pytest.mark.parametrize("learner", LEARNERS[:6])
def test_is_the_doubt_what_counting_all_results_of_the_starts_gives(learner):
    given, right = _values(learner)
    chance, doubt = given["trial_failed"] / given["trial_starts"], given["doubt_percent"] / 100
    weight = {"there": 0.0, "gone": 1 - doubt}
    for starts in product((True, False), repeat=given["doubt_clean"]):
        share = doubt
        for clean in starts:
            share *= 1 - chance if clean else chance
        if all(starts):
            weight["there"] += share
    assert right["still.still"] == pytest.approx(100 * weight["there"] / sum(weight.values()))


@pytest.mark.parametrize("learner", LEARNERS)
def test_is_hot_copper_that_of_the_library(learner):
    given, right = _values(learner)
    cold, hot = given["cold_hundredths_kohm"] / 100, given["hot_hundredths_kohm"] / 100
    there = resistance.at_temperature(
        f"{cold} kohm", f"{given['cold_degC']} degC", f"{given['hot_degC']} degC"
    )
    assert right["copper.expected"] == pytest.approx(there.to("kohm").magnitude, rel=1e-6)
    back = resistance.at_temperature(f"{hot} kohm", f"{given['hot_degC']} degC", "20 degC")
    assert right["copper.at_20"] == pytest.approx(back.to("kohm").magnitude, rel=1e-6)
    off = hot / right["copper.expected"] - 1
    assert {"copper": abs(off) < 0.02, "opening": off > 0.1, "shorting": off < -0.08}[given["copper_case"]]


@pytest.mark.parametrize("learner", LEARNERS)
def test_does_the_line_between_the_two_rows_pass_half_of_the_pulls(learner):
    import numpy as np

    given, right = _values(learner)
    found = np.interp(given["log_pulls"] / 2, given["log_missed"], (20, 40, 60, 80, 100))
    assert right["log.half"] == pytest.approx(float(found))


def test_does_one_mistake_in_the_chance_cost_once():
    given, right = _values("learner 4")
    model = lab.model_answers("11", "learner 4")
    chance = 100 - right["clean.chance"]
    within = 100 * (1 - (1 - round(chance) / 100) ** given["trial_tries"])
    needed = verdict.clean_trials(round(chance) / 100, given["trial_confidence_percent"] / 100)
    clean = {"chance": f"{chance:.0f} %", "within": f"{within:.0f} %", "needed": str(needed)}
    marks = {mark.task: mark for mark in lab.mark_answers("11", "learner 4", {**model, "clean": clean})}
    assert marks["clean"].points == pytest.approx(4.5)
    assert marks["clean"].slip == "clean_for_failed"


@pytest.mark.parametrize("chance", ["0 %", "100 %", "5000 %"])
def test_is_an_impossible_chance_marked_without_a_stumble(chance):
    model = lab.model_answers("11", "learner 4")
    wrong = {**model, "clean": {**model["clean"], "chance": chance}}
    states = {mark.state for mark in lab.mark_answers("11", "learner 4", wrong)}
    assert "needs a person" not in states
