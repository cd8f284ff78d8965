"""The first page: a demo machine, an own machine, or a kept job."""

from __future__ import annotations

from functools import lru_cache
from itertools import groupby
from pathlib import Path
from typing import Any

from twostroke.bench.maker import UNITS
from twostroke.lesson.bench_panel import store
from twostroke.lesson.bench_panel.job import BenchJob, Job, OwnJob, open_kept
from twostroke.lesson.errors import LessonError
from twostroke.scenarios import LEVELS, by_difficulty, level
from twostroke.table import Scenario, Table, scenario_paths

BANDS = {
    "plug_gap": "plug gap",
    "air_gap": "air gap",
    "lead_resistance": "lead and boot resistance",
    "primary_resistance": "primary resistance",
    "secondary_resistance": "secondary resistance",
    "compression": "compression",
    "mixture_turns": "mixture screws",
}
"""Quantities for which a maker's band can be typed in."""


@lru_cache(maxsize=1)
def scenarios() -> tuple[Scenario, ...]:
    """Scenarios of the course, the plainest first."""
    return tuple(by_difficulty())


def shelves(kind: str = "") -> list[tuple[str, list[Scenario]]]:
    """Scenarios by difficulty, the plainest first.

    Parameters
    ----------
    kind : str
        Machines of one kind only.

    Examples
    --------
    >>> [(words, len(rows) > 0) for words, rows in shelves()][0]
    ('difficulty 1 of 5', True)
    """
    shown = [one for one in scenarios() if kind in ("", one.machine.kind)]
    return [(words, list(rows)) for words, rows in groupby(shown, lambda one: hardness(one.id))]


def facts(scenario: Scenario) -> str:
    """What machine it is, in one line.

    Examples
    --------
    >>> facts(scenarios()[0])
    '25 cm³ hedge trimmer, demo engine A (invented), 20 °C; difficulty 1 of 5'
    """
    m = scenario.machine
    size, warmth = m.displacement.replace("cc", "cm³"), m.ambient.replace("degC", "°C")
    high = "" if m.altitude.startswith("0 ") else f", {m.altitude} above the sea"
    hard = f"; {hardness(scenario.id)}" if any(scenario.id == one.id for one in scenarios()) else ""
    return f"{size} {m.kind}, {m.engine} (invented), {warmth}{high}{hard}"


@lru_cache(maxsize=128)
def hardness(scenario: str) -> str:
    """Difficulty of a scenario in words.

    Examples
    --------
    >>> hardness("plug_fouled_trimmer")
    'difficulty 1 of 5'
    """
    levels = {one.id: level(one) for one in scenarios()}
    known = levels.get(scenario)
    return f"difficulty {known} of {len(LEVELS) + 1}" if known else "difficulty not worked out"


def begin(values: dict[str, Any], folder: Path | None) -> Job:
    """A scenario for a learner."""
    learner = _learner(values)
    name = str(values.get("scenario", ""))
    if name not in scenario_paths():
        raise LessonError("choose a machine from the list")
    return BenchJob(name, learner, folder)


def begin_own(values: dict[str, Any], folder: Path | None, table: Table) -> Job:
    """An own machine."""
    learner = _learner(values)
    complaint = str(values.get("complaint", ""))
    if not complaint:
        raise LessonError("choose the complaint that is nearest to what the owner says")
    given = {name: str(values.get(f"band-{name}", "")).strip() for name in UNITS}
    features = values.get("features", [])
    features = [features] if isinstance(features, str) else list(features)
    return OwnJob(
        str(values.get("name", "")),
        complaint,
        learner,
        {k: v for k, v in given.items() if v},
        features,
        folder,
        table,
    )


def resume(name: str, folder: Path | None, table: Table) -> Job:
    """A kept job by the name of its file."""
    for kept in store.listed(folder):
        if kept.file.name == name:
            return open_kept(kept.file, table)
    raise LessonError("this job is not in the folder any more: choose another")


def _learner(values: dict[str, Any]) -> str:
    learner = str(values.get("learner", "")).strip()
    if not learner:
        raise LessonError("type your name or number first: it decides which machine you get")
    return learner
