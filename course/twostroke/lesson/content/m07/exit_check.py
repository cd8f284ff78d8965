"""Lesson 07: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_first",
        about="07",
        ask="No spark at run. What splits the system best, for the fewest minutes?",
        go_back="“Split it first”.",
        options=(
            Option(text="A new module", say="It is dear, and proves little.", believes="module_first"),
            Option(
                text="Stop lead off, then test again",
                right=True,
                say="Spark back: lead or switch. None: the other half.",
            ),
            Option(
                text="Ohms of both windings",
                say="In band they would prove little.",
                believes="resistance_in_band_proves",
            ),
        ),
    ),
    Question(
        id="x_run_stop",
        about="07",
        ask="Stop lead off at the module, meter from its end to metal. What must it show?",
        go_back="the figure “A meter on a stop circuit”.",
        options=(
            Option(
                text="Over range at run and at stop",
                say="Then the engine cannot be stopped.",
                believes="no_continuity_is_good",
            ),
            Option(
                text="Over range at run, near nought at stop",
                right=True,
                say="Open lets it spark, closed stops it.",
            ),
            Option(
                text="The sum of winding and switch",
                say="With its end off, the lead has no winding in it.",
                believes="parallel_as_series",
            ),
        ),
    ),
    Question(
        id="x_leak",
        about="07",
        ask="A wet switch reads 40 Ω at run. Can it stop the spark?",
        go_back="“Half a leak is enough”.",
        options=(
            Option(
                text="Yes: it drains the kick of the primary.",
                right=True,
                say="Some tens of ohms take about half of the voltage.",
            ),
            Option(
                text="No: it takes nought ohms to stop a spark.",
                say="Look at the curve once more.",
                believes="leak_must_be_short",
            ),
        ),
    ),
    Question(
        id="x_ground",
        about="07",
        ask="A module was screwed onto paint. What happens?",
        go_back="“The way back”.",
        options=(
            Option(
                text="Nothing: the lead carries the spark out, and that is enough.",
                say="What goes out must come back.",
                believes="ground_is_optional",
            ),
            Option(
                text="Spark gone, or now and then: its way back is poor.",
                right=True,
                say="Bare, clean, tight. Then core to metal reads near nought.",
            ),
        ),
    ),
    Question(
        id="x_turn",
        about="07",
        ask="You look for a chafe with the meter on the stop lead, its end off. What do you move?",
        go_back="“Before the meter goes on”.",
        options=(
            Option(
                text="The flywheel, with the probes on the module",
                say="The magnet's pass gives hundreds of volts there.",
                believes="meter_while_turning",
            ),
            Option(
                text="The lead, bit by bit, with the flywheel at rest",
                right=True,
                say="The reading jumps where the metal shines through.",
            ),
            Option(
                text="Nothing: set the switch to stop and feel along the lead",
                say="The switch does not make anything safe that you have not proven.",
                believes="switch_is_enough",
            ),
        ),
    ),
)
