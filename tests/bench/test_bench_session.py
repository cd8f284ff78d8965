"""The session: covers, warmth, cautions, clock, repairs, hand-back."""

from __future__ import annotations

import json

import pytest
from twostroke import TwoStrokeError
from twostroke.bench import SESSION_ACTIONS, Bench, to_json
from twostroke.table import load_table

PLAIN = {
    "id": "plain_session", "title": "a machine for the test",
    "machine": {
        "kind": "cut-off saw", "engine": "demo engine D", "displacement": "70 cc",
        "features": ["primer_bulb", "decompression_valve", "mixture_screws", "lead_separate", "reed_valve"],
    },
    "complaint": {"kind": "no_start", "words": "It does not start any more."},
    "truth": [], "history": ["none"], "aim": "to test the bench itself", "competencies": ["safety"],
    "bands": {"air_gap": "0.20-0.40 mm", "plug_gap": "0.50-0.60 mm", "compression": "8-12 bar",
        "lead_resistance": "3-7 kohm", "mixture_turns": "1-1.5 turns"},
}  # fmt: skip


def bench(*truth, learner="Anna", kind="no_start", reminders=True, secret=None, **changes):
    written = [{"fault": t} if isinstance(t, str) else t for t in truth]
    story = {"kind": kind, "words": "It does not start any more."}
    return Bench(
        {**PLAIN, "truth": written, "complaint": story, **changes},
        learner,
        reminders=reminders,
        secret=secret,
    )


# covers and warmth -------------------------------------------------------------------------------


def test_does_a_cover_that_is_still_on_get_an_answer_and_cost_nothing():
    machine = bench("airgap_wide")
    reading = machine.do("air_gap")
    assert not reading.done
    assert "cover is still on: 3 min to take it off" in reading.words
    assert machine.minutes == 0
    assert machine.route == []


def test_do_covers_come_off_in_order_and_stay_off():
    machine = bench("key_sheared")
    assert "still on" in machine.do("flywheel", confirm="all").words
    off = machine.do("flywheel", prepare=True, confirm="all")
    assert off.done
    assert machine.opened == ("top_cover", "plug_out", "flywheel")
    assert machine.minutes == 3 + 2 + 10
    assert machine.do("key_look").minutes == 2
    assert "off already" in machine.do("top_cover").words


def test_is_a_hot_muffler_left_alone_until_it_is_cool():
    machine = bench("screen")
    machine.do("warm_up", confirm="all")
    blocked = machine.do("port_look", confirm="all")
    assert not blocked.done
    assert "20 min to let it cool" in blocked.words
    done = machine.do("port_look", prepare=True, confirm="all")
    assert done.minutes == 20 + 5 + 2
    assert machine.temperature == "cold"


def test_does_a_hot_test_ask_for_a_hot_machine():
    machine = bench("module_dead")
    assert "8 min to warm it" in machine.do("spark_gap_hot", confirm="all").words
    assert machine.do("spark_gap_hot", prepare=True, confirm="all").minutes == 8 + 3
    assert machine.temperature == "hot"


def test_is_a_tank_over_the_module_in_the_way():
    auger = {
        **PLAIN["machine"],
        "kind": "earth auger",
        "engine": "demo engine C",
        "features": ["tank_over_module"],
    }
    machine = bench("airgap_wide", machine=auger)
    words = machine.do("air_gap").words
    assert "tank is still on" in words
    assert "cover is still on" in words


# cautions ----------------------------------------------------------------------------------------


def test_does_the_bench_stop_before_an_action_whose_cautions_are_not_confirmed():
    machine = bench("module_dead")
    asked = machine.do("spark_gap_cold")
    assert not asked.done
    assert set(asked.cautions) == {"spark_near_fuel", "high_voltage"}
    assert "fuel can closed" in asked.words
    half = machine.do("spark_gap_cold", confirm=["high_voltage"])
    assert half.cautions == ("spark_near_fuel",)
    done = machine.do("spark_gap_cold", confirm=["high_voltage", "spark_near_fuel"])
    assert done.done
    assert machine.route[-1].cautions_confirmed == ("spark_near_fuel", "high_voltage")
    assert not machine.route[-1].unsafe


def test_is_a_caution_that_was_skipped_on_the_record():
    for machine, settings in (
        (bench("module_dead"), {"anyway": True}),
        (bench("module_dead", reminders=False), {}),
    ):
        reading = machine.do("spark_gap_cold", **settings)
        assert reading.done
        assert "Caution not kept" in reading.words
        step = machine.route[-1]
        assert step.unsafe
        assert set(step.cautions_missed) == {"spark_near_fuel", "high_voltage"}
        assert not machine.hand_back("module_dead", 0.9).safe


