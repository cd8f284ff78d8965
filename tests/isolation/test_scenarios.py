"""The course's scenarios: form, spread, stories, and what `check` says of good and of bad ones."""

from __future__ import annotations

import json
import re
from collections import Counter
from importlib.resources import files
from itertools import combinations
from statistics import median

import networkx as nx
import pytest
import yaml
from click.testing import CliRunner
from twostroke.bench import Bench
from twostroke.commands.scenarios import scenario as command
from twostroke.isolation import score_route
from twostroke.scenarios import (
    best_route,
    by_difficulty,
    check,
    cure,
    difficulty,
    kept_difficulty,
    level,
    new,
    renew,
    telling_tests,
)
from twostroke.table import COMPETENCIES, Scenario, TableError, load_scenario, load_table, scenario_paths

TABLE = load_table()
ALL = {name: load_scenario(path) for name, path in scenario_paths().items()}
PLAYED = {"plug_fouled_trimmer", "rain_pump"}

# situations that must be practisable: what is true, and the complaint it comes with (None: any)
SITUATIONS = [
    ("new plug dead in open air, in-line tester flashes", {"plug_internal"}, None),
    ("spark only at a very fast pull", {"magnet_weak"}, "fast_pull"),
    ("runs again once the lead was moved, fails later", {"lead_open"}, "after_lead_moved"),
    ("a module that fails hot", {"module_heat"}, "dies_hot"),
    ("a stop lead that shorts only when bent", {"stop_lead"}, "after_lead_moved"),
    ("a boot spring off its terminal", {"boot_loose"}, None),
    ("a wide gap", {"airgap_wide"}, None),
    ("a rubbing module", {"airgap_rub"}, None),
    ("unequal legs", {"legs_unequal"}, None),
    ("a module the wrong way round", {"module_reversed"}, None),
    ("a missing ground lead", {"ground_missing"}, None),
    ("a lead too long and pinched under the cover", {"lead_pinched"}, None),
    ("a sheared key", {"key_sheared"}, None),
    ("a second fault behind the first", {"boot_loose", "plug_gap_wide"}, None),
]


def true_faults(one: Scenario) -> set[str]:
    return {true.fault for true in one.truth}


@pytest.mark.parametrize(("words", "faults", "kind"), SITUATIONS, ids=[row[0] for row in SITUATIONS])
def test_can_every_situation_be_practised(words, faults, kind):
    assert scenarios_of(faults, kind), words


def scenarios_of(faults, kind):
    return [s for s in ALL.values() if true_faults(s) == faults and kind in (None, s.complaint.kind)]


def test_has_every_situation_a_machine_of_its_own():
    """No two of them in one story."""
    ways = nx.Graph()
    for words, faults, kind in SITUATIONS:
        ways.add_edges_from((words, one.id) for one in scenarios_of(faults, kind))
    told = [words for words, *_ in SITUATIONS]
    matched = nx.bipartite.maximum_matching(ways, told)
    assert {words for words in told if words in matched} == set(told)


@pytest.mark.slow
@pytest.mark.parametrize(("words", "faults", "kind"), SITUATIONS, ids=[row[0] for row in SITUATIONS])
def test_is_every_situation_graded_from_complaint_to_hand_back(words, faults, kind):
    """A good route passes, handing on at once does not; on three machines of every scenario."""
    for one in scenarios_of(faults, kind):
        good, poor = [], []
        for learner in ("Anna", "Ben", "Carla"):
            worked = best_route(one, learner)
            told = worked.outcome.truth
            good.append(score_route(worked.bench.table, one.complaint.kind, worked.bench.route, truth=told))
            gives_up = Bench(one, learner)
            gives_up.hand_back(None, 0.1, hand_on=True)
            poor.append(score_route(gives_up.table, one.complaint.kind, gives_up.route, truth=told))
        assert median(done.score for done in good) >= 70
        assert sum(done.passed for done in good) >= 2
        assert not any(done.passed for done in poor)
        assert max(done.score for done in poor) < min(70.0, median(done.score for done in good))


def test_are_there_enough_and_from_every_system():
    systems = Counter(TABLE.faults[true.fault].sys for s in ALL.values() for true in s.truth)
    assert len(ALL) >= 24
    assert {"ignition", "fuel", "air", "compression", "exhaust"} <= set(systems)
    assert sum(len(s.truth) == 2 for s in ALL.values()) >= 3
    assert {s.machine.engine[-1] for s in ALL.values()} == set("ABCDEF")
    assert len({s.machine.kind for s in ALL.values()}) == 5
    assert {c for s in ALL.values() for c in s.competencies} <= set(COMPETENCIES)


