"""Lab 08: a compression test in a safe order, and what makes a sound engine read low.

The order is common practice, no source; the maker's manual comes first.
"""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.order import Order, Step
from twostroke.lab.page import Caution, Page, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task

CAUTION = Caution(
    "With the plug out, fuel mist leaves the hole and the lead can spark: lead clamped to bare metal well "
    "away from "
    "the hole, face away. Blade, chain or line off or guarded. "
    "The maker's manual, local codes and licensed practice come first."
)

_ORDER = Order(
    "steps",
    "order of work",
    (
        Step("guard", "Take off or guard the blade, chain or line; let the engine cool.", (), ("guarded",)),
        Step("boot", "Pull the boot off the plug.", (), ("boot off",)),
        Step("dirt", "Blow or brush the dirt away from around the plug.", (), ("clean",)),
        Step("out", "Take the plug out.", ("boot off", "clean", "guarded"), ("plug out",),
             misconception="order_does_not_matter",
             feedback=Feedback("The plug comes out before the place is ready.",
             "A step before it was put off.",
                               "What can fall into the hole, and what still hangs on the plug?")),
        Step("ground", "Clamp the lead to bare metal, well away from the plug hole.", ("boot off",),
             ("lead grounded",), misconception="no_start_no_danger",
             feedback=Feedback("The lead is clamped while it is still on the plug.",
                               "Its boot was not pulled yet.",
                               "What must come off before you can clamp it?")),
        Step("open", "Set throttle and choke fully open, decompression valve shut.", (), ("air in",)),
        Step("gauge", "Screw the gauge in by hand until its seal sits.", ("plug out",), ("gauge in",),
             misconception="order_does_not_matter",
             feedback=Feedback("The gauge goes in while the plug is still there.",
             "Two things share one hole.",
                               "What must come out of it first?")),
        Step("pull", "Pull briskly until the needle no longer rises; write the reading down.",
             ("gauge in", "lead grounded", "air in", "guarded"), ("read",),
             misconception="half_turn_is_full_pull",
             feedback=Feedback("It is pulled before lead, throttle and gauge are ready.",
                               "The reading would be low, or the pull unsafe.",
                               "Name the three things that must be set before the first pull.")),
        Step("bleed", "Press the valve and let the gauge down to zero.", ("read",), ("bled",),
             misconception="order_does_not_matter",
             feedback=Feedback("The gauge is let down before it was read.", "The reading is gone.",
                               "What do you want from the gauge before you empty it?")),
        Step("off", "Unscrew the gauge.", ("bled",), ("gauge out",), misconception="vapour_is_gone",
             feedback=Feedback("A gauge under pressure is unscrewed.", "The air in it was forgotten.",
                               "What is still in the hose after the last pull?")),
        Step("refit", "Start the plug by hand, tighten it as the maker says, boot on.", ("gauge out",),
        ("done",),
             misconception="order_does_not_matter",
             feedback=Feedback("The plug goes back while the gauge is in.", "Two things share one hole.",
                               "What must come out of it first?")),
        Step("spoon", "Begin with a spoon of oil, so that the first reading is a good one.", belongs=False,
             misconception="oil_repairs",
             feedback=Feedback("The test begins wet.", "A good reading was wanted instead of a true one.",
                               "What do you compare a wet reading with?")),
    ),
)  # fmt: skip


def _show_order(v: Variant) -> Page:
    lead = "Put the steps in an order in which each finds what it needs. One has no place here: leave it out."
    return Page("", (CAUTION, Text(lead), _ORDER.steps_block(v)))


def _low(name: str, text: str, seen: str, check: str, misconception: str, right: bool = True) -> Option:
    why = "It was left out of the list." if right else "Something that the gauge cannot feel was named."
    return Option(name, text, right, misconception, Feedback(seen, why, check))


LOW = Pick(
    "causes",
    "all that make a sound engine read low",
    (
        _low("half", "The rope was pulled twice, gently.", "Gentle pulls are passed over.",
             "How many pulls does the needle climb for?", "half_turn_is_full_pull"),
        _low("throttle", "The throttle was shut and the choke was in.",
        "Shut throttle and choke are passed over.",
             "Where does the air come in that is to be squeezed?", "inside_is_always_good"),
        _low("valve", "The decompression valve stood open.", "The open decompression valve is passed over.",
             "What is this valve made for?", "looks_right_is_right"),
        _low("hose", "The gauge has a long hose with its valve at the dial.",
             "The room in the hose is passed over.",
             "On a small cylinder, how much does a hose add to the room at the top?",
             "leak_down_percent_compares"),
        _low("plug_gap", "The plug that was taken out had a wide gap.", "The plug gap is named.",
             "Where is the plug while the gauge is in?", "common_is_likely_here", False),
        _low("stale", "The fuel in the tank is a year old.", "The fuel is named.",
             "Does the gauge measure what burns, or what is squeezed?", "common_is_likely_here", False),
        _low("module", "The module has too wide an air gap.", "The module is named.",
             "Does a spark take part in this test?", "wide_gap_always_kills", False),
    ),
    several=True,
)  # fmt: skip


def _show_low(v: Variant) -> Page:
    lead = "A tight engine shows a low reading. Which of these can be the reason? Write all that apply."
    return Page("", (Text(lead), LOW.options_block(v)))


TASKS = (
    Task(
        id="order",
        title="A compression test, in order",
        outcome="measure compression in a safe order that gives a true reading",
        kind="order",
        points=4,
        competency="safety",
        show=_show_order,
        items=(_ORDER,),
        safety=True,
    ),
    Task(
        id="causes",
        title="A low reading that is not the engine's",
        outcome="name what makes a sound engine read low",
        kind="choice",
        points=2,
        competency="compression and sealing",
        show=_show_low,
        items=(LOW,),
    ),
)
