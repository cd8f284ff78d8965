"""The bench session: one machine, one job, one clock."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from twostroke.bench import asking, doing, guard, scenarios
from twostroke.bench.outcome import Outcome, certainty, judge
from twostroke.bench.reading import Reading, Step
from twostroke.bench.repairing import allowed
from twostroke.errors import TwoStrokeError
from twostroke.table import Repair, Scenario, Table, Test, load_table, unknown

COMMON = {
    "confirm": "cautions that are kept: their names, or 'all'",
    "prepare": "True: open covers and warm or cool the machine as part of this step",
    "anyway": "True: go on although a caution is not confirmed",
}
"""Settings that every action takes."""


class Bench:
    """A machine on the bench, from complaint to hand-back.

    Parameters
    ----------
    scenario : str, Path, dict or Scenario
        Name of a scenario of the course, its file, or its content.
    learner : str
        Case and spaces do not matter. Another learner has another machine, unless the scenario says
        otherwise.
    secret : str, optional
        Secret of a course, for scenarios whose fault is drawn.
    reminders : bool
        Whether the bench stops before an action whose cautions are not confirmed. Without reminders it goes
        on, and what was not confirmed is on the record.
    table : Table, optional
        Fault table; the course's own when left out.

    Attributes
    ----------
    minutes : float
        On the clock.
    cost : float
        Minutes at the price of labour, and parts.
    route : list of Step
        Everything done, in order.

    Examples
    --------
    >>> bench = Bench("plug_fouled_trimmer", "Anna")
    >>> print(bench.do("plug_look").words)
    The plug is still on: 2 min to take it off. Say prepare=True to do it with this step,
    or do 'plug_out' first.
    >>> reading = bench.do("plug_look", prepare=True, confirm="all")
    >>> reading.done, reading.minutes
    (True, 3.0)
    """

    def __init__(
        self,
        scenario: str | Path | dict[str, Any] | Scenario,
        learner: str,
        *,
        secret: str | None = None,
        reminders: bool = True,
        table: Table | None = None,
    ) -> None:
        whole = load_table() if table is None else table
        self.scenario = scenarios.find(scenario, whole)
        self.learner = str(learner)
        self.table = self.scenario.table(whole)
        self.reminders = bool(reminders)
        self._secret = secret
        self._situation, self._truth = scenarios.set_up(self.scenario, self.table, self.learner, secret)
        self.route: list[Step] = []
        self.minutes = 0.0
        self.parts_money = 0.0
        self.outcome: Outcome | None = None
        self._work = doing.Work(self.table, self._situation, scenarios.bands(self.scenario))

    @property
    def price(self) -> float:
        """Money for a minute of labour."""
        own = self.scenario.labour_per_minute
        return self.table.meta.money_per_minute if own is None else own

    @property
    def cost(self) -> float:
        """Money so far: labour and parts."""
        return self.minutes * self.price + self.parts_money

    @property
    def complaint(self) -> str:
        """The owner's words."""
        return self.scenario.complaint.words

    @property
    def opened(self) -> tuple[str, ...]:
        """Covers that are off."""
        return tuple(self._situation.opened)

    @property
    def temperature(self) -> str:
        """``cold``, ``warm`` or ``hot``, as a hand finds it."""
        return self._situation.heat.state

    @property
    def condition(self) -> str:
        """The table's word for its temperature: ``cold`` or ``hot``, whichever is nearer."""
        return self._situation.heat.condition

    def actions(self) -> dict[str, str]:
        """Everything that can be asked for, with what it is called."""
        names = {name: row.name or name for name, row in self.table.tests.items()}
        names |= {name: row.name or name for name, row in self.table.repairs.items()}
        names |= {name: row.name or name for name, row in self.table.access.items()}
        return names | asking.SESSION_ACTIONS

    def settings(self, action: str) -> dict[str, str]:
        """Settings that an action takes, each with what may be given."""
        self._known(action)
        return {**COMMON, **allowed(action), **asking.settings(action)}

    def offer(self, action: str, **settings: Any) -> tuple[str | None, list[str]]:
        """What stands in the way of an action now (or None), and the cautions that it will ask for."""
        self._known(action)
        row, opening, wanted = self._needs(action)
        blocked = self._blocked(action, row, opening, wanted, settings)
        return blocked, self._cautions(action, row, opening, wanted, settings)

    def do(self, action: str, **settings: Any) -> Reading:
        """Do something and see what it shows.

        Parameters
        ----------
        action : str
            A test, repair or cover of the table, or one of ``bench.actions()``.
        **settings
            See ``bench.settings(action)``; ``confirm`` names the cautions that are kept.

        Returns
        -------
        Reading
            With ``done`` false where it cannot be done now; then nothing is charged.

        Raises
        ------
        TwoStrokeError
            Unknown action, setting or value.
        """
        self._known(action)
        known = self.settings(action)
        for name in settings:
            if name not in known:
                raise TwoStrokeError(f"{action} takes no {name!r}: it takes {', '.join(known)}")
        if self.outcome is not None:
            return self._refused(action, "The machine has been handed back: the job is closed.")
        asking.check_settings(settings, action)
        row, opening, wanted = self._needs(action)
        never = asking.never(self.table, self._situation, action, settings)
        if never:
            return self._refused(action, f"{never[:1].upper()}{never[1:]}.")
        blocked = self._blocked(action, row, opening, wanted, settings)
        if blocked and not settings.get("prepare", False):
            return self._refused(action, _sentence(blocked, opening))
        cautions = self._cautions(action, row, opening, wanted, settings)
        kept = guard.confirmed(settings.get("confirm"), cautions, self.table)
        against = self._against(cautions, wanted)
        missed = [name for name in cautions if name not in kept or name in against]
        if missed and self.reminders and not settings.get("anyway", False):
            return self._refused(action, self._ask(missed, against), tuple(missed))
        return self._charge(action, settings, row, opening, wanted, kept, missed)

    def hand_back(self, diagnosis: str | None, confidence: float | str, *, hand_on: bool = False) -> Outcome:
        """Give the machine back and learn what becomes of it.

        Parameters
        ----------
        diagnosis : str or None
            Fault that was found, as the table calls it.
        confidence : float or str
            0 to 1, or text such as ``"80 %"``.
        hand_on : bool
            Hand the job on to someone else instead of to the owner.

        Returns
        -------
        Outcome
            What happened to the machine; never a score.

        Raises
        ------
        TwoStrokeError
            Unknown fault, a confidence that is none, or a machine already handed back.
        """
        if self.outcome is not None:
            raise TwoStrokeError(
                "the machine has been handed back already: start the scenario again for another try"
            )
        if diagnosis is not None and diagnosis not in self.table.faults:
            raise unknown("fault", diagnosis, self.table.faults)
        sure = certainty(confidence)
        outcome = judge(self, self._situation, self._truth, diagnosis, sure, hand_on)
        self.minutes, self.parts_money = outcome.minutes, outcome.parts_money
        action = "hand_on" if hand_on else "hand_back"
        self.route.append(
            Step(
                action,
                {},
                {},
                outcome.words,
                None,
                0.0,
                0.0,
                self.minutes,
                diagnosis=diagnosis,
                confidence=sure,
            )
        )
        self.outcome = outcome
        return outcome

    # how ------------------------------------------------------------------------------------------

    def _known(self, action: str) -> None:
        if action not in self.actions():
            raise unknown("test, repair, cover or bench action", action, list(self.actions()))

    def _needs(self, action: str) -> tuple[Test | Repair | None, list[str], str]:
        """Row of the table, covers still to open, and temperature wanted."""
        table, opened = self.table, set(self._situation.opened)
        if action in table.access:
            opening = table.opening([action], opened)
            return None, opening, "cold" if any(table.access[name].cool for name in opening) else "any"
        if action in asking.SESSION_ACTIONS:
            return None, [], "any"
        row = table.action(action)
        opening = table.opening(row.access, opened)
        return row, opening, guard.needed_temperature(table, row, opening)

    def _blocked(
        self, action: str, row: Test | Repair | None, opening: list[str], wanted: str, given: dict[str, Any]
    ) -> str | None:
        never = asking.never(self.table, self._situation, action, given)
        if never:
            return never
        words = []
        if opening and row is not None:
            words.append(guard.cover_words(self.table, opening))
        elif action in self.table.access and len(opening) > 1:
            words.append(guard.cover_words(self.table, opening[:-1]))
        if wanted != "any" and wanted != self._situation.heat.condition:
            words.append(guard.heat_words(self.table, self._situation.heat, wanted))
        return ", and ".join(words) or None

    def _cautions(
        self, action: str, row: Test | Repair | None, opening: list[str], wanted: str, given: dict[str, Any]
    ) -> list[str]:
        hazards = list(row.hazards) if row is not None else asking.hazards(self.table, action, given)
        for name in opening:
            hazards += self.table.access[name].hazards
        if wanted == "hot" and self._situation.heat.condition != "hot":
            hazards += asking.hazards(self.table, "warm_up", given)
        if "exhaust_gas" in hazards and not self._situation.stop_lead_on:
            hazards.append("no_stop")
        return [name for name in self.table.hazards if name in hazards]

    def _against(self, cautions: list[str], wanted: str) -> dict[str, str]:
        """Cautions that the machine's state speaks against, however much they are confirmed."""
        if wanted == "cold":
            return {}
        checks = {
            name: check(self._situation) for name, check in guard.STATE_CHECKS.items() if name in cautions
        }
        return {name: text for name, text in checks.items() if text is not None and wanted != "hot"}

    def _ask(self, missed: list[str], against: dict[str, str]) -> str:
        text = guard.caution_words(self.table, missed)
        state = "".join(f" But {words}." for words in against.values())
        open_yet = [name for name in missed if name not in against]
        ask = f" Confirm with confirm={open_yet!r}." if open_yet else ""
        return f"Before this – {text}{state}{ask}"

    def _refused(self, action: str, words: str, cautions: tuple[str, ...] = ()) -> Reading:
        return Reading(action, False, words, condition=self._situation.heat.condition, cautions=cautions)

    def _charge(
        self,
        action: str,
        settings: dict[str, Any],
        row: Test | Repair | None,
        opening: list[str],
        wanted: str,
        kept: list[str],
        missed: list[str],
    ) -> Reading:
        work = self._work
        minutes = work.open(opening) + work.bring_to(wanted)
        got = work.do(action, {k: v for k, v in settings.items() if k not in COMMON}, row, missed)
        minutes += got.minutes
        self.minutes = round(self.minutes + minutes, 4)
        self.parts_money = round(self.parts_money + got.money, 4)
        reading = Reading(
            action,
            True,
            got.words,
            got.result,
            got.shown,
            minutes,
            got.money,
            got.conditions[0],
            tuple(missed),
            got.trace,
        )
        shown = {item.name: item.text for item in got.shown}
        clean = {k: v for k, v in settings.items() if k not in ("confirm", "anyway")}
        self.route.append(
            Step(
                action, clean, shown, got.words, got.result, minutes, got.money, self.minutes, got.conditions,
                tuple(opening), tuple(kept), tuple(missed), bool(missed),
            )
        )  # fmt: skip
        return reading


def _sentence(blocked: str, opening: list[str]) -> str:
    text = blocked[:1].upper() + blocked[1:]
    first = f", or do '{opening[0]}' first" if opening else ""
    return f"{text}. Say prepare=True to do it with this step{first}."
