"""The opening transient run from event to event: clamp, gap in the lead, breakdown at the plug, end of the
burn.

Between two events an engine keeps one mode and one chain of matrix exponentials (see ``_transient``). Each
round every engine still running goes one stretch on, or up to its next event and into its next mode. Every
event is a linear function of the state that rises through zero. SI floats.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from twostroke._transient import (
    DOUBLINGS,
    HALVINGS,
    MOST_STEPS,
    ONE,
    PLUG,
    PRIMARY,
    SECONDARY,
    SHORTED,
    STEPS_PER_RING,
    SWITCH,
    WINDING_END,
    Array,
    Circuit,
    cubic_root,
    exponential_chain,
    rates,
    stretch,
)

CLAMPED, GAP_OPEN, BURNING, SPENT = 1, 2, 4, 8
PAST_PEAK = 0.85  # a run without breakdown ends when the voltage has fallen to this part of its peak
LONGEST_BURN = 6e-3  # s
NEVER = 1e15  # V or A, stands for a threshold that is never reached


@dataclass
class Outcome:
    """What the transient gave, one value an engine."""

    peak: Array  # highest voltage at the plug (V)
    time: Array  # when (s)
    broke_down: Array  # bool
    breakdown_time: Array  # s
    burn_time: Array  # s
    burn_energy: Array  # J, at the gap while alight
    capacitive_energy: Array  # J, given up by the capacitance at the plug when it broke down
    rounds: int = 0
    trace: list[tuple[int, Array, Array]] = field(
        default_factory=list
    )  # mode, times, states of the first engine


@dataclass
class _Store:
    """Matrices of every engine in every mode that it has been in, one row each."""

    chain: Array  # (rows, levels, states, states)
    events: Array  # (rows, events, states)
    kinds: np.ndarray  # (rows, events)
    a: Array  # (rows, states, states)


class Opening:
    """One batch of opening transients.

    Parameters
    ----------
    circuit : Circuit
        Elements, one value an engine.
    currents : array (engines, 3)
        Primary, secondary and shorted-turn current at opening (A).
    emf : array (engines, 3), optional
        Rotational emf of each winding during the transient (V).
    demand : array (engines,), optional
        Voltage at which the plug breaks down; ``inf`` for never.
    burn_voltage, extinction_current : float or array
        Voltage across the plug while alight, and the current below which it goes out.
    swing : array (engines,), optional
        Rate of the cosine that the emf follows (rad/s); left out, the emf is constant.
    horizon : float or array, optional
        Longest time to follow (s); by default until the voltage falls again after its peak, or the burn ends.
    doublings : int
        A stretch between two looks for events is two to this power steps.
    """

    def __init__(
        self,
        circuit: Circuit,
        currents: Array,
        emf: Array | None = None,
        demand: Array | float = np.inf,
        burn_voltage: Array | float = 500.0,
        extinction_current: Array | float = 2e-3,
        swing: Array | None = None,
        horizon: Array | float | None = None,
        doublings: int = DOUBLINGS,
    ) -> None:
        c = self.circuit = circuit
        n = self.count = len(c.l1)
        self.swing, self.doublings = swing, doublings
        self.states = c.states + (2 if swing is not None else 0)

        def full(value: Array | float) -> Array:
            return np.minimum(np.broadcast_to(np.asarray(value, float), (n,)), NEVER)

        self.emf = np.zeros((n, 3)) if emf is None else emf
        self.demand, self.burn_voltage = full(demand), full(burn_voltage)
        self.extinction, self.clamp = full(extinction_current), full(c.clamp)
        quiet = 2.2 * c.main_quarter + 3 * np.minimum(c.r_lead, 1e7) * c.c2b
        self.follow = horizon is not None
        longest = np.where(self.demand < NEVER, LONGEST_BURN, quiet)
        self.horizon = full(longest if horizon is None else horizon)
        self.step = np.clip(c.ring_period / STEPS_PER_RING, quiet / MOST_STEPS, c.main_quarter / 48)
        self.root_l1 = np.sqrt(c.l1)
        self.root_c1, self.root_c2a, self.root_c2b = np.sqrt(c.c1), np.sqrt(c.c2a), np.sqrt(c.c2b)
        self.state = np.zeros((n, self.states))
        self.state[:, PRIMARY] = currents[:, 0] * self.root_l1
        self.state[:, SECONDARY] = currents[:, 1] * np.sqrt(c.l2)
        if c.states > SHORTED:
            self.state[:, SHORTED] = currents[:, 2] * np.sqrt(c.l3)
        self.state[:, ONE] = 1.0
        if swing is not None:
            self.state[:, -2] = 1.0
        self.mode = np.where(c.gap_breakdown > 0, GAP_OPEN, 0)
        self.store: _Store | None = None
        self.table = np.full(
            (2 * SPENT, n), -1
        )  # row of the store of each engine in each mode, -1 where none
        self.every = np.arange(n)
        self.top, self.best, self.when = np.zeros(n), np.zeros((n, 3)), np.zeros(n)
        self.held = self.clamp * self.root_c1
        self.just_under = np.where(
            np.arange(2 * SPENT) & CLAMPED, 1 - 1e-9, 1.0
        )  # by mode, leaving the clamp
        self.has_clamp = bool((self.clamp < NEVER).any())
        self.has_gap = bool((c.gap_breakdown > 0).any())
        self.can_fire = bool((self.demand < NEVER).any())

    def _functionals(self, mode: int, index: np.ndarray) -> tuple[list[int], Array]:
        """Linear functions that rise through zero at an event, shape (engines, events, states)."""
        c = self.circuit
        weights: list[tuple[int, dict[int, Array]]] = []
        if mode & CLAMPED:
            leak = self.clamp[index] / c.r_stop[index]
            weights.append((CLAMPED, {ONE: leak, PRIMARY: -1 / self.root_l1[index]}))
        elif self.has_clamp:
            weights.append((CLAMPED, {ONE: -self.clamp[index], SWITCH: 1 / self.root_c1[index]}))
        if self.has_gap:
            jump = -c.gap_breakdown[index] if mode & GAP_OPEN else np.full(len(index), -NEVER)
            weights.append((GAP_OPEN, {ONE: jump, WINDING_END: 1 / self.root_c2a[index]}))
        if mode & BURNING:
            lead, shunt = 1 / c.r_lead[index], 1 / c.r_shunt[index]
            ends = {WINDING_END: -lead / self.root_c2a[index], PLUG: (lead + shunt) / self.root_c2b[index]}
            weights.append((BURNING, {ONE: self.extinction[index], **ends}))
        elif self.can_fire:
            volts = np.full(len(index), NEVER) if mode & SPENT else self.demand[index]
            weights.append((BURNING, {ONE: -volts, PLUG: 1 / self.root_c2b[index]}))
        rows = np.zeros((len(index), len(weights), self.states))
        for number, (_, parts) in enumerate(weights):
            for state, weight in parts.items():
                rows[:, number, state] = weight
        return [kind for kind, _ in weights], rows

    def _rows(self, index: np.ndarray) -> np.ndarray:
        """Rows of the store of these engines in the modes they are in, made where they are missing."""
        modes = self.mode[index]
        rows = self.table[modes, index]
        if rows.min() < 0:
            missing = rows < 0
            for mode in set(modes[missing].tolist()):
                self._enter(mode, index[missing & (modes == mode)])
            rows = self.table[modes, index]
        return rows

    def _enter(self, mode: int, index: np.ndarray) -> None:
        """Make the matrices of engines that come into a mode for the first time."""
        a = rates(
            self.circuit.take(index), self.emf[index], None if self.swing is None else self.swing[index],
            self.states, bool(mode & CLAMPED), bool(mode & GAP_OPEN), bool(mode & BURNING),
        )  # fmt: skip
        chain = exponential_chain(a, self.step[index], HALVINGS, self.doublings)
        kinds, events = self._functionals(mode, index)
        labels = np.tile(np.array(kinds, int), (len(index), 1))
        store = self.store
        if store is None:
            self.table[mode, index] = np.arange(len(index))
            self.store = _Store(chain, events, labels, a)
        else:
            self.table[mode, index] = len(store.a) + np.arange(len(index))
            store.chain = np.concatenate([store.chain, chain])
            store.events = np.concatenate([store.events, events])
            store.kinds = np.concatenate([store.kinds, labels])
            store.a = np.concatenate([store.a, a])

    def run(self, record: bool = False) -> Outcome:
        """Follow every engine to the end and return what was seen."""
        n, self.record = self.count, record
        time = np.zeros(n)
        out = Outcome(
            np.zeros(n),
            np.zeros(n),
            np.zeros(n, bool),
            np.full(n, np.nan),
            np.zeros(n),
            np.zeros(n),
            np.zeros(n),
        )
        running = np.arange(n)
        self.row = self._rows(running)
        while len(running) and out.rounds < 8 * MOST_STEPS >> self.doublings:
            out.rounds += 1
            self._advance(running, time, out)
            alive = time[running] < self.horizon[running]
            if not self.follow:
                waiting = self.state[running, PLUG] >= PAST_PEAK * self.top[running]
                if self.has_gap:
                    waiting |= self.mode[running] & GAP_OPEN > 0
                if self.can_fire:
                    waiting |= self.mode[running] & BURNING > 0
                    waiting &= self.mode[running] & SPENT == 0
                alive &= waiting
            if not alive.all():
                running = running[alive]
        self._find_peaks(out)
        return out

    def _advance(self, index: np.ndarray, time: Array, out: Outcome) -> None:
        store = self.store
        assert store is not None
        row = self.row[index]
        chain = store.chain[row]
        x = stretch(
            [chain[:, level] for level in range(HALVINGS, HALVINGS + self.doublings)], self.state[index]
        )
        start, step = time[index], self.step[index]
        every = self.every[: len(index)]
        last = np.full(len(index), 1 << self.doublings)
        plug = x[:, PLUG]
        hits = every[:0]
        if store.events.shape[1]:
            margin = store.events[row] @ x
            hit = (margin[:, 0] if margin.shape[1] == 1 else margin.max(axis=1))[:, 1:] >= 0
            first = hit.argmax(axis=1)
            hits = hit[every, first].nonzero()[0]
            if len(hits):
                last[hits] = first[hits]
                plug = plug.copy()
                plug[hits] = np.where(np.arange(plug.shape[1]) <= last[hits, None], plug[hits], -1.0)
        self._note_peak(index, plug, start, step)
        if self.can_fire:
            self._note_burn(index, x, last, out)
        self.state[index] = x[every, :, last]
        time[index] = start + last * step
        if self.record and index[0] == 0:
            upto = int(last[0]) + 1
            out.trace.append((int(self.mode[0]), start[0] + step[0] * np.arange(upto), x[0, :, :upto].copy()))
        if len(hits):
            after = x[hits, :, last[hits] + 1]
            self._locate(index[hits], row[hits], chain[hits, 0], after, time, out)
            if self.record and hits[0] == 0 and index[0] == 0:
                out.trace.append((int(self.mode[0]), time[:1].copy(), self.state[0][:, None].copy()))

    def _note_peak(self, index: np.ndarray, plug: Array, start: Array, step: Array) -> None:
        """Keep the highest voltage so far: by a parabola where it lies between samples."""
        high = plug.argmax(axis=1)
        value = plug[self.every[: len(index)], high]
        better = (value > self.top[index]).nonzero()[0]
        if not len(better):
            return
        at, high = index[better], high[better]
        middle = np.minimum(np.maximum(high, 1), plug.shape[1] - 2)
        samples = plug[better[:, None], middle[:, None] + _THREE]
        self.top[at] = value[better]
        self.best[at] = samples
        self.when[at] = start[better] + high * step[better]

    def _find_peaks(self, out: Outcome) -> None:
        left, here, right = self.best.T
        bend = left - 2 * here + right
        inside = (here == self.top) & (right >= 0) & (bend < 0)
        shift = np.where(inside, 0.5 * (left - right) / np.where(inside, bend, 1.0), 0.0)
        value = np.where(inside, here - 0.25 * (left - right) * shift, self.top) / self.root_c2b
        out.peak = np.where(out.broke_down, self.demand, value)
        out.time = np.where(out.broke_down, out.breakdown_time, self.when + shift * self.step)

    def _note_burn(self, index: np.ndarray, x: Array, last: Array, out: Outcome) -> None:
        alight = (self.mode[index] & BURNING).nonzero()[0]
        if not len(alight):
            return
        at, x, last = index[alight], x[alight], last[alight]
        c, rows = self.circuit, np.arange(len(alight))
        # Charge into the gap by the balance at the winding's end: the first surge is shorter than a step.
        end = x[:, WINDING_END] / self.root_c2a[at][:, None]
        inflow = x[:, SECONDARY] / np.sqrt(c.l2[at])[:, None] - end / c.r_loss[at][:, None]
        cell = 0.5 * (inflow[:, 1:] + inflow[:, :-1])
        cell[np.arange(cell.shape[1]) >= last[:, None]] = 0.0
        volts = x[:, PLUG, 0] / self.root_c2b[at]
        charge = cell.sum(axis=1) * self.step[at] - c.c2a[at] * (end[rows, last] - end[:, 0])
        charge -= volts / c.r_shunt[at] * last * self.step[at]
        out.burn_energy[at] += charge * volts
        out.burn_time[at] += last * self.step[at]

    def _locate(
        self, index: np.ndarray, row: np.ndarray, half: Array, after: Array, time: Array, out: Outcome
    ) -> None:
        """Move engines that are less than a step before an event to the event and into their next mode.

        In the half of the step that holds the event, the event's function and then the state are cubics
        through the values and rates at both ends.
        """
        store = self.store
        assert store is not None
        before = self.state[index]
        events = store.events[row]
        if events.shape[1] == 1:
            which, event = np.zeros(len(index), int), events
        else:
            which = (events @ after[..., None])[..., 0].argmax(axis=1)
            event = events[self.every[: len(index)], which][:, None, :]
        middle = half @ before[..., None]
        late = (event @ middle)[:, 0] < 0
        ends = np.empty((*before.shape, 2))
        ends[..., 0] = np.where(late, middle[..., 0], before)
        ends[..., 1] = np.where(late, after, middle[..., 0])
        step = 0.5 * self.step[index]
        changes = store.a[row] @ ends
        changes *= step[:, None, None]
        part = cubic_root((event @ ends)[:, 0], (event @ changes)[:, 0])
        a = part[:, None]
        b = 1 - a
        state = b * b * ((1 + 2 * a) * ends[..., 0] + a * changes[..., 0])
        state += a * a * ((1 + 2 * b) * ends[..., 1] - b * changes[..., 1])
        gone = (late[:, 0] + part) * step
        time[index] += gone
        if self.can_fire:
            out.burn_time[index] += np.where(self.mode[index] & BURNING, gone, 0.0)
        if self.record and index[0] == 0:
            out.trace.append((int(self.mode[0]), time[:1].copy(), state[0][:, None].copy()))
        self._switch(index, store.kinds[row, which], state, time, out)

    def _switch(self, index: np.ndarray, kind: np.ndarray, state: Array, time: Array, out: Outcome) -> None:
        """Put the engines into the modes that their events lead to."""
        old = self.mode[index]
        if self.has_gap or self.can_fire:
            new = self._other_events(index, kind, old, state, time, out)
        else:
            new = old ^ CLAMPED
            state[:, SWITCH] = self.held[index] * self.just_under[old]
        self.state[index] = state
        self.mode[index] = new
        self.row[index] = self._rows(index)
        if self.has_clamp:
            self._touch(index[((new & ~old) & CLAMPED).nonzero()[0]], time, out)

    def _other_events(
        self, index: np.ndarray, kind: np.ndarray, old: np.ndarray, state: Array, time: Array, out: Outcome
    ) -> np.ndarray:
        """New modes where the gap in the lead or the plug may have broken down, or the plug gone out."""
        c = self.circuit
        new = np.where(kind == CLAMPED, old ^ CLAMPED, old)
        held = self.held[index] * self.just_under[old]
        state[:, SWITCH] = np.where(kind == CLAMPED, held, state[:, SWITCH])
        new[kind == GAP_OPEN] &= ~GAP_OPEN
        sparks = (kind == BURNING).nonzero()[0]
        if len(sparks):
            lit = index[sparks]
            ends = (old[sparks] & BURNING) > 0
            new[sparks] = np.where(ends, (new[sparks] & ~BURNING) | SPENT, new[sparks] | BURNING)
            lit, sparks = lit[~ends], sparks[~ends]
            volts = np.minimum(self.burn_voltage[lit], self.demand[lit])
            out.broke_down[lit] = True
            out.breakdown_time[lit] = time[lit]
            out.capacitive_energy[lit] = 0.5 * c.c2b[lit] * (self.demand[lit] ** 2 - volts**2)
            state[sparks, PLUG] = volts * self.root_c2b[lit]
        return new

    def _touch(self, index: np.ndarray, time: Array, out: Outcome) -> None:
        """Let engines that have just reached the clamp leave it again, where that happens within one step."""
        if not len(index):
            return
        store = self.store
        assert store is not None
        row = self.row[index]
        ahead = (store.chain[row, HALVINGS] @ self.state[index, :, None])[..., 0]
        leaves = ((store.events[row] @ ahead[..., None])[..., 0].max(axis=1) >= 0).nonzero()[0]
        if len(leaves):
            row = row[leaves]
            self._locate(index[leaves], row, store.chain[row, 0], ahead[leaves], time, out)


_THREE = np.array([[-1, 0, 1]])
