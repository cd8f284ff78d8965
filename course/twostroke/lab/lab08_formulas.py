"""Lab 08: three one-line formulas, each with a blank."""

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
    "It does not serve the engines that were tried.",
    "A sign, a factor or a name may be the wrong one.",
    "Put easy readings in and work it through by hand.",
)


def _size(kind: str, swept: str | None, top: str | None) -> Case:
    return Case(kind, {"swept": swept, "top": top})


def _hill(kind: str, limit: str | None, here: str | None, sea: str | None) -> Case:
    return Case(kind, {"limit": limit, "here": here, "sea": sea})


def _hold(kind: str, *given: str | None) -> Case:
    return Case(kind, dict(zip(("volume", "start", "end", "air", "time"), given, strict=True)))


RATIO = Formula(
    "ratio", "trapped ratio", "ratio = ____ / top", "swept + top", "",
    {"swept": "volume swept from port closing to the top, with its unit", "top": "volume left at the top"},
    (
        _size(OTHER_ENGINE, "22 mL", "4.2 mL"), _size(OTHER_ENGINE, "31 mL", "5 cm^3"),
        _size(OTHER_ENGINE, "0.03 L", "6 mL"), _size(ZERO, "0 mL", "4 mL"), _size(ZERO, "20 mL", "0 mL"),
        _size(NEGATIVE, "-3 mL", "4 mL"), _size(WRONG_UNIT, "3 bar", "4 mL"),
        _size(MISSING, "22 mL", None), _size(MISSING, None, "4 mL"),
    ),
    (
        FormulaSlip("swept_over_clearance", "clearance_left_out", "swept", Feedback(
            "Just one too small for every engine.", "The room at the top is missing above the line.",
            "What is above the piston when the port has just closed?"), 0.5),
        FormulaSlip("top_taken_off", "clearance_left_out", "swept - top", Feedback(
            "Two too small for every engine.", "The room at the top was taken off.",
            "Is there more or less room than the piston sweeps?")),
        FormulaSlip("top_twice", "clearance_left_out", "swept + 2 * top", Feedback(
            "Just one too large for every engine.", "The room at the top is counted twice.",
            "Count the volumes above the piston once more.")),
    ),
    _HINT,
)  # fmt: skip

HILL = Formula(
    "hill", "limit on a hill", "limit_here = limit * ____", "here / sea", "bar",
    {"limit": "limit at sea level", "here": "pressure of the air here", "sea": "that at sea level"},
    (
        _hill(OTHER_ENGINE, "7 bar", "846 hPa", "1013 hPa"), _hill(OTHER_ENGINE, "100 psi", "0.9 bar",
        "1.013 bar"),
        _hill(OTHER_ENGINE, "8.2 bar", "701 hPa", "101.3 kPa"), _hill(ZERO, "0 bar", "846 hPa", "1013 hPa"),
        _hill(ZERO, "7 bar", "846 hPa", "0 hPa"), _hill(NEGATIVE, "-1 bar", "846 hPa", "1013 hPa"),
        _hill(WRONG_UNIT, "7 mm", "846 hPa", "1013 hPa"), _hill(MISSING, "7 bar", None, "1013 hPa"),
        _hill(MISSING, None, "846 hPa", "1013 hPa"),
    ),
    (
        FormulaSlip("factor_turned_round", "factor_turned_round", "sea / here", Feedback(
            "The limit grows on a hill.", "The share was turned round.",
            "Is there more or less air to squeeze up there?")),
        FormulaSlip("lost_share", "share_of_the_wrong_whole", "(sea - here) / sea", Feedback(
            "A limit close to nothing on a small hill.", "The share that is lost was used.",
            "Which share of the air is still there?")),
        FormulaSlip("share_of_here", "share_of_the_wrong_whole", "(1 - (sea - here) / here)", Feedback(
            "A little too low on every hill.", "The loss was divided by the air here.",
            "Per cent of which air: that of the sea or that of the hill?"), 0.5),
    ),
    _HINT,
)  # fmt: skip

LEAK = Formula(
    "leak", "leak rate", "leak = volume * ____ / (air * time)", "(start - end)", "mL/min",
    {
        "volume": "of crankcase and tester", "start": "gauge at the start", "end": "gauge at the end",
        "air": "pressure of the air", "time": "between the two readings",
    },
    (
        _hold(OTHER_ENGINE, "200 mL", "0.7 bar", "0.5 bar", "1.013 bar", "60 s"),
        _hold(OTHER_ENGINE, "350 mL", "7 psi", "5 psi", "14.7 psi", "2 min"),
        _hold(OTHER_ENGINE, "0.15 L", "45 kPa", "40 kPa", "101.3 kPa", "30 s"),
        _hold(ZERO, "200 mL", "0.5 bar", "0.5 bar", "1.013 bar", "60 s"),
        _hold(ZERO, "200 mL", "0.5 bar", "0.4 bar", "1.013 bar", "0 s"),
        _hold(NEGATIVE, "200 mL", "-0.4 bar", "-0.3 bar", "1.013 bar", "60 s"),
        _hold(WRONG_UNIT, "200 mm", "0.5 bar", "0.4 bar", "1.013 bar", "60 s"),
        _hold(MISSING, "200 mL", None, "0.4 bar", "1.013 bar", "60 s"),
        _hold(MISSING, "200 mL", "0.5 bar", None, "1.013 bar", "60 s"),
    ),
    (
        FormulaSlip("drop_turned_round", "factor_turned_round", "(end - start)", Feedback(
            "A leak with a minus sign.", "The later reading comes first.",
            "Which of the two is the larger?"), 0.5),
        FormulaSlip("level_for_change", "level_for_change", "end", Feedback(
            "A leak even where nothing was lost.", "What is left was taken for what was lost.",
            "What has gone between start and end?")),
        FormulaSlip("start_for_change", "level_for_change", "start", Feedback(
            "A leak as if all of it had gone.", "The reading at the end has no say.",
            "Was anything left at the end?")),
    ),
    _HINT,
)  # fmt: skip

FORMULAS = (RATIO, HILL, LEAK)


def show(v: Variant) -> Page:
    """The three lines and what their names stand for."""
    lines = tuple((f"{each.id}:", each.line) for each in FORMULAS)
    names = tuple((name, meaning) for each in FORMULAS for name, meaning in each.names.items())
    signs = "Use + - * / and brackets. Write names, not numbers: the line must serve any engine."
    return Page("", (Lines(lines), Text("Names that you may use:"), Lines(names), Text(signs)))


TASK = Task(
    id="formulas",
    title="Three one-line formulas",
    outcome="write trapped ratio, limit on a hill and leak rate for any engine",
    kind="formula",
    points=3,
    competency="compression and sealing",
    show=show,
    items=FORMULAS,
)
