"""Lesson 00: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="why_undecided",
        about="00",
        explains="band",
        ask="The reading 0.34 mm lies below the limit 0.35 mm. Why does the figure say undecided?",
        options=(
            Option(
                text="With its doubt the reading reaches past the limit.",
                right=True,
                say="The true gap may be 0.356 mm. A finer instrument shortens the reach and settles it.",
            ),
            Option(
                text="The figure is careful; 0.34 is inside, so it is good.",
                say=(
                    "Set the doubt to zero and it says in. The doubt makes the difference, and real leaves"
                    " have doubt."
                ),
                believes="inside_is_always_good",
            ),
            Option(
                text="It should say out: close to the limit is bad.",
                say="Part of the reach lies inside the band. Nothing is proven either way.",
                believes="undecided_is_bad",
            ),
        ),
    ),
    Question(
        id="dead_machine",
        about="00",
        ask="A hedge trimmer will not start. Which of these can still hurt you?",
        options=(
            Option(
                text="The blade, the fuel vapour and the plug lead",
                right=True,
                say=(
                    "The rope turns the blade, vapour finds a spark, and the lead carries thousands of volts."
                ),
            ),
            Option(
                text="Nothing, as long as it stays dead",
                say="It stays dead until the pull on which it starts.",
                believes="no_start_no_danger",
            ),
            Option(
                text="Nothing, with the switch at stop",
                say=(
                    "The switch cuts the spark only when its lead is whole, and never stops the blade from"
                    " turning with the rope."
                ),
                believes="switch_is_enough",
            ),
        ),
    ),
    Question(
        id="spill",
        about="00",
        ask="You spilled a little fuel and wiped it up. You no longer smell it. When may you test for spark?",
        options=(
            Option(
                text=(
                    "After the rags are outside, the tank is capped, and five minutes in moving air have"
                    " passed"
                ),
                right=True,
                say="Five minutes is common practice, no source. Longer in still air.",
            ),
            Option(
                text="At once: no smell, no vapour",
                say="Your nose is used to it by now.",
                believes="vapour_is_gone",
            ),
            Option(
                text="At once: the machine is dead anyway",
                say="The spark test makes the spark that vapour waits for.",
                believes="no_start_no_danger",
            ),
        ),
    ),
    Question(
        id="which_number",
        about="00",
        ask=(
            "This course says 0.20 to 0.35 mm for an air gap. The manual of your machine says 0.40 mm. What"
            " do you set?"
        ),
        options=(
            Option(
                text="0.40 mm", right=True, say="The maker knows the machine. The course shows usual figures."
            ),
            Option(
                text="0.35 mm, the end of the band",
                say="The band here is common practice and was not made for your machine.",
                believes="course_beats_manual",
            ),
            Option(
                text="Anything from 0.20 to 0.40 mm",
                say="Two sources do not add up to a wider band.",
                believes="inside_is_always_good",
            ),
        ),
    ),
    Question(
        id="swap_first",
        about="00",
        ask="What makes a job short?",
        options=(
            Option(
                text="A cheap test that clears half of the machine",
                right=True,
                say="One minute of looking at the plug tells much about spark and about fuel.",
            ),
            Option(
                text="Fitting a new module first; it is often the module",
                say="A module costs the price of many tests, and the old one may be good.",
                believes="parts_first",
            ),
            Option(
                text="Stopping as soon as it runs",
                say="Then it comes back, and you do the job twice.",
                believes="it_started_so_fixed",
            ),
        ),
    ),
)
