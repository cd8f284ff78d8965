"""Lab 09: what storage does to fuel, read from vapour pressures."""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

ROWS = (0, 10, 20, 30)
FRESH = {0: 24.5, 10: 37.8, 20: 56.6, 30: 82.0}
STALE = {0: 1.52, 10: 2.75, 20: 4.72, 30: 7.78}
"""Saturation pressure in kPa of n-pentane and n-heptane by °C, as the CoolProp library computes it."""
AGES = {
    "fresh": ("mixed 2 weeks ago, can shut, in a cool shed", "mixed 10 days ago, can shut, in the shade"),
    "old": ("mixed 9 months ago, can shut", "in the tank since the season before last, cap vented",
            "mixed 7 months ago, in the sun, the cap not quite shut"),
}  # fmt: skip


def draw(d: Draw) -> dict[str, Any]:
    """Draw the temperature of the shed and the age of the fuel."""
    celsius = d.pick("shed row", ROWS[:-1]) + d.integer("shed", 3, 7)
    age = d.pick("fuel age", tuple(AGES))
    return {
        "shed_degF": round(celsius * 1.8 + 32),
        "fuel_age": age,
        "fuel_story": d.pick("fuel story", AGES[age]),
    }


def _at(column: dict[int, float], celsius: float) -> float:
    """Between two rows a part of the way."""
    row = _row(celsius)
    return column[row] + (column[row + 10] - column[row]) * (celsius - row) / 10


