"""Lab 09: three one-line formulas, each with a blank."""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.formula import (
    MISSING,
    NEGATIVE,
    OTHER_ENGINE,
    WRONG_UNIT,
    ZERO,
    Case,
    Formula,
    FormulaSlip,
)
from twostroke.lab.page import Lines, Page, Text
from twostroke.lab.task import Task

_HINT = Feedback(
    "It does not serve the cans and engines that were tried.",
    "A sign, a factor or a name may be the wrong one.",
    "Put easy readings in and work it through by hand.",
)


def _mix(kind: str, mix: str | None, ratio: float | None) -> Case:
    return Case(kind, {"mix": mix, "ratio": ratio})


def _add(kind: str, oil: str | None, fuel: str | None, ratio: float | None) -> Case:
    return Case(kind, {"oil": oil, "fuel": fuel, "ratio": ratio})


def _gain(kind: str, before: str | None, after: str | None) -> Case:
    return Case(kind, {"before": before, "after": after})


OIL = Formula(
    "oil", "oil in a mixture", "oil = mix / ____", "(ratio + 1)", "mL",
    {"mix": "fuel and oil together, with its unit", "ratio": "parts of fuel to one part of oil"},
    (
        _mix(OTHER_ENGINE, "2.6 L", 25), _mix(OTHER_ENGINE, "1 US gal", 32), _mix(OTHER_ENGINE, "510 mL", 50),
        _mix(ZERO, "0 L", 25), _mix(ZERO, "2 L", 0), _mix(NEGATIVE, "-2 L", 40),
        _mix(WRONG_UNIT, "2 bar", 40), _mix(MISSING, None, 40), _mix(MISSING, "2 L", None),
    ),
    (
        FormulaSlip("ratio_of_mix", "ratio_of_mix", "ratio", Feedback(
            "A little too much oil for every can.", "The mixture was taken for fuel alone.",
            "How many parts has the mixture in all?"), 0.5),
        FormulaSlip("part_taken_off", "ratio_of_mix", "(ratio - 1)", Feedback(
            "Still more oil than there is.", "The part of oil was taken off instead of counted.",
            "Fuel parts and oil part: do they add or take away?")),
        FormulaSlip("ratio_turned_round", "ratio_turned_round", "(1 / ratio)", Feedback(
            "More oil than mixture.", "The ratio was turned round.", "Which liquid has the many parts?")),
    ),
    _HINT,
)  # fmt: skip

ADD = Formula(
    "add", "plain fuel to add", "add = ____", "oil * ratio - fuel", "mL",
    {"oil": "oil in the can", "fuel": "fuel in the can", "ratio": "parts of fuel that are wanted"},
    (
        _add(OTHER_ENGINE, "100 mL", "2.5 L", 50), _add(OTHER_ENGINE, "60 mL", "1500 mL", 40),
        _add(OTHER_ENGINE, "3 US fl oz", "0.5 US gal", 50), _add(ZERO, "0 mL", "1 L", 50),
        _add(ZERO, "50 mL", "0 L", 40), _add(NEGATIVE, "-20 mL", "1 L", 40), _add(WRONG_UNIT, "50 mm", "1 L",
        40),
        _add(MISSING, None, "1 L", 40), _add(MISSING, "50 mL", None, 40),
    ),
    (
        FormulaSlip("needed_for_missing", "level_for_change", "oil * ratio", Feedback(
            "All the fuel, not what is missing.", "The fuel in the can has no say.",
            "What is with the oil already?")),
        FormulaSlip("signs_turned_round", "factor_turned_round", "fuel - oil * ratio", Feedback(
            "A minus where fuel must be poured in.", "The difference was turned round.",
            "Which is the larger: what is needed or what is there?"), 0.5),
        FormulaSlip("mixture_taken_off", "ratio_of_mix", "oil * ratio - fuel - oil", Feedback(
            "A little too little for every can.", "The oil was taken off as well.",
            "Is the oil part of the fuel that is there?"), 0.5),
        FormulaSlip("oil_per_part", "ratio_turned_round", "oil / ratio - fuel", Feedback(
            "Far below nothing.", "The ratio was turned round.",
            "Does one part of oil want more fuel or less?")),
    ),
    _HINT,
)  # fmt: skip

GAIN = Formula(
    "gain", "share of speed gained", "gain = ____", "(after - before) / before", "",
    {"before": "speed as found, with its unit", "after": "speed after one change"},
    (
        _gain(OTHER_ENGINE, "6000 rpm", "7500 rpm"), _gain(OTHER_ENGINE, "7200 rpm", "6500 rpm"),
        _gain(OTHER_ENGINE, "110 Hz", "6900 rpm"), _gain(ZERO, "6000 rpm", "0 rpm"), _gain(ZERO, "0 rpm",
        "6000 rpm"),
        _gain(NEGATIVE, "6000 rpm", "-100 rpm"), _gain(WRONG_UNIT, "6000 rpm", "3 bar"),
        _gain(MISSING, None, "6000 rpm"), _gain(MISSING, "6000 rpm", None),
    ),
    (
        FormulaSlip("share_of_after", "share_of_the_wrong_whole", "(after - before) / after", Feedback(
            "A little too small where it gains.", "The gain was set against the new speed.",
            "Per cent of what: before or after?"), 0.5),
        FormulaSlip("new_for_gain", "share_of_the_wrong_whole", "after / before", Feedback(
            "One too large for every engine.", "What is reached was given, not the gain.",
            "What must the line give when nothing has changed?"), 0.5),
        FormulaSlip("gain_turned_round", "factor_turned_round", "(before - after) / before", Feedback(
            "A loss where the speed has risen.", "The difference was turned round.",
            "Which of the two is the larger after a gain?")),
    ),
    _HINT,
)  # fmt: skip

FORMULAS = (OIL, ADD, GAIN)


def show(v: Variant) -> Page:
    """The three lines and what their names stand for."""
    lines = tuple((f"{each.id}:", each.line) for each in FORMULAS)
    names = tuple((name, meaning) for each in FORMULAS for name, meaning in each.names.items())
    signs = "Use + - * / and brackets. Write names, not numbers: the line must serve any can and engine."
    return Page("", (Lines(lines), Text("Names that you may use:"), Lines(names), Text(signs)))


TASK = Task(
    id="formulas",
    title="Three one-line formulas",
    outcome="write oil in a mixture, fuel to add and gain for any machine",
    kind="formula",
    points=3,
    competency="fuel, air and exhaust",
    show=show,
    items=FORMULAS,
)
