"""Lesson 13, scenarios: five machines on the bench, one worked, two faded, two alone."""

from __future__ import annotations

from twostroke.lesson.content.m13.examples import EXAMPLES
from twostroke.lesson.content.m13.exit_check import EXIT_CHECK
from twostroke.lesson.content.m13.questions import QUESTIONS
from twostroke.lesson.figures import whole_job
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Prediction

PREDICTIONS = (
    Prediction(
        id="ways_guess",
        ask="By habit, the pump gets a new plug, a new module, and then the rest. What does that cost beside"
        " testing first?",
        look="Go through the job by tests, step by step. Then set the way to 1 and go through it again. When"
        " do the bars change, and when do they not?",
        options=("About the same, tests take time too", "Half as much again", "More than three times"),
    ),
)

FIGURES = (
    Figure(
        id="ways",
        title="One machine, two ways",
        draw=whole_job.job_step_by_step,
        parameters=(
            Parameter(name="step", label="Steps done", unit="", low=0, high=whole_job.MOST, step=1, start=2),
            Parameter(name="way", label="Way: 0 tests, 1 habit", unit="", low=0, high=1, step=1, start=0),
        ),
        prediction="ways_guess",
        source=(
            "The course's virtual bench; chances counted over its fault table, a teaching estimate (common"
            " practice, no source). Machine, minutes and prices are invented."
        ),
    ),
)

CARD = BenchCard(
    lead=(
        "Listen, make safe, split with the test that tells most for its minutes, prove with a second reading"
        " of another kind, mend that one thing, prove the machine in the state of the complaint."
    ),
    rows=(
        ("first", "owner's words: when, since when, what was done last", "1 min each"),
        ("then", "spark with a known-good plug: yes or no", "parts spark from fuel, 2 min"),
        ("next test", "what it parts ÷ its minutes", "not the cheapest, not the surest"),
        ("before a part", "two readings of different kinds name it", "else one more test"),
        ("proof", "verify run in the state of the complaint", "after the last repair"),
        ("price of a guess", "part + fitting + the run that shows it was none", "add it up"),
    ),
    traps=(
        "The part most often changed is not the likeliest here: the readings on this machine count.",
        "A test that could not change what you do next is a detour.",
        "A repair that changed nothing is a reading too. Write it down and take it back out.",
        "A second fault can hide behind the first: still dead after a proven repair means go on testing.",
    ),
    cautions=("sudden_start", "moving_parts", "spark_near_fuel", "high_voltage"),
    sources=(
        "Worth of a test: the course's planner on its fault table, a teaching estimate.",
        "Order of tests and verify run: common practice, no source.",
    ),
    figure="ways",
)

LESSON = Lesson(
    number="13",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    exit_check=EXIT_CHECK,
    card=CARD,
)
