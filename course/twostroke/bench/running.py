"""Trying the machine: pulls by hand, and the verify run that must meet the complaint's own condition."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from twostroke.bench import mixture, pull, sparks, start
from twostroke.bench.seeds import Draws

if TYPE_CHECKING:
    from twostroke.bench.situation import Situation
    from twostroke.table import Table

SHORT_RUN = 0.6
"""Minutes of running in a verify run that leave a cold machine cold."""


@dataclass(frozen=True)
class Tried:
    """How a verify run or a few pulls went."""

    runs: bool
    fired: bool
    pulls: int
    words: str


def verify(situation: Situation, table: Table, condition: str, draws: Draws) -> Tried:
    """Start by the drill, open up, stop, start again, in one condition."""
    machine = situation.machine(table, moving=condition == "shake")
    heat = situation.heat
    got = start.prove(machine, situation.fuel, heat.module, heat.engine, draws, situation.stop_lead_on)
    for started, again in ((got.first, False), (got.again, True)):
        if not started.runs[0]:
            fired = bool(started.fired[0])
            return Tried(False, fired, start.VERIFY_PULLS, _no_start(fired, again))
    situation.fired_lately = True
    pulls = int(got.first.pulls[0])
    count = f"Starts at pull {pulls} and starts again"
    if not got.passed[0]:
        words = f"{count}, but it has not its full strength: it falls off when opened up."
        return Tried(False, True, pulls, words)
    return Tried(True, True, pulls, f"{count}, takes the throttle cleanly, stops when it is stopped.")


def _no_start(fired: bool, again: bool) -> str:
    if again:
        return "Started once; after stopping it does not start again."
    if fired:
        return "It fires and dies again."
    return f"{start.VERIFY_PULLS} pulls by the drill: it does not fire."


def pulls(
    situation: Situation, table: Table, count: int, effort: str, choke: float, plug_out: bool, draws: Draws
) -> Tried:
    """Pulls of the rope, one after the other, as many as asked for or until it runs."""
    machine = situation.machine(table)
    fuel = situation.fuel
    out = sparks.output(machine, situation.heat.module, "plug", fuel, situation.stop_lead_on)
    if plug_out:
        speeds = [
            float(pull.rope(machine, effort, True).at(25.0, pull.luck_of(1, draws))[0][0].max())
            for _ in range(count)
        ]
        fuel.puddle[:] *= 0.7**count
        turning = "turns freely" if max(speeds) > 0 else "cannot be turned"
        return Tried(False, False, count, f"Plug out: the engine {turning}; nothing can fire.")
    if machine.cylinder.seized[0] > 0.5:
        return Tried(False, False, count, "The rope does not come out: the engine cannot be turned.")
    able = bool(start.can_run(machine, out, max(situation.heat.engine, 60.0))[0])
    fired = 0
    for number in range(1, count + 1):
        got = start.one_pull(machine, out, fuel, situation.heat.engine, choke, effort, draws)
        fired += int(got.fired[0])
        if got.fired[0] and able and fuel.puddle[0] < 3.0 * mixture.CONSTANTS.wet_from:
            fuel.puddle[:] = 0.0
            situation.fired_lately = True
            return Tried(True, True, number, f"It starts at pull {number} and runs.")
    if fired:
        return Tried(False, True, count, f"It fires {'once' if fired == 1 else 'a few times'} and dies.")
    return Tried(False, False, count, f"{count} pull{'s' if count > 1 else ''}: it does not fire.")
