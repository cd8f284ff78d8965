"""The exit check: five questions at the end of a lesson, and where to go back."""

from __future__ import annotations

from collections.abc import Sequence

from twostroke.lesson import control, feedback, tables
from twostroke.lesson.progress import Progress
from twostroke.lesson.question import options_part, still_question
from twostroke.lesson.tasks import Question


class ExitCheck(control.Control):
    """All questions at once; each gets its feedback, each wrong one says where to read again.

    Parameters
    ----------
    lesson : str
        Lesson number.
    questions : sequence of Question
        Five of them.
    progress : Progress
        Where the result is kept.
    """

    def __init__(self, lesson: str, questions: Sequence[Question], progress: Progress) -> None:
        super().__init__(name=f"Exit check of lesson {lesson}, {tables.module(lesson).title}", look="exit")
        self.lesson, self.questions, self.progress = lesson, tuple(questions), progress
        self.judged: dict[str, feedback.Judgement] = {}
        self._open: list[str] = []
        self._draw()

    @property
    def score(self) -> int:
        """Number of right answers in the last check."""
        return sum(judgement.right for judgement in self.judged.values())

    def on_check(self) -> None:
        """Judge all five; with one still open, say which and judge none."""
        chosen = {}
        for question in self.questions:
            picked = str(self.values.get(question.id, ""))
            if picked in {str(row) for row in range(len(question.options))}:
                chosen[question.id] = question.shown[int(picked)]
        self._open = [question.id for question in self.questions if question.id not in chosen]
        if self._open:
            numbers = [
                str(row) for row, question in enumerate(self.questions, start=1) if question.id in self._open
            ]
            self.speak(f"Still open: question {', '.join(numbers)}.")
            self._draw()
            return
        self.judged = {key: feedback.of_option(option) for key, option in chosen.items()}
        self.progress.add(
            self.lesson,
            "exit_check",
            "exit",
            score=self.score,
            of=len(self.questions),
            believes=[found.believes for found in self.judged.values() if found.believes],
        )
        self.speak(control.plain(self._result()))
        self._draw()

    def _result(self) -> str:
        back = [f"<li>{task.go_back}</li>" for task in self.questions if not self.judged[task.id].right]
        head = f"<p><b>{self.score} of {len(self.questions)} right.</b>"
        if not back:
            return f"{head} You are ready to go on.</p>"
        return f"{head} Go back to these, then check again:</p><ul>{''.join(dict.fromkeys(back))}</ul>"

    def _draw(self) -> None:
        rows = []
        for number, task in enumerate(self.questions, start=1):
            judgement = self.judged.get(task.id)
            message = judgement.html if judgement else ""
            if task.id in self._open:
                message = "<p>Still open: choose an answer.</p>"
            tone = "right" if judgement and judgement.right else "look" if message else "plain"
            part = options_part(task, task.id, message, tone)
            rows.append({**part, "legend": f"{number}. {task.ask}"})
        best = [entry["score"] for entry in self.progress.entries(self.lesson, "exit_check", "exit")]
        kept = f" Best so far: {max(best)} of {len(self.questions)}." if best else ""
        head = (
            '<p class="tsb-head"><strong>Exit check.</strong> Five questions, no books. Not'
            f" graded.{kept}</p>"
        )
        said = []
        if self.judged:
            tone = "right" if self.score == len(self.questions) else "look"
            said = [control.text("said", self._result(), tone)]
        self.parts = [
            control.text("head", head),
            *rows,
            control.buttons(("check", "Check all five")),
            *said,
        ]

    def still_html(self) -> str:
        """The five questions with their answers folded away."""
        rows = "".join(
            f"<li>{still_question(task)}<p>Read again: {task.go_back}</p></li>" for task in self.questions
        )
        return f"<p><strong>Exit check.</strong></p><ol>{rows}</ol>"
