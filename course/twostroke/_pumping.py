"""A compression gauge pumped up by a cylinder, pull by pull, in SI floats for one engine or many at once.

The charge in the cylinder is compressed along p v^n (v: volume of a unit of mass), so that its temperature
follows from its pressure. The check valve joins cylinder and gauge while the cylinder's pressure is the
higher one; gas in the gauge is back at the temperature of the air. A leak runs through an ideal nozzle,
choked where the pressure ratio asks for it. Contents are held as p V at the temperature of the air.
"""

from __future__ import annotations

import math
from typing import Any

from twostroke import _slider_crank
from twostroke.sources import constant

GAMMA = constant("ratio of specific heats of air", 1.4, "", "gas_dynamics")
GAS_CONSTANT = constant("specific gas constant of dry air", 287.05, "J/(kg*K)", "us1976")
STEPS = 90
"""Steps from port closing to top dead centre when there is a leak; without one the answer is exact in one."""


def nozzle_factor(ratio: Any) -> Any:
    """Ideal nozzle: mass flow = area * p * factor / sqrt(R T), at back pressure over p (array or float)."""
    import numpy as np

    gamma = float(GAMMA)
    choked = (2 / (gamma + 1)) ** (gamma / (gamma - 1))
    held = np.clip(ratio, choked, 1.0)
    inner = held ** (2 / gamma) - held ** ((gamma + 1) / gamma)
    return np.sqrt(2 * gamma / (gamma - 1) * np.maximum(inner, 0.0))


def gauge_pressures(
    *,
    bore: Any,
    stroke: Any,
    rod: Any,
    clearance_volume: Any,
    closing: Any,
    pulls: int,
    speed: Any,
    gauge_volume: Any,
    polytropic: Any,
    leak_area: Any,
    atmosphere: Any,
    air_temperature: Any,
    steps: int = STEPS,
) -> Any:
    """Absolute pressure in the gauge after each pull.

    Parameters
    ----------
    bore, stroke, rod, clearance_volume : float or array_like
        The cylinder. [m, m, m, m^3]
    closing : float or array_like
        Crank angle before top dead centre at which the exhaust port closes. [rad]
    pulls : int
        Number of compression strokes.
    speed : float or array_like
        Speed of the crank; with ``pulls`` rows, one speed for each pull. [rad/s]
    gauge_volume : float or array_like
        Volume between check valve and dial, 0 allowed. [m^3]
    polytropic : float or array_like
        Exponent n of the charge, at least 1.
    leak_area : float or array_like
        Effective area of the leak from the cylinder to the open air. [m^2]
    atmosphere, air_temperature : float or array_like
        Air around the engine. [Pa, K]
    steps : int, optional
        Steps over a compression stroke.

    Returns
    -------
    ndarray
        Shape ``(pulls,)`` followed by the common shape of the engines. [Pa]

    Examples
    --------
    >>> engine = dict(bore=0.04, stroke=0.03, rod=0.055, clearance_volume=4.712e-6, closing=1.8326)
    >>> air = dict(atmosphere=101325.0, air_temperature=293.15)
    >>> gauges = dict(gauge_volume=[2e-6, 6e-6], polytropic=1.25, leak_area=0.0)
    >>> after = gauge_pressures(pulls=3, speed=80.0, **gauges, **engine, **air)
    >>> after.shape
    (3, 2)
    """
    import numpy as np

    shape = np.broadcast_shapes(
        *(np.shape(value) for value in (bore, stroke, rod, clearance_volume, closing, gauge_volume)),
        *(np.shape(value) for value in (polytropic, leak_area, atmosphere, air_temperature)),
    )
    speeds = np.broadcast_to(np.asarray(speed, float), np.broadcast_shapes(np.shape(speed), (pulls, *shape)))
    exponent, p0, kelvin = (np.asarray(v, float) for v in (polytropic, atmosphere, air_temperature))
    area = math.pi / 4 * np.square(np.asarray(bore, float))
    leaking = bool(np.any(np.asarray(leak_area) > 0))
    strokes = steps if leaking else 1
    angles = [np.asarray(closing, float) * (1 - step / strokes) for step in range(strokes + 1)]
    volumes = [
        clearance_volume
        + area * _slider_crank.piston_depth(a, np.asarray(stroke, float), np.asarray(rod, float), np)
        for a in angles
    ]
    valve = _Valve(exponent, p0, np.asarray(gauge_volume, float), iterations=3 if leaking else 40)
    flow = np.asarray(leak_area, float) * math.sqrt(float(GAS_CONSTANT)) * np.sqrt(kelvin)

    def leak(pressure: Any) -> Any:
        cooling = (pressure / p0) ** ((exponent - 1) / (2 * exponent))
        return flow * pressure / cooling * nozzle_factor(p0 / pressure)

    gauge = np.broadcast_to(p0, speeds.shape[1:]).astype(float)
    readings = []
    for turning in speeds:
        span = np.asarray(closing, float) / turning / strokes
        pressure, content = np.broadcast_to(p0, gauge.shape), np.broadcast_to(p0 * volumes[0], gauge.shape)
        for volume in volumes[1:]:
            if leaking:
                first = leak(pressure)
                trial = np.maximum(content - first * span, p0 * volume)
                content = content - (first + leak(valve.settle(trial, gauge, volume)[0])) / 2 * span
                content = np.maximum(content, p0 * volume)
            pressure, content, gauge = valve.settle(content, gauge, volume)
        readings.append(gauge)
    return np.stack(readings)


class _Valve:
    """The check valve between cylinder and gauge: opens when the cylinder's pressure is the higher one."""

    def __init__(self, exponent: Any, p0: Any, gauge_volume: Any, iterations: int) -> None:
        self.exponent, self.gauge_volume, self.iterations = exponent, gauge_volume, iterations
        self.scale = p0 ** (1 - 1 / exponent)

    def settle(self, content: Any, gauge: Any, volume: Any) -> tuple[Any, Any, Any]:
        """Pressure and content of the cylinder and pressure of the gauge at a cylinder volume."""
        import numpy as np

        inverse = 1 / self.exponent
        room = self.scale * volume
        least = room * gauge**inverse  # content at which the valve is about to open
        held = np.maximum(content, least) + self.gauge_volume * gauge
        joined = gauge
        for _ in range(self.iterations):  # concave and rising: Newton closes in from below
            root = room * joined**inverse
            joined = joined + (held - root - self.gauge_volume * joined) / (
                root * inverse / joined + self.gauge_volume
            )
        opened = content > least
        pressure = np.where(opened, joined, (content / room) ** self.exponent)
        return pressure, np.where(opened, room * joined**inverse, content), joined