def test_has_each_its_own_story_numbers_and_history():
    for one, other in combinations(ALL.values(), 2):
        pair = f"{one.id} and {other.id}"
        assert one.complaint.words != other.complaint.words, pair
        assert one.aim != other.aim, pair
        assert not set(one.history) & set(other.history), pair
        assert (one.machine.engine, one.bands, one.machine.ambient) != (
            other.machine.engine, other.bands, other.machine.ambient,
        ), pair  # fmt: skip


def test_do_seeds_differ_so_that_no_two_scenarios_share_their_luck():
    numbers = Counter(s.seed.number for s in ALL.values() if s.seed.policy != "fixed")
    assert max(numbers.values()) == 1


def test_does_every_file_say_that_it_is_invented():
    for name, path in scenario_paths().items():
        assert "invented" in path.read_text(encoding="utf-8").splitlines()[0], name


@pytest.mark.parametrize("name", sorted(ALL))
def test_does_who_knows_the_fault_cure_it_and_prove_it(name):
    job = cure(ALL[name], "a learner of the quick tier")
    assert job.solved, [(step.action, step.result) for step in job.bench.route]


@pytest.mark.parametrize("name", sorted(ALL))
def test_does_some_test_tell_the_fault(name):
    assert telling_tests(ALL[name].table(TABLE), sorted(true_faults(ALL[name])))


@pytest.mark.slow
@pytest.mark.parametrize("name", sorted(ALL))
def test_is_every_scenario_sound_on_many_machines(name):
    report = check(ALL[name], learners=12, jobs=2)  # few jobs: how hard it is is not judged
    assert report.faults == ()


@pytest.mark.parametrize("name", sorted(PLAYED))
def test_does_the_best_route_end_verified(name):
    job = best_route(name, "Berit")
    assert job.solved
    assert job.outcome.safe
    assert job.diagnosis in true_faults(ALL[name])


# what check must find ---------------------------------------------------------------------------


def changed(name: str, **changes) -> Scenario:
    return Scenario(**{**ALL[name].model_dump(), **changes})


BAD = [
    (
        "a fault too mild to be noticed",
        changed("paving_saw", truth=[{"fault": "air_filter", "severity": 0.2}]),
        "complaint: a verify run",
    ),
    (
        "a complaint that nobody would bring for this fault",
        changed("rain_pump", complaint={"kind": "weak_run", "words": "It has no power in the afternoon."},
                truth=[{"fault": "module_dead", "severity": 1.0}]),
        "nobody will believe the story",
    ),
    (
        "no test that sees the fault",
        changed("rain_pump", tests=["ask_fuel_age", "fuel_sample"]),
        "no test that is allowed can see the fault",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("why", "scenario", "said"), BAD, ids=[row[0] for row in BAD])
def test_does_check_find_what_is_wrong(why, scenario, said):
    report = check(scenario, learners=3, jobs=2)
    assert not report.sound
    assert any(said in fault for fault in report.faults), report.faults


def test_is_difficulty_computed_and_not_guessed():
    plain = difficulty(ALL["plug_fouled_trimmer"], jobs=6)
    costly = difficulty(ALL["nine_summers_pump"], jobs=6)
    assert plain.knowing < plain.expected_cost < costly.expected_cost
    assert plain.level < costly.level
    assert difficulty(ALL["plug_fouled_trimmer"], jobs=6) == plain


def test_has_a_scenario_with_a_drawn_fault_a_difficulty_too():
    drawn = changed("rain_pump", truth=[], seed={"policy": "drawn", "draw_from": ["rings", "stop_switch"]})
    report = check(drawn, jobs=6)
    assert report.sound
    assert report.learners == 0
    assert report.difficulty.expected_cost > difficulty(ALL["rain_pump"], jobs=6).knowing


def test_does_difficulty_follow_the_prices_of_the_table():
    meta = TABLE.meta.model_copy(update={"money_per_minute": 2 * TABLE.meta.money_per_minute})
    dear = difficulty(ALL["plug_fouled_trimmer"], TABLE.replaced(meta=meta), jobs=6)
    assert dear.knowing > difficulty(ALL["plug_fouled_trimmer"], jobs=6).knowing


def test_does_the_kept_difficulty_of_every_scenario_hold():
    """Red after a change of table or scenario: `twostroke table renew --only difficulty` makes it anew."""
    assert [name for name, one in ALL.items() if kept_difficulty(one) is None] == []


@pytest.mark.parametrize("name", ["plug_fouled_trimmer", "october_trimmer"])
def test_is_the_kept_difficulty_what_is_worked_out(name):
    kept, fresh = kept_difficulty(ALL[name]), difficulty(ALL[name])
    assert kept.level == level(ALL[name]) == fresh.level
    assert kept.expected_cost == pytest.approx(fresh.expected_cost, abs=0.01)


def test_are_scenarios_laid_out_from_plain_to_dear():
    levels = [level(one) for one in by_difficulty()]
    assert levels == sorted(levels)
    assert set(levels) == {1, 2, 3, 4, 5}


def test_is_a_changed_scenario_not_given_its_old_difficulty():
    one = ALL["rain_pump"]
    assert level(one.model_copy(update={"title": "Another title"})) == level(one)
    worse = [one.truth[0].model_copy(update={"severity": 0.31})]
    assert level(one.model_copy(update={"truth": worse})) is None
    assert level(one.model_copy(update={"id": "strange"})) is None


def test_is_only_what_changed_worked_out_again(tmp_path):
    path = tmp_path / "difficulty.yaml"
    rows = yaml.safe_load((files("twostroke") / "data" / "difficulty.yaml").read_text(encoding="utf-8"))
    rows["rain_pump"]["mark"] = "of yesterday"
    rows["gone_machine"] = dict(rows["rain_pump"])
    path.write_text(yaml.safe_dump(rows), encoding="utf-8")
    told: list[str] = []
    assert set(renew(path, progress=told.append)) == {"rain_pump"}
    assert told == ["rain_pump"]
    assert set(yaml.safe_load(path.read_text(encoding="utf-8"))) == set(ALL)


# the template -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "fault", ["stop_switch", "decompression_stuck", "reed", "cooling", "mixture_altered"]
)
def test_is_the_template_a_scenario_that_can_be_read(fault, tmp_path):
    path = new(tmp_path / "wet_shed.yaml", fault=fault, engine="d")
    made = load_scenario(path)
    assert made.id == "wet_shed"
    assert made.truth[0].fault == fault
    assert cure(made, "anyone").outcome.fixed


