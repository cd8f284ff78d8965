"""The exact oracle against whole policies listed one by one, and the planner against the oracle."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from twostroke.isolation import Belief, Exact, Planner
from twostroke.isolation.bounds import lower_bound
from twostroke.isolation.lookahead import Situation, lookahead_of
from twostroke.table import TableError

COUNTED_POLICIES = 284_394


def policies(table, escalate, comeback):
    """Expected cost of every policy for every fault, without Bayes' rule: one row for each policy.

    A policy hands on, or repairs and goes on if the verify run fails, or tests and goes on by the result;
    every test and every repair at most once, and no tests when no repair is left. Covers are paid when they
    come off, warming and cooling when an action wants it; the verify run is made as the machine then stands.
    """
    faults, meta = list(table.faults), table.meta
    known = {}

    def reach(row, opened, warmth):
        shut = set(table.opening(row.access, opened))
        minutes = row.minutes + sum(table.access[name].minutes for name in shut)
        after = warmth if row.temp == "any" else row.temp
        if after != warmth:
            minutes += meta.cool_to_hot_minutes if after == "hot" else meta.hot_to_cool_minutes
        return minutes * meta.money_per_minute, opened | shut, after

    def rows(tests, repairs, opened=frozenset(), warmth="cold"):
        key = (tests, repairs, opened, warmth)
        if key not in known:
            found = [np.full((1, len(faults)), float(escalate))]
            for name in sorted(repairs):
                repair = table.repairs[name]
                cure = np.array([repair.fixes.get(fault, 0.0) for fault in faults])
                cost, then, after = reach(repair, opened, warmth)
                passing = np.array([1 - row.shows(after) for row in table.faults.values()])
                run = meta.verify_minutes * meta.money_per_minute
                paid = cost + repair.part + run + (1 - cure) * passing * comeback
                found.append(paid + (1 - cure) * (1 - passing) * rows(tests, repairs - {name}, then, after))
            for name in sorted(tests) if repairs else ():
                test = table.tests[name]
                chance = np.array([test.row(fault) for fault in faults])
                cost, then, warm = reach(test, opened, warmth)
                after = rows(tests - {name}, repairs, then, warm)
                combined = np.full((1, len(faults)), cost)
                for result in range(len(test.results)):
                    combined = (combined[:, None, :] + (chance[:, result] * after)[None, :, :]).reshape(
                        -1, len(faults)
                    )
                found.append(combined)
            known[key] = np.concatenate(found)
        return known[key]

    return rows(frozenset(table.tests), frozenset(table.repairs))


def prior(table):
    rates = np.array([row.rate for row in table.faults.values()])
    return rates / rates.sum()


def test_is_the_small_instance_solved_exactly(three):
    """Against all 284,394 policies, listed without Bayes' rule; repairs alone cost 26.0."""
    every = policies(three, 60, 90)
    assert len(every) == COUNTED_POLICIES
    assert (every @ prior(three)).min() == pytest.approx(24.82, abs=1e-9)
    plan = Exact(three).best()
    assert plan.cost == pytest.approx(24.82, abs=1e-9)
    assert plan.action == "one"
    ranked = {row.action: row.expected_cost for row in Planner(three).rank(Belief(three, pairs=False))}
    assert ranked["fix_first"] == pytest.approx(26.0, abs=1e-9)


def test_is_the_intermittent_instance_solved_exactly(three_hidden):
    every = policies(three_hidden, 60, 90)
    assert (every @ prior(three_hidden)).min() == pytest.approx(27.1288, abs=1e-9)
    assert Exact(three_hidden).best().cost == pytest.approx(27.1288, abs=1e-9)
    only = Planner(three_hidden.replaced(tests={}))
    ranked = {row.action: row.expected_cost for row in only.rank(Belief(only.table, pairs=False))}
    assert ranked["fix_first"] == pytest.approx(34.4, abs=1e-9)


