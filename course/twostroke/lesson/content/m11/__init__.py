"""Lesson 11, intermittent and heat-dependent faults: make it fail, count, and prove that it is gone."""

from __future__ import annotations

from twostroke.lesson.content.m11.examples import EXAMPLES
from twostroke.lesson.content.m11.exit_check import EXIT_CHECK
from twostroke.lesson.content.m11.orders import ORDERINGS
from twostroke.lesson.content.m11.questions import QUESTIONS
from twostroke.lesson.figures import comes_and_goes
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="soak_guess",
        ask="It died on the job. You carry it in, and pull 30 minutes after that. What does the tester do?",
        look=(
            "Pull after 30 minutes, then after 2. Where is the last dark pull? Then let the joint open at 60"
            " °C. Last, 20 minutes of running and a joint that opens at 88 °C."
        ),
        options=(
            "It stays dark: the module is bad",
            "It flashes as if nothing were wrong",
            "It flashes weakly",
        ),
    ),
    Prediction(
        id="clean_guess",
        ask="It failed one start in three. After a repair three starts go well. How far is that a proof?",
        look=(
            "Go from 0 to 10 clean starts at 33 of 100. Then let it fail 10 of 100. Last, change the doubt"
            " before."
        ),
        options=(
            "It is one: one in three would have shown by now",
            "A fault still there would pass three in about 30 of 100 cases",
            "No proof at all, ever",
        ),
    ),
)

FIGURES = (
    Figure(
        id="soak",
        title="A module that fails hot",
        draw=comes_and_goes.heat_soak,
        parameters=(
            Parameter(
                name="run", label="The owner wants to run", unit="min", low=2, high=20, step=1, start=15
            ),
            Parameter(name="opens", label="Joint opens at", unit="degC", low=50, high=100, step=1, start=80),
            Parameter(
                name="after", label="You pull, after it stopped", unit="min", low=0, high=60, step=1, start=30
            ),
        ),
        prediction="soak_guess",
        source=(
            "Heat and ignition of the virtual bench, demo engine A, tester at 6 mm; the fan stands still once"
            " it has stopped. All figures invented."
        ),
    ),
    Figure(
        id="clean",
        title="How many clean starts",
        draw=comes_and_goes.clean_starts,
        parameters=(
            Parameter(
                name="fails", label="Of 100 starts it fails", unit="", low=5, high=90, step=1, start=33
            ),
            Parameter(name="clean", label="Clean starts in a row", unit="", low=0, high=40, step=1, start=3),
            Parameter(
                name="doubt", label="Doubt before, per cent", unit="", low=5, high=95, step=5, start=50
            ),
        ),
        prediction="clean_guess",
        source=(
            "Product of independent chances, and Bayes' rule, 1763. Heat and fuel carry over from start to"
            " start, so it is a guide."
        ),
    ),
)

CARD = BenchCard(
    lead=(
        "Nothing is proven until it has failed on your bench. Ask what is the same each time, bring that"
        " about, and watch the one reading that tells two suspects apart."
    ),
    rows=(
        ("fails hot", "run it, test at that moment", "minutes count: it cools"),
        ("fails shaken", "move lead, boot, stop lead, while it is pulled", "which one makes it dark"),
        ("fails damp", "mist lead and boot, in the dark", "where the sparks run"),
        ("fails for some people", "slow pull, then fast", "from which speed on"),
        ("how often", "failed ÷ all", "%, in its bad condition"),
        ("all n clean, fault there", "(1 − chance of failing) to the power n", "below 5 %: enough"),
        ("copper, hot", "R at 20 °C × (1 + 0.00393 × (t − 20))", "more: opens; less: shorts"),
        ("doubt left", "doubt × hides ÷ (doubt × hides + 1 − doubt)", "%"),
    ),
    traps=(
        "It started, so it is fixed: it started before the repair, too.",
        "Chances do not add up. One in five is not certain after five.",
        "Two changes at once: you will not know which one cured it.",
        "Warm a module only off the machine, away from fuel, never with a flame.",
    ),
    cautions=("hot_surface", "fuel_vapour", "high_voltage", "moving_parts"),
    sources=(
        "Copper: 0.00393 a degree, IEC 60028, from memory. Counting: product of chances, Bayes' rule.",
        "5 per cent as enough, and the order of a heat test: common practice, no source.",
        "How hot a module may get: the maker's manual.",
    ),
)

LESSON = Lesson(
    number="11",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    orderings=ORDERINGS,
    exit_check=EXIT_CHECK,
    card=CARD,
)
