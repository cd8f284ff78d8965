"""Laws of the belief and the adviser, and what bad input gets."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from twostroke import TwoStrokeError
from twostroke.isolation import Belief, ContradictionError, Planner
from twostroke.isolation.lookahead import Situation, lookahead_of
from twostroke.table import TableError, load_table

OWN = load_table()
few = settings(max_examples=25, deadline=None)
complaints = st.sampled_from([None, *OWN.complaints])


@st.composite
def readings(draw, most=5):
    names = draw(st.lists(st.sampled_from(sorted(OWN.tests)), min_size=1, max_size=most, unique=True))
    return [(name, draw(st.sampled_from(OWN.tests[name].results))) for name in names]


@few
@given(kind=complaints, seen=readings(), pairs=st.booleans())
def test_are_chances_always_chances(kind, seen, pairs):
    belief = Belief(OWN, kind, pairs)
    for test, result in seen:
        try:
            belief.update(test, result)
        except ContradictionError:
            break
        assert np.isfinite(belief.vector).all()
        assert belief.vector.min() >= 0
        assert belief.vector.sum() == pytest.approx(1.0, abs=1e-12)
        assert all(0 <= chance <= 1 + 1e-12 for chance in belief.probabilities().values())


@few
@given(seen=readings(4))
def test_does_the_order_of_readings_not_matter(seen):
    """Readings under the same conditions are independent given the fault."""
    vectors = []
    for order in itertools.islice(itertools.permutations(seen), 6):
        belief = Belief(OWN, "no_start")
        try:
            for test, result in order:
                belief.update(test, result, "cold")
        except ContradictionError:
            return
        vectors.append(belief.vector)
    for vector in vectors[1:]:
        assert vector == pytest.approx(vectors[0], abs=1e-12)


@few
@given(kind=complaints, seen=readings(3))
def test_is_information_never_negative(kind, seen):
    belief = Belief(OWN, kind)
    try:
        for test, result in seen:
            belief.update(test, result)
    except ContradictionError:
        return
    ahead = lookahead_of(belief.model, kind)
    bits = ahead.information(Situation(belief.vector, belief.place, belief.repeated))
    assert bits.min() >= 0


def test_is_information_the_mean_fall_of_doubt(form):
    """H(belief) less the mean of H(belief after the result), straight from the definition."""
    belief = Belief(form, "no_start")
    ahead = lookahead_of(belief.model, "no_start")
    bits = dict(zip(ahead.tests, ahead.information(Situation(belief.vector, belief.place)), strict=True))

    def doubt(vector):
        held = vector[vector > 0]
        return float(-(held * np.log2(held)).sum())

    for test in ("spark_cold", "plug_look", "dose_start", "spark_hot"):
        after = sum(
            chance * doubt(belief.copy().update(test, result).vector)
            for result, chance in belief.foretell(test).items()
            if chance > 0
        )
        assert bits[test] == pytest.approx(doubt(belief.vector) - after, abs=1e-9)


def test_is_a_fault_that_is_not_acting_seen_as_a_sound_machine(form):
    belief = Belief(form, pairs=False)
    model = belief.model
    fault = model.index["module_heat"]
    test = form.tests["spark_hot"]
    for condition, acts in (("cold", 0.04), ("hot", 0.9), ("shake", 0.1)):
        mixed = [acts * a + (1 - acts) * b for a, b in zip(test.hits["module_heat"], test.base, strict=True)]
        assert model.likelihood("spark_hot", condition)[fault] == pytest.approx(mixed)
    looked = model.likelihood("boot_check", "cold")[model.index["boot_loose"]]
    assert looked == pytest.approx(form.tests["boot_check"].hits["boot_loose"])


@pytest.mark.parametrize(
    ("test", "present", "expected"),
    [
        ("spark_cold", "hot", "cold"),
        ("spark_hot", "cold", "hot"),
        ("spark_shake", "hot", "shake"),
        ("heat_module", "cold", "hot"),
        ("plug_look", "cold", "cold"),
        ("plug_look", "hot", "hot"),
    ],
)
def test_in_which_condition_is_a_test_run_when_none_is_said(form, test, present, expected):
    assert form.tests[test].condition(present) == expected


def test_are_heating_and_covers_remembered(form):
    belief = Belief(form, "dies_hot").update("spark_hot", "none").update("air_gap", "in_range")
    assert belief.place.temperature == "hot"
    assert "top_cover" in belief.place.opened
    model = belief.model
    assert model.test_step("magnet_pull", belief.place)[0] == 1
    assert model.test_step("spark_cold", belief.place)[0] == 3 + 20


def test_does_a_repair_move_a_pair_to_the_fault_that_is_left(form):
    belief = Belief(form, "no_start")
    model = belief.model
    pair = model.pair_number("plug_fouled", "flooded")
    vector = np.zeros(model.states)
    vector[pair] = 1.0
    after = model.after_repair(vector, "swap_plug")
    assert after[model.index["flooded"]] == pytest.approx(0.98)
    assert after[pair] == pytest.approx(0.02)
    after = model.after_repair(vector, "clear_flood")
    assert after[model.fixed] == pytest.approx(0.95 * 0.15)
    assert after.sum() == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: Belief(OWN, "no_strt"), "no_start"),
        (lambda: Belief(OWN).update("plug_lok", "wet"), "plug_look"),
        (lambda: Belief(OWN).update("plug_look", "soaked"), "wet"),
        (lambda: Belief(OWN).update("plug_look", "wet", "warmish"), "hot"),
        (lambda: Belief(OWN).probability("module_ded"), "module_dead"),
        (lambda: Belief(OWN).repair("swap_plugs"), "swap_plug"),
        (lambda: Belief(OWN).set_aside("plug_look"), "reading so far"),
        (lambda: Planner(OWN, depth=3), "1 or 2"),
        (lambda: Planner(OWN).rank(Belief(OWN.replaced(tests={}))), "another table"),
    ],
)
def test_does_a_wrong_name_get_the_right_ones(call, words):
    with pytest.raises(TwoStrokeError, match=words):
        call()


@pytest.fixture
def strict(make):
    """Perfect tests, so that readings can exclude each other."""
    tests = {
        name: {"minutes": 1, "results": ["fine", "bad"], "base": [1.0, 0.0], "hits": {fault: [0.0, 1.0]}}
        for name, fault in (("spark", "dead"), ("fuel", "empty"), ("air", "closed"))
    }
    repairs = {f"fix_{fault}": {"minutes": 1, "fixes": {fault: 1.0}} for fault in ("dead", "empty", "closed")}
    return make({"dead": 10, "empty": 10, "closed": 10}, tests, repairs)


def test_are_the_readings_named_that_cannot_all_be_true(strict):
    belief = Belief(strict, pairs=False).update("air", "fine").update("spark", "bad")
    before = belief.vector.copy()
    with pytest.raises(ContradictionError, match="cannot all be true") as caught:
        belief.update("fuel", "bad")
    assert len(caught.value.readings) == 2
    assert not any("air" in reading for reading in caught.value.readings)
    assert "set_aside('spark')" in str(caught.value)
    assert (belief.vector == before).all()
    belief.set_aside("spark").update("fuel", "bad")
    assert belief.probability("empty") == pytest.approx(1.0)


def test_is_a_result_that_nothing_can_give_called_that(make):
    tests = {"look": {"minutes": 1, "results": ["fine", "never"], "base": [1.0, 0.0]}}
    table = make({"any": 10}, tests, {"fix": {"minutes": 1, "fixes": {"any": 1.0}}})
    with pytest.raises(ContradictionError, match="no fault of this table can give that result") as caught:
        Belief(table).update("look", "never")
    assert len(caught.value.readings) == 1


def test_is_a_failed_verify_after_a_certain_cure_a_contradiction(strict):
    belief = Belief(strict, pairs=False).update("spark", "bad").repair("fix_dead")
    with pytest.raises(ContradictionError, match="verify run"):
        belief.verify(False)
    belief.verify(True)
    assert belief.cured == pytest.approx(1.0)


def test_does_the_adviser_ask_for_the_verify_run_after_a_repair(own):
    belief = (
        Belief(own, "no_start").update("known_good_plug", "none").update("stop_lead_off", "spark_returns")
    )
    belief.repair("replace_switch")
    assert Planner(own).rank(belief)[0].action == "verify"
    assert Planner(own).rank(belief.verify(True))[0].action == "hand_back"


def test_may_a_table_be_read_twice(form, form_path):
    again = load_table(form_path)
    assert Planner(again).rank(Belief(form, "no_start"))[0].action == "spark_cold"


def test_are_wrong_readings_tables_errors(strict):
    assert issubclass(ContradictionError, TableError)
