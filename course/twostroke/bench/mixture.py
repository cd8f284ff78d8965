"""Fuel from the tank to the cylinder, turn by turn: lean, right, rich, flooded.

A lumped balance with invented constants, all of them in :class:`Constants`. Amounts are counted in
*charges*: the fuel that one cylinder filling of air can burn. What matters is the order of things: stale
fuel gives less vapour, a choked intake draws more, what does not evaporate wets the crankcase and in the
end the plug.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from twostroke.bench.engine import Array, Machine, Mask


@dataclass(frozen=True)
class Constants:
    """Invented constants of the fuel balance (no published source)."""

    draw: float = 1.15
    choke_gain: float = 2.3
    vapour_cold: float = 0.36
    vapour_hot: float = 0.92
    half_way_kelvin: float = 318.0
    vapour_width: float = 14.0
    wall_share: float = 0.10
    puddle_vapour: float = 0.085
    puddle_loss: float = 0.03
    wet_from: float = 4.5
    wet_path: float = 45e3
    leak_reference: float = 1.0e-6
    reed_reference: float = 2.5e-6
    line_use: float = 0.012
    pump_fill: float = 0.02
    press_fill: float = 0.22
    lean_limit: float = 0.60
    rich_limit: float = 1.95


CONSTANTS = Constants()


@dataclass
class FuelState:
    """Where the fuel is now.

    Attributes
    ----------
    line : array
        How far line and carburettor are filled, 0 to 1.
    puddle : array
        Liquid fuel in crankcase and cylinder, charges.
    """

    line: Array
    puddle: Array

    def copy(self) -> FuelState:
        """A copy of its own."""
        return FuelState(self.line.copy(), self.puddle.copy())


def at_rest(machine: Machine, line: float = 0.0) -> FuelState:
    """State of a machine that has stood: line drained back, and what lies in it by its faults."""
    return FuelState(np.full(machine.n, line), machine.supply.flood.copy())


def vapour_share(machine: Machine, temperature: Array) -> Array:
    """Share of the fuel drawn that evaporates before the port closes; `temperature` in kelvin."""
    c = CONSTANTS
    warm = 1.0 / (1.0 + np.exp(-(temperature - c.half_way_kelvin) / c.vapour_width))
    at_20 = 1.0 / (1.0 + np.exp(-(293.15 - c.half_way_kelvin) / c.vapour_width))
    share = c.vapour_cold + (c.vapour_hot - c.vapour_cold) * (warm - at_20) / (1.0 - at_20)
    fuel = (0.12 + 0.88 * machine.supply.freshness) * np.clip(1.0 - 3.0 * machine.supply.water, 0.05, 1.0)
    return np.clip(share, 0.10, 1.0) * fuel


def press_primer(machine: Machine, state: FuelState, presses: int) -> Array:
    """Press the bulb; returns how full the line is afterwards."""
    s = machine.supply
    stroke = CONSTANTS.press_fill * s.tank * s.primer * s.vent_flow * (1.0 - s.line_air) * s.filter_flow
    state.line[:] = np.minimum(1.0, state.line + presses * stroke)
    return state.line


def choke_closing(machine: Machine, wanted: float) -> Array:
    """How far the choke really is when it is set to `wanted` (0 open, 1 closed)."""
    return np.maximum(np.minimum(wanted, machine.breath.choke_reach), machine.breath.choke_rest)


def draw(
    machine: Machine, state: FuelState, choke: Array, temperature: Array, turning: Mask | bool = True
) -> Array:
    """One cranking turn: fuel moves, and the mixture in the cylinder follows.

    Parameters
    ----------
    machine : Machine
    state : FuelState
        Changed in place.
    choke : array
        Real closing of the choke.
    temperature : array
        Of crankcase and carburettor, kelvin.
    turning : array of bool
        Where the crank turns at all.

    Returns
    -------
    array
        Equivalence ratio of vapour to air: 1 just burns all the air.
    """
    c, s = CONSTANTS, machine.supply
    suction = _suction(machine)
    metering = s.jets * s.screws * (0.35 + 0.65 * s.diaphragm) / np.maximum(s.pop_off, 0.3) ** 0.5
    air = machine.breath.filter_flow
    drawn = (
        c.draw
        * np.asarray(turning, dtype=float)
        * (1.0 + c.choke_gain * choke)
        * metering
        * suction
        * state.line
        * (1.0 - 0.8 * s.line_air)
    )
    drawn = drawn / np.maximum(air, 0.05) ** 0.45 + 0.05 * s.needle_leak
    share = vapour_share(machine, temperature)
    ratio = share * drawn + c.puddle_vapour * state.puddle * (0.3 + 0.7 * s.freshness)
    state.puddle[:] = state.puddle * (1.0 - c.puddle_loss * (1.0 - 0.7 * choke)) + c.wall_share * drawn * (
        1.0 - share
    )
    fill = (
        c.pump_fill
        * s.tank
        * s.pulse
        * s.filter_flow
        * s.vent_flow
        * (1.0 - s.line_air)
        * suction
        * (0.25 + 0.75 * choke)
    )
    fill = fill * (0.10 + 0.90 * state.line)
    state.line[:] = np.clip(state.line + fill - c.line_use * drawn, 0.0, 1.0)
    return ratio


def _suction(machine: Machine) -> Array:
    leak = machine.crankcase.seal_leak / CONSTANTS.leak_reference
    reed = machine.crankcase.reed_leak / CONSTANTS.reed_reference
    return 1.0 / (1.0 + 0.55 * leak + 0.6 * reed)


def wet_path(state: FuelState) -> Array:
    """Leakage of a plug wetted by liquid fuel, ohm: none while the puddle is small."""
    excess = np.maximum(state.puddle / CONSTANTS.wet_from - 1.0, 0.0)
    return np.where(excess > 0.0, CONSTANTS.wet_path / np.maximum(excess, 1e-3), 1e12)


def running_ratio(machine: Machine, temperature: Array) -> Array:
    """Equivalence ratio while the machine runs at working speed with the choke opened."""
    s, c = machine.supply, CONSTANTS
    flow = np.minimum.reduce([1.7 * s.filter_flow**2, 1.7 * s.vent_flow**2, 1.7 * s.pulse, 1.7 * s.tank])
    metering = s.jets * s.screws * (0.35 + 0.65 * s.diaphragm) / np.maximum(s.pop_off, 0.3) ** 0.2
    choke = choke_closing(machine, 0.0)
    wanted = 1.08 * metering * (1.0 + 1.6 * choke) / np.maximum(machine.breath.filter_flow, 0.05) ** 0.45
    got = np.minimum(wanted, 1.08 * flow * (1.0 + 0.9 * choke)) * (1.0 - 0.75 * s.line_air)
    air_leak = 1.0 + 0.30 * machine.crankcase.seal_leak / c.leak_reference
    return got / air_leak * (0.55 + 0.45 * s.freshness) + 0.12 * s.needle_leak
