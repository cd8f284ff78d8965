"""Lesson 15: an order of work."""

from __future__ import annotations

from twostroke.lesson.tasks import Before, Ordering

ORDERINGS = (
    Ordering(
        id="own_order",
        ask="A machine of your own stands before you. Put the job in order.",
        steps={
            "test": "Test, type the reading in, look what comes next",
            "manual": "Find the maker's manual, and write its bands down",
            "card": "Write the card, and keep it",
            "safe": "Cool, outdoors, cap on, attachment off or guarded, boot off",
            "prove": "Verify run in the state of the complaint, stop by its switch",
            "mend": "Mend what two readings have named",
        },
        rules=(
            Before(
                first="manual",
                then="test",
                why="Without its band a number says nothing.",
                believes="course_beats_manual",
            ),
            Before(
                first="safe",
                then="test",
                why="A real machine has a real blade.",
                believes="no_start_no_danger",
            ),
            Before(first="test", then="mend", why="First named, then mended.", believes="parts_first"),
            Before(
                first="mend",
                then="prove",
                why="There is nothing to prove yet.",
                believes="it_started_so_fixed",
            ),
            Before(
                first="prove",
                then="card",
                why="The card says what was proven.",
                believes="it_started_so_fixed",
            ),
        ),
        done="Manual, hands, readings, repair, proof, card.",
    ),
)
