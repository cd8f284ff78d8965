"""An order of work, marked by running it: any order in which every step finds what it needs is sound."""

from __future__ import annotations

from dataclasses import dataclass, field
from string import ascii_lowercase
from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import FORM, NOTHING, PART, RIGHT, SLIP, Feedback, Form, Judged
from twostroke.lab.page import Lines


@dataclass(frozen=True)
class Step:
    """One step of work.

    Parameters
    ----------
    id, text : str
        Short name; what the learner reads.
    needs : tuple of str
        States that must hold when the step is done, for example "engine cold".
    gives : tuple of str
        States that hold afterwards.
    ends : tuple of str
        States that no longer hold afterwards.
    belongs : bool
        False for a step that has no place in this job.
    misconception : str
        Id in data/misconceptions.yaml for doing it too early, or at all.
    feedback : Feedback
        For this step done before what it needs, or at all when it does not belong.
    """

    id: str
    text: str
    needs: tuple[str, ...] = ()
    gives: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()
    belongs: bool = True
    misconception: str = ""
    feedback: Feedback = field(default=NOTHING)


def run(steps: list[Step], start: tuple[str, ...] = ()) -> list[Step]:
    """Do the steps in this order and return those that did not find what they need.

    Parameters
    ----------
    steps : list of Step
        In the order of work.
    start : tuple of str
        States that hold at the beginning.

    Returns
    -------
    list of Step
        Steps done too early, and steps that have no place in the job. A step done too early still has its
        effect, so that one mistake is counted once.

    Examples
    --------
    >>> pull = Step("pull", "pull the lead", gives=("lead off",))
    >>> turn = Step("turn", "turn the engine", needs=("lead off",))
    >>> [step.id for step in run([turn, pull])], run([pull, turn])
    (['turn'], [])
    """
    holds = set(start)
    unsound = []
    for step in steps:
        if not step.belongs or not holds.issuperset(step.needs):
            unsound.append(step)
        if step.belongs:
            holds = (holds | set(step.gives)) - set(step.ends)
    return unsound


@dataclass(frozen=True)
class Order:
    """Put steps in a sound order; leave out those that have no place in the job.

    Parameters
    ----------
    id, label : str
        Name in calls; name for the reader.
    steps : tuple of Step
        In one sound order.
    start : tuple of str
        States that hold at the beginning.
    cost : float
        Part of the points that each misplaced, missing or needless step costs; stated to the learner.
    share : float
        Share of the task's points.
    needs : str, optional
        Id of an earlier step of the task without which this one earns nothing.
    """

    id: str
    label: str
    steps: tuple[Step, ...]
    start: tuple[str, ...] = ()
    cost: float = 0.25
    share: float = 1.0
    needs: str | None = None

    def lettered(self, variant: Variant) -> dict[str, Step]:
        """Return the steps by letter in the order in which this learner reads them."""
        draw = Draw(variant.lab, variant.learner, variant.attempt)
        return dict(zip(ascii_lowercase, draw.shuffle(f"steps {self.id}", self.steps), strict=False))

    def steps_block(self, variant: Variant) -> Lines:
        """Return the steps with their letters, as this learner reads them."""
        return Lines(tuple((f"{letter}:", step.text) for letter, step in self.lettered(variant).items()))

    def ask(self, variant: Variant) -> str:
        """How the answer is written and what a mistake costs."""
        letters = list(self.lettered(variant))
        example = " ".join(letters[:3])
        return (
            f'letters in the order of work, for example "{example} …"; any sound order counts; a step '
            f"that is misplaced, missing or needless costs {100 * self.cost:.0f} % of the points"
        )

    def form(self, answer: Any, variant: Variant) -> Form:
        """Form check: known letters, each at most once."""
        steps = self.lettered(variant)
        if isinstance(answer, list) and all(type(each) is str for each in answer):
            answer = " ".join(answer)
        if type(answer) is not str:
            return Form(False, 'An order is text between quotes, for example "b a d c".', given=answer)
        letters = [c for c in answer.casefold() if c.isalnum()]
        unknown = sorted({letter for letter in letters if letter not in steps})
        if unknown or not letters:
            return Form(
                False, f'"{answer[:40]}": write letters from a to {list(steps)[-1]}, each once.', given=answer
            )
        twice = sorted({letter for letter in letters if letters.count(letter) > 1})
        if twice:
            return Form(
                False, f"{', '.join(twice)} stands there twice; each step is done once.", given=answer
            )
        return Form(
            True,
            f'"{answer}" can be read: {len(letters)} step{"" if len(letters) == 1 else "s"}.',
            tuple(steps[c].id for c in letters),
            answer,
        )

    def truth(self, variant: Variant, values: Any) -> tuple[str, ...]:
        """One sound order."""
        return tuple(step.id for step in self.steps if step.belongs)

    def judge(self, form: Form, variant: Variant, values: Any) -> Judged:
        """Run the order; every unsound, missing or needless step costs once."""
        if not isinstance(form.value, tuple):
            return Judged(0.0, FORM, Feedback(form.message))
        by_id = {step.id: step for step in self.steps}
        missing = [step for step in self.steps if step.belongs and step.id not in form.value]
        as_if_done = tuple(state for step in missing for state in step.gives)
        unsound = run([by_id[name] for name in form.value], self.start + as_if_done)
        faults = len(unsound) + len(missing)
        if not faults:
            return Judged(1.0, RIGHT, Feedback("Right: every step finds what it needs."))
        fraction = max(0.0, 1 - self.cost * faults)
        if unsound:
            return Judged(fraction, PART if fraction else SLIP, unsound[0].feedback, unsound[0].id)
        left_out = Feedback(
            f"Steps of the job left out: {len(missing)}.",
            "The rest is in a sound order, but the job is not done.",
            "Read the list again: which step has no letter in your answer?",
        )
        return Judged(fraction, PART if fraction else SLIP, left_out, "left_out")

    def model(self, variant: Variant, values: Any) -> str:
        """Letters of one sound order."""
        letters = {step.id: letter for letter, step in self.lettered(variant).items()}
        return " ".join(letters[name] for name in self.truth(variant, values))
