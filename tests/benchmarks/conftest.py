"""Limits of the benchmarks, held where something is timed."""

from __future__ import annotations

import pytest


@pytest.fixture
def within(benchmark):
    """Whether the median that was timed is below a limit in seconds; where nothing is timed, it is."""

    def held(limit: float) -> bool:
        return not benchmark.enabled or benchmark.stats["median"] < limit

    return held
