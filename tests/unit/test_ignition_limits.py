"""Limits of the ignition's doors, and laws that its parts keep to the last figure.

These are the cases that only a slightly changed formula would show.
"""

from __future__ import annotations

import csv
import json
import math
from pathlib import Path

import numpy as np
import pytest
from twostroke import coil, ignition, magneto, units
from twostroke._opening import Opening
from twostroke._transient import Circuit
from twostroke.errors import RangeError

with open(Path(__file__).parent / "tables" / "ignition_limits.csv", encoding="utf-8", newline="") as file:
    LIMITS = list(csv.DictReader(file))
CORE = {
    "shoe_width": "10 mm", "leg_width": "8 mm", "pitch": "24 mm", "depth": "12 mm", "magnet_width": "14 mm",
    "magnet_thickness": "8 mm", "remanence": "1.00 T", "recoil_permeability": 1.07, "leg_height": "24 mm",
    "yoke": "8 mm", "iron_permeability": 2000,
}  # fmt: skip
WINDINGS = {
    "primary_inductance": "0.96 mH", "secondary_inductance": "6.14 H", "coupling": 0.96,
    "primary_resistance": "0.9 ohm", "secondary_resistance": "2.6 kohm", "primary_capacitance": "1 nF",
    "secondary_capacitance": "35 pF", "loss_resistance": "1 Mohm", "lead_resistance": "5 kohm",
    "plug_capacitance": "15 pF", "clamp_voltage": "380 V",
}  # fmt: skip
SHORT = {
    "shorted_inductance": "0.016 mH", "shorted_resistance": "26 ohm", "shorted_coupling_primary": 0.95,
    "shorted_coupling_secondary": 0.97,
}  # fmt: skip
LOOSE = {
    "coupling": 0.5, "shorted_inductance": "1 mH", "shorted_resistance": "26 ohm",
    "shorted_coupling_primary": 0.1, "shorted_coupling_secondary": 0.1,
}  # fmt: skip
INSIDE = {
    "l1": 0.96e-3, "l2": 6.14, "k": 0.96, "r1": 0.9, "r2": 2600.0, "c1": 1e-9, "c2a": 35e-12, "c2b": 15e-12,
    "r_loss": 1e6, "r_lead": 5e3, "clamp": 380.0, "l3": 16e-6, "r3": 26.0, "k13": 0.95, "k23": 0.97,
}  # fmt: skip


def coil_of(**changed):
    return coil.Coil(**(WINDINGS | changed))


def magneto_of(made=None, **changed):
    sizes = {"flywheel_radius": "42 mm", "primary_turns": 160, "secondary_turns": 12800}
    return magneto.Magneto(magneto.Core(**CORE), made or coil_of(), **(sizes | changed))


MADE = magneto_of()
DOORS = {
    "coil": coil_of,
    "loose short": lambda **changed: coil_of(**(LOOSE | changed)),
    "magneto": magneto_of,
    "core": lambda **changed: magneto.Core(**(CORE | changed)),
    "condition": lambda **told: MADE.system_for("0.3 mm", **told),
    "shorted turns": lambda **told: MADE.system_for("0.3 mm", shorted_secondary=0.01, **told),
    "opening": lambda **told: MADE.opening(**({"speed": "800 rpm", "air_gap": "0.3 mm"} | told)),
    "lowest speed": lambda **told: MADE.minimum_spark_speed(air_gap="0.3 mm", **told),
    "flux": lambda **told: MADE.core.flux(air_gap="0.3 mm", **told),
    "peak": lambda **told: coil_of().opening_peak(**told),
    "winding": lambda **told: coil.winding_resistance(wire_diameter="0.2 mm", turn_length="40 mm", **told),
}


@pytest.mark.parametrize("row", LIMITS, ids=lambda row: f"{row['door']} {row['name']} {row['refused']}")
def test_is_the_limit_itself_taken_and_what_lies_beyond_refused_at_this_door(row):
    made = DOORS[row["door"]]
    assert made(**{row["name"]: json.loads(row["allowed"])}) is not None
    with pytest.raises(RangeError, match=row["words"] or "is outside what is possible here"):
        made(**{row["name"]: json.loads(row["refused"])})
    assert row["why"]


# --- coil


@pytest.mark.parametrize(("first", "second"), [("10 pF", "15 pF"), ("0 pF", "15 pF"), ("15 pF", "0 pF")])
def test_is_one_capacitance_of_the_secondary_enough(first, second):
    made = coil_of(secondary_capacitance=first, plug_capacitance=second)
    assert made.opening_peak("4 A").voltage.to("kV").magnitude > 10
    with pytest.raises(RangeError, match="at least one"):
        coil_of(secondary_capacitance="0 pF", plug_capacitance="0 pF")


@pytest.mark.parametrize("beyond", [False, True])
@pytest.mark.parametrize("side", [-1, 1])
def test_do_three_windings_couple_as_far_as_geometry_lets_them(side, beyond):
    """k23 lies within k12 k13 -+ sqrt((1 - k12^2)(1 - k13^2)): the matrix is positive (derived)."""
    edge = 0.96 * 0.95 + side * math.sqrt((1 - 0.96**2) * (1 - 0.95**2))
    told = SHORT | {"shorted_coupling_secondary": edge + (side if beyond else -side) * 2e-4}
    if beyond:
        with pytest.raises(RangeError, match="cannot go together"):
            coil_of(**told)
    else:
        assert coil_of(**told).has_short


