"""Lab 10: counts, worth, chains and orders against the library and full searches; jobs on the bench."""

from __future__ import annotations

import itertools

import pytest
import yaml
from twostroke import lab
from twostroke.lab import bench_job, lab10_bench, lab10_chain, lab10_order
from twostroke.lab.ranking import Check, average, best_order, quickest
from twostroke.lab.task import Values

LEARNERS = [f"learner {number}" for number in range(12)]


def _values(learner):
    given = lab.variant("10", learner)
    return given, Values(lab.load("10"), given)


@pytest.mark.parametrize("learner", LEARNERS[:6])
def test_is_the_counted_chance_that_of_the_belief_of_the_library(learner, tmp_path):
    """The counts written as a fault table: rates, and one test for each reading."""
    from twostroke.isolation import Belief, load_table

    given, right = _values(learner)
    names = ("fuel", "plug", "stop", "module")

    def test(shares):
        hits = {name: [share / 100, 1 - share / 100] for name, share in zip(names, shares, strict=True)}
        return {"minutes": 1, "results": ["yes", "no"], "base": [0.5, 0.5], "hits": hits}

    table = {
        "meta": {
            "version": 1.0, "money_per_minute": 1.0, "verify_minutes": 3, "comeback_cost": 90,
            "escalate_cost": 130, "cool_to_hot_minutes": 8, "hot_to_cool_minutes": 20, "repeat_corr": 0.8,
            "double_fault_fraction": 0.0,
        },
        "access": {},
        "faults": {
            name: {"name": name, "sys": "ignition", "rate": float(count)}
            for name, count in zip(names, given["count_machines"], strict=True)
        },
        "tests": {"dark": test(given["count_dark_percent"]), "back": test(given["count_back_percent"])},
        "repairs": {name: {"minutes": 5, "fixes": {name: 1.0}} for name in names},
        "common_cause_pairs": [],
        "hazards": {},
    }  # fmt: skip
    path = tmp_path / "count.yaml"
    path.write_text(yaml.safe_dump(table), encoding="utf-8")
    belief = Belief(load_table(path), pairs=False)
    belief.update("dark", "yes")
    assert 100 * belief.probability("stop") == pytest.approx(right["count.share"], rel=1e-6)
    belief.update("back", "yes")
    assert 100 * belief.probability("stop") == pytest.approx(right["count.after"], rel=1e-6)


@pytest.mark.parametrize("learner", LEARNERS)
def test_are_the_averages_with_and_without_a_test_those_of_a_hundred_counted_jobs(learner):
    given, right = _values(learner)
    first, second = given["worth_repairs_min"]
    likely, hits = given["worth_first_percent"] / 100, given["worth_right_percent"] / 100
    without = likely * first + (1 - likely) * (first + second)
    quick = sum(
        chance * (pointed_right * own + (1 - pointed_right) * (first + second))
        for chance, own in ((likely, first), (1 - likely, second))
        for pointed_right in (hits,)
    )
    assert right["worth.without"] == pytest.approx(without)
    assert right["worth.quick"] == pytest.approx(without - quick)
    assert right["worth.sure"] == pytest.approx(without - likely * first - (1 - likely) * second)


def test_do_known_chains_take_the_known_number_of_probes():
    # eight equal links take three; .4 .3 .2 .1 take 1.9: worked by hand
    assert lab10_chain.probes((1,) * 8) / 8 == 3.0
    assert lab10_chain.probes((40, 30, 20, 10)) / 100 == pytest.approx(1.9)


@pytest.mark.parametrize("learner", LEARNERS)
def test_is_the_probe_nearest_to_half_also_the_best_of_all_first_probes(learner):
    given, _ = _values(learner)
    chances = tuple(given["chain_percent"])
    task = lab.load("10").task("chain")
    right = task.items[0].truth(given, None)
    assert {f"after_{place + 1}" for place in lab10_chain.first_points(chances)} >= set(right)


def test_does_the_order_of_three_known_causes_come_out():
    # p = .5, .3, .2 and c = 20, 4, 10, certain repairs: second, first, third at 20.0 (chance over cost)
    checks = {"1": Check("1", 50, 20), "2": Check("2", 30, 4), "3": Check("3", 20, 10)}
    assert best_order(checks) == ("2", "1", "3")
    assert average(best_order(checks), checks) == pytest.approx(20.0)


@pytest.mark.parametrize("learner", LEARNERS)
def test_is_no_order_of_all_quicker_than_the_one_by_chance_over_minutes(learner):
    given, right = _values(learner)
    checks = lab10_order._checks(given)
    assert right["order.minutes"] == pytest.approx(quickest(checks))
    assert len(list(itertools.permutations(checks))) == 120


