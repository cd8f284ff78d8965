"""Your own machine: the same calls, readings typed in, bands from the maker's manual."""

from __future__ import annotations

import pytest
from twostroke import TwoStrokeError
from twostroke.bench import Bench, OwnMachine

BANDS = {"air_gap": "0.3-0.5 mm", "compression": "100-140 psi", "secondary_resistance": "2-6 kohm"}


def own(**more):
    return OwnMachine("no_start", "Anna", BANDS, **more)


@pytest.mark.parametrize(
    ("test", "reading", "result"),
    [
        ("air_gap", "0.40 mm", "in_range"),
        ("air_gap", "12 thou", "in_range"),
        ("air_gap", "0,7 mm", "wide"),
        ("air_gap", "0 mm", "touching"),
        ("air_gap", "wide", "wide"),
        ("compression", "120 psi", "good"),
        ("compression", "6 bar", "low"),
        ("compression", "3 bar", "very_low"),
        ("secondary_ohm", "2.6k", "in_range"),
        ("secondary_ohm", "OL", "out_of_range"),
        ("secondary_ohm", "900 ohm", "out_of_range"),
        ("stop_ohm", "OL", "open_in_run"),
        ("stop_ohm", "0.4 ohm", "short_in_run"),
        ("plug_look", "wet", "wet"),
        ("plug_look", "Tan dry", "tan_dry"),
    ],
)
def test_what_does_a_typed_reading_come_to(test, reading, result):
    assert own().do(test, reading=reading).result == result


def test_is_a_number_without_a_band_read_and_not_judged():
    reading = OwnMachine("no_start", "Anna").do("air_gap", reading="0.4 mm")
    assert reading.result is None
    assert reading.done
    assert "type in the maker's" in reading.words
    assert reading.value.to("mm").magnitude == pytest.approx(0.4)


@pytest.mark.parametrize(
    ("test", "reading", "says"),
    [
        ("air_gap", "0.4", "air_gap"),
        ("air_gap", "4 psi", "air_gap"),
        ("air_gap", None, "what was seen"),
        ("plug_look", "purple", "none of tan_dry"),
        ("verify", "perhaps", "'runs' or 'fails'"),
        ("screw_count", "some", "number of turns"),
    ],
)
def test_is_a_reading_that_cannot_be_used_refused(test, reading, says):
    with pytest.raises(TwoStrokeError, match=says):
        own().do(test, reading=reading)


@pytest.mark.parametrize(
    "bands", [{"air_gap": "wide"}, {"air_gap": "0.3"}, {"colour": "1-2 mm"}, {"air_gap": "2-3 bar"}]
)
def test_is_a_band_that_is_none_refused(bands):
    with pytest.raises(TwoStrokeError):
        OwnMachine("no_start", "Anna", bands)


def test_do_bench_and_own_machine_answer_the_same_calls():
    for name in (
        "do",
        "hand_back",
        "actions",
        "settings",
        "offer",
        "minutes",
        "cost",
        "route",
        "opened",
        "complaint",
    ):
        assert hasattr(own(), name)
        assert hasattr(Bench("plug_fouled_trimmer", "Anna"), name)


def test_is_a_typed_job_recorded_like_one_on_the_bench():
    machine = own()
    machine.do("plug_look", reading="black", confirm="all")
    machine.do("swap_plug")
    assert not machine.verified()
    machine.do("verify", reading="runs", condition="cold")
    step = machine.route[0]
    assert step.opened == ("plug_out",)
    assert step.minutes == 3
    assert step["result"] == "black"
    assert machine.verified()
    assert machine.cost == machine.minutes + 5
    closed = machine.hand_back("plug_fouled", 0.9)
    assert closed["verified"]
    assert machine.route[-1].diagnosis == "plug_fouled"


def test_must_an_own_machine_be_verified_in_the_complaints_condition():
    machine = OwnMachine("dies_hot", "Anna")
    machine.do("replace_module", money=40, minutes="25 min")
    assert (machine.minutes, machine.parts_money) == (25.0, 40.0)
    machine.do("verify", reading="runs", condition="cold")
    assert not machine.verified()
    machine.do("verify", reading="runs", condition="hot")
    assert machine.verified()


def test_are_unknown_complaints_and_actions_refused():
    with pytest.raises(TwoStrokeError, match="complaint"):
        OwnMachine("sulks", "Anna")
    with pytest.raises(TwoStrokeError, match="did you mean"):
        own().do("airgap")
    with pytest.raises(TwoStrokeError, match="takes no 'colour'"):
        own().do("plug_look", colour="black")


def test_is_a_test_noted_in_the_state_in_which_it_is_made():
    """Shaken if it shakes, else the temperature that it needs, else as the machine is; or as is said."""
    machine = OwnMachine("dies_hot", "Anna")
    steps = [
        ("spark_gap_cold", "good", "cold"), ("plug_look", "wet", "cold"), ("spark_shake", "steady", "shake"),
        ("spark_gap_hot", "none", "hot"), ("plug_look", "wet", "hot"), ("vent_listen", "no_hiss", "hot"),
        ("plug_look", "wet", "cold"), ("heat_module", "spark_lost", "hot"),
    ]  # fmt: skip
    for action, reading, state in steps:
        assert machine.usual_condition(action) == state, action
        assert machine.do(action, reading=reading).condition == state, action
    assert machine.do("plug_look", reading="wet", condition="cold").condition == "cold"
    machine.do("warm_up")
    assert machine.do("verify", reading="runs").condition == "hot"


def test_do_the_cautions_of_a_running_engine_stand_at_every_step_that_runs_it():
    running = {"moving_parts", "exhaust_gas", "no_stop", "start_away"}
    machine = OwnMachine("dies_hot", "Anna")
    for action in ("verify", "warm_up", "spark_gap_hot"):
        assert running <= set(machine.offer(action)[1]), action
    assert not running & set(machine.offer("spark_gap_cold")[1])
    machine.do("warm_up")
    assert not running & set(machine.offer("spark_gap_hot")[1]), "it is hot already"


def test_is_a_machine_that_was_handed_back_closed():
    machine = own()
    machine.hand_back(None, 0.2)
    late = machine.do("plug_look", reading="wet")
    assert not late.done
    assert "closed" in late.words
    with pytest.raises(TwoStrokeError, match="already"):
        machine.hand_back("plug_fouled", 0.5)
    assert [step.action for step in machine.route] == ["hand_back"]
