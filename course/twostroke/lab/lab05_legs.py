"""Lab 05: both legs read, run-out of the flywheel, and whether the gap is right all round."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from twostroke import gap
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option
from twostroke.lab.ruling import Ruling
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import tolerance


@lru_cache(maxsize=4096)
def _legs(first: int, second: int) -> tuple[float, float]:
    found = gap.two_legs(f"{first / 100} mm", f"{second / 100} mm")
    return float(found.mean.to("mm").magnitude), float(found.difference.to("mm").magnitude)


def _of(v: Variant) -> tuple[float, float]:
    return _legs(v["leg_1_hundredths_mm"], v["leg_2_hundredths_mm"])


def _leg(v: Variant, number: int) -> float:
    return float(v[f"leg_{number}_hundredths_mm"]) / 100


def _run_out(v: Variant) -> float:
    return float(v["run_out_hundredths_mm"]) / 100


def _band(v: Variant) -> tuple[float, float]:
    return v["low_hundredths_mm"] / 100, v["high_hundredths_mm"] / 100


def _all_round(v: Variant, own: Any) -> str:
    low, high = _band(v)
    close, wide = own["legs.least"] < low - 1e-9, own["legs.most"] > high + 1e-9
    if close and wide:
        return "both"
    return "close" if close else "wide" if wide else "inside"


_LOOK = "Hold your least gap against the lower limit and your largest against the upper one."
_ROUND = Ruling(
    "all_round",
    "gap all round, both legs taken together",
    (
        Option("inside", "inside the band all round", misconception="inside_is_always_good",
               feedback=Feedback("It is called good all round.", "Only the mean was held against the band.",
                                 _LOOK)),
        Option("close", "too close where the flywheel runs high, not too wide elsewhere",
               misconception="run_out_one_way",
               feedback=Feedback("It is called too close only.",
               "The other side was not looked at, or a limit "
                                 "was misread.", _LOOK)),
        Option("wide", "too wide where the flywheel runs low, not too close elsewhere",
               misconception="run_out_one_way",
               feedback=Feedback("It is called too wide only.",
               "The other side was not looked at, or a limit "
                                 "was misread.", _LOOK)),
        Option("both", "too close in one place and too wide in another", misconception="run_out_one_way",
               feedback=Feedback("It is called wrong on both sides.",
               "More run-out was counted than there is.",
                                 _LOOK)),
    ),
    rule=_all_round,
)  # fmt: skip


def _show(v: Variant) -> Page:
    low, high = _band(v)
    rows = (
        ("leaf that just drags at leg 1", f"{_leg(v, 1):.2f} mm"),
        ("leaf that just drags at leg 2", f"{_leg(v, 2):.2f} mm"),
        ("dial indicator on the flywheel, one turn, highest minus lowest", f"{_run_out(v):.2f} mm"),
        ("air gap, maker's band", f"{low:.2f} to {high:.2f} mm"),
    )
    said = "The legs were read where the flywheel runs neither high nor low."
    table = Table("After tightening", ("what", "reading"), rows)
    return Page("", (table, Text(said), Text("How is the gap all round?"), _ROUND.options_block(v)))


_STEP = tolerance(0.01, reason="half a step of 0.01 mm")
_HINT = Feedback(
    "It does not follow from your readings.", "A reading or a half may be another one.",
    "Draw the flywheel a little off centre and mark where it comes near.",
)  # fmt: skip

TASK = Task(
    id="legs",
    title="Both legs, and a flywheel that runs out",
    outcome="read both legs and the run-out and say whether the gap is right all round",
    kind="table",
    points=5,
    competency="air gap",
    show=_show,
    items=(
        Number(
            "mean", "mean gap of the two legs", "mm", lambda v, own: _of(v)[0], _STEP, 0, 50,
            (
                slip("sum_as_mean", lambda v, own: _leg(v, 1) + _leg(v, 2),
                     "Twice what a leaf would show.", "Both gaps were added up and not halved.",
                     "The flux crosses both, but the band is for one: what stands for each?"),
                slip("first_leg_only", lambda v, own: _leg(v, 1),
                     "The gap of leg 1.", "Only one leg was counted.",
                     "How many gaps does the flux cross on its way round?", misconception="one_leg_enough"),
                slip("second_leg_only", lambda v, own: _leg(v, 2),
                     "The gap of leg 2.", "Only one leg was counted.",
                     "How many gaps does the flux cross on its way round?", misconception="one_leg_enough"),
            ),
            _HINT, 3, any_unit=True,
        ),
        Number(
            "askew", "difference of the two legs", "mm", lambda v, own: _of(v)[1], _STEP, 0, 50,
            (
                slip("half_the_difference", lambda v, own: _of(v)[1] / 2,
                     "Half the difference.", "It was halved, as a run-out is.",
                     "How much thicker is the leaf at one leg than at the other?",
                     misconception="run_out_whole"),
                slip("sum_as_mean", lambda v, own: _leg(v, 1) + _leg(v, 2),
                     "Both gaps together.", "They were added where they are to be compared.",
                     "Is the module askew when both gaps are alike?"),
                slip("run_out_as_askew", lambda v, own: None if abs(_run_out(v) - _of(v)[1]) < 0.015
                     or abs(_run_out(v) - _of(v)[1] / 2) < 0.015 else _run_out(v),
                     "The dial indicator's figure.", "Run-out was taken for a module that stands askew.",
                     "Which of the two turns with the flywheel, and which stays?",
                     misconception="run_out_one_way"),
                slip("mean_as_askew", lambda v, own: _of(v)[0],
                     "The mean gap.", "The wrong one of two figures was written.",
                     "What would it be if both legs were alike?", misconception="sum_as_mean"),
            ),
            _HINT, 2, any_unit=True,
        ),
        Number(
            "least", "least gap in one turn", "mm", lambda v, own: own["legs.mean"] - _run_out(v) / 2,
            _STEP, -50, 50,
            (
                slip("run_out_whole", lambda v, own: own["legs.mean"] - _run_out(v),
                     "The whole run-out was taken off.", "Highest minus lowest was counted from the middle.",
                     "How far is it from the middle to the highest spot?"),
                slip("run_out_left_out", lambda v, own: own["legs.mean"],
                     "The mean gap again.", "The flywheel was taken to run true.",
                     "What does the high spot do to the gap as it passes?", misconception="one_place_is_all"),
                slip("run_out_added", lambda v, own: own["legs.mean"] + _run_out(v) / 2,
                     "That is the largest gap.", "The high spot was thought to widen the gap.",
                     "Where the flywheel stands out, is it nearer to the module or further off?",
                     misconception="run_out_one_way"),
            ),
            _HINT, 3, any_unit=True,
        ),
        Number(
            "most", "largest gap in one turn", "mm", lambda v, own: own["legs.mean"] + _run_out(v) / 2,
            _STEP, -50, 50,
            (
                slip("run_out_whole", lambda v, own: own["legs.mean"] + _run_out(v),
                     "The whole run-out was added.", "Highest minus lowest was counted from the middle.",
                     "How far is it from the middle to the lowest spot?"),
                slip("run_out_left_out", lambda v, own: own["legs.mean"],
                     "The mean gap again.", "The flywheel was taken to run true.",
                     "What does the low spot do to the gap as it passes?", misconception="one_place_is_all"),
                slip("run_out_taken_off", lambda v, own: own["legs.mean"] - _run_out(v) / 2,
                     "That is the least gap.", "The low spot was thought to narrow the gap.",
                     "Where the flywheel stands back, is it nearer to the module or further off?",
                     misconception="run_out_one_way"),
            ),
            _HINT, 3, any_unit=True,
        ),
        _ROUND,
    ),
)  # fmt: skip
