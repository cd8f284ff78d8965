"""Lesson 12: an order of work."""

from __future__ import annotations

from twostroke.lesson.tasks import Before, Ordering

ORDERINGS = (
    Ordering(
        id="module_order",
        ask="A new module goes in. Put the steps in an order in which nothing is done twice.",
        steps={
            "measure": "Measure the gap at both legs",
            "out": "Turn by hand and draw the shim out",
            "hand": "Set the new one on, screws begun by hand",
            "prove": "Run it as it was when it failed; prove the stop switch",
            "note": "Note how the old one sits and how its leads run",
            "tight": "Shim under the legs, let it down, tighten to the maker's figure",
            "boot": "Boot off the plug and tied away, engine cool",
            "card": "Fill in the card, tell the owner",
            "off": "Take the old one off, clean its seat",
        },
        rules=(
            Before(first="boot", then="note", why="Hands go to the flywheel. It may fire.",
                   believes="order_does_not_matter"),
            Before(first="note", then="off", why="Once it is off, nobody knows how it sat.",
                   believes="order_does_not_matter"),
            Before(first="off", then="hand", why="The new one sits where the old one was.",
                   believes="order_does_not_matter"),
            Before(first="hand", then="tight", why="Begun by the driver, a screw may cross its thread.",
                   believes="order_does_not_matter"),
            Before(first="tight", then="out", why="With loose screws the magnet snaps the module on.",
                   believes="shim_out_first"),
            Before(first="out", then="measure", why="With the shim in you read the shim.",
                   believes="tight_is_done"),
            Before(first="measure", then="prove", why="Out of band, you would open it a second time.",
                   believes="tight_is_done"),
            Before(first="prove", then="card", why="The card says what was proven. So prove first.",
                   believes="it_started_so_fixed"),
        ),
        done="Safe, noted, seated, set, measured, proven, written.",
    ),
)  # fmt: skip
