"""Lesson 03, from magnet to spark: flux, current, opening, and the speed that it takes."""

from __future__ import annotations

from twostroke.lesson.content.m03.examples import EXAMPLES
from twostroke.lesson.content.m03.exit_check import EXIT_CHECK
from twostroke.lesson.content.m03.questions import QUESTIONS
from twostroke.lesson.figures import magnet
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="where_guess",
        ask="Where does the magnet induce the most voltage in the windings?",
        look="Move the angle from -36 to 36 degrees. Where is the middle curve highest, where nought?",
        options=(
            "Where the flux is largest, right under the module",
            "Where the flux changes fastest, on the way in or out",
            "Far away, where the magnet is free",
        ),
    ),
    Prediction(
        id="half_speed_guess",
        ask="At 800 rpm the plug could get about 14 kV. What could it get at 400 rpm?",
        look="Set the gap to 8 kV. Lower the speed until the flat line vanishes. Note that speed.",
        options=("The same", "About half", "Nothing at all"),
    ),
)

FIGURES = (
    Figure(
        id="magnet",
        title="A magnet passing the legs",
        draw=magnet.magnet_passing,
        parameters=(
            Parameter(
                name="angle", label="Magnet past aligned", unit="deg", low=-36, high=36, step=1, start=-14
            ),
            Parameter(
                name="speed", label="Flywheel speed", unit="rpm", low=100, high=1200, step=20, start=800
            ),
        ),
        prediction="where_guess",
        source=(
            "Flux: network of permeances fitted to finite elements, gap 0.30 mm. When the module opens:"
            " common practice, no source. The machine is invented."
        ),
    ),
    Figure(
        id="trace",
        title="The trace of one spark",
        draw=magnet.spark_trace,
        parameters=(
            Parameter(
                name="speed", label="Flywheel speed", unit="rpm", low=100, high=1200, step=20, start=800
            ),
            Parameter(
                name="demand", label="What the gap asks for", unit="kV", low=3, high=18, step=0.5, start=8
            ),
        ),
        prediction="half_speed_guess",
        source=(
            "Coupled circuits of the two windings, worked out step by step and held against a circuit"
            " solver in the tests; voltage of a burning spark good to about 30 %. The module is invented."
        ),
    ),
)

CARD = BenchCard(
    lead=(
        "The magnet's movement makes the spark. The faster it passes, the more current builds up in the"
        " primary, and the more voltage comes when the module opens."
    ),
    rows=(
        ("speed from a trace", "60 000 ÷ shortest time between sparks", "ms in, rpm out"),
        ("energy", "½ × L × I²", "mH × A² = mJ"),
        ("peak", "the short spike", "kV: what the gap asked for, or all there was"),
        ("burn time", "from the spike to the end of the flat line", "ms, without the ringing"),
        ("demo module", "400 rpm 6.8 kV · 600 rpm 10.5 kV · 800 rpm 13.7 kV", "invented, gap 0.30 mm"),
    ),
    traps=(
        "Half a turn by hand is too slow. Judge a spark only on a full, brisk pull.",
        "The shortest time between sparks is the fastest turn.",
        "No flat line: the gap did not fire, however much the trace rings.",
    ),
    cautions=("high_voltage", "spark_near_fuel", "moving_parts"),
    sources=(
        "Currents and voltages: computed, coupled circuits.",
        "When a module opens, and speeds of a pull: common practice, no source.",
        "The maker's manual comes first.",
    ),
    figure="magnet",
)

LESSON = Lesson(
    number="03",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    exit_check=EXIT_CHECK,
    card=CARD,
)
