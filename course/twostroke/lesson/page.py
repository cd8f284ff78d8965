"""A lesson under way: the short calls that a notebook makes."""

from __future__ import annotations

from html import escape
from pathlib import Path
from typing import Any

from twostroke.lesson import box, card, content, progress_map, tables
from twostroke.lesson.example import Fill
from twostroke.lesson.exit_check import ExitCheck
from twostroke.lesson.figure import Show
from twostroke.lesson.ordering import Order
from twostroke.lesson.practice import Practice
from twostroke.lesson.prediction import Predict
from twostroke.lesson.progress import Progress, place
from twostroke.lesson.question import Ask

PRACTICE = "practice"
"""Name under which a lesson's bench jobs are kept; it decides which machine one gets."""


class Page:
    """One lesson and one learner's record; each method makes one thing to show.

    Parameters
    ----------
    number : str
        Two digits.
    progress : Progress, optional
        Default: the record in the workspace.

    Examples
    --------
    >>> page = Page("01", Progress(None))
    >>> page.question("thou_is").task.about
    '01'
    """

    def __init__(self, number: str, progress: Progress | None = None) -> None:
        self.lesson = content.load(number)
        self.progress = progress if progress is not None else Progress(place())

    def predict(self, key: str) -> Predict:
        """A prediction; commit it before the figure opens."""
        return Predict(self.lesson.number, self.lesson.find("predictions", key), self.progress)

    def figure(self, key: str) -> Show:
        """An interactive figure; it opens when its prediction is committed."""
        task = self.lesson.find("figures", key)
        prediction = self.lesson.find("predictions", task.prediction)
        return Show(self.lesson.number, task, prediction, self.progress)

    def question(self, key: str) -> Ask:
        """A retrieval question."""
        return Ask(self.lesson.number, self.lesson.find("questions", key), self.progress)

    def example(self, key: str) -> Fill:
        """A faded example, or one on your own."""
        return Fill(self.lesson.number, self.lesson.find("examples", key), self.progress)

    def order(self, key: str) -> Order:
        """Steps to put in order."""
        return Order(self.lesson.number, self.lesson.find("orderings", key), self.progress)

    def exit_check(self) -> ExitCheck:
        """The five questions at the end."""
        return ExitCheck(self.lesson.number, self.lesson.exit_check, self.progress)

    def practice(self) -> Practice:
        """Save, restart, hand in."""
        return Practice(self.lesson.number, self.progress)

    def job(self, key: str) -> Any:
        """A guided job on the virtual bench."""
        from twostroke.lesson.bench_panel import store  # the bench is slow to import
        from twostroke.lesson.guided import Guided

        task = self.lesson.find("jobs", key)
        return Guided(self.lesson.number, task, self.progress, store.place())

    def caution(self, *keys: str) -> box.Box:
        """A caution box at the step where it matters."""
        return box.caution(*keys)

    def words(self) -> box.Box:
        """The words that this lesson explains first."""
        return box.glossary(self.lesson.number)

    def all_words(self) -> box.Box:
        """The whole glossary."""
        return box.glossary()

    def card(self) -> box.Box:
        """The bench card, with a link to the printed page."""
        return card.show(self.lesson)

    def bench(self, scenario: str, *, alone: bool = False) -> Any:
        """A practice job on the bench: the same machine for everybody, kept with the other jobs.

        ``alone`` is the bench as in an examination: no hints, and cautions must be thought of.
        """
        from twostroke.lesson import bench_panel  # the bench is slow to import

        return bench_panel.open_bench(scenario, PRACTICE, reminders=not alone)

    def own_bench(self) -> Any:
        """The bench's first page, for a machine of your own: name, bands and readings are typed in."""
        from twostroke.lesson import bench_panel

        return bench_panel.open_bench()

    def map(self, folder: str | Path | None = None) -> progress_map.LiveMap:
        """The map of the course with what to do next; it follows what you do on this page."""
        return progress_map.LiveMap(self.progress, None if folder is None else Path(folder))

    def _repr_mimebundle_(self, **_: Any) -> dict[str, str]:
        module = tables.module(self.lesson.number)
        now = progress_map.stand(module.number, self.progress)
        file = self.progress.file
        kept = "in memory only" if file is None else f"in {escape(str(file))}"
        trouble = f"<p><b>{escape(self.progress.trouble)}</b></p>" if self.progress.trouble else ""
        html = (
            f"<p><b>Lesson {module.number}, {escape(module.title)}.</b> {now.state}:"
            f" {escape(now.detail)}.</p>{trouble}<p>Your predictions and answers are kept {kept}. Nothing is"
            " sent anywhere.</p>"
        )
        shown = box.Box(html)
        return {"text/html": shown.html, "text/plain": shown.words}


def open_lesson(number: str) -> Page:
    """Open a lesson with the learner's own record.

    Parameters
    ----------
    number : str
        Two digits, such as ``"01"``.

    Returns
    -------
    Page

    Raises
    ------
    LessonError
        When there is no such lesson.
    """
    return Page(number)
