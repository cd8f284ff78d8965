"""What each fault of the ignition does to the machine: physical changes, never scripted readings.

Every function takes the machine, the severity `s` (0 nothing, 1 as bad as it gets), `acting` (1 while an
intermittent fault shows itself, else 0) and `kind` (0 to 1, which form of the fault it is), each an array
with one entry a machine, and changes the machine in place. Changes only add, multiply or take the larger,
so that two faults give the same machine in either order; severity 0 changes nothing. The sizes are invented.
"""

from __future__ import annotations

import numpy as np

from twostroke.bench.engine import Array, Machine


def path(before: Array, share: Array, worst: float) -> Array:
    """Resistance when a path of `worst` ohm is laid beside it, to the extent `share`."""
    return 1.0 / (1.0 / before + share / worst)


def breaks_over(before: Array, share: Array, worst: float) -> Array:
    """Voltage at which insulation breaks over: `worst` at share 1, twice that at a half."""
    return np.where(share > 0.0, np.minimum(before, worst / np.maximum(share, 1e-6)), before)


def plug_fouled(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.plug.shunt = path(m.plug.shunt, s**2, 60e3)
    m.plug.soot = m.plug.soot + 0.75 * s
    m.plug.bridged = np.maximum(m.plug.bridged, (kind < 0.2) * (s > 0.6))


def plug_cracked(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.plug.crack_voltage = breaks_over(m.plug.crack_voltage, s * acting, 3.0e3)
    m.plug.crack_seen = np.maximum(m.plug.crack_seen, s * (0.25 + 0.75 * kind))
    m.signs.lead_wet_track = np.maximum(m.signs.lead_wet_track, 0.45 * s)


def plug_gap_wide(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.plug.gap = m.plug.gap + 1.0e-3 * s
    m.plug.edge = m.plug.edge + 0.4e-3 * s


def plug_internal(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """Shorted (kind below 0.65) or open inside; it looks sound, and may be new."""
    m.plug.inner_path = path(m.plug.inner_path, s**2 * (kind < 0.65), 20e3)
    m.plug.inner_break = m.plug.inner_break + 30e-3 * s * (kind >= 0.65)


def boot_loose(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.ignition.boot_break = m.ignition.boot_break + 27e-3 * s * acting
    m.signs.boot_fit = m.signs.boot_fit + 0.8 * s


def lead_leak(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.ignition.leak_voltage = breaks_over(m.ignition.leak_voltage, s * acting, 3.2e3)
    m.signs.lead_wet_track = np.maximum(m.signs.lead_wet_track, s)
    m.signs.chafe = np.maximum(m.signs.chafe, 0.6 * s * kind)


def lead_pinched(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """Too long, nipped under the cover: the insulation gives way where the lead lies badly."""
    m.ignition.leak_voltage = breaks_over(m.ignition.leak_voltage, s * acting, 3.2e3)
    m.signs.lead_wet_track = np.maximum(m.signs.lead_wet_track, 0.45 * s)
    m.signs.lead_pinch = np.maximum(m.signs.lead_pinch, s)
    m.signs.chafe = np.maximum(m.signs.chafe, 0.4 * s * kind)
    m.signs.opened_before = m.signs.opened_before + 0.5 * s


def lead_open(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.ignition.lead_break = m.ignition.lead_break + 26e-3 * s * acting


def module_dead(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """Electronic switch gone, primary open, or secondary open, by kind."""
    bad = s * acting
    m.ignition.turn_on = m.ignition.turn_on * (1.0 + 750.0 * bad * (kind < 0.45))
    m.ignition.primary_break = m.ignition.primary_break + 1e6 * bad * ((kind >= 0.45) & (kind < 0.7))
    m.ignition.winding_break = m.ignition.winding_break + 40e-3 * bad * (kind >= 0.7)


def module_shorted(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.ignition.secondary_shorted = m.ignition.secondary_shorted + 0.034 * s * (kind < 0.7)
    m.ignition.primary_shorted = m.ignition.primary_shorted + 0.08 * s * (kind >= 0.7)


def module_intermittent(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """A failing electronic switch: it wants more speed, and it wants it differently from turn to turn."""
    m.ignition.turn_on = m.ignition.turn_on * (1.0 + 13.0 * s * acting)
    m.ignition.turn_on_scatter = m.ignition.turn_on_scatter + 0.5 * s * acting


def _farther(m: Machine, leading: Array, trailing: Array) -> None:
    """Move the legs out; a module that rubs is held the nearer, whichever of the two came first."""
    near = np.minimum(m.cylinder.rub, 1.0)
    m.ignition.gap_leading = m.ignition.gap_leading + leading * (1.0 - near)
    m.ignition.gap_trailing = m.ignition.gap_trailing + trailing * (1.0 - 0.7 * near)


def airgap_wide(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    _farther(m, 3.2e-3 * s, 3.2e-3 * s)
    m.signs.opened_before = m.signs.opened_before + 0.4 * s * (kind > 0.4)


def legs_unequal(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """One screw tightened with the module tilted."""
    _farther(m, 0.5e-3 * s, 4.2e-3 * np.sqrt(s))
    m.signs.opened_before = m.signs.opened_before + 0.5 * s * (kind > 0.3)


def airgap_rub(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.ignition.gap_leading = m.ignition.gap_leading * (1.0 - s)
    m.ignition.gap_trailing = m.ignition.gap_trailing * (1.0 - 0.7 * s)
    m.cylinder.rub = m.cylinder.rub + s
    m.ignition.primary_shorted = m.ignition.primary_shorted + 0.03 * s * (kind > 0.4)
    m.signs.opened_before = m.signs.opened_before + 0.4 * s * (kind > 0.4)


def magnet_weak(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.ignition.remanence = m.ignition.remanence * (1.0 - 0.66 * s)


def key_sheared(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.ignition.key_offset = m.ignition.key_offset + 55.0 * s * np.where(kind < 0.8, 1.0, -1.0)
    m.signs.key_shear = np.maximum(m.signs.key_shear, s)


def stop_switch(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.ignition.switch_path = path(m.ignition.switch_path, (s * acting) ** 2, 0.8)
    m.signs.switch_stiff = m.signs.switch_stiff + 0.65 * s * (kind > 0.25)


def stop_lead(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.ignition.stop_lead_path = path(m.ignition.stop_lead_path, (s * acting) ** 2, 0.6)
    m.signs.chafe = np.maximum(m.signs.chafe, s * (0.35 + 0.65 * kind))


def ground_open(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """Rust or paint under the module's feet, or a loose screw."""
    m.ignition.ground_break = m.ignition.ground_break + 20e-3 * s * acting
    m.ignition.ground_resistance = m.ignition.ground_resistance + 400.0 * s * (0.1 + 0.9 * acting)
    m.signs.ground_rust = m.signs.ground_rust + 0.7 * s


def ground_missing(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.ignition.ground_break = m.ignition.ground_break + 30e-3 * s
    m.ignition.ground_resistance = m.ignition.ground_resistance + 30e6 * s
    m.signs.opened_before = m.signs.opened_before + 0.7 * s


def module_reversed(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """Wrong way round: the magnet passes the legs in the other order, and the stop terminal faces metal."""
    m.ignition.reversed_module = np.maximum(m.ignition.reversed_module, s > 0.0)
    m.ignition.terminal_path = path(m.ignition.terminal_path, s**2 * (kind < 0.9), 0.6)
    m.signs.opened_before = m.signs.opened_before + 0.7 * s
