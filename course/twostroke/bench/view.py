"""What one action has before it: machines, warmth, fuel, kit, and the luck of this reading."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from twostroke.bench import pull, sparks
from twostroke.bench.engine import Array, Machine
from twostroke.bench.mixture import FuelState
from twostroke.bench.seeds import Draws


@dataclass
class View:
    """`n` machines as one action meets them.

    Attributes
    ----------
    machine : Machine
    module, engine : array
        Temperatures, °C.
    fuel : FuelState
    draws : Draws
        Luck of this reading.
    lasting : Draws
        Errors that stay: the instrument's own, and the person's.
    owner : Draws
        What the owner remembers.
    bands : dict
        Maker's bands, quantity to (low, high) in the table's unit.
    wetness, colour : array
        Liquid fuel left by the owner's pulls, and how burnt the plug looks.
    stop_lead_on : bool
    ambient, atmosphere : float
        °C and pascal.
    gap_mm : float
        Spacing of the adjustable tester.
    effort : str
        ``weak``, ``normal`` or ``fast`` pull.
    plug_out : bool
        Whether the plug is out, so that nothing is compressed.
    nulled : bool
        Whether the meter's leads were shorted first and taken off.
    """

    machine: Machine
    module: Array
    engine: Array
    fuel: FuelState
    draws: Draws
    lasting: Draws
    owner: Draws
    bands: dict[str, tuple[float, float]]
    wetness: Array
    colour: Array
    stop_lead_on: bool = True
    ambient: float = 20.0
    atmosphere: float = pull.AIR_PRESSURE
    gap_mm: float = 6.0
    nulled: bool = True
    effort: str = "normal"
    plug_out: bool = False
    _outputs: dict[tuple[str, bool], sparks.Output] = field(default_factory=dict)

    @property
    def n(self) -> int:
        """Number of machines."""
        return self.machine.n

    @cached_property
    def normal_speed(self) -> Array:
        """Speed of a normal pull on these machines, rpm."""
        return np.full(self.n, self.machine.model.pull_speed)

    @cached_property
    def pull_luck(self) -> Array:
        """How hard this person pulls, against the usual."""
        return self.lasting.lognormal(self.n, 0.07)

    @cached_property
    def contact(self) -> Array:
        """How well clip and tester touch: 1 mostly, less where a clip sits on paint, 0 where it fell off."""
        luck = self.lasting.uniform(self.n)
        return np.where(luck < 0.008, 0.0, np.where(luck < 0.05, 0.65 + 7.0 * luck, 1.0))

    @cached_property
    def kit(self) -> Array:
        """Lasting error of the instrument in use, as a share of its limit."""
        return self.lasting.uniform(self.n, -1.0, 1.0)

    @cached_property
    def compression_share(self) -> Array:
        """Compression of these machines as a share of a sound one's."""
        return pull.compression_share(self.machine)

    def volts(self, end: sparks.End, stop_lead_on: bool | None = None) -> sparks.Output:
        """Output of the ignition at the end of the lead, computed once."""
        on = self.stop_lead_on if stop_lead_on is None else stop_lead_on
        key = (end, on)
        if key not in self._outputs:
            self._outputs[key] = sparks.output(self.machine, self.module, end, self.fuel, on)
        return self._outputs[key]

    def speeds(self, effort: str | None = None) -> Array:
        """Speeds (rpm) at the spark of the turns of one pull, (machines, turns); 0 where nothing turns."""
        rope = pull.rope(
            self.machine, effort or self.effort, self.plug_out, self.atmosphere, self.ambient + 273.15
        )
        return rope.at(self.machine.model.ignition_advance, pull.luck_of(self.n, self.draws))[0]
