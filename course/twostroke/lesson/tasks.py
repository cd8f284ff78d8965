"""What a lesson asks, as data: predictions, questions, examples with blanks, orders of work. No widget in
here.

A lesson's content is written once in `twostroke.lesson.content` with these classes; the widgets draw it, the
tests count it. Each class refuses what would break a rule of the course (a wrong option without feedback, a
right one missing). Texts may hold simple HTML such as ``<b>`` and ``<sub>``.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from twostroke.lesson import tables
from twostroke.lesson.errors import LessonError


def _mix(text: str) -> bytes:
    return hashlib.sha256(text.encode()).digest()


@dataclass(frozen=True, kw_only=True)
class Option:
    """One answer to choose.

    Parameters
    ----------
    text : str
        What the reader chooses.
    say : str
        What this answer gets to hear: what is seen, what it suggests, what to check.
    right : bool
        True for the one right answer.
    believes : str, optional
        Id of the misconception behind it; a must for every wrong option.
    """

    text: str
    say: str
    right: bool = False
    believes: str | None = None

    def __post_init__(self) -> None:
        if not self.right:
            if self.believes is None:
                raise LessonError(f"wrong option {self.text!r} names no misconception: give believes=")
            tables.misconception(self.believes)


@dataclass(frozen=True, kw_only=True)
class Question:
    """A question with one right option.

    Parameters
    ----------
    id : str
        Unique within the lesson.
    about : str
        Number of the lesson whose matter it asks for.
    ask : str
        The question.
    options : tuple of Option
        Two to five, exactly one right.
    explains : str, optional
        Id of the figure that it follows, when it asks why the figure did what it did.
    go_back : str
        For exit checks: where to read again when it went wrong, as words.
    """

    id: str
    about: str
    ask: str
    options: tuple[Option, ...]
    explains: str | None = None
    go_back: str = ""

    def __post_init__(self) -> None:
        tables.module(self.about)
        if not 2 <= len(self.options) <= 5 or sum(option.right for option in self.options) != 1:
            raise LessonError(f"question {self.id!r}: needs two to five options, exactly one of them right")

    @property
    def shown(self) -> tuple[Option, ...]:
        """The options in the order in which they are shown: shuffled, and the same every time."""
        return tuple(sorted(self.options, key=lambda option: _mix(f"{self.id}|{option.text}")))

    @property
    def right(self) -> Option:
        """The right option."""
        return next(option for option in self.options if option.right)


@dataclass(frozen=True, kw_only=True)
class Prediction:
    """A guess that is committed before a figure opens; never graded, never lost.

    Parameters
    ----------
    id : str
        Unique within the lesson.
    ask : str
        What will the figure show?
    look : str
        What to do with the figure and what to watch.
    options : tuple of str
        Choices; leave empty for a number.
    unit : str
        For a number: an example of how it may be written, such as ``"mm"``; the reader gives the unit.
    """

    id: str
    ask: str
    look: str
    options: tuple[str, ...] = ()
    unit: str = ""

    def __post_init__(self) -> None:
        if bool(self.options) == bool(self.unit):
            raise LessonError(f"prediction {self.id!r}: give either options or the unit of a number")


@dataclass(frozen=True, kw_only=True)
class Slip:
    """A usual error in a blank, recognised by the value that it gives.

    Parameters
    ----------
    gives : callable
        Value that this slip leads to; called without arguments, returns what the blank's answer returns.
    believes : str
        Id of the misconception behind it.
    say : str
        What this answer gets to hear.
    """

    gives: Callable[[], Any]
    believes: str
    say: str

    def __post_init__(self) -> None:
        tables.misconception(self.believes)


@dataclass(frozen=True, kw_only=True)
class Blank:
    """A gap in an example.

    Parameters
    ----------
    id, label : str
        Unique within the example; what is to be filled in.
    answer : callable or str
        Called without arguments, returns a quantity or a plain float; a str is the right choice among
        ``options``.
    unit : str
        Shown as a hint and expected from the reader; empty for a plain number or a choice.
    within : float
        Accepted relative difference.
    options : tuple of str
        Choices; leave empty for a value.
    slips : tuple of Slip
        Errors that are recognised.
    believes : mapping
        For choices: option -> id of the misconception behind it.
    say : str
        What a right answer gets to hear: how it comes about.
    hint : str
        What to try when the value is neither right nor a known slip.
    """

    id: str
    label: str
    answer: Callable[[], Any] | str
    say: str
    hint: str
    unit: str = ""
    within: float = 0.01
    options: tuple[str, ...] = ()
    slips: tuple[Slip, ...] = ()
    believes: Mapping[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for key in self.believes.values():
            tables.misconception(key)
        if self.options:
            wrong = set(self.options) - {self.answer}
            if len(wrong) != len(self.options) - 1 or wrong - set(self.believes):
                raise LessonError(
                    f"blank {self.id!r}: one option is the answer, each other one needs a misconception"
                )
        elif not callable(self.answer):
            raise LessonError(f"blank {self.id!r}: give the answer as a function, or options to choose from")


@dataclass(frozen=True, kw_only=True)
class Example:
    """An example with blanks; ``stage`` is ``faded`` (some steps given) or ``alone`` (only the question
    given)."""

    id: str
    title: str
    lines: tuple[str | Blank, ...]
    stage: str = "faded"

    def __post_init__(self) -> None:
        given = [line for line in self.lines if isinstance(line, str)]
        if self.stage not in ("faded", "alone") or not self.blanks:
            raise LessonError(f"example {self.id!r}: stage is faded or alone, with at least one blank")
        if self.stage == "faded" and len(given) < 2:
            raise LessonError(f"example {self.id!r}: a faded example shows some of the steps")

    @property
    def blanks(self) -> tuple[Blank, ...]:
        """The blanks in order."""
        return tuple(line for line in self.lines if isinstance(line, Blank))


@dataclass(frozen=True, kw_only=True)
class Before:
    """In a sound order ``first`` comes somewhere before ``then``; ``why`` says what happens otherwise."""

    first: str
    then: str
    why: str
    believes: str

    def __post_init__(self) -> None:
        tables.misconception(self.believes)


@dataclass(frozen=True, kw_only=True)
class Ordering:
    """Steps to be put into a sound order; any order that keeps every `Before` is sound.

    Parameters
    ----------
    id, ask : str
        Unique within the lesson; the task.
    steps : mapping
        Step id -> text, in the order in which they are first shown (which must not be sound).
    rules : tuple of Before
        What has to come before what.
    done : str
        What a sound order gets to hear.
    """

    id: str
    ask: str
    steps: Mapping[str, str]
    rules: tuple[Before, ...]
    done: str

    def __post_init__(self) -> None:
        named = {name for rule in self.rules for name in (rule.first, rule.then)}
        if named - set(self.steps):
            raise LessonError(
                f"ordering {self.id!r}: rules name unknown steps {sorted(named - set(self.steps))}"
            )
        if not self.broken(list(self.steps)):
            raise LessonError(f"ordering {self.id!r}: the order first shown is already sound; shuffle it")

    def broken(self, order: list[str]) -> list[Before]:
        """The rules that an order breaks."""
        place = {name: row for row, name in enumerate(order)}
        return [rule for rule in self.rules if place[rule.first] > place[rule.then]]
