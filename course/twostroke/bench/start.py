"""Starting: pull after pull, turn after turn, from cold carburettor to a running machine, or not.

The chance of one turn is that of :mod:`twostroke.starting`: invented, for order only.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from twostroke.bench import mixture, pull, sparks
from twostroke.bench.engine import Array, Machine, Mask
from twostroke.bench.mixture import FuelState
from twostroke.bench.seeds import Draws
from twostroke.cranking import TURNS
from twostroke.starting import INVENTED, chance

BEST_ANGLE = np.degrees(INVENTED.best_angle)
BURNT_GAS = 0.75
"""Share of burnt gas that stays in the cylinder behind a shut exhaust. Invented."""


@dataclass(frozen=True)
class Pulled:
    """What one pull gave.

    Attributes
    ----------
    fired : array
        Turns that fired, a machine.
    caught : array of bool
        It fired often enough to run on, if the mixture lets it.
    ratio : array
        Mixture at the last turn.
    """

    fired: Array
    caught: Mask
    ratio: Array


def one_pull(
    machine: Machine,
    out: sparks.Output,
    fuel: FuelState,
    engine: Array | float,
    choke: float,
    effort: str,
    draws: Draws,
    extra: Array | float = 0.0,
) -> Pulled:
    """One pull of the rope; the fuel state moves on.

    Parameters
    ----------
    machine : Machine
    out : sparks.Output
        Ignition at the machine's own plug.
    fuel : FuelState
        Changed in place.
    engine : float or array
        Temperature of the engine, °C.
    choke : float
        As set by hand: 0 open, 1 closed.
    effort : str
        ``weak``, ``normal`` or ``fast``.
    draws : Draws
    extra : array or float
        Fuel vapour put into the intake by hand, charges a turn.
    """
    n = machine.n
    luck = pull.luck_of(n, draws)
    rope = pull.rope(machine, effort)
    angle = out.at(np.full(n, machine.model.pull_speed))[2]
    rpm, pressures, warmths = rope.at(angle, luck)
    peaks = rope.peak(luck)
    kelvin = np.broadcast_to(np.asarray(engine, dtype=float) + 273.15, (n,))
    closing = mixture.choke_closing(machine, choke)
    bridged = machine.plug.bridged > 0.5
    fired = np.zeros(n)
    ratio = np.zeros(n)
    burnt = BURNT_GAS * (1.0 - machine.breath.screen_flow)
    for turn in range(TURNS):
        turning = rpm[:, turn] > 0
        given = mixture.draw(machine, fuel, closing, kelvin, turning)
        ratio = given + np.asarray(extra) * mixture.CONSTANTS.vapour_cold
        volts, joules, btdc = out.at(rpm[:, turn], draws.normal(n))
        hot = warmths[:, turn] * kelvin / pull.AIR_KELVIN
        demand = np.where(bridged, 1e9, sparks.plug_demand(machine, pressures[:, turn], hot))
        odds = chance(volts, demand, joules, ratio, peaks[:, turn], np.radians(btdc), burnt)
        fires = turning & (draws.uniform(n) < odds)
        fired += fires
        fuel.puddle[:] = np.where(fires, fuel.puddle * 0.8, fuel.puddle)
    return Pulled(fired, fired >= 1, ratio)


@dataclass(frozen=True)
class Started:
    """How an attempt to start went.

    Attributes
    ----------
    pulls : array
        Pulls until it caught, or all that were allowed.
    fired : array of bool
        It fired at least once.
    runs : array of bool
        It ran on with the choke opened.
    """

    pulls: Array
    fired: Mask
    runs: Mask


def attempt(
    machine: Machine,
    out: sparks.Output,
    fuel: FuelState,
    engine: Array | float,
    draws: Draws,
    pulls: int = 4,
    effort: str = "normal",
    choke: float | None = None,
    presses: int = 8,
) -> Started:
    """Start by the usual drill: press the bulb, choke closed when cold, pull; when it fires, choke open.

    Parameters
    ----------
    pulls : int
        Most pulls.
    choke : float, optional
        How the choke is set; by the drill (closed cold, open hot) when left out.
    presses : int
        Presses of the primer bulb first.
    """
    n = machine.n
    warm = float(np.mean(np.asarray(engine, dtype=float)))
    setting = (1.0 if warm < 45.0 else 0.0) if choke is None else choke
    if machine.model.primer_bulb and presses:
        mixture.press_primer(machine, fuel, presses)
    runs = np.zeros(n, dtype=bool)
    fired = np.zeros(n, dtype=bool)
    count = np.full(n, float(pulls))
    able = can_run(machine, out, engine)
    for number in range(pulls):
        here = FuelState(fuel.line.copy(), fuel.puddle.copy())
        got = one_pull(machine, out, here, engine, setting, effort, draws)
        going = ~runs
        fuel.line[:] = np.where(going, here.line, fuel.line)
        fuel.puddle[:] = np.where(going, here.puddle, fuel.puddle)
        fired |= going & (got.fired > 0)
        now = going & (got.fired > 0) & able & (fuel.puddle < 3.0 * mixture.CONSTANTS.wet_from)
        count = np.where(now, number + 1.0, count)
        runs |= now
        if runs.all():
            break
    fuel.puddle[:] = np.where(runs, 0.0, fuel.puddle)
    return Started(count, fired, runs)


@dataclass(frozen=True)
class Proof:
    """How a verify run went.

    Attributes
    ----------
    first, again : Started
        The start, and the start after stopping.
    strength : array
        Share of a sound machine's strength, as a person judges it.
    passed : array of bool
    """

    first: Started
    again: Started
    strength: Array
    passed: Mask


def prove(
    machine: Machine,
    fuel: FuelState,
    module: float,
    engine: float,
    draws: Draws,
    stop_lead_on: bool = True,
) -> Proof:
    """Start by the drill, open up, stop, start again.

    Parameters
    ----------
    machine : Machine
    fuel : FuelState
        Changed in place.
    module, engine : float
        Temperatures, °C.
    draws : Draws
    stop_lead_on : bool
    """
    if not machine.model.primer_bulb:
        s = machine.supply
        drawn_in = s.tank * s.filter_flow * s.vent_flow * (1.0 - s.line_air) * s.pulse
        fuel.line[:] = np.maximum(fuel.line, FED_BY_HEIGHT * drawn_in)
    out = sparks.output(machine, module, "plug", fuel, stop_lead_on)
    first = attempt(machine, out, fuel, engine, draws, pulls=VERIFY_PULLS)
    fuel.line[:] = np.where(first.runs, np.maximum(fuel.line, 0.8), fuel.line)
    if first.runs.any():
        out = sparks.output(machine, module, "plug", fuel, stop_lead_on)
        again = attempt(machine, out, fuel, engine, draws, pulls=VERIFY_PULLS)
    else:
        again = first
    judged = strength(machine, out, max(engine, 60.0)) + draws.normal(machine.n, 0.0, 0.03)
    return Proof(first, again, judged, first.runs & again.runs & (judged >= FULL_STRENGTH))


VERIFY_PULLS = 2
"""Pulls within which a sound machine starts, fuel drawn in and choke set; common practice, no source."""

FED_BY_HEIGHT = 0.8
"""How full the line of a machine without a primer bulb stands, fed by height; invented."""

FULL_STRENGTH = 0.8
"""Share of a sound machine's strength below which an owner complains; invented."""


