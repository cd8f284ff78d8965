"""A guided job as data: one machine on the bench, and what is done to it stage by stage."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from twostroke.lesson.errors import LessonError

CLOSE, CARD = "hand_back", "card"


@dataclass(frozen=True, kw_only=True)
class Stage:
    """One stage of a guided job.

    Parameters
    ----------
    id : str
        Name in the record.
    title : str
        What is done, in a few words.
    say : str
        HTML: why it comes now and what to look for. It does not name the step where the reader is to choose.
    steps : tuple of str
        Steps of the bench of which one completes the stage; ``hand_back`` and ``card`` for the two ends.
    place : str
        Name of the place on the drawing; empty where the reader is to find it.
    told : str
        HTML: what is known when it is done.
    """

    id: str
    title: str
    say: str
    steps: tuple[str, ...]
    place: str = ""
    told: str = ""

    def __post_init__(self) -> None:
        if not self.steps:
            raise LessonError(f"stage {self.id!r}: name at least one step that completes it")


@dataclass(frozen=True, kw_only=True)
class GuidedJob:
    """A machine and the stages of its job, from complaint to job card.

    Parameters
    ----------
    id, title : str
        Unique within the lesson; heading.
    scenario : callable
        Gives the scenario as plain data; the same machine for everyone, so that the text fits its readings.
    stages : tuple of Stage
        In the order of the work.
    """

    id: str
    title: str
    scenario: Callable[[], dict[str, Any]]
    stages: tuple[Stage, ...]

    def __post_init__(self) -> None:
        ids = [stage.id for stage in self.stages]
        if len(ids) != len(set(ids)):
            raise LessonError(f"guided job {self.id!r}: two stages have one id")
        ends = [stage.steps for stage in self.stages[-2:]]
        if ends != [(CLOSE,), (CARD,)]:
            raise LessonError(f"guided job {self.id!r}: the last two stages are hand_back and card")
