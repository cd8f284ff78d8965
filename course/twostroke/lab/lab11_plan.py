"""Lab 11: a module warmed and tested in a safe order.

The order is common practice, no source; the maker's manual comes first.
"""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.order import Order, Step
from twostroke.lab.page import Caution, Page, Text
from twostroke.lab.task import Task


def _early(seen: str, check: str) -> Feedback:
    return Feedback(seen, "A step before it was put off.", check)


_ORDER = Order(
    "steps",
    "order of work",
    (
        Step("cool", "Stop it, let it cool, boot off the plug.", (), ("cool",)),
        Step("drain", "Drain the tank outdoors, cap on, fuel and rags carried away.", ("cool",), ("no fuel",),
             misconception="vapour_is_gone",
             feedback=_early("Fuel is opened on a hot machine.",
             "What must have cooled before the cap comes off?")),
        Step("cold", "Write down the cold readings: tester, ohms, temperature.", ("cool", "no fuel"),
        ("cold known",),
             misconception="no_start_no_danger",
             feedback=_early("The tester flashes beside open fuel or a hot machine.",
                             "What must be carried away before a spark is made?")),
        Step("off", "Take the module off: stop lead, screws, its place and gap noted.", ("cold known",),
        ("module off",),
             misconception="cold_reading_hot_band",
             feedback=_early("The module comes off before the cold readings are taken.",
                             "With what will you compare the hot readings?")),
        Step("warm", "Warm it with air, not above what the maker allows, thermometer beside it.",
             ("module off", "no fuel"), ("warm",),
             misconception="vapour_rises",
             feedback=_early("Heat comes to the machine and its fuel.",
             "Where is the module, and where is the fuel?")),
        Step("ohms", "Read its ohms and its temperature while it is warm.", ("warm",), ("warm ohms",),
             misconception="cold_reading_hot_band",
             feedback=_early("The warm reading is taken before it is warm.",
             "What does the thermometer say?")),
        Step("fit", "Fit it again, gap set with the shim, stop lead on.", ("warm ohms",), ("fitted warm",),
             misconception="tight_is_done",
             feedback=_early("It is fitted before it was warmed and read.", "What did you take it off for?")),
        Step("test", "Clamp the tester to metal away from the plug hole, pull, count flashes and misses.",
             ("fitted warm", "no fuel"), ("counted",),
             misconception="not_seen_is_not_there",
             feedback=_early("It is pulled before the warm module is back.",
                             "In which state must it be when you pull?")),
        Step("again", "Let it cool and count again: does it come back?", ("counted",), ("proven",),
             misconception="it_started_so_fixed",
             feedback=_early("The cold count comes before the warm one.",
             "What do you want to see it come back from?")),
        Step("flame", "Warm it on the machine with a small flame; that is quicker.", belongs=False,
             misconception="vapour_rises",
             feedback=Feedback("A flame comes to a machine with fuel in it.", "Minutes were put above fire.",
                               "What lies under the module, and what runs along the bench?")),
    ),
)  # fmt: skip


def _show(v: Variant) -> Page:
    return Page(
        "",
        (
            Caution("Warm a module only off the machine, tank drained and carried away; warm air, never a "
            "flame. High "
                    "tension: never hold the lead; a person with a heart pacemaker keeps away. "
                    "The maker's manual, local codes and licensed practice come first."),
            Text("It dies hot, and the tester was dark when it did. Put the steps of the heat test in an "
            "order in which "
                 "each finds what it needs. One has no place here: leave it out."),
            _ORDER.steps_block(v),
        ),
    )  # fmt: skip


TASK = Task(
    id="plan",
    title="A heat test, in order",
    outcome="warm and test a module safely and in a telling order",
    kind="order",
    points=4,
    competency="safety",
    show=_show,
    items=(_ORDER,),
    safety=True,
)
