"""Voltage that the ignition of these machines gives: at the plug, at a tester, stop lead on or off."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from typing import Literal

import numpy as np

from twostroke import breakdown, ignition
from twostroke.bench.engine import Array, Machine
from twostroke.bench.mixture import FuelState, wet_path

End = Literal["plug", "wiped", "tester"]
"""What the lead ends in: the own plug as it is, the same wiped dry in open air, a tester or good plug."""

SPEEDS = np.array([220.0, 420.0, 640.0, 900.0, 1300.0])
"""Cranking speeds (rpm) at which the transient is computed; between them it is interpolated."""

SPARE_GAP, SPARE_EDGE = 0.6e-3, 0.08e-3
ROOM_PRESSURE, ROOM_KELVIN = 101_325.0, 293.15

_field = np.vectorize(breakdown.uniform_field, otypes=[float])
_sharp = np.vectorize(breakdown.sharpness, otypes=[float])


@dataclass(frozen=True)
class Output:
    """Voltage, energy and angle of these machines against speed.

    Attributes
    ----------
    raw, joules : array (machines, speeds)
        Peak voltage before any leak to metal breaks over; energy in the primary.
    btdc : array (machines, speeds)
        Crank angle of the spark before top dead centre, degrees.
    scatter : array (machines,)
        Spread of the turn-on from turn to turn.
    breaks_over : array (machines,)
        Voltage at which lead or insulator breaks over to metal.
    """

    raw: Array
    joules: Array
    btdc: Array
    scatter: Array
    breaks_over: Array

    @property
    def volts(self) -> Array:
        """Voltage that reaches the end of the lead, (machines, speeds)."""
        return np.minimum(self.raw, self.breaks_over[:, None])

    def at(self, rpm: Array, luck: Array | None = None) -> tuple[Array, Array, Array]:
        """Voltage, energy, angle at one speed a machine; `luck` shifts a failing switch from turn to turn."""
        speed = np.asarray(rpm, dtype=float)
        if luck is not None:
            speed = speed / np.exp(self.scatter * np.maximum(luck, -1.0))
        place = np.interp(
            np.log(np.clip(speed, SPEEDS[0] * 0.5, SPEEDS[-1] * 1.6)), np.log(SPEEDS), np.arange(len(SPEEDS))
        )
        low = np.minimum(place.astype(int), len(SPEEDS) - 2)
        share, rows = place - low, np.arange(len(low))

        def mix(table: Array) -> Array:
            return table[rows, low] * (1.0 - share) + table[rows, low + 1] * share

        below = np.clip(speed / SPEEDS[0], 0.0, 1.0)
        raw = mix(self.raw) * below
        return np.minimum(raw, self.breaks_over), mix(self.joules) * below**2, mix(self.btdc)

    def before_breaking_over(self, rpm: Array) -> Array:
        """Voltage without the leak: what a gap that fires first draws on."""
        return Output(self.raw, self.joules, self.btdc, self.scatter, np.full(len(self.scatter), np.inf)).at(
            rpm
        )[0]


def needle_volts(gap_metres: Array) -> Array:
    """Voltage that a series gap of this length in open air needs; the needle table's slope near 10 mm."""
    return np.asarray(gap_metres) * _NEEDLE_SLOPE


_NEEDLE_SLOPE = float(breakdown.needle_gap_voltage("10 mm").to("V").magnitude) / 10e-3


