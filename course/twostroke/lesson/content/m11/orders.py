"""Lesson 11: an order of work."""

from __future__ import annotations

from twostroke.lesson.tasks import Before, Ordering

ORDERINGS = (
    Ordering(
        id="heat_order",
        ask="It dies hot, and the tester was dark then. A heat test of the module. Put the steps in order.",
        steps={
            "warm": "Warm it with air, thermometer beside it, not above what the maker allows",
            "drain": "Drain the tank outdoors, cap on, fuel and rags carried away",
            "cool": "Stop it and let it cool, boot off the plug",
            "test": "Tester clamped away from the hole; pull, count flashes and misses",
            "off": "Take the module off; note its place and gap",
            "cold": "Write down the cold readings: tester, ohms, temperature",
            "again": "Let it cool and count again: does it come back?",
            "fit": "Read its ohms warm, fit it, gap set with the shim",
        },
        rules=(
            Before(
                first="cool",
                then="drain",
                why="A tank is not opened on a hot engine.",
                believes="vapour_is_gone",
            ),
            Before(
                first="drain",
                then="warm",
                why="Heat and fuel do not meet. The fuel goes first.",
                believes="vapour_rises",
            ),
            Before(
                first="drain",
                then="cold",
                why="The tester makes sparks. Open fuel is carried away before that.",
                believes="no_start_no_danger",
            ),
            Before(
                first="cold",
                then="off",
                why="Without the cold readings the hot ones have nothing to be held against.",
                believes="cold_reading_hot_band",
            ),
            Before(
                first="off",
                then="warm",
                why="It is warmed off the machine, never on it.",
                believes="vapour_rises",
            ),
            Before(
                first="warm",
                then="fit",
                why="It is to be read and tested warm.",
                believes="not_seen_is_not_there",
            ),
            Before(
                first="fit",
                then="test",
                why="Only on the engine does it meet the magnet.",
                believes="order_does_not_matter",
            ),
            Before(
                first="test",
                then="again",
                why="That it comes back cold is what proves the heat.",
                believes="it_started_so_fixed",
            ),
        ),
        done="Cool, no fuel near, read cold, warmed off the machine, counted warm, counted cold again.",
    ),
)
