"""Lesson 04: an order of work."""

from __future__ import annotations

from twostroke.lesson.tasks import Before, Ordering

ORDERINGS = (
    Ordering(
        id="spark_order",
        ask="You test for spark with a tester. Put the steps in order.",
        steps={
            "pull": "One full, brisk pull, and look",
            "clip": "Clip the tester to bare metal, away from the plug hole",
            "cap": "Cap the tank, take open fuel away, let the vapour go",
            "lead": "Put the lead on the tester",
            "hole": "Take the plug out and cover its hole",
            "set": "Set the tester to the gap that stands for the plug",
            "note": "Write down the setting, the pulls, and what was seen",
        },
        rules=(
            Before(
                first="cap",
                then="hole",
                why="The hole breathes fuel. Clear the air and cap the tank first.",
                believes="only_liquid_burns",
            ),
            Before(
                first="hole",
                then="pull",
                why="Mist leaves an open hole at every turn.",
                believes="open_hole_is_harmless",
            ),
            Before(
                first="clip",
                then="pull",
                why="Without a way back the spark takes its own.",
                believes="ground_is_optional",
            ),
            Before(
                first="clip",
                then="lead",
                why="Ground first, then the lead; the other way you hold it.",
                believes="shock_is_harmless",
            ),
            Before(
                first="set",
                then="pull",
                why="A jump proves only what the gap was set to.",
                believes="any_jump_proves",
            ),
            Before(first="lead", then="pull", why="Nothing can jump yet.", believes="order_does_not_matter"),
            Before(first="pull", then="note", why="Nothing was seen yet.", believes="order_does_not_matter"),
        ),
        done="Air clear, hole covered, grounded, set, pulled, written down.",
    ),
)
