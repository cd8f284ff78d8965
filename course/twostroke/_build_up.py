"""Primary current while the magnet passes, up to the moment at which the module opens the circuit.

The flux table of an engine is laid out over positions; a speed turns positions into times. All inductances
share the winding permeance, so the two windings that carry current (primary and shorted turns) split into
two modes whose directions do not change, and each mode is a scalar that is carried on exactly over a step
with constant coefficients: no stiffness limits the step. SI floats; engines and speeds on the last axis,
positions on the first.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from twostroke._network import Array

# The flux bends within a gap's width where one shoe begins to leave the neighbour's leg and where the other
# begins to clear its own; between the two it is steepest, and there the module closes and opens. The table is
# fine at both bends. Per stretch: where it starts and ends (which bend, pitches from it), number of steps.
STRETCHES = (
    ((0, -0.60), (0, -0.04), 18),
    ((0, -0.04), (0, 0.04), 44),
    ((0, 0.04), (1, -0.03), 26),
    ((1, -0.03), (1, 0.03), 36),
    ((1, 0.03), (1, 0.15), 12),
    ((1, 0.15), (1, 1.38), 41),
)
MOST_DECAY = 500.0  # up to here the modes are summed in one go, beyond it step by step
LEAST_APART = 0.08  # pitches between the bends


@dataclass(frozen=True)
class Windings:
    """Primary and shorted turns, per engine and speed (SI); without shorted turns ``n3`` is 0."""

    n1: Array
    n3: Array
    r1: Array
    r3: Array
    k13: Array
    l1_per_permeance: Array  # L1 / winding permeance
    l3_per_permeance: Array


@dataclass(frozen=True)
class Opened:
    """State at opening, one value for each engine and speed; zero current where it never conducts."""

    i1: Array
    i3: Array
    position: Array
    permeance: Array
    flux_rate: Array  # dPhi/dt at that moment, in the driving direction (Wb/s)
    conducts: Array
    nodes: Array | None = None
    current: Array | None = None


def positions(pitch: Array, reach: Array, reversed_module: Array) -> Array:
    """Positions of the flux table, (positions, engines); ``reach`` is half of shoe and leg together (m)."""
    back = reversed_module > 0
    second = np.where(back, pitch - reach, -reach)
    first = np.minimum(np.where(back, reach, reach - pitch), second - LEAST_APART * pitch)
    bends = (first, second)
    parts: list[Array] = []
    for (low, before), (high, after), count in STRETCHES:
        start, end = bends[low] + before * pitch, bends[high] + after * pitch
        share = np.arange(count + (1 if len(parts) == len(STRETCHES) - 1 else 0))[:, None] / count
        parts.append(start + (end - start) * share)
    return np.concatenate(parts)


def _modes(windings: Windings, r1: Array) -> tuple[Array, Array, Array]:
    """Rates (per second, times the permeance) and directions of the two modes.

    With ``psi = L i`` the equations are ``psi' = -R M^-1 psi / P + f``; ``R^(1/2) M^-1 R^(1/2)`` is
    symmetric, so a rotation by one angle diagonalises it.
    """
    w = windings
    m11, m33 = w.l1_per_permeance, w.l3_per_permeance
    shrink = 1 - w.k13**2
    root1, root3 = np.sqrt(r1), np.sqrt(w.r3)
    s11, s33 = r1 / (m11 * shrink), w.r3 / (m33 * shrink)
    s13 = -w.k13 * root1 * root3 / (np.sqrt(m11 * m33) * shrink)
    turn = 0.5 * np.arctan2(2 * s13, s11 - s33)
    cos, sin = np.cos(turn), np.sin(turn)
    rate = np.stack(
        [s11 * cos**2 + 2 * s13 * sin * cos + s33 * sin**2, s11 * sin**2 - 2 * s13 * sin * cos + s33 * cos**2]
    )
    to = np.array([[cos / root1, sin / root3], [-sin / root1, cos / root3]])  # psi -> modes
    back = np.array([[root1 * cos, -root1 * sin], [root3 * sin, root3 * cos]])  # modes -> psi
    return rate, to, back


def _steps(rate: Array, to: Array, dt: Array, mid: Array, push1: Array, push3: Array) -> tuple[Array, Array]:
    """Exponent and input of every mode over every step: shapes (positions - 1, modes, engines)."""
    z = rate * (dt / mid)[:, None]
    inflow = to[:, 0] * push1[:, None]
    if np.any(push3):
        inflow = inflow + to[:, 1] * push3[:, None]
    return z, inflow * _mean_decay(z)


def _mean_decay(z: Array) -> Array:
    """Mean of ``exp(-t)`` for t from 0 to z."""
    return np.where(z > 1e-9, -np.expm1(-z) / np.maximum(z, 1e-9), 1.0)


def _carry(z: Array, inflow: Array) -> Array:
    """Modes at every position: decay by ``exp(-z)`` over a step, then the step's input."""
    out = np.zeros((len(z) + 1, *z.shape[1:]))
    total = np.cumsum(z, axis=0)
    if total[-1].max() < MOST_DECAY:
        grow = np.exp(total)
        np.divide(np.cumsum(inflow * grow, axis=0), grow, out=out[1:])
        return out
    decay = np.exp(-z)
    for k in range(len(z)):
        np.multiply(out[k], decay[k], out=out[k + 1])
        out[k + 1] += inflow[k]
    return out


