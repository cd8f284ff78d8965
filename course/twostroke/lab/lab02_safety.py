"""Lab 02, safety: a piston is measured through the plug hole, in a sound order.

Common practice, no source; the maker's manual and local rules come first.
"""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.order import Order, Step
from twostroke.lab.page import Caution, Page, Text
from twostroke.lab.task import Task

CAUTION = Caution(
    "An open plug hole breathes fuel vapour, and a lead that lies beside it can light it. "
    "Turning the crank moves the attachment. "
    "The maker's manual, local codes and licensed practice come first."
)


def _early(seen: str, suggests: str, check: str) -> Feedback:
    return Feedback(seen, suggests, check)


_ORDER = Order(
    "steps",
    "order of work",
    (
        Step("cool", "Stop the engine and let it cool.", (), ("cold",)),
        Step("block", "Take the attachment off, or block it so that it cannot move.", (), ("held",)),
        Step("lead", "Pull the lead off the plug and fasten it away from the plug hole.", (), ("lead off",)),
        Step("dirt", "Brush the dirt away from around the plug.", (), ("clean",)),
        Step(
            "plug", "Unscrew the plug.", ("cold", "lead off", "clean"), ("plug out",),
            misconception="order_does_not_matter",
            feedback=_early("The plug comes out before cylinder, lead and surroundings are ready.",
                            "A step before it was put off.",
                            "What is hot, what hangs on the plug, and what falls into an open hole?"),
        ),
        Step(
            "gauge", "Screw the dial gauge into the plug hole.", ("plug out",), ("gauge in",),
            misconception="order_does_not_matter",
            feedback=_early("The gauge has no hole to go into yet.", "A step before it was put off.",
                            "What fills the plug hole until it is taken out?"),
        ),
        Step(
            "top", "Turn the crank slowly by hand to top dead centre and set the gauge to zero.",
            ("gauge in", "held", "lead off"), ("zero",),
            misconception="no_start_no_danger",
            feedback=_early("The crank is turned before gauge, attachment and lead are ready.",
                            "A machine that does not run was taken for one that cannot hurt.",
                            "What moves with the crank, and what can the magnet pass?"),
        ),
        Step(
            "read", "Turn back beyond the depth, come forward to it, and read the angle.", ("zero",),
            ("read",),
            misconception="order_does_not_matter",
            feedback=_early("A depth is read before there is a zero.", "A step before it was put off.",
                            "From where does the gauge count?"),
        ),
        Step(
            "refit", "Take the gauge out and start the plug by hand, then tighten it to the maker's figure.",
            ("read",), ("plug in",), ("plug out",),
            misconception="order_does_not_matter",
            feedback=_early("The plug goes back before anything was read.", "The job was closed too soon.",
                            "Which reading did you come for?"),
        ),
        Step(
            "connect", "Push the lead back on the plug.", ("plug in",), (), ("lead off",),
            misconception="switch_is_enough",
            feedback=_early("The lead is live again while the hole is open.",
                            "The lead was put back before the plug.",
                            "What comes out of the open hole, and what comes out of the lead?"),
        ),
        Step(
            "spin", "Spin the engine with the starter rope, so that the gauge finds the top by itself.",
            belongs=False, misconception="no_start_no_danger",
            feedback=_early("The rope is pulled with a gauge in the hole.",
                            "Speed was taken for a help in finding the top.",
                            "What does a fast piston do to the gauge, and the attachment to your hand?"),
        ),
    ),
)  # fmt: skip


def _show(v: Variant) -> Page:
    lead = (
        f"You measure piston depths on the {v['machine']} through the plug hole. Put the steps in an order "
        f"in "
        "which each finds what it needs. One has no place here: leave it out."
    )
    return Page("", (CAUTION, Text(lead), _ORDER.steps_block(v)))


TASK = Task(
    id="safe_measuring",
    title="Measuring through the plug hole, in order",
    outcome="measure a piston depth through the plug hole in a safe order",
    kind="order",
    points=3,
    competency="safety",
    items=(_ORDER,),
    show=_show,
    safety=True,
)
