"""Lab 12: what proves a repair, for this complaint."""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.page import Page, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task

COMPLAINTS = {
    "no_start": "It would not start at all, hot or cold.",
    "dies_hot": "It died hot, after ten minutes, and started again when cool.",
    "shaken": "It cut out whenever the wires were moved.",
}
PROOFS = {
    "measured": ("Measure the gap again after tightening, both legs.", ("no_start", "dies_hot", "shaken")),
    "cold": ("Start it cold.", ("no_start", "dies_hot", "shaken")),
    "stop": ("Stop it with its switch.", ("no_start", "dies_hot", "shaken")),
    "hot": ("Run it hot for longer than it took to die, stop it, and restart it at once.", ("dies_hot",)),
    "shake": ("Move lead, boot and stop wire while it runs.", ("shaken",)),
    "once": ("Hear it fire once, then stop: that is enough.", ()),
    "ohms": ("Measure the new module's ohms: in band, so it is good.", ()),
    "owner": ("Let the owner find out at home.", ()),
}


def draw(d: Draw) -> dict[str, Any]:
    """Draw a complaint."""
    return {"verify_complaint": d.pick("complaint", tuple(COMPLAINTS))}


_MISSED = {
    "measured": (
        "tight_is_done",
        "The gap after tightening is left out.",
        "What moves when the screws pull down?",
    ),
    "cold": (
        "it_started_so_fixed",
        "The cold start is left out.",
        "In which state does the owner begin the day?",
    ),
    "stop": (
        "no_continuity_is_good",
        "The stop switch is left out.",
        "Which lead was off during the repair?",
    ),
    "hot": ("not_seen_is_not_there", "The hot run is left out.", "In which state did it fail?"),
    "shake": ("not_seen_is_not_there", "Moving the wires is left out.", "In which state did it fail?"),
}
_TAKEN = {
    "hot": ("order_does_not_matter", "A long hot run is asked for.", "Did this complaint come with heat?"),
    "shake": (
        "order_does_not_matter",
        "Wires are moved on a running engine.",
        "Did this complaint come with shaking?",
    ),
    "once": (
        "it_started_so_fixed",
        "One firing is called enough.",
        "How often did it fire before the repair?",
    ),
    "ohms": (
        "resistance_in_band_proves",
        "Ohms are called a proof.",
        "Do ohms show what the module does hot?",
    ),
    "owner": (
        "it_started_so_fixed",
        "The owner is left to find out.",
        "What does a machine that comes back cost?",
    ),
}


def _options(v: Variant) -> tuple[Option, ...]:
    found = []
    for name, (text, where) in PROOFS.items():
        right = v["verify_complaint"] in where
        misconception, seen, check = (_MISSED if right else _TAKEN)[name]
        why = "A state in which it can fail was forgotten." if right else "It proves nothing here."
        found.append(Option(name, text, right, misconception, Feedback(seen, why, check)))
    return tuple(found)


LIST = Pick("proofs", "all that belongs on the list", _options, several=True)


def show(v: Variant) -> Page:
    """The complaint and what could be done."""
    return Page(
        "",
        (
            Text(f"The complaint was: {COMPLAINTS[v['verify_complaint']]} Module changed, gap set."),
            Text("Which of these belong on the shortest list that proves the repair? Write all that apply."),
            LIST.options_block(v),
        ),
    )


TASK = Task(
    id="verify",
    title="The list that proves it",
    outcome="verify a repair in the condition of the complaint",
    kind="choice",
    points=3,
    competency="repair and verify",
    show=show,
    items=(LIST,),
)
