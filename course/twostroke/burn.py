"""The spark itself: does the plug break down, what does the burn look like, how long and with what energy.

After breakdown the capacitance of plug and lead empties into the gap at once; then the coil's stored energy
feeds a glow discharge at a nearly constant voltage until the current is too small; what is left rings away.
The voltage of the burn is the cathode fall plus a positive column that grows with the gap and the air's
density: handbook figures from memory, good to some 30 %. The shape of the trace is what a technician reads;
its volts are for order only.

SI floats and arrays, as ``ignition``; :func:`waveform` serves pictures and the storage trace of the bench.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from twostroke._opening import BURNING, CLAMPED
from twostroke._transient import PLUG, PRIMARY, SECONDARY, SWITCH, WINDING_END, Array
from twostroke.errors import RangeError
from twostroke.ignition import BLOCK, Ignition, check, transient
from twostroke.sources import constant

__all__ = ["Spark", "Waveform", "burn_voltage", "spark", "waveform"]

CATHODE_FALL = constant(
    "cathode fall of a glow discharge in air", 280.0, "V", "glow", "iron or nickel cathode"
)
COLUMN = constant(
    "positive column of a glow discharge in air", 100.0, "V/mm", "glow", "1 bar at 20 degC, some tens of mA"
)
EXTINCTION = constant(
    "current below which the spark goes out",
    3.0,
    "mA",
    "demo",
    "order of magnitude of the smallest glow at 1 bar",
)


def burn_voltage(gap: Any, pressure: Any, kelvin: Any) -> Array:
    """Voltage across a burning gap.

    Parameters
    ----------
    gap : float or array
        Distance between the electrodes (m).
    pressure : float or array
        Absolute pressure of the air in it (Pa).
    kelvin : float or array
        Its temperature (K).

    Returns
    -------
    array
        Volts.

    Examples
    --------
    >>> open_air, at_spark = burn_voltage(0.6e-3, 101325.0, 293.15), burn_voltage(0.6e-3, 6.4e5, 425.0)
    >>> print(f"{open_air:.0f} V, {at_spark:.0f} V")
    340 V, 406 V
    """
    density = np.asarray(pressure) / 1e5 * 293.15 / np.asarray(kelvin)
    return float(CATHODE_FALL) + float(COLUMN) * 1e3 * np.asarray(gap) * np.sqrt(density)


@dataclass(frozen=True)
class Spark:
    """What came of one opening; each array is (engines, speeds).

    Attributes
    ----------
    fires : bool
        The plug broke down.
    duration : s
        Length of the burn, 0 where it did not fire.
    energy : J
        Given to the gap, breakdown and burn together.
    peak : V
        Highest voltage at the plug: the demand where it fired, else what was available.
    """

    fires: Array
    duration: Array
    energy: Array
    peak: Array


def _burning(demand: Any, volts: Any, engines: int, speeds: int) -> tuple[Array, Array]:
    shaped = []
    for value in (demand, volts):
        value = np.asarray(value, float)
        value = value[:, None] if value.ndim == 1 else value
        shaped.append(np.broadcast_to(value, (engines, speeds)))
    if np.any(~(shaped[0] > 0)) or np.any(~(shaped[1] > 0)):
        raise RangeError("demand and burn voltage must be above 0 V; give what the gap needs")
    return shaped[0], shaped[1]


def spark(system: Ignition, rpm: Any, demand: Any, volts: Any = 400.0) -> Spark:
    """Whether the plug fires, and the length and energy of its burn.

    Parameters
    ----------
    system : Ignition
        One system or a batch.
    rpm : float or array
        One speed, speeds for every engine (s,), or a row of speeds for each engine (engines, s).
    demand : float or array
        Voltage that the plug needs (V): one value, one an engine, or (engines, s). In a cylinder good to 30
        %.
    volts : float or array
        Voltage while burning (V), as :func:`burn_voltage` gives it.

    Returns
    -------
    Spark
        Arrays of shape (engines, speeds).

    Examples
    --------
    >>> seen = spark(Ignition(), [300, 800], 8e3)
    >>> seen.fires.tolist()
    [[False, True]]
    >>> print(f"{seen.duration[0, 1] * 1e3:.1f} ms")
    1.2 ms
    """
    check(system)
    engines = len(system)
    speeds = np.asarray(rpm, float)
    speeds = np.atleast_1d(speeds)[None, :] if speeds.ndim < 2 else speeds
    speeds = np.broadcast_to(speeds, (engines, speeds.shape[1]))
    need, lit = _burning(demand, volts, *speeds.shape)
    columns = system.columns()
    beside = columns["flashover"][:, None] < need
    parts = []
    rows = max(1, BLOCK // speeds.shape[1])
    for start in range(0, engines, rows):
        pick = slice(start, start + rows)
        part = Ignition(**{name: values[pick] for name, values in columns.items()})
        _, _, out = transient(
            part, speeds[pick], demand=np.where(beside, np.inf, need)[pick].ravel(),
            burn_voltage=lit[pick].ravel(), extinction_current=float(EXTINCTION) * 1e-3,
        )  # fmt: skip
        energy = np.where(out.broke_down, out.burn_energy + out.capacitive_energy, 0.0)
        shape = speeds[pick].shape
        parts.append([v.reshape(shape) for v in (out.broke_down, out.burn_time, energy, out.peak)])
    fires, duration, energy, peak = (np.concatenate(values) for values in zip(*parts, strict=True))
    return Spark(fires, duration, energy, np.minimum(peak, columns["flashover"][:, None]))


@dataclass(frozen=True)
class Waveform:
    """One opening as traces over time.

    Attributes
    ----------
    dwell_time, dwell_current : array
        Before opening (s, up to 0) and primary current (A).
    time : array
        After opening (s).
    primary_voltage, winding_voltage, plug_voltage : array
        V, positive as the module drives.
    primary_current, secondary_current, gap_current : array
        A.
    breakdown, burn_end : float
        When the plug fired and when it went out (s); nan where it did not fire.
    clamped, alight : bool array
        The switch's clamp holds the primary; the plug burns.
    """

    dwell_time: Array
    dwell_current: Array
    time: Array
    primary_voltage: Array
    winding_voltage: Array
    plug_voltage: Array
    primary_current: Array
    secondary_current: Array
    gap_current: Array
    breakdown: float
    burn_end: float
    clamped: NDArray[np.bool_]
    alight: NDArray[np.bool_]

    def sampled(self, times: Array, which: str = "plug_voltage") -> Array:
        """A trace at given times, as an instrument that samples sees it (0 before opening)."""
        return np.interp(times, self.time, getattr(self, which), left=0.0)


def waveform(
    system: Ignition,
    rpm: float,
    demand: float = np.inf,
    volts: float = 400.0,
    horizon: float = 2.5e-3,
    doublings: int = 6,
) -> Waveform:
    """Traces of one opening of one system, through breakdown, burn and ringing.

    Parameters
    ----------
    system : Ignition
        One system.
    rpm : float
        Speed of the flywheel.
    demand : float
        Voltage at which the plug breaks down (V); ``inf`` leaves it unfired.
    volts : float
        Voltage while burning (V).
    horizon : float
        Length of the trace after opening (s), at most 20 ms.
    doublings : int
        How many steps are worked out in one go, as a power of two: the points are the same, and 9 is twice
        as quick as 6 for a whole trace.

    Returns
    -------
    Waveform
        With a flashover below the demand the breakdown is beside the plug: use ``demand=flashover``.

    Raises
    ------
    RangeError
        More than one system, a module that never switches at this speed, or a horizon outside its limits.

    Examples
    --------
    >>> trace = waveform(Ignition(), 800.0, demand=8e3)
    >>> print(f"fires {trace.breakdown * 1e6:.0f} us after opening")
    fires 10 us after opening
    """
    check(system)
    if len(system) != 1:
        raise RangeError(f"{len(system)} systems: a waveform is of one; pick one")
    if not 0 < horizon <= 20e-3:
        raise RangeError(f"horizon {horizon:g} s: must be above 0 and at most 0.02 s")
    need, lit = _burning(demand, volts, 1, 1)
    opened, flat, out = transient(
        system, [rpm], record=True, demand=need.ravel(), burn_voltage=lit.ravel(),
        extinction_current=float(EXTINCTION) * 1e-3, horizon=horizon, doublings=doublings,
    )  # fmt: skip
    if not opened.conducts[0]:
        raise RangeError(
            f"at {rpm:g} rpm the module never switches, so there is nothing to show; pull faster"
        )
    time = np.concatenate([t for _, t, _ in out.trace])
    modes = np.concatenate([np.full(len(t), mode) for mode, t, _ in out.trace])
    state = np.concatenate([x for _, _, x in out.trace], axis=1)
    l1 = flat["n1"] ** 2 * opened.permeance
    l2 = flat["n2"] ** 2 * opened.permeance * flat["secondary_inductance_factor"]
    plug = state[PLUG] / np.sqrt(np.maximum(flat["plug_capacitance"], 1e-13))
    end = state[WINDING_END] / np.sqrt(flat["winding_capacitance"])
    alight = modes & BURNING > 0
    through = (end - plug) / np.maximum(flat["lead_resistance"], 50.0) - plug / flat["plug_shunt"]
    fired = bool(out.broke_down[0])
    assert opened.nodes is not None
    assert opened.current is not None
    speed = rpm * (2 * np.pi / 60) * float(flat["flywheel_radius"][0])
    before = (opened.nodes[:, 0] - opened.position[0]) / speed
    dwell = before < 0
    return Waveform(
        np.append(before[dwell], 0.0),
        np.append(opened.current[dwell, 0], opened.i1[0]),
        time,
        state[SWITCH] / np.sqrt(flat["primary_capacitance"]),
        end,
        plug,
        state[PRIMARY] / np.sqrt(l1),
        state[SECONDARY] / np.sqrt(l2),
        np.where(alight, through, 0.0),
        float(out.breakdown_time[0]),
        float(out.breakdown_time[0] + out.burn_time[0]) if fired else float("nan"),
        modes & CLAMPED > 0,
        alight,
    )
