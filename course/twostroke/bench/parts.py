# ruff: noqa: RUF009
"""The physical state of a machine, part by part: every number that a fault, a repair or a wear can change.

Each field is an array with one entry a machine, so that one machine and ten thousand go through the same
code. The unit and a sentence stand beside each field; the values given here are those of a sound machine.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

NEVER = 1e12
"""Stands for an open path (ohm) or for an insulation that never breaks over (volt)."""


def _value(default: float, unit: str, says: str) -> Any:
    return field(default=default, metadata={"unit": unit, "says": says})


@dataclass
class Ignition:
    """Module, flywheel magnets, lead, boot, stop circuit and ground."""

    gap_leading: Array = _value(0.30e-3, "m", "air gap at the leg that the magnet reaches first")
    gap_trailing: Array = _value(0.30e-3, "m", "air gap at the other leg")
    run_out: Array = _value(0.03e-3, "m", "total indicated run-out of the flywheel rim")
    remanence: Array = _value(1.0, "1", "strength of the magnets, as a share of new")
    switch_drop: Array = _value(0.9, "V", "voltage lost in the electronic switch while it conducts")
    turn_on: Array = _value(1.2, "V", "primary voltage at which the electronic switch begins to conduct")
    turn_on_scatter: Array = _value(0.0, "1", "spread of that voltage from turn to turn (of its logarithm)")
    primary_ohms: Array = _value(0.9, "ohm", "resistance of the sound primary winding at 20 °C")
    secondary_ohms: Array = _value(4300.0, "ohm", "resistance of the sound secondary winding at 20 °C")
    primary_break: Array = _value(0.0, "ohm", "resistance added in the primary circuit")
    winding_break: Array = _value(0.0, "m", "series gap in the secondary winding")
    secondary_shorted: Array = _value(0.0, "1", "share of the secondary turns that are shorted")
    primary_shorted: Array = _value(0.0, "1", "share of the primary turns that are shorted")
    lead_resistance: Array = _value(5.0e3, "ohm", "resistance of the high-tension lead with its boot")
    lead_break: Array = _value(0.0, "m", "series gap inside the lead")
    boot_break: Array = _value(0.0, "m", "series gap between lead, boot spring and plug terminal")
    leak_voltage: Array = _value(NEVER, "V", "voltage at which the lead's insulation breaks over to metal")
    switch_path: Array = _value(NEVER, "ohm", "stop switch to metal with the switch at RUN")
    stop_lead_path: Array = _value(NEVER, "ohm", "stop lead to metal")
    terminal_path: Array = _value(NEVER, "ohm", "stop terminal of the module itself to metal")
    ground_resistance: Array = _value(0.05, "ohm", "module core to crankcase")
    ground_break: Array = _value(0.0, "m", "series gap in the path from module to crankcase")
    key_offset: Array = _value(0.0, "deg", "turn of the flywheel on the shaft, late positive")
    reversed_module: Array = _value(0.0, "1", "1 where the module is fitted the wrong way round")


@dataclass
class Plug:
    """Spark plug."""

    gap: Array = _value(0.60e-3, "m", "electrode gap")
    edge: Array = _value(0.10e-3, "m", "edge radius of the electrodes: small is sharp, large is worn")
    shunt: Array = _value(NEVER, "ohm", "leakage over the insulator nose by carbon and oil")
    crack_voltage: Array = _value(NEVER, "V", "voltage at which the insulator tracks over inside the shell")
    inner_break: Array = _value(0.0, "m", "series gap inside the plug's insulator")
    inner_path: Array = _value(NEVER, "ohm", "path to the shell inside the plug, not to be seen")
    bridged: Array = _value(0.0, "1", "1 where a deposit bridges the electrodes")
    soot: Array = _value(0.15, "1", "black deposit to be seen: 0 clean, 1 thick")
    looseness: Array = _value(0.0, "1", "0 seated and tight, 1 loose by hand")
    crack_seen: Array = _value(0.0, "1", "visible crack or track on the insulator: 0 none, 1 plain")


@dataclass
class Cylinder:
    """Everything that holds compression, and what the hand feels at the rope."""

    ring_leak: Array = _value(0.030e-6, "m2", "leak area past the rings")
    bore_leak: Array = _value(0.0, "m2", "leak area past scoring")
    gasket_leak: Array = _value(0.0, "m2", "leak area at the cylinder foot or head joint")
    seat_leak: Array = _value(0.0, "m2", "leak area at the plug seat")
    decompressor_leak: Array = _value(0.0, "m2", "leak area of the decompression valve")
    oil_film: Array = _value(1.0, "1", "oil film that helps the rings to seal: 1 normal, 0 washed off")
    scoring: Array = _value(0.06, "1", "marks on piston and bore to be seen through the port")
    rub: Array = _value(0.0, "1", "module rubbing on the flywheel: 0 free, 1 heard at each turn")
    seized: Array = _value(0.0, "1", "1 where the crank cannot be turned by the rope")


@dataclass
class Crankcase:
    """Sealing below the piston."""

    seal_leak: Array = _value(0.0, "m2", "leak area of crank seals and intake joint")
    reed_leak: Array = _value(0.0, "m2", "leak area of the reed when it should be shut")


@dataclass
class Supply:
    """Fuel from tank to carburettor outlet."""

    tank: Array = _value(1.0, "1", "1 where fuel reaches the line, 0 tank empty or tap shut")
    freshness: Array = _value(1.0, "1", "light ends left in the fuel: 1 fresh, 0 stale")
    age_months: Array = _value(1.0, "month", "months that the fuel has stood")
    water: Array = _value(0.0, "1", "share of the sample that is water")
    filter_flow: Array = _value(1.0, "1", "flow through the tank filter, share of new")
    line_air: Array = _value(0.0, "1", "share of air that the line draws in")
    vent_flow: Array = _value(1.0, "1", "flow of the tank vent, share of new")
    primer: Array = _value(1.0, "1", "stroke of the primer bulb, share of new")
    pop_off: Array = _value(1.0, "1", "pressure that opens the inlet needle, share of normal")
    needle_leak: Array = _value(0.0, "1", "fuel passing the shut needle, in charges a minute")
    jets: Array = _value(1.0, "1", "flow of the passages, share of clean")
    diaphragm: Array = _value(1.0, "1", "give of the metering diaphragm: 1 supple, 0 stiff")
    screws: Array = _value(1.0, "1", "mixture screws: 1 right, below lean, above rich")
    oil_share: Array = _value(0.02, "1", "oil as a share of the fuel")
    pulse: Array = _value(
        1.0, "1", "pressure pulse from the crankcase that works the fuel pump, share of normal"
    )
    varnish: Array = _value(0.08, "1", "gum to be seen in the carburettor")
    flood: Array = _value(0.0, "1", "liquid fuel lying in crankcase and cylinder, in charges")


@dataclass
class Breath:
    """Air in, gas out, cooling."""

    filter_flow: Array = _value(1.0, "1", "flow through the air filter, share of clean")
    filter_dirt: Array = _value(0.2, "1", "dirt on the air filter to be seen")
    choke_reach: Array = _value(1.0, "1", "how far the choke can close")
    choke_rest: Array = _value(0.0, "1", "how far the choke stays closed when opened")
    choke_stick: Array = _value(0.05, "1", "stiffness of choke plate and linkage: 0 free, 1 stuck")
    screen_flow: Array = _value(1.0, "1", "flow of spark-arrester screen and port, share of clean")
    fins_flow: Array = _value(1.0, "1", "cooling air through the fins, share of clean")


@dataclass
class Signs:
    """What eyes and hands can find and an instrument would not."""

    dirt: Array = _value(0.25, "1", "oil and dust on the outside")
    chafe: Array = _value(0.0, "1", "bare or rubbed wire to be seen")
    boot_fit: Array = _value(0.0, "1", "play of the boot: 0 snug, 1 loose or burnt")
    switch_stiff: Array = _value(0.1, "1", "stickiness of the stop switch")
    key_shear: Array = _value(0.0, "1", "step in the flywheel key: 0 whole, 1 sheared")
    lead_pinch: Array = _value(0.0, "1", "lead nipped under the cover, to be seen")
    decompressor_stick: Array = _value(0.1, "1", "stiffness of the decompression valve: 0 free, 1 stuck")
    opened_before: Array = _value(
        0.2, "1", "how much the owner remembers of earlier work: 0 none, 1 taken apart"
    )
    reed_gap: Array = _value(0.0, "1", "chip or gap of the reed to be seen")
    lead_wet_track: Array = _value(0.0, "1", "path that a mist of water would show on lead or boot")
    ground_rust: Array = _value(0.0, "1", "rust or paint under the module's feet")


PARTS = {
    "ignition": Ignition,
    "plug": Plug,
    "cylinder": Cylinder,
    "crankcase": Crankcase,
    "supply": Supply,
    "breath": Breath,
    "signs": Signs,
}


def sound(part: type, n: int) -> Any:
    """`n` sound copies of one part.

    Examples
    --------
    >>> sound(Plug, 2).gap
    array([0.0006, 0.0006])
    """
    return part(**{item.name: np.full(n, float(item.default)) for item in fields(part)})  # type: ignore[arg-type]


def copy_part(part: Any) -> Any:
    """Deep copy of one part."""
    return type(part)(**{item.name: getattr(part, item.name).copy() for item in fields(part)})


def names() -> list[str]:
    """Every changeable number as ``part.field``."""
    return [f"{key}.{item.name}" for key, part in PARTS.items() for item in fields(part)]
