"""An example with blanks that are checked at once, one by one."""

from __future__ import annotations

from html import escape
from typing import Any

from twostroke import units
from twostroke.lesson import control, feedback
from twostroke.lesson.progress import Progress
from twostroke.lesson.tasks import Blank, Example

_STAGES = {
    "faded": "Worked with gaps. Fill each gap; it is checked as you leave it.",
    "alone": "On your own. It is checked as you leave the box.",
}


def answer_text(blank: Blank) -> str:
    """The right answer as the still page shows it."""
    if not callable(blank.answer):
        return blank.answer
    value: Any = blank.answer()
    return f"{value:.4g}" if isinstance(value, int | float) else units.show(value.to(blank.unit))


class Fill(control.Control):
    """The control for one `Example`.

    Parameters
    ----------
    lesson : str
        Lesson number.
    task : Example
        Lines and blanks.
    progress : Progress
        Where entries are kept.
    """

    def __init__(self, lesson: str, task: Example, progress: Progress) -> None:
        super().__init__(name=f"Example: {control.plain(task.title)}", look="example")
        self.lesson, self.task, self.progress = lesson, task, progress
        self.judged: dict[str, feedback.Judgement] = {}
        self._seen: dict[str, str] = {}
        for blank in task.blanks:
            entry = progress.last(lesson, f"{task.id}.{blank.id}", "blank")
            if entry:
                self.fill(blank.id, entry["value"])
                self._judge(blank)
        self._draw()

    @property
    def complete(self) -> bool:
        """True when every blank is right."""
        return all(blank.id in self.judged and self.judged[blank.id].right for blank in self.task.blanks)

    def _judge(self, blank: Blank) -> feedback.Judgement:
        value = str(self.values.get(blank.id, ""))
        self._seen[blank.id] = value
        self.judged[blank.id] = feedback.of_blank(blank, value)
        return self.judged[blank.id]

    def on_check(self) -> None:
        """Judge every blank that was filled or changed since; readable entries are kept."""
        news = []
        for blank in self.task.blanks:
            value = str(self.values.get(blank.id, "")).strip()
            if not value or value == self._seen.get(blank.id, "").strip():
                continue
            judgement = self._judge(blank)
            news.append(judgement.words)
            if judgement.state != "form":
                self.progress.add(
                    self.lesson,
                    f"{self.task.id}.{blank.id}",
                    "blank",
                    value=value,
                    right=judgement.right,
                    believes=judgement.believes,
                )
        self.speak(" ".join(news) or "Nothing new to check.")
        self._draw()

    def _part(self, blank: Blank) -> control.Part:
        judgement = self.judged.get(blank.id)
        common = {
            "key": blank.id,
            "label": blank.label,
            "press": "check",
            "eager": True,
            "message": judgement.html if judgement else "",
            "tone": ("right" if judgement.right else "look") if judgement else "plain",
        }
        if blank.options:
            return {"kind": "pick", "options": [[option, option] for option in blank.options], **common}
        return {"kind": "entry", "hint": f"… {blank.unit}" if blank.unit else "a number", **common}

    def _draw(self) -> None:
        head = (
            f'<p class="tsb-head"><strong>{_STAGES[self.task.stage]}</strong></p><p'
            f' class="tsb-ask">{self.task.title}</p>'
        )
        rows = [
            control.text(f"line-{row}", f"<p>{line}</p>") if isinstance(line, str) else self._part(line)
            for row, line in enumerate(self.task.lines)
        ]
        done = [control.text("done", "<p><b>✓ Every gap is right.</b></p>", "right")] if self.complete else []
        self.parts = [
            control.text("head", head),
            *rows,
            control.buttons(("check", "Check what I filled in")),
            *done,
        ]

    def still_html(self) -> str:
        """Lines with rules to write on, answers folded away."""
        rows, answers = [], []
        for line in self.task.lines:
            if isinstance(line, str):
                rows.append(f"<p>{line}</p>")
            else:
                rows.append(f"<p>{line.label} ________ {escape(line.unit)}</p>")
                answers.append(f"<li>{line.label}: <b>{escape(answer_text(line))}</b> {line.say}</li>")
        return (
            f"<p><strong>{self.task.title}</strong></p>{''.join(rows)}<details><summary>Answers and how they"
            f" come about</summary><ul>{''.join(answers)}</ul></details>"
        )