WRONG = [
    ({"fault": "gremlin"}, "gremlin"),
    ({"fault": "other"}, "other"),
    ({"engine": "Z"}, "Z"),
    ({"complaint": "sad"}, "sad"),
]


@pytest.mark.parametrize(("given", "said"), WRONG, ids=[row[1] for row in WRONG])
def test_does_the_template_refuse_what_it_does_not_know(given, said, tmp_path):
    with pytest.raises(TableError, match=said):
        new(tmp_path / "wet_shed.yaml", **given)
    assert not (tmp_path / "wet_shed.yaml").exists()


def test_does_the_template_leave_files_alone(tmp_path):
    (tmp_path / "wet_shed.yaml").write_text("mine", encoding="utf-8")
    with pytest.raises(TableError, match="already"):
        new(tmp_path / "wet_shed.yaml")
    assert (tmp_path / "wet_shed.yaml").read_text(encoding="utf-8") == "mine"
    with pytest.raises(TableError, match="name the file"):
        new(tmp_path / "Wet shed.txt")


# the command ------------------------------------------------------------------------------------


def test_does_the_command_make_and_check_a_scenario(tmp_path):
    path = str(tmp_path / "wet_shed.yaml")
    made = CliRunner().invoke(command, ["new", path, "--fault", "stop_switch", "--engine", "E"])
    assert made.exit_code == 0, made.output
    checked = CliRunner().invoke(command, ["check", path, "--learners", "2", "--json"])
    assert checked.exit_code == 0, checked.output
    report = json.loads(checked.output)[0]
    assert report["sound"]
    assert report["difficulty"]["level"] in (1, 2, 3, 4, 5)


def test_does_the_command_end_with_1_when_something_must_be_mended(tmp_path):
    bad = ALL["paving_saw"].model_dump(mode="json")
    bad |= {"id": "too_mild", "truth": [{"fault": "air_filter", "severity": 0.2}]}
    path = tmp_path / "too_mild.yaml"
    path.write_text(yaml.safe_dump(bad), encoding="utf-8")
    done = CliRunner().invoke(command, ["check", str(path), "--learners", "2"])
    assert done.exit_code == 1
    assert "mend: complaint" in done.output
    assert re.search(r"difficulty [1-5] of 5", done.output), "as the list of scenarios says it"


def test_does_the_list_keep_the_truth_hidden():
    rows = json.loads(CliRunner().invoke(command, ["list", "--json"]).output)
    assert {row["id"] for row in rows} == set(ALL)
    for row in rows:
        assert set(row) == {"id", "title", "machine", "complaint", "difficulty"}
        told = f"{row['title']} {row['complaint']}"
        assert not any(fault in told for fault in true_faults(ALL[row["id"]]) if "_" in fault), row["id"]
