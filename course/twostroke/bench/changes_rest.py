"""What each fault outside the ignition does to the machine, in the form of the ignition's changes."""

from __future__ import annotations

import numpy as np

from twostroke.bench.engine import Array, Machine


def stale_fuel(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """Light ends gone, and in one can out of four water in it."""
    m.supply.freshness = m.supply.freshness * (1.0 - 0.95 * s)
    m.supply.age_months = m.supply.age_months + 14.0 * s
    m.supply.water = m.supply.water + 0.25 * s * (kind < 0.25)
    m.supply.varnish = m.supply.varnish + 0.15 * s


def fuel_off(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.supply.tank = m.supply.tank * np.maximum(1.0 - 2.0 * s, 0.0)


def fuel_filter(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.supply.filter_flow = m.supply.filter_flow * (1.0 - 0.96 * s)


def fuel_line(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.supply.line_air = 1.0 - (1.0 - m.supply.line_air) * (1.0 - 0.92 * s)
    m.signs.dirt = m.signs.dirt + 0.25 * s


def tank_vent(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """The vacuum builds while the machine runs; `acting` says whether it has."""
    m.supply.vent_flow = m.supply.vent_flow * (1.0 - 0.97 * s * acting)


def primer(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.supply.primer = m.supply.primer * (1.0 - 0.97 * np.minimum(1.5 * s, 1.0))


def diaphragm(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.supply.diaphragm = m.supply.diaphragm * (1.0 - 0.85 * s)


def needle_shut(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """Needle stuck in its seat (kind below one half) or passages gummed up."""
    stuck = s * (kind < 0.5)
    m.supply.pop_off = m.supply.pop_off * (1.0 + 1.6 * stuck)
    m.supply.jets = m.supply.jets * (1.0 - 0.97 * s)
    m.supply.varnish = m.supply.varnish + 0.75 * s


def needle_leak(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.supply.needle_leak = m.supply.needle_leak + 5.0 * s
    m.supply.flood = m.supply.flood + 9.0 * s
    m.supply.pop_off = m.supply.pop_off * (1.0 - 0.75 * s)
    m.supply.varnish = m.supply.varnish + 0.55 * s * kind
    m.signs.dirt = m.signs.dirt + 0.2 * s


def flooded(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.supply.flood = m.supply.flood + 16.0 * s
    m.cylinder.oil_film = m.cylinder.oil_film * (1.0 - 0.45 * s)


def mixture_altered(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """Turned in (lean, kind below 0.6) or out (rich)."""
    m.supply.screws = m.supply.screws * np.exp(np.where(kind < 0.6, -1.3, 1.0) * s)
    m.signs.opened_before = m.signs.opened_before + 0.5 * s * (kind * 7.0 % 1.0 > 0.3)


def oil_wrong(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """No oil in the fuel (kind below 0.6) or far too much."""
    m.supply.oil_share = m.supply.oil_share * np.where(kind < 0.6, 1.0 - 0.95 * s, 1.0 + 5.0 * s)
    m.plug.soot = m.plug.soot + 0.4 * s * (kind >= 0.6)
    m.cylinder.scoring = m.cylinder.scoring + 0.15 * s * (kind < 0.6)


def air_filter(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.breath.filter_flow = m.breath.filter_flow * (1.0 - 0.88 * s)
    m.breath.filter_dirt = m.breath.filter_dirt + 0.7 * s
    m.signs.dirt = m.signs.dirt + 0.3 * s
    m.plug.soot = m.plug.soot + 0.4 * s


def choke(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """Will not close (kind below one half) or will not open."""
    m.breath.choke_reach = m.breath.choke_reach * (1.0 - 0.97 * np.minimum(1.6 * s, 1.0) * (kind < 0.5))
    m.breath.choke_rest = np.maximum(m.breath.choke_rest, 0.95 * s * (kind >= 0.5))
    m.breath.choke_stick = m.breath.choke_stick + 0.85 * s
    m.plug.soot = m.plug.soot + 0.25 * s * (kind >= 0.5)


def rings(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.cylinder.ring_leak = m.cylinder.ring_leak + _area(m, 0.9e-6) * s
    m.cylinder.scoring = m.cylinder.scoring + 0.2 * s


def scored(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.cylinder.bore_leak = m.cylinder.bore_leak + _area(m, 1.3e-6) * s * acting
    m.cylinder.scoring = m.cylinder.scoring + 0.85 * s


def gasket(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.cylinder.gasket_leak = m.cylinder.gasket_leak + _area(m, 0.9e-6) * s
    m.crankcase.seal_leak = m.crankcase.seal_leak + 0.7e-6 * s
    m.signs.opened_before = m.signs.opened_before + 0.35 * s * (kind > 0.4)


def plug_loose(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.cylinder.seat_leak = m.cylinder.seat_leak + _area(m, 0.9e-6) * s
    m.plug.looseness = np.maximum(m.plug.looseness, s)


def crank_seal(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.crankcase.seal_leak = m.crankcase.seal_leak + 1.6e-6 * s * (0.25 + 0.75 * acting)
    m.signs.dirt = m.signs.dirt + 0.2 * s


def reed(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.crankcase.reed_leak = m.crankcase.reed_leak + 6.0e-6 * s
    m.signs.reed_gap = np.maximum(m.signs.reed_gap, s)


def decompression_stuck(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.cylinder.decompressor_leak = m.cylinder.decompressor_leak + _area(m, 1.4e-6) * s
    m.signs.decompressor_stick = m.signs.decompressor_stick + 0.8 * s


def seized(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.cylinder.seized = np.maximum(m.cylinder.seized, s > 0.0)
    m.cylinder.scoring = m.cylinder.scoring + 0.9 * s


def screen(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    m.breath.screen_flow = m.breath.screen_flow * (1.0 - 0.93 * s)
    m.plug.soot = m.plug.soot + 0.3 * s


def cooling(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """Packed fins: it overheats when it has run; the choking is always there."""
    m.breath.fins_flow = m.breath.fins_flow * (1.0 - 0.9 * s)
    m.signs.dirt = m.signs.dirt + 0.45 * s


def other(m: Machine, s: Array, acting: Array, kind: Array) -> None:
    """Not in the table: the passage that carries the crankcase pulse to the fuel pump is blocked."""
    m.supply.pulse = m.supply.pulse * (1.0 - 0.95 * s)


def _area(m: Machine, small: float) -> float:
    """Leak area scaled from the smallest demo engine to this bore."""
    return small * (m.model.bore / 34e-3) ** 2
