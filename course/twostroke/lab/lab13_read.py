"""Lab 13: a colleague's route read: which line told nothing, which part was a guess, what it came to."""

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

Line = tuple[str, str, str]
"""What a line is for, what was done, what was seen."""

STORIES: dict[str, tuple[Line, ...]] = {
    "flashes": (
        ("look", "looked over, wires moved", "nothing found"),
        ("split", "tester at 8 mm, cold", "flashes"),
        ("repeat", "tester at 8 mm, cold, nothing changed", "flashes"),
        ("narrow", "plug out and looked at", "wet, dark"),
        ("guess", "new module fitted", "no change"),
        ("mend", "cylinder cleared of fuel, new plug fitted", "starts"),
        ("prove", "verify run: cold start, stop by its switch, restart", "runs"),
    ),
    "dark": (
        ("look", "looked over, wires moved", "nothing found"),
        ("split", "tester at 8 mm, cold", "dark"),
        ("guess", "new plug fitted", "tester still dark"),
        ("narrow", "stop lead off at the module, tester at 8 mm", "flashes"),
        ("repeat", "stop lead on, tester at 8 mm", "dark"),
        ("mend", "new stop switch fitted", "flashes"),
        ("prove", "verify run: cold start, stop by its switch, restart", "runs"),
    ),
    "starved": (
        ("look", "looked over, tank half full", "nothing found"),
        ("split", "tester at 8 mm, cold", "flashes"),
        ("narrow", "dose of fuel through the plug hole, pulled", "runs two seconds"),
        ("guess", "new stop switch fitted", "no change"),
        ("repeat", "dose of fuel again, pulled", "runs two seconds"),
        ("mend", "new fuel filter fitted, line blown through", "starts"),
        ("prove", "verify run: cold start, stop by its switch, restart", "runs"),
    ),
}
_BANDS = {
    "look": (2, 6), "split": (3, 7), "narrow": (4, 12), "repeat": (3, 9), "guess": (14, 38),
    "mend": (9, 24), "prove": (8, 19),
}  # fmt: skip


def draw(d: Draw) -> dict[str, Any]:
    """Draw the story, its minutes, the rate and two prices."""
    story = d.pick("read story", tuple(STORIES))

    def make(number: int) -> dict[str, Any]:
        return {
            "read_story": story,
            "read_min": {
                name: d.integer(f"read {name} {number}", low, high) for name, (low, high) in _BANDS.items()
            },
            "read_rate_per_hour": d.integer(f"read rate {number}", 36, 72, 6),
            "read_parts": [d.integer(f"read guess {number}", 6, 70), d.integer(f"read part {number}", 5, 30)],
        }

    def good(given: dict[str, Any]) -> bool:
        total = sum(given["read_min"].values())
        return total > 65 and total % 60 > 4 and told_apart(TASK, given)

    return sift(make, good)


def _minutes(v: Variant, *names: str) -> float:
    return float(sum(v["read_min"][name] for name in names or _BANDS))


def _labour(v: Variant, minutes: float) -> float:
    return minutes / 60 * float(v["read_rate_per_hour"])


def _parts(v: Variant) -> float:
    return float(sum(v["read_parts"]))


def _clock(minutes: float) -> float:
    return minutes // 60 + minutes % 60 / 100


def _show(v: Variant) -> Page:
    money = {"guess": f"{v['read_parts'][0]}", "mend": f"{v['read_parts'][1]}"}
    rows = [
        (str(number), done, seen, f"{v['read_min'][name]} min", money.get(name, ""))
        for number, (name, done, seen) in enumerate(STORIES[v["read_story"]], start=1)
    ]
    return Page(
        "",
        (
            Table("A colleague's route, complaint: will not start", ("line", "done", "seen", "time", "part"),
                  rows),
            Text(f"Labour is {v['read_rate_per_hour']} an hour; all times are charged. Times and prices are "
                 "invented. Nothing was moved or changed but what stands there."),
        ),
    )  # fmt: skip


_WRONG = {
    "look": ("The first look is called needless.", "A look costs little and can end the job.",
             "What could it have shown?", "cheapest_test_first"),
    "split": ("The test that splits spark from fuel is struck out.", "It only ruled out, which counts too.",
              "What would have been left to search without it?", "one_by_one"),
    "narrow": ("A test that narrowed the search is struck out.", "Its reading was not used in your mind.",
               "Which faults does it leave, and which did the line above leave?", "one_test_decides"),
    "mend": ("The repair that cured it is struck out.", "It came late, not in vain.",
             "After which line does it start or flash?", "parts_first"),
    "prove": ("The proof is struck out.", "It ran once, so it was called done.",
              "How often did it run before the proof?", "it_started_so_fixed"),
    "repeat": ("A test is taken for the guess.", "It told nothing new, but no part was fitted.",
               "On which line was money spent?", "parts_first"),
    "guess": ("The part fitted in vain is taken for the repeat.", "It was needless in another way.",
              "Which reading was known already, word for word?", "one_test_decides"),
}  # fmt: skip


