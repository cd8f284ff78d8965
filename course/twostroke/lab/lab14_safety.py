"""Lab 14, safety: what is done first in one of three situations, and why.

A restart at least 3 m from where fuel was handled: 29 CFR 1910.266 (from memory). The rest is common
practice, no source; the maker's manual and local rules come first.
"""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.page import Caution, Page, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task

Row = tuple[str, str, str, str, str, str]
"""Name, text, misconception, what is seen, what it suggests, what to check."""

SITUATIONS: dict[str, tuple[str, str, str]] = {
    "hot": (
        "It died hot under your hands. You think of the tank vent and want to open the cap.",
        "Stop, let it cool for twenty minutes, stand it upright outdoors, open the cap slowly and listen.",
        "A hot tank is under pressure: fuel sprays on hot metal.",
    ),
    "verify": (
        "The new fuel line is in, the tank is filled on the bench. Now the verify run.",
        "Wipe up, close the can, carry the machine outdoors well away from where it was filled, hold it "
        "down, start.",
        "Vapour stays where fuel was handled, and exhaust gas stays in a room.",
    ),
    "flywheel": (
        "The air gap is to be set. The plug is in, and the owner says that it never fires.",
        "Boot off the plug and tied away, attachment guarded, then the hand to the flywheel.",
        "A machine that never fires may fire at the next turn.",
    ),
}
_DO: dict[str, tuple[Row, ...]] = {
    "hot": (
        ("quick", "Open the cap at once while the symptom is there; a rag over it holds the spray.",
         "no_start_no_danger", "The cap of a hot tank is opened.", "The symptom was put above the burn.",
         "What does the pressure do with the fuel when the cap gives way?"),
        ("spark", "Clamp the tester first and pull, cap loosened, to see whether the spark is gone too.",
         "vapour_is_gone", "A spark is made beside an opened tank.", "Two tests were put into one.",
         "Where does the vapour from the loosened cap go?"),
        ("running", "Start it again and loosen the cap while it runs: then it is proven.",
         "looks_right_is_right", "A tank is opened over a running engine.", "Proof was put above fire.",
         "What is hot, and what sparks, below the cap?"),
    ),
    "verify": (
        ("bench", "Start it where it stands, the door is open; the can is nearly closed.",
         "vapour_rises", "It is started beside open fuel.", "The door was trusted to carry vapour away.",
         "Is vapour lighter or heavier than air?"),
        ("inside", "Carry the can away and start it on the bench for just a minute.",
         "vapour_is_gone", "An engine runs in a room where fuel was spilt.", "A minute was taken for "
                                                                             "nothing.",
         "What stays in a room: exhaust, and the vapour of the drops?"),
        ("switch", "Start it outdoors; the stop switch will do if the attachment catches.",
         "switch_is_enough", "The switch is trusted as a guard.", "It has not been proven since the repair.",
         "Which part of this run proves the switch?"),
    ),
    "flywheel": (
        ("stop", "Switch to stop, then the hand to the flywheel.",
         "switch_is_enough", "The stop switch is trusted as a guard.", "The part under test was taken for "
                                                                       "safe.",
         "What if the switch is the fault?"),
        ("never", "It never fires, so the hand to the flywheel at once.",
         "no_start_no_danger", "The owner's word is taken for a guard.", "No start was taken for no danger.",
         "What does a loose wire do when you move it?"),
        ("hang", "Pull the boot off and let the lead hang while you turn it.",
         "open_hole_is_harmless", "The lead hangs open while it is turned.", "Only the plug was thought of.",
         "Where do thousands of volts go from an open lead?"),
    ),
}  # fmt: skip
_WHY: tuple[Row, ...] = (
    ("reading", "Because the reading would be wrong otherwise.", "order_does_not_matter",
     "The reading is given as the reason.", "The danger was passed over.", "What could happen to you?"),
    ("minutes", "Because it takes the fewest minutes.", "cheapest_test_first",
     "Minutes are given as the reason.", "The danger was passed over.", "What could happen to you?"),
    ("rule", "Because the owner asked for it to be done quickly.", "first_word_decides",
     "The owner's hurry is given as the reason.", "The danger was passed over.", "Who is hurt if it goes "
                                                                                 "wrong?"),
)  # fmt: skip


def draw(d: Draw) -> dict[str, Any]:
    """Draw the situation."""
    return {"safe_situation": d.pick("safe situation", tuple(SITUATIONS))}


def _wrong(rows: tuple[Row, ...]) -> list[Option]:
    return [
        Option(name, text, misconception=misconception, feedback=Feedback(*parts))
        for name, text, misconception, *parts in rows
    ]


def _do(v: Variant) -> tuple[Option, ...]:
    which = v["safe_situation"]
    return (Option(f"{which}_safe", SITUATIONS[which][1], True), *_wrong(_DO[which]))


def _why(v: Variant) -> tuple[Option, ...]:
    which = v["safe_situation"]
    return (Option(f"{which}_reason", SITUATIONS[which][2], True), *_wrong(_WHY))


DO = Pick("do", "what you do", _do)
WHY = Pick("why", "why", _why, needs="do")


def _show(v: Variant) -> Page:
    return Page(
        "",
        (
            Caution(
                "A person with a heart pacemaker keeps away from a working ignition. "
                "The maker's manual, local codes and licensed practice come first."
            ),
            Text(SITUATIONS[v["safe_situation"]][0]),
            Text("What do you do?"),
            DO.options_block(v),
            Text("Why?"),
            WHY.options_block(v),
        ),
    )


TASK = Task(
    id="safe",
    title="Before you go on",
    outcome="choose what keeps hands and shop whole, and say why",
    kind="choice",
    points=2,
    competency="safety",
    show=_show,
    items=(DO, WHY),
    safety=True,
)
