"""Tests with an instrument that shows a number: ohms, gaps, pressures."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from twostroke import _pumping
from twostroke.bench import instruments, pull
from twostroke.bench.engine import Array
from twostroke.bench.instruments import SCALES
from twostroke.bench.seen import Number, Seen
from twostroke.bench.view import View
from twostroke.errors import TwoStrokeError
from twostroke.table import Test, result_for

COPPER = 0.00393
CRANKCASE = 120e-6
"""Volume under pressure in a crankcase test, cubic metres."""

HOLD_SECONDS = 60.0
GAUGE_VOLUME = 3.0e-6
GAUGE_PULLS = 8
METER = "multimeter"


def judged(test: Test, values: Array, view: View) -> NDArray[np.object_]:
    """The table's word for each value, by the ladder of the test."""
    reading = test.reading
    if reading is None:
        raise TwoStrokeError(f"{test.name}: the table gives no ladder for its reading")
    band = view.bands.get(reading.band or "")
    words: dict[float, str] = {}
    out = np.empty(len(values), dtype=object)
    for number, value in enumerate(values):
        key = float(value)
        if key not in words:
            words[key] = result_for(test, key, band)
        out[number] = words[key]
    return out


def _ohms(test: Test, view: View, true: Array, name: str, scale: float, unit: str) -> Seen:
    """Multimeter reading of `true` ohm, judged in the table's unit; OL counts as very large."""
    shown = instruments.show_ohms(true, view.kit, view.draws, view.nulled)
    limit = np.array([instruments.ohms_limit(v) if np.isfinite(v) else 0.0 for v in shown])
    seen = np.where(np.isfinite(shown), shown / scale, 1e9)
    number = Number(name, shown / scale, unit, METER, 0.0, limit / scale)
    return Seen(judged(test, seen, view), (number,))


def _warm(ohms: Array, celsius: Array) -> Array:
    return ohms * (1.0 + COPPER * (celsius - 20.0))


def lead_ohm(test: Test, view: View) -> Seen:
    """Through lead and boot: a break shows as open; a probe may close the contact of a loose boot."""
    i = view.machine.ignition
    touch = view.lasting.uniform(view.n)
    boot_open = (i.boot_break > 0.3e-3) & (touch < 0.4)
    boot_high = (i.boot_break > 0.3e-3) & (touch >= 0.4) & (touch < 0.7)
    broken = ((i.lead_break > 0.3e-3) & (touch < 0.9)) | boot_open
    true = i.lead_resistance + np.where(boot_high, 25e3, 0.0) + np.where(broken, 1e12, 0.0)
    return _ohms(test, view, true, "lead resistance", 1e3, "kohm")


def stop_ohm(test: Test, view: View) -> Seen:
    """Switch at RUN, lead off at the module, lead to metal."""
    i = view.machine.ignition
    true = 1.0 / (1.0 / i.switch_path + 1.0 / i.stop_lead_path)
    return _ohms(test, view, true, "stop circuit resistance", 1e3, "kohm")


def ground_ohm(test: Test, view: View) -> Seen:
    return _ohms(test, view, view.machine.ignition.ground_resistance, "ground resistance", 1.0, "ohm")


def primary_ohm(test: Test, view: View) -> Seen:
    """Winding as the meter sees it: shorted turns take their share off, an open winding shows none."""
    i = view.machine.ignition
    true = _warm(i.primary_ohms * (1.0 - i.primary_shorted), view.module) + i.primary_break
    return _ohms(test, view, true, "primary resistance", 1.0, "ohm")


def secondary_ohm(test: Test, view: View) -> Seen:
    """From the lead's end, so that a broken lead shows here too."""
    i = view.machine.ignition
    broken = (i.winding_break + i.lead_break) > 0.3e-3
    true = _warm(i.secondary_ohms * (1.0 - i.secondary_shorted), view.module) + np.where(broken, 1e12, 0.0)
    return _ohms(test, view, true, "secondary resistance", 1e3, "kohm")


