"""Every test of the table by name: which view it needs, and what it shows."""

from __future__ import annotations

import numpy as np

from twostroke.bench import start
from twostroke.bench.gauge_tests import GAUGE_TESTS
from twostroke.bench.mixture import FuelState
from twostroke.bench.seen import Seen, look, look_rules
from twostroke.bench.spark_tests import SPARK_TESTS
from twostroke.bench.view import View
from twostroke.errors import TwoStrokeError
from twostroke.table import Table, Test

DOSE = 3.2
"""Charges of fuel that a dose puts into the intake."""


def dose_start(view: View) -> Seen:
    """A small dose of fuel past the carburettor, then two pulls, choke open: does it fire, and run on?"""
    m = view.machine
    fuel = FuelState(view.fuel.line.copy(), view.fuel.puddle.copy())
    out = view.volts("plug")
    fired = np.zeros(view.n)
    left = np.full(view.n, DOSE)
    for _ in range(2):
        got = start.one_pull(m, out, fuel, view.engine, 0.0, view.effort, view.draws, extra=left)
        fired += got.fired
        left = left * 0.35
    able = start.can_run(m, out, np.full(view.n, 60.0)) & (start.drawn_cold(m, fuel, view.engine) > 0.18)
    runs = (fired > 0) & able & (view.draws.uniform(view.n) < 0.62)
    return Seen(np.where(runs, "runs_on", np.where(fired > 0, "fires_briefly", "no_fire")))


def run(name: str, table: Table, view: View) -> Seen:
    """What a test shows on the machines of a view.

    Raises
    ------
    TwoStrokeError
        The bench has no way to do this test.
    """
    test: Test = table.tests[name]
    if name in SPARK_TESTS:
        return SPARK_TESTS[name](view)
    if name in GAUGE_TESTS:
        return GAUGE_TESTS[name](test, view)
    if name == "dose_start":
        return dose_start(view)
    if name in look_rules():
        return look(name, view)
    raise TwoStrokeError(f"the bench has no way to do {name!r}: add it to its tests or to what_is_seen.yaml")


def known_tests() -> set[str]:
    """Names of all tests that the bench can do."""
    return {*SPARK_TESTS, *GAUGE_TESTS, "dose_start", *look_rules()}