def build_up(
    windings: Windings,
    nodes: Array,
    flux: Array,
    permeance: Array,
    surface_speed: Array,
    r_stop: Array,
    switch_drop: Array,
    switch_on: Array,
    trip: Array,
    record: bool = False,
) -> Opened:
    """Follow the primary current and return its state when the module opens.

    The switch conducts from the last moment before the largest voltage pulse at which the terminal voltage
    rises above ``switch_on``, drops ``switch_drop``, and opens at the current's peak or at ``trip``: common
    practice, no source.

    Parameters
    ----------
    nodes : array (positions, engines)
        Positions of the magnet (m).
    flux, permeance : array (positions, engines)
        Flux in the driving direction, and winding permeance, at the nodes.
    """
    w = windings
    switch_on = np.minimum(switch_on, 1e9)
    dt = np.diff(nodes, axis=0) / surface_speed
    mid = 0.5 * (permeance[1:] + permeance[:-1])
    rise = np.diff(flux, axis=0)
    one_mode = not np.any(w.n3) and bool(np.all(r_stop > 1e4))
    steps = np.arange(len(dt))[:, None]
    columns = np.arange(dt.shape[1])
    before = None
    if one_mode:
        volts = w.n1 * rise / dt
    else:
        parallel = w.r1 + np.minimum(r_stop, 1e9)
        rate, to, back = _modes(w, parallel)
        before = _carry(*_steps(rate, to, dt, mid, w.n1 * rise, w.n3 * rise))
        psi = np.einsum("ijc,kjc->kic", back, before)
        i1 = _currents(w, psi, permeance)[:, 0]
        volts = (w.n1 * rise - np.diff(psi[:, 0], axis=0)) / dt - 0.5 * w.r1 * (i1[1:] + i1[:-1])
    top = volts.argmax(axis=0)
    conducts = volts[top, columns] > switch_on
    quiet = (volts <= switch_on) & (steps <= top)
    last = np.where(quiet.any(axis=0), len(dt) - 1 - quiet[::-1].argmax(axis=0), 0)
    last = np.minimum(last, len(dt) - 2)
    low, high = volts[last, columns], volts[last + 1, columns]
    share = np.clip((switch_on - low) / np.where(high > low, high - low, 1.0), 0.0, 1.0)
    here, node, after = nodes[last, columns], nodes[last + 1, columns], nodes[last + 2, columns]
    place = 0.5 * (here + node) + share * 0.5 * (after - here)  # between the middles of the two steps
    place = np.where(quiet.any(axis=0), place, nodes[0, columns])
    first = np.where(quiet.any(axis=0), last + (place >= node), 0)
    rest = (nodes[first + 1, columns] - place) / (nodes[first + 1, columns] - nodes[first, columns])

    if one_mode:
        rate, to, back = (w.r1 / w.l1_per_permeance)[None], np.ones((1, 1, 1)), np.ones((1, 1, 1))
    else:
        rate, to, back = _modes(w, w.r1)
    z, inflow = _steps(rate, to, dt, mid, w.n1 * rise - switch_drop * dt, w.n3 * rise)
    # Of the step in which it closes, only the rest counts; there the voltage rises in a line from switch_on.
    middle = volts[first, columns]
    next_node = 0.5 * (middle + volts[np.minimum(first + 1, len(dt) - 1), columns])
    risen = np.where(quiet.any(axis=0), 0.5 * (switch_on + next_node), middle)
    push = (risen - switch_drop) * rest * dt[first, columns]
    lapse = rate * (rest * dt[first, columns] / mid[first, columns])
    start = to[:, 0] * push
    if not one_mode:
        start = start + to[:, 1] * (w.n3 * rise[first, columns] * rest)
    start = start * _mean_decay(lapse)
    if before is not None:
        psi_on = psi[first, :, columns].T * rest + psi[first + 1, :, columns].T * (1 - rest)
        start += np.einsum("ijc,jc->ic", to, psi_on) * np.exp(-lapse)
    inflow *= (steps > first)[:, None]
    inflow[first, :, columns] = start.T
    modes = _carry(z, inflow)
    if one_mode:
        i1 = modes[:, 0] / (w.l1_per_permeance * permeance)
        i3 = None
    else:
        both = _currents(w, np.einsum("ijc,kjc->kic", back, modes), permeance)
        i1, i3 = both[:, 0], both[:, 1]
    i1 = np.where(np.arange(len(i1))[:, None] > first, i1, 0.0)
    return _open(w, nodes, flux, permeance, surface_speed, i1, i3, switch_drop, trip, conducts, record)


