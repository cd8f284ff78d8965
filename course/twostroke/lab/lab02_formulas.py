"""Lab 02: three one-line formulas of the cycle, each with a blank."""

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
    "A power, a sign or a name may be the wrong one.",
    "Put two easy readings in and work it through by hand.",
)


def _swept(kind: str, bore: str | None, stroke: str | None) -> Case:
    return Case(kind, {"bore": bore, "stroke": stroke})


def _ratio(kind: str, clearance: str | None, closed: str | None) -> Case:
    return Case(kind, {"clearance": clearance, "closed": closed})


def _open(kind: str, opening: float | str | None) -> Case:
    return Case(kind, {"opening": opening})


SWEPT = Formula(
    "swept", "displacement", "swept = pi / 4 * ____", "bore^2 * stroke", "cm³",
    {"bore": "diameter of the cylinder, with its unit", "stroke": "whole stroke, with its unit"},
    (
        _swept(OTHER_ENGINE, "35 mm", "28 mm"), _swept(OTHER_ENGINE, "1.5 in", "1.2 in"),
        _swept(OTHER_ENGINE, "48 mm", "40 mm"), _swept(ZERO, "0 mm", "30 mm"), _swept(ZERO, "30 mm", "0 mm"),
        _swept(NEGATIVE, "35 mm", "-30 mm"), _swept(WRONG_UNIT, "35 mm", "3 bar"),
        _swept(MISSING, None, "30 mm"), _swept(MISSING, "35 mm", None),
    ),
    (
        FormulaSlip("diameter_as_radius", "diameter_as_radius", "4 * bore^2 * stroke", Feedback(
            "Four times too much.", "The bore was taken for the radius.",
            "The line already divides by four: which length is it made for?")),
        FormulaSlip("radius_twice", "diameter_as_radius", "(bore / 2)^2 * stroke", Feedback(
            "A quarter of what it should be.", "The bore was halved, and the line divides by four already.",
            "Which of the two, diameter or radius, goes with pi over four?"), 0.5),
        FormulaSlip("sizes_changed_over", "label_swapped", "stroke^2 * bore", Feedback(
            "It is right only where bore and stroke are alike.", "Bore and stroke changed places.",
            "Which of the two makes the round face of the piston?")),
        FormulaSlip("throw_as_stroke", "throw_as_stroke", "bore^2 * stroke / 2", Feedback(
            "Half an engine.", "The stroke was halved.",
            "How far does the piston go while the crank pin goes from top to bottom?")),
    ),
    _HINT,
)  # fmt: skip

TRAPPED = Formula(
    "trapped", "trapped ratio", "trapped = (____) / clearance", "closed + clearance", "",
    {"closed": "volume swept after the exhaust port has closed, with its unit",
     "clearance": "volume above the piston at top dead centre, with its unit"},
    (
        _ratio(OTHER_ENGINE, "4 mL", "22 mL"), _ratio(OTHER_ENGINE, "3.1 cm³", "15 mL"),
        _ratio(OTHER_ENGINE, "6 mL", "45 cm³"), _ratio(ZERO, "0 mL", "20 mL"), _ratio(ZERO, "4 mL", "0 mL"),
        _ratio(NEGATIVE, "4 mL", "-2 mL"), _ratio(WRONG_UNIT, "4 mL", "20 mm"),
        _ratio(MISSING, None, "20 mL"), _ratio(MISSING, "4 mL", None),
    ),
    (
        FormulaSlip("clearance_left_out", "clearance_left_out", "closed", Feedback(
            "One less than it should be.", "The clearance was left out of the larger volume.",
            "What is above the piston when the port closes: only what it still has to sweep?"), 0.5),
        FormulaSlip("larger_less_clearance", "clearance_left_out", "closed - clearance", Feedback(
            "Two less than it should be.", "The clearance was taken off instead of added.",
            "Is the clearance part of what the piston sweeps, or above it?")),
        FormulaSlip("ratio_turned_round", "ratio_turned_round", "clearance^2 / (closed + clearance)",
            Feedback(
            "Less than one to one.", "The smaller volume was divided by the larger.",
            "Which volume is squeezed into which?")),
    ),
    _HINT,
)  # fmt: skip

DURATION = Formula(
    "duration", "how long a port is open", "duration = 360 - ____", "2 * opening", "",
    {"opening": "degrees after top dead centre at which it opens, a plain number"},
    (
        _open(OTHER_ENGINE, 104.0), _open(OTHER_ENGINE, 118.5), _open(OTHER_ENGINE, 90.0), _open(ZERO, 0.0),
        _open(NEGATIVE, -20.0), _open(WRONG_UNIT, "3 bar"), _open(MISSING, None),
    ),
    (
        FormulaSlip("one_opening_off", "one_side_only", "opening", Feedback(
            "More than half a turn.", "The opening was taken off on one side only.",
            "On how many sides of top dead centre is the port shut?")),
        FormulaSlip("closed_part_counted", "closed_part_counted", "2 * (180 - opening)", Feedback(
            "The time with the port shut.", "The open part was taken off instead of the shut one.",
            "Between which two angles is the piston below the edge of the port?")),
        FormulaSlip("one_side_only", "one_side_only", "180 - opening", Feedback(
            "It grows when the port opens later.", "Only one side of the turn was taken off.",
            "A port that opens later: is it open for longer, or for less?")),
    ),
    _HINT,
)  # fmt: skip

FORMULAS = (SWEPT, TRAPPED, DURATION)


def show(v: Variant) -> Page:
    """The three lines and what their names stand for."""
    lines = tuple((f"{each.id}:", each.line) for each in FORMULAS)
    names = tuple((name, meaning) for each in FORMULAS for name, meaning in each.names.items())
    signs = "Use + - * / ^ and brackets. Write names, not your own numbers: the line must serve any engine."
    return Page("", (Lines(lines), Text("Names that you may use:"), Lines(names), Text(signs)))


TASK = Task(
    id="formulas",
    title="Three one-line formulas",
    outcome="write displacement, trapped ratio and port duration as lines that serve any engine",
    kind="formula",
    points=3,
    competency="compression and sealing",
    show=show,
    items=FORMULAS,
)
