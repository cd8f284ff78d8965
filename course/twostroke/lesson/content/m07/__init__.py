"""Lesson 07, stop circuit, ground and lead: the fault that hides behind a good module."""

from __future__ import annotations

from twostroke.lesson.content.m07.examples import EXAMPLES
from twostroke.lesson.content.m07.exit_check import EXIT_CHECK
from twostroke.lesson.content.m07.orders import ORDERINGS
from twostroke.lesson.content.m07.questions import QUESTIONS
from twostroke.lesson.figures import stop_circuit
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="stop_guess",
        ask="Sound machine, stop lead on, switch at run. What reads a meter from terminal to metal?",
        look=(
            "Red on 1, black on 4. Then switch to stop, then the lead off. Repeat with red on 2, and with"
            " each machine."
        ),
        options=("Over range, the switch is open", "About one ohm, the winding", "Nought"),
    ),
    Prediction(
        id="leak_guess",
        ask="A damp switch leaks 30 Ω to ground. The plug asks for 8 kV. Does it spark?",
        look="Move the leak from 4 (10 kΩ) down to 0 (1 Ω). Where does it fall below what the plug asks for?",
        options=(
            "Yes, only a dead short stops it",
            "No, 30 Ω is enough of a leak",
            "Yes, only a little weaker",
        ),
    ),
)

FIGURES = (
    Figure(
        id="circuit",
        title="A meter on a stop circuit",
        draw=stop_circuit.stop_circuit,
        parameters=(
            Parameter(name="machine", label="Machine, 1 is sound", unit="", low=1, high=5, step=1, start=1),
            Parameter(name="red", label="Red probe on point", unit="", low=1, high=5, step=1, start=1),
            Parameter(name="black", label="Black probe on point", unit="", low=1, high=5, step=1, start=4),
            Parameter(name="switch", label="Switch: 0 run, 1 stop", unit="", low=0, high=1, step=1, start=0),
            Parameter(name="lead", label="Stop lead: 0 off, 1 on", unit="", low=0, high=1, step=1, start=1),
        ),
        prediction="stop_guess",
        source="Resistors solved as a network, meter leads off. Their values: common practice, no source.",
    ),
    Figure(
        id="leak",
        title="What a leak to ground costs",
        draw=stop_circuit.leak_to_ground,
        parameters=(
            Parameter(
                name="power",
                label="Leak: 1 is 10 Ω, 2 is 100 Ω, 3 is 1 kΩ",
                unit="",
                low=0,
                high=4,
                step=0.125,
                start=2,
            ),
            Parameter(
                name="demand", label="What the plug asks for", unit="kV", low=4, high=12, step=0.5, start=8
            ),
        ),
        prediction="leak_guess",
        source=(
            "The course's model of the module at 700 rpm. When the module opens: common practice, no source."
            " The machine is invented."
        ),
    ),
)

CARD = BenchCard(
    lead=(
        "No spark: before a module is bought, take its stop lead off and test again. Spark back: lead or"
        " switch. Still none: ground, gap, magnets, plug and lead, and only then the module."
    ),
    rows=(
        ("stop lead to metal, off, run", "no reading", "over range"),
        ("the same, switch at stop", "near nought", "below 1 Ω here; see the manual"),
        ("module's core to metal", "near nought", "else clean the seat"),
        ("stop terminal, lead on", "1 ÷ (1 ÷ winding + 1 ÷ leak)", "less than either path"),
        ("leak that matters", "tens to hundreds of ohms", "no dead short is needed"),
        ("at the end", "run sparks, stop stops", "prove both"),
    ),
    traps=(
        "No reading in both positions: the engine will not stop.",
        "With the stop lead off the switch does nothing. Know another way to stop.",
        "A flash in an in-line flash tester proves current in the lead, not a spark at the plug.",
        "Move the lead while you read: a chafe shows at one place only.",
    ),
    cautions=("sudden_start", "high_voltage", "moving_parts"),
    sources=(
        "Two paths side by side: Ohm's law. Limits for switch and seat: common practice, no source.",
        "Way of the stop lead and its values: the maker's manual.",
    ),
)

LESSON = Lesson(
    number="07",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    orderings=ORDERINGS,
    exit_check=EXIT_CHECK,
    card=CARD,
)
