"""Speed of the bench: one action, and the sampling of likelihoods."""

from __future__ import annotations

import itertools

import pytest
from twostroke.bench import Bench, sample_results

ACTIONS = ("plug_look", "air_gap", "compression", "spark_slow_fast", "verify")


@pytest.mark.parametrize("action", ACTIONS)
def test_how_long_does_one_action_take(benchmark, action):
    """Each round meets a machine not met before, so that nothing is remembered from the last one."""
    numbers = itertools.count()

    def fresh():
        bench = Bench("plug_fouled_trimmer", f"speed {action} {next(numbers)}")
        return (bench,), {}

    result = benchmark.pedantic(
        lambda bench: bench.do(action, prepare=True, confirm="all"), setup=fresh, rounds=15
    )
    assert result.done


def test_how_long_does_it_take_to_make_a_machine(benchmark):
    numbers = itertools.count()
    made = benchmark.pedantic(lambda: Bench("plug_fouled_trimmer", f"made {next(numbers)}"), rounds=10)
    assert made.minutes == 0


def test_how_long_does_one_likelihood_take(benchmark):
    numbers = itertools.count()

    def one():
        return sample_results("spark_gap_cold", "airgap_wide", "cold", n=300, seed=next(numbers))

    counts = benchmark.pedantic(one, rounds=3)
    assert sum(counts.values()) == 300
