"""What each lesson asks: one package ``mNN`` a lesson, with one `twostroke.lesson.outline.Lesson` called
LESSON."""

from __future__ import annotations

import importlib
import re
from functools import cache
from importlib import resources

from twostroke.lesson import tables
from twostroke.lesson.errors import LessonError
from twostroke.lesson.outline import Lesson


@cache
def numbers() -> tuple[str, ...]:
    """Numbers of the lessons that are written.

    Examples
    --------
    >>> numbers()[:2]
    ('00', '01')
    """
    found = (re.fullmatch(r"m(\d\d)", entry.name) for entry in resources.files(__name__).iterdir())
    return tuple(sorted(match.group(1) for match in found if match))


@cache
def find(number: str) -> Lesson | None:
    """The content of a lesson, or None when it is not written."""
    if number not in numbers():
        return None
    found: Lesson = importlib.import_module(f"{__name__}.m{number}").LESSON
    return found


def load(number: str) -> Lesson:
    """The content of a lesson.

    Parameters
    ----------
    number : str
        Two digits.

    Raises
    ------
    LessonError
        When it is not a lesson, or not written yet.
    """
    tables.module(number)
    found = find(number)
    if found is None:
        raise LessonError(f"lesson {number} is not written; there are: {', '.join(numbers())}")
    return found
