"""A shop's closed jobs counted into the table: the arithmetic, what may be handed in, and what it changes."""

from __future__ import annotations

import contextlib
import json

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st
from twostroke.bench import Bench, OwnMachine
from twostroke.commands.shop import shop as command
from twostroke.isolation import Belief, Planner
from twostroke.isolation.priors import ClosedJob, parse_jobs, read_jobs, update
from twostroke.isolation.references import _kept, fingerprint
from twostroke.table import TableError, load_table, save_table

TABLE = load_table()
FAULTS = sorted(TABLE.faults)
WHOLE = sum(row.rate for row in TABLE.faults.values())


def test_is_the_new_rate_the_mean_of_counts_and_table():
    """Dirichlet mean by hand: table share 28/whole as 100 jobs, 30 of 60 jobs with the stop switch."""
    jobs = [ClosedJob(("stop_switch",))] * 30 + [ClosedJob(("plug_fouled",))] * 30
    done = update(TABLE, jobs, weight=100)
    share = (100 * 28 / WHOLE + 30) / 160
    assert done.table.faults["stop_switch"].rate == pytest.approx(share * WHOLE)
    assert done.jobs == 60


@settings(max_examples=30, deadline=None)
@given(
    jobs=st.lists(st.lists(st.sampled_from(FAULTS), min_size=1, max_size=2, unique=True), max_size=60),
    weight=st.floats(1, 1e4),
)
def test_do_rates_keep_their_sum_stay_positive_and_lie_between_table_and_count(jobs, weight):
    closed = [ClosedJob(tuple(faults)) for faults in jobs]
    done = update(TABLE, closed, weight)
    rates = {name: row.rate for name, row in done.table.faults.items()}
    assert sum(rates.values()) == pytest.approx(WHOLE)
    assert min(rates.values()) > 0
    for name in FAULTS:
        own, before = rates[name] / WHOLE, TABLE.faults[name].rate / WHOLE
        counted = sum(1 / len(job.faults) for job in closed if name in job.faults) / max(len(closed), 1)
        low, high = (before, before) if not closed else sorted((before, counted))
        assert low - 1e-9 <= own <= high + 1e-9


def test_does_nothing_change_without_jobs():
    assert all(change.factor == pytest.approx(1.0) for change in update(TABLE, []).changes)


def test_is_order_of_jobs_and_cutting_them_in_two_no_matter():
    one, two = [ClosedJob(("rings",))] * 7, [ClosedJob(("screen",))] * 5
    together = update(TABLE, one + two, 100).table.faults["rings"].rate
    apart = update(update(TABLE, two, 100).table, one, 105).table.faults["rings"].rate
    assert update(TABLE, two + one, 100).table.faults["rings"].rate == pytest.approx(together)
    assert apart == pytest.approx(together)


def test_do_many_jobs_win_against_the_table():
    done = update(TABLE, [ClosedJob(("magnet_weak",))] * 5000, weight=50)
    assert done.table.faults["magnet_weak"].rate / WHOLE > 0.98


def test_does_the_belief_follow_the_shop():
    done = update(TABLE, [ClosedJob(("stop_switch",))] * 80, weight=100)
    before = Belief(TABLE, "no_start").probability("stop_switch")
    belief = Belief(done.table, "no_start")
    assert belief.probability("stop_switch") > 2 * before
    assert (
        Planner(done.table).rank(belief)[0].expected_cost
        < Planner(TABLE).rank(Belief(TABLE, "no_start"))[0].expected_cost
    )


@pytest.mark.parametrize("weight", [0, -3, float("nan"), float("inf"), True, "many"])
def test_is_a_weight_that_is_none_refused(weight):
    with pytest.raises(TableError, match="weight"):
        update(TABLE, [], weight)


