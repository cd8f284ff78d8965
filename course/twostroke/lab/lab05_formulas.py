"""Lab 05: three one-line formulas of gap and key, each with a blank."""

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
    "It does not serve the machines that were tried.",
    "A half, a sign or a name may be the wrong one.",
    "Put two easy readings in and work it through by hand.",
)


def _key(kind: str, offset: str | None, diameter: str | None) -> Case:
    return Case(kind, {"offset": offset, "diameter": diameter})


def _legs(kind: str, first: str | None, second: str | None) -> Case:
    return Case(kind, {"first": first, "second": second})


def _least(kind: str, mean: str | None, run_out: str | None) -> Case:
    return Case(kind, {"mean": mean, "run_out": run_out})


KEY = Formula(
    "key", "angle of a key offset, in degrees", "angle = 180 / pi * ____", "2 * offset / diameter", "",
    {"offset": "step at the keyway, with its unit", "diameter": "diameter of the shaft, with its unit"},
    (
        _key(OTHER_ENGINE, "1 mm", "10 mm"), _key(OTHER_ENGINE, "30 thou", "0.375 in"),
        _key(OTHER_ENGINE, "0.6 mm", "18 mm"), _key(ZERO, "0 mm", "10 mm"), _key(ZERO, "1 mm", "0 mm"),
        _key(NEGATIVE, "-1 mm", "10 mm"), _key(WRONG_UNIT, "1 mm", "3 bar"), _key(MISSING, None, "10 mm"),
        _key(MISSING, "1 mm", None),
    ),
    (
        FormulaSlip("diameter_as_radius", "diameter_as_radius", "offset / diameter", Feedback(
            "Half the angle.", "The diameter was taken for the radius.",
            "How far is the keyway from the middle of the shaft?")),
        FormulaSlip("turned_round", "factor_turned_round", "diameter / (2 * offset)", Feedback(
            "The angle shrinks when the offset grows.", "The fraction is upside down.",
            "A larger step at the key: a larger angle or a smaller one?")),
        FormulaSlip("radius_twice", "diameter_as_radius", "4 * offset / diameter", Feedback(
            "Twice the angle.", "The shaft was halved twice.",
            "Radius from diameter: how often do you halve?")),
    ),
    _HINT,
)  # fmt: skip

MEAN = Formula(
    "mean", "mean gap of both legs", "mean = ____", "(first + second) / 2", "mm",
    {"first": "gap at one leg, with its unit", "second": "gap at the other leg, with its unit"},
    (
        _legs(OTHER_ENGINE, "0.25 mm", "0.35 mm"), _legs(OTHER_ENGINE, "10 thou", "14 thou"),
        _legs(OTHER_ENGINE, "0.40 mm", "0.22 mm"), _legs(ZERO, "0 mm", "0.3 mm"),
        _legs(NEGATIVE, "-0.4 mm", "0.3 mm"), _legs(WRONG_UNIT, "0.3 mm", "3 bar"),
        _legs(MISSING, None, "0.3 mm"), _legs(MISSING, "0.3 mm", None),
    ),
    (
        FormulaSlip("sum_as_mean", "sum_as_mean", "first + second", Feedback(
            "Twice what a leaf would show.", "Both gaps were added up and not halved.",
            "The band is for one gap: what stands for each of the two?")),
        FormulaSlip("half_the_difference", "sum_as_mean", "(first - second) / 2", Feedback(
            "Nothing at all when both legs are alike.", "They were taken from each other.",
            "What is the mean of two equal gaps?")),
        FormulaSlip("one_leg_enough", "one_leg_enough", "first + 0 * second", Feedback(
            "Only one leg counts in it.", "One leg was taken to speak for both.",
            "How many gaps does the flux cross on its way round?")),
        FormulaSlip("other_leg_enough", "one_leg_enough", "second + 0 * first", Feedback(
            "Only one leg counts in it.", "One leg was taken to speak for both.",
            "How many gaps does the flux cross on its way round?")),
    ),
    _HINT,
)  # fmt: skip

LEAST = Formula(
    "least", "least gap in one turn", "least = mean - ____", "run_out / 2", "mm",
    {"mean": "mean gap, with its unit", "run_out": "dial indicator, highest minus lowest, with its unit"},
    (
        _least(OTHER_ENGINE, "0.30 mm", "0.10 mm"), _least(OTHER_ENGINE, "12 thou", "3 thou"),
        _least(OTHER_ENGINE, "0.25 mm", "0.04 mm"), _least(ZERO, "0.3 mm", "0 mm"),
        _least(NEGATIVE, "0.3 mm", "-0.1 mm"), _least(WRONG_UNIT, "0.3 mm", "1 kg"),
        _least(MISSING, None, "0.1 mm"), _least(MISSING, "0.3 mm", None),
    ),
    (
        FormulaSlip("run_out_whole", "run_out_whole", "run_out", Feedback(
            "The whole run-out is taken off.", "Highest minus lowest was counted from the middle.",
            "How far is it from the middle to the highest spot?")),
        FormulaSlip("run_out_one_way", "run_out_one_way", "-run_out / 2", Feedback(
            "That is the largest gap.", "The high spot was thought to widen the gap.",
            "Where the flywheel stands out, is it nearer to the module or further off?")),
        FormulaSlip("one_place_is_all", "one_place_is_all", "0 * run_out", Feedback(
            "The mean gap, whatever the run-out.", "The flywheel was taken to run true.",
            "What does the high spot do to the gap as it passes?")),
    ),
    _HINT,
)  # fmt: skip

FORMULAS = (KEY, MEAN, LEAST)


def show(v: Variant) -> Page:
    """The three lines and what their names stand for."""
    lines = tuple((f"{each.id}:", each.line) for each in FORMULAS)
    names = tuple((name, meaning) for each in FORMULAS for name, meaning in each.names.items())
    signs = "Use + - * / and brackets. Write names, not your own numbers: the line must serve any machine."
    return Page("", (Lines(lines), Text("Names that you may use:"), Lines(names), Text(signs)))


TASK = Task(
    id="formulas",
    title="Three one-line formulas",
    outcome="write key angle, mean gap and least gap as lines that serve any machine",
    kind="formula",
    points=3,
    competency="air gap",
    show=show,
    items=FORMULAS,
)
