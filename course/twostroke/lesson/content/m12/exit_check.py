"""Lesson 12: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_after",
        about="12",
        ask="Which gap goes on the card?",
        go_back="the figure “The gap after tightening”.",
        options=(
            Option(text="The thickness of the shim", say="The module moved while the screws pulled down.",
                   believes="tight_is_done"),
            Option(text="What the leaf reads after tightening, at both legs", right=True,
                   say="The last reading counts."),
            Option(text="What it read at one leg", say="A module can stand askew.",
                   believes="one_leg_enough"),
        ),
    ),
    Question(
        id="x_state",
        about="12",
        ask="Complaint: cuts out when the lead is moved. What is the proof?",
        go_back="“Prove it where it failed”.",
        options=(
            Option(text="Five clean starts, standing still", say="Standing still it never failed.",
                   believes="it_started_so_fixed"),
            Option(text="It runs while lead and wires are moved, and its switch stops it", right=True,
                   say="The state of the complaint, and the stop."),
            Option(text="The stop lead shows no reading, so all is well",
                   say="That may also be a switch that cannot stop it.", believes="no_continuity_is_good"),
        ),
    ),
    Question(
        id="x_hours",
        about="12",
        ask="2 h 40 min at 60 an hour. Labour?",
        go_back="“What do I charge?”.",
        options=(
            Option(text="144", say="That is 2.40 hours. Forty minutes are two thirds of an hour.",
                   believes="clock_as_decimal"),
            Option(text="160", right=True, say="160 minutes ÷ 60 × 60."),
            Option(text="9 600", say="The rate is for an hour, not for a minute.",
                   believes="seconds_as_minutes"),
        ),
    ),
    Question(
        id="x_limit",
        about="12",
        ask="The gap after tightening reads 0.35 mm. The band ends there, and your leaves have steps of"
        " 0.05 mm. What do you write?",
        go_back="the figure “The gap after tightening”.",
        options=(
            Option(text="In: 0.35 is not more than 0.35.",
                   say="The leaf may be out by more than what is left to the limit.",
                   believes="inside_is_always_good"),
            Option(text="Out: 0.35 mm is already too much.", say="It may be 0.33 mm; the leaf cannot tell.",
                   believes="reading_is_exact"),
            Option(text="Undecided: set it nearer to the middle, or measure more finely.", right=True,
                   say="At a limit, the leaf's step decides nothing."),
        ),
    ),
    Question(
        id="x_pass_on",
        about="12",
        ask="What does the next one at the bench need most from you?",
        go_back="“Pass it on”.",
        options=(
            Option(text="The name of the bad part: it will be that again",
                   say="The next machine with this complaint may have another fault.",
                   believes="common_is_likely_here"),
            Option(text="Why that test came first, and what it proved", right=True,
                   say="Then they can do it on a machine that you have never seen."),
            Option(text="A list of steps, in any order", say="The reason for the order is the lesson.",
                   believes="order_does_not_matter"),
        ),
    ),
)  # fmt: skip
