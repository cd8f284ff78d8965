"""Lesson 06, resistance: leads and temperature out of a reading, and what an ohmmeter cannot see."""

from __future__ import annotations

from twostroke.lesson.content.m06.examples import EXAMPLES
from twostroke.lesson.content.m06.exit_check import EXIT_CHECK
from twostroke.lesson.content.m06.orders import ORDERINGS
from twostroke.lesson.content.m06.questions import QUESTIONS
from twostroke.lesson.figures import winding
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="display_guess",
        ask=(
            "A winding has 0.90 Ω at 20 °C. It is now at 80 °C, and the leads have 0.25 Ω. What will the"
            " display show?"
        ),
        look=(
            "Lower the temperature to 20 °C and watch the top mark. Then take the leads to nought. Does the"
            " bottom mark move?"
        ),
        unit="ohm",
    ),
    Prediction(
        id="short_guess",
        ask="One turn in a hundred of the secondary is shorted. How much voltage is lost at the plug?",
        look="Move the slider from 0 to 1, then on to 10. Which curve leaves the band first?",
        options=("About 1 per cent", "About 10 per cent", "Over 40 per cent"),
    ),
)

FIGURES = (
    Figure(
        id="warm",
        title="An ohmmeter on a warm winding",
        draw=winding.warm_coil,
        parameters=(
            Parameter(
                name="winding", label="Winding at 20 °C", unit="ohm", low=0.7, high=1.1, step=0.01, start=0.9
            ),
            Parameter(name="temperature", label="Winding now", unit="°C", low=0, high=100, step=5, start=80),
            Parameter(name="leads", label="Both leads", unit="ohm", low=0, high=0.5, step=0.05, start=0.25),
        ),
        prediction="display_guess",
        source=(
            "Copper: IEC 60028, from memory. Guard band: JCGM 106:2012. Meter ±(0.5 % + 2 digits),"
            " thermometer to 2 °C, band and winding: invented."
        ),
        shows_guess=True,
    ),
    Figure(
        id="short",
        title="What a partial short costs",
        draw=winding.partial_short,
        parameters=(
            Parameter(
                name="part",
                label="Shorted part of the secondary, per cent",
                unit="",
                low=0,
                high=10,
                step=0.25,
                start=3,
            ),
        ),
        prediction="short_guess",
        source=(
            "The course's model of the module at 800 rpm. How closely the shorted turns are coupled: common"
            " practice, no source. Module and band are invented."
        ),
    ),
)

CARD = BenchCard(
    lead=(
        "Take the leads off, bring the reading to the temperature of the band, then judge with a guard band."
        " An ohmmeter finds opens and dead shorts. It does not prove a module good."
    ),
    rows=(
        ("winding", "display − probes held together", "Ω"),
        ("at 20 °C", "winding ÷ (1 + 0.00393 × (°C − 20))", "Ω, copper only"),
        ("meter's doubt u", "(% of reading + digits × step) ÷ √3", "Ω"),
        ("guard band", "1.645 × u", "on both sides of the reading"),
        ("open", "no reading where there should be one", "over range"),
        ("short to the core", "a reading to the core of the secondary", "should be none; see the manual"),
        ("partial short", "ohms may stay in band, spark is weak", "prove it with a tester"),
    ),
    traps=(
        "Probes held together show both leads. Take them off once.",
        "Degrees count from 20 °C, and in Celsius.",
        "k means a thousand: 2.6 kΩ is 2 600 Ω.",
        "Stop lead still on: you measure two paths side by side.",
    ),
    cautions=("sudden_start", "hot_surface"),
    sources=(
        "0.00393 a degree: IEC 60028, from memory. 1.645: JCGM 106:2012.",
        "Bands of a real module: the maker's manual only.",
    ),
    figure="warm",
)

LESSON = Lesson(
    number="06",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    orderings=ORDERINGS,
    exit_check=EXIT_CHECK,
    card=CARD,
)
