"""Lesson 09: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="why_wet",
        about="09",
        explains="plug",
        ask="Wet plug, tester dark: over 900 of 1 000 faults lie in the ignition. Why so many?",
        options=(
            Option(
                text="Fuel came in, and nothing lit it.",
                right=True,
                say="The fuel side has done its work. The tester tells where to look.",
            ),
            Option(
                text="Too much fuel puts out every spark, on the tester too.",
                say="The tester's gap hangs outside in dry air. The fuel in the cylinder cannot reach it.",
                believes="wet_plug_means_too_much_fuel",
            ),
            Option(
                text="The plug is old: a new one would be dry.",
                say="A new plug gets as wet, and the tester stays dark with it too.",
                believes="new_plug_rules_out_plug",
            ),
        ),
    ),
    Question(
        id="new_wet",
        about="09",
        ask="Plug wet, tester jumps. You fit a new plug, pull ten times: nothing. Is the plug ruled out?",
        options=(
            Option(
                text="Yes, it is new.",
                say="In the flooded cylinder it was wet after the first pulls, like the old one.",
                believes="new_plug_rules_out_plug",
            ),
            Option(
                text="No: the flood wetted it as well.",
                right=True,
                say="Clear the engine. Then see a dry plug spark on the lead before you trust it.",
            ),
            Option(
                text="Yes, so now the mixture screws.",
                say="No screw has moved by itself. First clear the flood.",
                believes="screws_mend_anything",
            ),
        ),
    ),
    Question(
        id="white_plug",
        about="09",
        ask="A chalky white plug with tiny blisters. What does it suggest?",
        options=(
            Option(
                text="A clean engine that burns well.",
                say="Burning well leaves light brown. White with blisters has been too hot.",
                believes="white_is_clean",
            ),
            Option(
                text="Too little fuel, or false air: look before it seizes.",
                right=True,
                say="A pressure hold of the crankcase, and the fuel's way from the tank on.",
            ),
            Option(
                text="Fresh fuel with a little more oil than needed.",
                say="Oil blackens. It does not bleach.",
                believes="more_oil_is_safer",
            ),
        ),
    ),
    Question(
        id="why_choke",
        about="09",
        explains="pulls",
        ask="At 20 °C, choke open from the start: no pull could burn, and the plug stayed dry. Why?",
        options=(
            Option(
                text="Cold, too little of the fuel turns to vapour.",
                right=True,
                say="The closed choke draws more fuel, so that enough vapour is left. Warm, it is too much.",
            ),
            Option(
                text="The plug is too old for a cold day: fit a new one.",
                say="There is no spark in this figure at all. No part changes what turns to vapour.",
                believes="parts_first",
            ),
            Option(
                text="The mixture screws are set too lean for a cold day.",
                say="They were right. The same engine burns at 60 °C with the same screws.",
                believes="screws_mend_anything",
            ),
        ),
    ),
    Question(
        id="why_stale",
        about="09",
        explains="pulls",
        ask="With 40 per cent of the light part, choke closed, the pulls are hardly rich enough, yet the plug"
        " gets wet sooner. Why?",
        options=(
            Option(
                text="More fuel came in than before.",
                say="The carburettor gave the same. What turned to vapour was less.",
                believes="wet_plug_means_too_much_fuel",
            ),
            Option(
                text="What does not turn to vapour stays liquid and wets the plug.",
                right=True,
                say="Lean and wet at once: that is old fuel in a cold engine.",
            ),
            Option(
                text="It burns in a dish, so it must have burnt here too.",
                say="There was no spark here. And a dish is warm, with time.",
                believes="stale_still_burns",
            ),
        ),
    ),
    Question(
        id="starved_next",
        about="09",
        ask="It runs five minutes and dies slowly. Plug dry, tester jumps. What do you test first?",
        options=(
            Option(
                text="Cool, open the cap slowly: a hiss?",
                right=True,
                say="A shut vent holds the fuel back. Then filter, line, and last the carburettor.",
            ),
            Option(
                text="Turn the mixture one turn richer.",
                say="If it then runs, you have two faults: the old one, and the screw.",
                believes="screws_mend_anything",
            ),
            Option(
                text="A new carburettor: it is the usual part.",
                say="It is the last place on the fuel's way, and the dearest.",
                believes="common_is_likely_here",
            ),
        ),
    ),
    Question(
        id="spill_oil",
        about="01",
        ask="Mixture was spilt on the bench. It holds oil. Where is the danger?",
        options=(
            Option(
                text="Little: the oil in it calms the fuel and holds its vapour.",
                say="Two to four parts in a hundred change the vapour hardly at all.",
                believes="oil_calms_fuel",
            ),
            Option(
                text="In the vapour: it runs low, to the next spark.",
                right=True,
                say="Wipe, rag outdoors, wait, then work.",
            ),
            Option(
                text="Up at the lamp: vapour rises.",
                say="It is heavier than air and gathers low down.",
                believes="vapour_rises",
            ),
            Option(
                text="Only in the wet spot.",
                say="What burns is the vapour, and it goes where it likes.",
                believes="only_liquid_burns",
            ),
        ),
    ),
    Question(
        id="gallon_again",
        about="01",
        ask="A can of one imperial gallon, 4.55 L, mixed at 50:1. How much oil?",
        options=(
            Option(text="91 mL", right=True, say="4 546 ÷ 50."),
            Option(
                text="76 mL, the same as for any gallon",
                say="That is for a US gallon of 3.785 L.",
                believes="gallon_is_gallon",
            ),
            Option(
                text="About 2.3 L",
                say="50:1 is not 50 per cent.",
                believes="ratio_as_percent",
            ),
            Option(
                text="A little over 91 mL, to be safe",
                say="More oil fouls the plug and closes the screen.",
                believes="more_oil_is_safer",
            ),
        ),
    ),
    Question(
        id="port_again",
        about="02",
        ask="The exhaust port opens 102° after the top. For how many degrees of a turn is it open?",
        options=(
            Option(text="156°", right=True, say="From 102° down to 102° up again: 360 − 2 × 102."),
            Option(
                text="204°",
                say="That is how long it is shut.",
                believes="closed_part_counted",
            ),
            Option(
                text="78°",
                say="That is the way down only. It stays open as long on the way up.",
                believes="one_side_only",
            ),
        ),
    ),
    Question(
        id="blowdown_again",
        about="02",
        ask="Exhaust opens at 102°, transfers at 114°. Soot moves the exhaust's opening to 108°. Blowdown?",
        options=(
            Option(
                text="It falls from 12° to 6°.",
                right=True,
                say="Burnt gas then meets the fresh charge. So an engine choked by its own soot loses power.",
            ),
            Option(
                text="It falls from 24° to 12°, both sides.",
                say="That counts both sides. Blowdown is on the way down only.",
                believes="blowdown_both_ways",
            ),
            Option(
                text="Nothing changes: the port is open on both sides.",
                say="On the way down it now opens 6° later.",
                believes="one_side_only",
            ),
        ),
    ),
    Question(
        id="hill_again",
        about="08",
        ask="At 1 500 m the same carburettor draws thinner air. What happens to mixture and gauge?",
        options=(
            Option(
                text="The mixture gets richer, and the compression gauge falls with the air.",
                right=True,
                say="Less air for the same fuel. And each bar of the reading is made of that air.",
            ),
            Option(
                text="Nothing: sound is sound at any height.",
                say="There are 17 parts in a hundred less air.",
                believes="sea_level_everywhere",
            ),
            Option(
                text="The gauge loses only the 0.17 bar of the air.",
                say="The whole reading falls in step.",
                believes="difference_for_ratio",
            ),
        ),
    ),
)