def _currents(w: Windings, psi: Array, permeance: Array) -> Array:
    m11, m33 = w.l1_per_permeance, w.l3_per_permeance
    m13 = w.k13 * np.sqrt(m11 * m33)
    det = (m11 * m33 - m13**2) * permeance
    return np.stack(
        [(m33 * psi[:, 0] - m13 * psi[:, 1]) / det, (m11 * psi[:, 1] - m13 * psi[:, 0]) / det], axis=1
    )


def _open(
    w: Windings, nodes: Array, flux: Array, permeance: Array, surface_speed: Array, i1: Array,
    i3: Array | None, switch_drop: Array, trip: Array, conducts: Array, record: bool,
) -> Opened:  # fmt: skip
    columns = np.arange(i1.shape[1])
    peak = np.clip(i1.argmax(axis=0), 1, len(i1) - 2)
    left, here, right = i1[peak - 1, columns], i1[peak, columns], i1[peak + 1, columns]
    x0, x1, x2 = nodes[peak - 1, columns], nodes[peak, columns], nodes[peak + 1, columns]
    down, up = (here - left) / (x1 - x0), (right - here) / (x2 - x1)
    bend = (up - down) / (x2 - x0)
    flat = np.where(bend < 0, 0.5 * (x0 + x1) - 0.5 * down / np.where(bend < 0, bend, 1.0), x1)
    flat = np.minimum(np.maximum(flat, x0), x2)
    current = left + down * (flat - x0) + bend * (flat - x0) * (flat - x1)
    place = peak + np.where(flat >= x1, (flat - x1) / (x2 - x1), (flat - x1) / (x1 - x0))
    over = i1 >= trip
    tripped = over.any(axis=0)
    k = np.maximum(over.argmax(axis=0), 1)
    below, above = i1[k - 1, columns], i1[k, columns]
    part = np.clip((trip - below) / np.where(above > below, above - below, 1.0), 0.0, 1.0)
    place = np.where(tripped, k - 1 + part, place)
    current = np.where(tripped, trip, current)
    base = np.clip(place.astype(int), 1, len(i1) - 3)
    f = place - base

    def at(values: Array) -> Array:
        return values[base, columns] * (1 - f) + values[base + 1, columns] * f

    # At a peak di/dt is zero, so the emf is what resistance, switch and the changing inductance take; where
    # the module trips, it is the slope of the flux.
    spacing = nodes[base + 1, columns] - nodes[base, columns]
    turning = w.l1_per_permeance * (permeance[base + 1, columns] - permeance[base, columns]) / spacing
    at_peak = (w.r1 * current + switch_drop) / w.n1 + current * turning * surface_speed / w.n1
    at_trip = (flux[base + 1, columns] - flux[base, columns]) / spacing * surface_speed
    zero = np.zeros_like(current)
    return Opened(
        i1=np.where(conducts, np.maximum(current, 0.0), 0.0),
        i3=np.where(conducts, at(i3), 0.0) if i3 is not None else zero,
        position=np.where(conducts, at(nodes), 0.0),
        permeance=at(permeance),
        flux_rate=np.where(tripped, at_trip, at_peak),
        conducts=conducts,
        nodes=nodes if record else None,
        current=i1 if record else None,
    )