def test_is_a_coupling_on_the_very_edge_refused():
    """1 + 2 k k' k'' - k^2 - k'^2 - k''^2 is 0 for 1, 1/2 and 1/2 (derived)."""
    edge = {"coupling": 1, "shorted_coupling_primary": 0.5, "shorted_coupling_secondary": 0.5}
    with pytest.raises(RangeError, match="cannot go together"):
        coil_of(**(SHORT | edge))


@pytest.mark.parametrize("given", [{}, SHORT], ids=["whole", "shorted turns"])
def test_is_the_peak_of_a_coil_that_of_its_circuit(given):
    parts = INSIDE | {"r_stop": 300.0, "r_shunt": 1e6, "gap_breakdown": 0.0}
    if not given:
        parts |= {"l3": 1.0, "r3": 1.0, "k13": 0.0, "k23": 0.0}
    inside = Opening(Circuit.of(1, **parts), np.array([[4.0, 0.0, 0.0]])).run()
    found = coil_of(**given).opening_peak("4 A", "1 Mohm", "300 ohm")
    assert found.voltage.to("V").magnitude == pytest.approx(inside.peak[0], rel=1e-9)
    assert found.time.to("s").magnitude == pytest.approx(inside.time[0], rel=1e-9)


def test_does_a_better_path_to_ground_always_leave_less():
    """Down to a dead short, which leaves what the current's decay in its own resistance induces."""
    volts = [coil_of().opening_peak("4 A", None, f"{ohms} ohm").voltage.to("V").magnitude for ohms in (
        0, 0.2, 0.9, 5, 100)]  # fmt: skip
    assert 0 < volts[0] < 0.25 * volts[-1]
    assert all(np.diff(volts) > 0)


def test_does_a_coil_show_what_it_is_made_of():
    shown = "Coil(L1=0.96 mH, L2=6.14 H, k=0.96, R1=0.9 ohm, R2=2600 ohm)"
    assert repr(coil_of()) == shown


# --- magneto


@pytest.mark.parametrize("given", [{}, SHORT], ids=["whole", "shorted turns"])
def test_has_the_system_the_windings_of_its_coil(given):
    """Aligned at the gap at which it was measured, every element is the coil's own (definition)."""
    made = magneto_of(coil_of(**given), reference_gap="0.4 mm")
    fields = ignition.effective(made.system.columns())
    permeance = made.core.solve(0.0, 0.4e-3, 0.4e-3)[1] * made.system.inductance_factor
    found = ignition._circuit(fields, np.atleast_1d(permeance))
    wanted = INSIDE if given else INSIDE | {"l3": 1.0, "r3": 1.0, "k13": 0.0, "k23": 0.0}
    for name, value in wanted.items():
        assert getattr(found, name)[0] == pytest.approx(value, rel=1e-9), name
    shorted = 160 * (16e-6 / 0.96e-3) ** 0.5 if given else 0
    assert made.system.secondary_turns == pytest.approx(12800 + shorted)


def test_does_a_coil_without_resistance_give_the_most():
    ideal = magneto_of(coil_of(primary_resistance="0 ohm", secondary_resistance="0 ohm"))
    assert 0 < ideal.system.primary_resistance < 1e-3
    assert 0 < ideal.system.secondary_resistance < 1e-3
    volts = [made.available_voltage("800 rpm", "0.3 mm").to("V").magnitude for made in (MADE, ideal)]
    assert volts[1] > 1.05 * volts[0]


def test_are_the_shorted_turns_of_a_condition_those_of_the_system():
    one, default = MADE.system, ignition.Ignition()
    assert (one.short_coupling, one.short_coupling_other) == (
        default.short_coupling, default.short_coupling_other,
    )  # fmt: skip
    other = magneto_of(coil_of(**SHORT)).system_for("0.3 mm", shorted_secondary=0.02)
    assert np.isnan(other.short_own_resistance)  # a share of the winding, no longer the coil's own turns
    assert other.shorted_fraction == 0.02


@pytest.mark.parametrize("degrees", [-170.0, -20.0, 0.0, 5.0, 20.0, 175.0])
def test_comes_the_flux_again_with_every_turn(degrees):
    at_rim = MADE.core.flux(f"{math.radians(degrees) * 42!r} mm", "0.3 mm").to("Wb").magnitude
    for turns in (-2, -1, 0, 1, 3):
        found = MADE.flux(f"{degrees + 360 * turns!r} deg", "0.3 mm").to("Wb").magnitude
        assert found == pytest.approx(at_rim, rel=1e-9, abs=1e-15)
    assert np.shape(MADE.flux("5 deg", "0.3 mm").magnitude) == ()
    assert np.shape(MADE.core.flux("5 mm", "0.3 mm").magnitude) == ()
    assert MADE.flux(["5 deg", "6 deg", "7 deg"], "0.3 mm").shape == (3,)


