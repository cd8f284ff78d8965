"""Lesson 15, your own machine: real readings in, the next test out, a job card, and how to go on learning."""

from __future__ import annotations

from twostroke.lesson.content.m15.examples import EXAMPLES
from twostroke.lesson.content.m15.exit_check import EXIT_CHECK
from twostroke.lesson.content.m15.orders import ORDERINGS
from twostroke.lesson.content.m15.questions import QUESTIONS
from twostroke.lesson.figures import next_test
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="next_guess",
        ask="A machine that does not start. Known-good plug: no spark. The old plug is wet. What leads, and"
        " what comes next?",
        look="Set spark to 1, then the plug to 3. Watch what the wet plug changes after “no spark”, and what"
        " it changes without it. Then put in the readings of a machine that you know.",
        options=(
            "Too much fuel leads: dry it out",
            "The module leads: change it",
            "The module leads, but the stop circuit is read first",
        ),
    ),
)

FIGURES = (
    Figure(
        id="next_test",
        title="Own readings, and what to test next",
        draw=next_test.what_to_test_next,
        parameters=(
            Parameter(name="spark", label="Known-good plug", unit="",
                      low=0, high=3, step=1, start=0),
            Parameter(name="plug", label="Old plug", unit="",
                      low=0, high=4, step=1, start=0),
            Parameter(name="gauge", label="Compression", unit="",
                      low=0, high=3, step=1, start=0),
            Parameter(name="complaint", label="Complaint", unit="", low=1, high=7, step=1, start=1),
        ),
        prediction="next_guess",
        source=(
            "Counted over the course's fault table, a teaching estimate (common practice, no source). The"
            " maker's manual for your machine comes first."
        ),
    ),
)  # fmt: skip

CARD = BenchCard(
    lead=(
        "Manual first. Owner's words, make safe, one reading at a time, each with unit, instrument and"
        " state. What the course advises is an estimate; your readings decide."
    ),
    rows=(
        ("band", "from the maker's manual, as it stands there", "with its unit and temperature"),
        ("reading", "as it stands on the instrument", "12 thou, 96 psi, 2.6 kΩ"),
        ("on a hill", "limit × air here ÷ air at sea level", "ISO 2533"),
        ("warm winding", "÷ (1 + 0.00393 × degrees above 20 °C)", "copper"),
        ("next test", "least expected cost, not least minutes", "an estimate"),
        ("afterwards", "card kept; exit checks again in a week and in a month", "then once a year"),
    ),
    traps=(
        "The course's usual figures are not your machine's figures.",
        "Two readings that cannot both be true: one of them was misread. Read again before you think.",
        "Where a licence, a pressure vessel or the maker says no, hand it on. That is a good end too.",
    ),
    cautions=("fuel_vapour", "spark_near_fuel", "high_voltage", "moving_parts", "sudden_start"),
    sources=(
        "Air by height: ISO 2533. Copper: IEC 60028.",
        "Chances and advice: the course's fault table, a teaching estimate.",
    ),
    figure="next_test",
)

LESSON = Lesson(
    number="15",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    orderings=ORDERINGS,
    exit_check=EXIT_CHECK,
    card=CARD,
)
