"""The panel's regions as HTML, written from templates; text is escaped there."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import jinja2
from markupsafe import Markup

from twostroke.bench import Reading, shuffled
from twostroke.isolation.explain import explain
from twostroke.isolation.follow import fault_name
from twostroke.isolation.hints import LEVELS
from twostroke.lesson.bench_panel import opening, report, store
from twostroke.lesson.bench_panel.arranging import SELF
from twostroke.lesson.bench_panel.displays import display, waveform
from twostroke.lesson.bench_panel.drawing import machine
from twostroke.lesson.bench_panel.job import BenchJob, Job, OwnJob
from twostroke.lesson.bench_panel.parts import SPOTS, actions_at, spot_of
from twostroke.lesson.bench_panel.steps import FELT, checked, plan, said, state_of, title_of, told
from twostroke.lesson.bench_panel.timeline import timeline

if TYPE_CHECKING:
    from twostroke.lesson.bench_panel.panel import BenchPanel

_SETS = {
    **dict.fromkeys(("set_air_gap", "replace_module", "turn_module", "replace_key"), "air_gap"),
    **dict.fromkeys(("set_plug_gap", "swap_plug"), "plug_gap"),
    "reset_mixture": "mixture_turns",
}
"""Quantity that a repair sets by the maker's band."""


