"""Lab 12: a module changed in a sound order, and hands kept safe.

The order is common practice, no source; the maker's manual and its torque come first.
"""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.order import Order, Step
from twostroke.lab.page import Caution, Page, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task

_DO = Pick(
    "do",
    "before your hands go to the flywheel",
    (
        Option("boot", "Let it cool, pull the boot off and tie it away from the plug, guard the blade.",
        True),
        Option("switch", "Set the stop switch to stop.", misconception="switch_is_enough", feedback=Feedback(
            "The stop switch alone is trusted.", "The part was taken for a guard.",
            "What if its lead is the broken part, or someone knocks it?")),
        Option("dead", "Nothing: it does not start anyway.", misconception="no_start_no_danger",
        feedback=Feedback(
            "A dead machine is called a safe one.", "It may fire the moment the fault is gone.",
            "What happens at the flywheel when the new module is in and you turn it?")),
        Option("lead", "Leave the lead hanging free so that no spark can reach the plug.",
               misconception="switch_is_enough", feedback=Feedback(
            "The lead hangs open.", "A spark that finds no gap was thought harmless.",
            "Where does the voltage go, and what does that do to module or hand?")),
    ),
)  # fmt: skip
_AFTER = Pick(
    "after",
    "before the first start after the repair",
    (
        Option("ready", "Tools off, cover on, outdoors, away from fuel, blade guarded; the stop lead "
        "proven at once.",
               True),
        Option("open", "Cover still off, to see the flywheel turn.", misconception="no_start_no_danger",
               feedback=Feedback("It is started with the flywheel bare.", "Seeing was put above fingers.",
                                 "What can touch the flywheel, and how fast is it?")),
        Option("indoors", "On the bench, with the door open.", misconception="vapour_is_gone",
        feedback=Feedback(
            "It is started indoors.", "Exhaust gas and vapour were forgotten.",
            "What does the exhaust carry that you cannot smell?")),
        Option("later", "Prove the stop switch at the end, when all else is right.",
        misconception="switch_is_enough",
               feedback=Feedback("It runs before it is known to stop.",
               "The stop lead was off during the repair.",
                                 "How do you stop it if that lead was not put back?")),
    ),
)  # fmt: skip


def _show_safe(v: Variant) -> Page:
    return Page(
        "",
        (
            Caution("The maker's manual, local codes and licensed practice come first. "
                    "A person with a heart pacemaker keeps "
            "away from a "
                    "working ignition."),
            Text("Before your hands go to the flywheel:"), _DO.options_block(v),
            Text("Before the first start after the repair:"), _AFTER.options_block(v),
        ),
    )  # fmt: skip


SAFE = Task(
    id="safe",
    title="Hands and first start",
    outcome="keep hands safe at the flywheel and at the first start",
    kind="choice",
    points=2,
    competency="safety",
    show=_show_safe,
    items=(_DO, _AFTER),
    safety=True,
)


def _early(seen: str, check: str) -> Feedback:
    return Feedback(seen, "A step that it rests on was put off.", check)


_ORDER = Order(
    "steps",
    "order of work",
    (
        Step("safe", "Cool, boot off the plug and tied away, blade guarded.", (), ("safe",)),
        Step("cover", "Take the cover off.", ("safe",), ("open",), misconception="no_start_no_danger",
             feedback=_early("The cover comes off a machine that may fire.",
             "What must hang away from the plug?")),
        Step("note", "Note which way round the module sits and how the leads run.", ("open",), ("noted",),
             misconception="order_does_not_matter",
             feedback=_early("Places are noted before they can be seen.", "What is still in front of them?")),
        Step("out", "Stop lead off, screws out, old module off.", ("noted",), ("out",),
             misconception="order_does_not_matter",
             feedback=_early("It comes out before its place is noted.",
             "How will you know which way it sat?")),
        Step("clean", "Clean the seats: its ground goes through them.", ("out",), ("clean",),
             misconception="looks_right_is_right",
             feedback=_early("Seats are cleaned with the module on them.", "What covers the seats?")),
        Step("in", "New module the same way round, leads in their clips, screws started by hand, not tight.",
             ("clean",), ("in",), misconception="tight_is_done",
             feedback=_early("The new one goes on dirty seats, or with the old one there.",
                             "Through what does its ground go?")),
        Step("shim", "Turn the magnet under it, shim between, press the module on.", ("in",), ("on shim",),
             misconception="tight_is_done",
             feedback=_early("The shim goes in before there is a module to press on it.",
                             "What must be in place, and still loose?")),
        Step("tight", "Tighten to the maker's torque, shim out, turn a full turn by hand.", ("on shim",),
        ("tight",),
             misconception="tight_is_done",
             feedback=_early("It is tightened without the shim.",
             "What sets the gap while the screws pull down?")),
        Step("measure", "Measure the gap again at both legs; write it down.", ("tight",), ("measured",),
             misconception="tight_is_done",
             feedback=_early("The gap is written down before the last screw is tight.",
                             "What moves when the screws pull down?")),
        Step("close", "Stop lead on, cover on, boot on.", ("measured",), ("closed",),
        misconception="tight_is_done",
             feedback=_early("It is closed before the gap was measured again.",
                             "Which reading will stand on the card for the finished job?")),
        Step("verify", "Verify outdoors: stop switch, cold, hot, restart; sign the card.", ("closed",),
        ("done",),
             misconception="it_started_so_fixed",
             feedback=_early("It is verified before it is closed.",
             "What must be on again before it may run?")),
        Step("bend", "Bend the legs a little until the gap looks right.", belongs=False,
             misconception="looks_right_is_right",
             feedback=Feedback("The legs are bent.", "A gap was set by force and by eye.",
                               "What sets the gap, and with what is it measured?")),
    ),
)  # fmt: skip


def _show_order(v: Variant) -> Page:
    lead = "Change the module: an order in which each step finds what it needs. One has no place here."
    return Page("", (Text(lead), _ORDER.steps_block(v)))


ORDER = Task(
    id="order",
    title="A module changed, in order",
    outcome="do a repair in an order in which no step has to be done twice",
    kind="order",
    points=4,
    competency="repair and verify",
    show=_show_order,
    items=(_ORDER,),
)
