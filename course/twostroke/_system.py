"""What an ignition system is made of: its fields, their values as they act, the check of their sense. SI."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np

from twostroke._copper import COEFFICIENT, CONDUCTIVITY
from twostroke._network import Array
from twostroke.errors import RangeError, UnitError
from twostroke.sources import constant

COPPER_SLOPE = float(COEFFICIENT)
COPPER_CONDUCTIVITY = float(CONDUCTIVITY) * 1e6
MAGNET_SLOPE = constant(
    "change of the magnet's remanence with temperature",
    -0.0011,
    "1/K",
    "ndfeb",
    "sintered NdFeB near 20 degC",
)
ROOM = 293.15  # K
LEAST_GAP = 0.01e-3  # m, a module that rubs

Value = Any  # float or array of one value an engine


@dataclass(frozen=True)
class Ignition:
    """One ignition system, or a batch (arrays of one value an engine), in SI floats.

    Winding resistances are at 20 degC and follow from wire and turns unless given.

    The defaults are demo engine A: invented, of the usual size for a small handheld machine.
    """

    # magnet, core, flywheel
    shoe_width: Value = 10e-3
    leg_width: Value = 8e-3
    pitch: Value = 24e-3
    depth: Value = 12e-3
    magnet_width: Value = 14e-3
    magnet_thickness: Value = 8e-3
    remanence: Value = 1.0
    recoil_permeability: Value = 1.07
    leg_height: Value = 24e-3
    yoke: Value = 8e-3
    iron_permeability: Value = 2000.0
    saturation: Value = np.inf
    flywheel_radius: Value = 42e-3
    aligned_btdc: Value = 0.30  # rad
    # as set and as worn
    gap_1: Value = 0.30e-3
    gap_2: Value = 0.30e-3
    run_out: Value = 0.0
    run_out_angle: Value = 0.0
    magnet_factor: Value = 1.0
    magnet_temperature: Value = ROOM
    winding_temperature: Value = ROOM
    key_offset: Value = 0.0
    reversed_module: Value = False
    # windings at 20 degC
    primary_turns: Value = 160.0
    secondary_turns: Value = 12800.0
    primary_wire: Value = 0.375e-3
    primary_turn_length: Value = 36e-3
    secondary_wire: Value = 0.071e-3
    secondary_turn_length: Value = 46.5e-3
    primary_resistance: Value = np.nan  # nan: from wire and turns, so that ohmmeter and spark agree
    secondary_resistance: Value = np.nan
    coupling: Value = 0.96
    inductance_factor: Value = 1.0
    secondary_inductance_factor: Value = 1.0
    primary_capacitance: Value = 1e-9
    winding_capacitance: Value = 35e-12
    loss_resistance: Value = 1e6
    shorted_fraction: Value = 0.0
    shorted_primary_fraction: Value = 0.0
    short_resistance: Value = 0.0
    short_own_resistance: Value = np.nan  # of the shorted turns themselves at 20 degC; nan: their share
    short_coupling: Value = 0.97
    short_coupling_other: Value = 0.95
    primary_break: Value = 0.0
    secondary_break: Value = 0.0
    # electronics
    switch_drop: Value = 0.9
    switch_on: Value = 1.2
    trip_current: Value = 5.0
    clamp: Value = 380.0
    stop_path: Value = np.inf
    ground_resistance: Value = 0.0
    # lead and plug
    lead_resistance: Value = 5e3
    plug_capacitance: Value = 15e-12
    plug_shunt: Value = np.inf
    series_gap: Value = 0.0
    flashover: Value = np.inf

    def changed(self, **values: Value) -> Ignition:
        """Return a copy with some fields changed."""
        return replace(self, **values)

    @staticmethod
    def stack(systems: Sequence[Ignition]) -> Ignition:
        """One batch out of single systems."""
        return Ignition(**{f.name: np.array([getattr(s, f.name) for s in systems]) for f in fields(Ignition)})

    def __len__(self) -> int:
        """Number of engines in the batch; 1 for a single system."""
        return max(np.size(getattr(self, f.name)) for f in fields(self))

    def columns(self) -> dict[str, Array]:
        """Every field as an array of one value an engine."""
        values = {name: np.asarray(getattr(self, name), float) for name in _FIELDS}
        for side in ("primary", "secondary"):
            given = values[f"{side}_resistance"]
            if np.isnan(given).any():
                length = values[f"{side}_turns"] * values[f"{side}_turn_length"]
                area = np.maximum(0.25 * np.pi * values[f"{side}_wire"] ** 2, 1e-30)
                wound = length / (COPPER_CONDUCTIVITY * area)
                values[f"{side}_resistance"] = np.where(np.isnan(given), wound, given)
        count = max(value.size for value in values.values())
        return {name: v if v.shape == (count,) else np.full(count, v) for name, v in values.items()}


_FIELDS = tuple(f.name for f in fields(Ignition))
CORE_FIELDS = [
    "shoe_width",
    "leg_width",
    "pitch",
    "depth",
    "magnet_width",
    "magnet_thickness",
    "remanence",
    "recoil_permeability",
    "leg_height",
    "yoke",
    "iron_permeability",
    "saturation",
]
_POSITIVE = [
    "shoe_width",
    "leg_width",
    "pitch",
    "depth",
    "magnet_width",
    "magnet_thickness",
    "recoil_permeability",
    "leg_height",
    "yoke",
    "iron_permeability",
    "saturation",
    "flywheel_radius",
    "primary_turns",
    "secondary_turns",
    "primary_resistance",
    "primary_wire",
    "primary_turn_length",
    "secondary_wire",
    "secondary_turn_length",
    "secondary_resistance",
    "inductance_factor",
    "secondary_inductance_factor",
    "loss_resistance",
    "winding_temperature",
    "magnet_temperature",
    "clamp",
    "plug_shunt",
    "flashover",
    "trip_current",
    "switch_on",
    "primary_capacitance",
]
_NOT_NEGATIVE = [
    "remanence",
    "magnet_factor",
    "gap_1",
    "gap_2",
    "run_out",
    "shorted_fraction",
    "shorted_primary_fraction",
    "short_resistance",
    "primary_break",
    "secondary_break",
    "switch_drop",
    "stop_path",
    "ground_resistance",
    "lead_resistance",
    "plug_capacitance",
    "winding_capacitance",
    "series_gap",
    "coupling",
]


def effective(c: dict[str, Array]) -> dict[str, Array]:
    """Values as they act: temperature, run-out and faults folded in."""
    e = dict(c)
    copper = 1 + COPPER_SLOPE * (c["winding_temperature"] - ROOM)
    e["r1"] = c["primary_resistance"] * copper + c["primary_break"] + c["ground_resistance"]
    e["r2"] = c["secondary_resistance"] * copper + c["secondary_break"] + c["ground_resistance"]
    magnet = 1 + float(MAGNET_SLOPE) * (c["magnet_temperature"] - ROOM)
    e["remanence"] = c["remanence"] * c["magnet_factor"] * np.maximum(magnet, 0.0)
    half = 0.5 * c["pitch"] / c["flywheel_radius"]
    for leg, side in (("gap_1", -1), ("gap_2", 1)):
        gap = c[leg] + 0.5 * c["run_out"] * np.cos(c["run_out_angle"] + side * half)
        e[leg] = np.maximum(gap, LEAST_GAP)
    in_primary = c["shorted_primary_fraction"] > 0
    fraction = np.where(in_primary, c["shorted_primary_fraction"], c["shorted_fraction"])
    e["n3"] = fraction * np.where(in_primary, c["primary_turns"], c["secondary_turns"])
    e["n1"] = c["primary_turns"] * (1 - np.where(in_primary, fraction, 0.0))
    e["n2"] = c["secondary_turns"] * (1 - np.where(in_primary, 0.0, fraction))
    shorted = fraction > 0
    own = np.where(in_primary, c["primary_resistance"], c["secondary_resistance"]) * copper
    given = c["short_own_resistance"] * copper
    turns = np.where(np.isnan(given), fraction * own, given)
    e["r3"] = np.where(shorted, np.maximum(turns + c["short_resistance"], 1e-6), 1.0)
    e["r1"] -= np.where(in_primary, fraction * own, 0.0)
    e["r2"] -= np.where(in_primary, 0.0, fraction * own)
    near, far = c["short_coupling"], c["short_coupling_other"]
    e["k13"] = np.where(shorted, np.where(in_primary, near, far), 0.0)
    e["k23"] = np.where(shorted, np.where(in_primary, far, near), 0.0)
    return e


def check(system: Ignition) -> None:
    """Refuse a system with a value that has no physical sense.

    Parameters
    ----------
    system : Ignition
        One system or a batch.

    Returns
    -------
    None
        When all is well.

    Raises
    ------
    UnitError
        Something else than an Ignition.
    RangeError
        A value outside physical sense, named with what is allowed.

    Examples
    --------
    >>> check(Ignition())
    """
    if not isinstance(system, Ignition):
        raise UnitError(f"{type(system).__name__} is not an Ignition; make one with ignition.Ignition")
    columns = system.columns()
    check_columns(columns, effective(columns))


def check_columns(c: dict[str, Array], e: dict[str, Array]) -> None:
    positive = np.array([c[name] for name in _POSITIVE])
    not_negative = np.array([c[name] for name in _NOT_NEGATIVE])
    for names, good, word in (
        (_POSITIVE, positive > 0, "more than zero"),
        (_NOT_NEGATIVE, not_negative >= 0, "zero or more"),
    ):
        if not good.all():
            name = names[int(np.argmin(good.all(axis=1)))]
            value = c[name][~good[names.index(name)]][0]
            raise RangeError(f"{name.replace('_', ' ')} {value:g} (SI): must be {word}; check the value")
    if (c["coupling"] > 1.0).any():
        raise RangeError(f"coupling {c['coupling'].max():g}: must be at most 1")
    if (c["pitch"] <= c["leg_width"]).any():
        raise RangeError("pitch not above the leg width: the legs would overlap; check both lengths")
    if not e["n3"].any():
        return
    if ((c["shorted_fraction"] > 0.9) | (c["shorted_primary_fraction"] > 0.9)).any():
        raise RangeError("shorted fraction above 0.9: that winding is gone; make the module dead instead")
    det = 1 + 2 * c["coupling"] * e["k13"] * e["k23"] - c["coupling"] ** 2 - e["k13"] ** 2 - e["k23"] ** 2
    if (det[e["n3"] > 0] <= 0).any():
        raise RangeError(
            "couplings of primary, secondary and shorted turns do not go together; bring them closer"
        )


def winding_ohms(system: Ignition) -> tuple[Array, Array]:
    """Resistance of the primary and of the secondary as an ideal ohmmeter at the winding's temperature
    finds it.

    Shorted turns are bridged by ``short_resistance``; a break adds its own resistance.

    Parameters
    ----------
    system : Ignition
        One system or a batch.

    Returns
    -------
    primary, secondary : array (engines,)
        Ohms.

    Examples
    --------
    >>> primary, secondary = winding_ohms(Ignition())
    >>> round(float(primary[0]), 2), round(float(secondary[0]))
    (0.9, 2592)
    """
    c = system.columns()
    copper = 1 + COPPER_SLOPE * (c["winding_temperature"] - ROOM)
    out = []
    for side, fraction in (("primary", c["shorted_primary_fraction"]), ("secondary", c["shorted_fraction"])):
        whole = c[f"{side}_resistance"] * copper
        part = fraction * whole
        bridged = part * c["short_resistance"] / np.maximum(part + c["short_resistance"], 1e-12)
        out.append(whole - part + bridged + c[f"{side}_break"])
    return out[0], out[1]
