"""Measuring that is no test of the table: thermometer, tachometer, calliper, scale, and the storage trace."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from twostroke import burn
from twostroke.bench import instruments, pull, sparks
from twostroke.bench.instruments import SCALES, Trace
from twostroke.bench.reading import Shown
from twostroke.bench.repairing import shim_thickness
from twostroke.bench.seen import Number, spark_rules
from twostroke.bench.words import display
from twostroke.errors import RangeError

if TYPE_CHECKING:
    from twostroke.bench.situation import Situation
    from twostroke.bench.view import View
    from twostroke.table import Table

MEASURES = {
    "engine temperature": "thermometer",
    "module temperature": "thermometer",
    "cranking speed": "tachometer",
    "card thickness": "calliper",
    "fuel in the tank": "scale",
}
"""What can be measured, and the instrument for it."""

SIGNALS = {
    "plug voltage": ("plug_voltage", "kV", 20e3, 1e6),
    "primary voltage": ("primary_voltage", "V", 400.0, 1e6),
    "primary current": ("primary_current", "A", 10.0, 1e6),
}
"""Signals of the storage trace: name inside, unit, full scale (SI), samples a second."""

TESTER_GAP = float(spark_rules()["tester_gap_mm"])
MEASURE_MINUTES = 1.0
FULL_TANK = 380.0
"""Grams of fuel in the tank as it came in; invented."""


def measure(name: str, situation: Situation, view: View, table: Table) -> tuple[float, Shown]:
    """Minutes and display of a measurement."""
    key = MEASURES[name]
    if name == "engine temperature":
        true = view.engine
    elif name == "module temperature":
        true = view.module
    elif name == "cranking speed":
        rope = pull.rope(view.machine, view.effort, view.plug_out, view.atmosphere, view.ambient + 273.15)
        true = rope.at(view.machine.model.ignition_advance, pull.luck_of(1, view.draws))[0][:, 2]
    elif name == "card thickness":
        true = np.array([shim_thickness("card", situation.seed) * 1e3])
    else:
        true = FULL_TANK * view.machine.supply.tank
    scale = SCALES[key]
    shown = instruments.show(scale, true, view.kit, view.draws)
    limit = np.array([instruments.limit_of_error(scale, float(shown[0]))])
    return MEASURE_MINUTES, display(Number(name, shown, scale.unit, scale.name, scale.resolution, limit))


def trace(name: str, view: View) -> tuple[Trace | None, str]:
    """Waveform of one turn on the storage trace, and what it shows in words.

    The plug voltage is taken at the machine's own plug in open air, through a probe.
    """
    inside, unit, full, rate = SIGNALS[name]
    rpm = float(view.speeds()[0, 2])
    system = sparks.system(view.machine, view.module, "wiped", None, view.stop_lead_on)
    demand = float(sparks.plug_demand(view.machine)[0])
    over = float(view.volts("wiped").breaks_over[0])
    try:
        wave = burn.waveform(system, max(rpm, 60.0), demand=min(demand, over), volts=450.0)
    except RangeError:
        return None, "A flat line: the module does not switch at this speed."
    factor = 1e-3 if unit == "kV" else 1.0
    kept = instruments.store(wave.time, getattr(wave, inside) * factor, unit, full * factor, rate)  # type: ignore[arg-type]
    if np.isnan(wave.breakdown):
        text = "It rises and rings out: no breakdown."
    else:
        lasted = (wave.burn_end - wave.breakdown) * 1e3
        where = "beside the plug, to metal" if over < demand else "at the plug"
        text = f"It rises, breaks down {where} and burns for {lasted:.2f} ms, then rings out."
    return kept, f"{text} At {round(rpm, -1):.0f} rpm." + (
        " The trace is clipped at the edge of the screen." if kept.clipped else ""
    )
