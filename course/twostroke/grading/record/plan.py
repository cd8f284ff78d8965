"""What somebody should do next, in what order, in how many minutes: a plan for a new hire."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from twostroke import lab as labs
from twostroke.grading.record.evidence import COVER, PROVEN, LabEvidence, competencies, offered
from twostroke.grading.states import GradingError
from twostroke.lesson import prerequisites, tables

WEAK = 0.5
"""Chance of mastery below which practice is advised, although the lesson is done."""


@dataclass(frozen=True)
class Step:
    """One lesson to do, with its lab.

    Parameters
    ----------
    module, title : str
        Number and title.
    lesson_minutes, lab_minutes : int
        Usual time [min]; ``lab_minutes`` is 0 where no lab closes with it.
    lab : str or None
    why : str
        Why it stands here.
    after : tuple of str
        Lessons that it builds on.
    day : int
        Working day of the plan, from 1; 0 where days were not asked for.
    """

    module: str
    title: str
    lesson_minutes: int
    lab_minutes: int
    lab: str | None
    why: str
    after: tuple[str, ...]
    day: int = 0

    @property
    def minutes(self) -> int:
        """Lesson and lab together [min]."""
        return self.lesson_minutes + self.lab_minutes


@dataclass(frozen=True)
class Plan:
    """Steps in order, what was left out because it is done, what waits, and what to practise.

    Parameters
    ----------
    steps : tuple of Step
    done, waits : tuple of str
        Lessons whose lab is passed, and those whose lab waits for a person's mark.
    practise : tuple of str
        Competencies in lessons already done that look weak.
    aims : tuple of str
        Competencies asked for; empty for the whole course.
    """

    steps: tuple[Step, ...]
    done: tuple[str, ...]
    waits: tuple[str, ...]
    practise: tuple[str, ...]
    aims: tuple[str, ...] = ()

    @property
    def minutes(self) -> int:
        """Time for all steps [min]."""
        return sum(step.minutes for step in self.steps)


def plan(evidence: Sequence[LabEvidence], aims: Sequence[str] = (), a_day: int = 0) -> Plan:
    """Return what is left to do, each lesson after those that it builds on.

    Parameters
    ----------
    evidence : sequence of LabEvidence
        Of one person; empty for a new hire.
    aims : sequence of str, optional
        Competencies that are wanted first; only what leads to them is planned. Default: the whole course.
    a_day : int, optional
        Minutes a working day for the course; the steps are then shared out over days.

    Returns
    -------
    Plan

    Raises
    ------
    GradingError
        When ``a_day`` is too short for a single sitting.

    Notes
    -----
    A lesson is done when the lab that closes it is passed. A lab that was marked and not passed comes before
    anything new. Nothing is taken as known that was not proven here.

    Examples
    --------
    >>> [step.module for step in plan([], aims=["compression and sealing"]).steps]
    ['00', '01', '02', '08']
    """
    by_lab = {each.lab: each for each in evidence}
    closing = {number: _closing_lab(number) for number in tables.modules()}
    done = [number for number, lab in closing.items() if lab in by_lab and by_lab[lab].passed]
    if any(each.counts or _waits(each) for each in evidence):
        done.insert(0, "00")
    waits = [number for number, lab in closing.items() if lab in by_lab and _waits(by_lab[lab])]
    failed = [n for n, lab in closing.items() if lab in by_lab and n not in done and n not in waits]
    targets = None if not aims else [number for aim in aims for number in _modules_for(aim, evidence)]
    order = prerequisites.order([*done, *waits], targets, failed)
    steps = _share_out([_step(number, closing[number], by_lab) for number in order], a_day)
    weak = [each.name for each in competencies(evidence) if each.mastery is not None and each.mastery < WEAK]
    return Plan(tuple(steps), tuple(done), tuple(waits), tuple(weak), tuple(aims))


def _closing_lab(number: str) -> str | None:
    """The lab that closes a lesson: its own, or that of the next lesson that has one."""
    if number == "00":
        return None
    return next((m.lab for n, m in tables.modules().items() if n >= number and m.lab), None)


def _waits(lab: LabEvidence) -> bool:
    """Whether marks were given but are not final: the person need not do it again yet."""
    return not lab.counts and any(task.points is not None for task in lab.tasks)


def _modules_for(aim: str, evidence: Sequence[LabEvidence]) -> list[str]:
    """Fewest further labs that can prove a competency, those with most points for it first."""
    (now,) = [each for each in competencies(evidence) if each.name == aim]
    if now.state == PROVEN:
        return []
    points = offered()[aim]
    whole = sum(points.values())
    final = {piece.lab: piece.points for piece in now.pieces if piece.points is not None}
    passed = {each.lab for each in evidence if each.passed}
    covered = sum(points.get(lab, 0.0) for lab in final)
    wanted = [lab for lab in final if lab not in passed]
    for lab in sorted(set(points) - set(final), key=lambda lab: (-points[lab], lab)):
        if covered >= COVER * whole:
            break
        wanted.append(lab)
        covered += points[lab]
    return wanted


def _step(number: str, closing: str | None, by_lab: dict[str, LabEvidence]) -> Step:
    module = tables.module(number)
    lab = labs.load(module.lab) if module.lab in labs.lab_ids() else None
    before = by_lab.get(closing or "")
    if before is None:
        why = "new"
    elif before.share is not None:
        why = f"again: lab {closing} reached {100 * before.share:.0f} % of its points"
    else:
        why = f"again: lab {closing} could not be marked"
    return Step(
        number, module.title, module.minutes, int(lab.minutes) if lab else 0, module.lab, why, module.needs
    )


def _share_out(steps: list[Step], a_day: int) -> list[Step]:
    """Fill days with whole lessons; one that is longer than a day has the day to itself."""
    if not a_day:
        return steps
    if a_day < 20:
        raise GradingError(f"{a_day} minutes a day: a lesson takes 20 to 40 minutes; give at least 20")
    shared, day, left = [], 0, 0
    for step in steps:
        if day == 0 or step.minutes > left:
            day, left = day + 1, a_day
        left -= step.minutes
        day_begun = day
        while left < 0:  # goes on the next day
            day, left = day + 1, left + a_day
        shared.append(
            Step(step.module, step.title, step.lesson_minutes, step.lab_minutes, step.lab, step.why,
                 step.after, day_begun)
        )  # fmt: skip
    return shared
