"""Simulated learners over 300 jobs each: does the score tell them apart, and is luck taken out fairly?"""

from __future__ import annotations

import dataclasses
import itertools

import numpy as np
import pytest
from twostroke.isolation import score_route
from twostroke.isolation.learners import LEARNERS, draw_jobs, expert, simulate
from twostroke.isolation.model import model_of
from twostroke.isolation.references import reference

JOBS = 300
ORDER = [
    "look-ahead expert",
    "expert with 25 % slips",
    "information per minute",
    "repairs only",
    "parts-changer",
]
REST = ["random tests", "cheap tests first", "hands on at once"]
HONEST = [name for name in LEARNERS if name != "peeker"]


@pytest.fixture(scope="module")
def results(form):
    """For each learner: score, adjusted cost and raw cost of the same 300 jobs."""
    jobs = draw_jobs(model_of(form), JOBS, np.random.default_rng(7))
    memo, out = {}, {}
    for name, learner in LEARNERS.items():
        done = [
            simulate(form, kind, state, learner, np.random.default_rng([7, number]), memo=memo)
            for number, (kind, state) in enumerate(jobs)
        ]
        out[name] = np.array(
            [(reference(form, job.complaint).score(job.adjusted), job.adjusted, job.raw) for job in done]
        ).T
    return out


def _mean(values):
    return values.mean(), values.std(ddof=1) / np.sqrt(len(values))


@pytest.mark.slow
def test_do_the_learners_separate_by_more_than_two_standard_errors(results):
    pairs = [*itertools.pairwise(ORDER), *((ORDER[-1], name) for name in REST)]
    for better, worse in pairs:
        gap, error = _mean(results[better][0] - results[worse][0])
        assert gap > 2 * error, f"{better} over {worse}: {gap:.1f} with standard error {error:.1f}"


@pytest.mark.slow
def test_is_the_peeker_below_the_slips(results):
    gap, error = _mean(results["expert with 25 % slips"][0] - results["peeker"][0])
    assert gap > 2 * error
    assert results["peeker"][2].mean() < results["look-ahead expert"][2].mean()


@pytest.mark.slow
@pytest.mark.parametrize("name", HONEST)
def test_is_the_mean_of_the_adjusted_cost_the_mean_of_the_raw_cost(results, name):
    _, adjusted, raw = results[name]
    gap, error = _mean(adjusted - raw)
    assert abs(gap) <= 3 * error + 1e-9


@pytest.mark.slow
def test_is_most_of_the_luck_taken_out(results):
    _, adjusted, raw = results["look-ahead expert"]
    assert raw.std() > 2.5 * adjusted.std()


def test_is_an_unsafe_expert_never_passed(form):
    """The same good routes with one precaution missed somewhere."""
    rng = np.random.default_rng(3)
    model = model_of(form)
    seen = 0
    for _ in range(12):
        job = simulate(
            form, "no_start", int(rng.choice(model.states, p=model.start("no_start"))), expert, rng
        )
        risky = [
            n for n, step in enumerate(job.steps) if step.kind == "test" and form.tests[step.action].hazards
        ]
        if not risky:
            continue
        seen += 1
        steps = list(job.steps)
        steps[risky[0]] = dataclasses.replace(steps[risky[0]], cautions=frozenset())
        bare, fine = score_route(form, "no_start", steps), score_route(form, "no_start", job.steps)
        assert not bare.passed
        assert bare.score <= fine.score
    assert seen >= 6


@pytest.mark.slow
def test_what_does_a_table_cost_that_is_off_by_half_an_order(form, record_property):
    """Rates multiplied at random by 0.32, 1 or 3.2: the same expert pays more, and not twice as much."""
    rng = np.random.default_rng(11)
    factors = {name: 10 ** rng.choice([-0.5, 0.0, 0.5]) for name in form.faults}
    planned = form.replaced(
        faults={
            name: row.model_copy(update={"rate": row.rate * factors[name]})
            for name, row in form.faults.items()
        }
    )
    jobs = draw_jobs(model_of(form), 150, np.random.default_rng(8))
    costs = []
    for belief in (None, planned):
        memo = {}
        costs.append(
            [
                simulate(
                    form, kind, state, expert, np.random.default_rng([8, n]), memo=memo, planned=belief
                ).adjusted
                for n, (kind, state) in enumerate(jobs)
            ]
        )
    right, wrong = np.mean(costs, axis=1)
    record_property("extra cost of wrong rates, percent", round(float(100 * (wrong / right - 1)), 1))
    print(f"\nright rates {right:.1f}, rates off by half an order {wrong:.1f}")
    assert right < wrong < 2 * right
