"""An interactive figure: slider and number box for each parameter, redrawn by the library's physics at each
step."""

from __future__ import annotations

from html import escape
from typing import Any

from twostroke.lesson import control
from twostroke.lesson.drawing import Picture
from twostroke.lesson.outline import Figure
from twostroke.lesson.prediction import guess_of
from twostroke.lesson.progress import Progress
from twostroke.lesson.tasks import Prediction


class Show(control.Control):
    """The control for one `Figure`; it stays covered until its prediction is committed.

    Parameters
    ----------
    lesson : str
        Lesson number.
    task : Figure
        Drawing function and parameters.
    prediction : Prediction
        What has to be committed first.
    progress : Progress
        Where the prediction is looked up and watched for.
    """

    def __init__(self, lesson: str, task: Figure, prediction: Prediction, progress: Progress) -> None:
        super().__init__(name=f"Figure: {control.plain(task.title)}", look="figure")
        self.lesson, self.task, self.prediction, self.progress = lesson, task, prediction, progress
        self._guess: Any = None
        self._opened = False
        self.drawn: Picture | None = None
        self.values = {parameter.name: parameter.start for parameter in task.parameters}
        self.observe(self._redraw, names="values")
        progress.watch(self._committed)
        self._open()

    @property
    def opened(self) -> bool:
        """True once the prediction is committed."""
        return self._opened

    def set(self, **values: float) -> Picture | None:
        """Turn parameters, as a reader does; returns the picture now shown."""
        self.values = {**self.values, **values}
        return self.drawn

    def _committed(self, entry: dict[str, Any]) -> None:
        if (entry["lesson"], entry["task"]) == (self.lesson, self.prediction.id):
            self._open()

    def _open(self) -> None:
        kept = self.progress.last(self.lesson, self.prediction.id, "prediction")
        if kept is None:
            cover = (
                f"<p><b>{self.task.title}</b></p><p>This figure opens when you have committed your"
                f" prediction: <i>{self.prediction.ask}</i></p>"
            )
            self.parts = [control.text("cover", cover, "cover")]
            return
        self._guess = guess_of(self.prediction, str(kept["value"]))
        self._opened = True
        self._redraw()
        sliders = [
            {
                "kind": "range",
                "key": parameter.name,
                "label": parameter.label,
                "unit": parameter.unit,
                "low": parameter.low,
                "high": parameter.high,
                "step": parameter.step,
            }
            for parameter in self.task.parameters
        ]
        mine = f"<p>You predicted <b>{escape(str(kept['value']))}</b>.</p>"
        tail = (
            f'<p class="tsb-words" data-words="1">{escape(self.words)}</p>{mine}<p'
            f' class="tsb-head">{self.task.source}</p>'
        )
        self.parts = [
            control.text("head", f'<p class="tsb-head"><strong>Figure.</strong> {self.task.title}</p>'),
            {"kind": "picture", "key": "picture"},
            *sliders,
            control.text("words", tail),
        ]

    def _redraw(self, _change: Any = None) -> None:
        if not self._opened:
            return
        values = {
            parameter.name: min(
                max(float(self.values.get(parameter.name, parameter.start)), parameter.low), parameter.high
            )
            for parameter in self.task.parameters
        }
        self.drawn = self.task.picture(values, self._guess)
        with self.hold_sync():
            self.picture, self.words = self.drawn.svg, self.drawn.words

    def still_svg(self) -> str:
        """The picture now shown, or at the starting values while it is covered."""
        return (self.drawn or self.task.still()).svg

    def still_html(self) -> str:
        """Picture, words and source; a page without a kernel always shows the picture."""
        picture = self.drawn or self.task.still()
        return (
            f"<p><strong>Figure.</strong> {self.task.title}</p>{picture.svg}<p>{escape(picture.words)}</p>"
            f"<p><small>{self.task.source}</small></p>"
        )
