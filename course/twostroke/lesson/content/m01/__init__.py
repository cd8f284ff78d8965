"""Lesson 01, shop units: thou and millimetres, gauge and absolute pressure, oil for a can."""

from __future__ import annotations

from twostroke.lesson.content.m01.examples import EXAMPLES
from twostroke.lesson.content.m01.exit_check import EXIT_CHECK
from twostroke.lesson.content.m01.orders import ORDERINGS
from twostroke.lesson.content.m01.questions import QUESTIONS
from twostroke.lesson.figures import shop_units
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="leaf_guess",
        ask="A feeler leaf is stamped 12, for 12 thou. How thick is it in millimetres?",
        look="Set the slider to 12 thou and read the millimetre scale. How far off was your prediction?",
        unit="mm",
    ),
    Prediction(
        id="mountain_guess",
        ask=(
            "A gauge shows 120 psi at the coast. You drive up to 2 000 m, and the gauge shows 120 psi again,"
            " on another engine. Is the absolute pressure in the second cylinder the same?"
        ),
        look="Set the gauge to 120 psi. Move the height from 0 to 2 000 m and watch column 3.",
        options=(
            "The same, because both gauges show 120 psi",
            "Higher up on the mountain",
            "Lower up on the mountain",
        ),
    ),
    Prediction(
        id="oil_guess",
        ask="Your can holds 5 L of fuel. The manual says 50:1. How much oil goes in?",
        look="Set 5 L and 50:1. Then try 25:1 before you read on.",
        unit="mL",
    ),
)

FIGURES = (
    Figure(
        id="leaf",
        title="One leaf, two scales",
        draw=shop_units.leaf,
        parameters=(
            Parameter(
                name="thickness",
                label="Thickness of the leaf",
                unit="thou",
                low=0,
                high=40,
                step=0.5,
                start=6,
            ),
        ),
        prediction="leaf_guess",
        source="1 inch is exactly 25.4 mm (NIST SP 811, appendix B.8).",
        shows_guess=True,
    ),
    Figure(
        id="pressure",
        title="What the gauge shows and what the air adds",
        draw=shop_units.gauge_and_absolute,
        parameters=(
            Parameter(name="gauge", label="Gauge reading", unit="psi", low=0, high=180, step=1, start=100),
            Parameter(
                name="altitude", label="Height above the sea", unit="m", low=0, high=4000, step=50, start=0
            ),
        ),
        prediction="mountain_guess",
        source=(
            "Air: standard atmosphere (ISO 2533; U.S. Standard Atmosphere 1976). Real weather moves it by a"
            " few per cent."
        ),
    ),
    Figure(
        id="oil",
        title="Oil for a can of fuel",
        draw=shop_units.oil_for_can,
        parameters=(
            Parameter(name="petrol", label="Fuel in the can", unit="L", low=0.5, high=10, step=0.5, start=2),
            Parameter(
                name="ratio",
                label="Parts of fuel to one part of oil",
                unit="",
                low=20,
                high=60,
                step=1,
                start=40,
            ),
        ),
        prediction="oil_guess",
        source="Parts by volume: common practice, no source. The maker's ratio comes first.",
        shows_guess=True,
    ),
)

CARD = BenchCard(
    lead=(
        "Write the unit beside every number. Ask whether the number must grow or shrink before you convert,"
        " and turn the answer back."
    ),
    rows=(
        ("thickness", "mm = thou × 0.0254", "12 thou = 0.305 mm"),
        ("pressure", "bar = psi ÷ 14.5", "120 psi = 8.3 bar"),
        ("absolute", "gauge + air", "air: 1.01 bar at the sea, about 0.80 at 2 000 m"),
        ("oil", "fuel ÷ first number of the ratio", "50:1: 20 mL for 1 L, which is 2 %"),
        ("temperature", "°C = (°F − 32) ÷ 1.8", "68 °F = 20 °C"),
        ("gallon", "US 3.785 L, imperial 4.546 L", "say which"),
        ("resistance", "1 kΩ = 1 000 Ω", "2.6 kΩ = 2 600 Ω"),
    ),
    traps=(
        "12 thou is not 0.12 mm.",
        "A gauge at 0 still has the air in it. Add the air for absolute, at your own height.",
        "50:1 is 2 per cent, not 50 per cent.",
        "Digits from the calculator were not measured. Keep what the instrument can show.",
    ),
    cautions=("fuel_vapour", "pressure"),
    sources=(
        "Inch, pound-force, gallons: NIST SP 811.",
        "Air: ISO 2533 and U.S. Standard Atmosphere 1976.",
        "Ratio by volume: common practice, no source.",
    ),
    figure="pressure",
)

LESSON = Lesson(
    number="01",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    orderings=ORDERINGS,
    exit_check=EXIT_CHECK,
    card=CARD,
)
