"""Lab 01, safety: fuel vapour, and the order in which a can is mixed and a tank is filled.

Petrol vapour is heavier than air: density 3 to 4, air = 1, as its safety data sheets say (from memory).
Moving away from the filling place before starting is common practice, no source. The maker's manual and local
rules come first.
"""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.order import Order, Step
from twostroke.lab.page import Caution, Page, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task

CAUTION = Caution(
    "Fuel vapour lights at a spark. The maker's manual, local codes and licensed practice come first."
)

_PLACE = Pick(
    "place",
    "what you do",
    (
        Option("outside",
        "Carry machine and can outside, away from flames and sparks; let the engine cool.", True),
        Option(
            "door_open", "Fill it on the bench with the door open, for the engine is not running.",
            misconception="no_start_no_danger",
            feedback=Feedback(
                "Fuel is opened indoors.", "A machine that stands still was taken for a safe one.",
                "What else in a workshop makes sparks or heat: heater, grinder, light switch?",
            ),
        ),
        Option(
            "fill_hot",
            "Fill it at once while it is hot, quickly, and put the cap back before vapour can form.",
            misconception="vapour_is_gone",
            feedback=Feedback(
                "Fuel is poured beside a hot muffler.", "Vapour was thought to need time.",
                "How long does a drop of petrol on a hot part take to turn into vapour?",
            ),
        ),
        Option(
            "switch_off", "Set the stop switch to off; then any place will do.",
            misconception="switch_is_enough",
            feedback=Feedback(
                "The stop switch is trusted with the fuel.", "Only the engine's own spark was thought of.",
                "Does the switch cool the muffler, or put out the heater next door?",
            ),
        ),
    ),
)  # fmt: skip
_REASON = Pick(
    "reason",
    "why",
    (
        Option("heavy",
        "The vapour is heavier than air and runs along the floor to any spark, flame or hot part.", True),
        Option(
            "rises", "The vapour rises and leaves through the window, so only the ceiling matters.",
            misconception="vapour_rises",
            feedback=Feedback(
                "The danger is looked for at the ceiling.", "Petrol vapour was taken to rise like warm air.",
                "Where does the smell of a spill gather: at your knees or over your head?",
            ),
        ),
        Option(
            "liquid", "Only the liquid burns, so nothing happens as long as none is spilt.",
            misconception="only_liquid_burns",
            feedback=Feedback(
                "Vapour is left out.", "The liquid was thought to burn by itself.",
                "What is above the fuel in an open can, and does it need to be spilt to be there?",
            ),
        ),
        Option(
            "oil_calms", "The oil in the mixture keeps the fuel from giving off vapour.",
            misconception="oil_calms_fuel",
            feedback=Feedback(
                "The oil is trusted to hold the vapour back.",
                "A few parts in a hundred were thought to change the fuel.",
                "Smell a can of mixture: is there less vapour than over plain fuel?",
            ),
        ),
    ),
    needs="place",
)  # fmt: skip


def _show_vapour(v: Variant) -> Page:
    lead = f"The {v['machine']} has run dry in the middle of a job. You want to fill it and go on."
    return Page(
        "",
        (
            CAUTION,
            Text(lead),
            Text("What do you do?"),
            _PLACE.options_block(v),
            Text("Why?"),
            _REASON.options_block(v),
        ),
    )


def _early(seen: str, check: str) -> Feedback:
    return Feedback(seen, "A step before it was put off.", check)


_ORDER = Order(
    "steps",
    "order of work",
    (
        Step("cool", "Stop the engine and let it cool.", (), ("cold",)),
        Step("outside", "Take the machine and the can outside, away from flames and sparks.", (),
        ("outside",)),
        Step("manual", "Read the ratio in the maker's manual.", (), ("ratio known",)),
        Step(
            "ground", "Stand the approved can on the ground and open it.", ("outside",), ("can open",),
            misconception="vapour_rises",
            feedback=_early("The can is opened indoors.", "Where may vapour be let out?"),
        ),
        Step(
            "fuel", "Pour the measured fuel into the can.", ("can open",), ("fuel in",),
            misconception="order_does_not_matter",
            feedback=_early("Fuel is poured before the can stands open on the ground.",
            "What must stand ready first?"),
        ),
        Step(
            "oil", "Measure the oil for that fuel and pour it into the can.", ("can open", "ratio known"),
            ("oil in",),
            misconception="course_beats_manual",
            feedback=_early("Oil goes in before ratio and can are ready.",
            "What tells you how much oil it must be?"),
        ),
        Step(
            "shake", "Close the can and shake it.", ("fuel in", "oil in"), ("mixed",),
            misconception="order_does_not_matter",
            feedback=_early("The can is shaken before both liquids are in.",
            "What is to be mixed with what?"),
        ),
        Step(
            "fill", "Open the tank cap slowly and fill the tank.", ("mixed", "cold", "outside"), ("filled",),
            misconception="no_start_no_danger",
            feedback=_early("The tank is filled before engine, place and mixture are ready.",
                            "Which three things must be true when fuel meets the machine?"),
        ),
        Step(
            "wipe", "Close both caps and wipe up every drop.", ("filled",), ("dry",),
            misconception="order_does_not_matter",
            feedback=_early("Wiping comes before filling.", "When do the drops fall?"),
        ),
        Step(
            "away", "Carry the machine well away from where you filled it, then start it.", ("dry",),
            ("running",),
            misconception="vapour_is_gone",
            feedback=_early("The engine is started where fuel lies open.",
            "What lies in the air there, and what does a start bring?"),
        ),
        Step(
            "idle", "Let the engine idle while you fill, so that it stays warm.", belongs=False,
            misconception="no_start_no_danger",
            feedback=Feedback("The engine runs while the tank is open.", "A warm start was put above fire.",
                              "Name the spark and the hot part beside the open tank."),
        ),
    ),
)  # fmt: skip


def _show_order(v: Variant) -> Page:
    lead = "Put the steps in an order in which each finds what it needs. One has no place here: leave it out."
    return Page("", (CAUTION, Text(lead), _ORDER.steps_block(v)))


TASKS = (
    Task(
        id="vapour",
        title="Where you fill it, and why",
        outcome="choose a safe place for handling fuel and give the reason",
        kind="choice",
        points=2,
        competency="safety",
        items=(_PLACE, _REASON),
        show=_show_vapour,
        safety=True,
    ),
    Task(
        id="mixing",
        title="Mixing and filling, in order",
        outcome="mix fuel and fill a tank in a safe order",
        kind="order",
        points=3,
        competency="safety",
        items=(_ORDER,),
        show=_show_order,
        safety=True,
    ),
)
