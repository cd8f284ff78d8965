"""Lesson 00: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_switch",
        about="00",
        ask="Before you put your fingers near the blade you …",
        go_back="“What can hurt you”: it may start.",
        options=(
            Option(
                text="set the switch to stop",
                say="A broken stop lead leaves the spark alive.",
                believes="switch_is_enough",
            ),
            Option(
                text="pull the boot off the plug and tie it away",
                right=True,
                say="No spark can reach the plug then.",
            ),
            Option(
                text="pull the rope to see that it is dead",
                say="That turns the blade.",
                believes="no_start_no_danger",
            ),
        ),
    ),
    Question(
        id="x_vapour",
        about="00",
        ask="Where does fuel vapour gather?",
        go_back="“What can hurt you”: fuel vapour.",
        options=(
            Option(text="Low down, in pits and along the floor", right=True, say="It is heavier than air."),
            Option(text="Nowhere, once the smell is gone", say="Noses tire.", believes="vapour_is_gone"),
            Option(
                text="Only inside the tank",
                say="Any spill and any open can gives it off.",
                believes="no_start_no_danger",
            ),
        ),
    ),
    Question(
        id="x_reach",
        about="00",
        ask="A reading reaches across the limit of its band. You write …",
        go_back="“A reading held against its band”.",
        options=(
            Option(text="in", say="Part of the reach is outside.", believes="inside_is_always_good"),
            Option(text="out", say="Part of the reach is inside.", believes="undecided_is_bad"),
            Option(text="undecided, and measure more finely", right=True, say="That is the honest word."),
        ),
    ),
    Question(
        id="x_hand_in",
        about="00",
        ask="Which one does the instructor mark?",
        go_back="“Practice: save, restart, hand in”, step 4.",
        options=(
            Option(text="The file that I handed over", right=True, say="What you change later is not in it."),
            Option(
                text="What stands on my screen",
                say="The screen may be ahead of the file.",
                believes="saved_is_handed_in",
            ),
            Option(
                text="Nothing: a restart wiped it",
                say="A saved file outlives every restart.",
                believes="restart_loses_work",
            ),
        ),
    ),
    Question(
        id="x_first",
        about="00",
        ask="The first thing in a job is …",
        go_back="“What a whole job looks like”.",
        options=(
            Option(
                text="the complaint, turned into evidence",
                right=True,
                say="It costs nothing and points the way.",
            ),
            Option(
                text="the part that fails most often",
                say="It may be good on this machine.",
                believes="common_is_likely_here",
            ),
            Option(
                text="a new plug",
                say="That proves little and hides what the old one could tell.",
                believes="parts_first",
            ),
        ),
    ),
)
