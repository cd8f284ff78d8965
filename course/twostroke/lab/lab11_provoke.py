"""Lab 11: the condition under which a fault shows, and what must be watched while it does."""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.page import Page, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task

STORIES = {
    "hot": (
        "Cold it starts at once. After ten minutes it stops as if switched off. Half an hour later it "
        "goes again.",
        "Runs well until the tank is half empty, then dies; cold next morning it is fine. Fuel and vent "
        "are in order.",
    ),
    "shake": (
        "It cuts out over rough ground and comes back by itself. On the bench it runs for an hour.",
        "When the handle is knocked it misses. Standing still it never does.",
    ),
    "damp": (
        "On wet mornings it will not start, by noon it does. In the heated shop it has never failed.",
        "After a night in the dew it is dead; wiped dry it runs all day.",
    ),
    "slow": (
        "My son starts it at once, I cannot. Once it runs it runs all day.",
        "With a full, hard pull it goes, with an ordinary pull it does not.",
    ),
}
"""Condition under which the fault shows -> what an owner may say."""
CONDITIONS = {
    "hot": "Bring it to the heat in which it fails, then test at that moment.",
    "shake": "Move lead, boot, stop wire and connectors while it is pulled.",
    "damp": "Mist lead and boot with water, in the dark.",
    "slow": "Pull slowly, then fast, and compare.",
    "cold": "Test it on the bench as it stands, cold.",
}
WATCH = {
    "hot": "the tester at the moment it has died: flash or dark",
    "shake": "the tester while each wire is moved: which one makes it go dark",
    "damp": "where sparks run along lead, boot or porcelain",
    "slow": "from which speed of the pull on the tester flashes",
    "clock": "how long it runs before it is sold again",
}


def draw(d: Draw) -> dict[str, Any]:
    """Draw a story."""
    kind = d.pick("story", tuple(STORIES))
    return {"story_kind": kind, "story": d.pick("story words", STORIES[kind])}


def _conditions(v: Variant) -> tuple[Option, ...]:
    told = Feedback("The fault would stay away.",
    "It was tested in another state than the one in which it fails.",
                    "What is the same each time it fails: heat, water, shaking, or the pull?")  # fmt: skip
    return tuple(
        Option(name, text, name == v["story_kind"], "not_seen_is_not_there", told)
        for name, text in CONDITIONS.items()
    )


def _watch(v: Variant) -> tuple[Option, ...]:
    told = Feedback("You would see that it fails, not what fails.", "Another fault was watched for.",
                    "Under the condition you chose: which reading tells two suspects apart?")  # fmt: skip
    return tuple(
        Option(name, text, name == v["story_kind"], "one_test_decides", told) for name, text in WATCH.items()
    )


def _prove(v: Variant) -> tuple[Option, ...]:
    return (
        Option("both", "It failed under the condition before the repair, and does not any more, often "
        "enough.", True),
        Option("once", "It starts after the repair.", False, "it_started_so_fixed", Feedback(
            "One start is called a proof.", "The chance that it would have started anyway was left out.",
            "How often did it start before anything was done?")),
        Option("cold", "The cold readings are all in their bands.", False, "inside_is_always_good", Feedback(
            "Cold readings are called a proof.", "The state in which it fails was left out.",
            "Were they out of their bands before the repair?")),
        Option("new", "The part is new.", False, "parts_first", Feedback(
            "A new part is called a proof.", "Part changed and fault cured were taken for one.",
            "What shows that the old part was the guilty one?")),
    )  # fmt: skip


CONDITION = Pick("condition", "how you make it fail", _conditions)
SEEN = Pick("watch", "what you watch while it does", _watch)
PROOF = Pick("proof", "what will prove the repair", _prove)


def show(v: Variant) -> Page:
    """The story and what can be chosen."""
    return Page(
        "",
        (
            Text(f"The owner says: “{v['story']}”"),
            Text("How do you make it fail?"), CONDITION.options_block(v),
            Text("What do you watch while it does?"), SEEN.options_block(v),
            Text("What will prove the repair?"), PROOF.options_block(v),
        ),
    )  # fmt: skip


TASK = Task(
    id="provoke",
    title="Make it fail",
    outcome="plan a test under the condition in which the fault shows",
    kind="choice",
    points=3,
    competency="intermittent faults",
    show=show,
    items=(CONDITION, SEEN, PROOF),
)
