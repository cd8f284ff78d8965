"""What a lesson shows and prints, as data: figures, the bench card, and the lesson as a whole."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from twostroke.lesson import tables
from twostroke.lesson.drawing import Picture
from twostroke.lesson.errors import LessonError
from twostroke.lesson.guide import GuidedJob
from twostroke.lesson.tasks import Example, Ordering, Prediction, Question


@dataclass(frozen=True, kw_only=True)
class Parameter:
    """One thing to turn on a figure.

    Parameters
    ----------
    name, label, unit : str
        Keyword of the drawing function; what the reader sees; unit in which the slider counts.
    low, high, step, start : float
        Range, step and first value, in ``unit``.
    """

    name: str
    label: str
    unit: str
    low: float
    high: float
    step: float
    start: float

    def __post_init__(self) -> None:
        if not self.low <= self.start <= self.high or self.step <= 0:
            raise LessonError(f"parameter {self.name!r}: start must lie from low to high, step above zero")


@dataclass(frozen=True, kw_only=True)
class Figure:
    """An interactive figure: a pure drawing function and what can be turned.

    Parameters
    ----------
    id, title : str
        Unique within the lesson; heading.
    draw : callable
        Takes each parameter as text with its unit (plain numbers for unit ``""``) and, where the figure has
        a numeric prediction, ``guess=`` (a quantity, a float, or None); returns a `Picture`.
    parameters : tuple of Parameter
        What can be turned.
    prediction : str
        Id of the prediction that opens it.
    source : str
        Where the law and its constants come from, shown under the figure.
    shows_guess : bool
        True when ``draw`` takes ``guess``.
    """

    id: str
    title: str
    draw: Callable[..., Picture]
    parameters: tuple[Parameter, ...]
    prediction: str
    source: str
    shows_guess: bool = False

    def picture(self, values: Mapping[str, float], guess: Any = None) -> Picture:
        """Draw one state; ``values`` in the parameters' own units.

        Raises
        ------
        LessonError
            A value outside its range.
        """
        fed: dict[str, Any] = {}
        for parameter in self.parameters:
            value = float(values[parameter.name])
            if not parameter.low <= value <= parameter.high:
                raise LessonError(
                    f"{parameter.label} {value:g} {parameter.unit}: give {parameter.low:g} to"
                    f" {parameter.high:g}"
                )
            fed[parameter.name] = f"{value:.10g} {parameter.unit}" if parameter.unit else value
        if self.shows_guess:
            fed["guess"] = guess
        return self.draw(**fed)

    def still(self) -> Picture:
        """The picture at the starting values."""
        return self.picture({parameter.name: parameter.start for parameter in self.parameters})


@dataclass(frozen=True, kw_only=True)
class BenchCard:
    """A summary that fits on one printed page: formula, band, unit and the trap to avoid.

    Parameters
    ----------
    lead : str
        One or two sentences on top.
    rows : tuple of (what, formula or value, unit or band)
        The table.
    traps : tuple of str
        What goes wrong, and how to notice.
    cautions : tuple of str
        Ids of the cautions that belong to it.
    sources : tuple of str
        Where the numbers come from, or "common practice, no source".
    figure : str, optional
        Id of a figure of the lesson to print.
    """

    lead: str
    rows: tuple[tuple[str, str, str], ...]
    traps: tuple[str, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]
    figure: str | None = None


@dataclass(frozen=True, kw_only=True)
class Lesson:
    """Everything that one lesson asks and shows, by id."""

    number: str
    predictions: tuple[Prediction, ...]
    figures: tuple[Figure, ...]
    questions: tuple[Question, ...]
    examples: tuple[Example, ...]
    exit_check: tuple[Question, ...]
    card: BenchCard
    orderings: tuple[Ordering, ...] = ()
    jobs: tuple[GuidedJob, ...] = ()

    def __post_init__(self) -> None:
        tables.module(self.number)
        kinds: tuple[Iterable[Any], ...] = (
            self.predictions,
            self.figures,
            self.questions,
            self.examples,
            self.exit_check,
            self.orderings,
            self.jobs,
        )
        ids = [task.id for kind in kinds for task in kind]
        twice = sorted({key for key in ids if ids.count(key) > 1})
        if twice:
            raise LessonError(f"lesson {self.number}: ids used twice: {', '.join(twice)}")
        known = {task.id for task in self.predictions}
        for figure in self.figures:
            if figure.prediction not in known:
                raise LessonError(f"figure {figure.id!r}: prediction {figure.prediction!r} does not exist")

    def find(self, kind: str, key: str) -> Any:
        """One task by kind (``predictions``, ``figures``, …) and id.

        Raises
        ------
        LessonError
            When there is none; the message lists what there is.
        """
        found = {task.id: task for task in getattr(self, kind)}
        if key not in found:
            raise LessonError(
                f"lesson {self.number} has no {kind} {key!r}; there are: {', '.join(found) or 'none'}"
            )
        return found[key]
