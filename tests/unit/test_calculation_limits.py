"""Limits and edges: what lies on a limit is taken, what lies just beyond is refused, ties and ends are met.

These are the cases that only a slightly changed formula would show.
"""

from __future__ import annotations

import csv
import importlib
import json
import math
from pathlib import Path

import numpy as np
import pytest
from twostroke import (
    RangeError,
    breakdown,
    compression,
    crankcase,
    demand,
    fuel,
    gap,
    starting,
    units,
    verdict,
)

with open(Path(__file__).parent / "tables" / "limits.csv", encoding="utf-8", newline="") as file:
    LIMITS = list(csv.DictReader(file))
ENGINE = compression.Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg")


def call(row, tried):
    module, name = row["call"].split(".")
    arguments = [ENGINE if one == "ENGINE" else one for one in json.loads(row["arguments"])]
    arguments[int(row["place"])] = json.loads(tried)
    return getattr(importlib.import_module(f"twostroke.{module}"), name)(*arguments)


@pytest.mark.parametrize("row", LIMITS, ids=lambda row: f"{row['call']} {row['place']} {row['refused']}")
def test_is_the_limit_itself_taken_and_what_lies_beyond_refused(row):
    assert call(row, row["allowed"]) is not None
    with pytest.raises(RangeError):
        call(row, row["refused"])
    assert row["why"]


# --- gap


def mm(quantity):
    return quantity.to("mm").magnitude


def test_is_the_difference_of_two_legs_how_far_the_core_stands_askew():
    for legs in (("0.25 mm", "0.35 mm"), ("0.35 mm", "0.25 mm")):
        assert mm(gap.two_legs(*legs).difference) == pytest.approx(0.10)


def test_does_one_leaf_beat_two_of_the_same_thickness_wherever_it_lies_in_the_set():
    for leaves in (["0.10 mm", "0.20 mm", "0.30 mm"], ["0.30 mm", "0.20 mm", "0.10 mm"]):
        found = gap.choose_shims(leaves, "0.29 mm", "0.31 mm")
        assert [mm(leaf) for leaf in found.leaves] == pytest.approx([0.30])


def test_does_a_set_of_sixty_leaves_still_go():
    assert len(gap.choose_shims(["0.1 mm"] * 60, "0.2 mm", "0.2 mm").leaves) == 2


def test_do_leaves_without_an_uncertainty_count_as_exact():
    stack = gap.shim_stack(["0.10 mm", "0.15 mm"])
    assert (mm(stack.worst_case), mm(stack.rss)) == (0, 0)


@pytest.mark.parametrize("each", [0.004, [0.003, 0.004]])
def test_are_uncertainties_taken_as_one_quantity_or_as_an_array(each):
    """JCGM 100:2008, 5.1.2: root sum of squares (from memory)."""
    stack = gap.shim_stack(["0.10 mm", "0.15 mm"], units.ureg.Quantity(each, "mm"))
    two = each if isinstance(each, list) else [each, each]
    assert mm(stack.rss) == pytest.approx(math.hypot(*two))
    assert mm(stack.worst_case) == pytest.approx(sum(two))


def test_does_a_wheel_that_just_touches_leave_no_gap():
    low, high = gap.run_out("0.20 mm", "0.40 mm")
    assert (mm(low), mm(high)) == pytest.approx((0, 0.40), abs=1e-12)


# --- breakdown: straight lines between the rows of the tables, and their ends


def sharp(gap_mm, bar, radius_mm):
    return breakdown.sharpness_factor(f"{gap_mm!r} mm", f"{bar!r} bar", "293.15 K", f"{radius_mm!r} mm")


@pytest.mark.parametrize(
    ("place", "factor"),
    [
        ((0.3, 1.0, 0.05), (1 + 0.93) / 2),
        ((0.8, 1.0, 0.05), (0.93 + 0.85) / 2),
        ((0.6, 2.5, 0.05), (0.93 + 0.86) / 2),
        ((0.6, 6.0, 0.05), (0.86 + 0.81) / 2),
        ((0.6, 1.0, math.sqrt(0.05 * 0.10)), (0.93 + 0.98) / 2),
        ((1.0, 8.0, math.sqrt(0.10 * 0.50)), (0.75 + 0.92) / 2),
        ((1.0, 8.0, 5.0), 0.92),
        ((0.6, 0.5, 0.05), 0.93),
        ((0.6, 12.0, 0.05), 0.76),
        ((1.2, 4.0, 0.10), 0.74),
        ((1.5, 8.0, 0.05), 0.54),
        ((1.5, 1.0, 0.5), 1.0),
    ],
)
def test_does_the_sharpness_follow_straight_lines_between_the_rows_and_beyond_them(place, factor):
    """The rule stated with the table (derived): linear in gap and density, by the logarithm of the radius."""
    assert sharp(*place) == pytest.approx(factor, abs=1e-9)


