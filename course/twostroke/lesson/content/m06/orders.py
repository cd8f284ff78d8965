"""Lesson 06: an order of work."""

from __future__ import annotations

from twostroke.lesson.tasks import Before, Ordering

ORDERINGS = (
    Ordering(
        id="measure_order",
        ask="You measure the windings of a module on the engine. Put the steps in order.",
        steps={
            "read": "Put the probes on the winding and read",
            "zero": "Hold the probes together and note what the leads show",
            "boot": "Pull the boot off the plug",
            "still": "See that nobody can pull the rope, and leave the flywheel alone",
            "cool": "Stop the engine and let it cool",
            "correct": "Take the leads off and bring the reading to 20 °C",
            "stop": "Take the stop lead off the module",
        },
        rules=(
            Before(
                first="cool",
                then="boot",
                why="Plug and muffler burn. A hot winding also reads too high.",
                believes="hot_is_no_matter",
            ),
            Before(
                first="boot",
                then="stop",
                why="Without its stop lead the engine can fire. The boot comes off first.",
                believes="switch_is_enough",
            ),
            Before(
                first="still",
                then="read",
                why="A pass of the magnet puts high voltage on winding, meter and hands.",
                believes="meter_while_turning",
            ),
            Before(
                first="stop",
                then="read",
                why="With the stop lead on you measure a second path beside the winding.",
                believes="parallel_as_series",
            ),
            Before(
                first="zero",
                then="correct",
                why="You can only take off what you have read.",
                believes="lead_resistance_ignored",
            ),
            Before(first="read", then="correct", why="First the reading.", believes="order_does_not_matter"),
        ),
        done="Cool and safe first, one path only, then leads, reading, and the sum.",
    ),
)
