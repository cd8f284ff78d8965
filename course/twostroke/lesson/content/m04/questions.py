"""Lesson 04: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="why_more",
        about="04",
        explains="demand",
        ask="Why did the plug ask for more as the pressure rose?",
        options=(
            Option(
                text="More air in the gap stops the electrons more often.",
                right=True,
                say="They need a stronger push between two bumps. It grew about threefold to 6 bar.",
            ),
            Option(
                text="Each bar asks for the same again, so six bar ask for six times.",
                say="Part grows with the pressure, part with its root only, and the charge is hot.",
                believes="pressure_in_proportion",
            ),
            Option(
                text="Only the length of the gap counts; pressure hardly does.",
                say="The length stayed the same while the demand tripled.",
                believes="one_term_enough",
            ),
        ),
    ),
    Question(
        id="why_wide",
        about="04",
        explains="tester",
        ask="The plug has 0.6 mm. Why must the tester be so much wider?",
        options=(
            Option(
                text="It jumps in thin open air, and from points, which is easier.",
                right=True,
                say="Only a wide gap in air asks for as much as a narrow one under compression.",
            ),
            Option(
                text="It need not: it should be set to the gap of the plug.",
                say="Then it asks for a third of what the plug does when it counts.",
                believes="plug_gap_on_tester",
            ),
            Option(
                text="A tester in open air always asks for less, however wide.",
                say="At 10 mm it asked for 12 kV, more than the plug at 6 bar.",
                believes="tester_always_low",
            ),
        ),
    ),
    Question(
        id="open_air_spark",
        about="04",
        ask="The plug lies on the cylinder and sparks at every pull. The engine is dead. What is proven?",
        options=(
            Option(
                text="That the module can give about 3 kV.",
                right=True,
                say="Under compression it needs about 10. A module that gives 5 shows just this picture.",
            ),
            Option(
                text="That the ignition is good, so look at the fuel.",
                say="Only a third of the demand was tested.",
                believes="open_air_spark_proves",
            ),
            Option(
                text="That a plug beside its open hole is a handy test.",
                say="Fuel mist is blown out of the hole, right past the spark. Cover the hole.",
                believes="open_hole_is_harmless",
            ),
        ),
    ),
    Question(
        id="in_line",
        about="04",
        ask="An in-line flash tester flashes at each pull. The plug is black and wet. What has it shown?",
        options=(
            Option(
                text="That current passed through the lead, no more.",
                right=True,
                say="A fouled plug lets it leak away without a spark, and the lamp still flashes.",
            ),
            Option(
                text="That the plug sparks.",
                say="The lamp sits in the lead. What happens at the far end it cannot see.",
                believes="inline_flash_proves",
            ),
            Option(
                text="That a new plug is not needed, or that a new one would settle it.",
                say="A new plug may be bad, or gapped wrongly. It has to be tested like the old one.",
                believes="new_plug_rules_out_plug",
            ),
        ),
    ),
    Question(
        id="new_plug",
        about="04",
        ask="The owner says: the plug is new, so it is not the plug. What do you do?",
        options=(
            Option(
                text="Look at it, check its gap, and fire it on a tester.",
                right=True,
                say="It may be cracked, fouled at the first flooding, or never gapped.",
            ),
            Option(
                text="Cross the plug off the list.",
                say="New only says when it was bought.",
                believes="new_plug_rules_out_plug",
            ),
            Option(
                text="Fire it once in open air; a spark there settles it.",
                say="It asks for 3 kV there, and for about 10 under compression.",
                believes="open_air_spark_proves",
            ),
        ),
    ),
    Question(
        id="small_tester",
        about="04",
        ask="A tester set to 3 mm jumps brightly. Is the ignition good?",
        options=(
            Option(
                text="Not proven: 3 mm asks for some 3.6 kV.",
                right=True,
                say="Set it to stand for the plug, then judge.",
            ),
            Option(
                text="Yes, it jumps.",
                say="It jumps what it was asked. A weak module does that too.",
                believes="any_jump_proves",
            ),
            Option(
                text="It can never be said; testers do not tell.",
                say="A gap that stands for the plug, jumped at every turn, does decide.",
                believes="undecided_is_safe",
            ),
        ),
    ),
    Question(
        id="clip",
        about="04",
        ask="The tester's clip is broken off. May you hold the tester against the fins by its lead?",
        options=(
            Option(
                text="No: first mend the clip, so that the current has a way back.",
                right=True,
                say="Clamped to bare metal, away from the plug hole. Then hands off.",
            ),
            Option(
                text="Yes, it works without a clip.",
                say="Then the high tension looks for a way of its own, perhaps through you.",
                believes="ground_is_optional",
            ),
            Option(
                text="Yes, such a small magneto only tickles.",
                say="The jerk can throw your hand into what is hot or turns, and hearts differ.",
                believes="shock_is_harmless",
            ),
        ),
    ),
    Question(
        id="pull_again",
        about="03",
        ask="The tester stays dark while you turn the flywheel by hand. What next?",
        options=(
            Option(
                text="A full, brisk pull, then judge.",
                right=True,
                say="Below some 460 rpm the demo module cannot make 8 kV.",
            ),
            Option(
                text="Order a module.",
                say="By hand no module of this kind fires.",
                believes="half_turn_is_full_pull",
            ),
            Option(
                text="Spin it with a drill at full speed.",
                say="That shows the best it can do, and hides a weak one.",
                believes="best_case_counts",
            ),
        ),
    ),
    Question(
        id="absolute_for_gap",
        about="01",
        ask="A gauge would show 5.4 bar at the coast. Which pressure goes into pd?",
        options=(
            Option(
                text="6.4 bar: gauge and air together.",
                right=True,
                say="All the air in the gap counts, so the pressure is absolute.",
            ),
            Option(
                text="5.4 bar, as read.",
                say="The gauge leaves out the air that was there before.",
                believes="gauge_is_absolute",
            ),
            Option(
                text="4.4 bar: the air taken off.",
                say="Gauge pressure has no air in it that could be taken off.",
                believes="subtract_for_absolute",
            ),
        ),
    ),
    Question(
        id="higher_closing",
        about="02",
        ask="The exhaust roof is filed higher. What happens to what the plug asks for at the same advance?",
        options=(
            Option(
                text="It falls: squeezing begins later, so less pressure.",
                right=True,
                say="A higher roof shuts later on the way up. Less is trapped.",
            ),
            Option(
                text="Nothing: the stroke is the same.",
                say="Only the part after the exhaust shuts squeezes.",
                believes="stroke_as_port_closing_stroke",
            ),
            Option(
                text="Nothing: the geometric ratio is the same.",
                say="It is, but the trapped ratio is what makes the pressure.",
                believes="geometric_as_trapped",
            ),
        ),
    ),
)
