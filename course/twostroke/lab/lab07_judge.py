"""Lab 07: in, out or undecided, with what the meter itself may be wrong by."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

from twostroke import resistance
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option
from twostroke.lab.ruling import Ruling
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import tolerance

GUARD = 1.645
"""Guard band in standard uncertainties (JCGM 106), as given to the learner."""
STEP = 10
"""One step of the last digit, ohm."""
MODULES = "ABC"


def draw(d: Draw) -> dict[str, Any]:
    """Draw band, meter and three readings: one inside, one outside, one too near to a limit, in any order."""
    low = d.integer("low", 2100, 2700, 50)
    width = d.pick("width", (400, 500, 600))
    verdicts = d.shuffle("verdicts", ("in", "out", "undecided"))
    readings = []
    for name, verdict in zip(MODULES, verdicts, strict=True):
        side = d.pick(f"side {name}", (0, 1))
        limit, outward = low + side * width, 2 * side - 1
        if verdict == "in":
            readings.append(low + width // 2 + d.integer(f"in {name}", -50, 50, 10))
        elif verdict == "out":
            readings.append(limit + outward * d.integer(f"out {name}", 100, 200, 10))
        else:
            readings.append(limit + d.integer(f"near {name}", -20, 20, 10))
    return {
        "low_ohm": low,
        "high_ohm": low + width,
        "readings_ohm": readings,
        "percent_tenths": d.pick("percent", (5, 8, 10)),
        "digits": d.pick("digits", (2, 3, 4)),
    }


def _reading(v: Variant, place: int) -> float:
    return float(v["readings_ohm"][place])


@lru_cache(maxsize=4096)
def _uncertainty(reading: float, percent_tenths: int, digits: int) -> float:
    found = resistance.meter_uncertainty(f"{reading} ohm", percent_tenths / 10, digits, f"{STEP} ohm")
    return float(found.to("ohm").magnitude)


def uncertainty(v: Variant, place: int = 0) -> float:
    """Standard uncertainty of one reading, ohm."""
    return _uncertainty(_reading(v, place), v["percent_tenths"], v["digits"])


def _verdict(v: Variant, place: int, guard: float) -> str:
    """In, out or undecided, by the rule of the library with this guard band."""
    judged = resistance.judge(
        f"{_reading(v, place)} ohm",
        f"{v['low_ohm']} ohm",
        f"{v['high_ohm']} ohm",
        f"{abs(guard) / GUARD} ohm",
    )
    return str(judged)


_LOOK = "Lay the guard band on both sides of the reading: does it touch a limit?"


def _ruling(place: int) -> Ruling:
    def rule(v: Variant, own: Any) -> str:
        guard = own["judge.guard"] if place == 0 else GUARD * uncertainty(v, place)
        return _verdict(v, place, guard)

    options = (
        Option("in", "in", misconception="inside_is_always_good",
               feedback=Feedback("It is called in.",
                   "The meter's own error was left out, or a limit was misread.",
                                 _LOOK)),
        Option("out", "out", misconception="undecided_is_bad",
               feedback=Feedback("It is called out.",
                   "The meter's own error was left out, or a limit was misread.",
                                 _LOOK)),
        Option("undecided", "undecided: the meter cannot say", misconception="undecided_is_safe",
               feedback=Feedback("It is left open.",
                   "The reading is further from both limits than the guard band.",
                                 _LOOK)),
    )  # fmt: skip
    name = MODULES[place]
    return Ruling(f"module_{name.lower()}", f"module {name}", options, fixed=True, rule=rule)


_RULINGS = tuple(_ruling(place) for place in range(len(MODULES)))


def _show(v: Variant) -> Page:
    rows = [(f"module {name}", f"{_reading(v, place) / 1000:.2f} kΩ") for place, name in enumerate(MODULES)]
    percent, digits = v["percent_tenths"] / 10, v["digits"]
    lines = (
        f"Maker's band for the secondary at 20 °C: {v['low_ohm'] / 1000:.2f} to {v['high_ohm'] / 1000:.2f} "
        "kΩ. "
        "All three were read at 20 °C; the leads do not matter at kilohms.",
        f"Meter on this range: ±({percent:.1f} % of the reading + {digits} digits), one digit is {STEP} Ω. "
        "Standard uncertainty: that figure divided by √3. Guard band: 1.645 times the standard uncertainty.",
        "In: inside both limits by at least the guard band. Out: beyond a limit by at least as much. "
        "Else undecided.",
    )
    table = Table("Secondary windings of three modules", ("module", "reading"), rows)
    return Page(
        "", (table, *(Text(each) for each in lines), Text("For each module:"), _RULINGS[0].options_block(v))
    )


def _half_width(v: Variant) -> float:
    return uncertainty(v) * math.sqrt(3)


def _percent_part(v: Variant) -> float:
    return _reading(v, 0) * v["percent_tenths"] / 1000


TASK = Task(
    id="judge",
    title="In, out or undecided",
    outcome="judge a reading with the meter's own accuracy",
    kind="table",
    points=5,
    competency="module and windings",
    show=_show,
    items=(
        Number(
            "uncertainty", "standard uncertainty of the reading of module A", "ohm",
            lambda v, own: uncertainty(v), tolerance(1, reason="half a step of 1 Ω"), 0, 1e6,
            (
                slip("root_three_left_out", lambda v, own: _half_width(v),
                     "Somewhat less than twice too much.", "It was not divided by √3.",
                     "Is the accuracy figure a limit, or a standard uncertainty?", share=0.5,
                     misconception="limit_is_uncertainty"),
                slip("percent_only", lambda v, own: _percent_part(v) / math.sqrt(3),
                     "Too small.", "The digits of the accuracy figure were left out.",
                     "How many parts has the accuracy figure?", misconception="more_digits_more_truth"),
                slip("digits_as_ohms", lambda v, own: (_percent_part(v) + v["digits"]) / math.sqrt(3),
                     "Too small.", "A digit was counted as one ohm.",
                     "By how many ohms does the display jump on this range?", misconception="prefix_dropped"),
            ),
            Feedback("It does not follow from the accuracy figure.", "A part or a decimal place may be off.",
                     "Per cent of the reading, plus digits times what one digit is, then divided."),
            1, any_unit=True,
        ),
        Number(
            "guard", "guard band of module A", "ohm", lambda v, own: GUARD * own["judge.uncertainty"],
            tolerance(1, (GUARD, 0.5), reason="half a step of 1 Ω, and the step before to half of 1 Ω"), 0,
                1e6,
            (
                slip("uncertainty_as_guard", lambda v, own: own["judge.uncertainty"],
                     "The standard uncertainty again.", "It was not widened.",
                     "How often is the reading further off than one standard uncertainty?",
                     misconception="limit_is_uncertainty"),
                slip("guard_divided", lambda v, own: own["judge.uncertainty"] / GUARD,
                     "Narrower than the uncertainty.", "It was divided where it is to be widened.",
                     "Must the guard band be wider or narrower than what is not known?",
                     misconception="factor_turned_round"),
                slip("both_sides_at_once", lambda v, own: 2 * GUARD * own["judge.uncertainty"],
                     "Twice as wide.", "Both sides of the reading were counted together.",
                     "How far from the reading is one edge of the band?",
                         misconception="limit_is_uncertainty"),
            ),
            Feedback("It does not follow from your own uncertainty.", "The factor may be another one.",
                     "Your standard uncertainty times the factor that is given."),
            1, any_unit=True,
        ),
        *_RULINGS,
    ),
)  # fmt: skip
