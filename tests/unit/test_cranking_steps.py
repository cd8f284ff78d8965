"""Each step of a rope pull against the balance that it must keep, and the places where a pull is asked."""

from __future__ import annotations

import math
from dataclasses import replace
from statistics import NormalDist

import numpy as np
import pytest
from twostroke import compression, cranking
from twostroke.compression import Cylinder
from twostroke.errors import RangeError

ENGINE = Cylinder("34 mm", "28 mm", "48 mm", 9, "103 deg")
SIZES = ENGINE.pumping_sizes()
STARTER = cranking.Starter(pulley_radius=0.03, rope_length=0.85, inertia=7e-4, friction=0.25)
AIR, TURN = 101_325.0, 2 * math.pi


def engine(closing):
    return Cylinder("34 mm", "28 mm", "48 mm", 9, f"{closing} deg")


def volume(sizes, angle):
    """Slider-crank with the square root (closed form), from bottom dead centre."""
    throw, rod = sizes["stroke"] / 2, sizes["rod"]
    depth = throw * (1 + np.cos(angle)) + rod - np.sqrt(rod**2 - (throw * np.sin(angle)) ** 2)
    return sizes["clearance_volume"] + math.pi / 4 * sizes["bore"] ** 2 * depth


def from_top(angle):
    return np.abs(np.remainder(angle, TURN) - math.pi)


@pytest.mark.parametrize("closing", [0, 20, 103, 150, 180])
def test_are_the_steps_fine_while_the_port_is_shut(closing):
    angle, shut = cranking._grid(math.radians(closing)), math.radians(closing)
    steps, middles = np.diff(angle), (angle[1:] + angle[:-1]) / 2
    assert (angle[0], angle[-1]) == pytest.approx((0, 5 * TURN))
    assert steps.min() > math.radians(1)
    assert steps.max() < math.radians(15.001)
    assert steps[from_top(middles) < shut].max(initial=0) < math.radians(3.001)
    for turn in range(5):
        for edge in (-shut, shut):
            assert np.abs(angle - TURN * turn - math.pi - edge).min() < 1e-9


@pytest.mark.parametrize("closing", [20, 103, 150, 180])
def test_is_the_charge_pressed_while_the_port_is_shut_and_that_of_the_air_elsewhere(closing):
    """p V^n is the same from closing to opening (definition)."""
    sizes = engine(closing).pumping_sizes()
    pull = cranking.turn_over(sizes)
    shut = from_top(pull.angle) < sizes["closing"] + 1e-6
    pressed = AIR * (volume(sizes, math.pi - sizes["closing"]) / volume(sizes, pull.angle)) ** 1.25
    assert pull.pressure[0] == pytest.approx(np.where(shut, pressed, AIR), rel=1e-9)


@pytest.mark.parametrize(
    ("more", "scale"),
    [
        ({}, 1.0),
        ({"effort": "weak"}, 0.62),
        ({"effort": "fast"}, 1.38),
        ({"luck": 1.0}, math.exp(0.08)),
        ({"luck": -2.0, "drag": 0.1}, math.exp(-0.16)),
        ({"leak_area": 0.3e-6, "polytropic": 1.3, "atmosphere": 9e4, "air_temperature": 270.0}, 1.0),
    ],
)
def test_does_each_step_keep_its_energy(more, scale):
    """Work of hand, friction and gas is what the flywheel gains (definition); the hand is invented for the
    demo: 300 N at rest, none at 3.1 m/s, 8 % from pull to pull."""
    pull = cranking.turn_over(SIZES, starter=STARTER, **more)
    force, top = 300 * math.sqrt(scale), 3.1 * scale
    angle, rate, pressure = pull.angle, pull.rate[0], pull.pressure[0]
    assert rate[0] == 0
    assert rate[1:].min() > 5
    roped = angle[1:] * 0.03 < 0.85
    assert not roped.all()
    hand = np.where(roped, force * 0.03 * (1 - rate[1:] * 0.03 / top), 0)
    gas = ((pressure[1:] + pressure[:-1]) / 2 - more.get("atmosphere", AIR)) * np.diff(volume(SIZES, angle))
    done = (hand - 0.25 - more.get("drag", 0)) * np.diff(angle) + gas
    assert 7e-4 / 2 * np.diff(rate**2) == pytest.approx(done, abs=1e-9)


