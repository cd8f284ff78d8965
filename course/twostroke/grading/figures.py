"""Numbers of a class: difficulty, discrimination, reliability, slips, competencies, answers alike."""

from __future__ import annotations

import json
import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from twostroke.grading.item_figures import FEWEST, alpha, discrimination
from twostroke.grading.standing import Standing
from twostroke.grading.states import State


@dataclass(frozen=True)
class TaskFigures:
    """How one task went.

    Parameters
    ----------
    task : str
    marked : int
        Learners for whom it was marked.
    difficulty : float or None
        Mean share of the points earned, 0 (nobody) to 1 (everybody).
    discrimination : float or None
        Correlation of the points in this task with those in all other tasks; None below five learners or
        where
        nothing varies.
    """

    task: str
    marked: int
    difficulty: float | None
    discrimination: float | None


def marked(standings: Iterable[Standing]) -> list[Standing]:
    """Those whose marks count for the class: marked to the end, whether or not a person must look at them."""
    return [
        s for s in standings if s.points is not None and all(task.marked != "not at all" for task in s.tasks)
    ]


def shares(standings: Sequence[Standing]) -> np.ndarray:
    """Return the share of the points earned, learners by tasks; nan where a mark is still due."""
    rows = [
        [math.nan if t.points is None or not t.max_points else t.points / t.max_points for t in s.tasks]
        for s in standings
    ]
    return np.array(rows, dtype=float).reshape(len(rows), -1)


def task_figures(standings: Sequence[Standing]) -> list[TaskFigures]:
    """Return difficulty and `discrimination` of each task."""
    found = marked(standings)
    if not found:
        return []
    table = shares(found)
    worth = np.array([task.max_points for task in found[0].tasks])
    points = table * worth
    figures = []
    for mine, task, parted in zip(table.T, found[0].tasks, discrimination(points), strict=True):
        known = ~np.isnan(mine)
        difficulty = float(mine[known].mean()) if known.any() else None
        figures.append(TaskFigures(task.task, int(known.sum()), difficulty, parted))
    return figures


def reliability(standings: Sequence[Standing]) -> float | None:
    """Return `alpha` of the points of those marked to the end, None where it is not defined."""
    found = marked(standings)
    if len(found) < FEWEST:
        return None
    points = shares(found) * np.array([task.max_points for task in found[0].tasks])
    return alpha(points[~np.isnan(points).any(axis=1)])


def slips(standings: Iterable[Standing]) -> list[tuple[str, str, list[str]]]:
    """Return (slip, task, learners) for each slip that was seen, the most frequent first."""
    found: dict[tuple[str, str], list[str]] = defaultdict(list)
    for standing in standings:
        for task in standing.tasks:
            for slip in task.slips:
                found[(slip, task.task)].append(standing.learner)
    return [
        (slip, task, who) for (slip, task), who in sorted(found.items(), key=lambda e: (-len(e[1]), e[0]))
    ]


def competencies(standings: Iterable[Standing]) -> tuple[list[str], dict[str, dict[str, float]]]:
    """Return the competencies of a lab and each marked learner's share of the points in each."""
    names: dict[str, None] = {}
    table: dict[str, dict[str, float]] = {}
    for standing in standings:
        if standing.points is None:
            continue
        earned: dict[str, float] = defaultdict(float)
        possible: dict[str, float] = defaultdict(float)
        for task in standing.tasks:
            if task.competency and task.points is not None:
                names[task.competency] = None
                earned[task.competency] += task.points
                possible[task.competency] += task.max_points
        table[standing.learner] = {name: earned[name] / possible[name] for name in possible if possible[name]}
    return list(names), table


@dataclass(frozen=True)
class Alike:
    """Two learners who gave the same answers, although their engines differ.

    Parameters
    ----------
    learners : (str, str)
    same : int
        Answers that only very few in the class gave, and these two both.
    of : int
        Answers of that kind which the one with fewer of them gave.
    """

    learners: tuple[str, str]
    same: int
    of: int


def alike(standings: Sequence[Standing], least: float = 0.6, fewest: int = 3) -> list[Alike]:
    """Return pairs who share most of their rare answers.

    Parameters
    ----------
    standings : sequence of Standing
    least : float
        Share of the rare answers that must be the same.
    fewest : int
        Fewest shared answers.

    Returns
    -------
    list of Alike
        The most alike first. It says where to look, not what happened.

    Notes
    -----
    Every learner's numbers differ, so the right answers differ too. Answers which over a tenth of the class
    (and more
    than two) gave, such as choices, say nothing and are left out. The work grows with the answers, not with
    the pairs.
    """
    holders: dict[str, set[str]] = defaultdict(set)
    for standing in standings:
        for task, answer in standing.outcome.answers.items():
            for key, text in _texts(task, answer):
                holders[f"{key}={text}"].add(standing.learner)
    most = max(2, len(standings) // 10)
    rare = {key: who for key, who in holders.items() if len(who) <= most}
    count: dict[str, int] = defaultdict(int)
    both: dict[tuple[str, str], int] = defaultdict(int)
    for who in rare.values():
        ordered = sorted(who)
        for index, one in enumerate(ordered):
            count[one] += 1
            for other in ordered[index + 1 :]:
                both[(one, other)] += 1
    found = [Alike(pair, same, min(count[pair[0]], count[pair[1]])) for pair, same in both.items()]
    return sorted(
        (a for a in found if a.same >= fewest and a.same >= least * a.of), key=lambda a: (-a.same, a.learners)
    )


def _texts(task: str, answer: object) -> Iterable[tuple[str, str]]:
    if isinstance(answer, dict):
        return [
            (f"{task}.{key}", json.dumps(value, sort_keys=True)) for key, value in answer.items() if value
        ]
    return [(task, json.dumps(answer, sort_keys=True))] if answer else []


def reteach(standings: Sequence[Standing], most: int = 3) -> list[tuple[str, float, list[tuple[str, int]]]]:
    """Return the hardest tasks with their slips: (task, mean share, slips with the number of learners).

    A task of which some answers still wait for a person is left out: its share is not known yet.
    """
    seen: dict[str, list[tuple[str, int]]] = defaultdict(list)
    for slip, task, who in slips(standings):
        seen[task].append((slip, len(who)))
    learners = len(marked(standings))
    known = [t for t in task_figures(standings) if t.difficulty is not None and t.marked == learners]
    hard = sorted(known, key=lambda t: t.difficulty or 0.0)
    return [
        (t.task, t.difficulty or 0.0, seen.get(t.task, []))
        for t in hard[:most]
        if (t.difficulty or 0.0) < 0.8
    ]


def count_states(standings: Iterable[Standing]) -> dict[State, int]:
    """Return how many learners are in each state."""
    found = dict.fromkeys(State, 0)
    for standing in standings:
        found[standing.state] += 1
    return found