def _number(name: str, key: str, values: Array) -> Number:
    scale = SCALES[key]
    limit = np.array([instruments.limit_of_error(scale, float(v)) for v in values])
    return Number(name, values, scale.unit, scale.name, scale.resolution, limit)


def air_gap(test: Test, view: View) -> Seen:
    """Thickest leaf under each leg, the magnet under it; judged by the leg farther out."""
    i = view.machine.ignition
    legs = [
        instruments.feeler(np.maximum(gap - 0.5 * i.run_out, 0.0) * 1e3, view.draws)
        for gap in (i.gap_leading, i.gap_trailing)
    ]
    low, high = np.minimum(*legs), np.maximum(*legs)
    band = view.bands["air_gap"]
    worst = np.where(low < 0.5 * band[0], low, high)
    numbers = (
        _number("air gap, leading leg", "feeler gauge", legs[0]),
        _number("air gap, trailing leg", "feeler gauge", legs[1]),
    )
    return Seen(judged(test, worst, view), numbers)


def legs_gap(test: Test, view: View) -> Seen:
    i = view.machine.ignition
    legs = [instruments.feeler(gap * 1e3, view.draws) for gap in (i.gap_leading, i.gap_trailing)]
    apart = np.abs(legs[0] - legs[1])
    numbers = (
        _number("difference of the legs", "feeler gauge", apart),
        _number("leading leg", "feeler gauge", legs[0]),
        _number("trailing leg", "feeler gauge", legs[1]),
    )
    return Seen(judged(test, apart - 1e-9, view), numbers)


def plug_gap(test: Test, view: View) -> Seen:
    p = view.machine.plug
    scale = SCALES["plug gauge"]
    shown = instruments.show(scale, p.gap * 1e3, view.kit, view.draws)
    shown = np.where(p.bridged > 0.5, 0.0, shown)
    return Seen(judged(test, shown, view), (_number("plug gap", "plug gauge", shown),))


def gauge_pressures(view: View, extra_oil: float = 0.0) -> Array:
    """True gauge pressure after the usual pulls (bar), throttle and choke open; oil seals for a while."""
    machine = view.machine.copy()
    if extra_oil:
        sealed = 0.75 * extra_oil
        machine.cylinder.oil_film = np.ones(machine.n)
        machine.cylinder.ring_leak = np.maximum(machine.cylinder.ring_leak * (1.0 - sealed), 0.03e-6)
        machine.cylinder.bore_leak = machine.cylinder.bore_leak * (
            1.0 - 0.5 * sealed * view.lasting.uniform(view.n)
        )
    turning = np.where(machine.cylinder.seized > 0.5, 1.0, machine.model.pull_speed * view.pull_luck)
    outside = view.atmosphere
    leak = pull.leak_area(machine) - machine.cylinder.seat_leak * 0.85
    reached = _pumping.gauge_pressures(
        **pull.cylinder(machine.model), pulls=GAUGE_PULLS, speed=turning * 2 * np.pi / 60,
        gauge_volume=GAUGE_VOLUME, polytropic=pull.POLYTROPIC, leak_area=np.maximum(leak, 1e-12),
        atmosphere=outside, air_temperature=view.ambient + 273.15, steps=20,
    )  # fmt: skip
    reached = reached * np.where(view.contact < 1.0, 0.8, 1.0)
    return np.where(machine.cylinder.seized > 0.5, 0.0, (reached[-1] - outside) / 1e5)


def compression(test: Test, view: View) -> Seen:
    """Gauge screwed in place of the plug: a leak at the plug's own seat goes out with the plug."""
    scale = SCALES["compression gauge"]
    shown = instruments.show(scale, gauge_pressures(view), view.kit, view.draws)
    return Seen(judged(test, shown, view), (_number("compression", "compression gauge", shown),))


