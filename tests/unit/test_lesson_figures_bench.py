"""Figures on winding, stop circuit and compression: what they show is what the library says."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from twostroke import compression
from twostroke.lesson.drawing import DrawingError
from twostroke.lesson.figures import compression_gauge, demo_engine, stop_circuit, winding


@given(cold=st.integers(70, 110), celsius=st.integers(0, 100), leads=st.integers(0, 50))
@settings(max_examples=25, deadline=None)
def test_does_the_corrected_reading_come_back_to_the_winding(cold, celsius, leads):
    """Whatever heat and leads add is taken off again, to the last digit of the display."""
    shown = winding.warm_coil(f"{cold / 100} ohm", f"{celsius} degC", f"{leads / 100} ohm").shown
    assert shown["at_20"].to("ohm").magnitude == pytest.approx(cold / 100, abs=0.006)
    assert shown["guard"].to("ohm").magnitude > 0.01


@pytest.mark.parametrize(
    ("cold", "verdict", "why"),
    [
        ("0.90 ohm", 1.0, "in the middle of the band"),
        ("0.82 ohm", 0.5, "inside by less than the guard band"),
        ("0.78 ohm", 0.5, "outside by less than the guard band"),
        ("0.72 ohm", 0.0, "outside by more"),
        ("1.08 ohm", 0.0, "above by more"),
    ],
)
def test_is_the_warm_winding_judged_with_its_guard_band(cold, verdict, why):
    assert winding.warm_coil(cold, "20 degC", "0 ohm").shown["verdict"] == verdict, why


def test_does_a_small_short_cost_volts_and_hardly_ohms():
    shown = [winding.partial_short(part).shown for part in (0, 1, 5, 10)]
    volts = [float(each["voltage_share"]) for each in shown]
    ohms = [float(each["ohms_share"]) for each in shown]
    assert volts == sorted(volts, reverse=True)
    assert ohms == pytest.approx([1, 0.99, 0.95, 0.90], abs=0.002)  # shorted wire is bridged wire
    assert volts[1] < 0.6


@pytest.mark.parametrize("values", [("2 ohm", "20 degC", "0 ohm"), ("0.9 ohm", "150 degC", "0 ohm")])
def test_is_a_winding_outside_the_drawing_refused(values):
    with pytest.raises(DrawingError, match=r"the figure shows 0\.70 to 1\.10 ohm"):
        winding.warm_coil(*values)


def test_is_a_short_outside_the_drawing_refused():
    with pytest.raises(DrawingError, match="0 to 10 per cent"):
        winding.partial_short(30)


@given(pulls=st.integers(1, 12), metres=st.sampled_from([0, 800, 1500, 3000]), hose=st.integers(1, 15))
@settings(max_examples=10, deadline=None)
def test_does_the_needle_stand_where_the_pumping_says(pulls, metres, hose):
    """Drawn from one pumping at sea level and the law of altitudes; the full calculation there agrees."""
    shown = compression_gauge.pumped_up(pulls, f"{metres} m", f"{hose} mL").shown
    whole = compression.gauge_readings(
        demo_engine.engine(), pulls, compression_gauge.SPEED, f"{hose} mL", altitude=f"{metres} m"
    )
    assert shown["reading"].to("bar").magnitude == pytest.approx(whole[-1].to("bar").magnitude, rel=2e-3)


@pytest.mark.parametrize("leak", [0.0, 0.15, 0.6])
def test_is_the_dry_gauge_that_of_the_public_calculation(leak):
    shown = compression_gauge.dry_and_wet(f"{leak} mm^2", 50).shown
    whole = compression.gauge_readings(
        demo_engine.engine(), 10, compression_gauge.SPEED, compression_gauge.HOSE, leak_area=f"{leak} mm^2"
    )
    assert shown["dry"].to("bar").magnitude == pytest.approx(whole[-1].to("bar").magnitude, rel=1e-6)


def test_does_oil_bring_back_more_the_more_leaks_past_the_rings():
    back = [
        float(compression_gauge.dry_and_wet("0.3 mm^2", share).shown["regained"]) for share in (0, 50, 100)
    ]
    assert back == sorted(back)
    assert back[0] < 0.3
    assert back[2] > 0.6


def test_does_oil_lift_even_a_tight_engine_a_little():
    shown = compression_gauge.dry_and_wet("0 mm^2", 0).shown
    assert 0 < (shown["wet"] - shown["dry"]).to("bar").magnitude < 0.5


@pytest.mark.parametrize("values", [(13, "0 m", "5 mL"), (5, "5000 m", "5 mL"), (5, "0 m", "40 mL")])
def test_is_a_gauge_outside_the_drawing_refused(values):
    with pytest.raises(DrawingError, match="the figure shows 0 to 12 pulls"):
        compression_gauge.pumped_up(*values)


@pytest.mark.parametrize("values", [("2 mm^2", 50), ("0.3 mm^2", 120)])
def test_is_a_leak_outside_the_drawing_refused(values):
    with pytest.raises(DrawingError, match=r"0 to 0\.6 mm²"):
        compression_gauge.dry_and_wet(*values)


@pytest.mark.parametrize(
    ("machine", "red", "black", "switch", "lead", "ohms", "why"),
    [
        (1, 1, 4, 0, 1, 1.0, "winding and seat in series"),
        (1, 2, 4, 0, 0, math.inf, "lead off, switch open"),
        (1, 2, 4, 1, 0, 0.5, "lead and closed switch in series"),
        (2, 2, 4, 0, 0, 2.0, "the chafe alone"),
        (2, 1, 4, 0, 1, 1 / (1 / 1.0 + 1 / 2.02), "winding with seat, beside clip with chafe"),
        (3, 2, 4, 0, 0, 0.5, "closed at run"),
        (4, 2, 4, 1, 0, math.inf, "broken lead: stop does nothing"),
        (5, 5, 4, 0, 1, math.inf, "no ground"),
        (1, 3, 3, 0, 1, 0.0, "both probes on one point"),
    ],
)
def test_does_the_meter_show_the_sum_of_its_paths(machine, red, black, switch, lead, ohms, why):
    shown = stop_circuit.stop_circuit(machine, red, black, switch, lead).shown
    assert shown["reading"].to("ohm").magnitude == pytest.approx(ohms, rel=1e-6), why


@pytest.mark.parametrize("machine", [1, 2, 3, 4, 5])
def test_is_the_reading_the_same_with_the_probes_changed_over(machine):
    for red, black in itertools.combinations(range(1, 6), 2):
        one, other = (
            stop_circuit.stop_circuit(machine, *pair, 0, 1).shown["reading"].magnitude
            for pair in ((red, black), (black, red))
        )
        assert one == pytest.approx(other, rel=1e-9)


def test_does_the_stop_lead_off_bring_the_spark_back_where_it_should():
    for machine, back in ((2, True), (3, True), (5, False)):
        off, on = (stop_circuit.stop_circuit(machine, 1, 4, 0, lead).shown["voltage"] for lead in (0, 1))
        assert (off > 2 * on and off.magnitude > 8) is back


def test_does_a_smaller_leak_resistance_cost_more():
    volts = [
        stop_circuit.leak_to_ground(power, "8 kV").shown["voltage"].magnitude for power in (0, 1, 2, 3, 4)
    ]
    assert volts == sorted(volts)
    assert volts[1] < 0.5 * volts[4] < volts[2]


@pytest.mark.parametrize("values", [(6, 1, 2, 0, 1), (1, 0, 2, 0, 1), (1, 1, 2, 3, 1)])
def test_is_a_point_that_is_not_drawn_refused(values):
    with pytest.raises(DrawingError, match="machine and points are 1 to 5"):
        stop_circuit.stop_circuit(*values)


def test_is_a_leak_off_the_axis_refused():
    with pytest.raises(DrawingError, match="shows 0 to 4 and 4 to 12 kV"):
        stop_circuit.leak_to_ground(5, "8 kV")
