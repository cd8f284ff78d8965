"""All faults against all instruments: what moves and what stays, from a table to be read and corrected."""

from __future__ import annotations

import csv
from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest
from twostroke.bench import faults, tests_at_bench
from twostroke.bench.engine import Figures, healthy
from twostroke.bench.history import history
from twostroke.bench.maker import bands_of
from twostroke.bench.models import MODELS
from twostroke.bench.seeds import Draws
from twostroke.bench.view import View
from twostroke.table import load_table

TABLE = load_table()
MACHINES = 24
SEVERITY = 0.9
LETTER = "D"
OFTEN = 0.125


def rows():
    path = Path(__file__).parent / "tables" / "readings_that_move.csv"
    lines = [line for line in path.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


ROWS = rows()


@lru_cache(maxsize=2)
def answers(fault):
    """Every test on the same machines with the same luck, with the fault or without."""
    bands = bands_of(MODELS[LETTER])
    machine = healthy(MODELS[LETTER], MACHINES, Draws("m", LETTER), Figures.of(bands))
    if fault:
        faults.apply(machine, fault, SEVERITY, 1.0, (np.arange(MACHINES) + 0.5) / MACHINES)
    wetness, colour, fuel = history(machine, Draws("h"))
    out = {}
    for name, row in TABLE.tests.items():
        hot = row.condition("cold") == "hot"
        view = View(
            machine, np.full(MACHINES, 88.0 if hot else 20.0), np.full(MACHINES, 110.0 if hot else 20.0),
            fuel.copy(),
            Draws(name, "r"), Draws(name, "l"), Draws(name, "o"), bands, wetness, colour,
            plug_out="plug_out" in row.access,
        )  # fmt: skip
        out[name] = tests_at_bench.run(name, TABLE, view)
    return out


def moved(fault, test):
    """Share of the machines on which the fault changes what the test shows."""
    with_it, without = answers(fault)[test], answers(None)[test]
    share = float((with_it.result != without.result).mean())
    for number, before in zip(with_it.numbers, without.numbers, strict=True):
        finite = np.isfinite(number.values) & np.isfinite(before.values)
        apart = np.abs(np.where(finite, number.values, 0.0) - np.where(finite, before.values, 0.0))
        changed = np.where(finite, apart > before.limit + 1e-12, number.values != before.values)
        share = max(share, float(changed.mean()))
    return share


def test_does_the_table_of_readings_name_every_fault_once():
    assert sorted(row["fault"] for row in ROWS) == sorted(TABLE.faults)


def test_can_the_bench_do_every_test_and_make_every_fault_of_the_table():
    assert set(TABLE.tests) <= tests_at_bench.known_tests()
    assert set(TABLE.faults) == set(faults.CHANGES)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["fault"])
def test_which_readings_does_each_fault_move(row):
    moves, may = row["moves"].split(), row["may_move"].split()
    assert not set(moves) & set(may)
    shares = {name: moved(row["fault"], name) for name in TABLE.tests}
    too_still = {name: shares[name] for name in moves if shares[name] < OFTEN}
    assert not too_still, f"{row['fault']} should move these, and does not: {too_still}"
    must_stay = {name: share for name, share in shares.items() if share > 0 and name not in (*moves, *may)}
    assert not must_stay, f"{row['fault']} should leave these alone, and moves them: {must_stay}"


STRONG = 0.6
WHY_NOT = {
    ("airgap_rub", "plug_look"): "the spark is there; only hand and ear notice",
}


def test_does_every_strong_row_of_the_fault_table_show_in_the_physics():
    """Table and physics come from different hands: where a row of the table is plain, it must show."""
    listed = {row["fault"]: {*row["moves"].split(), *row["may_move"].split()} for row in ROWS}
    silent = []
    for name, test in TABLE.tests.items():
        for fault, hit in test.hits.items():
            apart = 0.5 * sum(abs(a - b) for a, b in zip(hit, test.base, strict=True))
            if apart >= STRONG and name not in listed[fault] and (fault, name) not in WHY_NOT:
                silent.append((fault, name, round(apart, 2)))
    assert not silent
