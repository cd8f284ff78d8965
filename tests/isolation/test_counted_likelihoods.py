"""Likelihoods counted on the virtual engine: the counting, its file, typed estimates beside it."""

from __future__ import annotations

import numpy as np
import pytest
from twostroke.isolation.likelihoods import count, differences, performed, renew
from twostroke.table import load_table
from twostroke.table.counted import load_counted, load_settlement, smooth, with_counted


@pytest.fixture(scope="module")
def typed():
    return load_table(counted=False)


def drawn(table):
    """A sampler that draws from the table's own typed rows."""

    def sampler(test, fault, condition, n, seed):
        row = table.tests[test]
        chances = row.base if fault is None else row.row(fault)
        key = [seed, *map(ord, f"{test} {fault} {condition}")]
        counts = np.random.default_rng(key).multinomial(n, chances)
        return dict(zip(row.results, counts.tolist(), strict=True))

    return sampler


def test_does_counting_give_back_what_was_drawn(typed):
    counted = count(typed, drawn(typed), machines=4000, seed=3, faults=["module_dead", "rings"])
    assert set(counted.counts) == set(performed(typed))
    assert differences(typed, counted, large=0.05) == []
    for name, rows in counted.counts.items():
        assert set(rows) == {"sound", "module_dead", "rings"}
        assert all(sum(row) == 4000 for row in rows.values()), name


def test_is_each_test_sampled_in_its_own_condition(typed):
    tests = performed(typed)
    assert tests["spark_gap_hot"] == "hot"
    assert tests["spark_shake"] == "shake"
    assert tests["air_gap"] == "cold"
    assert not set(tests) & {"plug_look", "ask_fuel_age", "pull_feel", "boot_check"}


def test_does_a_renewed_file_read_back(tmp_path, typed):
    path = tmp_path / "counted.yaml"
    made = renew(path, sampler=drawn(typed), machines=20, seed=9)
    from twostroke.table.counted import Counted
    from twostroke.table.reader import build, read_yaml

    content, lines = read_yaml(path)
    assert build(Counted, content, lines, path.name) == made


def test_is_every_large_difference_settled_by_a_reason(typed):
    """Typed estimate against the count on the virtual engine, 600 machines for each test and fault."""
    counted, settled = load_counted(), load_settlement()
    assert counted.machines >= 600
    open_ones = [(d.test, d.fault, d.typed, d.counted) for d in differences(typed, counted)]
    open_ones = [row for row in open_ones if settled.find(row[0], row[1]) is None]
    assert open_ones == []


def test_has_no_reason_outlived_its_difference(typed):
    large = {(d.test, d.fault) for d in differences(typed, load_counted(), large=0.2)}
    for reason in load_settlement().reasons:
        assert any((test, fault) in large for test in reason.tests for fault in reason.faults), reason.why


def test_does_the_course_table_take_the_counted_rows(own, typed):
    counted = load_counted()
    test, fault = "spark_gap_cold", "airgap_wide"
    expected = smooth(counted.counts[test][fault], typed.tests[test].hits[fault])
    assert own.tests[test].hits[fault] == expected
    assert own.tests["plug_look"] == typed.tests["plug_look"]
    for name in performed(typed):
        for row in [own.tests[name].base, *own.tests[name].hits.values()]:
            assert sum(row) == pytest.approx(1.0, abs=1e-9)
            assert min(row) >= 0


def test_is_a_row_kept_as_typed_where_that_was_settled(typed):
    counted, settled = load_counted(), load_settlement()
    kept = settled.model_copy(
        update={"reasons": [settled.reasons[0].model_copy(update={"use": "typed"}), *settled.reasons[1:]]}
    )
    table = with_counted(typed, counted, kept)
    first = settled.reasons[0]
    test = next(t for t in first.tests if first.faults[0] in typed.tests[t].hits)
    assert table.tests[test].hits[first.faults[0]] == typed.tests[test].hits[first.faults[0]]


@pytest.mark.slow
def test_do_the_kept_counts_come_from_the_engine_as_it_is(typed):
    """A part of the file counted anew with its own seed: the engine has not moved away from it."""
    from twostroke.bench.sampling import sample_results

    kept = load_counted()
    faults = ["module_dead", "airgap_wide", "rings", "stop_lead"]
    fresh = count(typed, sample_results, machines=kept.machines, seed=kept.seed, faults=faults)
    for name, rows in fresh.counts.items():
        for fault, row in rows.items():
            apart = np.abs(np.array(row) - kept.counts[name][fault]).sum() / 2 / kept.machines
            assert apart <= 0.02, (
                f"{name}, {fault}: {kept.counts[name][fault]} kept, {row} now; renew the counts"
            )
