"""Lab 11: a log of flashes by temperature, read."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.sifted import sift, told_apart
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

TEMPERATURES = (20, 40, 60, 80, 100)
PULLS = (16, 20, 24, 30, 40)


def draw(d: Draw) -> dict[str, Any]:
    """Draw a log in which half of the flashes are lost between two rows, and all slips can be told apart."""

    def make(number: int) -> dict[str, Any]:
        pulls = d.pick(f"pulls {number}", PULLS)
        shares = sorted(
            d.integer(f"missed {place} {number}", 4, 92) for place in range(len(TEMPERATURES) - 1)
        )
        return {"log_pulls": pulls, "log_missed": [0, *(round(pulls * share / 100) for share in shares)]}

    return sift(make, _good)


def _good(given: dict[str, Any]) -> bool:
    missed, half = given["log_missed"], given["log_pulls"] / 2
    rising = all(low < high for low, high in pairwise(missed))
    clear = all(abs(each - half) > given["log_pulls"] / 10 for each in missed)
    return rising and clear and missed[-1] > half > missed[2] and told_apart(TASK, given)


def _pulls(v: Variant) -> int:
    return int(v["log_pulls"])


def _last(v: Variant) -> int:
    return int(v["log_missed"][-1])


def _row(v: Variant) -> int:
    """Row below the one in which more than half are missed."""
    return next(place for place, missed in enumerate(v["log_missed"]) if missed > _pulls(v) / 2) - 1


def _part(v: Variant) -> tuple[int, float, float]:
    """Temperature of the row below, misses there, misses in the row above."""
    row = _row(v)
    return TEMPERATURES[row], v["log_missed"][row], v["log_missed"][row + 1]


def _half(v: Variant) -> float:
    low, below, above = _part(v)
    return low + 20 * (_pulls(v) / 2 - below) / (above - below)


def _close(v: Variant) -> Tolerance:
    _, below, above = _part(v)
    return tolerance(1, (20 / (above - below), 0.5), reason="half a step of 1 °C, and a count to half a pull")


def show(v: Variant) -> Page:
    """The log."""
    rows = [
        (f"{celsius} °C", str(_pulls(v)), str(missed))
        for celsius, missed in zip(TEMPERATURES, v["log_missed"], strict=True)
    ]
    return Page(
        "",
        (
            Table("Tester at a set gap, module warmed off the machine", ("module", "pulls", "stayed dark"),
            rows),
            Text("How often does it stay dark at the hottest row? At which temperature does it stay dark "
            "in half of "
                 "the pulls (between two rows take the part of the way)?"),
        ),
    )  # fmt: skip


TASK = Task(
    id="log",
    title="A log of flashes",
    outcome="read from a log how often a fault shows and from which heat on",
    kind="table",
    points=4,
    competency="intermittent faults",
    show=show,
    items=(
        Number(
            "hot", "stays dark at the hottest row", "%", lambda v, own: 100 * _last(v) / _pulls(v),
            lambda v: tolerance(1, reason="half a step of 1 %: counts are exact"), 0, 10_000,
            (
                slip("flashes_for_misses", lambda v, own: 100 * (1 - _last(v) / _pulls(v)),
                     "The share that flashed.", "Flashes and misses were mixed up.",
                     "Which column counts the dark ones?", misconception="wrong_column", share=0.5),
                slip("count_as_percent", lambda v, own: float(_last(v)),
                     "The count with another unit.", "A count was written down as per cent.",
                     "Out of how many pulls?", misconception="label_swapped"),
                slip("odds_for_share", lambda v, own: 100 * _last(v) / (_pulls(v) - _last(v)),
                     "Misses over flashes.", "The whole was left out.",
                     "A share is counted on all pulls. How many are these?",
                     misconception="share_of_the_wrong_whole"),
            ),
            Feedback("It does not follow from the hottest row.", "Another row may have been read.",
                     "Dark pulls over all pulls, in the last row."),
            0, any_unit=True,
        ),
        Number(
            "half", "temperature at which half of the pulls stay dark", "°C", lambda v, own: _half(v), _close,
            -50, 400,
            (
                slip("row_below", lambda v, own: float(_part(v)[0]),
                     "The row below.", "A row was taken as it stands.",
                     "How far is it from that row to half of the pulls?",
                     misconception="nearest_row_is_enough", share=0.5),
                slip("row_above", lambda v, own: float(_part(v)[0] + 20),
                     "The row above.", "A row was taken as it stands.",
                     "How far is it from the row below to half of the pulls?",
                     misconception="nearest_row_is_enough", share=0.5),
                slip("in_proportion", lambda v, own: (_part(v)[0] + 20) * _pulls(v) / 2 / _part(v)[2],
                     "Heat and misses taken to rise together from nothing.", "One row was scaled.",
                     "Does it miss at all in the cold row?", misconception="in_proportion_from_zero"),
            ),
            Feedback("It lies elsewhere in the log.", "Half of another number may have been looked for.",
                     "Half of how many pulls? Between which two rows does that lie?"),
            0, any_unit=True, share=2,
        ),
    ),
)  # fmt: skip