def test_does_a_crank_that_stands_stay_so():
    """It stops against the compression; the gas would push it on, had it passed the top."""
    with np.errstate(all="raise"):
        pull = cranking.turn_over(SIZES, starter=replace(STARTER, rope_length=0.045), drag=0.5)
    stopped = np.flatnonzero(pull.rate[0] == 0)
    assert 0 < stopped[1] < len(pull.angle) / 2
    assert pull.angle[stopped[1]] % TURN < math.pi
    assert np.all(pull.rate[0, stopped[1] :] == 0)


def test_does_a_crank_stiffer_than_the_hand_never_turn():
    """300 N on a pulley of 30 mm are 9 N m (definition)."""
    assert np.all(cranking.turn_over(SIZES, starter=STARTER, drag=9.5).rate == 0)


def test_does_each_step_leak_for_as_long_as_it_takes():
    pull = cranking.turn_over(SIZES, starter=STARTER, leak_area=0.3e-6)
    flow, shut = 0.3e-6 * math.sqrt(287.05 * 293.15), from_top(pull.angle) < SIZES["closing"] + 1e-6
    room, p, rate = volume(SIZES, pull.angle), pull.pressure[0], pull.rate[0]
    pressed = p[:-1] * (room[:-1] / room[1:]) ** 1.25
    left = cranking._leak(pressed, AIR, 1.25, flow, np.diff(pull.angle) / np.maximum(rate[:-1], 9), room[1:])
    both = shut[1:] & shut[:-1]
    assert rate[:-1][both].min() > 9
    assert p[1:] == pytest.approx(np.where(both, left, AIR), rel=1e-9)


@pytest.mark.parametrize(
    ("p", "factor"), [(8e5, 0.684731), (1.5e5, None), (0.5e5, 0.684731), (0.8e5, None), (1e5, 0.0)]
)
def test_does_a_leak_lose_what_an_ideal_nozzle_passes(p, factor):
    """dp = -n m R T/V dt; m = A p sqrt(g/(R T)) M (1 + (g - 1)/2 M^2)^-3, the isentropic nozzle with g = 1.4
    and the Mach number M of its pressure ratio (ISO 9300 ideal when choked: 0.684731)."""
    air, n, kelvin, area, room = 1e5, 1.25, 280.0, 1e-6, 5e-6
    high, low = max(p, air), min(p, air)
    if factor is None:
        mach = math.sqrt(5 * ((high / low) ** (1 / 3.5) - 1))
        factor = math.sqrt(1.4) * mach * (1 + mach**2 / 5) ** -3
    warm = kelvin * (high / air) ** 0.2
    lost = n * area * high * factor * math.sqrt(287.05 * warm) * 1e-5 / room
    flow = area * math.sqrt(287.05 * kelvin)
    args = [np.array([one]) for one in (p, air, n, flow, 1e-5, room)]
    assert cranking._leak(*args)[0] == pytest.approx(p - math.copysign(lost, p - air), rel=1e-6)
    args[4] = np.array([10.0])
    assert cranking._leak(*args)[0] == pytest.approx(air, rel=1e-12)


def test_is_a_pull_asked_between_two_steps_by_a_straight_line():
    pull = cranking.turn_over(SIZES)
    at = int(np.searchsorted(pull.angle, 5 * math.pi)) - 9
    for share in (0.0, 0.25, 0.75):
        btdc = 5 * math.pi - (pull.angle[at] + share * (pull.angle[at + 1] - pull.angle[at]))
        rpm, pressure, _ = pull.at(btdc)
        for found, row in ((rpm, pull.rpm), (pressure, pull.pressure)):
            assert found[0, 2] == pytest.approx(row[0, at] * (1 - share) + row[0, at + 1] * share)
    assert pull.at(-math.pi)[0][0, 4] == pytest.approx(pull.rpm[0, -1])
    assert pull.at(math.pi)[0][0, 0] == 0
    assert pull.rpm == pytest.approx(pull.rate * 60 / TURN)
    assert pull.peak == pytest.approx(pull.at(0)[1])