@pytest.mark.parametrize(("mm", "kv"), [(0, 0), (5.95, 5), (15.15, 12.5), (29.2, 22.5), (41, 30)])
def test_does_the_needle_gap_follow_straight_lines_between_the_rows(mm, kv):
    """AIEE needle-gap table, kV rms (from memory); half way between its rows, and its ends."""
    found = breakdown.needle_gap_voltage(f"{mm} mm").to("kV").magnitude
    assert found == pytest.approx(kv * math.sqrt(2), abs=1e-9)
    back = breakdown.needle_gap_for(f"{kv * math.sqrt(2) * (1 - 1e-15)!r} kV").to("mm").magnitude
    assert back == pytest.approx(mm, abs=1e-9)


def test_is_the_townsend_voltage_of_a_millimetre_that_worked_by_hand():
    """365 * 76 / (ln(15 * 76) - ln ln 101) = 5035.0 V at 760 torr and 0.1 cm (derived)."""
    found = breakdown.townsend_voltage("1 mm", "101325 Pa", "293.15 K").to("V").magnitude
    assert found == pytest.approx(27740 / (math.log(1140) - math.log(math.log(101))), rel=1e-9)
    assert found == pytest.approx(5035.0, abs=0.1)


@pytest.mark.parametrize("kelvin", [250, 293.15, 586.3])
def test_does_the_breakdown_voltage_go_by_the_density_in_each_form(kelvin):
    """Paschen similarity: pressure and kelvin raised together change nothing."""
    pressure = f"{kelvin / 293.15!r} bar"
    for call, more in ((breakdown.voltage, ("0.05 mm",)), (breakdown.townsend_voltage, ())):
        there = call("0.6 mm", pressure, f"{kelvin} K", *more).to("V").magnitude
        here = call("0.6 mm", "1 bar", "293.15 K", *more).to("V").magnitude
        assert there == pytest.approx(here, rel=1e-9)


def test_is_the_breakdown_voltage_that_of_the_correlation_and_never_below_the_least():
    """6.72 sqrt(0.1) + 24.36 * 0.1 kV at 1 bar and 1 mm (Kuffel, from memory); at least 327 V."""
    found = breakdown.voltage("1 mm", "1 bar", "293.15 K").to("V").magnitude
    assert found == pytest.approx(1e3 * (6.72 * math.sqrt(0.1) + 2.436), rel=1e-9)
    for radius in (None, "0.05 mm"):
        least = breakdown.voltage("0.005 mm", "0.2 bar", "293.15 K", radius)
        assert least.to("V").magnitude == pytest.approx(327)


# --- verdict


def test_does_a_verdict_change_exactly_at_the_guard_band():
    """JCGM 106:2012, 8.3, guard factor 1.645 (inputs seen): limits 1 and 2 mm, u 0.1 mm."""
    for reading, said in {
        "1.1645 mm": "in",
        "1.8355 mm": "in",
        "1.1644 mm": "undecided",
        "1.8356 mm": "undecided",
        "0.8356 mm": "undecided",
        "2.1644 mm": "undecided",
        "0.8355 mm": "out",
        "2.1645 mm": "out",
        "0.8354 mm": "out",
        "2.1646 mm": "out",
    }.items():
        assert verdict.judge(reading, "1 mm", "2 mm", "0.1 mm") == said, reading


@pytest.mark.parametrize(("low", "high"), [("8 mm", "9 mm"), ("-9 mm", "-8 mm")])
def test_does_a_chance_in_either_tail_keep_its_figures(low, high):
    """Phi(9) - Phi(8) = 6.2198e-16 by the complementary error function (computed by library)."""
    found = verdict.probability_inside("0 mm", "1 mm", low, high)
    tail = (math.erfc(8 / math.sqrt(2)) - math.erfc(9 / math.sqrt(2))) / 2
    assert found == pytest.approx(tail, rel=1e-9, abs=0)


def test_does_one_limit_alone_leave_the_other_side_open():
    """Phi(1) = 0.841345 (table of the normal distribution, from memory)."""
    assert verdict.probability_inside("1 mm", "1 mm", None, "2 mm") == pytest.approx(0.841345, abs=1e-6)
    assert verdict.probability_inside("1 mm", "1 mm", "0 mm", None) == pytest.approx(0.841345, abs=1e-6)
    assert verdict.probability_inside("1 mm", "0 mm", "1 mm", None) == 1
    assert verdict.probability_inside("1 mm", "0 mm", None, "1 mm") == 1
    assert verdict.probability_inside("1 mm", "0 mm", None, "0.999 mm") == 0


