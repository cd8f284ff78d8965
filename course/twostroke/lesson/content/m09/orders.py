"""Lesson 09: orders of work."""

from __future__ import annotations

from twostroke.lesson.tasks import Before, Ordering

ORDERINGS = (
    Ordering(
        id="clear_order",
        ask="The engine is flooded: its plug drips. Clear it. Put the steps in order.",
        steps={
            "turn": "Rag over the hole, hole away from you, pull six times",
            "boot": "Boot off the plug",
            "start": "Carry it at least 3 m away and start it",
            "outside": "Carry it outdoors, away from flames and sparks; blade guarded, engine cool",
            "out": "Plug out, dry it with a rag",
            "wait": "Wipe up every drop, then wait five minutes",
            "open": "Choke open, throttle wide open",
            "ground": "Clamp the lead to bare metal, well away from the hole",
            "fit": "Plug in by hand, tighten as the maker says, boot on",
        },
        rules=(
            Before(
                first="outside",
                then="out",
                why="Fuel runs out with the plug. First be where that does no harm.",
                believes="vapour_rises",
            ),
            Before(
                first="boot",
                then="out",
                why="The plug is not free while the boot holds it.",
                believes="order_does_not_matter",
            ),
            Before(
                first="boot",
                then="ground",
                why="The lead can only be clamped when it is off the plug.",
                believes="order_does_not_matter",
            ),
            Before(
                first="ground",
                then="turn",
                why="Fuel mist leaves the hole at each turn. A loose lead can light it.",
                believes="open_hole_is_harmless",
            ),
            Before(
                first="out",
                then="turn",
                why="With the plug in, the fuel stays where it is.",
                believes="order_does_not_matter",
            ),
            Before(
                first="open",
                then="turn",
                why="With the choke closed each pull draws more fuel in.",
                believes="wet_plug_means_too_much_fuel",
            ),
            Before(
                first="turn",
                then="wait",
                why="The drops fall while you pull. Wipe after that.",
                believes="only_liquid_burns",
            ),
            Before(
                first="wait",
                then="fit",
                why="The mist hangs about. Let it go before there can be a spark.",
                believes="vapour_is_gone",
            ),
            Before(first="fit", then="start", why="It needs its plug.", believes="order_does_not_matter"),
            Before(
                first="wait",
                then="start",
                why="Vapour lies low where you worked, smelt or not.",
                believes="vapour_is_gone",
            ),
        ),
        done="Outdoors, lead away from the hole, air in, wiped, waited, and started elsewhere.",
    ),
)
