"""Scenarios looked at as a whole: can a job be solved, how hard is it, do its readings fit its story?

The form of a scenario and reading one strictly lie in `twostroke.table`; the machine itself is
`twostroke.bench`; what to test next comes from `twostroke.isolation`. Here the three meet.

Examples
--------
>>> from twostroke.scenarios import check
>>> report = check("plug_fouled_trimmer", learners=2, jobs=4)
>>> report.sound, report.difficulty.level
(True, 1)
"""

from __future__ import annotations

from twostroke.scenarios.check import Report, check
from twostroke.scenarios.difficulty import (
    LEVELS,
    Difficulty,
    by_difficulty,
    difficulty,
    kept_difficulty,
    level,
    renew,
)
from twostroke.scenarios.template import new
from twostroke.scenarios.work import Worked, advised, best_route, cure, telling_tests

__all__ = [
    "LEVELS",
    "Difficulty",
    "Report",
    "Worked",
    "advised",
    "best_route",
    "by_difficulty",
    "check",
    "cure",
    "difficulty",
    "kept_difficulty",
    "level",
    "new",
    "renew",
    "telling_tests",
]
