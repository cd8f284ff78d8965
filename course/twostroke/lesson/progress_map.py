"""The map of the course: what is done, what is under way, what comes next."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from markupsafe import Markup, escape

from twostroke import workspace
from twostroke.lesson import content, tables
from twostroke.lesson.box import Box, fill
from twostroke.lesson.progress import Progress

PASSED = 4  # of five in the exit check
_BORDERS = {"done": "solid", "under way": "dashed", "not begun": "dotted"}
_SIGNS = {"done": "●", "under way": "◐", "not begun": "○"}


@dataclass(frozen=True)
class Stand:
    """How far a lesson is.

    Parameters
    ----------
    module : Module
    state : str
        ``done``, ``under way`` or ``not begun``: the lesson.
    detail : str
        The same in words.
    todo : str
        What is still open, as the next thing to do.
    lab : str
        How far the lesson's lab is, in words; empty where there is none.
    lab_begun : bool
        Whether a task of the lab was tried.
    """

    module: tables.Module
    state: str
    detail: str
    todo: str
    lab: str = ""
    lab_begun: bool = False

    @property
    def open_lab(self) -> bool:
        """True when the lesson is done and its lab has not been begun."""
        return bool(self.module.lab) and self.state == "done" and not self.lab_begun


def stand(number: str, progress: Progress) -> Stand:
    """How far one lesson is.

    Parameters
    ----------
    number : str
        Two digits.
    progress : Progress
        The learner's record.

    Returns
    -------
    Stand
        ``done`` from four of five in the exit check on.

    Examples
    --------
    >>> stand("01", Progress(None)).state
    'not begun'
    """
    module = tables.module(number)
    entries = progress.entries(number)
    lab, lab_begun = _lab(module, progress)
    if not entries:
        return Stand(module, "not begun", f"about {module.minutes} min", "begin the lesson", lab, lab_begun)
    best = max((entry["score"] for entry in entries if entry["kind"] == "exit"), default=None)
    passed = best is not None and best >= PASSED
    counts, left = _counted(number, entries)
    check = "exit check not taken" if best is None else f"exit check {best} of 5"
    if passed:
        todo = f"lab {module.lab}" if module.lab and not lab_begun else "nothing more"
    elif best is None:
        todo = " and ".join(left) + ", then the exit check" if left else "the exit check"
    else:
        todo = "the exit check again; each question there says where to go back"
    return Stand(module, "done" if passed else "under way", ", ".join([*counts, check]), todo, lab, lab_begun)


def _counted(number: str, entries: list[dict[str, Any]]) -> tuple[list[str], list[str]]:
    """What was done of a lesson, and what is left, in words."""
    lesson = content.find(number)
    if lesson is None:
        return [], []
    seen = {entry["task"] for entry in entries if entry["kind"] == "prediction"}
    right = {entry["task"] for entry in entries if entry["kind"] == "answer" and entry["right"]}
    counts = [
        f"{len(seen)} of {len(lesson.predictions)} predictions",
        f"{len(right)} of {len(lesson.questions)} questions right",
    ]
    left = [
        f"{count} {name}{'' if count == 1 else 's'}"
        for count, name in (
            (len(lesson.predictions) - len(seen), "prediction"),
            (len(lesson.questions) - len(right), "question"),
        )
        if count > 0
    ]
    for job in lesson.jobs:
        stages = [entry["value"] for entry in entries if entry["task"] == job.id and entry["kind"] == "job"]
        most = max((len(stage) for stage in stages), default=0)
        counts.append(f"guided job {most} of {len(job.stages)} stages")
        if most < len(job.stages):
            left.append("the guided job")
    return counts, left


def _lab(module: tables.Module, progress: Progress) -> tuple[str, bool]:
    """What was tried of a lesson's lab in this workspace, in words, and whether anything was."""
    if not module.lab:
        return "", False
    name = f"lab {module.lab}"
    if progress.file is None:
        return name, False
    file = progress.file.parent / workspace.HIDDEN / "tries" / f"lab{module.lab}.json"
    try:
        tried = [
            {task: tries[-1]["state"] for task, tries in mine.items() if tries and "state" in tries[-1]}
            for mine in json.loads(file.read_text(encoding="utf-8")).values()
        ]
    except (OSError, ValueError, TypeError, AttributeError, KeyError):
        tried = []
    most = max(tried, key=len, default={})
    if not most:
        return f"{name} not begun", False
    right = sum(state == "right" for state in most.values())
    return f"{name}: {len(most)} task{'' if len(most) == 1 else 's'} tried, {right} right", True


def next_step(stands: list[Stand]) -> Stand | None:
    """The first lesson under way, else the first lab of a finished lesson that was not begun, else the first
    lesson not begun."""
    for wanted in (
        lambda one: one.state == "under way",
        lambda one: one.open_lab,
        lambda one: one.state == "not begun",
    ):
        for one in stands:
            if wanted(one):
                return one
    return None


def course_map(progress: Progress, folder: Path | None = None) -> Box:
    """All lessons as a list with their state, and what to do next.

    Parameters
    ----------
    progress : Progress
        The learner's record.
    folder : Path, optional
        Where the lessons lie; those whose notebook is there are links. Default: the current folder.

    Returns
    -------
    Box
    """
    place = folder or Path.cwd()
    stands = [stand(number, progress) for number in tables.modules()]
    here = [one for one in stands if (place / one.module.notebook).is_file()] or stands
    after = next_step(here)
    lines = [
        f"{one.module.number} {one.module.title}: {one.state},"
        f" {one.detail}{f'; {one.lab}' if one.lab else ''}{f' (next: {one.todo})' if one is after else ''}"
        for one in stands
    ]
    return fill(
        "map",
        "\n".join(lines),
        stands=stands,
        next=after,
        done=sum(one.state == "done" for one in stands),
        signs=_SIGNS,
        borders=_BORDERS,
        link=partial(_link, place),
        lab_link=partial(_lab_link, place),
        kept="in memory only" if progress.file is None else f"in {progress.file.name} in your workspace",
        trouble=progress.trouble,
    )


class LiveMap:
    """The map as a notebook shows it: drawn again whenever something is added to the record.

    Parameters
    ----------
    progress : Progress
        The learner's record.
    folder : Path, optional
        As for `course_map`.
    """

    def __init__(self, progress: Progress, folder: Path | None = None) -> None:
        self.progress, self.folder = progress, folder
        self._handle: Any = None

    @property
    def box(self) -> Box:
        """The map as it stands now."""
        return course_map(self.progress, self.folder)

    def _ipython_display_(self) -> None:
        from IPython.display import display

        if self._handle is None:
            self.progress.watch(lambda _entry: self._handle.update(self.box))
        self._handle = display(self.box, display_id=True)


def _link(folder: Path, one: Stand) -> Markup:
    name = escape(f"{one.module.number} {one.module.title}")
    if not (folder / one.module.notebook).is_file():
        return name
    return Markup('<a href="{}">{}</a>').format(one.module.notebook, name)


def _lab_link(folder: Path, one: Stand) -> Markup:
    """How far the lab is; a link where the lab lies in the workspace."""
    name = f"lab{one.module.lab}"
    if not (folder.parent / "labs" / name / f"{name}.ipynb").is_file():
        return escape(one.lab)
    return Markup('<a href="../labs/{0}/{0}.ipynb">{1}</a>').format(name, one.lab)
