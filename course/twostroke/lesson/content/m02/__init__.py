"""Lesson 02, the two-stroke cycle: piston, ports and pressures round one turn."""

from __future__ import annotations

from twostroke.lesson.content.m02.examples import EXAMPLES
from twostroke.lesson.content.m02.exit_check import EXIT_CHECK
from twostroke.lesson.content.m02.orders import ORDERINGS
from twostroke.lesson.content.m02.questions import QUESTIONS
from twostroke.lesson.figures import cycle
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="half_way_guess",
        ask="The stroke is 28 mm. The crank has turned 90 degrees from top. How deep is the piston?",
        look="Move the angle to 90 degrees. Then stretch the rod to 80 mm and look again.",
        unit="mm",
    ),
    Prediction(
        id="squeeze_guess",
        ask="The piston comes up from the bottom. Where does the pressure above it begin to rise?",
        look="Move the angle from 180 to 360 degrees and watch the upper curve. Then raise the exhaust roof.",
        options=("At once, at the bottom", "Where the transfer shuts", "Where the exhaust shuts"),
    ),
)

FIGURES = (
    Figure(
        id="depth",
        title="How deep at which angle",
        draw=cycle.depth_against_angle,
        parameters=(
            Parameter(name="angle", label="Crank angle", unit="deg", low=0, high=180, step=1, start=30),
            Parameter(name="rod", label="Rod, between centres", unit="mm", low=40, high=80, step=1, start=48),
        ),
        prediction="half_way_guess",
        source="Geometry of crank and rod, exact. The engine is invented: stroke 28 mm.",
        shows_guess=True,
    ),
    Figure(
        id="round",
        title="Once round the crank",
        draw=cycle.round_the_crank,
        parameters=(
            Parameter(
                name="angle", label="Crank angle after top", unit="deg", low=0, high=360, step=1, start=240
            ),
            Parameter(
                name="exhaust", label="Exhaust roof below top", unit="mm", low=16, high=21, step=0.5, start=19
            ),
        ),
        prediction="squeeze_guess",
        source=(
            "Port angles: geometry. Pressures: p·Vⁿ with n = 1.25 (common practice, no source), turned,"
            " not firing, ports level the pressure at once. The engine is invented."
        ),
    ),
)

CARD = BenchCard(
    lead=(
        "One turn is the whole cycle. Count angles from top, and depths from top. Squeezing begins where the"
        " exhaust port shuts, not at the bottom."
    ),
    rows=(
        ("displacement", "π ÷ 4 × bore² × stroke", "cm³, with bore and stroke in cm"),
        ("geometric ratio", "(swept + clearance) ÷ clearance", "no unit, such as 9:1"),
        (
            "trapped ratio",
            "volume at exhaust closing ÷ clearance",
            "always less than geometric",
        ),
        ("open for", "360° − 2 × opening angle", "opening angle counted from top"),
        ("blowdown", "transfer opening − exhaust opening", "degrees, on the way down"),
        ("depth ↔ angle", "table, or law of cosines", "not in proportion; the rod matters"),
    ),
    traps=(
        "Bore is a diameter. The circle formula with π alone wants the radius.",
        "Half the angle is not half the depth.",
        "Measure depths from top dead centre, from the same zero each time.",
        "Calculator in degrees: the cosine of 90 must be 0.",
    ),
    cautions=("sudden_start", "moving_parts"),
    sources=(
        "Piston and port angles: geometry, exact.",
        "Exponent 1.25 when cranking: common practice, no source.",
        "Port heights of a real engine: the maker's manual.",
    ),
    figure="round",
)

LESSON = Lesson(
    number="02",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    orderings=ORDERINGS,
    exit_check=EXIT_CHECK,
    card=CARD,
)
