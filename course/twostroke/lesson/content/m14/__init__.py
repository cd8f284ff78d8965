"""Lesson 14, final bench: what the examination asks, what it marks, and a rehearsal without help."""

from __future__ import annotations

from twostroke.lesson.content.m14.exit_check import EXIT_CHECK
from twostroke.lesson.content.m14.orders import ORDERINGS
from twostroke.lesson.content.m14.questions import QUESTIONS
from twostroke.lesson.figures import score
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="earn_guess",
        ask="Which of these costs a good route most?",
        look="Start from 81. Try each fault alone: four needless looks, then none and two parts on a guess,"
        " then no verify run, then a missed caution.",
        options=(
            "Four needless looks",
            "A module fitted on a guess",
            "No verify run",
            "One caution missed",
        ),
    ),
)

FIGURES = (
    Figure(
        id="earns",
        title="What a route earns",
        draw=score.what_a_route_earns,
        parameters=(
            Parameter(name="looks", label="Needless looks", unit="", low=0, high=4, step=1, start=0),
            Parameter(name="guesses", label="Parts on a guess", unit="", low=0, high=2, step=1, start=0),
            Parameter(name="verified", label="Verify run: 0 no, 1 yes", unit="", low=0, high=1, step=1,
                      start=1),
            Parameter(name="kept", label="Cautions: 0 one missed, 1 all kept", unit="", low=0, high=1,
                      step=1, start=1),
        ),
        prediction="earn_guess",
        source=(
            "The course's score on its virtual bench: 100 is the planner's route on average, 0 is testing at"
            " random, luck taken out. Machine, minutes and prices are invented."
        ),
    ),
)  # fmt: skip

CARD = BenchCard(
    lead=(
        "Before each step say three things: what can hurt here, what this step will part, what I do next for"
        " each answer. If the third is the same for all, leave the step out."
    ),
    rows=(
        ("passed", "all cautions kept, proven, score from 70 on", "the three together"),
        ("no proof", "at most 60", "verify run in the state of the complaint"),
        ("a caution missed", "not passed", "whatever comes after"),
        ("part on a guess", "its price, its minutes, and a run", "below an even chance: test on"),
        ("how sure", "as often as you would be right in ten such jobs", "80 %: eight of ten"),
    ),
    traps=(
        "The bench does not remind you: name each caution yourself, before the step.",
        "Ohms in band, a flash in the lead, a spark in open air: none of them is a proof.",
        "Hand back only what has run in the state of the complaint and stopped by its switch.",
    ),
    cautions=("fuel_vapour", "spark_near_fuel", "high_voltage", "moving_parts", "sudden_start"),
    sources=(
        "Score and pass mark: set by the course; common practice, no source.",
        "Cautions: the usual ones of the trade. The maker's manual and local rules come first.",
    ),
    figure="earns",
)

LESSON = Lesson(
    number="14",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=(),
    orderings=ORDERINGS,
    exit_check=EXIT_CHECK,
    card=CARD,
)
