"""Lesson 05: an order of work."""

from __future__ import annotations

from twostroke.lesson.tasks import Before, Ordering

ORDERINGS = (
    Ordering(
        id="set_order",
        ask="You set the air gap with a shim. Put the steps in order.",
        steps={
            "out": "Turn by hand and take the shim out",
            "loose": "Loosen the module and lift it away",
            "tight": "Tighten the screws, started by hand, to the maker's figure",
            "boot": "Pull the boot off the plug and tie it away",
            "shim": "Put the shim under both legs, the magnet opposite",
            "again": "Measure both legs again, at several places of the turn",
            "press": "Let the module down on the shim and hold it there",
            "clean": "Wipe rim and legs, and look for steel chips",
        },
        rules=(
            Before(
                first="boot",
                then="loose",
                why="The flywheel is turned in this job. First the boot.",
                believes="order_does_not_matter",
            ),
            Before(
                first="clean",
                then="shim",
                why="A chip under the shim is a part of the gap.",
                believes="errors_do_not_add",
            ),
            Before(
                first="loose",
                then="shim",
                why="The shim does not go under a module that is fast.",
                believes="order_does_not_matter",
            ),
            Before(
                first="shim",
                then="press",
                why="Without a shim the magnet pulls the module onto the rim.",
                believes="magnet_needs_circuit",
            ),
            Before(
                first="press",
                then="tight",
                why="Held on the shim, then tightened.",
                believes="order_does_not_matter",
            ),
            Before(
                first="tight",
                then="out",
                why="Pulled out with loose screws, the module snaps over.",
                believes="shim_out_first",
            ),
            Before(
                first="out",
                then="again",
                why="Tightening moves the module. The reading after it counts.",
                believes="tight_is_done",
            ),
        ),
        done="Boot off, clean, shim, down, tight, out, and measured again.",
    ),
)
