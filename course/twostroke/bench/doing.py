"""What happens when an action is done: tests, repairs, covers, and the bench's own actions."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

from twostroke.bench import bench_actions, repairing, tests_at_bench, tools, words
from twostroke.bench.asking import gap_mm
from twostroke.bench.got import Got
from twostroke.bench.guard import what
from twostroke.bench.repairing import made
from twostroke.bench.seeds import Draws, unit_float
from twostroke.bench.situation import Situation
from twostroke.bench.view import View
from twostroke.table import UNDONE, Repair, Table, Test

_MOVES_WIRES = ("boot_check", "stop_lead_off", "lead_route", "stop_ohm", "known_good_plug", "spark_shake")
_DAMAGE = 0.35
"""Chance that turning over with an open high-tension lead harms the module; invented."""


@dataclass
class Work:
    """Does actions on one situation.

    Attributes
    ----------
    table : Table
    situation : Situation
    bands : dict
        Maker's bands in the table's units.
    """

    table: Table
    situation: Situation
    bands: dict[str, tuple[float, float]]
    _times: dict[str, int] = field(default_factory=dict)
    _readings: dict[str, tuple[int, int]] = field(default_factory=dict)

    # covers and warmth ----------------------------------------------------------------------------

    def open(self, names: list[str]) -> float:
        """Take covers off; minutes."""
        for name in names:
            self.situation.opened.append(name)
            if name in ("plug_out", "top_cover", "flywheel"):
                self.move()
        return sum(self.table.access[name].minutes for name in names)

    def bring_to(self, wanted: str) -> float:
        """Warm or cool the machine where it is not as wanted; minutes."""
        heat = self.situation.heat
        if wanted == "any" or wanted == heat.condition:
            return 0.0
        self.situation.epoch += 1
        if wanted == "hot":
            minutes = self.table.meta.cool_to_hot_minutes
            heat.run(max(minutes, 8.0), self._overheat())
            self.situation.running += minutes
            return minutes
        heat.rest(max(self.table.meta.hot_to_cool_minutes, 20.0))
        return self.table.meta.hot_to_cool_minutes

    def _overheat(self) -> float:
        flow = float(self.situation.machine(self.table).breath.fins_flow[0])
        return 90.0 * max(0.7 - flow, 0.0)

    def move(self) -> None:
        """Wires have been moved: what comes and goes with them is drawn anew."""
        self.situation.moved += 1
        self.situation.epoch += 1

    # doing ----------------------------------------------------------------------------------------

    def do(self, action: str, given: dict[str, Any], row: Test | Repair | None, missed: list[str]) -> Got:
        """Do an action that nothing stands in the way of."""
        count = self._times[action] = self._times.get(action, 0) + 1
        if action in self.table.access:
            note = self.table.access[action].note
            return Got(
                0.0,
                f"The {what(self.table, action)} is off." + (f" ({note})" if note else ""),
                conditions=self.now(),
            )
        if isinstance(row, Test):
            got = self._test(action, given, row)
        elif isinstance(row, Repair):
            got = self._repair(action, given, row, count)
        else:
            got = bench_actions.ACTIONS[action](self, given, count)
        return self._harm(got, missed, action, count)

    def now(self) -> tuple[str, ...]:
        """Present condition."""
        return (self.situation.heat.condition,)

    def draws(self, kind: str, count: int) -> Draws:
        """Luck of one kind of action."""
        return Draws(*self.situation.seed, kind, count)

    def view(self, test: str, given: dict[str, Any], reading: int, moving: bool = False) -> View:
        """The machine as a test meets it."""
        s = self.situation
        machine = s.machine(self.table, moving)
        wetness = np.where(s.fired_lately, 0.0, np.maximum(s.wetness, s.fuel.puddle))
        return View(
            machine, np.array([s.heat.module]), np.array([s.heat.engine]), s.fuel.copy(),
            Draws(*s.seed, test, s.epoch, reading), Draws(*s.seed, test, "lasting"),
            Draws(*s.seed, test, "owner"),
            self.bands, wetness, s.colour, stop_lead_on=s.stop_lead_on, ambient=s.heat.ambient,
            atmosphere=s.atmosphere, gap_mm=gap_mm(given.get("gap", f"{tools.TESTER_GAP} mm")),
            effort=given.get("pull", "normal"), plug_out="plug_out" in s.opened,
            nulled=bool(given.get("leads_nulled", True)),
        )  # fmt: skip

    def _test(self, name: str, given: dict[str, Any], row: Test) -> Got:
        s = self.situation
        before = s.heat.condition
        if row.forces == "hot":
            s.heat.warm_module(max(row.minutes - 6.0, 6.0))
            self.move()
        elif row.temp == "hot" and before != "hot":
            raise AssertionError("a hot test on a cold machine must be stopped before this")
        condition = row.condition(before)
        reading = self.reading(f"{name} {sorted(given.items())}")
        seen = tests_at_bench.run(name, self.table, self.view(name, given, reading, row.shake))
        result, sentence, shown = words.spoken(row, seen)
        if name == "dose_start":
            self.situation.epoch += 1
            s.fuel.puddle[:] = 0.0 if result == "runs_on" else s.fuel.puddle
        if row.leaves == "cold":
            s.heat.rest(max(20.0, self.table.meta.hot_to_cool_minutes))
        if name == "vent_listen":
            s.running = 0.0
        if name in _MOVES_WIRES:
            self.move()
        return Got(row.minutes, sentence, result, shown, conditions=(condition,))

    def reading(self, key: str) -> int:
        """Which draw of chance a test gets: mostly the last one again while nothing has changed."""
        epoch, number = self._readings.get(key, (-1, 0))
        if epoch == self.situation.epoch:
            again = unit_float(*self.situation.seed, "again", key, epoch, self._times.get(key.split()[0], 0))
            number = number if again < self.table.meta.repeat_corr else number + 1
        self._readings[key] = (self.situation.epoch, number)
        return number

    def _repair(self, name: str, given: dict[str, Any], row: Repair, count: int) -> Got:
        s = self.situation
        before = len(s.faults)
        done = repairing.repair(s, self.table, name, row, given, count)
        if done.taken and row.trial and len(s.faults) == before:
            s.on_trial.append((name, row.part))
        s.passed.clear()
        if done.taken and name in ("swap_plug", "clear_flood"):
            s.wetness = np.zeros(1)
        s.epoch += 1
        if done.moved:
            self.move()
        sentence = f"{(row.name or name).capitalize()}: {'done' if done.taken else 'it did not come to it'}."
        return Got(
            row.minutes + done.minutes, " ".join([sentence, *(done.words or [])]),
            None if done.taken else UNDONE,
            money=(row.part if done.taken else 0.0) + done.money, conditions=self.now(),
        )  # fmt: skip

    def _harm(self, got: Got, missed: list[str], action: str, count: int) -> Got:
        """What comes of a caution not kept: said, and where it harms the machine, done."""
        if not missed:
            return got
        text = f"{got.words} Caution not kept: {', '.join(self.table.hazards[name].name for name in missed)}."
        if "open_high_tension" in missed and unit_float(*self.situation.seed, "arc", action, count) < _DAMAGE:
            self.situation.faults.append(made("module_shorted", 0.7, 0.2))
            text += " A crackle came from inside the module as the engine turned over with the lead open."
        return Got(got.minutes, text, got.result, got.shown, got.money, got.conditions, got.trace)
