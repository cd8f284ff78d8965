"""Lesson 08, compression and sealing: what a gauge must show here, and where the pressure goes."""

from __future__ import annotations

from twostroke.lesson.content.m08.examples import EXAMPLES
from twostroke.lesson.content.m08.exit_check import EXIT_CHECK
from twostroke.lesson.content.m08.orders import ORDERINGS
from twostroke.lesson.content.m08.questions import QUESTIONS
from twostroke.lesson.figures import compression_gauge
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="hill_guess",
        ask="After ten pulls a tight engine shows 128 psi at sea level. What will it show at 1 500 m?",
        look="Go from 0 to 12 pulls. Then change the altitude, and last the hose from 1 to 15 mL.",
        unit="psi",
    ),
    Prediction(
        id="oil_guess",
        ask="All of the leak is at the head gasket, none at the rings. What will a spoon of oil do?",
        look="Set the part past the rings to 0, then to 100 per cent. Last, set the leak to nought.",
        options=(
            "Nothing at all",
            "Lift the reading a little",
            "Bring the reading back to that of a tight engine",
        ),
    ),
)

FIGURES = (
    Figure(
        id="pumped",
        title="A gauge pumped up at an altitude",
        draw=compression_gauge.pumped_up,
        parameters=(
            Parameter(name="pulls", label="Pulls so far", unit="", low=0, high=12, step=1, start=3),
            Parameter(name="altitude", label="Altitude", unit="m", low=0, high=3000, step=100, start=1500),
            Parameter(name="hose", label="Room in the hose", unit="mL", low=1, high=15, step=1, start=5),
        ),
        prediction="hill_guess",
        source=(
            "Standard atmosphere: ISO 2533. Exponent 1.25 at 600 rpm: common practice, no source. Tight"
            " engine, ideal check valve, invented."
        ),
        shows_guess=True,
    ),
    Figure(
        id="wet",
        title="One leak measured dry and wet",
        draw=compression_gauge.dry_and_wet,
        parameters=(
            Parameter(name="leak", label="Whole leak", unit="mm²", low=0, high=0.6, step=0.05, start=0.3),
            Parameter(
                name="rings", label="Past the rings, per cent", unit="", low=0, high=100, step=25, start=75
            ),
        ),
        prediction="oil_guess",
        source=(
            "Leak: ideal nozzle. Oil closes 80 % of the ring leak and takes up 0.1 mL: common practice, no"
            " source. Ten pulls at sea level; the engine is invented."
        ),
    ),
)

CARD = BenchCard(
    lead=(
        "Throttle and choke fully open, decompression valve shut, pull until the needle is steady. Hold the"
        " reading against the maker's band, brought to your altitude."
    ),
    rows=(
        ("band here", "maker's limit × air here ÷ air at sea level", "gauge; 0.83 at 1 500 m"),
        ("back to sea level", "reading × air at sea level ÷ air here", "to compare with a sheet"),
        ("lacking", "(tight − dry) ÷ tight", "%"),
        ("regained with oil", "(wet − dry) ÷ (tight − dry)", "most: rings; hardly any: elsewhere"),
        ("crankcase leak", "volume × drop ÷ (1.013 bar × time)", "mL/min, time in minutes"),
        ("leak-down %", "only against the same tester", "depends on its restrictor"),
    ),
    traps=(
        "Few pulls, shut throttle, open valve or a long hose: a good engine reads low.",
        "High is not better: look for carbon, a wrong gasket, oil.",
        "Oil is a test, not a repair. It lifts any reading a little.",
        "Within the guard band of a limit the word is undecided.",
    ),
    cautions=("pressure", "spark_near_fuel", "moving_parts"),
    sources=(
        "Air at an altitude: ISO 2533. Guard band: JCGM 106:2012.",
        "What oil brings back, and 0.5 bar at most in a crankcase: common practice, no source.",
        "Bands and limits of a real engine: the maker's manual.",
    ),
)

LESSON = Lesson(
    number="08",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    orderings=ORDERINGS,
    exit_check=EXIT_CHECK,
    card=CARD,
)
