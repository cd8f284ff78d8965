"""Lesson 09: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_wet",
        about="09",
        ask="The plug drips. What comes next?",
        go_back="the figure “What a plug's face proves”.",
        options=(
            Option(
                text="The tester, clamped away from the hole",
                right=True,
                say="Dark: ignition. Jumps: flooded, or the plug.",
            ),
            Option(
                text="The carburettor: too much fuel",
                say="Without spark, the right amount of fuel stays too.",
                believes="wet_plug_means_too_much_fuel",
            ),
            Option(
                text="A new plug, then it is ruled out",
                say="It gets as wet as the old one.",
                believes="new_plug_rules_out_plug",
            ),
        ),
    ),
    Question(
        id="x_clear",
        about="09",
        ask="While you pull to clear a flooded engine, where is the lead?",
        go_back="“Flooded: clear it”.",
        options=(
            Option(
                text="Beside the hole, switch at stop",
                say="Fuel mist leaves the hole, and the switch is not proven.",
                believes="open_hole_is_harmless",
            ),
            Option(
                text="Clamped, well away from the hole",
                right=True,
                say="Then no spark comes near the mist.",
            ),
            Option(
                text="Anywhere, if no fuel can be smelt",
                say="Noses tire, and the mist comes with the next turn.",
                believes="vapour_is_gone",
            ),
        ),
    ),
    Question(
        id="x_mix",
        about="09",
        ask="5.1 L of mixture at 50:1. How much oil is in it?",
        go_back="“An old can”.",
        options=(
            Option(text="100 mL", right=True, say="5 100 ÷ 51 parts."),
            Option(text="102 mL", say="The mixture has 51 parts, not 50.", believes="ratio_of_mix"),
            Option(text="2.55 L", say="50:1 is 2 per cent of the fuel.", believes="ratio_as_percent"),
            Option(text="5.0 L", say="That is the fuel.", believes="ratio_turned_round"),
        ),
    ),
    Question(
        id="x_stale",
        about="09",
        ask="Last year's fuel burns in a dish. Cold start with it?",
        go_back="“What a year takes from fuel”.",
        options=(
            Option(
                text="Yes: it burns.",
                say="In the cold cylinder it gives too little vapour, and wets the plug.",
                believes="stale_still_burns",
            ),
            Option(
                text="No: the light part has gone.",
                right=True,
                say="That part lights a cold engine. Drain it into a marked can and fill fresh mixture.",
            ),
            Option(
                text="Yes, with a little more oil.",
                say="Oil gives no vapour at all.",
                believes="more_oil_is_safer",
            ),
        ),
    ),
    Question(
        id="x_screen",
        about="09",
        ask="Screen out: 24 per cent faster. Screen in, leaner: 3 per cent faster. What was it?",
        go_back="“One thing at a time”.",
        options=(
            Option(
                text="Rich: the leaner screw helped too.",
                say="By 3 per cent only. The screen moved it by 24.",
                believes="screws_mend_anything",
            ),
            Option(
                text="The screen: clean it, and put it back.",
                right=True,
                say="And look where the soot came from.",
            ),
            Option(
                text="21 per cent are the screen's: 24 less 3.",
                say="Each change is held against the run as found.",
                believes="two_changes_at_once",
            ),
        ),
    ),
)
