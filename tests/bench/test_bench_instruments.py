"""Instruments: range, steps, limits, habits; and what eyes and hands say of how sure they are."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from twostroke import TwoStrokeError
from twostroke.bench import Bench, instruments
from twostroke.bench.heat import Heat
from twostroke.bench.instruments import SCALES
from twostroke.bench.seeds import Draws

PLAIN = {
    "id": "plain_instruments", "title": "a machine for the test",
    "machine": {
        "kind": "brush cutter", "engine": "demo engine F", "displacement": "45 cc",
        "features": ["primer_bulb", "lead_separate"],
    },
    "complaint": {"kind": "no_start", "words": "It does not start any more."},
    "truth": [], "history": ["none"], "aim": "to test the bench itself", "competencies": ["safety"],
    "bands": {
        "primary_resistance": "0.7-1.1 ohm", "secondary_resistance": "2.4-3.4 kohm", "air_gap": "8-16 thou",
    },
}  # fmt: skip


def bench(*truth, learner="Anna", **changes):
    return Bench({**PLAIN, "truth": [{"fault": t} for t in truth], **changes}, learner)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(sorted(SCALES)), st.floats(0.0, 1.0), st.floats(-1.0, 1.0), st.integers(0, 10_000))
def test_does_an_instrument_stay_within_its_limits_and_show_whole_steps(name, share, lasting, seed):
    scale = SCALES[name]
    top = min(scale.highest, 10.0 * scale.resolution / 0.01)
    true = scale.lowest + share * (top - scale.lowest)
    shown = instruments.show(scale, np.array([true]), np.array([lasting]), Draws("limits", seed))[0]
    steps = shown / scale.resolution
    assert steps == pytest.approx(round(steps), abs=1e-6)
    limit = instruments.limit_of_error(scale, true) + (4.0 * scale.scatter + 0.5) * scale.resolution
    assert abs(shown - true) <= limit


def test_does_an_instrument_say_nothing_above_its_range():
    shown = instruments.show(SCALES["compression gauge"], np.array([25.0]), np.zeros(1), Draws("range"))
    assert np.isnan(shown[0])


@pytest.mark.parametrize(
    ("ohms", "step"), [(0.9, 0.1), (150.0, 0.1), (900.0, 1.0), (4.4e3, 10.0), (50e3, 100.0), (2e6, 10e3)]
)
def test_does_the_meter_pick_its_range(ohms, step):
    shown = instruments.show_ohms(np.full(50, ohms), np.zeros(50), Draws("range", ohms), nulled=True)
    assert np.allclose(np.round(shown / step) * step, shown)
    assert abs(shown.mean() - ohms) < ohms * 0.008 + 3 * step


def test_does_the_meter_show_ol_for_an_open_circuit():
    assert np.isinf(instruments.show_ohms(np.array([1e9]), np.zeros(1), Draws("open"))[0])
    assert instruments.ohms_text(float("inf")).startswith("OL")


def test_do_the_meters_own_leads_come_on_top_unless_they_are_taken_off():
    """On a primary of one ohm the leads alone can make a good winding look bad."""
    apart = []
    for number in range(12):
        raw = bench(learner=f"leads {number}").do(
            "primary_ohm", leads_nulled=False, prepare=True, confirm="all"
        )
        nulled = bench(learner=f"leads {number}").do("primary_ohm", prepare=True, confirm="all")
        apart.append(raw.shown[0].value - nulled.shown[0].value)
    assert np.mean(apart) == pytest.approx(instruments.LEADS_OHM, abs=0.06)


def test_are_the_windings_of_a_sound_machine_inside_the_makers_band_and_warmer_when_hot():
    inside = 0
    for number in range(20):
        machine = bench(learner=f"winding {number}")
        cold = machine.do("secondary_ohm", prepare=True, confirm="all")
        inside += cold.result == "in_range"
        machine.do("warm_up", confirm="all")
        hot = machine.do("secondary_ohm", confirm="all")
        assert hot.shown[0].value / cold.shown[0].value == pytest.approx(1 + 0.00393 * 60, abs=0.06)
    assert inside >= 18


def test_does_a_feeler_give_the_thickest_leaf_that_goes():
    shown = instruments.feeler(np.full(200, 0.33), Draws("leaf"))
    assert set(np.round(shown, 2)) <= {0.30, 0.35}
    assert (np.round(shown, 2) == 0.30).mean() > 0.8
    assert (instruments.feeler(np.zeros(20), Draws("none")) == 0).all()


def test_does_a_reading_say_its_unit_and_its_instrument():
    machine = bench()
    gap = machine.do("air_gap", prepare=True, confirm="all")
    assert gap.value.check("[length]")
    assert gap.shown[0].text.endswith(" mm")
    assert gap.shown[0].instrument == "feeler gauge"
    assert gap.shown[0].limit > 0
    assert "mm" in str(gap)
    gauge = machine.do("compression", prepare=True, confirm="all")
    assert gauge.value.to("psi").magnitude > 60


def test_is_a_trace_sampled_stepped_and_clipped():
    time = np.linspace(0.0, 1e-3, 5000)
    kept = instruments.store(time, 30.0 * np.sin(2e4 * time), "kV", 20.0, 1e6)
    assert kept.clipped
    assert np.abs(kept.values).max() <= 20.0
    assert len(kept.time) == pytest.approx(1000, abs=2)
    assert np.allclose(kept.values / (20.0 / 128), np.round(kept.values / (20.0 / 128)))


@pytest.mark.parametrize(
    ("truth", "says"),
    [((), "breaks down at the plug"), (("module_dead",), ""), (("plug_fouled",), "no breakdown")],
)
def test_what_does_the_storage_trace_show(truth, says):
    machine = Bench({**PLAIN, "truth": [{"fault": t, "severity": 1.0} for t in truth]}, "trace")
    machine.do("top_cover", prepare=True, confirm="all")
    reading = machine.do("trace", confirm="all", pull="weak")
    assert says in reading.words
    if not truth:
        assert reading.trace.unit == "kV"
        assert 2.0 < np.abs(reading.trace.values).max() < 5.0


@pytest.mark.parametrize(
    ("what", "unit", "low", "high"),
    [
        ("engine temperature", "degC", 17, 23),
        ("cranking speed", "rpm", 500, 1300),
        ("card thickness", "mm", 0.1, 0.35),
        ("fuel in the tank", "g", 370, 390),
    ],
)
def test_what_do_thermometer_tachometer_calliper_and_scale_show(what, unit, low, high):
    shown = bench().do("measure", what=what).shown[0]
    assert shown.unit == unit
    assert low <= shown.value <= high


def test_does_a_stronger_pull_turn_the_crank_faster():
    speeds = [
        bench().do("measure", what="cranking speed", pull=how).shown[0].value
        for how in ("weak", "normal", "fast")
    ]
    assert speeds == sorted(speeds)
    assert speeds[2] > 1.3 * speeds[0]


def test_do_eyes_say_when_it_is_hard_to_tell():
    doubtful = sum("ard to tell" in bench(learner=f"eyes {n}").do("look_over").words for n in range(40))
    assert 3 <= doubtful <= 30


def test_does_the_engine_warm_and_cool_towards_its_ends():
    heat = Heat(10.0)
    assert heat.state == "cold"
    seen = []
    for _ in range(12):
        heat.run(1.0)
        seen.append(heat.engine)
    assert seen == sorted(seen)
    assert heat.state == "hot"
    for _ in range(90):
        heat.rest(1.0)
    assert heat.engine == pytest.approx(10.0, abs=1.0)


def test_does_an_onset_written_in_the_scenario_hold():
    hot = {"fault": "module_heat", "severity": 0.9, "onset": {"above": "60 degC"}}
    late = {"fault": "tank_vent", "severity": 0.9, "onset": {"after_running": "5 min"}}
    cold = {"fault": "lead_open", "severity": 0.9, "onset": {"below": "40 degC"}}
    for truth, first, then in ((hot, "runs", "fails"), (late, "runs", "fails"), (cold, "fails", "runs")):
        machine = Bench({**PLAIN, "truth": [truth]}, "onset")
        assert machine.do("verify", condition="cold", confirm="all").result == first, truth
        machine.do("warm_up", confirm="all")
        assert machine.do("verify", condition="hot", confirm="all").result == then, truth
    shaken = {"fault": "stop_lead", "severity": 0.9, "onset": {"shaken": True}}
    machine = Bench({**PLAIN, "truth": [shaken]}, "onset")
    assert machine.do("spark_shake", confirm="all").result == "cuts_out"


def test_does_turning_over_with_the_plug_out_ask_for_a_grounded_lead():
    machine = bench()
    assert "still in" in machine.do("pull", plug="out", confirm="all").words
    machine.do("plug_out", confirm="all")
    asked = machine.do("pull", plug="out")
    assert {"open_high_tension", "fuel_spray"} <= set(asked.cautions)
    assert "turns freely" in machine.do("pull", plug="out", confirm="all").words


def test_is_a_prime_without_a_bulb_answered_in_words():
    machine = Bench({**PLAIN, "machine": {**PLAIN["machine"], "features": []}}, "Anna")
    assert "no primer bulb" in machine.do("prime").words
    with pytest.raises(TwoStrokeError, match="displacement"):
        Bench({**PLAIN, "machine": {**PLAIN["machine"], "displacement": "big"}}, "Anna")
