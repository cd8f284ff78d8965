"""The whole ignition system as numbers: the door by which the virtual engine asks for sparks.

:class:`Ignition` describes one module, magnet, lead and plug, or a batch of them, in SI floats; each field
may be a number or an array of one value an engine. A fault is a changed field and nothing else, so two
faults compose:

air gap wide, unequal legs, run-out
    ``gap_1``, ``gap_2`` (m); ``run_out`` (m, total indicator reading), ``run_out_angle`` (rad, from the high
    spot to the magnet's middle)
weak or hot magnet, hot winding
    ``magnet_factor`` (1 = new), ``magnet_temperature``, ``winding_temperature`` (K)
shorted turns
    ``shorted_fraction`` of the secondary turns or ``shorted_primary_fraction``, with ``short_resistance``
    (ohm, of the bridge that shorts them)
open winding
    ``primary_break``, ``secondary_break`` (ohm in series)
dead, weak or failing module
    ``switch_on`` (V; ``inf`` = never switches), ``trip_current`` (A)
module on back to front
    ``reversed_module`` (bool): the same order of kV, but the spark comes some 30 degrees late
sheared key
    ``key_offset`` (rad, positive = spark late)
stop lead or stop switch to ground
    ``stop_path`` (ohm, ``inf`` = open)
ground of module or engine bad
    ``ground_resistance`` (ohm, in the return of the primary and of the secondary)
lead broken, boot loose
    ``series_gap`` (V at which the gap in the lead jumps), ``lead_resistance`` (ohm)
plug fouled, insulation leaking, longer or shielded lead
    ``plug_shunt`` (ohm), ``flashover`` (V at which it jumps to metal beside the plug), ``plug_capacitance``

Three functions answer for any batch, any speeds, at once:

:func:`available`
    peak voltage at the plug if the plug did not fire, energy, primary current, crank angle of the spark.
:func:`minimum_speed`
    lowest speed that reaches a demand, ``inf`` when none below 3000 rpm does.
:func:`winding_ohms`
    what an ohmmeter finds on the two windings.
``spark``
    in ``burn``: does it fire against a demand, and how long and with what energy does it burn.

Speeds are in rpm and say so in their name (``rpm``). Everything else is SI. Quantities with units are the
business of ``magneto`` and ``coil``.

Examples
--------
>>> from twostroke.ignition import Ignition, available, minimum_speed
>>> healthy = Ignition()
>>> healthy.changed(gap_1=1e-3, gap_2=1e-3).gap_2
0.001
>>> batch = Ignition.stack([healthy, healthy.changed(plug_shunt=200e3)])
>>> available(batch, [400, 800]).voltage.shape
(2, 2)
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from twostroke import _build_up, _network
from twostroke._opening import Opening, Outcome
from twostroke._system import CORE_FIELDS, Ignition, check, check_columns, effective, winding_ohms
from twostroke._transient import Array, Circuit
from twostroke.errors import RangeError

__all__ = ["Ignition", "Output", "available", "check", "minimum_speed", "transient", "winding_ohms"]

HIGHEST_RPM = 3000.0
LOWEST_RPM = 60.0
REVERSED_PEAK = 0.7  # pitches past the aligned position: there a reversed module has had its steep rise
BLOCK = 384  # engines times speeds worked through together, so that the chains stay in the processor's cache


@dataclass(frozen=True)
class Output:
    """What a system gives; each array is (engines, speeds).

    Attributes
    ----------
    voltage : peak voltage at the plug with the plug not firing (V); limited by ``flashover``
    energy : energy of the primary at opening (J)
    current : primary current at opening (A)
    time : from opening to the peak (s)
    spark_btdc : crank angle of the opening before top dead centre (rad)
    conducts : whether the module switched at all
    """

    voltage: Array
    energy: Array
    current: Array
    time: Array
    spark_btdc: Array
    conducts: Array


def _grid(rpm: Any, engines: int) -> Array:
    speeds = np.asarray(rpm, float)
    if not np.all(np.isfinite(speeds)) or np.any(speeds <= 0):
        raise RangeError("speed must be above zero rpm; give the speed of the pull")
    if speeds.ndim < 2:
        speeds = np.atleast_1d(speeds)[None, :]
    return np.broadcast_to(speeds, (engines, speeds.shape[1]))


def _take(e: dict[str, Array], rows: Any) -> dict[str, Array]:
    return {name: values[rows] for name, values in e.items()}


def _build(
    e: dict[str, Array], speeds: Array, record: bool = False
) -> tuple[_build_up.Opened, dict[str, Array]]:
    """Primary current of ``e`` (one row an engine) at ``speeds`` (engines, speeds), flattened to one axis."""
    per = speeds.shape[1]
    x = _build_up.positions(e["pitch"], 0.5 * (e["shoe_width"] + e["leg_width"]), e["reversed_module"])
    core = {n: e[n] for n in CORE_FIELDS}
    flux, permeance = _network.solve(core, x, e["gap_1"], e["gap_2"])
    flux = flux * np.where(e["reversed_module"] > 0, -1.0, 1.0)
    permeance = permeance * e["inductance_factor"]
    if per > 1:
        x, flux, permeance = (np.repeat(v, per, axis=1) for v in (x, flux, permeance))
        e = {name: np.repeat(values, per) for name, values in e.items()}
    speed = speeds.ravel() * (2 * np.pi / 60) * e["flywheel_radius"]
    shorted = e["n3"] > 0
    windings = _build_up.Windings(
        e["n1"], e["n3"], e["r1"], e["r3"], e["k13"], e["n1"] ** 2, np.where(shorted, e["n3"], 1.0) ** 2
    )
    opened = _build_up.build_up(
        windings,
        x,
        flux,
        permeance,
        speed,
        e["stop_path"],
        e["switch_drop"],
        e["switch_on"],
        e["trip_current"],
        record,
    )
    return opened, e


def _circuit(e: dict[str, Array], permeance: Array) -> Circuit:
    l1 = e["n1"] ** 2 * permeance
    return Circuit.of(
        len(permeance),
        l1=l1, l2=e["n2"] ** 2 * permeance * e["secondary_inductance_factor"], k=e["coupling"],
        r1=e["r1"], r2=e["r2"], c1=e["primary_capacitance"], c2a=e["winding_capacitance"],
        c2b=e["plug_capacitance"], r_loss=e["loss_resistance"], r_lead=e["lead_resistance"], clamp=e["clamp"],
        r_stop=np.maximum(e["stop_path"], 1e-3), r_shunt=e["plug_shunt"],
        l3=np.where(e["n3"] > 0, e["n3"] ** 2 * permeance, 1.0), r3=e["r3"], k13=e["k13"], k23=e["k23"],
        gap_breakdown=e["series_gap"],
    )  # fmt: skip


def transient(
    system: Ignition, rpm: Any, record: bool = False, **burning: Any
) -> tuple[_build_up.Opened, dict[str, Array], Outcome]:
    """Build-up, opening and burn of every engine at every speed: what ``burn`` reads from.

    Parameters
    ----------
    system, rpm
        As for :func:`available`.
    record : bool
        Keep the primary current and the waveform of the first engine and speed.
    **burning
        ``demand``, ``burn_voltage``, ``extinction_current``, ``horizon``, ``doublings`` of
        ``_opening.Opening``, one value for each engine and speed.

    Returns
    -------
    tuple
        State at opening, the fields as they act (both flattened over engines and speeds), and the outcome.

    Examples
    --------
    >>> opened, _, outcome = transient(Ignition(), [800.0])
    >>> bool(opened.i1[0] > 3), bool(outcome.peak[0] > 10e3)
    (True, True)
    """
    e = effective(system.columns())
    opened, flat = _build(e, _grid(rpm, len(system)), record)
    currents = np.stack([opened.i1, np.zeros_like(opened.i1), opened.i3], axis=-1)
    emf = np.stack([flat["n1"], flat["n2"], flat["n3"]], axis=-1) * opened.flux_rate[:, None]
    # The driving emf dies away towards the flux peak: aligned, or past its steep rise for a reversed module.
    peak = np.where(flat["reversed_module"] > 0, REVERSED_PEAK, 0.0) * flat["pitch"]
    way = np.where(peak > opened.position, peak - opened.position, 0.35 * flat["pitch"])
    speed = _grid(rpm, len(system)).ravel() * (2 * np.pi / 60) * flat["flywheel_radius"]
    swing = 0.5 * np.pi * speed / np.maximum(way, 0.05 * flat["pitch"])
    run = Opening(_circuit(flat, opened.permeance), currents, emf, swing=swing, **burning)
    return opened, flat, run.run(record)


def available(system: Ignition, rpm: Any) -> Output:
    """Peak voltage at a plug that does not fire, and what goes with it.

    Parameters
    ----------
    system : Ignition
        One system or a batch.
    rpm : float or array
        One speed, speeds for every engine (s,), or a row of speeds for each engine (engines, s).

    Returns
    -------
    Output
        Arrays of shape (engines, speeds).

    Examples
    --------
    >>> out = available(Ignition(), [400, 800])
    >>> bool(out.voltage[0, 1] > out.voltage[0, 0])
    True
    """
    columns = system.columns()
    e = effective(columns)
    check_columns(columns, e)
    count = len(e["gap_1"])
    speeds = _grid(rpm, count)
    parts = []
    if count == 1:
        for start in range(0, speeds.shape[1], BLOCK):
            parts.append(_available(e, speeds[:, start : start + BLOCK]))
        return Output(*(np.concatenate(v, axis=1) for v in zip(*parts, strict=True)))
    rows = max(1, BLOCK // speeds.shape[1])
    for start in range(0, count, rows):
        pick = slice(start, start + rows)
        parts.append(_available(_take(e, pick), speeds[pick]))
    return Output(*(np.concatenate(v, axis=0) for v in zip(*parts, strict=True)))


def _available(e: dict[str, Array], speeds: Array) -> tuple[Array, ...]:
    opened, flat = _build(e, speeds)
    peak, time = np.zeros(speeds.size), np.zeros(speeds.size)
    live = np.flatnonzero(opened.conducts)
    if len(live):
        circuit = _circuit(_take(flat, live), opened.permeance[live])
        currents = np.stack([opened.i1, np.zeros_like(opened.i1), opened.i3], axis=-1)[live]
        turns = np.stack([flat["n1"], flat["n2"], flat["n3"]], axis=-1)[live]
        outcome = Opening(circuit, currents, turns * opened.flux_rate[live, None]).run()
        peak[live], time[live] = outcome.peak, outcome.time
    energy = 0.5 * flat["n1"] ** 2 * opened.permeance * opened.i1**2
    angle = flat["aligned_btdc"] - opened.position / flat["flywheel_radius"] - flat["key_offset"]
    shape = speeds.shape
    voltage = np.minimum(peak, flat["flashover"])
    return tuple(v.reshape(shape) for v in (voltage, energy, opened.i1, time, angle, opened.conducts))


def minimum_speed(system: Ignition, demand: Any, highest: float = HIGHEST_RPM) -> Array:
    """Lowest speed (rpm) at which the voltage at the plug reaches ``demand`` (V); ``inf`` when none does.

    Searched from 60 rpm up to ``highest`` on a grid, then refined inside the first interval that reaches it.

    Parameters
    ----------
    system : Ignition
        One system or a batch.
    demand : float or array
        Volts that the plug needs, one value or one an engine.
    highest : float
        End of the search (rpm).

    Returns
    -------
    array
        One value an engine.

    Examples
    --------
    >>> low, high = minimum_speed(Ignition(), 6e3)[0], minimum_speed(Ignition(), 10e3)[0]
    >>> bool(low < high < 1000)
    True
    """
    count = len(system)
    demand = np.broadcast_to(np.asarray(demand, float), (count,))
    if np.any(~(demand > 0)):
        raise RangeError("demand must be above 0 V; give the voltage that the plug needs")
    grid = np.geomspace(LOWEST_RPM, highest, 18)
    volts = available(system, grid).voltage
    reached = volts >= demand[:, None]
    first = reached.argmax(axis=1)
    found = reached.any(axis=1)
    rows = np.arange(count)
    answer = np.where(found, grid[first], np.inf)
    todo = np.flatnonzero(found & (first > 0))
    if not len(todo):
        return answer
    columns = system.columns()
    part = Ignition(**{name: values[todo] for name, values in columns.items()})
    low, high = np.log(grid[first - 1][todo]), np.log(grid[first][todo])
    v_low, v_high = volts[rows, first - 1][todo] - demand[todo], volts[rows, first][todo] - demand[todo]
    for turn in range(5):
        slope = np.clip(-v_low / (v_high - v_low), 0.03, 0.97)
        middle = low + (high - low) * (
            slope if turn % 2 == 0 else np.where(slope < 0.5, 1.6 * slope, 1.6 * slope - 0.6)
        )
        value = available(part, np.exp(middle)[:, None]).voltage[:, 0] - demand[todo]
        up = value >= 0
        high, v_high = np.where(up, middle, high), np.where(up, value, v_high)
        low, v_low = np.where(up, low, middle), np.where(up, v_low, value)
    answer[todo] = np.exp(low + (high - low) * -v_low / (v_high - v_low))
    return answer
