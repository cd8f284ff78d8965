"""Lab 10: from a fuel test to a spark test."""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.page import Caution, Page, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task

_DO = Pick(
    "do",
    "what you do first",
    (
        Option("clear", "Close tank and can, wipe up, carry the fuel away, wait five minutes, cover the "
        "plug hole, "
               "clamp the tester to metal away from it.", True),
        Option("quick", "Pull at once: the sample glass stands right there, but the cap is nearly shut.",
               misconception="no_start_no_danger", feedback=Feedback(
            "A spark is made beside open fuel.", "The order with the fewest minutes was put above fire.",
            "What does the open glass give off, and where does it go?")),
        Option("hand", "Hold the lead a finger's breadth from the cylinder and watch for the spark.",
               misconception="open_air_spark_proves", feedback=Feedback(
            "The lead is held by hand.", "A tester was thought to be a luxury.",
            "Where do thousands of volts go when the gap is too wide for them?")),
        Option("fan", "Blow the vapour away with the workshop fan and pull.",
               misconception="vapour_rises", feedback=Feedback(
            "A fan with its own sparks stirs the vapour.", "The vapour was thought to be gone when it moves.",
            "What makes the fan turn, and where does it blow the vapour?")),
    ),
)  # fmt: skip
_WHY = Pick(
    "why",
    "why",
    (
        Option("low", "Vapour lies low and lights at a spark; a clamped tester keeps the spark where I "
        "want it.", True),
        Option("gone", "The vapour is gone as soon as the cap is shut.", misconception="vapour_is_gone",
               feedback=Feedback("The vapour is thought gone at once.", "Only the can was thought of.",
                                 "What of the drops on the bench and the rag?")),
        Option("rule", "The fuel test would give a wrong reading otherwise.",
        misconception="order_does_not_matter",
               feedback=Feedback("The reading is given as the reason.", "The danger was passed over.",
                                 "What could happen to you, not to the reading?")),
        Option("switch", "With the stop switch on stop there can be no spark.",
        misconception="switch_is_enough",
               feedback=Feedback("The stop switch is trusted.", "The part under test was taken for a guard.",
                                 "Is it known that this switch works?")),
    ),
    needs="do",
)  # fmt: skip


def _show(v: Variant) -> Page:
    return Page(
        "",
        (
            Caution("A person with a heart pacemaker keeps away from a working ignition. Never pull with "
            "the lead "
                    "hanging open. The maker's manual, local codes and licensed practice come first."),
            Text("The quickest order says: fuel sample into a glass, then spark at the tester. The sample "
            "is drawn."),
            Text("What do you do first?"), _DO.options_block(v),
            Text("Why?"), _WHY.options_block(v),
        ),
    )  # fmt: skip


TASK = Task(
    id="safe",
    title="From fuel to spark",
    outcome="go from a fuel test to a spark test safely",
    kind="choice",
    points=2,
    competency="safety",
    show=_show,
    items=(_DO, _WHY),
    safety=True,
)
