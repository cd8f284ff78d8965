"""Lab 05: safe before the flywheel is turned, and the order in which a gap is set with a shim.

Common practice, no source; the maker's gap, torque and order come first.
"""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.order import Order, Step
from twostroke.lab.page import Caution, Page, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task

CAUTION = Caution(
    "A flywheel turned by hand can give a shock and can fire what is left in the cylinder. "
    "Its magnets pinch fingers and draw steel. "
    "The maker's manual, local codes and licensed practice come first."
)

_DO = Pick(
    "do",
    "what you do first",
    (
        Option("lead", "Let it cool, pull the lead off the plug, fasten it away from the plug, and take the "
               "attachment off or block it.", True),
        Option("switch", "Set the stop switch to off and leave the lead on the plug.",
               misconception="switch_is_enough",
               feedback=Feedback("The stop switch alone is trusted.", "A switch was taken for a sure stop.",
                                 "The stop lead hangs on the module that you take off: what stops it then?")),
        Option("nothing", "Nothing special: the rope is not pulled, so it cannot start.",
               misconception="no_start_no_danger",
               feedback=Feedback("The flywheel is turned with everything connected.",
                                 "A machine that is not being started was taken for a safe one.",
                                 "What does the magnet do in the module at every pass, pulled or turned?")),
        Option("tank", "Empty the tank; without fuel nothing can happen.", misconception="no_start_no_danger",
               feedback=Feedback("Only the tank is thought of.",
               "What is left in the cylinder was forgotten.",
                                 "Which fuel is already past the carburettor, and what about the shock?")),
    ),
)  # fmt: skip
_WHY = Pick(
    "why",
    "why",
    (
        Option("pass", "Each pass of the magnet can make a spark, even by hand, and what is left in the "
               "cylinder can kick.", True),
        Option("cold", "A cold engine makes no spark, so only the attachment matters.",
               misconception="no_start_no_danger",
               feedback=Feedback("Cold is taken for dead.", "Spark and heat were mixed up.",
                                 "What does the module need to spark: warmth, or a magnet that passes?")),
        Option("magnet", "Taking the lead off makes the magnets weaker, so that they pinch less.",
               misconception="magnet_needs_circuit",
               feedback=Feedback("The magnet is thought to depend on the lead.",
                                 "A lasting magnet was taken for one made by current.",
                                 "Does the flywheel hold a screwdriver when everything is off?")),
        Option("charge", "The module holds a charge for hours, and the lead lets it out.",
               misconception="module_stores_charge",
               feedback=Feedback("A stored charge is feared.", "The module was taken for a battery.",
                                 "Where does the energy of one spark come from, and how long before it?")),
    ),
    needs="do",
)  # fmt: skip


def _show_safe(v: Variant) -> Page:
    lead = f"You are about to set the air gap of the {v['machine']} and will turn its flywheel by hand."
    blocks = (Text("What do you do first?"), _DO.options_block(v), Text("Why?"), _WHY.options_block(v))
    return Page("", (CAUTION, Text(lead), *blocks))


def _early(seen: str, check: str) -> Feedback:
    return Feedback(seen, "A step before it was put off.", check)


_ORDER = Order(
    "steps",
    "order of work",
    (
        Step("lead", "Pull the lead off the plug and fasten it away.", (), ("safe",)),
        Step("clean", "Wipe rust, oil and iron dust off magnets and legs.", (), ("clean",)),
        Step(
            "away", "Turn the flywheel so that the magnets are away from the module.", ("safe",),
            ("magnets away",),
            misconception="no_start_no_danger",
            feedback=_early("The flywheel is turned with the lead on.",
            "What can one pass of the magnet do?"),
        ),
        Step(
            "loosen", "Loosen the module's screws, push it outwards and nip one screw.", ("magnets away",),
            ("module out",),
            misconception="order_does_not_matter",
            feedback=_early("The screws are loosened with the magnets under the module.",
                            "What pulls the module onto the flywheel then?"),
        ),
        Step(
            "under", "Turn the magnets under the legs.", ("module out", "clean"), ("magnets under",),
            misconception="order_does_not_matter",
            feedback=_early("The magnets come under before the module is out and all is clean.",
                            "What may stick to the magnet and lie in the gap?"),
        ),
        Step(
            "shim", "Lay the shim between magnets and both legs.", ("magnets under",), ("shim in",),
            misconception="order_does_not_matter",
            feedback=_early("The shim has nothing to lie against yet.", "What must it lie between?"),
        ),
        Step(
            "seat", "Loosen the screw: the magnets draw both legs onto the shim.", ("shim in",), ("seated",),
            misconception="one_leg_enough",
            feedback=_early("The module is let go with no shim under it.",
            "What keeps the legs off the magnets?"),
        ),
        Step(
            "tighten", "Start every screw by hand, then tighten to the maker's torque.", ("seated",),
            ("tight",),
            misconception="tight_is_done",
            feedback=_early("The screws are tightened before both legs rest on the shim.",
                            "What sets the gap at the moment of tightening?"),
        ),
        Step(
            "roll", "Turn the flywheel so that the shim comes out.", ("tight",), ("shim out",),
            misconception="shim_out_first",
            feedback=_early("The shim comes out before the screws are tight.",
                            "What holds the module away from the magnets until then?"),
        ),
        Step(
            "again", "Turn one whole turn, listen for rubbing, and measure both legs again.", ("shim out",),
            ("proved",),
            misconception="tight_is_done",
            feedback=_early("It is measured before the job is done.", "When can the gap no longer move?"),
        ),
        Step(
            "by_eye", "Set the module as far out as its slots allow, so that it can never rub.",
            belongs=False,
            misconception="wide_never_rubs",
            feedback=Feedback("The module is set as wide as it goes.", "Only rubbing was thought of.",
                              "What does a wide gap do to the speed at which it begins to spark?"),
        ),
    ),
)  # fmt: skip


def _show_order(v: Variant) -> Page:
    lead = "Put the steps in an order in which each finds what it needs. One has no place here: leave it out."
    return Page("", (CAUTION, Text(lead), _ORDER.steps_block(v)))


TASKS = (
    Task(
        id="safe",
        title="Before you turn the flywheel",
        outcome="make a machine safe before its flywheel is turned by hand, and give the reason",
        kind="choice",
        points=2,
        competency="safety",
        items=(_DO, _WHY),
        show=_show_safe,
        safety=True,
    ),
    Task(
        id="setting",
        title="Setting the gap with a shim, in order",
        outcome="set an air gap with a shim in a sound order and prove it after tightening",
        kind="order",
        points=3,
        competency="air gap",
        items=(_ORDER,),
        show=_show_order,
    ),
)