def system(
    machine: Machine,
    module: Array | float,
    end: End,
    fuel: FuelState | None = None,
    stop_lead_on: bool = True,
) -> ignition.Ignition:
    """The machines' ignition as the physics wants it.

    Parameters
    ----------
    machine : Machine
    module : float or array
        Temperature of module and magnets, °C.
    end : {"plug", "wiped", "tester"}
        What the lead ends in.
    fuel : FuelState, optional
        For a plug wetted by fuel.
    stop_lead_on : bool
        Whether the stop lead is on the module.
    """
    m, i, p = machine.model, machine.ignition, machine.plug
    kelvin = np.asarray(module, dtype=float) + 273.15
    series = i.winding_break + i.lead_break + i.boot_break + i.ground_break
    shunt = np.full(machine.n, np.inf)
    if end != "tester":
        series = series + p.inner_break
        shunt = 1.0 / (
            1.0 / p.shunt
            + 1.0 / p.inner_path
            + 1.0 / (wet_path(fuel) if end == "plug" and fuel is not None else np.inf)
        )
    stop = 1.0 / i.terminal_path
    if stop_lead_on:
        stop = stop + 1.0 / i.switch_path + 1.0 / i.stop_lead_path
    return ignition.Ignition(
        shoe_width=m.shoe_width, leg_width=m.leg_width, pitch=m.pitch, depth=m.depth,
        magnet_width=m.magnet_width, magnet_thickness=m.magnet_thickness,
        remanence=m.remanence, leg_height=m.leg_height, yoke=m.yoke,
        flywheel_radius=m.flywheel_radius, aligned_btdc=np.radians(m.ignition_advance - 11.0),
        gap_1=i.gap_leading, gap_2=i.gap_trailing, run_out=i.run_out, magnet_factor=i.remanence,
        magnet_temperature=kelvin, winding_temperature=kelvin, key_offset=np.radians(i.key_offset),
        reversed_module=i.reversed_module, primary_turns=m.primary_turns, secondary_turns=m.secondary_turns,
        primary_resistance=i.primary_ohms, secondary_resistance=i.secondary_ohms,
        shorted_fraction=i.secondary_shorted,
        shorted_primary_fraction=i.primary_shorted, primary_break=i.primary_break, switch_drop=i.switch_drop,
        switch_on=i.turn_on, stop_path=1.0 / stop, ground_resistance=np.minimum(i.ground_resistance, 0.5),
        lead_resistance=i.lead_resistance, plug_shunt=np.minimum(shunt, 1e11),
        series_gap=needle_volts(series),
    )  # fmt: skip


def output(
    machine: Machine,
    module: Array | float,
    end: End,
    fuel: FuelState | None = None,
    stop_lead_on: bool = True,
) -> Output:
    """What the ignition gives at the end of the lead, for each machine and cranking speed.

    The same ignition is computed once and then remembered.
    """
    whole = system(machine, module, end, fuel, stop_lead_on)
    key = hashlib.sha256(
        b"".join(np.ascontiguousarray(v).tobytes() for v in whole.columns().values())
    ).digest()
    found = _REMEMBERED.pop(key, None)
    if found is None:
        found = ignition.available(whole, SPEEDS)
    _REMEMBERED[key] = found
    if len(_REMEMBERED) > REMEMBER:
        del _REMEMBERED[next(iter(_REMEMBERED))]
    leak = machine.ignition.leak_voltage
    over = leak if end == "tester" else np.minimum(leak, machine.plug.crack_voltage)
    return Output(
        found.voltage, found.energy, np.degrees(found.spark_btdc), machine.ignition.turn_on_scatter, over
    )


REMEMBER = 128
_REMEMBERED: dict[bytes, ignition.Output] = {}


def plug_demand(
    machine: Machine, pressure: Array | float = ROOM_PRESSURE, kelvin: Array | float = ROOM_KELVIN
) -> Array:
    """Voltage that the machine's own plug needs at this pressure (Pa) and temperature (K)."""
    return _demand(machine.plug.gap, machine.plug.edge, pressure, kelvin)


def spare_demand(n: int) -> Array:
    """Voltage that a known-good plug needs in open air."""
    return _demand(np.full(n, SPARE_GAP), np.full(n, SPARE_EDGE), ROOM_PRESSURE, ROOM_KELVIN)


def tester_demand(gap_mm: float) -> float:
    """Voltage that an adjustable-gap tester needs at a spacing; points a little blunter than needles."""
    return 1.05 * float(breakdown.needle_gap_voltage(f"{gap_mm} mm").to("V").magnitude)


def _demand(gap: Array, edge: Array, pressure: Array | float, kelvin: Array | float) -> Array:
    at_20 = np.asarray(pressure) * ROOM_KELVIN / np.asarray(kelvin)
    return _field(gap, pressure, kelvin) * _sharp(np.minimum(gap, 1.5e-3), at_20, np.maximum(edge, 0.05e-3))