@pytest.mark.parametrize(
    ("reading", "said"),
    [("0.216449 mm", "undecided"), ("0.2164499 mm", "undecided"), ("0.21645 mm", "in")],
)
def test_is_the_allowance_for_rounding_far_below_what_can_be_read(reading, said):
    assert verdict.judge(reading, "0.2 mm", "0.4 mm", "0.01 mm") == said


@pytest.mark.parametrize("trials", [2.5, 0.1])
def test_is_a_part_of_a_trial_refused(trials):
    with pytest.raises(RangeError):
        verdict.chance_within(0.3, trials)


def test_what_do_certain_and_impossible_faults_need():
    """The limits of 1 - (1 - p)^N and of its inverse (definition)."""
    assert verdict.chance_within(1, 0) == 0
    assert verdict.chance_within(1, 1) == 1
    assert verdict.chance_within(0, 9) == 0
    assert verdict.clean_trials(1, 0.5) == 1
    assert verdict.clean_trials(1, 0) == 0
    assert verdict.clean_trials(0.5, 0.75) == 2
    assert verdict.clean_trials(0.5, 0.7501) == 3
    with pytest.raises(RangeError, match="more often"):
        verdict.clean_trials(1e-10, 0.95)


@pytest.mark.parametrize(("unit", "step"), [("degC", "K"), ("degC", "delta_degC"), ("degF", "delta_degF")])
def test_is_the_uncertainty_of_a_temperature_a_difference(unit, step):
    assert verdict.judge(f"20 {unit}", f"10 {unit}", f"30 {unit}", f"1 {step}") == "in"


# --- fuel and crankcase


def test_is_a_mixture_compared_as_text_or_as_a_number():
    found = fuel.mixture("100 mL", "5 L")
    assert found == "50:1"
    assert found == 50
    assert found != "49:1"
    assert found != 49
    assert (found != "50:1") is False
    assert fuel.mixture("1 L", "1 L") == 1


@pytest.mark.parametrize(
    ("kelvin", "pascal", "rel"),
    [(233.15, 2720.928, 1e-5), (235.65, 3203.04, 2e-3), (309.21, 101325, 2e-3), (353.15, 368181.7, 1e-5)],
)
def test_is_the_vapour_pressure_met_at_the_ends_of_the_table_and_between(kelvin, pascal, rel):
    """CoolProp, saturation pressure of n-pentane (computed by library); boils at 309.21 K."""
    assert fuel.vapour_pressure(f"{kelvin} K").to("Pa").magnitude == pytest.approx(pascal, rel=rel)


CASE = crankcase.Crankcase(ENGINE, "120 deg", "70 deg", 1.5)


@pytest.mark.parametrize("angle", [0, 70, 120, 180, 240, 290, 360])
def test_is_a_crankcase_with_an_open_port_at_the_pressure_of_the_air(angle):
    """Port timing (definition): open on its limits too."""
    assert CASE.pressure(f"{angle} deg").to("Pa").magnitude == pytest.approx(101325, rel=1e-9)


@pytest.mark.parametrize(("angle", "shut_at"), [(119.9, 70), (70.1, 70), (240.1, 120), (289.9, 120)])
def test_is_a_shut_crankcase_pressed_from_where_its_port_shut(angle, shut_at):
    """p V^n is the same at both ends (definition)."""
    there = (CASE.volume(f"{shut_at} deg") / CASE.volume(f"{angle} deg")).to("").magnitude
    found = CASE.pressure(f"{angle} deg", polytropic=1.3).to("Pa").magnitude
    assert found == pytest.approx(101325 * there**1.3, rel=1e-9)


def test_has_a_crankcase_its_two_volumes_at_the_dead_centres():
    """Primary ratio: (V + swept)/V of the case, 1.5 (definition)."""
    most, least = CASE.volume("0 deg").to("mL").magnitude, CASE.volume("180 deg").to("mL").magnitude
    assert most / least == pytest.approx(1.5)
    assert most - least == pytest.approx(ENGINE.displacement.to("mL").magnitude)


@pytest.mark.parametrize(
    ("transfer", "intake", "ratio"),
    [
        ("120 deg", "120 deg", 1.5),
        ("120 deg", "0 deg", 1.5),
        ("181 deg", "70 deg", 1.5),
        ("120 deg", "70 deg", 1),
    ],
)
def test_is_an_impossible_crankcase_refused(transfer, intake, ratio):
    with pytest.raises(RangeError):
        crankcase.Crankcase(ENGINE, transfer, intake, ratio)


