"""Lesson 05, air gap, key and timing: set with a shim, both legs, run-out, and a key that has given way."""

from __future__ import annotations

from twostroke.lesson.content.m05.examples import EXAMPLES
from twostroke.lesson.content.m05.exit_check import EXIT_CHECK
from twostroke.lesson.content.m05.orders import ORDERINGS
from twostroke.lesson.content.m05.questions import QUESTIONS
from twostroke.lesson.figures import gap_and_key
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="wide_guess",
        ask="At 0.30 mm the demo module sparks from 570 rpm. From what speed does it spark at 0.60 mm?",
        look="Move the gap to 0.60 mm. Then find where the curve crosses the usual pull.",
        options=("From the same speed", "From about 750 rpm", "From about 1 140 rpm", "Never"),
    ),
    Prediction(
        id="key_guess",
        ask="The key has given way by 1 mm on a shaft of 14 mm. What happens to the spark?",
        look="Move the step from 0 to 1 mm, then to the other side. Watch the angle and the kilovolts.",
        options=("It gets weaker", "It comes at another angle", "It gets weaker and late", "Nothing"),
    ),
)

FIGURES = (
    Figure(
        id="shim",
        title="A shim in the gap",
        draw=gap_and_key.shim_and_speed,
        parameters=(
            Parameter(name="gap", label="Air gap", unit="mm", low=0.1, high=1.2, step=0.05, start=0.3),
            Parameter(
                name="demand", label="What the plug asks for", unit="kV", low=5, high=12, step=0.5, start=10
            ),
        ),
        prediction="wide_guess",
        source=(
            "Computed: flux network and coupled circuits; trend with the gap good to about 3 %. The usual"
            " band 0.20 to 0.35 mm and the usual pull: common practice, no source. The module is invented."
        ),
    ),
    Figure(
        id="key",
        title="A key that has given way",
        draw=gap_and_key.sheared_key,
        parameters=(
            Parameter(
                name="offset",
                label="Step at the key, late side positive",
                unit="mm",
                low=-2,
                high=2,
                step=0.1,
                start=0.5,
            ),
            Parameter(name="shaft", label="Shaft diameter", unit="mm", low=10, high=20, step=1, start=14),
        ),
        prediction="key_guess",
        source="Angle: arc over radius, geometry, exact. The demo module, spark 28° before top, is invented.",
    ),
)

CARD = BenchCard(
    lead=(
        "Set the gap with a shim under both legs, tighten, and measure again. A wide gap asks for a faster"
        " pull. A sheared key moves the spark and leaves it as strong."
    ),
    rows=(
        ("air gap", "maker's figure first; usual 0.20 to 0.35 mm", "8 to 14 thou, common practice"),
        ("shim stack", "add the leaves; add their doubts", "mm, few leaves"),
        ("both legs", "mean = (first + second) ÷ 2", "mm, and the difference shows askew"),
        ("run-out", "gap ± half of the indicator's reading", "mm, one whole turn"),
        ("demo module", "0.3 mm 568 rpm · 0.6 mm 750 rpm · 1.0 mm 929 rpm", "plug asks for 10 kV"),
        ("key", "angle = 2 × step ÷ shaft diameter × 57.3", "degrees; behind = late"),
    ),
    traps=(
        "The shim comes out after the screws are tight, not before.",
        "Tightening moves the module. Measure again.",
        "Twice the gap is not twice the speed.",
        "The flywheel stands wrong: spark strong, timing off. Look at the key.",
    ),
    cautions=("sudden_start", "moving_parts"),
    sources=(
        "Inch: NIST SP 811. Doubts: JCGM 100.",
        "Angle at the key: geometry.",
        "Usual band and pull: common practice, no source.",
    ),
    figure="shim",
)

LESSON = Lesson(
    number="05",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    orderings=ORDERINGS,
    exit_check=EXIT_CHECK,
    card=CARD,
)
