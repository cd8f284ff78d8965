"""Lesson 03: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_source",
        about="03",
        ask="Where does the energy of the spark come from?",
        go_back="“Where the energy comes from”.",
        options=(
            Option(text="From your arm", right=True, say="Through rope, flywheel, magnet, and windings."),
            Option(
                text="From a charge kept in the module",
                say="At rest there is nothing in it.",
                believes="module_stores_charge",
            ),
            Option(
                text="From the magnet, which is used up as it works",
                say="The magnet only passes on what moves it. It pulls with or without a circuit.",
                believes="magnet_needs_circuit",
            ),
        ),
    ),
    Question(
        id="x_speed",
        about="03",
        ask="Times between sparks: 92, 80 and 86 ms. Speed in the fastest turn?",
        go_back="the example “Four sparks of one pull”.",
        options=(
            Option(text="652 rpm", say="That is 60 000 ÷ 92.", believes="longer_is_faster"),
            Option(text="750 rpm", right=True, say="60 000 ÷ 80."),
            Option(text="698 rpm", say="That is the mean of the three.", believes="mean_of_pull"),
        ),
    ),
    Question(
        id="x_peak",
        about="03",
        ask="A trace: spike 6.5 kV, flat at 0.4 kV to 1.3 ms, waves to 2 ms. What did the gap ask for?",
        go_back="“The trace of one spark”.",
        options=(
            Option(text="6.5 kV", right=True, say="The spike is where it broke down."),
            Option(text="0.4 kV", say="That is the burning spark.", believes="burn_as_peak"),
            Option(
                text="It cannot be said before the waves end",
                say="The waves are only what is left over.",
                believes="ringing_counted",
            ),
        ),
    ),
    Question(
        id="x_pull",
        about="03",
        ask="How do you pull when you look for a spark?",
        go_back="“What speed it needs”.",
        options=(
            Option(text="One full, brisk pull", right=True, say="Only then is the module fast enough."),
            Option(
                text="Half a turn, slowly, to see it well",
                say="A sound module stays dark.",
                believes="half_turn_is_full_pull",
            ),
            Option(
                text="As fast as a running engine, with a drill",
                say="Fast enough to hide a weak module. It has to fire at the pull.",
                believes="best_case_counts",
            ),
        ),
    ),
    Question(
        id="x_energy",
        about="03",
        ask="The primary opens at half the current. How much energy is left?",
        go_back="“A coil holds energy”.",
        options=(
            Option(text="A quarter", right=True, say="Half times half: the current is squared."),
            Option(text="Half", say="Energy goes with the current squared.", believes="energy_in_proportion"),
            Option(
                text="The same: the module tops it up",
                say="It has nothing in store to top it up with.",
                believes="module_stores_charge",
            ),
        ),
    ),
)
