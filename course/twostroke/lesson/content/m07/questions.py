"""Lesson 07: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="why_low",
        about="07",
        explains="circuit",
        ask="Switch at run, so open. Why did the meter still show about one ohm?",
        options=(
            Option(
                text="It saw the winding: from terminal through the primary to the core and to metal.",
                right=True,
                say="So measure the stop lead with its end off the module, point 2, and the winding alone.",
            ),
            Option(
                text="The switch leaks; it must be replaced.",
                say="On machine 1 it is sound. Take the lead off and look at point 2.",
                believes="parts_first",
            ),
            Option(
                text="It was the meter's leads, which never count.",
                say="They do count, and here they were taken off. The ohm is the winding.",
                believes="lead_resistance_ignored",
            ),
        ),
    ),
    Question(
        id="both_open",
        about="07",
        ask="Stop lead off, meter from its end to metal: over range at run, and over range at stop. Good?",
        options=(
            Option(
                text="Yes: no reading, no fault.",
                say="At stop it must be closed. This engine will spark, and not stop.",
                believes="no_continuity_is_good",
            ),
            Option(
                text="No: at stop it should be near nought. The lead or the switch is broken.",
                right=True,
                say="Machine 4 in the figure. It starts well, and the switch does not stop it.",
            ),
            Option(
                text="Yes: the switch is at stop, so hands are safe.",
                say="This switch stops nothing.",
                believes="switch_is_enough",
            ),
        ),
    ),
    Question(
        id="why_leak",
        about="07",
        explains="leak",
        ask="Why does a leak of some tens of ohms cost so much, when it is no short at all?",
        options=(
            Option(
                text="At opening, the primary kicks to hundreds of volts; the leak drains that kick.",
                right=True,
                say="Hundreds of volts across tens of ohms is a large current, taken from the spark.",
            ),
            Option(
                text="It does not: only a dead short stops a spark.",
                say="Look at 30 Ω: the plug gets about half of what it could.",
                believes="leak_must_be_short",
            ),
            Option(
                text="It adds to the winding's ohms, so less current flows before.",
                say="A path beside the winding lowers the ohms. It does not add to them.",
                believes="parallel_as_series",
            ),
        ),
    ),
    Question(
        id="lead_off_spark",
        about="07",
        ask="Stop lead off: spark at every pull. Stop lead on: none. What is proven?",
        options=(
            Option(
                text="The module is weak: a good one would spark anyway.",
                say="No module sparks with its primary led to ground.",
                believes="module_first",
            ),
            Option(
                text="The fault lies in stop lead or switch.",
                right=True,
                say="Measure each alone, with the flywheel at rest.",
            ),
            Option(
                text="Nothing, until the ohms of the module are in band.",
                say="It has sparked. That is more than ohms can prove.",
                believes="resistance_in_band_proves",
            ),
        ),
    ),
    Question(
        id="inline_again",
        about="04",
        ask="The in-line flash tester flashes at each pull, yet the engine is dead. Is the plug sparking?",
        options=(
            Option(
                text="Not proven: a cracked or fouled plug leads the current away without a spark.",
                right=True,
                say="Put a tester that stands for the plug on the lead, then look at the plug.",
            ),
            Option(
                text="Yes: a flash is a spark.",
                say="A flash is current in the lead. Where it goes, it does not say.",
                believes="inline_flash_proves",
            ),
            Option(
                text="Yes: it also jumps the plug's gap in open air.",
                say="Under compression the gap asks for about three times as much.",
                believes="open_air_spark_proves",
            ),
            Option(
                text="It cannot be tested, the tester has no clip to the engine.",
                say="An in-line flash tester goes back through the plug. A gap tester needs its clip.",
                believes="ground_is_optional",
            ),
        ),
    ),
    Question(
        id="warm_again",
        about="06",
        ask="A primary at 60 °C is brought to 20 °C. By which figure do you divide?",
        options=(
            Option(text="1 + 40 × 0.00393 = 1.157", right=True, say="40 degrees above 20."),
            Option(
                text="1 + 60 × 0.00393 = 1.236",
                say="The copper figure counts from 20 °C.",
                believes="whole_temperature",
            ),
            Option(
                text="1: a winding can be judged as it comes off the job",
                say="It reads 16 per cent more than at 20 °C.",
                believes="hot_is_no_matter",
            ),
        ),
    ),
    Question(
        id="guard_again",
        about="06",
        ask="A meter's accuracy figure comes to 50 Ω for a reading. How wide is the guard band, one side?",
        options=(
            Option(
                text="50 Ω",
                say="That is a limit. First divide by √3, then take it 1.645 times.",
                believes="limit_is_uncertainty",
            ),
            Option(text="About 47 Ω", right=True, say="50 ÷ 1.732 × 1.645 = 47.5 Ω."),
            Option(
                text="Nought, inside the band is inside",
                say="Then a reading just inside would count as proof.",
                believes="inside_is_always_good",
            ),
        ),
    ),
    Question(
        id="legs_again",
        about="05",
        ask="Band of the air gap 0.25 to 0.35 mm. Left leg 0.28 mm, right leg 0.30 mm. In?",
        options=(
            Option(
                text="No: together they are 0.58 mm.",
                say="The band is for one gap. Each leg is held against it.",
                believes="sum_as_mean",
            ),
            Option(text="Yes: each leg lies in the band.", right=True, say="0.28 and 0.30 mm, both inside."),
            Option(
                text="Yes, and the right leg need not be measured.",
                say="A module can stand askew.",
                believes="one_leg_enough",
            ),
        ),
    ),
)
