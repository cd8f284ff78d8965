"""Lesson 11: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_provoke",
        about="11",
        ask="It cuts out over rough ground. On the bench it runs for an hour. What do you do?",
        go_back="“What is the same each time?”.",
        options=(
            Option(
                text="Give it back: no fault found.",
                say="It was not looked for where it shows.",
                believes="not_seen_is_not_there",
            ),
            Option(
                text="Move lead, boot and stop lead while it is pulled.",
                right=True,
                say="And watch which one makes the tester go dark.",
            ),
            Option(
                text="Change the module, then it is done.",
                say="What proves that it was the module?",
                believes="parts_first",
            ),
        ),
    ),
    Question(
        id="x_hot",
        about="11",
        ask="It dies hot. When is the spark tested?",
        go_back="the figure “A module that fails hot”.",
        options=(
            Option(
                text="In the minutes after it has died, tester at hand",
                right=True,
                say="A quarter of an hour later it is another machine.",
            ),
            Option(
                text="Next morning, when it can be touched",
                say="Then it flashes, and proves nothing.",
                believes="not_seen_is_not_there",
            ),
            Option(
                text="When it starts again: then it is over",
                say="It will die again at the same heat.",
                believes="it_started_so_fixed",
            ),
        ),
    ),
    Question(
        id="x_at_least",
        about="11",
        ask="It fails one start in two. The owner tries three times. Chance that it fails at least once?",
        go_back="“How many clean starts?”.",
        options=(
            Option(text="88 %", right=True, say="1 − 0.5 × 0.5 × 0.5."),
            Option(text="150 %, so certain", say="Chances do not add up.", believes="chances_added"),
            Option(
                text="13 %",
                say="That it fails each time, or never. At least once is the rest.",
                believes="at_least_once_is_always",
            ),
        ),
    ),
    Question(
        id="x_copper",
        about="11",
        ask="2.00 kΩ at 20 °C. What should copper alone read at 70 °C?",
        go_back="“Hot against cold”.",
        options=(
            Option(text="2.39 kΩ", right=True, say="2.00 × (1 + 0.00393 × 50)."),
            Option(text="2.00 kΩ", say="Copper reads more when warm.", believes="cold_reading_hot_band"),
            Option(
                text="7.00 kΩ",
                say="Ohms do not rise as degrees Celsius do.",
                believes="in_proportion_from_zero",
            ),
        ),
    ),
    Question(
        id="x_proof",
        about="11",
        ask="What proves the repair of a fault that comes and goes?",
        go_back="“What proves it?”.",
        options=(
            Option(
                text="It starts.",
                say="It did that now and then before.",
                believes="it_started_so_fixed",
            ),
            Option(
                text="It failed in that condition before, and now does not, often enough.",
                right=True,
                say="Same condition, one change, enough clean starts.",
            ),
            Option(
                text="Two new parts, and it is gone.",
                say="Then you do not know which one it was, nor whether it was.",
                believes="two_changes_at_once",
            ),
        ),
    ),
)
