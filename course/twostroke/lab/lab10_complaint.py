"""Lab 10: the owner's words sorted into evidence, opinion and what still has to be asked."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.page import Page, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task


@dataclass(frozen=True)
class Story:
    """What an owner says: kind of complaint, evidence, opinions, the question that splits most, others."""

    words: str
    kind: str
    evidence: tuple[str, ...]
    opinions: tuple[str, ...]
    ask: str
    others: tuple[str, ...]


KINDS = {
    "no_start": "will not start at all",
    "hard_cold": "starts hard when cold, then runs",
    "dies_hot": "starts cold, dies hot, restarts after a rest",
    "after_lead_moved": "comes and goes when wires or cover are moved",
    "weak_run": "starts and runs, but weak",
}
"""Kinds of complaint of the course's own table."""

STORIES = (
    Story(
        "Every morning it starts at the second pull. After a quarter of an hour in the hedge it stops "
        "dead, and after "
        "my coffee it goes again. It must be the carburettor; my neighbour's was. I put in a new plug, no "
        "change. It "
        "is a good make, it cannot be the coil.",
        "dies_hot",
        ("It starts at the second pull when cold.", "It stops after a quarter of an hour.",
         "A new plug changed nothing."),
        ("It must be the carburettor.", "It cannot be the coil, for it is a good make.",
         "The neighbour's had the same."),
        "When it has stopped hot: is there a spark at the tester at that moment?",
        ("What did it cost when it was new?", "Which colour has the fuel can?"),
    ),
    Story(
        "Last week it ran. On Saturday I left it in the rain, and since then nothing, not a cough, ten "
        "pulls with the "
        "choke in. The spark is surely all right, I saw one years ago. It smells of fuel. These things "
        "never last.",
        "no_start",
        ("It ran last week.", "It stood in the rain on Saturday.",
        "It smells of fuel after ten pulls with choke."),
        ("The spark is surely all right.", "These things never last.", "Rain gets into every engine."),
        "With the plug out and dry: does the tester flash now?",
        ("How many hedges have you cut?", "Do you like the handle?"),
    ),
    Story(
        "It goes and it stops, as it likes. When I push the cover at the back it often comes back. Since "
        "my son had "
        "the cover off it does that. He is good with engines, so it is not that. I think the fuel is too "
        "cheap.",
        "after_lead_moved",
        ("It comes back when the cover is pushed.", "The cover was off before it began.",
         "It stops and goes at any time."),
        ("The son is good with engines, so it is not that.", "The fuel is too cheap.",
         "An engine that goes now and then is not broken."),
        "Does the tester go dark when lead and wires are moved, cover off?",
        ("How old is the son?", "Which shop sells the fuel?"),
    ),
    Story(
        "It starts, but it has no power any more, a little less each month. It never smoked before, now "
        "it does, and "
        "the end of the muffler is black. I turn the screw a bit richer each time. It wants a new piston, "
        "I suppose.",
        "weak_run",
        ("It lost power month by month.", "It smokes now, and did not before.",
        "The screw was turned richer."),
        ("It wants a new piston.", "Engines get weak with age.", "Richer is always stronger."),
        "When was the spark-arrester screen last out and clean?",
        ("Who taught you to turn the screw?", "Is the muffler the first one?"),
    ),
)  # fmt: skip


def draw(d: Draw) -> dict[str, Any]:
    """Draw a story."""
    return {"story": d.integer("story", 0, len(STORIES) - 1)}


def _story(v: Variant) -> Story:
    return STORIES[v["story"]]


def _kinds(v: Variant) -> tuple[Option, ...]:
    told = Feedback("Another kind of complaint is named.", "One word of the story was taken for the whole.",
                    "When does it happen: cold or hot, always or not, at once or bit by bit?")  # fmt: skip
    return tuple(
        Option(name, text, name == _story(v).kind, "first_word_decides", told) for name, text in KINDS.items()
    )


def _facts(v: Variant) -> tuple[Option, ...]:
    missed = Feedback("Something that was seen is left out.", "It was taken for talk.",
                      "Which sentences could someone else have watched?")  # fmt: skip
    taken = Feedback("An opinion is counted as evidence.", "It sounded sure.",
                     "Was it seen or measured, or was it concluded?")  # fmt: skip
    story = _story(v)
    return (
        *(
            Option(f"seen_{n}", text, True, "opinion_is_evidence", missed)
            for n, text in enumerate(story.evidence)
        ),
        *(
            Option(f"said_{n}", text, False, "opinion_is_evidence", taken)
            for n, text in enumerate(story.opinions)
        ),
    )


def _questions(v: Variant) -> tuple[Option, ...]:
    told = Feedback("The answer to it would change nothing.", "It was asked out of habit.",
                    "Name two faults that fit the story: which question tells them apart?")  # fmt: skip
    story = _story(v)
    condemned = Option(
        "condemn", "None: order the part the owner names.", False, "parts_first",
        Feedback("The owner's part is ordered.", "An opinion was taken for a finding.",
                 "Which reading of yours speaks for that part?"),
    )  # fmt: skip
    return (
        Option("split", story.ask, True),
        *(Option(f"idle_{n}", text, False, "one_test_decides", told) for n, text in enumerate(story.others)),
        condemned,
    )


KIND = Pick("kind", "kind of complaint", _kinds)
FACTS = Pick("facts", "all that is evidence", _facts, several=True, share=2)
ASK = Pick("ask", "what you ask or look at next", _questions)


def show(v: Variant) -> Page:
    """The owner's words."""
    return Page(
        "",
        (
            Text(f"The owner says: “{_story(v).words}”"),
            Text("Kind of complaint:"), KIND.options_block(v),
            Text("Which of these is evidence? Write all that apply."), FACTS.options_block(v),
            Text("What do you ask or look at next?"), ASK.options_block(v),
        ),
    )  # fmt: skip


TASK = Task(
    id="complaint",
    title="What did the owner really tell you?",
    outcome="turn a complaint into evidence and ask what splits it",
    kind="choice",
    points=4,
    competency="taking a complaint",
    show=show,
    items=(KIND, FACTS, ASK),
)
