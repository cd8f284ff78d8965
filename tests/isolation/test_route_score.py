"""The score of a route: rules, sentences, and the law that luck is taken out fairly."""

from __future__ import annotations

import re
from dataclasses import dataclass

import numpy as np
import pytest
from twostroke.isolation import Belief, score_route
from twostroke.isolation.learners import Engine, expert, simulate
from twostroke.isolation.lookahead import Situation
from twostroke.isolation.model import model_of
from twostroke.isolation.references import Reference
from twostroke.isolation.route import read_route
from twostroke.isolation.walk import Walk
from twostroke.table import TableError, load_table

GOOD = [
    {"action": "spark_cold", "result": "none"},
    {"action": "stop_lead_off", "result": "spark_returns"},
    {"action": "replace_switch"},
    {"action": "verify", "result": "runs"},
    {"action": "hand_back", "diagnosis": "stop_switch", "confidence": 0.9},
]


def test_does_a_good_route_pass(form):
    done = score_route(form, "no_start", GOOD, truth=["stop_switch"])
    assert done.passed
    assert done.safe
    assert done.verified
    assert done.score >= 70
    assert len(done.feedback) == len(GOOD)
    assert done.confidence == pytest.approx(1 - 0.1**2)


def test_is_a_repair_with_its_outcome_the_same_as_repair_and_verify(form):
    short = [*GOOD[:2], {"action": "replace_switch", "result": "fixed"}]
    one, two = score_route(form, "no_start", GOOD), score_route(form, "no_start", short)
    assert one.adjusted_cost == pytest.approx(two.adjusted_cost, abs=1e-6)
    assert two.passed


def test_is_a_repair_that_left_everything_as_it_was_only_time(form):
    begun = Walk(form, "no_start", False)
    done = Walk(form, "no_start", False)
    for number, record in enumerate(GOOD[:2], start=1):
        for walk in (begun, done):
            walk.take(read_route(form, [record])[0], number)
    before, cost = begun.belief.probabilities(), begun.raw
    begun.take(read_route(form, [{"action": "replace_switch", "result": "undone"}])[0], 3)
    done.take(read_route(form, [{"action": "replace_switch"}])[0], 3)
    assert begun.belief.probabilities() == pytest.approx(before)
    assert begun.belief.cured == 0.0 < done.belief.cured
    row = form.repairs["replace_switch"]
    assert begun.raw - cost == pytest.approx(row.minutes * form.meta.money_per_minute)
    assert done.raw - begun.raw == pytest.approx(row.part)
    assert begun.feedback[-1].lost > 0
    assert "Everything is as it was" in begun.feedback[-1]


def test_are_the_cautions_of_a_repair_asked_for_although_it_could_not_take():
    table = load_table()
    record = {"action": "fresh_fuel", "result": "undone"}
    for kept, safe in (([], False), (table.repairs["fresh_fuel"].hazards, True)):
        walk = Walk(table, "no_start", False)
        walk.take(read_route(table, [record | {"cautions": kept}])[0], 1)
        assert walk.safe is safe


def test_do_objects_do_as_well_as_dicts(form):
    @dataclass
    class Record:
        action: str
        result: str | None = None
        temperature: str = "21 degC"
        minutes: float = 3.0

    records = [Record(row["action"], row.get("result")) for row in GOOD]
    dicts = score_route(form, "no_start", GOOD[:4])
    assert score_route(form, "no_start", records[:4]).adjusted_cost == pytest.approx(dicts.adjusted_cost)


def test_is_the_feedback_the_same_to_the_byte(form):
    one, two = score_route(form, "no_start", GOOD), score_route(form, "no_start", GOOD)
    assert list(one.feedback) == list(two.feedback)
    assert one.summary == two.summary
    assert one.score == two.score


def test_does_a_missed_precaution_fail_the_job_for_good(form):
    bare = [dict(GOOD[0], cautions=[]), *GOOD[1:]]
    kept = [dict(GOOD[0], cautions=["spark_near_fuel"]), *GOOD[1:]]
    missed, fine = score_route(form, "no_start", bare), score_route(form, "no_start", kept)
    assert not missed.passed
    assert not missed.safe
    assert missed.feedback[0].missed == ("spark_near_fuel",)
    assert form.hazards["spark_near_fuel"].caution in missed.feedback[0]
    assert missed.score < fine.score
    assert fine.passed
    first = fine.feedback[0].lost
    assert first < 0 < missed.feedback[0].lost == missed.feedback[0].cost
    assert missed.adjusted_cost - fine.adjusted_cost == pytest.approx(missed.feedback[0].cost - first)


def test_do_covers_and_verify_runs_ask_for_their_cautions(own):
    steps = [{"action": "plug_look", "result": "wet", "cautions": []}]
    assert score_route(own, "no_start", steps).feedback[0].missed == ("fuel_spray",)
    steps = [
        {"action": "swap_plug", "cautions": ["fuel_spray"]},
        {"action": "verify", "result": "runs", "cautions": []},
    ]
    assert "exhaust_gas" in score_route(own, "no_start", steps).feedback[1].missed