def test_can_turning_over_with_an_open_lead_harm_the_module():
    harmed = 0
    for number in range(20):
        machine = bench("rings", learner=f"open lead {number}", reminders=False)
        machine.do("compression", prepare=True)
        harmed += "module_shorted" in machine.hand_back("rings", 0.9).made_by_work
    assert 2 <= harmed <= 14


def test_does_a_start_with_the_stop_lead_off_ask_how_the_engine_is_stopped():
    machine = bench("plug_fouled")
    assert "no_stop" in machine.offer("verify")[1]
    running = {"moving_parts", "exhaust_gas", "start_away", "no_stop"}
    assert running <= set(machine.offer("warm_up")[1])
    assert running <= set(machine.offer("spark_gap_hot")[1]), "it is run until it is hot first"
    cautions = machine.do("pull").cautions
    assert {"exhaust_gas", "start_away", "no_stop"} <= set(cautions)


def test_is_an_unknown_caution_refused():
    with pytest.raises(TwoStrokeError, match="no caution of this table"):
        bench("module_dead").do("spark_gap_cold", confirm=["luck"])


# clear errors ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("action", "settings", "says"),
    [
        ("polish", {}, "no test, repair, cover or bench action"),
        ("plug_lok", {}, "did you mean plug_look"),
        ("plug_look", {"speed": 3}, "takes no 'speed'"),
        ("set_air_gap", {"shim": "0.30"}, "shim"),
        ("set_air_gap", {"shim": "30 mm"}, "0.02 to 2 mm"),
        ("set_air_gap", {"shim": "3 psi"}, "shim"),
        ("spark_gap_cold", {"gap": "50 mm"}, "2 to 12 mm"),
        ("spark_gap_cold", {"pull": "mighty"}, "'weak' or 'normal' or 'fast'"),
        ("wait", {"minutes": -4}, "0.1 to 600"),
        ("pull", {"choke": "gone"}, "'closed' or 'half' or 'open'"),
        ("lead_ohm", {"leads_nulled": "maybe"}, "True or False"),
    ],
)
def test_is_what_cannot_be_meant_refused_with_what_is_allowed(action, settings, says):
    with pytest.raises(TwoStrokeError, match=says):
        bench("module_dead").do(action, **settings)


@pytest.mark.parametrize(
    ("action", "settings", "says"),
    [
        ("set_air_gap", {"screws": "with glue"}, "screws="),
        ("set_air_gap", {"recheck": "yes"}, "recheck="),
        ("set_air_gap", {"terminal": "up"}, "terminal="),
        ("replace_lead", {"routing": "knotted"}, "routing="),
        ("pull", {"pulls": 0}, "whole number from 1 to 20"),
        ("prime", {"presses": 2.5}, "whole number"),
        ("verify", {"condition": "lukewarm"}, "condition="),
        ("measure", {"what": "mood"}, "what="),
        ("stop_lead", {"state": "cut"}, "state="),
    ],
)
def test_does_a_refused_setting_leave_the_job_as_it_was(action, settings, says):
    machine = bench("module_dead")
    before = to_json(machine)
    with pytest.raises(TwoStrokeError, match=says):
        machine.do(action, prepare=True, confirm="all", **settings)
    assert to_json(machine) == before
    assert machine.opened == ()
    assert machine.minutes == 0


@pytest.mark.parametrize("confidence", [1.4, -0.1, "certain", None, True, "120 %"])
def test_is_a_confidence_that_is_none_refused(confidence):
    with pytest.raises(TwoStrokeError, match="confidence"):
        bench("module_dead").hand_back("module_dead", confidence)


def test_are_unknown_scenarios_engines_and_diagnoses_refused():
    with pytest.raises(TwoStrokeError, match="no scenario"):
        Bench("the_lost_machine", "Anna")
    with pytest.raises(TwoStrokeError, match="scenario is a"):
        Bench(7, "Anna")
    with pytest.raises(TwoStrokeError, match="no fault of this table"):
        bench("module_dead").hand_back("gremlins", 0.5)
    with pytest.raises(TwoStrokeError, match="nobody would bring that in"):
        bench({"fault": "rings", "severity": 0.05})


def test_does_everything_that_is_offered_answer_in_words():
    """Every action of the table and the bench, on one machine with two faults, never crashes."""
    machine = bench("rings", "stop_lead")
    for action in [*machine.table.tests, *SESSION_ACTIONS, *machine.table.access, *machine.table.repairs]:
        reading = machine.do(action, prepare=True, confirm="all")
        assert reading.words
        if reading.done and action in machine.table.tests:
            assert reading.result in machine.table.tests[action].results
    assert json.loads(to_json(machine))


