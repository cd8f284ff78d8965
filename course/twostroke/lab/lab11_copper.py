"""Lab 11: a winding read cold and hot: copper alone, or something that opens or shorts with heat."""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.sifted import sift, told_apart
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

ALPHA = 0.00393
"""Temperature coefficient of copper at 20 °C for a degree (IEC 60028, from memory)."""
OFF = {"copper": (-1, 1), "opening": (12, 25), "shorting": (-18, -9)}
"""Per cent by which the hot reading differs from copper alone (invented)."""


def draw(d: Draw) -> dict[str, Any]:
    """Draw a winding cold and hot such that every slip can be told apart."""
    case = d.pick("copper case", tuple(OFF))

    def make(number: int) -> dict[str, Any]:
        cold, t_cold = d.integer(f"cold ohm {number}", 200, 480), d.integer(f"cold {number}", 5, 18)
        t_hot = d.integer(f"hot {number}", 70, 105)
        copper = cold * (1 + ALPHA * (t_hot - 20)) / (1 + ALPHA * (t_cold - 20))
        off = d.integer(f"off {number}", *OFF[case])
        return {
            "copper_case": case,
            "cold_hundredths_kohm": cold,
            "cold_degC": t_cold,
            "hot_hundredths_kohm": round(copper * (1 + off / 100)),
            "hot_degC": t_hot,
        }

    return sift(make, lambda given: told_apart(TASK, given))


def _cold(v: Variant) -> float:
    return float(v["cold_hundredths_kohm"]) / 100


def _hot(v: Variant) -> float:
    return float(v["hot_hundredths_kohm"]) / 100


def _factor(celsius: float) -> float:
    return 1 + ALPHA * (celsius - 20)


def _expected(v: Variant, own: Any = None) -> float:
    return _cold(v) * _factor(v["hot_degC"]) / _factor(v["cold_degC"])


def _expected_close(v: Variant) -> Tolerance:
    change = _cold(v) * ALPHA
    return tolerance(0.01, (1, 0.005), (change, 1), (change, 1),
                     reason="half a step of 0.01 kΩ, the reading to that, and both temperatures to ±1 "
                     "°C")  # fmt: skip


def _at_20_close(v: Variant) -> Tolerance:
    change = _hot(v) * ALPHA
    return tolerance(
        0.01,
        (1, 0.005),
        (change, 1),
        reason="half a step of 0.01 kΩ, the reading to that, and the temperature to ±1 °C",
    )


def show(v: Variant) -> Page:
    """The two readings."""
    rows = (
        ("cold", f"{_cold(v):.2f} kΩ", f"{v['cold_degC']} °C"),
        ("warmed off the machine", f"{_hot(v):.2f} kΩ", f"{v['hot_degC']} °C"),
    )
    return Page(
        "",
        (
            Table("Secondary winding, lead resistance taken off", ("state", "reading", "winding at"), rows),
            Text(f"Copper: R = R20 × (1 + {ALPHA} × (t − 20)), t in °C (IEC 60028, from memory)."),
            Text(
                "What should copper alone read hot? What is the hot reading, brought to 20 °C? What does "
                "it suggest?"
            ),
            VERDICT.options_block(v),
        ),
    )


_TEXT = {
    "copper": "Copper alone: this reading clears nothing more, so test the spark hot.",
    "opening": "Something opens with heat: a joint or a strand. Test the spark hot to prove it.",
    "shorting": "Turns touch with heat. Test the spark hot to prove it.",
}
_WHY = {
    "copper": Feedback("You see nothing but copper.", "The difference from copper was passed over.",
                       "How far is the hot reading from what copper alone would show?"),
    "opening": Feedback("You see something open.", "The rise of copper itself was taken for a fault.",
                        "Is the hot reading above what copper alone would show?"),
    "shorting": Feedback("You see turns that touch.", "The reading was held against the wrong figure.",
                         "Is the hot reading below what copper alone would show?"),
}  # fmt: skip


def _verdicts(v: Variant) -> tuple[Option, ...]:
    dead = Option(
        "condemn", "The module is dead: order one.", False, "resistance_in_band_proves",
        Feedback("The module is condemned on ohms.", "A resistance was taken for a spark.",
                 "Which test shows what the module does, hot?"),
    )  # fmt: skip
    return (
        *(
            Option(name, text, name == v["copper_case"], "cold_reading_hot_band", _WHY[name])
            for name, text in _TEXT.items()
        ),
        dead,
    )


VERDICT = Pick("verdict", "what it suggests", _verdicts)

TASK = Task(
    id="copper",
    title="Hot and cold readings",
    outcome="tell a winding that is only warm from one that fails with heat",
    kind="table",
    points=5,
    competency="module and windings",
    show=show,
    items=(
        Number(
            "expected", "copper alone, hot", "kohm", _expected, _expected_close, 0, 1000,
            (
                slip("cold_reading_hot_band", lambda v, own: _cold(v),
                     "The cold reading.", "Cold was held against hot as it stands.",
                     "Does copper read the same when it is warm?"),
                slip("from_nought", lambda v, own: _cold(v) * (1 + ALPHA * v["hot_degC"]),
                     "Too much for this heat.", "The rise was counted from 0 °C.",
                     "From which temperature did the cold reading start?",
                     misconception="in_proportion_from_zero"),
                slip("degrees_in_proportion", lambda v, own: _cold(v) * v["hot_degC"] / v["cold_degC"],
                     "Several times the cold reading.", "Ohms were taken to rise as degrees Celsius do.",
                     "How much does copper gain for ten degrees?",
                     misconception="in_proportion_from_zero"),
                slip("cooled_for_warmed",
                     lambda v, own: _cold(v) * _factor(v["cold_degC"]) / _factor(v["hot_degC"]),
                     "Less than cold.", "The factor was used upside down.",
                     "Must the reading grow or shrink with heat?", misconception="factor_turned_round"),
            ),
            Feedback("It does not follow from the cold reading.", "A bracket may be missing.",
                     "First bring the cold reading to 20 °C, then up to the hot temperature."),
            2, any_unit=True, share=2,
        ),
        Number(
            "at_20", "hot reading brought to 20 °C", "kohm", lambda v, own: _hot(v) / _factor(v["hot_degC"]),
            _at_20_close, 0, 1000,
            (
                slip("not_corrected", lambda v, own: _hot(v),
                     "The hot reading.", "It was left at its temperature.",
                     "Which temperature is asked?", misconception="cold_reading_hot_band"),
                slip("factor_turned_round", lambda v, own: _hot(v) * _factor(v["hot_degC"]),
                     "More than hot.", "It was multiplied where it must be divided.",
                     "Must the reading grow or shrink on the way back to 20 °C?"),
                slip("from_nought", lambda v, own: _hot(v) / (1 + ALPHA * v["hot_degC"]),
                     "A little too low.", "The rise was counted from 0 °C.",
                     "How many degrees is it above 20 °C?", misconception="in_proportion_from_zero",
                     share=0.5),
            ),
            Feedback("It does not follow from the hot reading.", "The cold temperature may have been used.",
                     "Divide by the factor of the hot temperature."),
            2, any_unit=True, share=2,
        ),
        VERDICT,
    ),
)  # fmt: skip
