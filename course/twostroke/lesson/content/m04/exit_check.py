"""Lesson 04: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_share",
        about="04",
        ask="A spark across the plug in open air proves about which part of the demand?",
        go_back="“Asked for and given”: compare ◇ with ● at 6 bar.",
        options=(
            Option(text="A third", right=True, say="About 3 of about 10 kV."),
            Option(
                text="All of it", say="Air in the cylinder is far denser.", believes="open_air_spark_proves"
            ),
            Option(
                text="A sixth", say="It does not grow by the pressure.", believes="pressure_in_proportion"
            ),
        ),
    ),
    Question(
        id="x_hot",
        about="04",
        ask="5.0 bar absolute at 140 °C. As dense as which pressure at 20 °C?",
        go_back="the example “Plug gap 0.60 mm”, first step.",
        options=(
            Option(text="3.5 bar", right=True, say="5.0 × 293 ÷ 413."),
            Option(text="0.7 bar", say="That divides Celsius by Celsius.", believes="celsius_as_kelvin"),
            Option(text="5.0 bar", say="The charge is hot, so thinner.", believes="temperature_left_out"),
        ),
    ),
    Question(
        id="x_tester",
        about="04",
        ask="Which tester setting stands for a plug of 0.6 mm at 6 bar?",
        go_back="“A tester that stands for the plug”.",
        options=(
            Option(text="About 8 mm, with points", right=True, say="It asks for about 9.5 kV."),
            Option(text="0.6 mm", say="In air that is 3 kV.", believes="plug_gap_on_tester"),
            Option(
                text="None in open air", say="Wide enough, it asks for as much.", believes="tester_always_low"
            ),
            Option(text="Any that jumps", say="A small gap asks for little.", believes="any_jump_proves"),
        ),
    ),
    Question(
        id="x_verdict",
        about="04",
        ask="The plug asks for 9.9 kV, good to 30 %. The module gives 10.5 kV at the pull. What do you say?",
        go_back="“When a margin decides”.",
        options=(
            Option(
                text="It cannot be said; repeat or test another way",
                right=True,
                say="10.5 lies between 6.9 and 12.9 kV. Either is possible.",
            ),
            Option(
                text="It sparks: 10.5 is more than 9.9",
                say="At best. The plug may ask for up to 12.9 kV.",
                believes="best_case_counts",
            ),
            Option(
                text="It cannot be said; nor could it with 20 kV",
                say="20 kV is far above 12.9. That would decide.",
                believes="undecided_is_safe",
            ),
        ),
    ),
    Question(
        id="x_flash",
        about="04",
        ask="What does a flash of an in-line flash tester prove?",
        go_back="“Three tests and what they prove”.",
        options=(
            Option(text="Current in the lead", right=True, say="It may end in a spark, or in soot."),
            Option(
                text="A spark at the plug", say="A fouled plug leaks it away.", believes="inline_flash_proves"
            ),
            Option(
                text="A good plug, if it is new",
                say="New is not tested.",
                believes="new_plug_rules_out_plug",
            ),
        ),
    ),
)
