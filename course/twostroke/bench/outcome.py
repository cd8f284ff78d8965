"""What becomes of the machine after it is handed back. Never a score."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from twostroke.bench.work_order import breaches
from twostroke.errors import TwoStrokeError

if TYPE_CHECKING:
    from twostroke.bench.session import Bench
    from twostroke.bench.situation import Situation
    from twostroke.table import TrueFault

FLOODED_CHARGES = 13.0


@dataclass(frozen=True)
class Outcome:
    """What happened to the machine.

    Attributes
    ----------
    fixed : bool
        Nothing is wrong with it any more.
    verified : bool
        A verify run passed, after the last repair, in every condition that the complaint asks for.
    comes_back : bool
        The owner brings it back.
    handed_on : bool
        The job was handed on to someone else.
    diagnosis, confidence
        As stated.
    truth : tuple of str
        What was wrong.
    left : tuple of str
        What is wrong still, the work's own damage included.
    safe : bool
        Every caution was kept.
    minutes, parts_money, cost : float
        Cost has the price of a comeback or of handing on in it.
    words : str
        The story in plain words.
    """

    fixed: bool
    verified: bool
    comes_back: bool
    handed_on: bool
    diagnosis: str | None
    confidence: float
    truth: tuple[str, ...]
    left: tuple[str, ...]
    safe: bool
    minutes: float
    parts_money: float
    cost: float
    words: str
    made_by_work: tuple[str, ...] = field(default=())

    def to_dict(self) -> dict[str, Any]:
        """Plain values that JSON can hold."""
        return {name: list(v) if isinstance(v, tuple) else v for name, v in vars(self).items()}


def certainty(given: float | str) -> float:
    """Confidence as a share.

    Raises
    ------
    TwoStrokeError
        Nothing between 0 and 1, or 0 % and 100 %.

    Examples
    --------
    >>> certainty("80 %"), certainty(0.8)
    (0.8, 0.8)
    """
    value: object = given
    if isinstance(given, str):
        text = given.strip().replace(",", ".")
        try:
            value = float(text.rstrip("% ")) / (100.0 if text.endswith("%") else 1.0)
        except ValueError:
            value = None
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0.0 <= value <= 1.0:
        raise TwoStrokeError(
            f"confidence {given!r}: give a share from 0 (a guess) to 1 (certain), "
            "or a percentage such as '80 %'"
        )
    return float(value)


def judge(
    bench: Bench,
    situation: Situation,
    truth: list[TrueFault],
    diagnosis: str | None,
    confidence: float,
    hand_on: bool,
) -> Outcome:
    """What becomes of the machine."""
    table = bench.table
    left = [fault.name for fault in situation.faults]
    names = [true.fault for true in truth]
    if float(situation.fuel.puddle[0]) > FLOODED_CHARGES and "flooded" not in left:
        left.append("flooded")
    made = tuple(name for name in left if name not in names)
    asked = set(table.verify_conditions(situation.complaint))
    verified = bool(situation.passed) and asked <= situation.passed
    fixed = not left
    back = not fixed and not hand_on
    returned = [price for _, price in situation.on_trial]
    parts = bench.parts_money - sum(returned)
    extra = table.meta.escalate_cost if hand_on else table.meta.comeback_cost if back else 0.0
    cost = bench.minutes * bench.price + parts + extra
    say = []
    if returned:
        say.append(f"Parts on trial that changed nothing go back in the drawer ({sum(returned):g} off).")
    if hand_on:
        say.append(f"The job is handed on; that costs {extra:g}.")
    elif fixed:
        say.append("The machine is cured and stays cured.")
        if not verified:
            asked_for = ", ".join(sorted(asked)) or "as it stood"
            say.append(
                f"It was not proven: no verify run passed in the complaint's own condition ({asked_for})."
            )
    else:
        shown = (
            "in the owner's hands the complaint comes again"
            if situation.passed
            else "it still does what the owner complained of"
        )
        say.append(f"The machine comes back: {shown}. That costs {extra:g}.")
    if made:
        say.append(f"Made by the work itself: {', '.join(table.faults[name].name for name in made)}.")
    unsound = [
        breach.why
        for step in bench.route
        if step.settings.get("order") is not None
        for breach in breaches(step.action, step.settings["order"])
    ]
    if unsound:
        say.append(f"Order of work: {'; '.join(dict.fromkeys(unsound))}.")
    missed = sorted({name for step in bench.route for name in step.cautions_missed})
    if missed:
        say.append(f"Cautions not kept on the way: {', '.join(table.hazards[name].name for name in missed)}.")
    say.append(f"What was wrong: {', '.join(table.faults[name].name for name in names)}.")
    return Outcome(
        fixed, verified, back, hand_on, diagnosis, confidence, tuple(names), tuple(left), not missed,
        bench.minutes,
        parts, cost, " ".join(say), made,
    )  # fmt: skip
