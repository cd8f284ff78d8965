"""Figures of lessons 02 to 05: what they show is what the library computes, and what tables say."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from twostroke import ignition, units
from twostroke.lesson.drawing import DrawingError
from twostroke.lesson.figures import cycle, demand_figures, gap_and_key, magnet


def value(quantity, unit):
    return float(quantity.to(unit).magnitude)


@pytest.mark.parametrize(
    ("angle", "depth", "why"),
    [(0, 0, "top"), (180, 28, "bottom, the stroke"), (360, 0, "top again"), (90, 16.087, "law of cosines")],
)
def test_is_the_piston_where_geometry_says(angle, depth, why):
    shown = cycle.round_the_crank(f"{angle} deg", "19 mm").shown
    assert value(shown["depth"], "mm") == pytest.approx(depth, abs=2e-3), why


@settings(max_examples=20, deadline=None)
@given(angle=st.floats(0, 180), roof=st.floats(16, 21))
def test_is_the_turn_the_same_down_and_up_above_the_piston(angle, roof):
    down, up = (cycle.round_the_crank(f"{a} deg", f"{roof} mm").shown for a in (angle, 360 - angle))
    assert value(down["above"], "bar") == pytest.approx(value(up["above"], "bar"), rel=1e-6)
    assert value(down["depth"], "mm") == pytest.approx(value(up["depth"], "mm"), abs=1e-6)


def test_does_a_higher_roof_open_longer_and_trap_less():
    high, low = (cycle.round_the_crank("0 deg", roof).shown for roof in ("16 mm", "21 mm"))
    assert high["exhaust_duration"] > low["exhaust_duration"]
    assert high["trapped_ratio"] < low["trapped_ratio"]
    assert value(high["exhaust_duration"], "deg") == pytest.approx(
        360 - 2 * value(high["exhaust_opening"], "deg")
    )


def test_does_a_longer_rod_lean_less():
    short, long = (
        value(cycle.depth_against_angle("90 deg", rod).shown["depth"], "mm") for rod in ("40 mm", "80 mm")
    )
    assert short > long > 14


def test_does_the_magnet_figure_show_what_the_module_gives():
    shown = magnet.magnet_passing("0 deg", "800 rpm").shown
    out = ignition.available(ignition.Ignition(), [800.0])
    assert value(shown["voltage"], "V") == pytest.approx(float(out.voltage[0, 0]))
    assert value(shown["energy"], "J") == pytest.approx(float(out.energy[0, 0]))
    assert value(shown["induced"], "V") == pytest.approx(0, abs=0.3), "flux stands still when aligned"


def test_is_twice_the_speed_twice_the_induced_voltage():
    slow, fast = (
        magnet.magnet_passing("-14 deg", speed).shown["induced"] for speed in ("400 rpm", "800 rpm")
    )
    assert value(fast, "V") == pytest.approx(2 * value(slow, "V"), rel=0.01), (
        "Faraday, within the rounding shown"
    )


def test_does_it_say_so_when_the_module_never_switches():
    assert magnet.magnet_passing("0 deg", "100 rpm").shown["opens_at"] is None
    assert "never switches" in magnet.spark_trace("100 rpm", "8 kV").words


@pytest.mark.parametrize(("speed", "fires"), [("440 rpm", 0.0), ("480 rpm", 1.0)])
def test_does_the_trace_fire_from_the_lowest_speed_on(speed, fires):
    lowest = float(ignition.minimum_speed(ignition.Ignition(), 8e3)[0])
    assert 440 < lowest < 480
    assert magnet.spark_trace(speed, "8 kV").shown["fires"] == fires


@pytest.mark.parametrize(
    ("gap", "bar", "kilovolts", "within", "source"),
    [
        ("0.6 mm", "1 bar", 2.55, 0.30, "2 to 3 kV at 1 bar: automotive textbook, abstract seen"),
        ("1.0 mm", "1.01325 bar", 4.7, 0.05, "IEC 60052, 0.1 cm, from memory"),
    ],
)
def test_does_the_gap_ask_for_what_tables_say(gap, bar, kilovolts, within, source):
    shown = demand_figures.demand_against_available(gap, bar, "800 rpm").shown
    assert value(shown["demand"], "kV") == pytest.approx(kilovolts, rel=within), source


@settings(max_examples=25, deadline=None)
@given(low=st.floats(1, 10), more=st.floats(0.1, 1), gap=st.floats(0.3, 1.2))
def test_does_more_pressure_always_ask_for_more(low, more, gap):
    first, second = (
        demand_figures.demand_against_available(f"{gap} mm", f"{bar} bar", "800 rpm").shown["demand"]
        for bar in (low, low + more)
    )
    assert second > first


def test_is_the_tester_that_stands_for_the_plug_one_that_asks_for_as_much():
    same = demand_figures.gap_of_tester("6 mm", "0.6 mm").shown
    wide = value(same["stands_for"], "mm")
    again = demand_figures.gap_of_tester(f"{wide} mm", "0.6 mm").shown
    assert value(again["tester"], "kV") == pytest.approx(value(same["compression"], "kV"), rel=1e-4)


@pytest.mark.parametrize("gap", [0.2, 0.3, 0.55, 1.0])
def test_is_the_speed_read_from_the_table_that_of_the_search(gap):
    system = ignition.Ignition(gap_1=gap * 1e-3, gap_2=gap * 1e-3)
    searched = float(ignition.minimum_speed(system, 10e3)[0])
    shown = value(gap_and_key.shim_and_speed(f"{gap} mm", "10 kV").shown["lowest"], "rpm")
    assert shown == pytest.approx(searched, rel=0.01)


@pytest.mark.parametrize("offset", [-1.0, 0.0, 0.5, 1.2])
def test_does_the_key_move_the_spark_as_the_whole_system_does(offset):
    shown = gap_and_key.sheared_key(f"{offset} mm", "16 mm").shown
    late = ignition.Ignition(key_offset=offset / 8.0)
    out = ignition.available(late, [800.0])
    assert value(shown["spark"], "deg") == pytest.approx(math.degrees(float(out.spark_btdc[0, 0])), abs=1e-6)
    assert value(shown["voltage"], "V") == pytest.approx(float(out.voltage[0, 0]))


def test_is_a_step_of_one_millimetre_on_eighteen_6_366_degrees():
    shown = gap_and_key.sheared_key("1 mm", "18 mm").shown
    assert value(shown["angle"], "deg") == pytest.approx(6.366, abs=1e-3), "arc over radius"


@pytest.mark.parametrize(
    "draw",
    [
        lambda: cycle.round_the_crank("400 deg", "19 mm"),
        lambda: cycle.depth_against_angle("90 deg", "20 mm"),
        lambda: magnet.magnet_passing("50 deg", "800 rpm"),
        lambda: magnet.spark_trace("800 rpm", "30 kV"),
        lambda: demand_figures.demand_against_available("2 mm", "6 bar", "800 rpm"),
        lambda: demand_figures.gap_of_tester("20 mm", "0.6 mm"),
        lambda: gap_and_key.shim_and_speed("2 mm", "8 kV"),
        lambda: gap_and_key.sheared_key("3 mm", "14 mm"),
    ],
)
def test_is_a_value_off_the_scale_refused(draw):
    with pytest.raises(DrawingError, match=r"the figure shows"):
        draw()


def test_is_the_guess_for_the_depth_marked():
    guess = units.read("14 mm")
    assert "your prediction" in cycle.depth_against_angle("30 deg", "48 mm", guess).svg
    assert "your prediction" not in cycle.depth_against_angle("30 deg", "48 mm").svg
