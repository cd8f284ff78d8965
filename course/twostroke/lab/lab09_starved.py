"""Lab 09: starved, flooded or without spark, and the tests of a starved engine in order.

The order is common practice, no source; the maker's manual comes first.
"""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.order import Order, Step
from twostroke.lab.page import Caution, Lines, Page, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task

EVIDENCE = {
    "starved": (
        (
            "plug dry after ten pulls, choke in",
            "tester at a wide gap flashes",
            "a dose of fuel: it runs two seconds",
        ),
        (
            "runs five minutes, dies slowly; plug dry",
            "hiss when the cooled tank is opened",
            "restarts after that",
        ),
    ),
    "flooded": (
        (
            "plug dripping wet",
            "tester at a wide gap flashes",
            "fires once with the throttle wide open, choke out",
        ),
        ("choke left in for twenty pulls", "strong smell of fuel, wet plug", "tester flashes on every pull"),
    ),
    "no_spark": (
        ("plug dripping wet", "tester stays dark on every pull", "stop lead off: still dark"),
        (
            "wet plug, dried twice, wet again",
            "no flash at the narrowest tester gap",
            "compression as it should be",
        ),
    ),
}
TEXT = {
    "starved": "starved: fuel does not arrive",
    "flooded": "flooded: spark is there, fuel is too much",
    "no_spark": "no spark: the fuel is left unburnt",
    "exhaust": "choked by its own exhaust",
}


def draw(d: Draw) -> dict[str, Any]:
    """Draw one set of evidence for each of two machines."""
    kinds = d.shuffle("states", tuple(EVIDENCE))[:2]
    return {"states": [[kind, d.integer(f"evidence {kind}", 0, 1)] for kind in kinds]}


_WHY = {
    "starved": ("common_is_likely_here", "The dry plug was passed over.", "Did any fuel reach the plug?"),
    "flooded": ("wet_plug_means_too_much_fuel", "The flash on the tester was passed over.",
                "Is there a spark that could have lit this fuel?"),
    "no_spark": ("wet_plug_means_too_much_fuel",
    "A wet plug was taken for too much fuel or for something else.",
                 "What does the tester say, and can fuel burn without it?"),
}  # fmt: skip


def _options(v: Variant, place: int) -> tuple[Option, ...]:
    true = v["states"][place][0]
    misconception, why, check = _WHY[true]
    return tuple(
        Option(name, text, name == true, misconception, Feedback(f"You say {text}.", why, check))
        for name, text in TEXT.items()
    )


def _state(place: int) -> Pick:
    return Pick(f"machine_{place + 1}", f"machine {place + 1}", lambda v: _options(v, place), fixed=True)


STATES = (_state(0), _state(1))


def _show_state(v: Variant) -> Page:
    found: list[Any] = []
    for place, (kind, which) in enumerate(v["states"]):
        seen = EVIDENCE[kind][which]
        found += [Text(f"Machine {place + 1}, seen so far:"), Lines(tuple(("•", each) for each in seen))]
    return Page("", (*found, Text("One letter for each machine:"), STATES[0].options_block(v)))


STATE = Task(
    id="state",
    title="Starved, flooded or no spark?",
    outcome="tell starved from flooded from no spark by evidence",
    kind="choice",
    points=2,
    competency="fuel, air and exhaust",
    show=_show_state,
    items=STATES,
)


def _early(seen: str, check: str) -> Feedback:
    return Feedback(seen, "A quicker test that comes before it was put off.", check)


_ORDER = Order(
    "steps",
    "order of tests",
    (
        Step("cool", "Stop, let it cool for 20 minutes, go outdoors.", (), ("cool",)),
        Step("vent", "Open the tank cap slowly, machine upright, and listen: hiss or no hiss?", ("cool",),
             ("vent known",), misconception="no_start_no_danger",
             feedback=_early("A hot tank is opened.", "What does a hot tank do when its cap comes loose?")),
        Step("tank", "Look at the fuel: enough, fresh, no water?", ("vent known",), ("fuel known",),
             misconception="parts_first",
             feedback=_early("The fuel is judged with the cap shut.", "What must be open to see it?")),
        Step("spark", "Prove the spark at a tester gap, clamped away from the plug hole, tank capped.",
        ("cool",),
             ("spark known",), misconception="no_start_no_danger",
             feedback=_early("A spark is made beside a hot machine and its vapour.",
                             "What must be cool and shut before a spark is made?")),
        Step("dose", "Give a small dose of fresh fuel, cap on, pull: does it fire and die?",
             ("spark known", "fuel known"), ("starved shown",), misconception="one_test_decides",
             feedback=_early("A dose is given before spark and fuel are known.",
                             "If it stays dead, what would you have learnt?")),
        Step("filter", "Fish the filter out: does fuel run through it?", ("starved shown",), ("filter known",
        ),
             misconception="parts_first",
             feedback=_early("The filter is fished out before it is known that fuel is lacking.",
                             "Which quick test shows that fuel is lacking at all?")),
        Step("line", "Test the line from filter to carburettor for cracks.", ("filter known",),
        ("line known",),
             misconception="parts_first",
             feedback=_early("The line is tested before what lies before it.",
                             "Follow the fuel from the tank: which place comes first?")),
        Step("carburettor", "Open the carburettor: needle, diaphragm, screen.", ("line known",), ("found",),
             misconception="parts_first",
             feedback=_early("The carburettor is opened before the cheap places were looked at.",
                             "Which places between tank and carburettor cost less time?")),
        Step("screws", "Turn the mixture screws one turn richer and see.", belongs=False,
             misconception="screws_mend_anything",
             feedback=Feedback("The screws are turned.",
             "A setting was changed before anything was measured.",
                               "If it then runs, what was wrong, and can you put it back?")),
    ),
)  # fmt: skip


def _show_order(v: Variant) -> Page:
    return Page(
        "",
        (
            Caution("Open fuel and a tester do not go together: tank capped, spills wiped, five minutes' "
            "wait."),
            Text("This machine dies slowly and its plug is dry. Put the tests in order, from the tank on. "
            "One has "
                 "no place here: leave it out."),
            _ORDER.steps_block(v),
        ),
    )  # fmt: skip


ORDER = Task(
    id="order",
    title="Tests of a starved engine, in order",
    outcome="test a starved engine from the tank to the carburettor",
    kind="order",
    points=4,
    competency="fuel, air and exhaust",
    show=_show_order,
    items=(_ORDER,),
)