@pytest.mark.parametrize(
    ("steps", "words"),
    [
        ([*GOOD[:3], GOOD[4]], "score stops at 60"),
        ([GOOD[4]], "score stops at 60"),
        ([*GOOD[:2], {"action": "escalate"}], "handed on"),
        ([], "Nothing was done"),
    ],
    ids=["no verify run", "handed back unrepaired", "handed on", "nothing done"],
)
def test_does_an_unproven_job_never_pass(form, steps, words):
    done = score_route(form, "no_start", steps)
    assert not done.passed
    assert done.score <= 60
    assert any(words in sentence for sentence in done.summary)


@pytest.mark.parametrize(
    "steps",
    [[], [{"action": "hand_on"}], [{"action": "hand_back"}]],
    ids=["nothing", "handed on", "handed back"],
)
def test_does_doing_nothing_earn_nothing(form, steps):
    assert score_route(form, "no_start", steps).score == 0


def test_must_the_verify_run_be_made_in_the_complaints_condition(form):
    """A machine that dies hot is not proven by a cold run."""
    steps = [
        {"action": "spark_hot", "result": "none"},
        {"action": "spark_cold", "result": "good"},
        {"action": "replace_module"},
        {"action": "verify", "condition": "cold", "result": "runs"},
    ]
    cold = score_route(form, "dies_hot", steps)
    assert not cold.verified
    assert "hot" in cold.feedback[3]
    both = score_route(form, "dies_hot", [*steps, {"action": "verify", "condition": "hot", "result": "runs"}])
    assert both.verified


def test_is_a_premature_part_shown_as_money_and_charged_once(form):
    early = score_route(form, "no_start", [{"action": "replace_module", "result": "fails"}, *GOOD])
    assert early.premature_parts == form.repairs["replace_module"].part
    assert re.search(r"\d+ % chance of curing", early.feedback[0])
    assert "spent before" in early.feedback[0]
    own = early.feedback[0].cost
    assert own == pytest.approx(form.repairs["replace_module"].part + 12 + 3 + 3)


def test_does_a_repeat_that_cannot_inform_never_raise_the_score(form):
    once = score_route(form, "no_start", GOOD)
    twice = score_route(form, "no_start", [*GOOD[:1], *GOOD[:1], *GOOD[1:]])
    assert twice.score <= once.score
    assert "mostly repeats itself" in twice.feedback[1]


@pytest.mark.parametrize("place", range(5))
@pytest.mark.parametrize(
    ("base", "pairs"), [([0.5, 0.5], False), ([1.0, 0.0], True)], ids=["coin", "same word"]
)
def test_does_a_free_test_that_sees_nothing_never_raise_a_score(form, monkeypatch, place, base, pairs):
    """A coin is thrown for single faults only: the worse of two throws would tell two faults from one."""
    blind = form.tests["plug_tight"].model_copy(
        update={"minutes": 0.0, "base": base, "hits": {}, "access": [], "hazards": []}
    )
    table = form.replaced(tests={**form.tests, "blind": blind})
    known = Reference(30.0, 110.0, 1.0, 1.0, 1, 1)
    monkeypatch.setattr("twostroke.isolation.score.reference", lambda *_: known)
    plain = score_route(table, "no_start", GOOD, pairs=pairs)
    assert 0 < plain.score < 100, "a score at its end could not rise"
    for result, chance in zip(blind.results, base, strict=True):
        if chance:
            step = {"action": "blind", "result": result}
            more = score_route(table, "no_start", [*GOOD[:place], step, *GOOD[place:]], pairs=pairs)
            assert more.score <= plain.score + 1e-9
            assert more.adjusted_cost == pytest.approx(plain.adjusted_cost, abs=1e-6)


def test_is_said_what_a_test_could_not_tell(form):
    steps = [GOOD[0], {"action": "spark_slow_fast", "result": "none"}]
    text = score_route(form, "no_start", steps).feedback[1]
    assert "could not tell" in text
    text = score_route(form, "no_start", [{"action": "plug_tight", "result": "tight"}]).feedback[0]
    assert re.search(r"9\d % certain before you looked", text)


def test_is_the_better_step_named_only_after_the_job(form):
    steps = [{"action": "key_look", "result": "whole"}, *GOOD]
    done = score_route(form, "no_start", steps)
    assert any("step 1" in sentence and "given away" in sentence for sentence in done.summary)
    assert not any("given away" in entry for entry in done.feedback)


def test_is_a_verify_run_never_called_what_was_given_away(form):
    """Proving belongs to the job, even where the planner would rather run the risk."""
    idle = {"action": "verify", "result": "fails"}
    done = score_route(form, "no_start", [idle, GOOD[0]])
    lost = [entry.lost for entry in done.feedback]
    assert lost[0] == max(lost) > 1.0, "the case must be one in which the run costs most"
    assert not any("step 1" in sentence for sentence in done.summary)
    assert score_route(form, "no_start", [idle]).summary[-1] == "Nothing was done but verify runs."


BLAME = re.compile(
    r"\b(wrong|stupid|careless|well done|great|excellent|sorry|should have|you failed|good job)\b", re.I
)


