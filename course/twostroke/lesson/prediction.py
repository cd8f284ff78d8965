"""A prediction: committed before the figure opens, never graded, never lost."""

from __future__ import annotations

from html import escape
from typing import Any

from twostroke import units
from twostroke.errors import TwoStrokeError
from twostroke.lesson import control
from twostroke.lesson.progress import Progress
from twostroke.lesson.tasks import Prediction

_HEAD = '<p class="tsb-head"><strong>Predict first.</strong> Never graded, and it is kept.</p>'


class Predict(control.Control):
    """The control for one `Prediction`.

    Parameters
    ----------
    lesson : str
        Lesson number.
    task : Prediction
        What is asked.
    progress : Progress
        Where it is kept.
    """

    def __init__(self, lesson: str, task: Prediction, progress: Progress) -> None:
        super().__init__(name=f"Prediction: {control.plain(task.ask)}", look="predict")
        self.lesson, self.task, self.progress = lesson, task, progress
        self._again = False
        self._form = ""
        self._draw()

    @property
    def committed(self) -> str | None:
        """The latest committed prediction as text, or None."""
        entry = self.progress.last(self.lesson, self.task.id, "prediction")
        return None if entry is None else str(entry["value"])

    def on_commit(self) -> None:
        """Keep the prediction; a number without its unit is asked back."""
        value = str(self.values.get("guess", "")).strip()
        try:
            self._check(value)
        except TwoStrokeError as error:
            self._form = f"<p><b>Not kept yet:</b> {escape(str(error))}</p>"
            self.speak(control.plain(self._form))
        else:
            self._form, self._again = "", False
            self.progress.add(self.lesson, self.task.id, "prediction", value=value)
            self.speak(f"Kept: {value}. {control.plain(self.task.look)}")
        self._draw()

    def on_again(self) -> None:
        """Predict once more; the earlier predictions stay in the record."""
        self._again = True
        self._draw()
        self.speak("Give a new prediction. The earlier one stays in your record.")

    def _check(self, value: str) -> None:
        if self.task.options:
            if value not in self.task.options:
                raise TwoStrokeError("choose one of the answers first, then commit it.")
        elif not value:
            raise TwoStrokeError(
                f"write a number with its unit, such as 1.5 {self.task.unit}. A rough number is fine."
            )
        else:
            units.read(value, expect=self.task.unit)

    def _ask(self) -> control.Part:
        common = {"key": "guess", "message": self._form, "tone": "look" if self._form else "plain"}
        if self.task.options:
            shown = [[option, escape(option)] for option in self.task.options]
            return {"kind": "choice", "legend": self.task.ask, "options": shown, **common}
        hint = f"a number and its unit, such as 1.5 {self.task.unit}"
        label = f'<span class="tsb-ask">{self.task.ask}</span><br>Your prediction, with its unit'
        return {
            "kind": "entry",
            "label": label,
            "hint": f"… {self.task.unit}",
            "press": "commit",
            "title": hint,
            **common,
        }

    def _draw(self) -> None:
        kept = self.committed
        head = control.text("head", _HEAD)
        if kept is not None and not self._again:
            said = (
                f'<p class="tsb-ask">{self.task.ask}</p><p><b>You predicted: {escape(kept)}.</b>'
                f" Kept.</p><p>{self.task.look}</p>"
            )
            tail = [
                control.text("kept", said, "kept"),
                {**control.buttons(("again", "Predict once more"), main=False), "key": "more"},
            ]
        else:
            tail = [self._ask(), control.buttons(("commit", "Commit my prediction"))]
        trouble = (
            [control.text("trouble", f"<p>{escape(self.progress.trouble)}</p>", "look")]
            if self.progress.trouble
            else []
        )
        self.parts = [head, *tail, *trouble]

    def still_html(self) -> str:
        """The question, the choices, and what the reader has committed."""
        rows = "".join(f"<li>{escape(option)}</li>" for option in self.task.options)
        choices = f"<ul>{rows}</ul>" if rows else ""
        kept = self.committed
        said = (
            f"<p><b>You predicted: {escape(kept)}.</b></p>"
            if kept
            else "<p>Write your prediction down before you look at the figure.</p>"
        )
        return f"{_HEAD}<p><b>{self.task.ask}</b></p>{choices}{said}<p>{self.task.look}</p>"


def guess_of(task: Prediction, value: str | None) -> Any:
    """A committed number as a quantity, or None for choices and for nothing committed.

    Examples
    --------
    >>> task = Prediction(id="p", ask="How thick?", look="Look.", unit="mm")
    >>> print(guess_of(task, "0.3 mm"))
    0.3 mm
    """
    if value is None or task.options:
        return None
    try:
        return units.read(value, expect=task.unit)
    except TwoStrokeError:
        return None
