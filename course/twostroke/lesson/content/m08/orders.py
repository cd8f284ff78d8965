"""Lesson 08: an order of work."""

from __future__ import annotations

from twostroke.lesson.tasks import Before, Ordering

ORDERINGS = (
    Ordering(
        id="test_order",
        ask="A compression test, dry and then wet. Put the steps in order.",
        steps={
            "pull": "Pull until the needle is steady, and write the reading down",
            "gauge": "Screw the gauge in by hand",
            "plug": "Take the plug out",
            "boot": "Pull the boot off and clamp the lead to bare metal away from the hole",
            "oil": "Put a small spoon of oil in, turn over slowly, and measure again",
            "guard": "Guard or take off the blade, chain or line",
            "open": "Throttle and choke fully open, decompression valve shut",
            "bleed": "Bleed the gauge to zero before you unscrew it",
        },
        rules=(
            Before(
                first="guard",
                then="pull",
                why="The attachment turns with the rope, start or no start.",
                believes="no_start_no_danger",
            ),
            Before(
                first="boot",
                then="plug",
                why="A loose lead can spark at the open hole, where the fuel mist comes out.",
                believes="vapour_is_gone",
            ),
            Before(
                first="plug", then="gauge", why="Both use the same hole.", believes="order_does_not_matter"
            ),
            Before(first="gauge", then="pull", why="No gauge, no reading.", believes="order_does_not_matter"),
            Before(
                first="open",
                then="pull",
                why="With throttle or choke shut the cylinder draws thin air and reads low.",
                believes="inside_is_always_good",
            ),
            Before(
                first="pull",
                then="bleed",
                why="Read it first. Emptied, the gauge tells nothing.",
                believes="order_does_not_matter",
            ),
            Before(
                first="bleed",
                then="oil",
                why="The oil goes in through the hole, so the gauge has to come out, and empty.",
                believes="vapour_is_gone",
            ),
            Before(
                first="pull",
                then="oil",
                why="Dry comes first. A wet reading alone has nothing to be compared with.",
                believes="oil_repairs",
            ),
        ),
        done="Safe first, air in, dry until steady, bleed, then wet.",
    ),
)
