"""Slow references: the pumping model against an integrator, vapour pressure and work against CoolProp."""

from __future__ import annotations

import math

import pytest
from twostroke import compression, fuel, units

GAMMA, GAS = 1.4, 287.05


def integrated(engine, pulls, rpm, gauge_ml, n, leak_mm2, kelvin=293.15, p0=101325.0):
    """The same physics written as one differential equation and handed to solve_ivp, pull by pull."""
    from scipy.integrate import solve_ivp

    stroke, rod = engine.stroke.to("m").magnitude, engine.rod.to("m").magnitude
    area = math.pi / 4 * engine.bore.to("m").magnitude ** 2
    clearance, throw = engine.clearance_volume.to("m^3").magnitude, stroke / 2
    closing, gauge_volume, leak = engine.port_closing.to("rad").magnitude, gauge_ml * 1e-6, leak_mm2 * 1e-6
    omega = rpm * 2 * math.pi / 60

    def volume(angle):
        return clearance + area * (
            throw * (1 - math.cos(angle)) + rod - math.sqrt(rod**2 - (throw * math.sin(angle)) ** 2)
        )

    def volume_rate(angle):
        sine = throw * math.sin(angle)
        return area * (throw * math.sin(angle) + sine * throw * math.cos(angle) / math.sqrt(rod**2 - sine**2))

    def psi(ratio):
        ratio = max(ratio, (2 / (GAMMA + 1)) ** (GAMMA / (GAMMA - 1)))
        if ratio >= 1:
            return 0.0
        return math.sqrt(2 * GAMMA / (GAMMA - 1) * (ratio ** (2 / GAMMA) - ratio ** ((GAMMA + 1) / GAMMA)))

    def rate(angle, p, joined):
        temperature = kelvin * (p / p0) ** ((n - 1) / n)
        mass_flow = leak * p / math.sqrt(GAS * temperature) * psi(p0 / p)
        v, dv = volume(angle), -volume_rate(angle)  # angle runs down to top dead centre
        k = p ** (1 / n) * p0 ** (1 - 1 / n)
        loss = mass_flow * GAS * kelvin / omega
        return (-k * dv - loss) / (k * v / (n * p) + (gauge_volume if joined else 0.0))

    gauge, readings = p0, []
    for _ in range(pulls):

        def reaches(angle, state, gauge=gauge):
            return state[0] - gauge if angle < 0.999 * closing else -1.0

        reaches.terminal, reaches.direction = True, 1
        options = {"rtol": 1e-9, "atol": 1e-3, "max_step": 0.02}
        start, pressure = 0.0, p0 * (1 + 1e-12)
        if gauge > p0:
            shut = solve_ivp(
                lambda s, y: [rate(closing - s, y[0], False)], (0, closing), [pressure],
                events=lambda s, y, gauge=gauge: y[0] - gauge, **options,
            )  # fmt: skip
            crossed = shut.t_events[0]
            if not len(crossed):
                readings.append(gauge)
                continue
            start, pressure = crossed[0], gauge
        path = solve_ivp(
            lambda s, y: [rate(closing - s, y[0], True)], (start, closing), [pressure], **options
        )
        gauge = max(gauge, path.y[0].max())
        readings.append(gauge)
    return [(p - p0) / 1e5 for p in readings]


@pytest.mark.slow
@pytest.mark.parametrize(
    ("rpm", "gauge_ml", "n", "leak", "tolerance"),
    [
        (800, 6, 1.25, 0.0, 0.005),
        (800, 6, 1.25, 0.3, 0.005),
        (800, 2, 1.35, 0.5, 0.005),
        (400, 6, 1.25, 0.3, 0.01),
        (400, 15, 1.20, 0.6, 0.01),
        (1200, 6, 1.25, 0.3, 0.005),
        (300, 6, 1.25, 1.5, 0.01),
    ],
)
def test_does_the_pumping_model_agree_with_solve_ivp(rpm, gauge_ml, n, leak, tolerance):
    engine = compression.Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg")
    found = compression.gauge_readings(
        engine, 6, f"{rpm} rpm", f"{gauge_ml} mL", polytropic=n, leak_area=f"{leak} mm^2"
    )
    assert found.to("bar").magnitude == pytest.approx(
        integrated(engine, 6, rpm, gauge_ml, n, leak), rel=tolerance, abs=0.002
    )


@pytest.mark.slow
@pytest.mark.parametrize(
    ("substance", "fluid"), [("n-pentane", "n-Pentane"), ("n-hexane", "n-Hexane"), ("n-heptane", "n-Heptane")]
)
def test_does_the_vapour_table_agree_with_coolprop(substance, fluid):
    from CoolProp.CoolProp import PropsSI

    for celsius in (-40, -33.3, -12.5, 0, 7.7, 20, 37.8, 55.5, 80):
        found = fuel.vapour_pressure(f"{celsius} degC", substance).to("Pa").magnitude
        assert found == pytest.approx(PropsSI("P", "T", celsius + 273.15, "Q", 0, fluid), rel=5e-3)


@pytest.mark.slow
def test_is_the_isentropic_end_that_of_coolprop():
    """E-P1 from the library itself."""
    from CoolProp.CoolProp import PropsSI

    start = {"P": 101325.0, "T": 293.15}
    entropy = PropsSI("S", "P", start["P"], "T", start["T"], "Air")
    density = 6 * PropsSI("D", "P", start["P"], "T", start["T"], "Air")
    pressure = PropsSI("P", "S", entropy, "D", density, "Air")
    assert pressure == pytest.approx(1.2370e6, rel=1e-3)
    engine = compression.Cylinder("40 mm", "30 mm", "55 mm", 6, "180 deg")
    found = compression.gauge_readings(engine, 1, "800 rpm", "0 mL", polytropic=1.4)
    assert (found[0] + units.read("1 atm")).to("Pa").magnitude == pytest.approx(pressure, rel=0.01)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("bar", "ratio"), [(0.02, 1.0), (6.895, 0.25), (6.895, 1.0), (6.895, 2.0), (2.0, 5.0)]
)
def test_does_leak_down_agree_with_a_root_finder(bar, ratio):
    from scipy.optimize import brentq

    outside, supply = 101325.0, 101325.0 + bar * 1e5
    critical = (2 / (GAMMA + 1)) ** (GAMMA / (GAMMA - 1))

    def flow(up, down):
        r = max(down / up, critical)
        return up * math.sqrt(max(0.0, r ** (2 / GAMMA) - r ** ((GAMMA + 1) / GAMMA)))

    middle = brentq(
        lambda p: flow(supply, p) - ratio * flow(p, outside), outside * (1 + 1e-12), supply * (1 - 1e-12)
    )
    expected = 100 * (supply - middle) / (supply - outside)
    assert compression.leak_down(f"{bar} bar", ratio) == pytest.approx(expected, rel=1e-6)
