"""Lab 10: a belief moved by counting 1 000 machines."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.sifted import sift, told_apart
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

GROUPS = ("fuel", "plug", "stop circuit", "module")
STOP = 2
ALL = 1000


def draw(d: Draw) -> dict[str, Any]:
    """Draw counts and shares such that every slip can be told apart."""

    def make(number: int) -> dict[str, Any]:
        plug = d.integer(f"plugs {number}", 200, 300, 10)
        stop = d.integer(f"stops {number}", 100, 180, 10)
        module = d.integer(f"modules {number}", 80, 140, 10)
        dark = [d.pick(f"dark {name} {number}", shares) for name, shares in _DARK.items()]
        back = [d.pick(f"back {name} {number}", shares) for name, shares in _BACK.items()]
        return {
            "count_machines": [ALL - plug - stop - module, plug, stop, module],
            "count_dark_percent": dark,
            "count_back_percent": back,
        }

    return sift(make, lambda given: told_apart(TASK, given))


_DARK = {"fuel": (2, 4, 5), "plug": (10, 15, 20), "stop": (80, 85, 90), "module": (90, 95)}
_BACK = {"fuel": (2, 5), "plug": (5, 10), "stop": (70, 80, 85), "module": (4, 5, 8)}


def show(v: Variant) -> Page:
    """The counts and the two readings."""
    rows = [
        (name, str(count), f"{dark} %", f"{back} %")
        for name, count, dark, back in zip(
            GROUPS, v["count_machines"], v["count_dark_percent"], v["count_back_percent"], strict=True
        )
    ]
    return Page(
        "",
        (
            Table(
                "1 000 machines with this complaint, by what was wrong (invented)",
                (
                    "what was wrong",
                    "machines",
                    "tester stays dark in",
                    "dark, and spark back with stop lead off in",
                ),
                rows,
            ),
            Text("The last column counts among the machines whose tester stayed dark."),
            Text(
                "On your machine the tester stays dark. Then, with the stop lead off, the spark comes back."
            ),
        ),
    )


def _dark(v: Variant) -> list[float]:
    pairs = zip(v["count_machines"], v["count_dark_percent"], strict=True)
    return [count * share / 100 for count, share in pairs]


def _back(v: Variant, counts: Sequence[float]) -> float:
    """Share of the stop circuit among those whose spark comes back, in per cent."""
    kept = [count * share / 100 for count, share in zip(counts, v["count_back_percent"], strict=True)]
    return 100 * kept[STOP] / sum(kept)


def _share_close(v: Variant) -> Tolerance:
    total = sum(_dark(v))
    return tolerance(1, (100 / total, 0.5), reason="half a step of 1 %, and a count to half a machine")


TASK = Task(
    id="count",
    title="Counting machines",
    outcome="move a chance by counting machines that show a reading",
    kind="value",
    points=5,
    competency="isolation logic",
    show=show,
    items=(
        Number(
            "dark", "machines whose tester stays dark", "", lambda v, own: sum(_dark(v)),
            tolerance(1, (1, 0.5), (1, 0.5), (1, 0.5), (1, 0.5),
                      reason="half a step of one machine, and four counts each to half a machine"),
            0, 10_000,
            (
                slip("mean_of_shares", lambda v, own: ALL * sum(v["count_dark_percent"]) / 400,
                     "The mean of the four shares.", "Large and small groups were given the same weight.",
                     "How many machines are in each group, and how many of those stay dark?",
                     misconception="share_of_the_wrong_whole"),
                slip("whole_groups", lambda v, own: sum(v["count_machines"][STOP:]),
                     "Two whole groups.", "All machines of the likely groups were counted, dark or not.",
                     "Do other groups have dark testers too, and do all of these?",
                     misconception="one_test_decides"),
                slip("one_group_only", lambda v, own: _dark(v)[STOP],
                     "The dark ones of the stop circuit alone.", "The other groups were left out.",
                     "Who else stands there with a dark tester?", misconception="one_test_decides",
                     share=0.5),
            ),
            Feedback("It does not follow from the table.", "A group may be missing.",
                     "Work out the dark ones of each group, then add the four."),
            0, share=2,
        ),
        Number(
            "share", "chance of the stop circuit after the first reading", "%",
            lambda v, own: 100 * _dark(v)[STOP] / own["count.dark"], _share_close, 0, 10_000,
            (
                slip("shown_for_having", lambda v, own: float(v["count_dark_percent"][STOP]),
                     "The share of stop circuits that stay dark.",
                     "How often it shows was taken for how likely it is.",
                     "Of all dark testers, how many are stop circuits?",
                     misconception="likelihood_as_chance"),
                slip("before_the_reading", lambda v, own: v["count_machines"][STOP] / ALL * 100,
                     "The share before anything was measured.", "The reading has no say.",
                     "Which machines are still in the count after the tester stayed dark?",
                     misconception="common_is_likely_here"),
                slip("of_all_machines", lambda v, own: _dark(v)[STOP] / ALL * 100,
                     "Dark stop circuits among all machines.",
                     "The machines that are out were still counted.",
                     "Divide by those that stay dark, not by all.", misconception="share_of_the_wrong_whole"),
            ),
            Feedback("It does not follow from your count.", "Another group may have been used.",
                     "Dark stop circuits over all dark ones."),
            0, any_unit=True, share=2,
        ),
        Number(
            "after", "chance of the stop circuit after both readings", "%",
            lambda v, own: _back(v, _dark(v)),
            tolerance(1, (0.5, 0.5), reason="half a step of 1 %, and counts to half a machine"), 0, 10_000,
            (
                slip("first_forgotten", lambda v, own: _back(v, v["count_machines"]),
                     "The second reading on all machines.", "The first reading was forgotten.",
                     "Which machines are still in the count before the second reading?",
                     misconception="one_test_decides"),
                slip("not_moved", lambda v, own: own["count.share"],
                     "The chance did not move.", "The second reading has no say.",
                     "Do all groups show it equally often?", misconception="common_is_likely_here"),
                slip("shown_for_having", lambda v, own: float(v["count_back_percent"][STOP]),
                     "How often a stop circuit shows it.",
                     "How often it shows was taken for how likely it is.",
                     "Of all that show both readings, how many are stop circuits?",
                     misconception="likelihood_as_chance"),
            ),
            Feedback("It does not follow from the table.", "A step may have been left out.",
                     "Begin with the dark ones of each group; how many of each show the second reading?"),
            0, any_unit=True, share=2,
        ),
    ),
)  # fmt: skip