def _lines(asked: str) -> Any:
    def options(v: Variant) -> tuple[Option, ...]:
        found = []
        for name, done, _ in STORIES[v["read_story"]]:
            seen, why, check, misconception = _WRONG[name]
            if done == "new plug fitted":
                misconception = "new_plug_rules_out_plug"
            right = name == asked
            found.append(
                Option(name, done, right, "" if right else misconception, Feedback(seen, why, check))
            )
        return tuple(found)

    return options


TASK = Task(
    id="read",
    title="A colleague's route",
    outcome="see in a route what told nothing and what was fitted on a guess",
    kind="table",
    points=6,
    competency="isolation logic",
    show=_show,
    items=(
        Pick("repeat", "line that asked what was known already", _lines("repeat"), fixed=True, numbered=True),
        Pick("guess", "line with a part that the readings had cleared", _lines("guess"), fixed=True,
             numbered=True),
        Number(
            "minutes", "minutes in all", "min", lambda v, own: _minutes(v),
            tolerance(1, reason="half a step of 1 min: times are written to the minute"), 0, 10_000,
            (
                slip("proving_left_out", lambda v, own: _minutes(v) - _minutes(v, "prove"),
                     "The last line is missing.", "The proof was not counted as work.",
                     "Is the job done before it is proven?", misconception="finding_is_free", share=0.5),
                slip("needless_left_out", lambda v, own: _minutes(v) - _minutes(v, "repeat", "guess"),
                     "Two lines are missing.", "What was in vain was left out.",
                     "Did the clock stand still meanwhile?", misconception="finding_is_free"),
                slip("mending_only", lambda v, own: _minutes(v, "mend", "prove"),
                     "Only the end of the job.", "Finding was given away.",
                     "Which minutes did the job take from the day?", misconception="finding_is_free"),
            ),
            Feedback("It is not the sum of the column.", "A line may be left out or added twice.",
                     "Add the times once more, line by line."),
            0, any_unit=True,
        ),
        Number(
            "cost", "what the job came to", "",
            lambda v, own: _labour(v, own["read.minutes"]) + _parts(v),
            tolerance(0.1, reason="half a step of 0.10: rounded once, at the end"), 0, 1_000_000,
            (
                slip("labour_only", lambda v, own: _labour(v, own["read.minutes"]),
                     "Labour without parts.", "The parts were left out.", "What was taken from the shelf?",
                     misconception="finding_is_free", share=0.5),
                slip("one_part", lambda v, own: _labour(v, own["read.minutes"]) + v["read_parts"][1],
                     "One part is missing.", "The part fitted in vain was not counted.",
                     "Who pays for it, if it stays in the machine?", misconception="finding_is_free",
                     share=0.5),
                slip("clock_as_decimal",
                     lambda v, own: _clock(own["read.minutes"]) * v["read_rate_per_hour"] + _parts(v),
                     "Hours and minutes charged as a decimal.", "1:20 h was taken for 1.20 h.",
                     "What part of an hour are twenty minutes?"),
                slip("minutes_for_hours",
                     lambda v, own: own["read.minutes"] * v["read_rate_per_hour"] + _parts(v),
                     "A bill for days.", "Minutes were multiplied by a rate for an hour.",
                     "How many hours are these minutes?", misconception="seconds_as_minutes"),
            ),
            Feedback("It does not follow from minutes, rate and parts.", "A price may be missing.",
                     "Minutes into hours, times the rate, then add both parts."),
            2,
        ),
        Number(
            "spared", "money that the two lines cost", "",
            lambda v, own: _labour(v, _minutes(v, "repeat", "guess")) + v["read_parts"][0],
            tolerance(0.1, reason="half a step of 0.10: rounded once, at the end"), 0, 1_000_000,
            (
                slip("labour_only", lambda v, own: _labour(v, _minutes(v, "repeat", "guess")),
                     "Labour without the part.", "Only the clock was looked at.",
                     "What was taken from the shelf in vain?", misconception="finding_is_free", share=0.5),
                slip("guess_only", lambda v, own: _labour(v, _minutes(v, "guess")) + v["read_parts"][0],
                     "Only the part fitted in vain.", "The line that repeated a reading was taken for free.",
                     "Which two lines are asked?", misconception="one_test_decides"),
                slip("repeat_only", lambda v, own: _labour(v, _minutes(v, "repeat")),
                     "Only the line that repeated a reading.", "The part fitted in vain was left out.",
                     "Which two lines are asked?", misconception="parts_first"),
            ),
            Feedback("It does not follow from the two lines.", "Another line may have crept in.",
                     "Take the times of the two lines, their rate, and the part fitted in vain."),
            2,
        ),
    ),
)  # fmt: skip