def drawn_cold(machine: Machine, fuel: FuelState, engine: Array | float) -> Array:
    """Mixture that the carburettor itself would give on the next turn, choke open."""
    here = FuelState(
        np.maximum(fuel.line, 0.6 * machine.supply.tank * machine.supply.primer), fuel.puddle.copy()
    )
    kelvin = np.broadcast_to(np.asarray(engine, dtype=float) + 273.15, (machine.n,))
    return mixture.draw(machine, here, mixture.choke_closing(machine, 0.0), kelvin)


def can_run(machine: Machine, out: sparks.Output, engine: Array | float) -> Mask:
    """Whether the machine keeps running once it has fired: spark, fuel for more than a cough, gas out."""
    kelvin = np.broadcast_to(np.asarray(engine, dtype=float) + 273.15, (machine.n,))
    ratio = mixture.running_ratio(machine, kelvin)
    c = mixture.CONSTANTS
    volts, _, btdc = out.at(np.full(machine.n, 1800.0))
    spark = volts > 0.8 * sparks.plug_demand(machine, 5.0e5, 450.0)
    fuel = (ratio > c.lean_limit) & (ratio < c.rich_limit)
    gas = machine.breath.screen_flow > 0.25
    squeeze = pull.compression_share(machine) > 0.35
    free = machine.cylinder.seized < 0.5
    return spark & fuel & gas & squeeze & free & (np.abs(btdc - BEST_ANGLE) < 25.0)


def strength(machine: Machine, out: sparks.Output, engine: Array | float) -> Array:
    """Pull of the running machine under load, as a share of a sound one's."""
    n = machine.n
    kelvin = np.broadcast_to(np.asarray(engine, dtype=float) + 273.15, (n,))
    ratio = np.maximum(mixture.running_ratio(machine, kelvin), 1e-3)
    fuel = np.exp(-((np.log(ratio / 1.05) / 0.50) ** 4))
    volts, _, btdc = out.at(np.full(n, 1800.0))
    spark = np.clip(volts / sparks.plug_demand(machine, 8.0e5, 480.0) / 1.15, 0.0, 1.0)
    breath = np.minimum(machine.breath.filter_flow / 0.8, 1.0) * np.minimum(
        machine.breath.screen_flow / 0.8, 1.0
    )
    squeeze = np.clip((pull.compression_share(machine) - 0.25) / 0.6, 0.0, 1.0)
    timing = np.exp(-(((btdc - BEST_ANGLE - 2.0) / 22.0) ** 2))
    cool = np.clip(machine.breath.fins_flow / 0.6, 0.0, 1.0) ** np.where(kelvin > 340.0, 1.0, 0.0)
    oil = np.where(machine.supply.oil_share < 0.01, 0.5, np.where(machine.supply.oil_share > 0.05, 0.7, 1.0))
    reed = 1.0 / (1.0 + machine.crankcase.reed_leak / 1.5e-5 * 3.0 + machine.crankcase.seal_leak / 2.5e-6)
    drag = 1.0 - 0.6 * np.clip(machine.cylinder.rub, 0.0, 1.0)
    return fuel * spark * breath * squeeze * timing * cool * oil * reed * drag
