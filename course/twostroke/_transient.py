"""Opening transient of the coupled windings, exact between switching events, for many engines at once.

The primary current is interrupted at time zero. Between events the circuit is linear with constant
elements, so the state after a step ``h`` is ``expm(A h)`` times the state before it. Per engine and mode
one chain of matrix exponentials is made, each link the square of the one before: the links longer than a
step give whole stretches of the waveform by doubling, the links shorter than a step locate a crossing by
halving. Nothing is integrated.

Everything here is in SI floats. Arrays carry the engine (or engine and speed) on the first axis.

States, scaled to the square root of energy (current times root inductance, voltage times root capacitance):
primary and secondary current, primary voltage, voltage at the winding end of the lead, voltage at the plug, a
constant 1 that feeds in the emf of the still turning magnet, and the current of shorted turns, left out of
the state where no engine of the batch has any.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

PRIMARY, SECONDARY, SWITCH, WINDING_END, PLUG, ONE, SHORTED = range(7)

# Numerical settings: they set accuracy and cost, not physics.
STEPS_PER_RING = (
    10  # steps in one period of the ringing of the leakage inductance with the primary capacitance
)
HALVINGS = 1  # a crossing is located on a cubic over one half to this power of a step
DOUBLINGS = 4  # a stretch is two to this power steps
MOST_STEPS = 1 << 15
LEAST_STEP = 1e-3  # of half a step: an event is at least this far ahead, so that a run always moves on
NORM_FOR_SERIES = 0.35  # the Taylor series of degree 8 is used below this norm (error below 1e-9)
STIFFEST_LEAD = (
    50.0  # ohm; a smaller lead resistance only shortens a time constant of some tens of picoseconds
)
SMALLEST_CAPACITANCE = 1e-13  # F
TIGHTEST_COUPLING = 0.99999


@dataclass(frozen=True)
class Circuit:
    """Elements of the open circuit in SI, each an array of one value an engine.

    An absent clamp is ``inf`` volts; an absent shunt, stop path or loss is ``inf`` ohms; an absent shorted
    winding has zero couplings; an absent series gap breaks down at 0 V.
    """

    l1: Array
    l2: Array
    k: Array
    r1: Array
    r2: Array
    c1: Array
    c2a: Array
    c2b: Array
    r_loss: Array
    r_lead: Array
    clamp: Array
    r_stop: Array
    r_shunt: Array
    l3: Array
    r3: Array
    k13: Array
    k23: Array
    gap_breakdown: Array

    @staticmethod
    def of(count: int, **values: object) -> Circuit:
        """Broadcast to ``count`` engines and keep values away from exact singularities."""
        full = {
            name: np.broadcast_to(np.asarray(value, float), (count,)).copy() for name, value in values.items()
        }
        for name in ("k", "k13", "k23"):
            full[name] = np.minimum(full[name], TIGHTEST_COUPLING)
        full["r_lead"] = np.maximum(full["r_lead"], STIFFEST_LEAD)
        full["r_shunt"] = np.maximum(full["r_shunt"], 1.0)
        for name in ("c1", "c2a", "c2b"):
            full[name] = np.maximum(full[name], SMALLEST_CAPACITANCE)
        return Circuit(**full)

    def take(self, index: object) -> Circuit:
        """Return the engines that ``index`` picks."""
        return Circuit(**{name: getattr(self, name)[index] for name in self.__dataclass_fields__})

    @property
    def states(self) -> int:
        """Length of the state: 7 where any engine has shorted turns, else 6."""
        return 7 if np.any(self.k13) or np.any(self.k23) else 6

    @property
    def ring_period(self) -> Array:
        """Period of the leakage ringing seen from the primary."""
        leak = 1.0 - self.k**2
        return 2 * np.pi * np.sqrt(self.l1 * leak * self.c1)

    @property
    def main_quarter(self) -> Array:
        """Quarter period of the secondary against all capacitance: about the time to the peak."""
        total = self.c2a + self.c2b + self.c1 * self.l1 / self.l2
        return 0.5 * np.pi * np.sqrt(self.l2 * total)


def inverse_of_coupling(k12: Array, k13: Array, k23: Array) -> Array:
    """Inverse of the 3 by 3 matrix of coupling factors, shape (engines, 3, 3)."""
    det = 1 + 2 * k12 * k13 * k23 - k12**2 - k13**2 - k23**2
    out = np.empty((*k12.shape, 3, 3))
    out[..., 0, 0], out[..., 1, 1], out[..., 2, 2] = 1 - k23**2, 1 - k13**2, 1 - k12**2
    out[..., 0, 1] = out[..., 1, 0] = k13 * k23 - k12
    out[..., 0, 2] = out[..., 2, 0] = k12 * k23 - k13
    out[..., 1, 2] = out[..., 2, 1] = k12 * k13 - k23
    return out / det[..., None, None]


def rates(
    circuit: Circuit,
    emf: Array,
    swing: Array | None,
    states: int,
    clamped: bool,
    gap_open: bool,
    burning: bool,
) -> Array:
    """Matrix A of ``dx/dt = A x`` of each engine in one mode, shape (engines, states, states).

    Parameters
    ----------
    emf : array (engines, 3)
        Voltage that the turning magnet induces in each winding at opening (V).
    swing : array (engines,), optional
        The emf follows the cosine of this rate (rad/s); left out, it is constant.
    states : int
        Length of the state.
    clamped, gap_open, burning : bool
        The primary voltage is held by the clamp; the gap in the lead has not broken down; the plug is alight.
    """
    c = circuit
    count = len(c.l1)
    with_short = circuit.states == 7
    currents = [PRIMARY, SECONDARY, SHORTED][: 3 if with_short else 2]
    w1, w2 = 1 / np.sqrt(c.l1 * c.c1), 1 / np.sqrt(c.l2 * c.c2a)
    drive = np.zeros((count, 3, states))
    drive[:, 0, PRIMARY], drive[:, 1, SECONDARY] = -c.r1 / c.l1, -c.r2 / c.l2
    drive[:, 0, SWITCH], drive[:, 1, WINDING_END] = -w1, -w2
    drive[:, :, ONE if swing is None else states - 2] = emf / np.sqrt(np.stack([c.l1, c.l2, c.l3], axis=-1))
    if with_short:
        drive[:, 2, SHORTED] = -c.r3 / c.l3
    a = np.zeros((count, states, states))
    coupled = inverse_of_coupling(c.k, c.k13, c.k23) @ drive
    for row, current in enumerate(currents):
        a[:, current] = coupled[:, row]
    if swing is not None:
        a[:, states - 2, states - 1], a[:, states - 1, states - 2] = -swing, swing
    if not clamped:
        a[:, SWITCH, PRIMARY] = w1
        a[:, SWITCH, SWITCH] = -1 / (c.r_stop * c.c1)
    lead = np.zeros(count) if gap_open else 1 / c.r_lead
    cross = lead / np.sqrt(c.c2a * c.c2b)
    a[:, WINDING_END, SECONDARY] = w2
    a[:, WINDING_END, WINDING_END] = -(1 / c.r_loss + lead) / c.c2a
    a[:, WINDING_END, PLUG] = cross
    if not burning:
        a[:, PLUG, WINDING_END] = cross
        a[:, PLUG, PLUG] = -(lead + 1 / c.r_shunt) / c.c2b
    return a


def exponential_chain(a: Array, step: Array, halvings: int, doublings: int) -> Array:
    """``expm(a step 2**j)`` for j from -halvings to doublings - 1, shape (engines, levels, n, n)."""
    norm = float(np.max(np.abs(a).sum(axis=-1).max(axis=-1) * step, initial=0.0))
    depth = max(halvings, int(np.ceil(np.log2(max(norm, 1e-300) / NORM_FOR_SERIES))), 0)
    x = a * (step / 2.0**depth)[:, None, None]
    eye = np.eye(a.shape[-1])
    x2 = x @ x
    x4 = x2 @ x2
    # Taylor series of degree 8 in five products (grouped in powers of x2 and x4).
    low = eye + x + x2 / 2 + (x2 @ x) / 6
    high = eye / 24 + x / 120 + x2 / 720 + (x2 @ x) / 5040 + x4 / 40320
    link = low + x4 @ high
    chain = np.empty((len(a), halvings + doublings, *a.shape[1:]))
    first = depth - halvings
    for level in range(depth + doublings):
        if level > 0:
            link = link @ link
        if level >= first:
            chain[:, level - first] = link
    return chain


def stretch(links: list[Array], state: Array) -> Array:
    """States at 0, 1, ... 2**len(links) steps, shape (engines, states, 2**len(links) + 1).

    ``links`` are the exponentials of 1, 2, 4, ... steps.
    """
    out = np.empty((*state.shape, (1 << len(links)) + 1))
    out[..., 0] = state
    np.matmul(links[0], state[..., None], out=out[..., 1:2])
    done = 1
    for link in links:
        np.matmul(link, out[..., 1 : done + 1], out=out[..., done + 1 : 2 * done + 1])
        done *= 2
    return out


def cubic_root(ends: Array, changes: Array) -> Array:
    """Where the cubics with these values and slopes at 0 and 1 rise through zero: secant, then Newton."""
    g0, rise = ends[:, 0], np.maximum(ends[:, 1] - ends[:, 0], 1e-300)
    d0, d1 = changes[:, 0], changes[:, 1]
    c3 = d0 + d1 - 2 * rise
    c2 = rise - d0 - c3
    part = np.minimum(np.maximum(-g0 / rise, LEAST_STEP), 1.0)
    value = g0 + part * (d0 + part * (c2 + part * c3))
    slope = d0 + part * (2 * c2 + 3 * part * c3)
    part = part - value / np.maximum(slope, 0.2 * rise)
    return np.minimum(np.maximum(part, LEAST_STEP), 1.0)
