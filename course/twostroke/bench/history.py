"""What the owner's own pulls left behind before the machine came to the bench."""

from __future__ import annotations

import numpy as np

from twostroke.bench import mixture, start
from twostroke.bench.engine import Array, Machine
from twostroke.bench.seeds import Draws
from twostroke.bench.sparks import output


def history(machine: Machine, draws: Draws, module: float = 20.0) -> tuple[Array, Array, mixture.FuelState]:
    """Wetness and colour of the plug after the owner's pulls, and where the fuel is now.

    Parameters
    ----------
    machine : Machine
    draws : Draws
    module : float
        Temperature, °C.

    Returns
    -------
    wetness : array
        Liquid fuel that the pulls left in the cylinder, charges; none where it ran.
    colour : array
        1 where the plug looks burnt, 0 clean.
    fuel : FuelState
    """
    fuel = mixture.at_rest(machine, line_at_rest(machine))
    out = output(machine, module, "plug", fuel)
    tried = start.attempt(machine, out, fuel, 20.0, draws, pulls=6, presses=4)
    wetness = np.where(tried.runs, 0.0, fuel.puddle)
    ratio = mixture.running_ratio(machine, np.full(machine.n, 330.0))
    primed = 0.3 + 0.7 * machine.supply.primer
    colour = np.clip((ratio - 0.5) / 0.4, 0.0, 1.0) * primed * draws.uniform(machine.n, 0.35, 1.0)
    fuel.puddle[:] = np.maximum(0.5 * fuel.puddle, machine.supply.flood)
    fuel.line[:] = line_at_rest(machine)
    return wetness, colour, fuel


def line_at_rest(machine: Machine) -> float:
    """How full the line is after standing: drained back below a primer bulb, fed by height without one."""
    return 0.0 if machine.model.primer_bulb else start.FED_BY_HEIGHT
