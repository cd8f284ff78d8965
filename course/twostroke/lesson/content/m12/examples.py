"""Lesson 12: worked with gaps, then alone. All jobs and prices are invented."""

from __future__ import annotations

from typing import TYPE_CHECKING

from twostroke import jobcard, units
from twostroke.jobcard import money
from twostroke.jobcard.form import Estimate, Work
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity

_SHOP = jobcard.load_shop()


def _bill() -> Estimate:
    """30 min, 25 min and 20 min at the bench, parts for 20."""
    return money.estimate(75, [Work(action="fit", what="parts", part="parts", price=20)], _SHOP)


def _torque(text: str) -> Quantity:
    return units.read(text).to("N*m")


EXAMPLES = (
    Example(
        id="torque_faded",
        title="The manual gives 35 in·lb for the module's screws. Your wrench shows N·m",
        lines=(
            "The larger unit gives the smaller number: it must shrink.",
            "One in·lb is 0.113 N·m.",
            Blank(
                id="newton_metres",
                label="35 in·lb is",
                unit="N*m",
                within=0.015,
                answer=lambda: _torque("35 in lbf"),
                say="35 × 0.113 = 3.95 N·m.",
                hint="35 times 0.113.",
                slips=(
                    Slip(
                        gives=lambda: _torque("35 ft lbf"),
                        believes="inch_pound_as_foot_pound",
                        say="That is 35 foot-pounds, twelve times as much. The screw would strip.",
                    ),
                    Slip(
                        gives=lambda: _torque("0.889 N m"),
                        believes="pound_as_newton",
                        say="Inches were turned into metres, but the pound was left as a newton.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="bill_faded",
        title="30 min finding, 25 min mending, 20 min proving. Rate 60 an hour, parts 20",
        lines=(
            "All the minutes: 30 + 25 + 20 = 75 min, or 1:15 h.",
            Blank(
                id="labour",
                label="Labour",
                answer=lambda: _bill().lines[0].amount,
                within=0.005,
                say="75 ÷ 60 × 60 = 75.00.",
                hint="Minutes divided by 60, times the rate.",
                slips=(
                    Slip(
                        gives=lambda: 1.15 * _SHOP.labour_per_hour,
                        believes="clock_as_decimal",
                        say="1:15 h was read as 1.15 h. A quarter of an hour is 0.25 h.",
                    ),
                    Slip(
                        gives=lambda: 25 / 60 * _SHOP.labour_per_hour,
                        believes="finding_is_free",
                        say="That is the mending alone. Finding and proving took more than half of the time.",
                    ),
                    Slip(
                        gives=lambda: 75 * _SHOP.labour_per_hour,
                        believes="seconds_as_minutes",
                        say="The rate is for an hour, and you have minutes.",
                    ),
                ),
            ),
            f"Supplies: 5 % of labour, {75 * 0.05:.2f}. Parts: 20.00. Together 98.75.",
            Blank(
                id="total",
                label="Total, with 20 % tax on all of it",
                answer=lambda: _bill().total,
                within=0.002,
                say="98.75 × 1.2 = 118.50.",
                hint="A fifth of 98.75 comes on top.",
                slips=(
                    Slip(
                        gives=lambda: 98.75 + 0.2 * 20,
                        believes="share_of_the_wrong_whole",
                        say="The tax lies on the parts only. It looks likely. Work it out on the whole.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="advice_alone",
        title="The total is 118.50. A like machine with the same life left costs 160",
        stage="alone",
        lines=(
            Blank(
                id="share",
                label="The repair's share of it, in per cent (a plain number)",
                answer=lambda: 100 * _bill().total / 160,
                within=0.01,
                say="118.50 ÷ 160 = 74 %.",
                hint="Total divided by the price of the like machine.",
                slips=(
                    Slip(
                        gives=lambda: 100 * 160 / _bill().total,
                        believes="share_of_the_wrong_whole",
                        say="More than a hundred, for a bill below the price? It is turned round.",
                    ),
                ),
            ),
            Blank(
                id="advice",
                label="What do you say?",
                answer="Lay out both, with figures, and let the owner decide",
                options=(
                    "Repair it and send the bill",
                    "Lay out both, with figures, and let the owner decide",
                    "Advise against it: 74 is more than 50",
                ),
                believes={
                    "Repair it and send the bill": "owner_need_not_know",
                    "Advise against it: 74 is more than 50": "undecided_is_bad",
                },
                say="Between a half and four fifths it is the owner's choice.",
                hint="Where does 74 % lie on the strip of the figure?",
            ),
        ),
    ),
)
