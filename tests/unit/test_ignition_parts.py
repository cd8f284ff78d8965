"""The parts of the ignition solved apart: magnetic network, build-up of the current, opening, burn.

Each is written anew from its equations and handed to numpy or scipy.
"""

from __future__ import annotations

import math
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import numpy as np
import pytest
from scipy.interpolate import CubicSpline
from twostroke import _network, ignition
from twostroke._opening import Opening
from twostroke._transient import Circuit

_spec = spec_from_file_location("ignition_reference", Path(__file__).parent / "ignition_reference.py")
reference = module_from_spec(_spec)
_spec.loader.exec_module(reference)

MU_0 = 4e-7 * math.pi
CORE = {
    "shoe_width": 10e-3, "leg_width": 8e-3, "pitch": 24e-3, "depth": 12e-3, "magnet_width": 14e-3,
    "magnet_thickness": 8e-3, "remanence": 1.1, "recoil_permeability": 1.07, "leg_height": 24e-3,
    "yoke": 9e-3, "iron_permeability": 1500.0, "saturation": np.inf,
}  # fmt: skip


# --- the magnetic network


def fringe(distance_squared):
    """As fitted to the field solutions (computed by library): 1.339 and 14.77 mm."""
    return 1.339 * 2 / math.pi * math.log(1 + 0.25 * (math.pi * 14.77e-3) ** 2 / distance_squared)


@pytest.mark.parametrize(
    ("apart", "overlap"), [(0.0, 8e-3), (0.5e-3, 8e-3), (5e-3, 4e-3), (-7e-3, 2e-3), (50e-3, 0.0)]
)
def test_is_the_permeance_overlap_over_gap_and_fringe(apart, overlap):
    """At gaps too narrow to round the corners off (derived)."""
    for gap in (1e-6, 1e-5):
        beyond = max(0.0, abs(apart) - 9e-3)
        wanted = MU_0 * 12e-3 * (overlap / gap + fringe(gap**2 + beyond**2))
        found = _network.permeance(np.array(apart), np.array(gap), 10e-3, 8e-3, 12e-3)
        assert float(found) == pytest.approx(wanted, rel=1e-5)


def test_is_the_corner_of_the_overlap_rounded_over_three_tenths_of_the_gap():
    """Edge over edge: half of 0.3 gaps overlap still, and half of 0.3 gaps lie apart (chosen, see module)."""
    gap = 1e-6
    wanted = MU_0 * 12e-3 * (0.15 + fringe(gap**2 * (1 + 0.15**2)))
    found = _network.permeance(np.array(9e-3), np.array(gap), 10e-3, 8e-3, 12e-3)
    assert float(found) == pytest.approx(wanted, rel=1e-5)


def by_nodes(core, x, gap_1, gap_2):
    """Flux and winding permeance from the matrix of the nodes: shoes 0 and 1, feet of the legs 2 and 3."""

    def matrix(*branches):
        full = np.zeros((4, 4))
        for one, other, value in branches:
            full[[one, other], [one, other]] += value
            full[[one, other], [other, one]] -= value
        return full[:3, :3]  # the last node is the reference

    sizes = core["shoe_width"], core["leg_width"], core["depth"]
    across = [
        (shoe, foot, float(_network.permeance(np.array(apart), np.array(gap), *sizes)))
        for shoe, foot, apart, gap in (
            (0, 2, x, gap_1), (0, 3, x - core["pitch"], gap_2), (1, 2, x + core["pitch"], gap_1),
            (1, 3, x, gap_2),
        )
    ]  # fmt: skip
    leak = (
        MU_0 * core["recoil_permeability"] * core["magnet_thickness"] * core["depth"] / core["magnet_width"]
    )
    length = 2 * core["leg_height"] / core["leg_width"] + core["pitch"] / core["yoke"]
    iron = MU_0 * core["iron_permeability"] * core["depth"] / length
    drive = core["remanence"] * core["magnet_thickness"] * core["depth"]
    magnet = (0, 1, leak)
    found = np.linalg.solve(matrix(*across, magnet, (2, 3, iron)), [drive, -drive, 0.0])
    seen = 1 / np.linalg.solve(matrix(*across, magnet), [0.0, 0.0, 1.0])[2]
    window = MU_0 * core["depth"] * core["leg_height"] / (core["pitch"] - core["leg_width"])
    outside = 0.4035 * seen + 0.9905 * window  # as fitted to the field solutions (computed by library)
    return iron * found[2], 1 / (1 / iron + 1 / outside)


