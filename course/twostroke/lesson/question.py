"""A retrieval question: each wrong choice is answered with the belief behind it and the reading that shows
it."""

from __future__ import annotations

from html import escape

from twostroke.lesson import control, feedback, tables
from twostroke.lesson.progress import Progress
from twostroke.lesson.tasks import Question


def options_part(task: Question, key: str, message: str = "", tone: str = "plain") -> control.Part:
    """The choices of a question as one part."""
    return {
        "kind": "choice",
        "key": key,
        "legend": task.ask,
        "options": [[str(row), option.text] for row, option in enumerate(task.shown)],
        "message": message,
        "tone": tone,
    }


def still_question(task: Question) -> str:
    """A question on paper: the choices, and the answer folded away."""
    rows = "".join(f"<li>{option.text}</li>" for option in task.shown)
    others = "".join(
        f"<dt>{option.text}</dt><dd>{option.say} Believed:"
        f" “{tables.misconception(option.believes).believed}”</dd>"
        for option in task.shown
        if option.believes
    )
    return (
        f"<p><b>{task.ask}</b></p><ul>{rows}</ul><details><summary>Answer and why</summary>"
        f"<p><b>{task.right.text}</b> {task.right.say}</p><dl>{others}</dl></details>"
    )


class Ask(control.Control):
    """The control for one `Question`; may be answered as often as the reader likes.

    Parameters
    ----------
    lesson : str
        Lesson number of the lesson in which it stands.
    task : Question
        What is asked.
    progress : Progress
        Where answers are kept.
    """

    def __init__(self, lesson: str, task: Question, progress: Progress) -> None:
        super().__init__(name=f"Question: {control.plain(task.ask)}", look="question")
        self.lesson, self.task, self.progress = lesson, task, progress
        self.judgement: feedback.Judgement | None = None
        self._message = ""
        entry = progress.last(lesson, task.id, "answer")
        known = [row for row, option in enumerate(task.shown) if entry and option.text == entry["value"]]
        if known:
            self.values = {"pick": str(known[0])}
            self.judgement = feedback.of_option(task.shown[known[0]])
        self._draw()

    def on_check(self) -> None:
        """Judge the chosen option and keep the answer."""
        picked = str(self.values.get("pick", ""))
        if picked not in {str(row) for row in range(len(self.task.options))}:
            self._message = "<p>Choose one answer first, then press the button.</p>"
            self.speak(control.plain(self._message))
        else:
            option = self.task.shown[int(picked)]
            self._message, self.judgement = "", feedback.of_option(option)
            self.progress.add(
                self.lesson,
                self.task.id,
                "answer",
                value=option.text,
                right=option.right,
                believes=option.believes,
            )
            self.speak(self.judgement.words)
        self._draw()

    def _draw(self) -> None:
        about = tables.module(self.task.about)
        back = (
            "" if self.task.about == self.lesson else f" From lesson {about.number}, {escape(about.title)}."
        )
        head = control.text(
            "head", f'<p class="tsb-head"><strong>Question.</strong>{back} Answer as often as you like.</p>'
        )
        said = [control.said("said", self.judgement)] if self.judgement else []
        self.parts = [
            head,
            options_part(self.task, "pick", self._message, "look" if self._message else "plain"),
            control.buttons(("check", "Check my answer")),
            *said,
        ]

    def still_html(self) -> str:
        """The question with its answer folded away."""
        return f"<p><strong>Question.</strong></p>{still_question(self.task)}"
