"""Everything that changes while a job is done: what is open, how warm, where the fuel is, what is wrong."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from twostroke.bench.engine import Array, Figures, Machine, healthy
from twostroke.bench.faults import Present, apply
from twostroke.bench.heat import Heat
from twostroke.bench.mixture import FuelState
from twostroke.bench.models import Model
from twostroke.bench.seeds import Draws
from twostroke.table import Table


@dataclass
class Situation:
    """State of one machine on the bench.

    Attributes
    ----------
    model, figures, seed
        Which machine, and the words that name its stream of chance.
    faults : list of Present
        What is wrong now.
    settings : dict
        Numbers set by hand (``part.field`` to value), such as an air gap set with a shim.
    opened : list of str
        Covers that are off.
    moved : int
        How often wires have been moved.
    running : float
        Minutes run since the tank cap was last opened.
    atmosphere : float
        Pressure of the air around, pascal.
    wetness, colour : array
        What is to be seen at the plug.
    stop_lead_on : bool
    epoch : int
        Counts what changes the machine: a test repeated in the same epoch mostly repeats itself.
    on_trial : list of (str, float)
        Repairs whose part goes back in the drawer if it cured nothing, with the part's price.
    """

    model: Model
    figures: Figures
    seed: tuple[object, ...]
    faults: list[Present]
    heat: Heat
    fuel: FuelState
    complaint: str = "no_start"
    atmosphere: float = 101_325.0
    wetness: Array = field(default_factory=lambda: np.zeros(1))
    colour: Array = field(default_factory=lambda: np.ones(1))
    settings: dict[str, float] = field(default_factory=dict)
    opened: list[str] = field(default_factory=list)
    moved: int = 0
    running: float = 0.0
    stop_lead_on: bool = True
    fired_lately: bool = False
    epoch: int = 0
    on_trial: list[tuple[str, float]] = field(default_factory=list)
    passed: set[str] = field(default_factory=set)
    _sound: Machine | None = None

    def machine(self, table: Table, moving: bool = False, hot_module: float | None = None) -> Machine:
        """The machine as it is now: sound parts, faults that are there, settings made by hand.

        Parameters
        ----------
        table : Table
            For when an intermittent fault acts.
        moving : bool
            Wires are being moved.
        hot_module : float, optional
            Module temperature to use in place of the present one, °C.
        """
        if self._sound is None:
            self._sound = healthy(self.model, 1, Draws(*self.seed, "machine"), self.figures)
        machine = self._sound.copy()
        module = self.heat.module if hot_module is None else hot_module
        for fault in self.faults:
            acting = fault.acts(table, module, self.heat.engine, self.running, moving, self.moved)
            apply(machine, fault.name, fault.severity, float(acting), fault.kind)
        for name, value in self.settings.items():
            machine.set(name, value)
        return machine

    def has(self, name: str) -> Present | None:
        """The fault of that name, if it is there."""
        return next((fault for fault in self.faults if fault.name == name), None)
