"""The bench in a terminal: the same job, tables and plain prompts.

Every question is answered by a number or a word, so that it works over a slow line and with a reader for the
blind; colour is never needed.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from rich import box
from rich.console import Console
from rich.table import Table as Grid

from twostroke.bench import OwnMachine, shuffled
from twostroke.errors import TwoStrokeError
from twostroke.isolation.follow import fault_name
from twostroke.isolation.hints import LEVELS, why
from twostroke.lesson.bench_panel import opening, report, store
from twostroke.lesson.bench_panel.arranging import SELF
from twostroke.lesson.bench_panel.fields import settings_from
from twostroke.lesson.bench_panel.job import BenchJob, Job, OwnJob, open_kept
from twostroke.lesson.bench_panel.own_shop import OwnShop
from twostroke.lesson.bench_panel.parts import SPOTS, actions_at, spot_of
from twostroke.lesson.bench_panel.steps import FELT, Plan, checked, clean, plan, said, state_of, title_of
from twostroke.lesson.bench_panel.views import Seen, hinted, ready

_DESK = (
    "do something",
    "readings so far",
    "hint",
    "what is known",
    "hand the machine back",
    "put it on the shelf",
)


class Terminal:
    """A person at a terminal with a bench.

    Parameters
    ----------
    folder : Path or None
        Where jobs are kept.
    ask : callable
        Asks a question and returns the answer; raises EOFError at the end of the input.
    console : Console
    """

    def __init__(
        self, folder: Path | None, ask: Callable[[str], str], console: Console, shop: OwnShop | None = None
    ) -> None:
        self.folder, self.ask, self.console = folder, ask, console
        self.shop = shop or OwnShop()

    # asking ---------------------------------------------------------------------------------------

    def say(self, text: str = "") -> None:
        """Write a line."""
        self.console.print(text, markup=False, highlight=False)

    def choose(self, question: str, options: list[str], back: str = "") -> int | None:
        """One of several by number; 0 goes back where there is a way back."""
        for number, option in enumerate(options, start=1):
            self.say(f"  {number:>2}  {option}")
        if back:
            self.say(f"   0  {back}")
        while True:
            answer = self.ask(f"{question} (number): ").strip()
            if back and answer in ("0", ""):
                return None
            if answer.isdigit() and 1 <= int(answer) <= len(options):
                return int(answer) - 1
            first = 0 if back else 1
            self.say(f"{answer!r} is none of these: type a number from {first} to {len(options)}.")

    def yes(self, question: str) -> bool:
        """Yes or no, nothing else."""
        while True:
            answer = self.ask(f"{question} (y/n): ").strip().lower()
            if answer in ("y", "yes", "n", "no"):
                return answer.startswith("y")
            self.say("Type y or n.")

    # the way through ------------------------------------------------------------------------------

    def begin(self, scenario: str | None = None, learner: str = "") -> Job | None:
        """Choose a machine, or go on with a kept job."""
        kept = [one for one in store.listed(self.folder) if not one.closed]
        if scenario is None and kept:
            names = [f"{one.title}, {one.learner} ({one.steps} steps)" for one in kept]
            picked = self.choose("Go on with", names, back="another machine")
            if picked is not None:
                return open_kept(kept[picked].file, self.shop.table)
        while not learner.strip():
            learner = self.ask("Your name or number: ")
        if scenario is None:
            shelves = opening.shelves()
            while scenario is None:
                levels = [f"{words}: {len(rows)} machines" for words, rows in shelves]
                level = self.choose("How hard", levels, back="leave")
                if level is None:
                    return None
                found = shelves[level][1]
                names = [f"{one.title} ({one.machine.kind})\n      “{one.complaint.words}”" for one in found]
                picked = self.choose("Which machine", names, back="back")
                scenario = None if picked is None else found[picked].id
        return BenchJob(scenario, learner, self.folder)

    def work(self, job: Job) -> None:
        """One job until it is closed or put on the shelf."""
        self.ticket(job)
        if job.news:
            self.say(job.news)
        while not job.closed:
            own = isinstance(job, OwnJob)
            self.say()
            self.say(f"Clock {job.session.minutes:g} min, cost {job.session.cost:.2f}.")
            desk = [*_DESK[:2], "what is still possible, and what next" if own else _DESK[2], *_DESK[3:]]
            what = self.choose("What now", desk)
            try:
                if what == 5:
                    return
                (self.step, self.readings, self.possible if own else self.hint, self.ticket, self.hand_back)[
                    what or 0
                ](job)  # fmt: skip
            except TwoStrokeError as error:
                self.say(f"Not done: {clean(re.sub(r'^[a-z]+(_[a-z]+)+: ', '', str(error)))}")
        self.report(job)

    def ticket(self, job: Job) -> None:
        """Machine, complaint, history, bands."""
        self.say(f"\n{job.title}")
        if isinstance(job, BenchJob):
            scenario = job.session.scenario
            self.say(f"{opening.facts(scenario)}.")
            self.say(f"The owner says: “{scenario.complaint.words}”")
            for line in scenario.history:
                self.say(f"  - {line}")
            bands = scenario.bands
        else:
            self.say(self.shop.ground)
            bands = job.session.bands_text
        for name, text in bands.items():
            self.say(f"  maker's band, {opening.BANDS.get(name, name)}: {text}")

    def step(self, job: Job) -> None:
        """A place, a step, its settings, its cautions, its reading."""
        found = actions_at(job.session)
        keys = list(found)
        place = self.choose("Where", [SPOTS[key].name for key in keys], back="back")
        if place is None:
            return
        actions = [action for rows in found[keys[place]].values() for action in rows]
        plans = [plan(job, action) for action in actions]
        picked = self.choose("Which step", [_line(one) for one in plans], back="back")
        if picked is None:
            return
        step = plans[picked]
        if step.never:
            self.say(step.never)
            return
        for line in (
            step.how,
            f"With: {step.tool}" if step.tool else "",
            *(f"First (in the price): {b}" for b in step.before),
            step.note,
        ):
            if line:
                self.say(line)
        settings = self.own_settings(job, step) if isinstance(job, OwnJob) else self.settings(job, step)
        cautions = step.cautions if isinstance(job, OwnJob) else plan(job, step.action, settings).cautions
        kept = self.cautions(cautions, free=isinstance(job, BenchJob) and not job.session.reminders)
        if kept is None:
            self.say("Left. Nothing was done and nothing is charged.")
            return
        if isinstance(job, BenchJob):
            settings["prepare"] = True
        reading = job.do(step.action, **settings, confirm=kept)
        self.say(f"\n{Seen.of(job, reading).spoken}" if reading.done else clean(reading.words))
        if ready(job):
            self.say("Everything on the list is done: hand it back.")

    def settings(self, job: Job, step: Plan) -> dict[str, Any]:
        """Settings of a step on a demo machine, its order of work first."""
        values: dict[str, Any] = {}
        fields = list(step.fields)
        while fields:
            field = fields.pop(0)
            options = [(value, text) for value, text in field.options if value or not field.must]
            if options:
                self.say(f"{field.label}:")
                values[field.name] = options[self.choose("Which", [text for _, text in options]) or 0][0]
            else:
                start = f" [{field.start}]" if field.start else ""
                hint = f" ({field.hint})" if field.hint else ""
                values[field.name] = self.ask(f"{field.label}{hint}{start}: ").strip() or field.start
            if values[field.name] == SELF:
                order = self.order(job, step.action)
                fields = plan(job, step.action, {"order_way": SELF}).fields[1:]
        settings = settings_from(
            plan(job, step.action, {"order_way": values.get("order_way", "")}).fields, values
        )
        return {**settings, "order": order} if values.get("order_way") == SELF else settings

    def order(self, job: Job, repair: str) -> list[str]:
        """An order of work, step after step."""
        left = shuffled(repair, job.learner)
        given: list[str] = []
        while left:
            self.say(f"Step {len(given) + 1}:")
            names = list(left)
            ready = f"that is all: {len(names)} not done" if given else ""
            picked = self.choose("Which comes next", list(left.values()), back=ready)
            if picked is None:
                break
            given.append(names[picked])
            del left[names[picked]]
        return given

    def own_settings(self, job: Job, step: Plan) -> dict[str, Any]:
        """Reading and state of an own machine."""
        table = job.session.table
        settings: dict[str, Any] = {}
        test = table.tests.get(step.action)
        words = {word: test.say(word) for word in test.results} if test else {}
        if step.action == "verify":
            words = {"runs": "it runs as it should", "fails": "it still does what was complained of"}
        if test is not None and test.reading is not None:
            settings["reading"] = self.ask("Reading with its unit (empty: choose what was seen): ").strip()
        if words and not settings.get("reading"):
            names = list(words)
            settings["reading"] = names[self.choose("What was seen", list(words.values())) or 0]
        if words:
            states = list(FELT)
            settings["condition"] = states[self.choose("Machine was", list(FELT.values())) or 0]
        return settings

    def cautions(self, cautions: list[tuple[str, str, str]], free: bool) -> list[str] | None:
        """Each caution is read and confirmed; None where one is not."""
        kept = []
        for name, title, text in cautions:
            self.say(f"CAUTION, {title}: {text}")
            if self.yes("I keep to it"):
                kept.append(name)
            elif not free:
                return None
        if cautions:
            self.say("The maker's manual, local codes and licensed practice come first.")
        return kept

    def readings(self, job: Job) -> None:
        """Readings so far as a table."""
        grid = Grid(title="Readings so far", box=box.ASCII, title_justify="left")
        for name in ("No.", "Step", "State", "Reading", "min", "Parts cost", "Clock"):
            grid.add_column(name, justify="right" if name in ("min", "Parts cost", "Clock") else "left")
        for number, step in enumerate(job.session.route, start=1):
            numbers = "; ".join(f"{name} {text}" for name, text in step.reading.items())
            state = state_of(step)
            told = said(title_of(job, step.action), step.words)
            words = f"{numbers}. {told}" if numbers else told
            grid.add_row(
                str(number), title_of(job, step.action), state, words, f"{step.minutes:g}", f"{step.money:g}",
                f"{step.time:g}",
            )  # fmt: skip
        self.console.print(grid, markup=False, highlight=False)

    def hint(self, job: Job) -> None:
        """The next hint."""
        given = job.hint()
        self.say(f"Hint {given.level} of 3, {LEVELS[given.level - 1]}: {given.text} ({len(job.hints)} taken)")
        step = hinted(job) if given.level == len(LEVELS) else ""
        if step:
            self.say(f"Where: {SPOTS[spot_of(job.session.table, step)].name}.")

    def possible(self, job: Job) -> None:
        """An own machine: what is still possible, what to do next."""
        table, follower = job.session.table, job.follower
        self.say(self.shop.ground)
        for line in self.shop.changes():
            self.say(f"  the shop's own jobs changed: {line}")
        if follower.clash:
            self.say(f"Readings that do not go together: {follower.clash}")
        for fault, chance in follower.likeliest(6):
            self.say(f"  {100 * chance:4.0f} %  {'#' * round(30 * chance):<30}  {fault_name(table, fault)}")
        for one in [row for row in follower.advice() if row.kind in ("test", "repair")][:3]:
            self.say(f"Next: {title_of(job, one.action)}, about {one.minutes:.0f} min. {why(follower, one)}")

    def hand_back(self, job: Job) -> None:
        """The list before hand-back; then diagnosis, confidence, to whom."""
        table = job.session.table
        self.say("List before hand-back:")
        for item in checked(job):
            self.say(f"  {'yes' if item.done else 'not yet':>8}  {item.words}")
        systems = list(dict.fromkeys(row.sys for row in table.faults.values()))
        picked = self.choose(
            "What was wrong: which system", [table.systems.get(s, s) for s in systems], back="back"
        )
        if picked is None:
            return
        faults = [name for name, row in table.faults.items() if row.sys == systems[picked]]
        which = self.choose("Which fault", [fault_name(table, name) for name in faults], back="back")
        if which is None:
            return
        sure = self.ask("How sure, per cent: ").strip().rstrip("% ")
        way = self.choose("To whom", ["to the owner", f"hand it on (costs {table.meta.escalate_cost:g})"])
        job.hand_back(faults[which], f"{sure} %", hand_on=way == 1)

    def report(self, job: Job) -> None:
        """After the job."""
        if job.file is not None:
            self.say(f"Job card: twostroke card {job.file} --pdf card.pdf")
        if isinstance(job.session, OwnMachine):
            self.say(job.session.outcome["words"] if job.session.outcome else "")
            return
        assert isinstance(job, BenchJob)
        self.say(f"\n{job.session.outcome.words}")
        self.say("Working out the score …")
        if job.scored is None:
            report.score(job)
        self.say(report.verdict(job))
        for line in (job.scored or {}).get("summary", []):
            self.say(f"  - {line}")
        self.say(report.how_scored(job))
        mine = report.legs(job, job.session.route, job.follower)
        bench, follower = report.best_route(job)
        for name, route in (("Your route", mine), ("Best route", report.legs(job, bench.route, follower))):
            grid = Grid(title=name, box=box.ASCII, title_justify="left")
            for head in ("No.", "Step", "from min", "min", "Parts cost", "Likeliest after it"):
                grid.add_column(head, justify="right" if "min" in head or head == "Parts cost" else "left")
            for number, leg in enumerate(route, start=1):
                likely = f"{leg.bars[0][0]} {100 * leg.bars[0][1]:.0f} %" if leg.bars else ""
                grid.add_row(
                    str(number), leg.title, f"{leg.start:g}", f"{leg.minutes:g}", f"{leg.money:g}", likely
                )
            self.console.print(grid, markup=False, highlight=False)
        for competency, module, reason in report.practise(job):
            self.say(f"Practise next: {competency} (lesson {module}): {reason}.")
        self.say(f"One question: {report.reflection(job)}")
        job.reflection = self.ask("Your answer (empty to leave it): ").strip()
        job.save()


def _line(step: Plan) -> str:
    first = f"; includes {', '.join(step.before)}" if step.before else ""
    shut = f"; {step.never}" if step.never else ""
    price = f" ({step.price})" if step.minutes or step.money else ""
    return f"{step.title}{price}{first}{shut}"


def run(
    folder: Path | None,
    *,
    scenario: str | None = None,
    learner: str = "",
    job: Job | None = None,
    shop: OwnShop | None = None,
    ask: Callable[[str], str] = input,
    console: Console | None = None,
) -> Job | None:
    """Work at the bench in a terminal until the job is closed, put away, or the input ends.

    Parameters
    ----------
    folder : Path or None
        Where jobs are kept.
    scenario, learner : str, optional
        Asked for when left out.
    job : Job, optional
        A job that is open already.
    shop : OwnShop, optional
        The shop's own table.
    ask : callable
        How a question is asked.
    console : Console, optional

    Returns
    -------
    Job or None
        As it stands; it lies in its file.
    """
    person = Terminal(folder, ask, console or Console(), shop)
    try:
        job = job or person.begin(scenario, learner)
        if job is not None:
            person.work(job)
    except (EOFError, KeyboardInterrupt):
        person.say("\nThe job is kept as it stands.")
    return job