def cost_of_planner(table, depth):
    """Exact expected cost of following the planner, by walking every branch."""
    meta, planner = table.meta, Planner(table, depth=depth)

    def walk(belief, share, done):
        if share < 1e-12:
            return 0.0
        best = next(row for row in planner.rank(belief) if row.action not in done)
        if best.kind == "hand_on":
            return share * meta.escalate_cost
        if best.kind == "test":
            total = share * best.cost
            for result, chance in belief.foretell(best.action).items():
                if chance > 1e-12:
                    after = belief.copy().update(best.action, result)
                    total += walk(after, share * chance, {*done, best.action})
            return total
        model = belief.model
        cost, place = model.repair_step(best.action, belief.place)
        runs = model.verify_runs(belief.complaint, place)
        after = belief.copy().repair(best.action)
        passing = model.passes([run.condition for run in runs])
        unseen = float((after.vector * passing)[: model.fixed].sum())
        failing = float((after.vector * (1 - passing)).sum())
        total = share * (cost + sum(run.cost for run in runs) + meta.comeback_cost * unseen)
        if failing > 1e-12:
            total += walk(after.verify(False), share * failing, {*done, best.action})
        return total

    return walk(Belief(table, pairs=False), 1.0, frozenset())


def test_what_do_one_and_two_steps_ahead_cost_on_the_small_instance(three):
    """One step ahead pays 25.2, two steps find the best plan at 24.82 (independent prototype)."""
    assert cost_of_planner(three, 1) == pytest.approx(25.2, abs=1e-9)
    assert cost_of_planner(three, 2) == pytest.approx(24.82, abs=1e-9)


@st.composite
def instances(draw):
    """Parts of a small random table: up to three faults, two tests, three repairs, sometimes intermittent."""
    chance = st.integers(1, 9).map(lambda n: n / 10)
    faults = {}
    for number in range(draw(st.integers(2, 3))):
        row = {"sys": "any", "rate": draw(st.integers(1, 300)), "name": f"f{number}"}
        if draw(st.booleans()):
            row["active"] = dict.fromkeys(("cold", "hot", "shake"), draw(chance))
        faults[f"f{number}"] = row
    tests = {}
    for number in range(draw(st.integers(0, 2))):
        hits = {f: [p, 1 - p] for f in faults if draw(st.booleans()) for p in [draw(chance)]}
        tests[f"t{number}"] = {
            "minutes": draw(st.integers(0, 9)), "results": ["fine", "bad"], "base": [0.9, 0.1], "hits": hits,
            "sees_inactive": True,
        }  # fmt: skip
    repairs = {
        f"r{number}": {"minutes": draw(st.integers(1, 40)), "fixes": {fault: draw(chance)}}
        for number, fault in enumerate(faults)
    }
    return faults, tests, repairs


quick = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@quick
@given(parts=instances())
def test_does_the_oracle_agree_with_all_policies_on_random_instances(make, parts):
    table = make(*parts)
    listed = policies(table, 60, 90) @ prior(table)
    assert Exact(table).best().cost == pytest.approx(listed.min(), abs=1e-9)


@st.composite
def machines(draw):
    """The same behind covers, some of it hot or cold only, and with faults that act otherwise when hot."""
    faults, tests, repairs = draw(instances())
    chance = st.integers(1, 9).map(lambda n: n / 10)
    behind = st.sampled_from([[], ["cover"], ["inner"]])
    for row in faults.values():
        if "active" in row:
            row["active"] = {**row["active"], "hot": draw(chance)}
    for row in tests.values():
        row |= {"access": draw(behind), "temp": draw(st.sampled_from(["any", "cold", "hot"]))}
    for row in repairs.values():
        row |= {"access": draw(behind), "temp": draw(st.sampled_from(["any", "cold"]))}
    return faults, tests, repairs


