"""Grading a class with nbgrader's own gradebook: isolated, resumable, with reasons.

`release` hands a lab out, `grade` marks what came back, `Desk` is where a person marks written answers,
`mark_again` marks one task again, `report` says how the class did in a lab, `report_course` in all of them,
`demo` shows all of it on an invented class. Each is loaded when first used: learners do not need nbgrader.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

from twostroke import resources

if TYPE_CHECKING:
    from twostroke.grading.again import mark_again
    from twostroke.grading.by_hand import Desk
    from twostroke.grading.confine import Limits
    from twostroke.grading.course_report import report_course
    from twostroke.grading.demonstration import demo
    from twostroke.grading.hand_out import release
    from twostroke.grading.marking_screen import MarkingScreen
    from twostroke.grading.place import Course
    from twostroke.grading.reporting import report
    from twostroke.grading.run import Summary, grade
    from twostroke.grading.states import GradingError, Outcome, Reason, State
    from twostroke.grading.without_gradebook import plain_release

_HOME = {
    "Course": "place",
    "Desk": "by_hand",
    "GradingError": "states",
    "Limits": "confine",
    "MarkingScreen": "marking_screen",
    "Outcome": "states",
    "Reason": "states",
    "State": "states",
    "Summary": "run",
    "report_course": "course_report",
    "demo": "demonstration",
    "grade": "run",
    "mark_again": "again",
    "plain_release": "without_gradebook",
    "release": "hand_out",
    "report": "reporting",
}
__all__ = [
    "Course",
    "Desk",
    "GradingError",
    "Limits",
    "MarkingScreen",
    "Outcome",
    "Reason",
    "State",
    "Summary",
    "demo",
    "grade",
    "mark_again",
    "plain_release",
    "release",
    "report",
    "report_course",
]

_POSIX = ("fcntl", "grp", "pwd", "resource", "termios")


def __getattr__(name: str) -> Any:
    """Load a public name on first use; say what to install where nbgrader is missing."""
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    try:
        return getattr(importlib.import_module(f"{__name__}.{_HOME[name]}"), name)
    except ModuleNotFoundError as error:
        known: object = resources.without(error)
        if (error.name or "").partition(".")[0] in _POSIX:
            known = (
                "grading runs on Linux or macOS: it forks processes and walls them in. On Windows, "
                "work in the Windows Subsystem for Linux; lessons, labs and bench need no such thing"
            )
        if known is None:
            raise
        from twostroke.grading.states import GradingError

        raise GradingError(str(known)) from None
