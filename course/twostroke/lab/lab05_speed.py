"""Lab 05: what a wide gap does to the lowest speed that sparks, read from a table of this module."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option
from twostroke.lab.ruling import Ruling
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import tolerance

GAPS = (20, 30, 50, 70, 100)
"""Gaps of the table, hundredths of a millimetre."""
SET = 30


@lru_cache(maxsize=64)
def speeds(demand_kV: int, magnet_percent: int) -> dict[int, int]:
    """Lowest speed that sparks by gap, in rpm rounded to ten, from the ignition model."""
    from twostroke.ignition import Ignition, minimum_speed

    module = Ignition(magnet_factor=magnet_percent / 100)
    batch = Ignition.stack([module.changed(gap_1=each * 1e-5, gap_2=each * 1e-5) for each in GAPS])
    found = minimum_speed(batch, demand_kV * 1e3)
    return {each: round(float(rpm) / 10) * 10 for each, rpm in zip(GAPS, found, strict=True)}


def _speeds(v: Variant) -> dict[int, int]:
    return speeds(v["demand_kV"], v["magnet_percent"])


def _rows(v: Variant) -> tuple[int, int]:
    wide = v["wide_hundredths_mm"]
    return max(each for each in GAPS if each <= wide), min(each for each in GAPS if each > wide)


def _wide(v: Variant) -> float:
    low, high = _rows(v)
    table = _speeds(v)
    return table[low] + (table[high] - table[low]) * (v["wide_hundredths_mm"] - low) / (high - low)


def _set(v: Variant) -> float:
    return float(_speeds(v)[SET])


def _starts(v: Variant, own: Any) -> str:
    pull = v["pull_rpm"]
    if pull < _set(v):
        return "neither"
    return "both" if pull >= own["speed.wide"] else "set_only"


def _option(name: str, text: str, seen: str, misconception: str) -> Option:
    check = "Hold the speed of the pull against both lowest speeds, one after the other."
    why = "One of the two speeds was not held against the pull."
    return Option(name, text, misconception=misconception, feedback=Feedback(seen, why, check))


_VERDICT = Ruling(
    "verdict",
    "does it spark when you pull",
    (
        _option("both", "at both gaps", "It is said to spark at both gaps.", "gap_does_nothing"),
        _option("set_only", "at 0.30 mm only", "It is said to spark at the set gap only.",
                "wide_gap_always_kills"),
        _option("neither", "at neither gap", "It is said to spark at neither gap.", "wide_gap_always_kills"),
    ),
    fixed=True,
    rule=_starts,
)  # fmt: skip


def _show(v: Variant) -> Page:
    rows = [(f"{each / 100:.2f} mm", f"{rpm} rpm") for each, rpm in _speeds(v).items()]
    table = Table(
        f"Module of demo engine {v['engine']}, plug asks for {v['demand_kV']} kV (computed, invented module)",
        ("air gap, both legs", "lowest speed that sparks"),
        rows,
    )
    lead = (
        f"Set to {SET / 100:.2f} mm it was good. Now the gap is {v['wide_hundredths_mm'] / 100:.2f} mm. "
        f"Your pull turns the engine at {v['pull_rpm']} rpm."
    )
    return Page("", (Text(lead), table, Text("Does it spark when you pull?"), _VERDICT.options_block(v)))


_CLOSE = tolerance(
    10, (1, 5), (1, 3), reason="half a step of 10 rpm, the table's rounding and the bend between rows"
)

TASK = Task(
    id="speed",
    title="A wide gap and the starting speed",
    outcome="read from a table what a wide gap does to the lowest speed that sparks",
    kind="table",
    points=4,
    competency="air gap",
    show=_show,
    items=(
        Number(
            "wide", "lowest speed that sparks at the gap as it is now", "rpm", lambda v, own: _wide(v),
            _CLOSE, 0, 20000,
            (
                slip("row_below", lambda v, own: float(_speeds(v)[_rows(v)[0]]),
                     "The speed of the row below your gap.", "A row was taken as it stands.",
                     "How far is it from that row to your gap? Take that part of the way.",
                     misconception="nearest_row_is_enough", share=0.5),
                slip("row_above", lambda v, own: float(_speeds(v)[_rows(v)[1]]),
                     "The speed of the row above your gap.", "A row was taken as it stands.",
                     "How far is it from the row below to your gap? Take that part of the way.",
                     misconception="nearest_row_is_enough", share=0.5),
                slip("gap_in_proportion", lambda v, own: _set(v) * v["wide_hundredths_mm"] / SET,
                     "The speed grew as much as the gap.", "Twice the gap was taken for twice the speed.",
                     "The magnet itself resists the flux too: what does the table say at twice the gap?"),
            ),
            Feedback("The speed does not lie where your gap does.", "The part between the rows may be off.",
                     "Is your figure between those of the row below and the row above?"),
            0, any_unit=True, share=2,
        ),
        Number(
            "rise", "how much faster it must turn than at 0.30 mm", "rpm",
            lambda v, own: own["speed.wide"] - _set(v), _CLOSE, -20000, 20000,
            (
                slip("speed_as_rise", lambda v, own: own["speed.wide"],
                     "The whole speed again.", "The speed at the set gap was not taken off.",
                     "From which speed does the rise begin?", misconception="total_as_change"),
                slip("rise_in_proportion", lambda v, own: _set(v) * (v["wide_hundredths_mm"] - SET) / SET,
                     "It grew as much as the gap.", "Twice the gap was taken for twice the speed.",
                     "Take the rise from the table, not from the gap.", misconception="gap_in_proportion"),
                slip("rise_from_first_row", lambda v, own: own["speed.wide"] - _speeds(v)[GAPS[0]],
                     "Too large a rise.", "The first row of the table was taken for the set gap.",
                     "At which gap was it good before?", misconception="looks_right_is_right"),
            ),
            Feedback("It does not follow from your own speed.", "The sum may have gone astray.",
                     "Your speed at the gap of now, less the speed at the gap that was set."),
            0, any_unit=True, share=1,
        ),
        _VERDICT,
    ),
)  # fmt: skip