@quick
@given(parts=machines())
def test_does_the_oracle_agree_with_covers_warmth_and_verify_runs_to_pay(make, parts):
    access = {"cover": {"minutes": 5, "needs": []}, "inner": {"minutes": 2, "needs": ["cover"]}}
    price = {"verify_minutes": 3, "cool_to_hot_minutes": 8, "hot_to_cool_minutes": 20}
    table = make(*parts, access=access, **price)
    listed = policies(table, 60, 90) @ prior(table)
    best = Exact(table).best().cost
    assert best == pytest.approx(listed.min(), abs=1e-9)
    assert cost_of_planner(table, 1) >= best - 1e-9
    assert lower_bound(table, pairs=False, size=4, depth=1).ahead <= best + 1e-9


@quick
@given(parts=instances())
def test_is_no_plan_below_the_bounds_and_none_below_the_best(make, parts):
    table = make(*parts)
    best = Exact(table).best().cost
    assert cost_of_planner(table, 1) >= best - 1e-9
    bound = lower_bound(table, pairs=False, size=4, depth=1)
    assert bound.clairvoyant <= bound.grouped + 1e-9 <= bound.ahead + 2e-9
    assert bound.ahead <= best + 1e-9


@quick
@given(parts=instances())
def test_does_another_test_never_make_the_best_plan_dearer(make, parts):
    faults, tests, repairs = parts
    bare = make(faults, {}, repairs, name="bare.yaml")
    whole = make(faults, tests, repairs)
    assert Exact(whole).best().cost <= Exact(bare).best().cost + 1e-9


@quick
@given(parts=instances())
def test_is_a_free_test_that_sees_nothing_worth_nothing(make, parts):
    faults, tests, repairs = parts
    blind = {"minutes": 0, "results": ["this", "that"], "base": [0.5, 0.5], "hits": {}}
    without, with_it = (
        make(faults, tests, repairs),
        make(faults, {**tests, "blind": blind}, repairs, name="blind.yaml"),
    )
    assert Exact(with_it).best().cost == pytest.approx(Exact(without).best().cost, abs=1e-9)
    belief = Belief(with_it, pairs=False)
    row = next(row for row in Planner(with_it).rank(belief) if row.action == "blind")
    assert row.information == pytest.approx(0.0, abs=1e-12)
    ahead = lookahead_of(belief.model, None)
    assert row.expected_cost == pytest.approx(
        ahead.values(Situation(belief.vector, belief.place)).repair_only
    )


def test_are_covers_and_temperature_part_of_the_exact_plan(make):
    """Two faults behind one cover: it is paid once; a hot test costs the warming up."""
    table = make(
        {"near": 100, "far": 300},
        {
            "look": {"minutes": 1, "access": ["cover"], "results": ["fine", "bad"], "base": [1.0, 0.0],
                     "hits": {"far": [0.0, 1.0]}},
            "hot_look": {"minutes": 1, "temp": "hot", "results": ["fine", "bad"], "base": [1.0, 0.0],
                         "hits": {"far": [0.0, 1.0]}},
        },
        {
            "fix_near": {"minutes": 10, "access": ["cover"], "fixes": {"near": 1.0}},
            "fix_far": {"minutes": 30, "access": ["inner"], "fixes": {"far": 1.0}},
        },
        access={"cover": {"minutes": 5, "needs": []}, "inner": {"minutes": 2, "needs": ["cover"]}},
        cool_to_hot_minutes=8, escalate_cost=500,
    )  # fmt: skip
    plan = Exact(table).best()
    # cover 5 + look 1, then 10 for a quarter of the jobs and 2 + 30 for the others
    assert plan.action == "look"
    assert plan.cost == pytest.approx(5 + 1 + 0.25 * 10 + 0.75 * 32)
    model = Belief(table, pairs=False).model
    assert model.test_step("hot_look", Belief(table, pairs=False).place)[0] == 9


def test_is_a_whole_table_refused_by_the_oracle(own):
    with pytest.raises(TableError, match="leave some out"):
        Exact(own)
