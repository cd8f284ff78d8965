"""Seeds, keeping and replaying a job: the same bench everywhere, nothing hidden told, no forged route."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest
from twostroke import TwoStrokeError
from twostroke.bench import Bench, RouteError, from_json, replay, to_json
from twostroke.table import load_scenario, scenario_paths

PLAIN = load_scenario(scenario_paths()["plug_fouled_trimmer"]).model_dump() | {"truth": []}

ROUND = (
    "switch_check",
    "look_over",
    "plug_look",
    "spark_gap_cold",
    "compression",
    "swap_plug",
    "verify",
    "air_gap",
)


def played(learner="Anna", name="plug_fouled_trimmer", **more):
    machine = Bench(name, learner, **more)
    for action in ROUND:
        machine.do(action, prepare=True, confirm="all")
    machine.hand_back("plug_fouled", "90 %")
    return machine


def test_does_the_same_seed_give_the_same_bench_to_the_byte_in_another_process():
    code = (
        "from twostroke.bench import Bench, to_json\n"
        "b = Bench('plug_fouled_trimmer', '  aNNa ')\n"
        f"for a in {ROUND!r}:\n    b.do(a, prepare=True, confirm='all')\n"
        "b.hand_back('plug_fouled', '90 %')\nb.learner = 'Anna'\nprint(to_json(b))"
    )
    outputs = set()
    for hash_seed in ("0", "4711"):
        env = {**os.environ, "PYTHONHASHSEED": hash_seed}
        outputs.add(
            subprocess.run(
                [sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True
            ).stdout
        )
    assert outputs == {to_json(played()) + "\n"}


def test_does_another_learner_have_another_machine():
    texts = {
        json.dumps([step["reading"] for step in json.loads(to_json(played(name)))["steps"]])
        for name in "abcdef"
    }
    assert len(texts) >= 5


def test_does_a_kept_job_open_where_it_was_left_and_hide_what_is_wrong():
    machine = Bench("plug_fouled_trimmer", "Anna")
    for action in ROUND[:5]:
        machine.do(action, prepare=True, confirm="all")
    kept = to_json(machine)
    assert "severity" not in kept
    again = from_json(kept)
    assert again.minutes == machine.minutes
    assert again.opened == machine.opened
    for action in ROUND[5:]:
        assert again.do(action, prepare=True, confirm="all") == machine.do(
            action, prepare=True, confirm="all"
        )
    assert again.hand_back("plug_fouled", 0.9) == machine.hand_back("plug_fouled", 0.9)
    assert to_json(from_json(to_json(machine))) == to_json(machine)


def test_does_a_job_with_skipped_cautions_and_no_reminders_replay_as_it_was():
    machine = Bench("plug_fouled_trimmer", "Bo", reminders=False)
    machine.do("spark_plug_cold", prepare=True)
    machine.do("pull", pulls=2, choke="closed")
    assert from_json(to_json(machine)).route == machine.route


FORGERIES = {
    "another reading": lambda steps: steps[2].update(result="tan_dry"),
    "less time": lambda steps: steps[3].update(minutes=0.5),
    "a caution that was not kept": lambda steps: steps[3].update(cautions_confirmed=[], cautions_missed=[]),
    "a step left out": lambda steps: steps.pop(2),
    "a step put in": lambda steps: steps.insert(1, {**steps[0], "result": "sticky"}),
    "steps swapped": lambda steps: steps.insert(4, steps.pop(5)),
    "a number nudged": lambda steps: steps[4].update(reading={"compression": "10.9 bar"}),
    "an action of one's own": lambda steps: steps.append({"action": "bribe", "settings": {}}),
    "a setting of one's own": lambda steps: steps[0].update(settings={"result": "sticky"}),
    "no record": lambda steps: steps.insert(0, "plug_look"),
    "a failed run called a pass": lambda steps: steps.insert(0, {**steps[6]}),
    "the job goes on after hand-back": lambda steps: steps.append({**steps[0]}),
}


@pytest.mark.parametrize("forge", FORGERIES.values(), ids=FORGERIES)
def test_is_a_forged_route_refused(forge):
    steps = [step.to_dict() for step in played().route]
    replay(steps, "plug_fouled_trimmer", "anna")
    forge(steps)
    with pytest.raises(RouteError, match=r"step \d+"):
        replay(steps, "plug_fouled_trimmer", "anna")


def test_is_another_learners_route_refused():
    with pytest.raises(RouteError):
        replay(played("Anna").route, "plug_fouled_trimmer", "Bo")


@pytest.mark.parametrize("text", ["", "{}", "[1]", '{"form": 1}', "not json"])
def test_is_text_that_is_no_kept_job_refused(text):
    with pytest.raises(TwoStrokeError, match="no kept bench job"):
        from_json(text)


def test_is_a_drawn_fault_the_secret_of_the_course():
    drawn = {
        **PLAIN,
        "seed": {"policy": "drawn", "draw_from": ["module_dead", "stop_switch", "rings", "lead_open"]},
    }
    found = {
        secret: Bench(drawn, "Anna", secret=secret).hand_back(None, 0, hand_on=True).truth
        for secret in "abcdefghijklmnop"
    }
    assert len(set(found.values())) >= 2
    again = Bench(drawn, "anna", secret="a").hand_back(None, 0, hand_on=True).truth
    assert again == found["a"]


def test_does_a_fixed_scenario_give_everybody_the_same_machine():
    fixed = {**PLAIN, "truth": [{"fault": "rings"}], "seed": {"policy": "fixed", "number": 3}}
    texts = {
        str(Bench(fixed, name).do("compression", prepare=True, confirm="all")) for name in ("a", "b", "c")
    }
    assert len(texts) == 1
