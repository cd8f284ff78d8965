"""Steps to be put into a sound order; every sound order is accepted."""

from __future__ import annotations

from twostroke.lesson import control, feedback
from twostroke.lesson.progress import Progress
from twostroke.lesson.tasks import Ordering


class Order(control.Control):
    """The control for one `Ordering`.

    Parameters
    ----------
    lesson : str
        Lesson number.
    task : Ordering
        Steps and what has to come before what.
    progress : Progress
        Where orders are kept.
    """

    def __init__(self, lesson: str, task: Ordering, progress: Progress) -> None:
        super().__init__(name=f"Order of work: {control.plain(task.ask)}", look="order")
        self.lesson, self.task, self.progress = lesson, task, progress
        self.judgement: feedback.Judgement | None = None
        self._marked: dict[str, str] = {}
        entry = progress.last(lesson, task.id, "order")
        if entry and sorted(entry["value"]) == sorted(task.steps):
            self.values = {"order": entry["value"]}
            self._judge(entry["value"])
        else:
            self.values = {"order": list(task.steps)}
        self._draw()

    def _judge(self, order: list[str]) -> feedback.Judgement:
        broken = self.task.broken(order)
        if not broken:
            self._marked = {}
            self.judgement = feedback.Judgement("right", f"<p><b>✓ A sound order.</b> {self.task.done}</p>")
            return self.judgement
        rule = broken[0]
        more = len(broken) - 1
        tail = f"<p>{more} more pair{'s' if more > 1 else ''} to look at after this one.</p>" if more else ""
        self._marked = {rule.first: "look", rule.then: "look"}
        self.judgement = feedback.Judgement(
            "look",
            f"<p><b>Look at this pair.</b> “{self.task.steps[rule.then]}” stands before"
            f" “{self.task.steps[rule.first]}”. {rule.why}</p>{feedback.behind(rule.believes)}{tail}",
            rule.believes,
        )
        return self.judgement

    def on_check(self) -> None:
        """Judge the order and keep it."""
        order = [str(name) for name in self.values.get("order", [])]
        if sorted(order) != sorted(self.task.steps):
            order = list(self.task.steps)
            self.fill("order", order)
        judgement = self._judge(order)
        self.progress.add(
            self.lesson,
            self.task.id,
            "order",
            value=order,
            right=judgement.right,
            believes=judgement.believes,
        )
        self.speak(judgement.words)
        self._draw()

    def _draw(self) -> None:
        items = [[name, text] for name, text in self.task.steps.items()]
        said = [control.said("said", self.judgement)] if self.judgement else []
        self.parts = [
            control.text(
                "head",
                '<p class="tsb-head"><strong>Order of work.</strong> Move the steps with the buttons.</p>',
            ),
            {
                "kind": "order",
                "key": "order",
                "legend": self.task.ask,
                "items": items,
                "marked": self._marked,
            },
            control.buttons(("check", "Check my order")),
            *said,
        ]

    def still_html(self) -> str:
        """The steps, and the rules of a sound order folded away."""
        steps = "".join(f"<li>{text}</li>" for text in self.task.steps.values())
        rules = "".join(
            f"<li>“{self.task.steps[rule.first]}” before “{self.task.steps[rule.then]}”: {rule.why}</li>"
            for rule in self.task.rules
        )
        return (
            f"<p><strong>Order of work.</strong> {self.task.ask}</p><ul>{steps}</ul><details><summary>What"
            f" has to come before what</summary><ul>{rules}</ul><p>{self.task.done}</p></details>"
        )