@pytest.mark.parametrize("x", [-30e-3, -14e-3, -5e-3, 0.0, 3e-3, 16e-3])
@pytest.mark.parametrize("legs", [(0.3e-3, 0.3e-3), (0.2e-3, 0.7e-3)], ids=["even", "askew"])
def test_is_the_network_that_of_its_node_matrix(x, legs):
    flux, permeance = _network.solve(CORE, np.array(x), *(np.array(leg) for leg in legs))
    wanted = by_nodes(CORE, x, *legs)
    assert float(flux) == pytest.approx(wanted[0], rel=1e-9)
    assert float(permeance) == pytest.approx(wanted[1], rel=1e-9)


@pytest.mark.parametrize("times", [0.5, 1.0, 2.0, 20.0])
@pytest.mark.parametrize("x", [0.0, -17e-3])
def test_does_a_leg_carry_no_more_than_its_iron_can(times, x):
    """f / (1 + (f/limit)^8)^(1/8) (chosen, see module): 2^(-1/8) of the limit where it is just reached."""
    at = (np.array(x), np.array(0.3e-3), np.array(0.3e-3))
    linear = float(_network.solve(CORE, *at)[0])
    limit = abs(linear) / times
    iron = CORE | {"saturation": limit / (8e-3 * 12e-3)}
    assert float(_network.solve(iron, *at)[0]) == pytest.approx(linear / (1 + times**8) ** (1 / 8), rel=1e-9)


# --- the build-up


@pytest.mark.parametrize(
    ("change", "rpm"),
    [
        ({}, 800.0),
        ({"inductance_factor": 0.6}, 700.0),
        ({"gap_1": 0.2e-3, "gap_2": 0.6e-3, "switch_drop": 0.5, "switch_on": 2.0}, 1200.0),
        ({"stop_path": 150.0}, 900.0),
        ({"stop_path": 30.0}, 1500.0),
        ({"shorted_fraction": 0.01, "stop_path": 1e4}, 1000.0),
        ({"shorted_fraction": 4e-5, "stop_path": 100.0}, 1000.0),
        ({"shorted_primary_fraction": 0.03, "short_resistance": 0.2, "stop_path": 300.0}, 1200.0),
        ({"trip_current": 2.0}, 1500.0),
        ({"trip_current": 2.0, "shorted_fraction": 0.003, "stop_path": 2e3}, 1800.0),
        ({"reversed_module": True}, 900.0),
    ],
    ids=str,
)
def test_does_the_build_up_of_both_windings_agree_with_solve_ivp(change, rpm):
    system = ignition.Ignition(**change)
    opened, flat, _ = ignition.transient(system, [rpm])
    e = {name: float(values[0]) for name, values in flat.items()}
    x = np.linspace(-2.2 * e["pitch"], 2.2 * e["pitch"], 12001)
    core = {name: e[name] for name in ignition.CORE_FIELDS}
    flux, permeance = _network.solve(core, x, np.array(e["gap_1"]), np.array(e["gap_2"]))
    flux = CubicSpline(x, -flux if e["reversed_module"] else flux)
    speed = rpm * 2 * np.pi / 60 * e["flywheel_radius"]
    start, end = (-0.9, 2.0) if e["reversed_module"] else (-1.3, 1.0)
    i1, i3, place = reference.both_windings_by_solve_ivp(
        flux, CubicSpline(x, permeance * e["inductance_factor"]), (e["n1"], e["n3"]), (e["r1"], e["r3"]),
        e["k13"], min(e["stop_path"], 1e5), e["switch_drop"], e["switch_on"], e["trip_current"], speed,
        start * e["pitch"], end * e["pitch"],
    )  # fmt: skip
    assert opened.conducts[0]
    assert opened.i1[0] == pytest.approx(i1, rel=3e-3)
    assert opened.position[0] == pytest.approx(place, abs=0.15e-3)
    assert opened.i3[0] == pytest.approx(i3, rel=2e-2, abs=1e-3 * i1 * e["n1"] / max(e["n3"], 1.0))
    if not e["n3"]:
        assert opened.flux_rate[0] == pytest.approx(float(flux(place, 1)) * speed, rel=3e-2)


# --- the opening and the burn

PUBLIC = reference.PUBLIC
SHORT = {"l3": 0.9e-3, "r3": 26.0, "k13": 0.95, "k23": 0.97}


