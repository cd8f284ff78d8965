"""A machine: its model and the present physical state of every part, one row a machine."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from twostroke.bench.models import Model
from twostroke.bench.parts import (
    PARTS,
    Breath,
    Crankcase,
    Cylinder,
    Ignition,
    Plug,
    Signs,
    Supply,
    copy_part,
    sound,
)
from twostroke.bench.seeds import Draws

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]


@dataclass
class Machine:
    """`n` machines of one model.

    Attributes
    ----------
    model : Model
        The invented machine.
    n : int
        How many of them.
    ignition, plug, cylinder, crankcase, supply, breath, signs
        Parts, each field an array of `n` numbers.
    """

    model: Model
    n: int
    ignition: Ignition
    plug: Plug
    cylinder: Cylinder
    crankcase: Crankcase
    supply: Supply
    breath: Breath
    signs: Signs

    def copy(self) -> Machine:
        """Deep copy."""
        return Machine(self.model, self.n, **{key: copy_part(getattr(self, key)) for key in PARTS})

    def numbers(self) -> dict[str, Array]:
        """Every changeable number as ``part.field``."""
        found: dict[str, Array] = {}
        for key in PARTS:
            for name, value in vars(getattr(self, key)).items():
                found[f"{key}.{name}"] = value
        return found

    def set(self, name: str, value: Any) -> None:
        """Set one number, named ``part.field``, on all machines."""
        part, item = name.split(".")
        setattr(getattr(self, part), item, np.broadcast_to(np.asarray(value, dtype=float), (self.n,)).copy())


@dataclass(frozen=True)
class Figures:
    """What the manual of this machine says and a sound one is built to: middles of bands, in SI."""

    air_gap: float = 0.30e-3
    plug_gap: float = 0.60e-3
    primary: float | None = None
    secondary: float | None = None
    lead: float | None = None

    @staticmethod
    def of(bands: dict[str, tuple[float, float]]) -> Figures:
        """Middles of bands given in the table's units; what is not given comes from the drawing.

        Examples
        --------
        >>> Figures.of({"air_gap": (0.2, 0.4)}).air_gap
        0.0003
        """
        standard = Figures()

        def middle(name: str, scale: float, otherwise: float | None) -> float | None:
            return otherwise if name not in bands else round(sum(bands[name]) / 2.0 * scale, 9)

        return Figures(
            middle("air_gap", 1e-3, standard.air_gap) or standard.air_gap,
            middle("plug_gap", 1e-3, standard.plug_gap) or standard.plug_gap,
            middle("primary_resistance", 1.0, None),
            middle("secondary_resistance", 1e3, None),
            middle("lead_resistance", 1e3, None),
        )


def wound(model: Model) -> tuple[float, float]:
    """Resistance of primary and secondary at 20 °C, ohm, from turns, length of a turn and wire.

    Examples
    --------
    >>> from twostroke.bench.models import model
    >>> [round(ohms, 2) for ohms in wound(model("A"))]
    [1.08, 4370.97]
    """
    copper = 1.0 / 58e6

    def ohms(turns: int, length: float, wire: float) -> float:
        return turns * length * copper / (np.pi / 4.0 * wire**2)

    return (
        ohms(model.primary_turns, model.primary_mean_turn, model.primary_wire),
        ohms(model.secondary_turns, model.secondary_mean_turn, model.secondary_wire),
    )


def ideal(model: Model, n: int, figures: Figures | None = None) -> Machine:
    """`n` machines exactly as the drawing says.

    Examples
    --------
    >>> from twostroke.bench.models import model
    >>> ideal(model("A"), 2).ignition.gap_leading
    array([0.0003, 0.0003])
    """
    figures = figures or Figures()
    machine = Machine(model, n, **{key: sound(part, n) for key, part in PARTS.items()})
    machine.ignition.gap_leading[:] = figures.air_gap
    machine.ignition.gap_trailing[:] = figures.air_gap
    machine.plug.gap[:] = figures.plug_gap
    primary, secondary = wound(model)
    machine.ignition.primary_ohms[:] = figures.primary or primary
    machine.ignition.secondary_ohms[:] = figures.secondary or secondary
    if figures.lead:
        machine.ignition.lead_resistance[:] = figures.lead
    machine.cylinder.ring_leak *= (model.bore / 34e-3) ** 2
    return machine


def healthy(model: Model, n: int, draws: Draws, figures: Figures | None = None) -> Machine:
    """`n` sound machines with the spread of use and manufacture; the spreads are invented.

    Parameters
    ----------
    model : Model
        The invented machine.
    n : int
        Number of machines.
    draws : Draws
        Where the spread comes from.
    figures : Figures, optional
        Middles of the maker's bands.

    Returns
    -------
    Machine
    """
    m = ideal(model, n, figures)
    gap = m.ignition.gap_leading * (1.0 + draws.normal(n, 0.0, 0.08))
    tilt = draws.normal(n, 0.0, 0.012e-3)
    m.ignition.gap_leading = np.maximum(gap + tilt, 0.1e-3)
    m.ignition.gap_trailing = np.maximum(gap - tilt, 0.1e-3)
    m.ignition.run_out = draws.uniform(n, 0.01e-3, 0.05e-3)
    m.ignition.remanence = 1.0 + draws.normal(n, 0.0, 0.02)
    m.ignition.turn_on *= draws.lognormal(n, 0.05)
    m.ignition.lead_resistance *= draws.lognormal(n, 0.06)
    m.ignition.ground_resistance *= draws.lognormal(n, 0.3)
    m.plug.gap *= draws.lognormal(n, 0.04)
    m.plug.edge *= draws.lognormal(n, 0.3)
    m.plug.soot = draws.uniform(n, 0.02, 0.42)
    m.cylinder.ring_leak *= draws.lognormal(n, 0.15)
    m.cylinder.scoring = draws.uniform(n, 0.0, 0.24)
    m.supply.freshness = draws.uniform(n, 0.9, 1.0)
    m.supply.age_months = draws.uniform(n, 0.2, 4.0)
    m.supply.filter_flow = draws.uniform(n, 0.88, 1.0)
    m.supply.primer = draws.uniform(n, 0.9, 1.0)
    m.supply.diaphragm = draws.uniform(n, 0.90, 1.0)
    m.supply.jets = draws.uniform(n, 0.92, 1.0)
    m.supply.pop_off *= draws.lognormal(n, 0.05)
    m.supply.screws *= draws.lognormal(n, 0.03)
    m.supply.varnish = draws.uniform(n, 0.0, 0.3)
    m.breath.filter_dirt = draws.uniform(n, 0.05, 0.5)
    m.breath.filter_flow = 1.0 - 0.2 * m.breath.filter_dirt
    m.breath.screen_flow = draws.uniform(n, 0.85, 1.0)
    m.breath.choke_stick = draws.uniform(n, 0.0, 0.25)
    m.signs.dirt = draws.uniform(n, 0.0, 0.6)
    m.signs.opened_before = draws.uniform(n, 0.0, 0.5)
    m.signs.decompressor_stick = draws.uniform(n, 0.0, 0.25)
    m.signs.switch_stiff = draws.uniform(n, 0.0, 0.3)
    m.signs.boot_fit = draws.uniform(n, 0.0, 0.25)
    m.signs.ground_rust = draws.uniform(n, 0.0, 0.25)
    return m
