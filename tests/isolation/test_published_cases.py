"""Worked examples from outside, each with its source, computed by our belief, planner and oracle."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from twostroke.isolation import Belief, Exact, Planner


def test_does_the_start_network_give_the_book_values(make):
    """Fuel and plugs (Jensen and Nielsen, Bayesian Networks and Decision Graphs; numbers from memory).

    P(fuel) .98, P(plugs clean) .96, P(start | both) .99, without plugs .01, without fuel 0; recomputed.
    """
    fuel, plugs = 0.02, 0.04
    # the four joint states as four exclusive hypotheses
    states = {
        "none": (1 - fuel) * (1 - plugs),
        "bad_plugs": (1 - fuel) * plugs,
        "no_fuel": fuel * (1 - plugs),
        "both": fuel * plugs,
    }
    no_start = {"none": 0.01, "bad_plugs": 0.99, "no_fuel": 1.0, "both": 1.0}
    table = make(
        {name: 900 * chance for name, chance in states.items()},
        {
            "start": {
                "minutes": 1, "results": ["starts", "no_start"], "base": [0.99, 0.01],
                "hits": {name: [1 - p, p] for name, p in no_start.items()},
            },
            "meter": {
                "minutes": 1, "results": ["full", "half", "empty"], "base": [0.39, 0.60, 0.01],
                "hits": {name: [0.001, 0.001, 0.998] for name in ("no_fuel", "both")},
            },
        },
        {"any_repair": {"minutes": 1, "fixes": dict.fromkeys(states, 1.0)}},
    )  # fmt: skip
    belief = Belief(table, pairs=False).update("start", "no_start")
    assert belief.probability("bad_plugs") + belief.probability("both") == pytest.approx(0.58063, abs=1e-4)
    assert belief.probability("no_fuel") + belief.probability("both") == pytest.approx(0.29319, abs=1e-4)
    joint = sum(states[s] * no_start[s] for s in ("bad_plugs", "both"))
    assert joint == pytest.approx(0.039608, abs=1e-6)
    belief.update("meter", "half")
    by_hand = {s: states[s] * no_start[s] * (0.60 if s in ("none", "bad_plugs") else 0.001) for s in states}
    assert belief.probability("no_fuel") == pytest.approx(
        by_hand["no_fuel"] / sum(by_hand.values()), abs=1e-12
    )


def _perfect(make, chances, rows, costs=None):
    """States with perfect tests; dear repairs that fix one state each force telling them apart."""
    names = [f"s{number}" for number in range(len(chances))]
    tests = {
        f"t{column + 1}": {
            "minutes": 1 if costs is None else costs[column], "results": ["pass", "fail"], "base": [1.0, 0.0],
            "hits": {name: [0.0, 1.0] for name, row in zip(names, rows, strict=True) if row[column]},
        }
        for column in range(len(rows[0]))
    }  # fmt: skip
    repairs = {f"fix_{name}": {"minutes": 1000, "fixes": {name: 1.0}} for name in names}
    rates = {name: 500 * chance for name, chance in zip(names, chances, strict=True)}
    return make(rates, tests, repairs, escalate_cost=100_000)


def test_does_the_oracle_find_the_published_test_sequence(make):
    """Pattipati and Alexandridis 1990, six states, five perfect unit-cost tests (from memory): 2.18."""
    chances = (0.70, 0.01, 0.02, 0.10, 0.05, 0.12)
    rows = [[int(digit) for digit in text] for text in ("00000", "01001", "00110", "10011", "11000", "11110")]
    table = _perfect(make, chances, rows)
    plan = Exact(table).best()
    assert plan.cost - 1000 == pytest.approx(2.18, abs=1e-9)
    assert plan.action in ("t2", "t4")  # both lead to 2.18 here
    assert (
        Exact(table.replaced(tests={n: t for n, t in table.tests.items() if n != "t4"})).best().action == "t2"
    )
    entropy = -sum(p * np.log2(p) for p in chances)
    assert entropy == pytest.approx(1.45487, abs=1e-5)
    assert 2.18 > _huffman(chances) == pytest.approx(1.59, abs=1e-9)


def _huffman(chances):
    """Expected length of a Huffman code: a lower bound on the mean number of perfect yes-no tests."""
    heap, total = sorted(chances), 0.0
    while len(heap) > 1:
        joined = heap[0] + heap[1]
        total += joined
        heap = sorted([*heap[2:], joined])
    return total


@pytest.mark.parametrize(
    ("chances", "probes"),
    [
        pytest.param((0.125,) * 8, 3.0, id="eight equal links", marks=pytest.mark.slow),
        pytest.param((1 / 6,) * 6, 16 / 6, id="six equal links"),
        pytest.param((0.25,) * 4, 2.0, id="four equal links"),
        pytest.param((0.4, 0.3, 0.2, 0.1), 1.9, id="four unequal links in chain order"),
    ],
)
def test_is_half_split_best_on_a_chain(make, chances, probes):
    """Half-split of a series chain with perfect unit-cost probes (common result of test sequencing)."""
    count = len(chances)
    rows = [[int(probe >= fault) for probe in range(count - 1)] for fault in range(count)]
    table = _perfect(make, chances, rows)
    assert Exact(table).best().cost - 1000 == pytest.approx(probes, abs=1e-9)


def test_is_the_order_of_repairs_by_chance_over_cost(make):
    """Index rule (Kadane and Simon 1977; Heckerman, Breese and Rommelse 1995, from memory): 2, 1, 3; 20.0."""
    repairs = {
        f"fix_{number}": {"minutes": cost, "fixes": {f"f{number}": 1.0}}
        for number, cost in ((1, 20), (2, 4), (3, 10))
    }
    table = make({"f1": 500, "f2": 300, "f3": 200}, {}, repairs, escalate_cost=1000)
    plan = Exact(table).best()
    assert plan.action == "fix_2"
    assert plan.cost == pytest.approx(20.0, abs=1e-12)
    ranked = Planner(table).rank(Belief(table, pairs=False))
    assert ranked[0].action == "fix_2"
    assert ranked[0].expected_cost == pytest.approx(20.0, abs=1e-12)
    orders = {
        order: sum(
            p * sum(c[k] for k in order[: order.index(f) + 1]) for f, p in ((1, 0.5), (2, 0.3), (3, 0.2))
        )
        for order in itertools.permutations((1, 2, 3))
        for c in [{1: 20, 2: 4, 3: 10}]
    }
    assert min(orders, key=orders.get) == (2, 1, 3)


@pytest.mark.parametrize(("chance", "first", "second"), [(0.3, 2.0, 5.0), (0.6, 9.0, 5.0), (0.5, 3.0, 3.1)])
def test_is_the_two_cause_rule_kept(make, chance, first, second):
    """Two causes (Ross, probability textbook exercise): check 1 first exactly when C1/p <= C2/(1-p)."""
    repairs = {
        "check_1": {"minutes": first, "fixes": {"f1": 1.0}},
        "check_2": {"minutes": second, "fixes": {"f2": 1.0}},
    }
    table = make({"f1": 900 * chance, "f2": 900 * (1 - chance)}, {}, repairs, escalate_cost=1000)
    expected = "check_1" if first / chance <= second / (1 - chance) else "check_2"
    assert Exact(table).best().action == expected
    assert Planner(table).rank(Belief(table, pairs=False))[0].action == expected


def test_are_the_minimal_diagnoses_of_the_adder_circuit_found(make):
    """Three multipliers and two adders (de Kleer and Williams 1987; from memory): F wrong, G right.

    The two conflicts are {A1, M1, M2} and {A1, A2, M1, M3}; minimal diagnoses {A1}, {M1}, {A2, M2}, {M2, M3}.
    """
    parts = ("a1", "a2", "m1", "m2", "m3")
    conflicts = {"f_wrong": ("a1", "m1", "m2"), "f_against_g": ("a1", "a2", "m1", "m3")}
    tests = {
        name: {
            "minutes": 1, "results": ["agrees", "conflict"], "base": [1.0, 0.0],
            "hits": {part: [0.0, 1.0] for part in conflict},
        }
        for name, conflict in conflicts.items()
    }  # fmt: skip
    repairs = {f"swap_{part}": {"minutes": 1, "fixes": {part: 1.0}} for part in parts}
    table = make(dict.fromkeys(parts, 10), tests, repairs, double_fault_fraction=0.3)
    belief = Belief(table).update("f_wrong", "conflict").update("f_against_g", "conflict")
    model = belief.model
    possible = {frozenset([model.faults[n]]) for n in range(model.size) if belief.vector[n] > 0}
    for number, (one, two) in enumerate(zip(model.first, model.second, strict=True)):
        if belief.vector[model.size + number] > 0:
            possible.add(frozenset([model.faults[one], model.faults[two]]))
    minimal = {candidate for candidate in possible if not any(other < candidate for other in possible)}
    assert minimal == {frozenset(s) for s in (["a1"], ["m1"], ["a2", "m2"], ["m2", "m3"])}


@pytest.mark.parametrize(
    ("result", "after", "expected"),
    [
        (None, None, {"module_dead": 0.4439, "stop_switch": 0.2800, "stop_lead": 0.0602}),
        ("stop_lead_off", "spark_returns", {"stop_switch": 0.8424, "stop_lead": 0.0949}),
    ],
    ids=["no spark", "spark back with the stop lead off"],
)
def test_does_the_form_0_1_table_give_its_posteriors(form, result, after, expected):
    """Arithmetic check of the table's form, single faults (independent prototype)."""
    belief = Belief(form, "no_start", pairs=False).update("spark_cold", "none")
    if result is not None:
        belief.update(result, after)
    for fault, chance in expected.items():
        assert belief.probability(fault) == pytest.approx(chance, abs=1e-4)


def test_does_a_repeat_mostly_repeat_itself(form):
    """Repeat rule with rho 0.8 (independent prototype); without the rule it would claim 0.4462."""
    belief = Belief(form, pairs=False).update("spark_cold", "none")
    assert belief.probability("module_dead") == pytest.approx(0.3142, abs=1e-4)
    belief.update("spark_cold", "none")
    assert belief.probability("module_dead") == pytest.approx(0.3331, abs=1e-4)
    column = belief.model.column("spark_cold", "none", "cold")
    naive = belief.model.start(None) * column**2
    assert naive[belief.model.index["module_dead"]] / naive.sum() == pytest.approx(0.4462, abs=1e-4)


def test_do_pairs_give_their_posteriors(form):
    """Pairs on the form 0.1 table (independent prototype): 36 single faults and 595 pairs."""
    belief = Belief(form, "no_start").update("plug_look", "wet").update("spark_cold", "good")
    assert len(belief.vector) == 36 + 595 + 1
    assert belief.probability("flooded") == pytest.approx(0.4762, abs=1e-3)
    assert belief.two_faults == pytest.approx(0.1110, abs=1e-3)
