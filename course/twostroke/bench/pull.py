"""A pull of the rope on these machines: speed, pressure and temperature at the spark of each turn."""

from __future__ import annotations

import hashlib
import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from twostroke import _pumping
from twostroke.bench.engine import Array, Machine, ideal
from twostroke.bench.models import Model
from twostroke.bench.seeds import Draws
from twostroke.compression import CRANKING_EXPONENT, Cylinder
from twostroke.cranking import EFFORTS, PERSON_SPREAD, TURNS, Pull, Starter, turn_over

POLYTROPIC = float(CRANKING_EXPONENT)
AIR_PRESSURE, AIR_KELVIN = 101_325.0, 293.15
PLUG_HOLE = 80e-6
"""Free area of the plug hole, square metres: with the plug out there is no compression."""

SEIZED_DRAG, RUB_DRAG = 500.0, 0.8
"""Friction added, N m: more than a hand can turn, and a module rubbing on the rim. Invented."""

LUCKS = np.array([-2.2, 0.0, 2.2])
"""Pulls are computed for a poor, a usual and a good one of this person, and interpolated between."""


@lru_cache(maxsize=64)
def cylinder(model: Model) -> dict[str, Any]:
    """Sizes of the cylinder as the pumping model takes them."""
    made = Cylinder(
        f"{model.bore * 1e3:.6f} mm",
        f"{model.stroke * 1e3:.6f} mm",
        f"{model.rod * 1e3:.6f} mm",
        model.geometric_ratio,
        f"{model.port_closing} deg",
    )
    return made.pumping_sizes()


def starter(model: Model) -> Starter:
    """Rope, flywheel and friction of a model, grown with the displacement: invented."""
    times = model.displacement / 25e-6
    return Starter(0.027, 0.88, 1.2e-3 * times**1.25, 0.30 * times**0.5)


def leak_area(machine: Machine) -> Array:
    """Whole leak of the cylinder; a washed-off oil film lets the rings leak more, square metres."""
    c = machine.cylinder
    dry = 1.0 + 20.0 * (1.0 - np.clip(c.oil_film, 0.0, 1.0))
    return c.ring_leak * dry + c.bore_leak + c.gasket_leak + c.seat_leak + c.decompressor_leak


@dataclass(frozen=True)
class Rope:
    """Pulls of one effort on these machines.

    Attributes
    ----------
    n : int
        Machines.
    curves : Pull
        A poor, a usual and a good pull of each, one block after the other, for one effort after the other.
    number : int
        Which effort this is.
    """

    n: int
    curves: Pull
    number: int = 0

    def at(self, btdc: Array | float, luck: Array) -> tuple[Array, Array, Array]:
        """Speed (rpm), pressure (Pa), temperature (K), each (machines, turns), at an angle in degrees."""
        before = np.tile(
            np.broadcast_to(np.radians(np.asarray(btdc, dtype=float)), (self.n,)),
            len(self.curves.rate) // self.n,
        )
        return tuple(self._mix(values, luck) for values in self.curves.at(before))  # type: ignore[return-value]

    def peak(self, luck: Array) -> Array:
        """Pressure at top dead centre of each turn (Pa), (machines, turns)."""
        return self._mix(self.curves.peak, luck)

    def _mix(self, values: Array, luck: Array) -> Array:
        poor, usual, good = values.reshape(-1, len(LUCKS), self.n, TURNS)[self.number]
        share = np.clip(luck / LUCKS[-1], -1.0, 1.0)[:, None]
        return usual + np.where(share < 0.0, (usual - poor) * share, (good - usual) * share)


def rope(
    machine: Machine,
    effort: str = "normal",
    plug_out: bool = False,
    atmosphere: float = AIR_PRESSURE,
    kelvin: float = AIR_KELVIN,
) -> Rope:
    """Pulls of the rope on these machines; the same machines are computed once and then remembered.

    For one machine all efforts are computed together, since that takes no longer.

    Parameters
    ----------
    machine : Machine
    effort : {"weak", "normal", "fast"}
    plug_out : bool
        Whether the plug is out, so that nothing is compressed.
    atmosphere, kelvin : float
        Air around.
    """
    leak = np.full(machine.n, PLUG_HOLE) if plug_out else np.maximum(leak_area(machine), 1e-12)
    drag = SEIZED_DRAG * (machine.cylinder.seized > 0.5) + RUB_DRAG * np.clip(machine.cylinder.rub, 0.0, 1.5)
    efforts = tuple(EFFORTS) if machine.n == 1 else (effort,)
    parts = (efforts, machine.model.letter, machine.model.bore, atmosphere, kelvin)
    key = hashlib.sha256(repr(parts).encode() + leak.tobytes() + drag.tobytes()).digest()
    found = _REMEMBERED.pop(key, None)
    if found is None:
        wanted = np.concatenate([LUCKS + math.log(EFFORTS[name]) / float(PERSON_SPREAD) for name in efforts])
        curves = turn_over(
            cylinder(machine.model),
            "normal",
            luck=np.repeat(wanted, machine.n),
            starter=starter(machine.model),
            leak_area=np.tile(leak, len(wanted)),
            polytropic=POLYTROPIC,
            atmosphere=atmosphere,
            air_temperature=kelvin,
            drag=np.tile(drag, len(wanted)),
        )
        found = {name: Rope(machine.n, curves, number) for number, name in enumerate(efforts)}
    _REMEMBERED[key] = found
    if len(_REMEMBERED) > REMEMBER:
        del _REMEMBERED[next(iter(_REMEMBERED))]
    return found[effort]


REMEMBER = 64
_REMEMBERED: dict[bytes, dict[str, Rope]] = {}


def luck_of(n: int, draws: Draws) -> Array:
    """How this pull turns out against the person's usual one, in standard deviations."""
    return draws.normal(n)


def slow_peak(machine: Machine) -> Array:
    """Gauge pressure at top dead centre at a slow turn of the rope, pascal."""
    reached = _pumping.gauge_pressures(
        **cylinder(machine.model),
        pulls=1,
        speed=0.6 * machine.model.pull_speed * np.pi / 30.0,
        gauge_volume=np.full(machine.n, 1e-10),
        polytropic=POLYTROPIC,
        leak_area=np.maximum(leak_area(machine), 1e-12),
        atmosphere=AIR_PRESSURE,
        air_temperature=AIR_KELVIN,
        steps=30,
    )[0]
    return reached - AIR_PRESSURE


def compression_share(machine: Machine) -> Array:
    """Compression at a slow turn of the rope, as a share of a sound machine's."""
    return slow_peak(machine) / _sound_peak(machine.model)


@lru_cache(maxsize=64)
def _sound_peak(model: Model) -> float:
    return float(slow_peak(ideal(model, 1))[0])
