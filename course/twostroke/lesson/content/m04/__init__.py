"""Lesson 04, the spark gap: what the plug asks for, what the module gives, and what a tester proves."""

from __future__ import annotations

from twostroke.lesson.content.m04.examples import EXAMPLES
from twostroke.lesson.content.m04.exit_check import EXIT_CHECK
from twostroke.lesson.content.m04.orders import ORDERINGS
from twostroke.lesson.content.m04.questions import QUESTIONS
from twostroke.lesson.figures import demand_figures
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

_GAP = Parameter(name="gap", label="Plug gap", unit="mm", low=0.3, high=1.2, step=0.05, start=0.6)

PREDICTIONS = (
    Prediction(
        id="squeeze_guess",
        ask="A plug sparks in open air at 3 kV. Under compression, at 6 bar absolute, what does it ask for?",
        look="Move the pressure from 1 to 6 bar. Then lower the speed until the verdict changes.",
        options=("The same 3 kV", "About three times as much", "About six times as much"),
    ),
    Prediction(
        id="tester_guess",
        ask="Plug gap 0.6 mm. How wide must a pointed tester gap in open air be to ask for as much?",
        look="Widen the tester until its bar reaches the dashed line. Then try your own prediction.",
        options=("0.6 mm, like the plug", "About 2 mm", "About 8 mm"),
    ),
)

FIGURES = (
    Figure(
        id="demand",
        title="Asked for and given",
        draw=demand_figures.demand_against_available,
        parameters=(
            Parameter(
                name="pressure",
                label="Pressure at the plug, absolute",
                unit="bar",
                low=1,
                high=11,
                step=0.25,
                start=2,
            ),
            _GAP,
            Parameter(
                name="speed", label="Flywheel speed", unit="rpm", low=200, high=1200, step=20, start=800
            ),
        ),
        prediction="squeeze_guess",
        source=(
            "Breakdown of air in an even field: textbook constants, from memory; inside a cylinder good to"
            " 30 %. The module is invented."
        ),
    ),
    Figure(
        id="tester",
        title="A tester that stands for the plug",
        draw=demand_figures.gap_of_tester,
        parameters=(
            Parameter(name="tester", label="Tester gap", unit="mm", low=1, high=14, step=0.5, start=4),
            _GAP,
        ),
        prediction="tester_guess",
        source=(
            "Needle points in air: table of an engineers' institute, from memory. Real testers are blunter"
            " and ask for more; the tester maker's figure comes first."
        ),
    ),
)

CARD = BenchCard(
    lead=(
        "A plug asks for about three times as much under compression as in open air. A spark in open air"
        " proves little. Use a tester gap that stands for the plug."
    ),
    rows=(
        ("density", "absolute pressure × 293 ÷ (273 + °C)", "bar, as at 20 °C"),
        ("asked for", "6.72 × √pd + 24.36 × pd", "kV, with pd in bar × cm"),
        ("0.6 mm", "3.1 kV in open air, about 10 kV when the spark is due", "30 % either way in a cylinder"),
        ("margin", "given − asked for, at the speed of the pull", "sure only beyond 30 %"),
        ("tester", "6 mm 7.1 kV · 8 mm 9.5 kV · 10 mm 11.9 kV", "needle points, from memory"),
    ),
    traps=(
        "A jump proves only what that gap asks for.",
        "An in-line flash shows current in the lead, not a spark at the plug.",
        "A new plug can be bad, or wrongly gapped. Test it too.",
        "Degrees Celsius may not be divided. Add 273 first.",
    ),
    cautions=("spark_near_fuel", "high_voltage"),
    sources=(
        "Breakdown: Kuffel, Zaengl and Kuffel, from memory.",
        "Needle points: AIEE table, from memory.",
        "Usual tester settings of 4 to 6 mm: common practice, no source.",
    ),
    figure="demand",
)

LESSON = Lesson(
    number="04",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    orderings=ORDERINGS,
    exit_check=EXIT_CHECK,
    card=CARD,
)
