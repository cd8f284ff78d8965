"""Lesson 00, start here: how the course works, what can hurt you, what a whole job looks like."""

from __future__ import annotations

from twostroke import gap, units
from twostroke.lesson.content.m00.exit_check import EXIT_CHECK
from twostroke.lesson.content.m00.first_job import JOB
from twostroke.lesson.content.m00.questions import QUESTIONS
from twostroke.lesson.figures import start_here
from twostroke.lesson.outline import BenchCard, Figure, Lesson, Parameter
from twostroke.lesson.tasks import Before, Blank, Example, Ordering, Prediction, Slip

PREDICTIONS = (
    Prediction(
        id="verdict_guess",
        ask=(
            "An air gap should lie between 0.20 and 0.35 mm. You read 0.34 mm, and your leaves leave a doubt"
            " of 0.01 mm. What may you write down?"
        ),
        look="Set the reading to 0.34 mm and the doubt to 0.01 mm. Then make the doubt zero.",
        options=(
            "In: 0.34 is below 0.35",
            "Undecided: too close to the limit",
            "Out: 0.34 is nearly too much",
        ),
    ),
)

FIGURES = (
    Figure(
        id="band",
        title="A reading held against its band",
        draw=start_here.reading_in_band,
        parameters=(
            Parameter(name="reading", label="Reading", unit="mm", low=0.1, high=0.45, step=0.005, start=0.28),
            Parameter(
                name="doubt",
                label="Doubt of the reading",
                unit="mm",
                low=0,
                high=0.05,
                step=0.002,
                start=0.01,
            ),
        ),
        prediction="verdict_guess",
        source=(
            "Rule: guard band of 1.645 standard uncertainties (JCGM 106). The band 0.20 to 0.35 mm: common"
            " practice, no source; the maker's manual comes first."
        ),
    ),
)

EXAMPLES = (
    Example(
        id="reach_faded",
        title="A reading of 0.30 mm with a doubt of 0.02 mm; the band is 0.20 to 0.35 mm",
        lines=(
            "The reach on each side is 1.645 times the doubt.",
            Blank(
                id="reach",
                label="1.645 × 0.02 mm =",
                unit="mm",
                within=0.06,
                answer=lambda: 1.645 * units.read("0.02 mm"),
                say="0.033 mm on each side.",
                hint="Multiply the two, and write the unit with it.",
                slips=(
                    Slip(
                        gives=lambda: units.read("0.02 mm"),
                        believes="inside_is_always_good",
                        say=(
                            "That is the doubt itself. It covers about two repeats in three, not enough to"
                            " sign for."
                        ),
                    ),
                ),
            ),
            "So the true gap may lie anywhere from 0.267 to 0.333 mm.",
            Blank(
                id="verdict",
                label="The whole reach lies inside 0.20 to 0.35 mm, so the verdict is",
                options=("in", "out", "undecided"),
                answer=str(gap.judge("0.30 mm", "0.20 mm", "0.35 mm", "0.02 mm")),
                believes={"out": "undecided_is_bad", "undecided": "undecided_is_bad"},
                say="Both ends lie inside.",
                hint="Compare 0.333 mm with the upper limit 0.35 mm.",
            ),
        ),
    ),
    Example(
        id="reach_alone",
        title="A reading of 0.22 mm, doubt 0.02 mm, same band",
        stage="alone",
        lines=(
            Blank(
                id="verdict",
                label="Your verdict",
                options=("in", "out", "undecided"),
                answer=str(gap.judge("0.22 mm", "0.20 mm", "0.35 mm", "0.02 mm")),
                believes={"out": "undecided_is_bad", "in": "inside_is_always_good"},
                say="0.22 − 0.033 is 0.187 mm, below the lower limit. Measure more finely.",
                hint="Take 0.033 mm off the reading and compare with 0.20 mm.",
            ),
        ),
    ),
)

ORDERINGS = (
    Ordering(
        id="whole_job",
        ask="A trimmer will not start. Put the job in a sound order.",
        steps={
            "repair": "Repair the one thing that is wrong",
            "cheap": "Decide between spark, fuel, air, compression and exhaust with the cheapest tests",
            "verify": "Prove it: measure again, cold start, hot restart, stop switch",
            "complaint": "Ask the owner: cold or hot, sudden or slow, what was done last",
            "card": "Fill in the job card and tell the owner",
            "safe": "Make it safe: fuel, spark, moving parts",
            "split": "Inside the guilty system, measure until one part is left",
        },
        rules=(
            Before(
                first="safe",
                then="cheap",
                why="The first test already pulls the rope.",
                believes="no_start_no_danger",
            ),
            Before(
                first="complaint",
                then="cheap",
                why="What the owner knows costs nothing and saves tests.",
                believes="parts_first",
            ),
            Before(
                first="cheap",
                then="split",
                why="Know the system before you take it apart.",
                believes="parts_first",
            ),
            Before(
                first="split",
                then="repair",
                why="A part changed on a guess proves little.",
                believes="parts_first",
            ),
            Before(
                first="repair",
                then="verify",
                why="There is nothing to prove yet.",
                believes="it_started_so_fixed",
            ),
            Before(
                first="verify",
                then="card",
                why="The card says what was proven.",
                believes="it_started_so_fixed",
            ),
        ),
        done="Evidence and safety first, cheapest tests next, proof before paper.",
    ),
)

CARD = BenchCard(
    lead="Ask, make safe, test cheaply, measure, repair one thing, prove it, write it up.",
    rows=(
        ("reach of a reading", "1.645 × doubt on each side", "same unit as the reading"),
        ("in", "whole reach inside the band", "sign for it"),
        ("out", "whole reach outside the band", "act on it"),
        ("undecided", "reach crosses a limit", "measure more finely"),
        ("air gap", "leaf or shim with a light drag", "0.20 to 0.35 mm (common practice; manual first)"),
        ("before hands go near the blade", "boot off the plug, tied away", "every time"),
        ("after a spill", "wipe, rags outside, wait", "5 min before any spark"),
    ),
    traps=(
        "A dead machine can still turn, spark and start.",
        "The stop switch is not proven until you have seen it stop the spark.",
        "A reading just inside the band proves nothing when its reach crosses the limit.",
        "Typed is not saved, and saved is not handed in.",
    ),
    cautions=("fuel_vapour", "high_voltage", "moving_parts", "sudden_start", "hot_surface"),
    sources=("Verdict rule: JCGM 106.", "Air-gap band and cautions: common practice, no source."),
)

LESSON = Lesson(
    number="00",
    predictions=PREDICTIONS,
    figures=FIGURES,
    questions=QUESTIONS,
    examples=EXAMPLES,
    orderings=ORDERINGS,
    jobs=(JOB,),
    exit_check=EXIT_CHECK,
    card=CARD,
)
