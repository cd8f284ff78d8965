"""Lab 04, safety: a machine is made safe before a spark test.

Common practice, no source; the maker's manual and local rules for fuel come first.
"""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.order import Order, Step
from twostroke.lab.page import Caution, Page, Text
from twostroke.lab.task import Task

CAUTION = Caution(
    "A spark test puts a spark beside a machine that holds fuel, and high tension beside your hands. "
    "The maker's manual, local codes and licensed practice come first."
)


def _early(seen: str, suggests: str, check: str) -> Feedback:
    return Feedback(seen, suggests, check)


_ORDER = Order(
    "steps",
    "order of work",
    (
        Step("hold", "Take the attachment off, or block it so that it cannot move.", (), ("held",)),
        Step("cap", "Close the fuel cap and the can, and carry the can away.", (), ("fuel shut",)),
        Step("wipe", "Wipe up every drop of fuel and hang the cloth outside.", (), ("dry",)),
        Step(
            "air", "Wait until the vapour has gone: open air, nothing that smells.", ("fuel shut", "dry"),
            ("no vapour",),
            misconception="vapour_is_gone",
            feedback=_early("Waiting comes before wiping and closing.", "The source of vapour was left open.",
                            "From what does new vapour come while you wait?"),
        ),
        Step("lead", "Pull the lead off the plug that is screwed in, and leave that plug in its hole.", (),
             ("lead off", "hole shut")),
        Step(
            "tester", "Push the tester on the lead.", ("lead off",), ("tester on",),
            misconception="order_does_not_matter",
            feedback=_early("The tester goes on while the lead is still on the plug.",
                            "A step before it was put off.", "What hangs on the end of the lead now?"),
        ),
        Step(
            "ground", "Clip the tester to bare metal of the engine, away from the plug hole and the tank.",
            ("tester on",), ("grounded",),
            misconception="ground_is_optional",
            feedback=_early("The clip is set with no tester on the lead.", "A step before it was put off.",
                            "What is to be grounded?"),
        ),
        Step("switch", "Set the stop switch to run.", (), ("run",)),
        Step(
            "pull", "Hands off lead and tester; pull the rope and watch the gap.",
            ("no vapour", "hole shut", "grounded", "held", "run"), ("seen",),
            misconception="no_start_no_danger",
            feedback=_early("The rope is pulled before all is safe.",
                            "A spark was put beside vapour, an open hole, or a lead without ground.",
                            "What burns, what moves, and where does the high tension go if not to ground?"),
        ),
        Step(
            "back", "Switch off, take the tester off, put the lead back on the plug.", ("seen",), (), ("run",
            ),
            misconception="order_does_not_matter",
            feedback=_early("The tester is taken off before anything was seen.",
            "The job was closed too soon.",
                            "What did you want to see?"),
        ),
        Step(
            "finger", "Hold the lead by hand close to the cylinder, so that you can feel how strong it is.",
            belongs=False, misconception="shock_is_harmless",
            feedback=_early("The lead is held by hand.", "The high tension was thought to be harmless.",
                            "What does your arm do at a shock, and what stands beside it?"),
        ),
        Step(
            "open_hole", "Take the plug out and lay it on the cylinder beside its open hole.",
            belongs=False, misconception="open_hole_is_harmless",
            feedback=_early("The plug sparks beside its open hole.",
            "What comes out of the hole was forgotten.",
                            "What does the piston push out of that hole at every turn?"),
        ),
    ),
)  # fmt: skip


def _show(v: Variant) -> Page:
    lead = (
        f"You test the {v['machine']} for spark with a tester on its lead. Put the steps in an order in "
        f"which each "
        "finds what it needs. Two have no place here: leave them out."
    )
    return Page("", (CAUTION, Text(lead), _ORDER.steps_block(v)))


TASK = Task(
    id="safe_test",
    title="Safe before a spark test, in order",
    outcome="make a machine safe before a spark test",
    kind="order",
    points=3,
    competency="safety",
    items=(_ORDER,),
    show=_show,
    safety=True,
)
