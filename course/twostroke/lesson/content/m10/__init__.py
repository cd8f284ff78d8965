"""Lesson 10, complaint and fault-isolation logic: evidence, counting, and which test next."""

from __future__ import annotations

from twostroke.lesson.content.m10.examples import EXAMPLES
from twostroke.lesson.content.m10.exit_check import EXIT_CHECK
from twostroke.lesson.content.m10.questions import QUESTIONS
from twostroke.lesson.figures import counting
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="count_guess",
        ask="50 of 1 000 machines have a fault. 90 per cent of these show a reading, and 10 per cent of the"
        " others show it too. Your machine shows it. How sure is the fault?",
        look=(
            "Look at 50, 90 and 10. Then 300 with the fault. Then 50 again, and the others down to 1 per"
            " cent. Last, the others at 60."
        ),
        unit="%",
    ),
    Prediction(
        id="bars_guess",
        ask="It does not start, and a good plug on its lead stays dark. How likely is a dead module now?",
        look=(
            "Machine 4, test by test, way 1. Then machines 1, 2 and 3. Then machine 3 in way 2: how far does"
            " it get?"
        ),
        options=("Nearly certain", "About four in ten", "Hardly: it is mostly the plug"),
    ),
)

FIGURES = (
    Figure(
        id="count",
        title="A thousand machines counted",
        draw=counting.machines_counted,
        parameters=(
            Parameter(
                name="has", label="Machines with the fault", unit="", low=10, high=500, step=10, start=50
            ),
            Parameter(
                name="shows", label="Of these show it, per cent", unit="", low=5, high=100, step=5, start=90
            ),
            Parameter(
                name="others",
                label="Of the others show it, per cent",
                unit="",
                low=0,
                high=60,
                step=1,
                start=10,
            ),
        ),
        prediction="count_guess",
        source="Bayes' rule, 1763, by counting. What you set is invented.",
        shows_guess=True,
    ),
    Figure(
        id="bars",
        title="The bars of a belief",
        draw=counting.belief_bars,
        parameters=(
            Parameter(name="machine", label="Machine", unit="", low=1, high=4, step=1, start=4),
            Parameter(name="tests", label="Tests so far", unit="", low=0, high=7, step=1, start=1),
            Parameter(name="way", label="Way of choosing", unit="", low=1, high=2, step=1, start=1),
        ),
        prediction="bars_guess",
        source=(
            "The course's own fault table and planner, one fault each; each reading is the likeliest for its"
            " fault. Chances and minutes: common practice, no source; invented for teaching."
        ),
    ),
)

CARD = BenchCard(
    lead=(
        "Write down what was seen and when it happens, not what is thought. Count what is still possible."
        " Then take the test that saves most for each of its minutes, and halve what is left."
    ),
    rows=(
        ("evidence", "what a camera would have caught", "cold or hot, always or not"),
        ("chance after a reading", "have it and show it ÷ all that show it", "%"),
        ("two suspects, no test", "first + (1 − chance of first) × second", "min"),
        ("worth of a test", "minutes saved on average ÷ its own minutes", "above 1: do it"),
        ("chain", "probe where half of the chance lies on either side", "not half of the links"),
        ("order of checks", "chance ÷ minutes, largest first", "% a minute"),
    ),
    traps=(
        "The part most often replaced is a start, not a finding.",
        "Nine in ten of such faults show it: that is not nine tenths sure.",
        "One test that points at a part has not proven it. Prove it another way.",
        "The cheapest test first: only if it tells something.",
    ),
    cautions=("spark_near_fuel", "fuel_vapour", "high_voltage", "moving_parts"),
    sources=(
        "Counting: Bayes' rule. Order by chance over minutes: known of old, from memory.",
        "Chances and minutes of the fault table: common practice, no source.",
        "Order of tests for your machine: the maker's manual.",
    ),
)

LESSON = Lesson(
    number="10",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    exit_check=EXIT_CHECK,
    card=CARD,
)
