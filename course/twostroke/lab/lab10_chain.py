"""Lab 10: a chain split where about half of the chance lies on either side."""

from __future__ import annotations

from functools import lru_cache
from itertools import product
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

PARTS = tuple(parts for parts in product(range(1, 9), repeat=5) if sum(parts) == 20)
"""Five twentieths that make a whole, in every order."""
LINKS = ("tank and filter", "line and primer", "needle and diaphragm", "mixture passages", "intake joint")


def draw(d: Draw) -> dict[str, Any]:
    """Draw chances such that one point halves best, is the best first probe, and all slips can be told
    apart."""

    def make(number: int) -> dict[str, Any]:
        parts = d.pick(f"links {number}", PARTS)
        return {"chain_percent": [5 * part for part in parts]}

    return sift(make, _good)


def _good(given: dict[str, Any]) -> bool:
    chances = tuple(given["chain_percent"])
    sums = _sums(chances)
    off = sorted((abs(each - 50), place) for place, each in enumerate(sums))
    best = off[0][1]
    unique = off[1][0] - off[0][0] >= 10
    return unique and sums[best] != 50 and best in first_points(chances) and told_apart(TASK, given)


def _sums(chances: tuple[int, ...]) -> list[int]:
    return [sum(chances[: place + 1]) for place in range(len(chances) - 1)]


@lru_cache(maxsize=4096)
def probes(chances: tuple[int, ...]) -> float:
    """Return the least average number of probes in a chain, times the sum of its chances.

    A probe between two links says whether the fault is before or after it.

    Examples
    --------
    >>> probes((40, 30, 20, 10)) / 100, probes((1,) * 8) / 8
    (1.9, 3.0)
    """
    if len(chances) == 1:
        return 0.0
    return sum(chances) + min(probes(chances[:cut]) + probes(chances[cut:]) for cut in range(1, len(chances)))


def first_points(chances: tuple[int, ...]) -> set[int]:
    """Return the points (0 is after the first link) at which a least average begins."""
    least = probes(chances) - sum(chances)
    cuts = range(1, len(chances))
    return {cut - 1 for cut in cuts if probes(chances[:cut]) + probes(chances[cut:]) <= least + 1e-9}


def _chances(v: Variant) -> tuple[int, ...]:
    return tuple(v["chain_percent"])


def _best(v: Variant) -> int:
    sums = _sums(_chances(v))
    return min(range(len(sums)), key=lambda place: abs(sums[place] - 50))


def _before(v: Variant) -> float:
    return float(_sums(_chances(v))[_best(v)])


def _one_by_one(v: Variant) -> float:
    """Probes from the first link on, one after the other."""
    last = len(LINKS) - 1
    return sum(chance * min(place + 1, last) for place, chance in enumerate(_chances(v))) / 100


def _from_the_end(v: Variant) -> float:
    last = len(LINKS) - 1
    backwards = reversed(_chances(v))
    return sum(chance * min(place + 1, last) for place, chance in enumerate(backwards)) / 100


def show(v: Variant) -> Page:
    """The chain of the fuel path."""
    rows = [(str(place + 1), name, f"{v['chain_percent'][place]} %") for place, name in enumerate(LINKS)]
    return Page(
        "",
        (
            Table(
                "The fuel path, and the chance that the fault is in each link",
                ("link", "what", "chance"),
                rows,
            ),
            Text(
                "A probe between two links costs the same everywhere and says whether fuel still arrives "
                "there."
            ),
            POINT.options_block(v),
        ),
    )


def _options(v: Variant) -> tuple[Option, ...]:
    best = _best(v)
    return tuple(
        Option(
            f"after_{place + 1}", f"probe after link {place + 1}", place == best, "half_of_the_links",
            Feedback(
                f"You probe after link {place + 1}.", "Links were counted, or the likeliest link was taken.",
                "How many per cent lie before that point, and is there one nearer to half?",
            ),
        )
        for place in range(len(LINKS) - 1)
    )  # fmt: skip


POINT = Pick("point", "first probe", _options, fixed=True, numbered=True)

TASK = Task(
    id="chain",
    title="Halving a chain",
    outcome="split a chain where half of the chance lies on either side",
    kind="choice",
    points=4,
    competency="isolation logic",
    show=show,
    items=(
        POINT,
        Number(
            "before", "chance that the fault lies before the best first probe", "%", lambda v,
            own: _before(v),
            tolerance(1, reason="half a step of 1 %"), 0, 1000,
            (
                slip("after_for_before", lambda v, own: 100 - _before(v),
                     "The chance after that point.", "Before and after were mixed up.",
                     "Which links does the fuel pass before the probe?", misconception="factor_turned_round",
                     share=0.5),
                slip("one_link_only", lambda v, own: float(_chances(v)[_best(v)]),
                     "The chance of a single link.", "The links before it were not added.",
                     "Which links lie before the probe, all together?",
                     misconception="share_of_the_wrong_whole"),
                slip("links_counted", lambda v, own: 100 * (_best(v) + 1) / len(LINKS),
                     "A share of the number of links.", "The links were counted as if they were alike.",
                     "Add the chances, not the links.", misconception="half_of_the_links"),
            ),
            Feedback("It does not follow from the table.", "Another probe may have been meant.",
                     "Add the chances from link 1 on; where do you come nearest to half?"),
            0, any_unit=True,
        ),
        Number(
            "probes", "average number of probes, split well each time", "",
            lambda v, own: probes(_chances(v)) / 100,
            tolerance(0.1, reason="half a step of 0.1"), 0, 100,
            (
                slip("one_by_one", lambda v, own: _one_by_one(v),
                     "What it takes from the first link on, one by one.", "The chain was not split.",
                     "Where do you probe next in the half that is left?", misconception="one_by_one"),
                slip("from_the_end", lambda v, own: _from_the_end(v),
                     "What it takes from the last link back, one by one.", "The chain was not split.",
                     "Where do you probe next in the half that is left?", misconception="one_by_one"),
                slip("all_of_them", lambda v, own: float(len(LINKS) - 1),
                     "Every point is probed.", "It was taken for the worst that can happen.",
                     "How many links are left after the first probe?", misconception="one_by_one"),
                slip("worst_case", lambda v, own: 3.0,
                     "The most that it can take.", "The worst case was given, not the average.",
                     "How often does it take that many, and how often fewer?",
                     misconception="half_of_the_links"),
            ),
            Feedback("It does not follow from the chances.", "A link may have the wrong number of probes.",
                     "For each link: how many probes until it is found? Weigh that by its chance."),
            1,
        ),
    ),
)  # fmt: skip