def _row(celsius: float) -> int:
    return int(min(max(celsius // 10 * 10, ROWS[0]), ROWS[-2]))


def show(v: Variant) -> Page:
    """The table of vapour pressures and the story of this fuel."""
    rows = [(f"{row} °C", f"{FRESH[row]:.1f} kPa", f"{STALE[row]:.2f} kPa") for row in ROWS]
    return Page(
        "",
        (
            Text(f"The shed is at {v['shed_degF']} °F. The fuel was {v['fuel_story']}."),
            Table(
                "Vapour pressure: n-pentane stands for the light part of fresh fuel, n-heptane for what "
                "is left",
                ("temperature", "light part", "what is left"), rows,
            ),
            Text("A cold start lives on the light part. How many times more vapour does it give?"),
            Text("What do you do with this fuel? (Makers of small machines often ask for mixture no older "
            "than "
                 "about a month: common practice; the manual comes first.)"),
            DECIDE.options_block(v),
        ),
    )  # fmt: skip


def _options(v: Variant) -> tuple[Option, ...]:
    fresh = v["fuel_age"] == "fresh"
    return (
        Option("use", "Use it; look for the fault elsewhere.", fresh, "stale_still_burns", Feedback(
            "Old fuel is kept.", "It burns in a pan, so it was thought good enough to start cold.",
            "What has left the can first in all that time, and what needs it?")),
        Option("drain", "Drain it outdoors into a marked can for disposal, fill fresh mixture, try again.",
               not fresh, "parts_first", Feedback(
            "Fresh fuel is poured away.", "Fuel was changed by habit.",
            "How old is it by its story, and how was it kept?")),
        Option("choke", "Use it with more choke.", False, "stale_still_burns", Feedback(
            "More of the same fuel is drawn in.",
            "Quantity was thought to make up for the missing light part.",
            "What becomes of the heavy part in a cold cylinder?")),
        Option("oil", "Add some oil to make up for its age.", False, "more_oil_is_safer", Feedback(
            "Oil is added.", "Age was taken for a lack of oil.",
            "Does oil give vapour at this temperature?")),
    )  # fmt: skip


DECIDE = Pick("decide", "what you do with this fuel", _options)


def _column_close(column: dict[int, float], step: float, told: str) -> Any:
    def close(v: Variant) -> Tolerance:
        row = _row((v["shed_degF"] - 32) / 1.8)
        change = (column[row + 10] - column[row]) / 10
        return tolerance(step, (change, 0.5), reason=f"half a step of {told}, and the temperature to ±0.5 °C")

    return close


def _read(name: str, label: str, column: dict[int, float], other: dict[int, float], decimals: int) -> Number:
    step = 10.0**-decimals

    def celsius(own: Any) -> float:
        return float(own["age.temperature"])

    return Number(
        name, label, "kPa", lambda v, own: _at(column, celsius(own)),
        _column_close(column, step, f"{step:g} kPa"), 0, 1000,
        (
            slip("row_below", lambda v, own: column[_row(celsius(own))],
                 "The figure of the row below.", "A row was taken as it stands.",
                 "How far is it from that row to your temperature?",
                 misconception="nearest_row_is_enough", share=0.5),
            slip("row_above", lambda v, own: column[_row(celsius(own)) + 10],
                 "The figure of the row above.", "A row was taken as it stands.",
                 "How far is it from the row below to your temperature?",
                 misconception="nearest_row_is_enough", share=0.5),
            slip("other_column", lambda v, own: _at(other, celsius(own)),
                 "A figure of the other column.", "The two parts of the fuel were mixed up.",
                 "Which part is the light one, and which gives more vapour?",
                 misconception="wrong_column"),
        ),
        Feedback("It does not lie where your temperature does.", "Another row may have been read.",
                 "Is it between the row below and the row above?"),
        decimals, any_unit=True,
    )  # fmt: skip


TASK = Task(
    id="age",
    title="Old fuel on a cold morning",
    outcome="say from a table what storage takes from fuel, and what to do with it",
    kind="table",
    points=5,
    competency="fuel, air and exhaust",
    show=show,
    items=(
        Number(
            "temperature", "temperature of the shed", "°C", lambda v, own: (v["shed_degF"] - 32) / 1.8,
            tolerance(1, reason="half a step of 1 °C"), -60, 200,
            (
                slip("fahrenheit_as_celsius", lambda v, own: v["shed_degF"],
                     "The Fahrenheit number with another unit.", "Fahrenheit was read as Celsius.",
                     "Where does water freeze on each scale?"),
                slip("offset_forgotten", lambda v, own: v["shed_degF"] / 1.8,
                     "Warmer than the shed.", "The 32 degrees were not taken off.",
                     "What does each scale show where water freezes?"),
                slip("turned_the_other_way", lambda v, own: v["shed_degF"] * 1.8 + 32,
                     "Hotter than boiling water.", "The way from Celsius to Fahrenheit was taken.",
                     "Must the number grow or shrink on the way to Celsius?",
                     misconception="factor_turned_round"),
            ),
            Feedback("It does not follow from the thermometer.", "A step may have been left out.",
                     "Take off where water freezes first, then change the size of the degree."),
            0, given_unit="°F", any_unit=True,
        ),
        _read("fresh", "light part, from the table", FRESH, STALE, 1),
        _read("stale", "what is left, from the table", STALE, FRESH, 2),
        Number(
            "times", "how many times more vapour", "", lambda v, own: own["age.fresh"] / own["age.stale"],
            tolerance(0.5, (0.7, 0.5), reason="half a step of 0.5, and two figures read from the table"), 0,
            1000,
            (
                slip("ratio_upside_down", lambda v, own: 100 * own["age.stale"] / own["age.fresh"],
                     "The heavy part as per cent of the light one.", "The division was turned round.",
                     "Which of the two gives more, and how many times?",
                     misconception="factor_turned_round", share=0.5),
                slip("difference_for_times", lambda v, own: own["age.fresh"] - own["age.stale"],
                     "The difference in kPa.", "It was taken off where it must be divided.",
                     "How many times does the small figure go into the large one?",
                     misconception="difference_for_ratio"),
                slip("added_for_times", lambda v, own: own["age.fresh"] + own["age.stale"],
                     "The sum of the two.", "They were added where one must be divided by the other.",
                     "How many times does the small figure go into the large one?",
                     misconception="difference_for_ratio"),
            ),
            Feedback("It does not follow from your two figures.", "One may come from another row.",
                     "Multiply your answer by the smaller figure: do you get the larger one?"),
            1,
        ),
        DECIDE,
    ),
)  # fmt: skip