@pytest.mark.parametrize(
    ("change", "emf"),
    [
        ({"r_shunt": 2e5}, (3.0, 240.0, 0.0)),
        ({"l1": 0.7e-3, "l2": 5.0, "r1": 1.6, "r2": 4500.0, "r_loss": 6e5}, (0.0, 0.0, 0.0)),
        ({"r_stop": 2e3, "c2a": 45e-12}, (3.0, 240.0, 0.0)),
        (SHORT | {"r3": 400.0}, (3.0, 240.0, 2.8)),
    ],
    ids=str,
)
def test_does_the_burn_agree_with_solve_ivp(change, emf):
    c = PUBLIC | change
    seen = Opening(
        Circuit.of(1, **c), np.array([[4.2, 0.0, 0.0]]), np.array([emf]), demand=np.array([3e3]),
        burn_voltage=np.array([450.0]), extinction_current=4e-3,
    ).run()  # fmt: skip
    lights, lasts, joules = reference.burn_by_solve_ivp(c, (4.2, 0.0, 0.0), emf, 3e3, 450.0, 4e-3)
    assert seen.broke_down[0]
    assert seen.peak[0] == 3e3
    assert seen.time[0] == seen.breakdown_time[0] == pytest.approx(lights, abs=2e-9)
    assert seen.burn_time[0] == pytest.approx(lasts, rel=1e-3)
    assert seen.burn_energy[0] == pytest.approx(joules, rel=3e-3)
    assert seen.capacitive_energy[0] == pytest.approx(0.5 * c["c2b"] * (3e3**2 - 450.0**2), rel=1e-9)


@pytest.mark.parametrize("change", [{}, {"r_shunt": 3e5}, SHORT | {"r3": 150.0}], ids=str)
def test_does_a_gap_in_the_lead_act_as_in_solve_ivp(change):
    c = PUBLIC | change | {"gap_breakdown": 4e3}
    seen = Opening(Circuit.of(1, **c), np.array([[4.2, 0.0, 0.0]])).run()
    peak, when = reference.opening_behind_a_gap_by_solve_ivp(c, (4.2, 0.0, 0.0))
    assert seen.peak[0] == pytest.approx(peak, rel=1e-3)
    assert seen.time[0] == pytest.approx(when, abs=0.3e-6)
    shut = Opening(Circuit.of(1, **(c | {"gap_breakdown": 60e3})), np.array([[4.2, 0.0, 0.0]])).run()
    assert shut.peak[0] == 0


def test_does_a_slow_swing_of_the_driving_voltage_act_as_in_solve_ivp():
    """The voltage of the turning magnet follows a cosine: a burn with a swing of 2000 rad/s."""
    emf, swing = np.array([5.0, 400.0, 0.0]), 2000.0
    seen = Opening(
        Circuit.of(1, **PUBLIC), np.array([[4.2, 0.0, 0.0]]), emf[None, :], demand=np.array([3e3]),
        burn_voltage=450.0, extinction_current=4e-3, swing=np.array([swing]),
    ).run()  # fmt: skip
    lights, lasts, joules = reference.burn_by_solve_ivp(PUBLIC, (4.2, 0.0, 0.0), emf, 3e3, 450.0, 4e-3, swing)
    assert seen.breakdown_time[0] == pytest.approx(lights, abs=2e-9)
    assert seen.burn_time[0] == pytest.approx(lasts, rel=1e-3)
    assert seen.burn_energy[0] == pytest.approx(joules, rel=3e-3)


@pytest.mark.parametrize("change", [{"clamp": 300.0}, {"clamp": 380.0, "k": 0.93, "r_stop": 900.0}], ids=str)
def test_does_the_whole_trace_follow_solve_ivp_through_the_clamp(change):
    c = PUBLIC | change
    seen = Opening(Circuit.of(1, **c), np.array([[5.0, 0.0, 0.0]]), horizon=40e-6).run(record=True)
    time = np.concatenate([t for _, t, _ in seen.trace])
    plug = np.concatenate([x[4] for _, _, x in seen.trace]) / np.sqrt(c["c2b"])
    primary = np.concatenate([x[2] for _, _, x in seen.trace]) / np.sqrt(c["c1"])
    when, wanted_plug, wanted_primary = reference.trace_by_solve_ivp(c, (5.0, 0.0, 0.0), 40e-6)
    inside = time <= when[-1]
    assert time[-1] >= 40e-6
    assert plug[inside] == pytest.approx(np.interp(time[inside], when, wanted_plug), abs=30.0)
    assert primary[inside] == pytest.approx(np.interp(time[inside], when, wanted_primary), abs=3.0)
    assert primary.max() == pytest.approx(c["clamp"], rel=1e-6)
