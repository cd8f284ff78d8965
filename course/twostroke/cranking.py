"""A pull of the starter rope: speed and pressure through five turns, for many engines at once.

The hand pulls hard at rest and less the faster the rope runs; flywheel, friction and compression share what
it gives. So the crank slows into each compression stroke, just where the spark is due, and a stiff engine,
a weak arm or a leaking cylinder change both the speed and the pressure at the spark. Sizes of hand, rope
and friction are invented round figures of the usual order; the cylinder is that of ``compression``.

:func:`turn_over` is for batches in SI floats; :func:`rope_pull` has units at the door.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, replace
from statistics import NormalDist
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from twostroke import _pumping, _slider_crank
from twostroke._air import air_at
from twostroke.compression import CRANKING_EXPONENT, Cylinder
from twostroke.errors import RangeError, UnitError
from twostroke.sources import constant
from twostroke.units import from_si, number, si

if TYPE_CHECKING:
    from pint import Quantity

__all__ = [
    "EFFORTS",
    "Pull",
    "RopePull",
    "Starter",
    "person_luck",
    "rope_pull",
    "turn_over",
]

Array = NDArray[np.float64]

HAND_FORCE = constant("force of a hand on a rope at rest", 300.0, "N", "demo", "normal pull")
HAND_SPEED = constant("speed at which a hand can pull no more", 3.1, "m/s", "demo", "normal pull")
PERSON_SPREAD = constant(
    "spread of one person's pulls", 0.08, "", "demo", "standard deviation of the logarithm"
)

EFFORTS = {"weak": 0.62, "normal": 1.0, "fast": 1.38}
"""Speed of the hand against a normal pull: invented."""

TURNS = 5
_FINE, _COARSE = math.radians(3.0), math.radians(15.0)


@dataclass(frozen=True)
class Starter:
    """What the rope turns; each field a float or an array of one value an engine.

    Attributes
    ----------
    pulley_radius, rope_length : m
    inertia : kg m^2, of flywheel and crank
    friction : N m, of bearings, seals and rings
    """

    pulley_radius: Any = 0.028
    rope_length: Any = 0.88
    inertia: Any = 6.0e-4
    friction: Any = 0.30

    @staticmethod
    def of(displacement: Any) -> Starter:
        """Starter of the usual size for a displacement (m^3): invented, grown from one of 25 cm^3.

        Examples
        --------
        >>> print(f"{Starter.of(71e-6).pulley_radius * 1e3:.0f} mm")
        40 mm
        """
        times = np.asarray(displacement, float) / 25e-6
        wide = times ** (1 / 3)
        one = Starter()
        return Starter(
            one.pulley_radius * wide,
            one.rope_length * wide,
            one.inertia * times**1.25,
            one.friction * times**0.5,
        )


@dataclass(frozen=True)
class Pull:
    """One pull through ``TURNS`` turns from bottom dead centre; (engines, steps) or (engines, turns).

    Attributes
    ----------
    angle : array (steps,)
        Crank angle from the start (rad); top dead centre at pi, 3 pi, ...
    rate : array (engines, steps)
        Speed of the crank (rad/s); 0 once it has stopped.
    pressure : array (engines, steps)
        In the cylinder, absolute (Pa), without firing.
    polytropic, atmosphere, air_temperature
        As given.
    """

    angle: Array
    rate: Array
    pressure: Array
    polytropic: Array
    atmosphere: Array
    air_temperature: Array

    @property
    def rpm(self) -> Array:
        """Speed of the crank in rpm, (engines, steps)."""
        return self.rate * (30 / np.pi)

    def at(self, btdc: Any) -> tuple[Array, Array, Array]:
        """Speed (rpm), pressure (Pa), temperature (K) at an angle before top dead centre (rad) of each turn.

        ``btdc`` is a float, one value an engine, or (engines, turns). Each result is (engines, turns).
        """
        before = np.asarray(btdc, float)
        before = before[:, None] if before.ndim == 1 else before
        wanted = np.pi + 2 * np.pi * np.arange(TURNS) - before
        wanted = np.broadcast_to(wanted, (len(self.rate), TURNS))
        place = np.interp(wanted, self.angle, np.arange(len(self.angle)))
        low = np.minimum(place.astype(int), len(self.angle) - 2)
        part, rows = place - low, np.arange(len(self.rate))[:, None]
        rate, pressure = (
            v[rows, low] * (1 - part) + v[rows, low + 1] * part for v in (self.rate, self.pressure)
        )
        n = self.polytropic[:, None]
        warmer = (pressure / self.atmosphere[:, None]) ** ((n - 1) / n)
        return rate * (30 / np.pi), pressure, self.air_temperature[:, None] * warmer

    @property
    def peak(self) -> Array:
        """Absolute pressure at top dead centre of each turn (Pa), (engines, turns)."""
        return self.at(0.0)[1]


def _grid(closing: float) -> Array:
    """Crank angles of the steps: fine where the port is closed, coarse elsewhere."""
    rest = np.pi - closing
    out = [np.zeros(1)]
    for turn in range(TURNS):
        start = 2 * np.pi * turn
        for length, step in ((rest, _COARSE), (2 * closing, _FINE), (rest, _COARSE)):
            count = math.ceil(length / step)
            out.append(start + length * np.arange(1, count + 1) / count)
            start += length
    return np.concatenate(out)


def turn_over(
    sizes: dict[str, Any],
    effort: str = "normal",
    luck: Any = 0.0,
    starter: Starter | None = None,
    leak_area: Any = 0.0,
    polytropic: Any = float(CRANKING_EXPONENT),
    atmosphere: Any = 101_325.0,
    air_temperature: Any = 293.15,
    drag: Any = 0.0,
) -> Pull:
    """One pull of the rope on a batch of engines, plug in, throttle open, no firing.

    Parameters
    ----------
    sizes : dict
        ``Cylinder.pumping_sizes()``; values may be arrays of one value an engine (one port closing for all).
    effort : {"weak", "normal", "fast"}
        How hard the person pulls.
    luck : float or array
        Standard normal numbers, one an engine: this pull against the person's usual one.
    starter : Starter, optional
        Rope, flywheel and friction; left out, of the usual size for the displacement.
    leak_area : float or array
        Of rings, gasket, plug seat and decompression valve together (m^2).
    polytropic, atmosphere, air_temperature : float or array
        Exponent of the compression; air around the engine (Pa, K).
    drag : float or array
        Extra friction (N m): rubbing, thick oil; a seized engine has more than the hand can turn.

    Returns
    -------
    Pull
        Speed and pressure over the crank angle.

    Raises
    ------
    RangeError
        An effort that is not known, or a negative value.

    Examples
    --------
    >>> engine = Cylinder("34 mm", "28 mm", "48 mm", 9, "103 deg").pumping_sizes()
    >>> rpm = turn_over(engine, "normal").at(math.radians(27))[0]
    >>> bool(600 < rpm[0, 2] < 1000)
    True
    """
    if not isinstance(effort, str) or effort not in EFFORTS:
        raise RangeError(f"pull {effort!r} is not known: say {', '.join(EFFORTS)}")
    swept = np.pi / 4 * np.square(sizes["bore"]) * np.asarray(sizes["stroke"], float)
    rope = starter or Starter.of(swept)
    given = {
        **{name: value for name, value in sizes.items() if name != "closing"},
        "luck": luck, "leak": leak_area, "n": polytropic,
        "p0": atmosphere, "kelvin": air_temperature, "drag": drag, "pulley": rope.pulley_radius,
        "rope": rope.rope_length, "inertia": rope.inertia, "friction": rope.friction,
    }  # fmt: skip
    count = max(np.size(v) for v in given.values())
    c = {name: np.broadcast_to(np.asarray(v, float), (count,)) for name, v in given.items()}
    for name in ("leak", "drag", "friction"):
        if np.any(c[name] < 0):
            raise RangeError(f"{name} {c[name].min():g}: must be zero or more")
    closing = float(np.max(sizes["closing"]))
    angle = _grid(closing)
    area = np.pi / 4 * c["bore"] ** 2
    from_top = np.abs(np.remainder(angle, 2 * np.pi) - np.pi)[:, None]
    volume = c["clearance_volume"] + area * _slider_crank.piston_depth(from_top, c["stroke"], c["rod"], np)
    closed = (from_top < closing + 1e-9)[:, 0]
    scale = EFFORTS[effort] * np.exp(float(PERSON_SPREAD) * c["luck"])
    force, top_speed = float(HAND_FORCE) * np.sqrt(scale), float(HAND_SPEED) * scale
    flow = c["leak"] * math.sqrt(float(_pumping.GAS_CONSTANT)) * np.sqrt(c["kelvin"])
    leaking = bool(np.any(c["leak"] > 0))
    p0, n = c["p0"], c["n"]
    pressure, rate = np.empty((len(angle), count)), np.zeros((len(angle), count))
    pressure[0] = p0
    drop = c["pulley"] / top_speed
    for k in range(1, len(angle)):
        step = angle[k] - angle[k - 1]
        p = pressure[k - 1]
        if closed[k] and closed[k - 1]:
            new = p * (volume[k - 1] / volume[k]) ** n
            if leaking:
                new = _leak(new, p0, n, flow, step / np.maximum(rate[k - 1], 5.0), volume[k])
        else:
            new = p0
        pressure[k] = new
        gas = (0.5 * (p + new) - p0) * (volume[k - 1] - volume[k])
        pulling = np.where(angle[k] * c["pulley"] < c["rope"], force * c["pulley"], 0.0) * step
        left = 0.5 * c["inertia"] * rate[k - 1] ** 2 + pulling - (c["friction"] + c["drag"]) * step - gas
        slow = pulling * drop / c["inertia"]  # implicit in speed, so that a light flywheel stays stable
        now = np.sqrt(np.maximum(slow**2 + 2 * left / c["inertia"], 0.0)) - slow
        stopped = (left <= 0) | ((rate[k - 1] <= 0) & (k > 1))
        rate[k] = np.where(stopped, 0.0, now)
    return Pull(angle, rate.T, pressure.T, n, p0, c["kelvin"])


def _leak(p: Array, p0: Array, n: Array, flow: Array, span: Array, volume: Array) -> Array:
    """Pressure after ``span`` seconds of leaking out, or in when it is below the air's."""
    high, low = np.maximum(p, p0), np.minimum(p, p0)
    cooling = (high / p0) ** ((n - 1) / (2 * n))
    lost = flow * high * cooling * _pumping.nozzle_factor(low / high) * span / volume
    change = np.minimum(lost * n, np.abs(p - p0))
    return p - np.sign(p - p0) * change


