"""Lab 09: four plugs read, each with the one other reading that it needs.

What a plug looks like is common practice, no source; the maker's manual comes first.
"""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task

LOOKS = {
    "sound": ("light brown, dry, edges sharp", "tan to grey, dry, a thin even coat"),
    "rich": ("dry black soot that wipes off, tester flashes", "matt black, dry, velvety, tester flashes"),
    "oily": ("wet black, slippery, smells of burnt oil", "black and greasy, drops of oil on the thread"),
    "lean": ("white porcelain, tiny blisters, edges rounded", "chalky white, speckled, electrode eaten away"),
    "no_spark": (
        "wet with fuel, clean below; tester stays dark",
        "dripping fuel, no soot; no flash on the tester",
    ),
    "flooded": (
        "wet with fuel; tester flashes well",
        "dripping fuel, bowl of the carburettor high; tester flashes",
    ),
}
MEANS = {
    "sound": "burning well",
    "rich": "too much fuel or too little air",
    "oily": "too much oil, or the wrong one",
    "lean": "too little fuel, or air leaking in",
    "no_spark": "fuel arrives, no spark",
    "flooded": "more fuel than it can burn, spark is there",
}
_WHY = {
    "sound": ("parts_first", "A sound plug was suspected."),
    "rich": ("wet_plug_means_too_much_fuel", "Dry soot was not told from what is wet."),
    "oily": ("more_oil_is_safer", "Oil was not told from fuel or soot."),
    "lean": ("white_is_clean", "White was taken for clean, or for something else."),
    "no_spark": ("wet_plug_means_too_much_fuel", "A wet plug was read without the tester."),
    "flooded": ("wet_plug_means_too_much_fuel", "The tester's flash was passed over."),
}
NAMES = ("1", "2", "3", "4")


def draw(d: Draw) -> dict[str, Any]:
    """Draw four of the six plugs, with one of the wet ones among them."""
    wet = d.pick("wet plug", ("no_spark", "flooded"))
    others = d.shuffle("dry plugs", ("sound", "rich", "oily", "lean"))[:3]
    kinds = d.shuffle("plugs", (wet, *others))
    return {"plugs": [[kind, d.pick(f"look {kind}", LOOKS[kind])] for kind in kinds]}


def show(v: Variant) -> Page:
    """The four plugs."""
    rows = [(name, look) for name, (_, look) in zip(NAMES, v["plugs"], strict=True)]
    return Page(
        "",
        (
            Table("Four plugs, four machines", ("plug", "what is seen"), rows),
            Text("What does each suggest? One letter for each plug:"),
            PLUGS[0].options_block(v),
        ),
    )


def _options(v: Variant, place: int) -> tuple[Option, ...]:
    true = v["plugs"][place][0]
    misconception, why = _WHY[true]
    return tuple(
        Option(
            name, text, name == true, misconception,
            Feedback(f"You read: {text}.", why, "Wet or dry? Fuel or oil? And what does the tester say?"),
        )
        for name, text in MEANS.items()
    )  # fmt: skip


def _plug(place: int) -> Pick:
    label = f"plug {NAMES[place]}"
    return Pick(f"plug_{NAMES[place]}", label, lambda v: _options(v, place), fixed=True)


PLUGS = tuple(_plug(place) for place in range(len(NAMES)))

TASK = Task(
    id="plugs",
    title="Four plugs",
    outcome="read plugs together with a tester and say what each suggests",
    kind="table",
    points=4,
    competency="plug and lead",
    show=show,
    items=PLUGS,
)
