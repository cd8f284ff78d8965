"""Lab 01: find the one unit error in a colleague's sheet, say what happened, and put it right."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from twostroke.lab.check import value_form
from twostroke.lab.conversion import convert
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback, Form
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance


@dataclass(frozen=True)
class Line:
    """One line of the sheet: what it says, from which unit to which, and how a colleague gets it wrong."""

    what: str
    low: int
    high: int
    scale: float
    from_unit: str
    to_unit: str
    step: float
    decimals: int
    wrong: Callable[[float], float]
    mistake: str
    misconception: str


LINES = (
    Line("air gap", 8, 16, 1, "thou", "mm", 0.01, 2, lambda x: x * 0.01,
         "a thou was taken for a hundredth of a millimetre", "thou_as_hundredth_mm"),
    Line("compression (gauge)", 95, 165, 1, "psi", "bar", 0.1, 1, lambda x: x / 10,
         "ten psi were taken for one bar", "psi_as_tenth_bar"),
    Line("flywheel nut torque", 12, 24, 1, "lbf·ft", "N·m", 0.1, 1, lambda x: convert(x, "lbf·in", "N·m"),
         "foot-pounds were taken for inch-pounds", "inch_pound_as_foot_pound"),
    Line("plug gap", 50, 80, 0.01, "mm", "thou", 1, 0, lambda x: x * 25.4,
         "the number was multiplied by 25.4 where it must be divided", "factor_turned_round"),
    Line("oil bottle", 100, 250, 1, "mL", "US fl oz", 0.01, 2, lambda x: convert(x, "mL", "imp fl oz"),
         "the imperial ounce was taken for the US one", "gallon_is_gallon"),
    Line("workshop temperature", 50, 86, 1, "°F", "°C", 1, 0, lambda x: x / 1.8,
         "the 32 degrees were not taken off", "offset_forgotten"),
)  # fmt: skip


def draw(d: Draw) -> dict[str, Any]:
    """Draw the six figures of the sheet and the line that is wrong."""
    given = [d.integer(f"sheet {place}", line.low, line.high) for place, line in enumerate(LINES)]
    return {"sheet": given, "sheet_wrong": d.integer("sheet wrong", 1, len(LINES))}


def _line(v: Variant) -> Line:
    return LINES[v["sheet_wrong"] - 1]


def _given(v: Variant, place: int) -> float:
    return float(v["sheet"][place] * LINES[place].scale)


def _wrong_given(v: Variant) -> float:
    return _given(v, v["sheet_wrong"] - 1)


def truth(v: Variant, own: Any = None) -> float:
    """The right figure of the wrong line."""
    line = _line(v)
    return convert(_wrong_given(v), line.from_unit, line.to_unit)


def show(v: Variant) -> Page:
    """The colleague's sheet."""
    rows = []
    for place, line in enumerate(LINES):
        given = _given(v, place)
        wrong = place + 1 == v["sheet_wrong"]
        value = line.wrong(given) if wrong else convert(given, line.from_unit, line.to_unit)
        digits = 2 if line.scale < 1 else 0
        rows.append(
            (
                str(place + 1),
                line.what,
                f"{given:.{digits}f} {line.from_unit}",
                f"{value:.{line.decimals}f} {line.to_unit}",
            )
        )
    table = Table(
        "A colleague's sheet: one of these lines is wrong", ("line", "what", "maker", "colleague"), rows
    )
    return Page("", (table, Text("What happened in that line?"), WHY.options_block(v)))


def _options(v: Variant) -> tuple[Option, ...]:
    wrong = v["sheet_wrong"] - 1
    return tuple(
        Option(
            line.misconception,
            line.mistake,
            place == wrong,
            line.misconception,
            Feedback(
                f"You say that {line.mistake}.",
                "That would show in another line than the wrong one.",
                "Make that mistake on purpose in the line that you named: do you get the colleague's figure?",
            ),
        )
        for place, line in enumerate(LINES)
    )


def _places(v: Variant) -> tuple[Option, ...]:
    return tuple(
        Option(
            f"line_{place + 1}",
            line.what,
            place + 1 == v["sheet_wrong"],
            "looks_right_is_right",
            Feedback(
                "That line is converted well.",
                "A wrong line was passed over because its figure looks likely.",
                "Work out each line yourself before you look at the colleague's figure.",
            ),
        )
        for place, line in enumerate(LINES)
    )


def _close(v: Variant) -> Tolerance:
    line = _line(v)
    return tolerance(line.step, reason=f"half a step of {line.step:g} {line.to_unit}")


class LineValue(Number):
    """The right figure of the wrong line; what is asked and the form check do not say which line that is."""

    def ask(self, variant: Variant) -> str:
        """How the answer is written and how close it must be."""
        return "with the colleague's unit, within half a step of the last digit in the colleague's column"

    def form(self, answer: Any, variant: Variant) -> Form:
        """Form check: a value in one of the units of the colleague's column."""
        for line in LINES:
            found = value_form(answer, line.to_unit, self.low, self.high)
            if found.ok:
                return found if line is _line(variant) else replace(found, value=None)
        asked = ", ".join(line.to_unit for line in LINES)
        said = f'"{str(answer)[:40]}" is no value in a unit of the colleague\'s column: {asked}.'
        return Form(False, said, given=answer)


WHY = Pick("why", "what happened", _options)

TASK = Task(
    id="sheet",
    title="The unit error in a colleague's sheet",
    outcome="find, explain and correct a unit error in someone's sheet",
    kind="table",
    points=3,
    competency="units and measuring",
    show=show,
    items=(
        Pick("line", "line that is wrong", _places, fixed=True, numbered=True),
        WHY,
        LineValue(
            "value",
            "what it should read",
            lambda v: _line(v).to_unit,
            truth,
            _close,
            -100,
            50000,
            (
                slip(
                    "sheet_copied", lambda v, own: _line(v).wrong(_wrong_given(v)),
                    "The colleague's own figure.", "The wrong figure was copied instead of worked out again.",
                    "Begin from the maker's figure and cover the colleague's.",
                    misconception="looks_right_is_right",
                ),
                slip(
                    "label_swapped", lambda v, own: _wrong_given(v),
                    "The maker's number with another unit behind it.",
                    "Only the unit was changed, not the number.",
                    "Is one of the new unit as large as one of the old?",
                ),
                slip(
                    "prefix_dropped", lambda v, own: 10 * truth(v),
                    "Ten times too large.", "A decimal place has slipped.",
                    "Estimate first, in whole numbers, then count the places.",
                ),
            ),
            Feedback(
                "The figure does not follow from the maker's one.",
                "The wrong line, or another factor, may have been taken.",
                "Turn your figure back into the maker's unit: does it give the maker's number?",
            ),
            3,
            lambda v: _line(v).from_unit,
        ),
    ),
)  # fmt: skip
