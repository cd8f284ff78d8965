"""Lab 09: a flooded engine cleared in a safe order.

A restart at least 3 m from where fuel was handled: 29 CFR 1910.266 (from memory). The rest is common
practice, no source; the maker's manual and local rules come first.
"""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.order import Order, Step
from twostroke.lab.page import Caution, Page, Text
from twostroke.lab.task import Task


def _early(seen: str, check: str) -> Feedback:
    return Feedback(seen, "A step that makes it safe was put off.", check)


_ORDER = Order(
    "steps",
    "order of work",
    (
        Step("outside", "Carry it outdoors, away from flames and sparks; blade guarded, engine cool.", (),
             ("outside",)),
        Step("boot", "Pull the boot off the plug.", (), ("boot off",)),
        Step("out", "Take the plug out, dry it with a rag.", ("outside", "boot off"), ("plug out",),
             misconception="no_start_no_danger",
             feedback=_early("Fuel runs out before place and boot are seen to.",
                             "Where may fuel run out, and what still sits on the plug?")),
        Step("ground", "Clamp the lead to bare metal, well away from the hole.", ("boot off",),
        ("lead grounded",),
             misconception="no_start_no_danger",
             feedback=_early("The lead is clamped while it is on the plug.", "What comes off first?")),
        Step("open", "Choke off, throttle wide open.", (), ("air in",)),
        Step("turn", "Hole turned away from you, rag over it, pull six times.",
             ("plug out", "lead grounded", "air in", "outside"), ("blown",),
             misconception="switch_is_enough",
             feedback=_early("Fuel mist is pumped out before lead, place and throttle are seen to.",
                             "What can light the mist that leaves the hole?")),
        Step("wipe", "Wipe up every drop; the rag stays outdoors.", ("blown",), ("wiped",),
             misconception="only_liquid_burns",
             feedback=_early("It is wiped before the fuel has come out.", "When do the drops fall?")),
        Step("wait", "Wait five minutes for the vapour to go.", ("wiped",), ("clear",),
             misconception="vapour_is_gone",
             feedback=_early("The wait begins while fuel still lies there.", "What goes on giving vapour?")),
        Step("plug", "Screw the dry plug in by hand, tighten as the maker says, boot on.", ("clear",),
        ("fitted",),
             misconception="vapour_is_gone",
             feedback=_early("The plug goes in while mist still hangs about.",
                             "What did you pump out, and has it gone?")),
        Step("start", "Carry it at least 3 m away, choke off, and start it.", ("fitted",), ("running",),
             misconception="vapour_is_gone",
             feedback=_early("It is started where fuel was spilt, or before the plug is in.",
                             "What lies on the ground where you worked?")),
        Step("flame", "Dry the plug quickly over a small flame.", belongs=False,
             misconception="only_liquid_burns",
             feedback=Feedback("A flame comes to a machine wet with fuel.",
             "Only the drop on the plug was seen.",
                               "What else is wet, and what hangs in the air around it?")),
    ),
)  # fmt: skip


def _show(v: Variant) -> Page:
    return Page(
        "",
        (
            Caution("Fuel vapour lights at a spark and runs along the ground. A person with a heart "
            "pacemaker keeps "
                    "away from a working ignition. "
                    "The maker's manual, local codes and licensed practice come first."),
            Text("Your machine is flooded: the plug drips. Put the steps in an order in which each finds "
            "what it "
                 "needs. One has no place here: leave it out."),
            _ORDER.steps_block(v),
        ),
    )  # fmt: skip


TASKS = (
    Task(
        id="clear",
        title="Clearing a flooded engine, in order",
        outcome="clear a flooded engine without lighting its vapour",
        kind="order",
        points=4,
        competency="safety",
        show=_show,
        items=(_ORDER,),
        safety=True,
    ),
)
