"""Lesson 12, repair, verify, write up, pass on: the second half of every job."""

from __future__ import annotations

from twostroke.lesson.content.m12.examples import EXAMPLES
from twostroke.lesson.content.m12.exit_check import EXIT_CHECK
from twostroke.lesson.content.m12.orders import ORDERINGS
from twostroke.lesson.content.m12.questions import QUESTIONS
from twostroke.lesson.figures import repair
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="moved_guess",
        ask="A shim of 0.30 mm, in the middle of the band. Of 200 careful jobs, how many end outside it?",
        look="Set “measured again” to 1. Then go through a few jobs. Last, try a shim of 0.25 mm.",
        options=("None, a shim is a shim", "About 1 in 6", "About half"),
    ),
    Prediction(
        id="card_guess",
        ask="A saw died hot. The new module is in, and it starts cold. May the card say “fixed”?",
        look="Move the two sliders until every line holds. Which of the two is missed more often?",
        options=("Yes, it runs", "No, not with what is on it", "Yes, if the ohms were noted"),
    ),
    Prediction(
        id="bill_guess",
        ask="35 min to find, 20 to mend, 25 to prove, parts 48. The rate is 60 an hour. What is the total?",
        look="Take the proving away. Then let it take an hour. Last, lower the price of a like machine.",
        options=("About 70: mending and the part", "About 130: all the time, and the part", "About 160"),
    ),
)

FIGURES = (
    Figure(
        id="moved",
        title="The gap after tightening",
        draw=repair.gap_after_tightening,
        parameters=(
            Parameter(name="again", label="Measured again", unit="", low=0, high=1, step=1,
                      start=0),
            Parameter(name="job", label="Job to look at", unit="", low=1, high=20, step=1, start=4),
            Parameter(name="shim", label="Shim", unit="mm", low=0.2, high=0.4, step=0.01, start=0.3),
        ),
        prediction="moved_guess",
        source=(
            "How far a module moves is invented; that it moves is common practice, no source. The maker's"
            " manual gives your band."
        ),
    ),
    Figure(
        id="card_check",
        title="A job card held against its readings",
        draw=repair.card_held_against_readings,
        parameters=(
            Parameter(name="readings", label="Readings noted", unit="",
                      low=0, high=2, step=1, start=1),
            Parameter(name="runs", label="Verify runs", unit="", low=0, high=2,
                      step=1, start=1),
        ),
        prediction="card_guess",
        source="The course's own check of job cards. Its rules: common practice, no source.",
    ),
    Figure(
        id="bill",
        title="Estimate and advice",
        draw=repair.estimate_and_advice,
        parameters=(
            Parameter(name="proving", label="Proving", unit="min", low=0, high=120, step=5, start=25),
            Parameter(name="finding", label="Finding", unit="min", low=0, high=120, step=5, start=35),
            Parameter(name="mending", label="Mending", unit="min", low=0, high=120, step=5, start=20),
            Parameter(name="parts", label="Parts", unit="", low=0, high=150, step=2, start=48),
            Parameter(name="like", label="A like machine costs", unit="", low=50, high=700, step=10,
                      start=300),
        ),
        prediction="bill_guess",
        source=(
            "Rates and prices are invented. Repair up to half of a like machine, advise against it from"
            " four fifths on: common practice, no source."
        ),
    ),
)  # fmt: skip

CARD = BenchCard(
    lead=(
        "Mend in an order in which no step is done twice. Prove it in the state in which it failed. Write"
        " down what you read, did and proved. Tell the owner, and the next one at the bench."
    ),
    rows=(
        ("gap", "measured after tightening, both legs", "0.25 to 0.35 mm here; the manual's band first"),
        ("torque", "1 in·lb = 0.113 N·m", "the maker's figure, screws begun by hand"),
        ("verified", "cold; in the state of the complaint; stop switch", "after the last repair"),
        ("labour", "rate × all minutes ÷ 60", "finding, mending and proving"),
        ("total", "(labour + parts + supplies) × (1 + tax)", "your shop's figures"),
        ("worth it", "total ÷ price of a like machine", "to 50 % repair, from 80 % advise against"),
    ),
    traps=(
        "“It started” is not “it is fixed”: run it as it was when it failed.",
        "1:20 h is 80 minutes, not 1.20 h.",
        "A number without unit, instrument and state helps nobody after you.",
        "The stop lead was off: prove that the switch stops it, before anything else.",
    ),
    cautions=("sudden_start", "moving_parts", "spark_near_fuel", "hot_surface"),
    sources=(
        "1 lbf = 4.448 N, 1 in = 25.4 mm exactly (NIST SP 811).",
        "Order of work, verify list and shares: common practice, no source. Prices invented.",
    ),
    figure="moved",
)

LESSON = Lesson(
    number="12",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    orderings=ORDERINGS,
    exit_check=EXIT_CHECK,
    card=CARD,
)
