"""Lesson 07: an order of work."""

from __future__ import annotations

from twostroke.lesson.tasks import Before, Ordering

ORDERINGS = (
    Ordering(
        id="isolate_order",
        ask="No spark, switch at run. Put the steps in order.",
        steps={
            "mend": "Mend what the readings show, stop lead back on",
            "pull": "Test for spark with the stop lead off",
            "off": "Boot off the plug, then take the stop lead off the module",
            "prove": "Prove both: run sparks, stop stops",
            "meter": "Flywheel at rest: meter on lead, switch and ground, each alone",
            "cool": "Let the engine cool, guard the attachment",
        },
        rules=(
            Before(
                first="cool",
                then="off",
                why="Hot parts burn, and a hot winding reads too high.",
                believes="hot_is_no_matter",
            ),
            Before(
                first="off",
                then="pull",
                why="With the lead on you test module and stop circuit together.",
                believes="module_first",
            ),
            Before(
                first="pull",
                then="meter",
                why="The pull with the lead off splits the system in two. Then you know where to measure.",
                believes="module_first",
            ),
            Before(
                first="meter",
                then="mend",
                why="The reading says what to mend.",
                believes="parts_first",
            ),
            Before(
                first="mend",
                then="prove",
                why="A stop switch that was worked on must be shown to stop.",
                believes="switch_is_enough",
            ),
        ),
        done="Safe, split, measure at rest, mend, prove both ways.",
    ),
)