@cache
def _templates() -> jinja2.Environment:
    loader = jinja2.FileSystemLoader(Path(__file__).parent / "templates")
    made = jinja2.Environment(
        loader=loader, autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    made.filters["capital"] = lambda text: f"{text[:1].upper()}{text[1:]}"
    made.filters["percent"] = lambda share: f"{100 * share:.0f} %"
    made.globals["FELT"] = FELT
    return made


def _fill(template: str, **what: Any) -> str:
    return _templates().get_template(f"{template}.html").render(**what)


@dataclass(frozen=True)
class Seen:
    """The latest reading for the screen."""

    title: str
    words: str
    shown: dict[str, str]
    minutes: float
    money: float
    clock: float
    condition: str
    svg: str
    remark: str = ""
    missed: str = ""

    @classmethod
    def of(cls, job: Job, reading: Reading | None = None) -> Seen:
        """From the last step of a job, with the trace that came with its reading."""
        step, table = job.session.route[-1], job.session.table
        svg = display(table, step.action, step.reading, step.result, step.words) or ""
        if reading is not None and reading.trace is not None:
            kept = reading.trace
            signal = str(step.settings.get("signal", "plug voltage"))
            svg = waveform(kept.time, kept.values, kept.unit, signal, step.words)
        missed = ", ".join(table.hazards[name].name for name in step.cautions_missed)
        condition = state_of(step)
        return cls(
            title_of(job, step.action),
            said(title_of(job, step.action), step.words),
            step.reading,
            step.minutes,
            step.money,
            step.time,
            condition,
            svg,
            told(job, step.action, job.follower.remarks[-1]) if job.comments else "",
            missed,
        )

    @property
    def spoken(self) -> str:
        """The reading for a screen reader."""
        numbers = "; ".join(f"{name} {text}" for name, text in self.shown.items())
        words = self.words if self.words.endswith((".", ")")) else f"{self.words}."
        return f"{self.title}: {numbers + '. ' if numbers else ''}{words} {self.clock:g} min on the clock."


def last_seen(job: Job) -> Seen | None:
    """The latest reading of a job that was kept."""
    return Seen.of(job) if job.session.route and not job.closed else None


def screen(panel: BenchPanel) -> dict[str, str]:
    """All regions of the screen that the panel is on."""
    if panel.job is None:
        return {"start": start(panel)}
    if panel.job.closed:
        return {"report": report_page(panel, panel.job)}
    job = panel.job
    regions = {
        "ticket": ticket(panel, job),
        "strip": strip(job),
        "drawing": drawing(panel, job),
        "work": card(panel, job) if panel.chosen else places(panel, job),
        "reading": _fill(
            "reading",
            seen=panel.last,
            svg=Markup(panel.last.svg if panel.last else ""),
            ready=ready(job),
            own=isinstance(job, OwnJob),
        ),
        "log": log(job),
        "help": help_page(panel, job),
    }
    if isinstance(job, OwnJob):
        regions["possible"] = possible(panel, job)
    return regions


def note(message: str) -> str:
    """A message as it stands on the screen; nothing where there is none."""
    return f'<div class="bt-note" tabindex="-1" data-focus="message">{message}</div>' if message else ""


def ready(job: Job) -> bool:
    """Whether a verify run has just made the list before hand-back complete."""
    route = job.session.route
    return bool(route) and route[-1].action == "verify" and all(item.done for item in checked(job))


def start(panel: BenchPanel) -> str:
    """The first page."""
    table, found = panel.shop.table, opening.scenarios()
    return _fill(
        "start",
        uid=panel.uid,
        learner=panel.learner,
        shelves=opening.shelves(panel.show),
        all=len(found),
        kinds=sorted({one.machine.kind for one in found}),
        show=panel.show,
        kept=store.listed(panel.folder),
        complaints=table.complaint.words if table.complaint else {},
        bands=opening.BANDS,
        features=table.features,
        estimate=panel.shop.ground,
        folder=panel.folder,
    )


def ticket(panel: BenchPanel, job: Job) -> str:
    """Machine, complaint, history and maker's bands."""
    bands = job.session.scenario.bands if isinstance(job, BenchJob) else job.session.bands_text
    names = [(name, opening.BANDS.get(name, name.replace("_", " ")), text) for name, text in bands.items()]
    return _fill(
        "ticket",
        job=job,
        own=isinstance(job, OwnJob),
        bands=names,
        facts=opening.facts(job.session.scenario) if isinstance(job, BenchJob) else "",
        all_bands=opening.BANDS,
        complaint=_complaint(job),
        estimate=panel.shop.ground,
    )


def _complaint(job: Job) -> str:
    if isinstance(job, BenchJob):
        return str(job.session.scenario.complaint.words)
    complaint = job.session.table.complaint
    return str(complaint.words.get(job.session.complaint, job.session.complaint)) if complaint else ""


def strip(job: Job) -> str:
    """Clock, money, warmth, covers."""
    own = isinstance(job, OwnJob)
    table = job.session.table
    off = [table.access[name].name.removesuffix(" off").removesuffix(" out") for name in job.session.opened]
    price = table.meta.money_per_minute if own else job.session.price
    return _fill(
        "strip",
        minutes=job.session.minutes,
        cost=job.session.cost,
        parts=job.session.parts_money,
        price=price,
        temperature="" if own else job.session.temperature,
        off=off,
        trouble=job.trouble,
    )


def drawing(panel: BenchPanel, job: Job) -> str:
    """The machine, and the same places as a list."""
    found = actions_at(job.session)
    own = isinstance(job, OwnJob)
    features = job.features if isinstance(job, OwnJob) else job.session.scenario.machine.features
    svg = machine(
        "machine" if own else job.session.scenario.machine.kind,
        job.session.opened,
        panel.picked,
        found,
        features,
        False if own else job.session.temperature == "hot",
    )
    return _fill(
        "drawing",
        uid=panel.uid,
        svg=Markup(svg),
        spots=[(key, SPOTS[key].name) for key in found],
        picked=panel.picked,
    )


def places(panel: BenchPanel, job: Job) -> str:
    """What can be done at the picked place."""
    groups = actions_at(job.session).get(panel.picked, {})
    rows = {group: [plan(job, action) for action in actions] for group, actions in groups.items()}
    return _fill("places", name=SPOTS[panel.picked].name, groups=rows)


def card(panel: BenchPanel, job: Job) -> str:
    """The card of the step that is chosen."""
    typed = panel.typed
    given = {name: typed[name] for name in ("plug", "order_way", "condition") if typed.get(name)}
    step = plan(job, panel.chosen, given)
    arranged = given.get("order_way") == SELF
    table = job.session.table
    test = table.tests.get(panel.chosen)
    words = [(word, test.say(word)) for word in test.results] if test else []
    if panel.chosen == "verify":
        words = [("runs", "it runs as it should"), ("fails", "it still does what was complained of")]
    unit = test.reading.unit if test and test.reading else ""
    ticked = typed.get("confirm", [])
    return _fill(
        "card",
        uid=panel.uid,
        note=Markup(note(panel.message)),
        step=step,
        own=isinstance(job, OwnJob),
        words=words,
        unit=unit,
        typed=typed,
        ticked=[ticked] if isinstance(ticked, str) else ticked,
        steps=shuffled(panel.chosen, job.learner) if arranged else {},
        order=panel.order,
        felt=FELT,
        usual=job.session.usual_condition(panel.chosen) if isinstance(job, OwnJob) else "",
        band=_band(job, (test.reading.band if test.reading else None) if test else _SETS.get(panel.chosen)),
    )


def _band(job: Job, quantity: str | None) -> str:
    bands = job.session.scenario.bands if isinstance(job, BenchJob) else job.session.bands_text
    return str(bands.get(quantity or "", ""))


def log(job: Job) -> str:
    """Everything done so far as a table."""
    rows = [
        (
            title_of(job, step.action),
            state_of(step),
            "; ".join(f"{name} {text}" for name, text in step.reading.items()),
            said(title_of(job, step.action), step.words),
            step.minutes,
            step.money,
            step.time,
        )
        for step in job.session.route
    ]
    return _fill("log", rows=rows)


def help_page(panel: BenchPanel, job: Job) -> str:
    """Hints and hand-back."""
    after = len(job.session.route)
    now = [one for one in job.hints if one.after == after]
    step = hinted(job) if len(now) == 3 else ""
    faults: dict[str, list[tuple[str, str]]] = {}
    table = job.session.table
    for name, row in table.faults.items():
        faults.setdefault(table.systems.get(row.sys, row.sys), []).append((name, fault_name(table, name)))
    return _fill(
        "help",
        uid=panel.uid,
        hints=now,
        step=step,
        place=SPOTS[spot_of(job.session.table, step)].name if step else "",
        count=len(job.hints),
        levels=LEVELS,
        faults=faults,
        items=checked(job),
        missing=panel.missing,
        typed=panel.handing,
        comments=job.comments,
        own=isinstance(job, OwnJob),
        job=job,
        allowed=isinstance(job, OwnJob) or job.session.reminders,
    )


def hinted(job: Job) -> str:
    """The step that the last hint names; empty where it is to hand the job back or on."""
    action = job.follower.advice()[0].action
    return action if action in job.session.actions() else ""


def possible(panel: BenchPanel, job: OwnJob) -> str:
    """An own machine: what is still possible, what speaks for it, and what to test next."""
    follower = job.follower
    told = explain(follower.belief, len(job.session.table.tests))
    splits = {test.test: test.splits for test in told.tests}
    advice = follower.advice()
    steps = []
    for one in [row for row in advice if row.kind in ("test", "repair")][:4]:
        reasons = [
            f"if “{words}” ({100 * chance:.0f} %): likeliest then {then}"
            for words, chance, then in splits.get(one.action, [])
        ]
        if one.kind == "repair":
            reasons = [f"{100 * one.chance:.0f} % chance of curing the machine"]
        steps.append((title_of(job, one.action), one.action, one.minutes, reasons))
    return _fill(
        "possible",
        rows=told.possible[:8],
        rest=told.rest + sum(row.chance for row in told.possible[8:]),
        cured=follower.belief.cured,
        excluded=told.excluded,
        steps=steps,
        first=advice[0].kind,
        clash=follower.clash,
        estimate=panel.shop.ground,
        two=told.two_faults,
        changes=panel.shop.changes(),
    )


def report_page(panel: BenchPanel, job: Job) -> str:
    """After the job."""
    mine = report.legs(job, job.session.route, job.follower)
    best: list[report.Leg] = []
    cost = 0.0
    if isinstance(job, BenchJob):
        bench, follower = report.best_route(job)
        best, cost = (
            report.legs(job, bench.route, follower),
            bench.outcome.cost if bench.outcome else bench.cost,
        )
    outcome = job.session.outcome
    words = outcome.words if isinstance(job, BenchJob) else outcome["words"]
    stated = outcome.diagnosis if isinstance(job, BenchJob) else outcome["diagnosis"]
    sure = outcome.confidence if isinstance(job, BenchJob) else outcome["confidence"]
    return _fill(
        "report",
        uid=panel.uid,
        job=job,
        own=isinstance(job, OwnJob),
        words=words,
        stated=fault_name(job.session.table, stated) if stated else "nothing",
        sure=sure,
        mine=mine,
        best=best,
        axis=Markup(timeline(mine, best)),
        cost=outcome.cost if isinstance(job, BenchJob) else outcome["cost"],
        best_cost=cost,
        scored=job.scored,
        verdict=report.verdict(job),
        how=report.how_scored(job),
        practise=[
            (name, number, report.module_title(number), reason)
            for name, number, reason in report.practise(job)
        ],
        question=report.reflection(job),
        estimate=panel.shop.ground,
    )


def still(panel: BenchPanel) -> str:
    """The screen without a kernel: ticket and readings."""
    if panel.job is None:
        return "<p>The bench. Run this cell to choose a machine.</p>"
    return ticket(panel, panel.job) + log(panel.job)
