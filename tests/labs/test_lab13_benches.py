"""Lab 13: machines that can be done, hints that are counted, a colleague's route that adds up."""

from __future__ import annotations

import contextlib
import io

import pytest
from twostroke import lab
from twostroke.isolation.references import JOBS, reference
from twostroke.lab.bench_job import judge, model_route, table_of
from twostroke.lab.cells import master_text
from twostroke.lab.desk import Desk, without_hints
from twostroke.lab.lab13_bench import BENCHES, TERMS
from twostroke.lab.lab13_read import STORIES
from twostroke.lab.master import missing_in_master

MACHINES = [(name, *machine) for name, made in BENCHES.items() for machine in made.machines]
FIRST = {name: (name, *made.machines[0]) for name, made in BENCHES.items()}


def _full(name, fault, number):
    scenario = BENCHES[name].scenario(fault, number)
    judged = judge(scenario, model_route(scenario, TERMS.pairs), TERMS)
    assert (judged.fraction, judged.state) == (1.0, "right"), judged.feedback.text


@pytest.mark.parametrize(("name", "fault", "number"), list(FIRST.values()))
def test_does_the_advisers_route_earn_full_points_on_a_machine_of_each_bench(name, fault, number):
    _full(name, fault, number)


@pytest.mark.slow
@pytest.mark.parametrize(("name", "fault", "number"), MACHINES)
def test_does_the_advisers_route_earn_full_points_on_every_machine(name, fault, number):
    _full(name, fault, number)


def test_are_there_five_benches_with_five_kinds_of_complaint_and_enough_machines():
    assert len(BENCHES) == len({made.kind for made in BENCHES.values()}) == 5
    assert all(len(made.machines) >= 12 for made in BENCHES.values())
    assert all(len(made.numbers) >= 9 for made in BENCHES.values())


@pytest.mark.parametrize("name", BENCHES)
def test_is_the_scale_of_the_score_a_kept_one_not_a_quick_guess(name):
    _, fault, number = FIRST[name]
    scenario = BENCHES[name].scenario(fault, number)
    assert reference(table_of(scenario), scenario["complaint"]["kind"], True).jobs == JOBS


def _said(call) -> str:
    with contextlib.redirect_stdout(io.StringIO()) as out:
        call()
    return out.getvalue()


@pytest.fixture
def work(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return lab.open_lab("13", "learner07")


def test_are_there_three_hints_for_a_step_each_further_than_the_last(work):
    machine = work.bench("trimmer")
    said = [_said(machine.hint) for _ in range(4)]
    assert said[0].startswith("Hint 1 of 3, which system: Think of ")
    assert said[1].startswith("Hint 2 of 3, what kind of step: ")
    assert said[2].startswith("Hint 3 of 3, which step: ")
    assert said[3] == said[2], "a hint taken twice is one hint"
    assert "(3 taken on this machine)" in said[3]


def test_does_the_next_step_begin_with_the_first_hint_again(work):
    machine = work.bench("trimmer")
    _said(machine.hint)
    _said(lambda: machine.do("look_over", confirm="all"))
    assert _said(machine.hint).startswith("Hint 1 of 3")
    assert [step["action"] for step in machine.route] == ["hint", "look_over", "hint"]
    assert without_hints(machine.route)[1] == 2


def test_are_hints_counted_and_kept_though_their_lines_are_erased(work):
    machine = work.bench("trimmer")
    _said(machine.hint)
    _said(machine.hint)
    again = lab.open_lab("13", "learner07")
    machine = again.bench("trimmer")
    assert "(2 taken on this machine)" in _said(machine.hint)
    assert "hints taken: 2" in repr(again.tries())
    assert "hints taken" not in repr(lab.open_lab("13", "another").tries())


@pytest.mark.parametrize(("hints", "share"), [(0, 1.0), (1, 0.95), (4, 0.8), (10, 0.5), (30, 0.5)])
def test_does_each_hint_in_the_record_take_its_part_of_the_points(hints, share):
    name, fault, number = FIRST["auger"]
    scenario = BENCHES[name].scenario(fault, number)
    route = [{"action": "hint", "after": 0, "level": 1}] * hints + model_route(scenario, TERMS.pairs)
    judged = judge(scenario, route, TERMS)
    assert judged.fraction == pytest.approx(share)
    assert (judged.slip == "hints_taken") == bool(hints)


def test_is_a_hint_no_step_where_there_are_no_hints():
    scenario = BENCHES["auger"].scenario(*BENCHES["auger"].machines[0])
    route = [{"action": "hint", "after": 0, "level": 1}, *model_route(scenario, TERMS.pairs)]
    assert judge(scenario, route).slip == "not_from_this_machine"
    assert "no hints in this job" in _said(lab.open_lab("10", "learner07").bench("bench").hint)
    assert _said(Desk(None, True).hint) == ""


def test_is_no_hint_given_once_the_machine_is_handed_back(work):
    machine = work.bench("trimmer")
    _said(lambda: machine.hand_back("plug_fouled", 0.5))
    assert "the job is closed" in _said(machine.hint)


@pytest.mark.parametrize("learner", [f"learner {number}" for number in range(20)])
def test_do_the_figures_of_the_route_add_up(learner):
    """Worked anew from the printed table: sums of the column, not the module's own functions."""
    given = lab.variant("13", learner)
    page = repr(lab.open_lab("13", learner).show("read"))
    rows = [line for line in page.splitlines() if line[:1].isdigit()]
    assert len(rows) == 7
    minutes = [int(line.split(" min")[0].split()[-1]) for line in rows]
    parts = [int(line.split(" min")[1]) for line in rows if line.split(" min")[1].strip()]
    model = lab.model_answers("13", learner)["read"]
    rate = given["read_rate_per_hour"]
    assert model["minutes"] == f"{sum(minutes)} min"
    assert float(model["cost"]) == pytest.approx(sum(minutes) * rate / 60 + sum(parts), abs=0.01)
    story = STORIES[given["read_story"]]
    vain = [place for place, line in enumerate(story) if line[0] in ("repeat", "guess")]
    assert {model["repeat"], model["guess"]} == {str(place + 1) for place in vain}
    spared = sum(minutes[place] for place in vain) * rate / 60 + given["read_parts"][0]
    assert float(model["spared"]) == pytest.approx(spared, abs=0.01)


@pytest.mark.parametrize("story", STORIES)
def test_does_each_story_repeat_a_reading_after_it_was_known(story):
    seen = {name: (place, words) for place, (name, _, words) in enumerate(STORIES[story])}
    earlier = [words for place, (name, _, words) in enumerate(STORIES[story]) if place < seen["repeat"][0]]
    assert any(seen["repeat"][1] in words for words in earlier)
    assert seen["guess"][0] < seen["mend"][0] < seen["prove"][0]


@pytest.mark.parametrize("number", ["10", "13", "14"])
def test_do_the_cells_written_for_a_job_hold_all_that_a_master_needs(number, tmp_path):
    path = tmp_path / f"lab{number}.py"
    path.write_text(master_text(lab.load(number)), encoding="utf-8")
    missing = [each for each in missing_in_master(lab.load(number), path) if "optional function" not in each]
    assert missing == []