# clock, repeat, repair, verify, hand-back --------------------------------------------------------


def test_do_minutes_and_parts_add_up_along_the_route():
    machine = bench("plug_fouled", labour_per_minute=2.0)
    machine.do("plug_look", prepare=True, confirm="all")
    machine.do("swap_plug")
    machine.do("verify", confirm="all")
    assert machine.minutes == pytest.approx(sum(step.minutes for step in machine.route)) == 3 + 2 + 3
    assert machine.cost == pytest.approx(8 * 2.0 + 5)
    assert [step.time for step in machine.route] == [3.0, 5.0, 8.0]


def test_does_a_test_repeated_with_nothing_changed_mostly_repeat_itself():
    same = total = 0
    for number in range(25):
        machine = bench("airgap_wide", learner=f"again {number}")
        first = machine.do("look_over").result
        for _ in range(4):
            total += 1
            same += machine.do("look_over").result == first
    assert same / total > 0.85


def test_does_a_repair_of_something_else_leave_the_fault_and_bring_the_machine_back():
    machine = bench("module_dead")
    machine.do("swap_plug", prepare=True, confirm="all")
    outcome = machine.hand_back("plug_fouled", 0.8)
    assert not outcome.fixed
    assert outcome.comes_back
    assert outcome.left == ("module_dead",)
    assert outcome.parts_money == 0, "a plug on trial that changed nothing goes back in the drawer"
    assert outcome.cost == pytest.approx(machine.minutes + load_table().meta.comeback_cost)
    assert not hasattr(outcome, "score")


def test_does_a_part_that_cured_something_stay_and_get_paid():
    machine = bench("plug_fouled")
    machine.do("swap_plug", prepare=True, confirm="all")
    machine.do("verify", confirm="all")
    outcome = machine.hand_back("plug_fouled", 0.9)
    assert outcome.fixed
    assert outcome.verified
    assert outcome.parts_money == 5


def test_must_a_verify_run_meet_the_complaints_own_condition():
    """A module that fails hot passes cold; only the hot run is a proof."""
    truth = {"fault": "module_heat", "severity": 0.9}
    machine = bench(truth, kind="dies_hot")
    assert machine.do("verify", condition="cold", confirm="all").result == "runs"
    outcome = machine.hand_back(None, 0.3)
    assert not outcome.verified
    assert outcome.comes_back
    proven = bench(truth, kind="dies_hot")
    assert proven.do("verify", confirm="all").result == "fails"
    proven.do("replace_module", prepare=True, confirm="all")
    run = proven.do("verify", confirm="all")
    assert run.result == "runs"
    assert set(proven.route[-1].conditions) == {"cold", "hot"}
    assert proven.hand_back("module_heat", 0.95).verified


def test_does_a_repair_after_the_verify_run_take_the_proof_away():
    machine = bench("plug_fouled")
    machine.do("swap_plug", prepare=True, confirm="all")
    machine.do("verify", confirm="all")
    machine.do("clean_ground", prepare=True, confirm="all")
    assert not machine.hand_back("plug_fouled", 0.9).verified


def test_do_repairs_sometimes_not_cure():
    cured = 0
    for number in range(40):
        machine = bench("plug_loose", learner=f"loose {number}")
        machine.do("tighten_plug")
        cured += machine.hand_back("plug_loose", 0.9).fixed
    assert 24 <= cured <= 39


def test_can_a_job_be_handed_on_and_is_it_closed_then():
    machine = bench("crank_seal")
    outcome = machine.hand_back(None, 0.0, hand_on=True)
    assert outcome.handed_on
    assert not outcome.comes_back
    assert outcome.cost == load_table().meta.escalate_cost
    assert "closed" in machine.do("plug_tight").words
    with pytest.raises(TwoStrokeError, match="handed back already"):
        machine.hand_back("crank_seal", 0.5)
    assert machine.route[-1].action == "hand_on"


def test_do_two_faults_both_have_to_go():
    machine = bench({"fault": "plug_fouled", "severity": 0.9}, {"fault": "stop_switch", "severity": 0.9})
    machine.do("swap_plug", prepare=True, confirm="all")
    assert machine.do("verify", confirm="all").result == "fails"
    machine.do("replace_switch", prepare=True, confirm="all")
    assert machine.do("verify", confirm="all").result == "runs"
    assert machine.hand_back("stop_switch", 0.9).fixed
