"""Lab 13, safety: a whole job from complaint to hand-back, in an order that keeps hands whole.

The order is common practice, no source; the maker's manual and local rules come first.
"""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.order import Order, Step
from twostroke.lab.page import Caution, Page, Text
from twostroke.lab.task import Task


def _early(seen: str, check: str) -> Feedback:
    return Feedback(seen, "A step before it was put off.", check)


ORDER = Order(
    "steps",
    "order of work",
    (
        Step("ask", "Ask the owner: cold or hot, sudden or bit by bit, what was done last. Write it down.",
             (), ("story",)),
        Step("still", "Stop it, let it cool, guard the attachment, boot off the plug and tied away.", (),
             ("still",)),
        Step("vapour", "Cap on; can and rags carried away; five minutes of fresh air.", ("still",),
             ("no vapour",), misconception="vapour_is_gone",
             feedback=_early("Fuel is handled on a machine that may be hot or may start.",
                             "What must have cooled before the cap is touched?")),
        Step("look", "Look it over with your fingers: wires, screws, cracks, fuel.", ("still", "story"),
             ("looked",), misconception="switch_is_enough",
             feedback=_early("Fingers are at the machine while it may still start, or without its story.",
                             "What keeps it from starting, and what did the owner say?")),
        Step("split", "Boot on the tester, tester on metal away from the plug hole; pull: spark or no spark?",
             ("no vapour", "looked"), ("side known",), misconception="no_start_no_danger",
             feedback=_early("A spark is made before the vapour is gone or the look is done.",
                             "What lies in the air and on the bench when the tester flashes?")),
        Step("prove", "Narrow it on that side until one fault fits all readings.", ("side known",),
             ("fault known",), misconception="first_word_decides",
             feedback=_early("One side is searched before it is known which.",
                             "Which test tells spark from fuel?")),
        Step("mend", "Repair that fault; measure again after tightening.", ("fault known",), ("mended",),
             misconception="parts_first",
             feedback=_early("A part is fitted before a fault is proven.",
                             "Which reading names this part?")),
        Step("verify", "Start it in the state of the complaint, well away from where it was fuelled; stop by "
             "its switch; restart.", ("mended",), ("proven",), misconception="it_started_so_fixed",
             feedback=_early("It is proven before it is mended.", "What was changed before this run?")),
        Step("back", "Hand it back: fault, readings, what was done, what to watch.", ("proven", "story"), (),
             misconception="owner_need_not_know",
             feedback=_early("It is handed back unproven.", "In which state did the owner complain?")),
        Step("trust", "Put the switch to stop and rely on it while your hand is at the flywheel.",
             belongs=False, misconception="switch_is_enough",
             feedback=Feedback("The stop switch is trusted as a guard.",
                               "The part under test was taken for safe.",
                               "What happens when the switch is the fault?")),
    ),
)  # fmt: skip


def _show(v: Variant) -> Page:
    return Page(
        "",
        (
            Caution(
                "The maker's manual, local codes and licensed practice come first. "
                "A machine that does not start now may start "
                "at the next pull."
            ),
            Text(
                "A whole job, from the complaint to the hand-back. Put the steps in an order in which each "
                "finds what it needs. One has no place here: leave it out."
            ),
            ORDER.steps_block(v),
        ),
    )


TASK = Task(
    id="whole",
    title="A whole job, in order",
    outcome="carry out a job in an order that is safe and proves its end",
    kind="order",
    points=4,
    competency="safety",
    show=_show,
    items=(ORDER,),
    safety=True,
)