READABLE = [
    ("fault\nstop_switch\n", 1),
    ("Fault;Complaint\nstop_switch;no start\n\nrings;\n", 2),
    ("date\tfault\tsecond_fault\n2030-01-02\tboot_loose\tplug_gap_wide\n", 1),
    ("fault,note\n\"plug fouled (oil or carbon)\",'a, b'\n", 1),
    ("fault\r\nPlug-Fouled\r\n", 1),
]


@pytest.mark.parametrize(("text", "count"), READABLE)
def test_are_lists_read_as_shops_write_them(text, count):
    assert len(parse_jobs(text, TABLE)) == count


REFUSED = [
    ("", "column 'fault'"),
    ("what\nrings\n", "column 'fault'"),
    ("fault\nstop_swich\n", "line 2: .*did you mean stop_switch"),
    ("fault\nrings\n\n\ngremlin\n", "line 5"),
    ("fault,second_fault\nrings,rings\n", "twice"),
    ("fault,complaint\nrings,sad\n", "line 2: 'sad'"),
    ("fault,complaint\n,no_start\n", "no fault given"),
    ('fault\n"rings', "no readable CSV"),
]


@pytest.mark.parametrize(("text", "said"), REFUSED)
def test_is_what_cannot_be_counted_named_with_its_line(text, said):
    with pytest.raises(TableError, match=said):
        parse_jobs(text, TABLE, "jobs.csv")


@settings(max_examples=60, deadline=None)
@given(text=st.text(max_size=80))
def test_does_junk_never_end_in_another_error(text):
    with contextlib.suppress(TableError):
        assert all(job.faults for job in parse_jobs("fault\n" + text, TABLE))


def test_is_a_list_of_an_older_office_program_read(tmp_path):
    path = tmp_path / "jobs.csv"
    path.write_bytes("fault;Bemerkung\nrings;geprüft\n".encode("cp1252"))
    assert read_jobs(path, TABLE) == [ClosedJob(("rings",))]
    with pytest.raises(TableError, match="cannot be read"):
        read_jobs(tmp_path / "none.csv", TABLE)


def test_can_the_shop_s_table_replace_the_course_s(tmp_path):
    done = update(TABLE, [ClosedJob(("rings",))] * 20, weight=100)
    again = load_table(save_table(done.table, tmp_path / "ours.yaml"))
    assert again.faults["rings"].rate == pytest.approx(done.table.faults["rings"].rate)
    assert again.model_dump() == done.table.model_dump()
    own = OwnMachine("no_start", "Cem", table=again)
    assert own.table.faults["rings"].rate == pytest.approx(again.faults["rings"].rate)
    assert Bench("rain_pump", "Cem", table=again).do("pull_feel", confirm="all").done
    with pytest.raises(TableError, match="already"):
        save_table(again, tmp_path / "ours.yaml")


def test_does_the_command_show_the_change_and_write_the_table(tmp_path):
    jobs = tmp_path / "jobs.csv"
    jobs.write_text("fault\n" + "stop_switch\n" * 12, encoding="utf-8")
    out = tmp_path / "ours.yaml"
    shown = CliRunner().invoke(command, ["priors", str(jobs), "--weight", "50", "--out", str(out)])
    assert shown.exit_code == 0, shown.output
    assert "stop switch stuck or shorted: 28.0 →" in shown.output
    told = json.loads(CliRunner().invoke(command, ["priors", str(jobs), "--json"]).output)
    assert told["jobs"] == 12
    assert load_table(out).faults["stop_switch"].rate > 28


def test_do_a_tables_name_and_date_leave_its_references_alone():
    named = TABLE.replaced(meta=TABLE.meta.model_copy(update={"shop": "Mill Lane Demo", "day": "2026-11-02"}))
    assert fingerprint(named) == fingerprint(TABLE)
    dearer = TABLE.replaced(meta=TABLE.meta.model_copy(update={"escalate_cost": 131.0}))
    assert fingerprint(dearer) != fingerprint(TABLE)


def test_is_the_courses_own_table_the_one_whose_references_are_kept():
    assert any(key.startswith(fingerprint(load_table())) for key in _kept())
