"""Lesson 02: an order of work."""

from __future__ import annotations

from twostroke.lesson.tasks import Before, Ordering

ORDERINGS = (
    Ordering(
        id="measure_order",
        ask="You measure the depth of the exhaust roof through the plug hole. Put the steps in order.",
        steps={
            "read": "Turn down by hand until the port just shows, and read the depth",
            "zero": "Find the top and set the gauge to zero",
            "lead": "Pull the boot off the plug and tie it away",
            "angle": "Turn the depth into an angle with stroke and rod",
            "plug": "Unscrew the plug and fit the depth gauge",
            "duration": "Work out how long the port is open",
        },
        rules=(
            Before(
                first="lead",
                then="plug",
                why="A turned engine can spark or start. The boot comes off first.",
                believes="order_does_not_matter",
            ),
            Before(first="plug", then="zero", why="No gauge, no zero.", believes="order_does_not_matter"),
            Before(
                first="zero",
                then="read",
                why="A depth counts from the top, so the top is found first.",
                believes="height_from_bottom",
            ),
            Before(
                first="read",
                then="angle",
                why="The angle comes from the depth that you read, and not in proportion.",
                believes="angle_in_proportion",
            ),
            Before(
                first="angle",
                then="duration",
                why="Open time needs the opening angle.",
                believes="closed_part_counted",
            ),
        ),
        done="Safe first, zero at the top, then depth, angle, duration.",
    ),
)
