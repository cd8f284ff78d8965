"""Lab 12: a job card that is not complete or not consistent, and the minutes that belong on it."""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.sifted import sift, told_apart
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import tolerance

LINES = {
    "complaint": ("complaint", "dies hot after ten minutes, restarts when cool"),
    "before": ("reading before", "tester at 8 mm: flashes cold, dark hot"),
    "fault": ("fault found", "module fails hot"),
    "parts": ("parts fitted", "module; two screws; clip"),
    "gap": ("air gap after tightening", "0.30 mm, 0.30 mm (left, right leg)"),
    "verify": ("verified", "cold start; 20 min hot, restart at once; stops by its switch"),
    "told": ("told to the owner", "what failed, what was fitted, how it was proven"),
}
FLAWS = {
    "before": ("tester: flashes",
               "The reading says neither gap nor state.", "Could someone repeat this reading from the card?"),
    "fault": ("plug fouled",
              "Card and readings name different faults.", "Which part do reading and parts list speak of?"),
    "parts": ("two screws; clip",
              "A part that was fitted is not on the list.", "What was replaced, by the line above?"),
    "gap": ("0.30 (left leg)",
            "A unit and a leg are missing.", "Thirty hundredths of what, and at how many legs?"),
    "verify": ("started once, cold",
               "It was not proven in the state in which it failed.", "When did it die, by the first line?"),
    "told": ("—",
             "The owner was told nothing.", "What does the owner need to know to trust or to watch it?"),
}  # fmt: skip
_MISCONCEPTION = {
    "before": "bare_number_is_enough", "fault": "one_test_decides", "parts": "looks_right_is_right",
    "gap": "bare_number_is_enough", "verify": "it_started_so_fixed", "told": "owner_need_not_know",
    "complaint": "looks_right_is_right",
}  # fmt: skip
FLAWED = 3


def draw(d: Draw) -> dict[str, Any]:
    """Draw three flawed lines, and times."""

    def make(number: int) -> dict[str, Any]:
        hours = d.integer(f"card hours {number}", 1, 2)
        return {
            "card_flaws": sorted(d.shuffle("card flaws", tuple(FLAWS))[:FLAWED]),
            "card_find_min": d.integer(f"card find {number}", 12, 55),
            "card_mend": [hours, d.integer(f"card mend {number}", 5, 35)],
            "card_prove_min": d.integer(f"card prove {number}", 20, 55),
        }

    return sift(make, lambda given: told_apart(_MINUTES_ONLY, given))


def _minutes(v: Variant) -> float:
    hours, rest = v["card_mend"]
    return float(v["card_find_min"] + 60 * hours + rest + v["card_prove_min"])


def show(v: Variant) -> Page:
    """The card."""
    rows = [
        (str(place + 1), name, FLAWS[key][0] if key in v["card_flaws"] else text)
        for place, (key, (name, text)) in enumerate(LINES.items())
    ]
    hours, rest = v["card_mend"]
    times = (
        ("finding", f"{v['card_find_min']} min"),
        ("mending", f"{hours}:{rest:02d} h"),
        ("proving", f"{v['card_prove_min']} min"),
    )
    return Page(
        "",
        (
            Table("A colleague's job card: the module was changed", ("line", "what", "written"), rows),
            Table("Times on the back of it", ("what", "time"), times),
            Text(
                f"{FLAWED} lines are incomplete or do not agree with the others. Which? And how many "
                f"minutes in all?"
            ),
        ),
    )


def _options(v: Variant) -> tuple[Option, ...]:
    found = []
    for key, (name, _) in LINES.items():
        flawed = key in v["card_flaws"]
        parts = (
            ("A line that wants mending is passed over.", *FLAWS[key][1:])
            if flawed
            else ("A sound line is struck out.", "It looked wrong beside another line.",
                  "Is it complete, and does it agree with what was seen?")
        )  # fmt: skip
        found.append(Option(key, name, flawed, _MISCONCEPTION[key], Feedback(*parts)))
    return tuple(found)


FLAWED_LINES = Pick(
    "lines", "lines that want mending", _options, several=True, fixed=True, numbered=True, share=3
)

_ALL = Number(
    "minutes", "minutes in all", "min", lambda v, own: _minutes(v),
    tolerance(1, reason="half a step of 1 min: times are written to the minute"), 0, 100_000,
    (
        slip("clock_as_decimal", lambda v, own: _minutes(v) + 40 * v["card_mend"][0],
             "Each full hour counted as a hundred minutes.", "The clock was read as a decimal.",
             "How many minutes has the hour on the card?"),
        slip("hour_dropped", lambda v, own: _minutes(v) - 60 * v["card_mend"][0],
             "A full hour or more is missing.", "Only the minutes behind the colon were added.",
             "What stands before the colon?", misconception="clock_as_decimal"),
        slip("proving_left_out", lambda v, own: _minutes(v) - v["card_prove_min"],
             "Finding and mending only.", "Proving was left out.", "Is the job done before it is proven?",
             misconception="finding_is_free", share=0.5),
        slip("finding_left_out", lambda v, own: _minutes(v) - v["card_find_min"],
             "Mending and proving only.", "Finding was given away.",
             "Who paid for the time until it was found?",
             misconception="finding_is_free", share=0.5),
    ),
    Feedback("It does not follow from the three times.", "Hours and minutes may be mixed.",
             "Turn everything into minutes, then add."),
    0, any_unit=True, share=2,
)  # fmt: skip

TASK = Task(
    id="card",
    title="A job card that is not right",
    outcome="see what makes a job card incomplete or inconsistent",
    kind="table",
    points=5,
    competency="job card and estimate",
    show=show,
    items=(FLAWED_LINES, _ALL),
)
_MINUTES_ONLY = Task(
    id="card",
    title="Minutes",
    outcome="for the draw: minutes alone",
    kind="value",
    points=1,
    competency="job card and estimate",
    show=show,
    items=(_ALL,),
)
