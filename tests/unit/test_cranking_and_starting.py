"""The rope pull against its own equations solved outside, and the order of things in starting."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from twostroke import _slider_crank, breakdown, cranking, demand, ignition, starting
from twostroke.compression import Cylinder
from twostroke.errors import RangeError, UnitError

few = settings(max_examples=20, deadline=None)
ENGINE = Cylinder("34 mm", "28 mm", "48 mm", 9, "103 deg")
SIZES = ENGINE.pumping_sizes()


def pull_by_solve_ivp(leak, n=1.25, p0=101_325.0, kelvin=293.15):
    """Speed and pressure over crank angle from the same balance of energy and mass, by scipy (rtol 1e-8)."""
    start = cranking.Starter.of(math.pi / 4 * SIZES["bore"] ** 2 * SIZES["stroke"])
    area = math.pi / 4 * SIZES["bore"] ** 2
    force, top = float(cranking.HAND_FORCE), float(cranking.HAND_SPEED)

    def volume(angle):
        from_top = abs((angle % (2 * math.pi)) - math.pi)
        return SIZES["clearance_volume"] + area * _slider_crank.piston_depth(
            from_top, SIZES["stroke"], SIZES["rod"]
        )

    def factor(ratio):
        ratio = max(min(ratio, 1.0), 0.528282)
        return math.sqrt(7.0 * max(ratio ** (2 / 1.4) - ratio ** (2.4 / 1.4), 0.0))

    def slope(angle, y):
        square, p = y
        rate = math.sqrt(max(square, 1e-6))
        v, h = volume(angle), 1e-6
        dv = (volume(angle + h) - volume(angle - h)) / (2 * h)
        dp = -n * p * dv / v
        if leak and p > p0:
            warm = math.sqrt(287.05 * kelvin * (p / p0) ** ((n - 1) / n))
            dp -= n * p * leak * warm * factor(p0 / p) / v / rate
        pulling = force * (1 - rate * start.pulley_radius / top) * start.pulley_radius
        if angle * start.pulley_radius > start.rope_length:
            pulling = 0.0
        return [2 / start.inertia * (pulling - start.friction + (p - p0) * dv), dp]

    # From rest at bottom dead centre; the port is open up to its closing angle, then closed to its opening.
    closing, state, out = SIZES["closing"], [1e-4, p0], []
    for turn in range(2):
        centre = math.pi * (2 * turn + 1)
        for low, high, shut in (
            (2 * math.pi * turn, centre - closing, False), (centre - closing, centre + closing, True),
            (centre + closing, 2 * math.pi * (turn + 1), False),
        ):  # fmt: skip
            state[1] = p0
            f = slope if shut else (lambda a, y: [slope(a, [y[0], p0])[0], 0.0])
            done = solve_ivp(
                f, (low, high), state, rtol=1e-8, atol=[1e-6, 1e-2], dense_output=True, max_step=0.05
            )
            out.append((low, high, done.sol))
            state = list(done.y[:, -1])

    def at(angle):
        for low, high, answer in out:
            if low <= angle <= high:
                square, p = answer(angle)
                return math.sqrt(max(square, 0.0)) * 30 / math.pi, p
        raise ValueError(angle)

    return at


@pytest.mark.parametrize("leak", [0.0, 0.3e-6])
def test_does_the_pull_agree_with_solve_ivp(leak):
    pull = cranking.turn_over(SIZES, leak_area=leak)
    at = pull_by_solve_ivp(leak)
    for btdc in (0.0, math.radians(27)):
        rpm, pressure, _ = pull.at(btdc)
        for turn in range(2):
            want_rpm, want_pressure = at(math.pi * (2 * turn + 1) - btdc)
            assert rpm[0, turn] == pytest.approx(want_rpm, rel=0.03)
            assert pressure[0, turn] == pytest.approx(want_pressure, rel=0.03)


def test_is_the_leak_free_peak_the_closed_form():
    """p = p0 r^n without a leak (closed form)."""
    expected = 101_325.0 * ENGINE.trapped_ratio**1.25
    assert cranking.turn_over(SIZES).peak[0] == pytest.approx(np.full(5, expected), rel=5e-3)


def test_does_a_harder_pull_turn_faster_and_the_same_seed_pull_the_same():
    speeds = [
        cranking.rope_pull(ENGINE, effort).speeds.to("rpm").magnitude.mean() for effort in cranking.EFFORTS
    ]
    assert speeds[0] < speeds[1] < speeds[2]
    assert 600 < speeds[1] < 1100
    one, two, other = (cranking.rope_pull(ENGINE, seed=seed).speeds.magnitude for seed in (3, 3, 4))
    assert np.array_equal(one, two)
    assert not np.array_equal(one, other)


@few
@given(st.floats(0, 3e-6), st.floats(0, 3e-6))
def test_does_a_larger_leak_never_raise_the_pressure(one, other):
    small, large = sorted((one, other))
    peaks = cranking.turn_over(SIZES, leak_area=np.array([small, large])).peak
    assert np.all(peaks[1] <= peaks[0] * (1 + 1e-3))
    assert np.all(peaks >= 101_325.0 * 0.9)


def test_does_drag_slow_the_crank_and_a_seized_one_stand():
    usual, stiff, seized = (cranking.turn_over(SIZES, drag=d).at(0.4)[0][0, 2] for d in (0.0, 1.5, 50.0))
    assert usual > stiff > seized == 0.0


def test_does_altitude_lower_the_pressure_in_proportion():
    low, high = (cranking.rope_pull(ENGINE, altitude=h).peaks.magnitude[2] for h in ("0 m", "2000 m"))
    assert high / low == pytest.approx(0.785, abs=0.002)


def test_does_a_sound_engine_spark_at_a_usual_pull_with_margin():
    """Common practice, no source: a healthy engine sparks at a normal pull; the demand is good to 30 %."""
    pull = cranking.rope_pull(ENGINE)
    system = ignition.Ignition()
    btdc = ignition.available(system, [800.0]).spark_btdc[0, 0]
    rpm, pressure, kelvin = pull.curve.at(btdc)
    volts = ignition.available(system, rpm[0]).voltage[0, 2]
    need = breakdown.uniform_field(0.6e-3, pressure[0, 2], kelvin[0, 2])
    assert need == pytest.approx(9.9e3, rel=0.3)
    assert volts > 1.1 * need


GOOD = {
    "volts": 13e3,
    "demand": 9e3,
    "joules": 7e-3,
    "ratio": 1.1,
    "pressure": 10e5,
    "btdc": 0.44,
    "residual": 0.0,
}


@pytest.mark.parametrize(
    ("name", "rows", "why"),
    [
        ("volts", [4e3, 8e3, 9e3, 11e3, 15e3], "a better spark never starts worse"),
        ("demand", [20e3, 12e3, 9e3, 5e3], "a plug that asks for less never starts worse"),
        ("joules", [0.0, 0.5e-3, 2e-3, 8e-3], "more energy never starts worse"),
        ("ratio", [0.3, 0.6, 0.8, 1.1], "less lean never starts worse"),
        ("ratio", [6.0, 3.0, 2.0, 1.1], "less flooded never starts worse"),
        ("pressure", [3e5, 6e5, 8e5, 11e5], "more compression never starts worse"),
        ("btdc", [-0.3, 0.0, 0.2, 0.436], "a spark nearer its time never starts worse"),
        ("residual", [1.0, 0.7, 0.4, 0.0], "a freer exhaust never starts worse"),
    ],
    ids=lambda value: value if isinstance(value, str) else None,
)
def test_is_the_order_of_starting_sane(name, rows, why):
    chances = [float(starting.chance(**{**GOOD, name: value})) for value in rows]
    assert np.all(np.diff(chances) >= 0), why
    assert chances[-1] > chances[0]
    assert 0.0 <= min(chances) <= max(chances) <= starting.INVENTED.highest


@few
@given(
    st.floats(0, 30e3),
    st.floats(1e3, 30e3),
    st.floats(0, 0.1),
    st.floats(0, 20),
    st.floats(1, 3e6),
    st.floats(-3, 3),
)
def test_is_a_chance_always_a_chance(volts, demand, joules, ratio, pressure, btdc):
    found = float(starting.chance(volts, demand, joules, ratio, pressure, btdc))
    assert 0.0 <= found <= starting.INVENTED.highest


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [
        (lambda: cranking.rope_pull("engine"), UnitError, "Cylinder"),
        (lambda: cranking.rope_pull(ENGINE, "gentle"), RangeError, "weak, normal, fast"),
        (lambda: cranking.turn_over(SIZES, leak_area=-1.0), RangeError, "leak"),
        (lambda: cranking.rope_pull(ENGINE, leak_area="-1 mm^2"), RangeError, "leak"),
        (lambda: starting.firing_chance("9 kV", "0 kV", "1 mJ", 1, "9 bar", "25 deg"), RangeError, "demand"),
        (lambda: demand.margin("9 kV", "9 kV"), UnitError, "Demand"),
        (lambda: demand.plug_demand("engine"), UnitError, "Cylinder"),
    ],
)
def test_is_a_bad_pull_named_plainly(call, error, words):
    with pytest.raises(error, match=words):
        call()
