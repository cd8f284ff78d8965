"""Lesson 08: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_hill",
        about="08",
        ask="Limit 8.0 bar at sea level. Your air has 0.80 of that at sea level. The limit here?",
        go_back="“Up the hill”.",
        options=(
            Option(text="6.4 bar", right=True, say="The limit falls in step with the air."),
            Option(text="8.0 bar", say="That is for the coast.", believes="sea_level_everywhere"),
            Option(
                text="7.8 bar",
                say="Each bar in the cylinder has lost a fifth, not only the last one.",
                believes="difference_for_ratio",
            ),
        ),
    ),
    Question(
        id="x_steady",
        about="08",
        ask="After two pulls the gauge shows 60 psi. What do you do?",
        go_back="the figure “A gauge pumped up at an altitude”.",
        options=(
            Option(
                text="Write 60 psi: too low.",
                say="A good engine shows that too after two pulls.",
                believes="half_turn_is_full_pull",
            ),
            Option(
                text="Go on until the needle is steady.",
                right=True,
                say="Six to ten pulls, throttle and choke fully open, decompression valve shut.",
            ),
            Option(
                text="Add the air, and write 74.5 psi.",
                say="The band is in gauge pressure. It would still be two pulls.",
                believes="gauge_is_absolute",
            ),
        ),
    ),
    Question(
        id="x_wet",
        about="08",
        ask="Tight 8 bar, dry 5 bar, wet 5.3 bar. Where do you look first?",
        go_back="“A spoon of oil” and its example.",
        options=(
            Option(
                text="Plug seat, gasket, decompression valve",
                right=True,
                say="Only a tenth came back, no more than the room that oil takes.",
            ),
            Option(
                text="Rings: oil lifted the reading",
                say="By a tenth of the loss only.",
                believes="any_rise_means_rings",
            ),
            Option(
                text="Nowhere: 66 per cent are back",
                say="That is 5.3 of 8. Of the 3 bar lacking, 0.3 came back.",
                believes="share_of_the_wrong_whole",
            ),
        ),
    ),
    Question(
        id="x_hold",
        about="08",
        ask="A crankcase of 200 mL falls from 0.50 to 0.40 bar in 60 seconds. The leak is about",
        go_back="“The crankcase must hold too”.",
        options=(
            Option(text="20 mL/min", right=True, say="200 × 0.10 ÷ 1.013, in one minute."),
            Option(text="0.3 mL/min", say="That is a second's worth.", believes="seconds_as_minutes"),
            Option(text="79 mL/min", say="That uses what is left, 0.40 bar.", believes="level_for_change"),
        ),
    ),
    Question(
        id="x_limit",
        about="08",
        ask="Limit 96 psi here, reading 95, guard band 3 psi. What do you write?",
        go_back="“Near a limit”.",
        options=(
            Option(
                text="Out: 95 is less than 96.", say="The gauge may be off by 3.", believes="reading_is_exact"
            ),
            Option(
                text="In: one psi does not matter.",
                say="It may be 92 as well as 98.",
                believes="inside_is_always_good",
            ),
            Option(
                text="Undecided: test in another way.",
                right=True,
                say="A leak-down test or a better gauge can decide.",
            ),
        ),
    ),
)
