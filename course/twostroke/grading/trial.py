"""A trial of the labs on a simulated class: how hard each task is, whether it tells learners apart,
reliability.

The learners are simulated (`twostroke.lab.simulated`): the figures say how the labs' marking behaves on
learners of stated ability with the usual slips, not how people will do.
"""

from __future__ import annotations

import hashlib
import tempfile
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from twostroke import lab as labs
from twostroke.grading.item_figures import alpha, discrimination
from twostroke.lab import exam
from twostroke.lab.exam.cases import draw
from twostroke.lab.exam.place import SECRET
from twostroke.lab.exam.sitting import Sitting, reopen
from twostroke.lab.simulated import Ability, Writer, draw_class, rubric_share
from twostroke.lab.simulated_route import worked
from twostroke.lab.task import Task
from twostroke.lab.written import Written

WEAK = 0.2
"""Discrimination below which a task is looked at again (a usual rule of thumb; from memory)."""
SAID = "A simulated class: these learners are no people, and their abilities and slip rates are invented."


@dataclass(frozen=True)
class TaskTrial:
    """How one task behaved.

    Parameters
    ----------
    lab, task, kind : str
    points : float
        What it is worth.
    difficulty : float
        Mean share of the points earned, 0 to 1.
    in_lab, in_all : float or None
        Correlation with all other tasks of its lab, and of all labs.
    """

    lab: str
    task: str
    kind: str
    points: float
    difficulty: float
    in_lab: float | None
    in_all: float | None

    @property
    def weak(self) -> bool:
        """Whether it does not tell the able from the others."""
        return self.in_all is None or self.in_all < WEAK


@dataclass(frozen=True)
class Trial:
    """What a trial came to.

    Parameters
    ----------
    learners : int
    tasks : tuple of TaskTrial
    reliability : dict
        Lab number -> Cronbach's alpha over its tasks.
    whole : float or None
        Alpha over all tasks of all labs.
    ability : float
        Correlation of the points of the whole with the stated ability.
    """

    learners: int
    tasks: tuple[TaskTrial, ...]
    reliability: dict[str, float | None]
    whole: float | None
    ability: float

    @property
    def weak(self) -> list[TaskTrial]:
        """Tasks that do not tell the able from the others."""
        return [task for task in self.tasks if task.weak]


def trial(
    lab_ids: Iterable[str | int] = (),
    learners: int = 200,
    seed: int = 14,
    progress: Callable[[int, int], None] | None = None,
) -> Trial:
    """Let a simulated class do labs and mark what it wrote with the labs' own marking.

    Parameters
    ----------
    lab_ids : iterable of str, optional
        Default all.
    learners : int, optional
    seed : int, optional
    progress : callable, optional
        Told (learners done, of).

    Returns
    -------
    Trial
    """
    found = [labs.load(each) for each in lab_ids or labs.lab_ids()]
    people = draw_class(learners, seed)
    columns = [(lab.id, task) for lab in found for task in lab.tasks]
    shares = np.zeros((learners, len(columns)))
    with tempfile.TemporaryDirectory(prefix="trial-") as folder:
        secret = hashlib.sha256(f"trial {seed}".encode()).hexdigest()  # the same machines at each trial
        Path(folder, SECRET).write_text(secret, encoding="ascii")
        place = exam.Place.make(folder)
        for row, person in enumerate(people):
            done = [share for lab in found for share in _of_lab(person, lab.id, place)]
            shares[row] = done
            if progress is not None:
                progress(row + 1, learners)
    return _figures(columns, shares, people)


def _of_lab(person: Ability, lab_id: str, place: exam.Place) -> list[float]:
    """Share of the points in each task of one lab."""
    writer = Writer(person, lab_id)
    if not writer.lab.practice:
        _sit(person, writer, place)
    with exam.using(place.folder):
        marks = labs.mark_answers(lab_id, person.name, writer.answers())
    return [
        _by_person(writer, task) if task.kind == "written" else mark.points / mark.max_points
        for task, mark in zip(writer.lab.tasks, marks, strict=True)
    ]


def _by_person(writer: Writer, task: Task) -> float:
    """What a person would give for a written answer."""
    (written,) = (item for item in task.items if isinstance(item, Written))
    return rubric_share(written, writer.given, writer.chance(task), writer.rng)


def _sit(person: Ability, writer: Writer, place: exam.Place) -> None:
    """Do the job of the examination, on the service's side."""
    task = next(each for each in writer.lab.tasks if each.by_service)
    bench = reopen(draw(place.draws, person.name), [])
    route = worked(bench, writer.chance(task), writer.rng)
    sitting = Sitting(place, person.name, 1)
    for number, step in enumerate(route[:-1]):
        sitting.do(number, step["action"], {**step["settings"], "confirm": step["cautions_confirmed"]})
    sitting.hand_back(len(route) - 1, route[-1]["diagnosis"], route[-1]["confidence"])


def _figures(columns: list[tuple[str, Task]], shares: np.ndarray, people: list[Ability]) -> Trial:
    points = shares * np.array([task.points for _, task in columns])
    in_all = discrimination(points)
    in_lab: list[float | None] = []
    reliability: dict[str, float | None] = {}
    names = [lab for lab, _ in columns]
    for lab in dict.fromkeys(names):
        own = points[:, [name == lab for name in names]]
        in_lab += discrimination(own)
        reliability[lab] = alpha(own)
    tasks = tuple(
        TaskTrial(
            lab, task.id, task.kind, task.points, float(shares[:, place].mean()), in_lab[place], in_all[place]
        )
        for place, (lab, task) in enumerate(columns)
    )
    ability = float(np.corrcoef(points.sum(axis=1), [each.overall for each in people])[0, 1])
    return Trial(len(people), tasks, reliability, alpha(points), ability)