def test_is_a_winding_reading_alone_no_ground_for_a_module(own):
    """A solid-state module reads by meter and polarity (common practice, no source)."""
    alone = [{"action": "primary_ohm", "result": "out_of_range"}, {"action": "replace_module"}]
    assert "never enough by itself" in score_route(own, "no_start", alone).feedback[1]
    backed = [{"action": "known_good_plug", "result": "none"}, *alone]
    assert "never enough by itself" not in score_route(own, "no_start", backed).feedback[2]


def test_is_no_person_blamed_or_praised(form):
    rng = np.random.default_rng(5)
    model = model_of(form)
    for _ in range(12):
        state = int(rng.choice(model.states, p=model.start("no_start")))
        job = simulate(form, "no_start", state, expert, rng)
        done = score_route(form, "no_start", job.steps)
        for sentence in [*done.feedback, *done.summary]:
            assert not BLAME.search(sentence), sentence


@pytest.mark.parametrize(
    ("step", "words"),
    [
        ({"action": "spark_cld", "result": "none"}, "step 2.*spark_cold"),
        ({"action": "spark_cold", "result": "nothing"}, "step 2.*none"),
        ({"result": "none"}, "no action"),
        ({"action": "verify", "result": "maybe"}, "runs"),
        ({"action": "spark_cold", "result": "none", "condition": "lukewarm"}, "cold"),
        ({"action": "hand_back", "diagnosis": "gremlins", "confidence": 0.5}, "gremlins"),
        ({"action": "hand_back", "diagnosis": "rings", "confidence": 90}, "from 0"),
    ],
)
def test_does_a_step_that_cannot_be_read_get_a_plain_word(form, step, words):
    with pytest.raises(TableError, match=words):
        score_route(form, "no_start", [GOOD[0], step])


def test_is_a_step_after_the_end_refused(form):
    with pytest.raises(TableError, match="after the job was closed"):
        score_route(form, "no_start", [*GOOD, GOOD[0]])


def test_do_opening_heating_and_waiting_count(form):
    done = score_route(
        form, "dies_hot", [{"action": "heat"}, {"action": "top_cover"}, {"action": "wait", "minutes": 4}]
    )
    assert [entry.cost for entry in done.feedback] == [8, 3, 4]
    straight = score_route(form, "dies_hot", [{"action": "spark_hot", "result": "none"}])
    before = score_route(form, "dies_hot", [{"action": "heat"}, {"action": "spark_hot", "result": "none"}])
    assert before.raw_cost == pytest.approx(straight.raw_cost)


def test_is_a_stated_fault_scored_by_a_proper_rule(form):
    """Brier: stating what one believes gives the most in the mean (Brier 1950, from memory)."""
    chance = Belief(form, "no_start", pairs=True)
    for test, result in (("spark_cold", "none"), ("stop_lead_off", "spark_returns")):
        chance.update(test, result)
    believed = chance.probability("stop_switch")
    scores = {}
    for sure in np.linspace(0, 1, 101):
        step = {"action": "hand_back", "diagnosis": "stop_switch", "confidence": float(sure)}
        scores[float(sure)] = score_route(form, "no_start", [*GOOD[:2], step]).confidence
    assert max(scores, key=scores.get) == pytest.approx(believed, abs=0.01)


def test_is_the_expected_gain_of_luck_nothing(form):
    """Over all results of a test, weighted by their chance, V(next) has the mean that was charged."""
    walk = Walk(form, "no_start", True, speak=False)
    value = walk.value
    for action in ("spark_cold", "plug_look"):
        chances = walk.belief.foretell(action)
        mean = 0.0
        for result, chance in chances.items():
            branch = Walk(form, "no_start", True, speak=False)
            for step in read_route(form, [{"action": action, "result": result}]):
                branch.take(step, 1)
            mean += chance * branch.value
            charged = branch.adjusted - value - branch.raw + value
        assert mean == pytest.approx(charged, rel=1e-9)


def test_does_the_engine_of_the_simulation_follow_the_table(form):
    model = model_of(form)
    state = model.index["stop_switch"]
    engine = Engine(model, "no_start", state, np.random.default_rng(1))
    seen = []
    for _ in range(2000):
        engine.last.clear()
        seen.append(engine.test("spark_cold", "cold"))
    assert seen.count("none") / 2000 == pytest.approx(0.95, abs=0.02)
    first = engine.test("plug_look", "cold")
    again = []
    for _ in range(1000):
        engine.last[("plug_look", "cold")] = form.tests["plug_look"].results.index(first)
        again.append(engine.test("plug_look", "cold"))
    row = model.likelihood("plug_look", "cold")[state][form.tests["plug_look"].results.index(first)]
    assert again.count(first) / 1000 == pytest.approx(0.8 + 0.2 * row, abs=0.04)


def test_is_an_unverified_repair_worth_verifying(form):
    belief = Belief(form, "no_start").update("spark_cold", "none").update("stop_lead_off", "spark_returns")
    belief.repair("replace_switch")
    walk = Walk(form, "no_start", True, speak=False)
    situation = Situation(belief.vector, belief.place)
    assert walk.ahead.value(situation) < walk.ahead.hand_back(situation)