def test_is_a_crankcase_asked_within_one_turn_and_with_an_exponent_in_use():
    for angle in ("-0.1 deg", "360.1 deg"):
        with pytest.raises(RangeError):
            CASE.pressure(angle)
    for exponent in (0.99, 1.71):
        with pytest.raises(RangeError):
            CASE.pressure("100 deg", exponent)
    assert CASE.pressure("100 deg", 1) < CASE.pressure("100 deg", 1.7)
    for timing in (("180 deg", "0.1 deg"), ("180 deg", "179.5 deg"), ("0.9 deg", "0.5 deg")):
        assert crankcase.Crankcase(ENGINE, *timing, 1.01).volume("0 deg") > ENGINE.displacement


@pytest.mark.parametrize(
    ("kv", "says"),
    [
        (0, "does not spark"),
        (6.99, "does not spark"),
        (7, "cannot say"),
        (13, "cannot say"),
        (13.01, "sparks"),
    ],
)
def test_is_a_voltage_on_an_edge_of_the_demand_left_open(kv, says):
    """Demand of 10 kV with 30 % either side (definition)."""
    volts = [units.ureg.Quantity(one, "kV") for one in (10.0, 7.0, 13.0)]
    wanted = demand.Demand(*volts, units.read("5 bar"), units.read("400 K"))
    found = demand.margin(f"{kv} kV", wanted)
    assert found.verdict == says
    assert found.share == pytest.approx(kv / 10 - 1)
    assert found.voltage.to("kV").magnitude == pytest.approx(kv - 10)
    with pytest.raises(RangeError):
        demand.margin("-0.001 kV", wanted)


def test_is_the_demand_in_a_cylinder_good_to_thirty_percent():
    """Common practice, no source: 30 % either way."""
    need = demand.plug_demand(ENGINE)
    assert (need.low / need.voltage).to("").magnitude == pytest.approx(0.70)
    assert (need.high / need.voltage).to("").magnitude == pytest.approx(1.30)


def test_is_a_call_without_an_exponent_one_with_the_stated_exponent():
    stated = float(compression.CRANKING_EXPONENT)
    assert compression.charge_at(ENGINE, "25 deg") == compression.charge_at(ENGINE, "25 deg", stated)


HOW = starting.INVENTED
AT_BEST = {
    "volts": 1e6,
    "demand": 1e4,
    "joules": 1.0,
    "ratio": HOW.best_mixture,
    "pressure": 1e8,
    "btdc": HOW.best_angle,
}


@pytest.mark.parametrize(
    ("changed", "share"),
    [
        ({}, 1),
        ({"volts": 1e4}, 0.5),
        ({"volts": 1e4 * (1 + HOW.margin_spread)}, 0.841345),
        ({"volts": 1e4 * (1 - HOW.margin_spread)}, 0.158655),
        ({"volts": 0.0, "demand": 0.0}, 0.5),
        ({"volts": 1e-3, "demand": 0.0}, 1),
        ({"joules": 0.0}, 0),
        ({"joules": -1.0}, 0),
        ({"joules": HOW.energy_scale}, 1 - math.exp(-1)),
        ({"ratio": HOW.best_mixture * math.exp(HOW.mixture_width)}, math.exp(-1)),
        ({"ratio": HOW.best_mixture * math.exp(-HOW.mixture_width / 2)}, math.exp(-1 / 16)),
        ({"ratio": 0.0}, 0),
        ({"pressure": HOW.half_pressure}, 0.5),
        ({"pressure": HOW.half_pressure + HOW.pressure_width}, 1 / (1 + math.exp(-1))),
        ({"pressure": HOW.half_pressure - HOW.pressure_width}, 1 / (1 + math.e)),
        ({"btdc": HOW.best_angle + HOW.angle_width}, math.exp(-1)),
        ({"btdc": HOW.best_angle - HOW.angle_width / 2}, math.exp(-1 / 16)),
        ({"residual": HOW.residual_limit / 2}, 0.75),
        ({"residual": HOW.residual_limit}, 0),
        ({"residual": 1.0}, 0),
    ],
)
def test_is_each_share_of_the_chance_of_firing_its_own_stated_form(changed, share):
    """The forms that the module states, its constants invented for the demo; Phi(1) from a table (memory)."""
    with np.errstate(all="raise"):
        found = starting.chance(**(AT_BEST | changed))
    assert float(found) == pytest.approx(HOW.highest * share, abs=2e-7)