@pytest.mark.parametrize(("fault", "number"), lab10_bench.MACHINES)
def test_does_the_route_of_the_adviser_earn_full_points_on_every_machine_of_the_lab(fault, number):
    scenario = lab10_bench.scenario(fault, number)
    judged = bench_job.judge(scenario, bench_job.model_route(scenario))
    assert (judged.fraction, judged.state) == (1.0, "right"), judged.feedback.text


SCENARIO = lab10_bench.scenario("fuel_off", 1)


def _job(*steps, fault="fuel_off", confirm="all", end=True):
    bench = bench_job._bench(SCENARIO)
    for action in steps:
        assert bench.do(action, prepare=True, confirm=confirm, anyway=True).done
    if end:
        bench.hand_back(fault, 0.9)
    return [step.to_dict() for step in bench.route]


GOOD = ("spark_gap_cold", "plug_look", "prime_look", "tank_look", "fill_tank", "verify")


@pytest.mark.parametrize(
    ("steps", "changes", "most", "slip"),
    [
        pytest.param(("tank_look", "fill_tank"), {}, 0.5, "unproven", id="not proven by a run"),
        pytest.param(("tank_look",), {}, 0.25, "comes_back", id="given back with its fault"),
        pytest.param(
            GOOD, {"fault": "plug_fouled"}, 0.75, "other_fault_named", id="cured, wrong fault named"
        ),
        pytest.param(GOOD, {"confirm": []}, 0.0, "unsafe", id="no caution kept"),
        pytest.param(GOOD, {"end": False}, 0.0, "job_open", id="never handed back"),
    ],
)
def test_what_does_a_job_with_one_thing_wrong_earn(steps, changes, most, slip):
    judged = bench_job.judge(SCENARIO, _job(*steps, **changes))
    assert judged.slip == slip
    assert judged.fraction <= most
    assert judged.feedback.suggests
    assert judged.feedback.check


def test_does_a_good_job_on_the_same_machine_earn_everything():
    assert bench_job.judge(SCENARIO, _job(*GOOD)).fraction == 1.0


@pytest.mark.parametrize(
    ("place", "change"),
    [
        (0, {"words": "No spark at all."}),
        (0, {"result": "none"}),
        (0, {"minutes": 0.1}),
        (1, {"settings": {}}),
        (5, {"result": "fails"}),
        (2, {"action": "swap_plug"}),
        (0, {"cautions_confirmed": ["all"], "cautions_missed": ["fuel_spray"]}),
    ],
)
def test_is_a_record_that_was_changed_refused_with_the_step_named(place, change):
    route = _job(*GOOD)
    route[place] = {**route[place], **change}
    judged = bench_job.judge(SCENARIO, route)
    assert (judged.fraction, judged.slip) == (0.0, "not_from_this_machine")
    assert f"step {place + 1}" in judged.feedback.text


def test_is_the_record_of_another_machine_refused():
    other = bench_job.model_route(lab10_bench.scenario("module_dead", 1))
    assert bench_job.judge(SCENARIO, other).slip == "not_from_this_machine"


def test_does_the_desk_print_what_is_seen_and_raise_nothing(capsys):
    desk = lab.open_lab("10", learner="learner07").bench("bench")
    assert "owner says" in repr(desk)
    desk.do("look_over", confirm="all")
    desk.do("no_such_test")
    desk.hand_back("no_such_fault", "90 %")
    desk.actions()
    desk.faults()
    desk.hand_back("plug_fouled", "50 %")
    desk.hand_back("plug_fouled", "50 %")
    said = capsys.readouterr().out
    assert all(part in said for part in ("look_over:", "no_such_test", "handed back as: plug_fouled"))
    assert [step["action"] for step in desk.route] == ["look_over", "hand_back"]


def test_is_there_no_machine_before_a_name_is_written(capsys):
    desk = lab.open_lab("10").bench("bench")
    desk.do("look_over")
    desk.hand_back("plug_fouled", 1)
    desk.actions()
    assert "First write your name" in repr(desk)
    assert desk.route == []
    assert capsys.readouterr().out == ""


def test_is_a_task_without_a_machine_said_in_words():
    with pytest.raises(lab.LabError, match="no job on the bench"):
        lab.open_lab("10", learner="x").bench("count")


def test_does_one_mistake_in_the_count_cost_once():
    given, right = _values("learner 3")
    dark = round(sum(given["count_machines"][2:]))
    share = 100 * right["count.share"] * right["count.dark"] / 100 / dark
    model = lab.model_answers("10", "learner 3")
    wrong = {**model, "count": {**model["count"], "dark": str(dark), "share": f"{share:.0f} %"}}
    mark = next(m for m in lab.mark_answers("10", "learner 3", wrong) if m.task == "count")
    assert mark.points == pytest.approx(5 * 2 / 3, abs=1e-3)
