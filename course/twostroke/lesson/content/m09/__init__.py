"""Lesson 09, fuel, air and exhaust: what a wet, dry or black plug proves, and what else it takes."""

from __future__ import annotations

from twostroke.lesson.content.m09.examples import EXAMPLES
from twostroke.lesson.content.m09.exit_check import EXIT_CHECK
from twostroke.lesson.content.m09.orders import ORDERINGS
from twostroke.lesson.content.m09.questions import QUESTIONS
from twostroke.lesson.figures import plug_and_mixture
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="plug_guess",
        ask="1 000 machines do not start, and their plugs come out wet. Where are most of the faults?",
        look=(
            "Look at the wet plug, 3, alone. Then let the tester jump, 1, and stay dark, 3. Last, go through"
            " the other faces."
        ),
        options=(
            "In the fuel: too much of it",
            "In the ignition: no spark to light it",
            "In air and exhaust",
        ),
    ),
    Prediction(
        id="pulls_guess",
        ask="Cold sound engine, fresh fuel, choke closed, but no spark. When is the plug too wet to spark?",
        look=(
            "Choke closed for all 14 pulls. Then for 4, then for none. Then 60 °C with the choke closed."
            " Last, cold again with only 40 per cent of the light part."
        ),
        options=("After two pulls", "After about seven", "Never: a sound carburettor cannot flood"),
    ),
)

FIGURES = (
    Figure(
        id="plug",
        title="What a plug's face proves",
        draw=plug_and_mixture.plug_face,
        parameters=(
            Parameter(
                name="face",
                label="Face of the plug, 1 to 5",
                unit="",
                low=1,
                high=5,
                step=1,
                start=3,
            ),
            Parameter(
                name="tester",
                label="Tester, 0 not used yet",
                unit="",
                low=0,
                high=3,
                step=1,
                start=0,
            ),
        ),
        prediction="plug_guess",
        source=(
            "Counted by the course's own fault table for 1 000 machines that do not start, one fault each."
            " Its chances: common practice, no source; invented for teaching."
        ),
    ),
    Figure(
        id="pulls",
        title="Fuel pull by pull",
        draw=plug_and_mixture.fuel_by_pull,
        parameters=(
            Parameter(
                name="closed", label="Pulls with the choke closed", unit="", low=0, high=14, step=1, start=4
            ),
            Parameter(
                name="warmth", label="Warmth of the engine", unit="degC", low=0, high=60, step=5, start=20
            ),
            Parameter(
                name="light",
                label="Light part left in the fuel, per cent",
                unit="",
                low=0,
                high=100,
                step=10,
                start=100,
            ),
        ),
        prediction="pulls_guess",
        source=(
            "Fuel balance of the virtual bench, demo engine A, 6 presses of the primer. All constants"
            " invented: the order of things counts, not the digits."
        ),
    ),
)

CARD = BenchCard(
    lead=(
        "A plug is a witness, not a verdict. Read it, then ask the tester. Change one thing at a time, and"
        " hold each change against the run as found."
    ),
    rows=(
        ("wet, tester dark", "no spark: the fuel is left unburnt", "stop lead, lead, module"),
        ("wet, tester jumps", "flooded, or the plug itself", "clear it, then ask why"),
        ("dry and clean, tester jumps", "starved", "tank, vent, filter, line, carburettor"),
        ("black", "rich, much oil, or blocked air or exhaust", "filter, choke, screen, mixture"),
        ("chalky white", "too hot: lean, or false air", "pressure hold, carburettor"),
        ("oil in a mixture", "mixture ÷ (ratio + 1)", "mL"),
        ("plain fuel to add", "oil × wanted ratio − fuel in it", "mL"),
        ("gain of a change", "(after − as found) ÷ as found", "%"),
    ),
    traps=(
        "A wet plug does not mean too much fuel: without spark any fuel stays.",
        "Old fuel burns in a dish and gives no vapour in a cold cylinder.",
        "A setting does not change by itself. Screws come last.",
        "Never run without its screen in dry grass.",
    ),
    cautions=("fuel_vapour", "spark_near_fuel", "hot_surface"),
    sources=(
        "Restart at least 3 m from where fuel was handled: 29 CFR 1910.266, from memory.",
        "What a plug's face means, and fuel no older than about a month: common practice, no source.",
        "Mixture and settings: the maker's manual.",
    ),
)

LESSON = Lesson(
    number="09",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    orderings=ORDERINGS,
    exit_check=EXIT_CHECK,
    card=CARD,
)