@dataclass(frozen=True)
class RopePull:
    """One pull, turn by turn.

    Attributes
    ----------
    speeds : Quantity
        At the spark of each turn. [rpm]
    pressures : Quantity
        At the spark of each turn, absolute. [bar]
    temperatures : Quantity
        At the spark of each turn. [degC]
    peaks : Quantity
        At top dead centre of each turn, absolute. [bar]
    curve : Pull
        The whole course in SI floats.
    """

    speeds: Quantity
    pressures: Quantity
    temperatures: Quantity
    peaks: Quantity
    curve: Pull


def person_luck(seed: int, pulls: int) -> list[float]:
    """How a person's pulls differ: standard normal numbers, the same on every machine for a seed.

    Parameters
    ----------
    seed : int
        Names the person and the day.
    pulls : int
        How many.

    Returns
    -------
    list of float
        For ``luck`` of :func:`turn_over`.

    Examples
    --------
    >>> len(person_luck(7, 3)), person_luck(7, 3) == person_luck(7, 3)
    (3, True)
    """
    source, bell = random.Random(seed), NormalDist()
    return [bell.inv_cdf(max(source.random(), 1e-9)) for _ in range(pulls)]


def rope_pull(
    cylinder: Cylinder,
    effort: str = "normal",
    spark_angle: str | Quantity = "27 deg",
    seed: int | None = None,
    leak_area: str | Quantity = "0 mm^2",
    polytropic: float = float(CRANKING_EXPONENT),
    altitude: str | Quantity = "0 m",
    air_temperature: str | Quantity = "20 degC",
    inertia: float | None = None,
) -> RopePull:
    """Speeds and pressures at the spark through one pull of the starter rope.

    Parameters
    ----------
    cylinder : Cylinder
        The engine.
    effort : {"weak", "normal", "fast"}, optional
        How the person pulls.
    spark_angle : str or Quantity, optional
        Crank angle of the spark before top dead centre. [deg]
    seed : int, optional
        Draws this pull from the person's spread; left out, it is the person's usual pull.
    leak_area : str or Quantity, optional
        Leak past rings, gasket, plug seat, decompression valve. [mm^2]
    polytropic : float, optional
        Exponent of the compression, 1 to 1.7.
    altitude, air_temperature : str or Quantity, optional
        Air around the engine. [m, degC]
    inertia : float, optional
        Of flywheel and crank, in kg m^2.

    Returns
    -------
    RopePull
        Speeds and pressures turn by turn, and the whole course.

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind, or something else in place of the cylinder.
    RangeError
        A value outside physical sense.

    Notes
    -----
    The hand is invented: order, not measurement.

    Examples
    --------
    >>> engine = Cylinder("34 mm", "28 mm", "48 mm", 9, "103 deg")
    >>> slow, usual = rope_pull(engine, "weak"), rope_pull(engine)
    >>> bool((slow.speeds < usual.speeds).all())
    True
    """
    if not isinstance(cylinder, Cylinder):
        raise UnitError(
            f"cylinder: {type(cylinder).__name__} is not a Cylinder; make one with compression.Cylinder"
        )
    air, _ = air_at(altitude)
    starter = Starter.of(float(cylinder.displacement.to("m^3").magnitude))
    if inertia is not None:
        starter = replace(starter, inertia=number(inertia, "inertia in kg m^2", above=0))
    curve = turn_over(
        cylinder.pumping_sizes(),
        effort,
        luck=0.0 if seed is None else person_luck(int(number(seed, "seed", whole=True)), 1)[0],
        starter=starter,
        leak_area=si(leak_area, "mm^2", "leak area", minimum=0),
        polytropic=number(polytropic, "polytropic exponent", minimum=1, maximum=1.7),
        atmosphere=air,
        air_temperature=si(air_temperature, "degC", "air temperature", above=-273.15),
    )
    rpm, pressure, kelvin = curve.at(si(spark_angle, "deg", "spark angle", minimum=-90, maximum=90))
    return RopePull(
        from_si(rpm[0] * np.pi / 30, "rpm"),
        from_si(pressure[0], "bar"),
        from_si(kelvin[0], "degC"),
        from_si(curve.peak[0], "bar"),
        curve,
    )