def test_does_the_door_hand_over_every_condition_in_si():
    told = {
        "plug_shunt": "1 Mohm", "stop_path": "3 kohm", "winding_temperature": "60 degC",
        "magnet_temperature": "40 degC", "magnet_factor": 0.9, "shorted_secondary": 0.01,
        "short_resistance": "5 ohm", "series_gap": "3 kV", "lead_resistance": "10 kohm",
        "plug_capacitance": "30 pF", "run_out": "0.1 mm", "run_out_angle": "20 deg",
    }  # fmt: skip
    inside = {
        "gap_1": 0.3e-3, "gap_2": 0.5e-3, "plug_shunt": 1e6, "stop_path": 3e3, "winding_temperature": 333.15,
        "magnet_temperature": 313.15, "magnet_factor": 0.9, "shorted_fraction": 0.01, "short_resistance": 5.0,
        "series_gap": 3e3, "lead_resistance": 1e4, "plug_capacitance": 30e-12, "run_out": 0.1e-3,
        "run_out_angle": math.radians(20),
    }  # fmt: skip
    found = MADE.system_for(("0.3 mm", "0.5 mm"), **told)
    for name, value in inside.items():
        assert getattr(found, name) == pytest.approx(value, rel=1e-9), name
    assert MADE.system_for("0.3 mm", shorted_primary=0.02).shorted_primary_fraction == 0.02
    assert MADE.system_for("0.3 mm", plug_shunt="1 ohm").plug_shunt == 1
    assert MADE.system_for("0.3 mm", plug_shunt="0 ohm").plug_shunt == 1  # ohm, the least that is told apart


def test_does_the_door_give_what_the_system_gives():
    gap, told = ("0.3 mm", "0.5 mm"), {"plug_shunt": "1 Mohm", "run_out": "0.1 mm"}
    system = MADE.system_for(gap, **told)
    out = ignition.available(system, 800.0)
    one = MADE.opening("800 rpm", gap, **told)
    many = MADE.opening(MADE.minimum_spark_speed("6 kV", gap, **told) * np.array([1.0, 2.0]), gap, **told)
    assert one.voltage.to("V").magnitude == pytest.approx(out.voltage[0, 0], rel=1e-9)
    assert one.energy.to("J").magnitude == pytest.approx(out.energy[0, 0], rel=1e-9)
    assert one.current.to("A").magnitude == pytest.approx(out.current[0, 0], rel=1e-9)
    assert one.time.to("s").magnitude == pytest.approx(out.time[0, 0], rel=1e-9)
    ahead = out.spark_btdc[0, 0] - ignition.Ignition().aligned_btdc
    assert one.angle.to("rad").magnitude == pytest.approx(ahead, rel=1e-9)
    assert many.voltage.to("kV").magnitude[0] == pytest.approx(6.0, rel=2e-3)
    assert many.voltage.shape == many.angle.shape == (2,)
    lowest = ignition.minimum_speed(system, 6e3)[0]
    assert MADE.minimum_spark_speed("6 kV", gap, **told).to("rpm").magnitude == pytest.approx(
        lowest, rel=1e-9
    )


def test_are_only_conditions_offered_where_a_name_is_not_known():
    with pytest.raises(RangeError, match=r"there are plug_shunt, stop_path, .*run_out_angle$"):
        MADE.available_voltage("800 rpm", "0.3 mm", plug_shnt="1 Mohm")


def test_is_an_empty_list_of_positions_refused():
    with pytest.raises(RangeError, match="empty list"):
        MADE.core.flux([], "0.3 mm")
    assert MADE.core.flux(["0 mm", "2 mm"], "0.3 mm").shape == (2,)
    for three in (["0.3 mm"], ["0.3 mm", "0.3 mm", "0.3 mm"]):
        with pytest.raises(RangeError, match="a pair"):
            MADE.core.flux("0 mm", three)


def test_is_a_pair_of_gaps_one_array_or_two_texts():
    array = units.ureg.Quantity([0.3, 0.5], "mm")
    found = [MADE.core.flux("2 mm", pair).to("uWb").magnitude for pair in (array, ("0.3 mm", "0.5 mm"))]
    assert found[0] == pytest.approx(found[1], rel=1e-12)
    assert found[0] < MADE.core.flux("2 mm", "0.3 mm").to("uWb").magnitude


def test_is_a_gap_of_nothing_a_module_that_rubs():
    """A hundredth of a millimetre is the least gap that is reckoned with (invented for the demo)."""
    for at_least in ("0 mm", "0.005 mm", "0.01 mm"):
        rubs = MADE.core.flux("0 mm", at_least).to("uWb").magnitude
        assert rubs == pytest.approx(MADE.core.flux("0 mm", "0.01 mm").to("uWb").magnitude, rel=1e-12)


def test_does_a_core_show_what_it_is_made_of():
    assert repr(MADE.core).startswith("Core(shoe_width=0.01, leg_width=0.008, pitch=0.024, depth=0.012, ")
    assert repr(MADE.core).endswith("iron_permeability=2000, saturation=inf)")