def compression_wet(test: Test, view: View) -> Seen:
    """Before and after a few drops of oil; a rise of an eighth or more counts."""
    scale = SCALES["compression gauge"]
    dry = instruments.show(scale, gauge_pressures(view), view.kit, view.draws)
    wet = instruments.show(scale, gauge_pressures(view, 1.0), view.kit, view.draws)
    rises = wet > 1.12 * np.maximum(dry, 0.5)
    numbers = (
        _number("compression, dry", "compression gauge", dry),
        _number("with oil", "compression gauge", wet),
    )
    return Seen(np.where(rises, "rises", "same"), numbers)


def _static_area(view: View) -> Array:
    """Leak area of the shut crankcase at rest: a lip that leaks while turning mostly closes when still."""
    c, cyl = view.machine.crankcase, view.machine.cylinder
    lip = 3e-3 * view.lasting.lognormal(view.n, 1.4)
    fittings = 5e-11 * view.draws.lognormal(view.n, 1.2)
    return c.seal_leak * lip + 0.25 * lip * (cyl.decompressor_leak + cyl.seat_leak) + fittings


def _fall(view: View, start: float) -> Array:
    """Bar by which a gauge pressure (negative: vacuum) comes nearer to nothing within a minute."""
    flow = _static_area(view) * np.sqrt(float(_pumping.GAS_CONSTANT) * (view.ambient + 273.15)) / CRANKCASE
    first = view.atmosphere + start * 1e5
    pressure = np.full(view.n, first)
    for _ in range(int(HOLD_SECONDS)):
        high, low = np.maximum(pressure, view.atmosphere), np.minimum(pressure, view.atmosphere)
        moved = np.minimum(
            flow * high * _pumping.nozzle_factor(low / high), np.abs(pressure - view.atmosphere)
        )
        pressure = pressure - np.sign(pressure - view.atmosphere) * moved
    return np.abs(first - pressure) / 1e5


def _holding(test: Test, view: View, fall: Array, name: str) -> Seen:
    shown = instruments.show(SCALES["hand pump"], fall, view.kit, view.draws)
    shown = np.maximum(shown, 0.0)
    return Seen(judged(test, shown, view), (_number(name, "hand pump", shown),))


def pressure_hold(test: Test, view: View) -> Seen:
    return _holding(test, view, _fall(view, 0.5), "pressure lost in a minute, from 0.50 bar")


def vacuum_hold(test: Test, view: View) -> Seen:
    """A minute under vacuum: the same leaks, drawn inward."""
    return _holding(test, view, _fall(view, -0.5), "vacuum lost in a minute, from 0.50 bar")


def line_pressure(test: Test, view: View) -> Seen:
    s = view.machine.supply
    fall = 0.5 * (1.0 - np.exp(-5.0 * s.line_air - 0.06 * s.needle_leak))
    return _holding(test, view, fall, "pressure lost in a minute, from 0.50 bar")


def screw_count(test: Test, view: View) -> Seen:
    turns = 1.25 * (1.0 + 0.75 * np.log(np.maximum(view.machine.supply.screws, 0.05)))
    shown = np.round(np.maximum(turns + view.draws.normal(view.n, 0.0, 0.15), 0.0) * 8) / 8
    number = Number("mixture screws", shown, "turns", "screwdriver", 0.125, np.full(view.n, 0.125))
    return Seen(judged(test, shown, view), (number,))


GAUGE_TESTS: dict[str, Callable[[Test, View], Seen]] = {
    "lead_ohm": lead_ohm,
    "stop_ohm": stop_ohm,
    "ground_ohm": ground_ohm,
    "primary_ohm": primary_ohm,
    "secondary_ohm": secondary_ohm,
    "air_gap": air_gap,
    "legs_gap": legs_gap,
    "plug_gap": plug_gap,
    "compression": compression,
    "compression_wet": compression_wet,
    "pressure_hold": pressure_hold,
    "vacuum_hold": vacuum_hold,
    "line_pressure": line_pressure,
    "screw_count": screw_count,
}
