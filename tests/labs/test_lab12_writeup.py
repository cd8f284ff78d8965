"""Lab 12 against plain bookkeeping: are the right values right, and does one mistake cost once?"""

from __future__ import annotations

from decimal import Decimal

import pytest
from twostroke import lab, units
from twostroke.lab import lab12_card, lab12_estimate, lab12_verify
from twostroke.lab.task import Values

LEARNERS = [f"learner {number}" for number in range(12)]


def _values(learner):
    given = lab.variant("12", learner)
    return given, Values(lab.load("12"), given)


@pytest.mark.parametrize("learner", LEARNERS)
def test_is_the_estimate_that_of_decimal_bookkeeping(learner):
    given, right = _values(learner)
    labour = Decimal(sum(given["minutes"])) * given["rate_per_hour"] / 60
    net = labour + sum(given["parts"])
    total = net * (100 + given["tax_percent"]) / 100
    assert right["estimate.labour"] == pytest.approx(float(labour))
    assert right["estimate.net"] == pytest.approx(float(net))
    assert right["estimate.total"] == pytest.approx(float(total))
    assert right["advice.share"] == pytest.approx(float(100 * total / given["like_machine"]))


@pytest.mark.parametrize("learner", LEARNERS)
def test_does_the_advice_follow_the_rule_that_is_told(learner):
    given, right = _values(learner)
    assert (right["advice.share"] < lab12_estimate.RULE) == (given["advice"] == "repair")
    assert abs(right["advice.share"] - lab12_estimate.RULE) > 5


@pytest.mark.parametrize("learner", LEARNERS)
def test_are_the_minutes_of_the_card_those_of_the_unit_registry(learner):
    given, right = _values(learner)
    hours, rest = given["card_mend"]
    whole = (
        units.read(f"{hours} h")
        + units.read(f"{rest} min")
        + units.read(f"{given['card_find_min'] + given['card_prove_min']} min")
    )
    assert right["card.minutes"] == pytest.approx(float(whole.to("min").magnitude))


@pytest.mark.parametrize("learner", LEARNERS)
def test_does_the_card_show_what_is_flawed_and_nothing_else(learner):
    given, _ = _values(learner)
    table = lab12_card.show(given).blocks[0]
    for (_, _, written), (key, (_, sound)) in zip(table.rows, lab12_card.LINES.items(), strict=True):
        assert (written != sound) == (key in given["card_flaws"])
    assert len(set(given["card_flaws"])) == lab12_card.FLAWED


def test_does_every_complaint_ask_for_its_own_condition():
    asked = {
        name: {key for key, (_, where) in lab12_verify.PROOFS.items() if name in where}
        for name in lab12_verify.COMPLAINTS
    }
    always = {"measured", "cold", "stop"}
    assert asked == {
        "no_start": always,
        "dies_hot": always | {"hot"},
        "shaken": always | {"shake"},
    }


def test_does_an_hour_read_as_a_decimal_cost_once():
    given, _ = _values("learner 2")
    model = lab.model_answers("12", "learner 2")
    labour = lab12_estimate._clock(given) * given["rate_per_hour"]
    net = labour + sum(given["parts"])
    estimate = {
        "labour": f"{labour:.2f}",
        "net": f"{net:.2f}",
        "total": f"{net * (1 + given['tax_percent'] / 100):.2f}",
    }
    marks = {mark.task: mark for mark in lab.mark_answers("12", "learner 2", {**model, "estimate": estimate})}
    assert marks["estimate"].points == pytest.approx(5 * 2 / 3, abs=1e-3)
    assert marks["estimate"].slip == "clock_as_decimal"
    assert marks["advice"].points == marks["advice"].max_points