def test_does_each_of_many_engines_go_as_it_goes_alone():
    bores, more = [0.034, 0.036], {
        "luck": [0.0, 1.0], "leak_area": [0.0, 3e-7], "polytropic": [1.25, 1.3],
        "atmosphere": [AIR, 9e4], "air_temperature": [293.15, 270.0], "drag": [0.0, 0.1],
    }  # fmt: skip
    many = cranking.turn_over({**SIZES, "bore": np.array(bores)}, **{k: np.array(v) for k, v in more.items()})
    each, every = np.array([0.3, 0.5]), np.array([[0.1, 0.2, 0.3, 0.4, 0.5], [0.6, 0.5, 0.4, 0.3, 0.2]])
    for one in range(2):
        alone = cranking.turn_over(
            {**SIZES, "bore": bores[one]}, **{name: values[one] for name, values in more.items()}
        )
        assert many.rate[one] == pytest.approx(alone.rate[0])
        for asked, mine in ((each, each[one]), (every, every[[one]])):
            for found, expected in zip(many.at(asked), alone.at(mine), strict=True):
                assert found[one] == pytest.approx(expected[0])


def test_is_a_pull_with_units_the_same_pull():
    air = compression.standard_atmosphere("1500 m").pressure.to("Pa").magnitude
    found = cranking.rope_pull(
        ENGINE, "weak", "20 deg", 3, "0.3 mm^2", 1.3, "1500 m", "-10 degC", inertia=9e-4
    )
    starter = replace(cranking.Starter.of(float(ENGINE.displacement.to("m^3").magnitude)), inertia=9e-4)
    luck = cranking.person_luck(3, 1)[0]
    pull = cranking.turn_over(SIZES, "weak", luck, starter, 0.3e-6, 1.3, air, 263.15)
    rpm, pressure, kelvin = pull.at(math.radians(20))
    assert found.speeds.to("rpm").magnitude == pytest.approx(rpm[0])
    assert found.pressures.to("Pa").magnitude == pytest.approx(pressure[0])
    assert found.temperatures.to("K").magnitude == pytest.approx(kelvin[0])
    assert found.peaks.to("Pa").magnitude == pytest.approx(pull.peak[0])
    assert found.curve.rate == pytest.approx(pull.rate)
    assert cranking.rope_pull(ENGINE).curve.rate == pytest.approx(cranking.turn_over(SIZES).rate)


def test_has_the_charge_at_the_spark_the_state_of_a_tight_cylinder():
    """p = p0 r^n, T = T0 r^(n-1) (closed form); two steps are 3 degrees apart."""
    found = cranking.rope_pull(ENGINE, polytropic=1.3, altitude="1500 m", air_temperature="0 degC")
    charge = compression.charge_at(ENGINE, "27 deg", 1.3, "1500 m", "0 degC")
    assert found.pressures.to("bar").magnitude == pytest.approx(
        [charge.pressure_absolute.to("bar").magnitude] * 5, rel=2e-3
    )
    assert found.temperatures.to("K").magnitude == pytest.approx(
        [charge.temperature.to("K").magnitude] * 5, rel=5e-4
    )


def test_does_a_starter_grow_with_the_engine():
    """Invented for the demo: lengths by the cube root, flywheel by the 5/4 power, friction by the root."""
    small, large = cranking.Starter.of(25e-6), cranking.Starter.of(8 * 25e-6)
    assert small == cranking.Starter()
    assert (small.pulley_radius, small.rope_length, small.inertia, small.friction) == pytest.approx(
        (0.028, 0.88, 6e-4, 0.3)
    )
    assert large.pulley_radius / small.pulley_radius == pytest.approx(2)
    assert large.rope_length / small.rope_length == pytest.approx(2)
    assert large.inertia / small.inertia == pytest.approx(8**1.25)
    assert large.friction / small.friction == pytest.approx(8**0.5)


def test_are_the_pulls_of_a_person_spread_as_a_bell():
    luck = cranking.person_luck(5, 4000)
    assert len(luck) == 4000
    found = NormalDist.from_samples(luck)
    assert (found.mean, found.stdev) == pytest.approx((0, 1), abs=0.05)


@pytest.mark.parametrize(
    "more",
    [{"leak_area": -1e-12}, {"drag": -1e-6}, {"starter": replace(STARTER, friction=-1e-6)}],
    ids=lambda more: next(iter(more)),
)
def test_is_less_than_no_friction_or_leak_refused(more):
    with pytest.raises(RangeError, match="zero or more"):
        cranking.turn_over(SIZES, **more)
