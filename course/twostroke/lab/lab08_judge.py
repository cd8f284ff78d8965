"""Lab 08: three engines held against one maker's band, on a hill, with a gauge that is not exact."""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.lab01 import AIR
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import tolerance

SEA_LEVEL = 1013.25
"""Pressure at sea level in hPa (ISO 2533:1975)."""
GUARD = 1.645
"""Standard uncertainties between a limit and a reading that can be decided (JCGM 106:2012, 8.3)."""
UNCERTAINTY = 0.1
"""Standard uncertainty of this gauge in bar; invented, as stated to the learner."""
ENGINES = ("A", "B", "C")


def air_at(altitude: int) -> float:
    """Return the pressure of the air in hPa between the rows of the table."""
    low = altitude // 500 * 500
    return AIR[low] + (AIR[low + 500] - AIR[low]) * (altitude - low) / 500


def draw(d: Draw, altitude: int) -> dict[str, Any]:
    """Draw a band and three readings: one saved by the altitude, one beside a limit, one outside."""
    low = d.integer("band low", 65, 80)
    high = low + d.integer("band width", 25, 30)
    share = air_at(altitude) / SEA_LEVEL
    third = d.pick("third", ("low", "high"))
    outside = {
        "low": round(low * share) - d.integer("under", 4, 12),
        "high": high + d.integer("over", 4, 10),
    }
    readings = {
        "in": round(low * share) + 3,
        "undecided": round(low * share),
        third: outside[third],
    }
    order = d.shuffle("engines", tuple(readings))
    return {
        "band_tenths_bar": [low, high],
        "engines": [[name, readings[name]] for name in order],
    }


def _band(v: Variant) -> tuple[float, float]:
    low, high = v["band_tenths_bar"]
    return low / 10, high / 10


def show(v: Variant) -> Page:
    """The band at sea level and the three readings here."""
    low, high = _band(v)
    rows = [
        (name, f"{reading / 10:.1f} bar") for name, (_, reading) in zip(ENGINES, v["engines"], strict=True)
    ]
    return Page(
        "",
        (
            Text(f"Maker's band at sea level: {low:.1f} to {high:.1f} bar (gauge); the air there has 1013 "
            f"hPa. "
                 "Your air is the one from task 2. Both limits fall in step with the air."),
            Table("Needle steady, throttle and choke open", ("engine", "reading here"), rows),
            Text(f"The gauge's standard uncertainty is u = {UNCERTAINTY} bar. A reading closer to a limit "
            f"than "
                 f"{GUARD} u cannot be decided (JCGM 106)."),
            Text("For each engine:"),
            JUDGED[0].options_block(v),
        ),
    )  # fmt: skip


_TEXT = {
    "in": "in the band",
    "low": "out: too low",
    "high": "out: too high",
    "undecided": "cannot say with this gauge",
}
_SAID = {
    ("in", "low"): ("sea_level_everywhere", "A sound engine is called worn.",
    "The limit of sea level was used.",
                    "Bring the limit up the hill first."),
    ("in", "undecided"): ("undecided_is_bad", "A reading clear of the limit is left open.",
                          "The guard band was made too wide, or the limit is off.",
                          "How many bar are 1.645 u, and how far is the reading from your limit?"),
    ("undecided", "in"): ("reading_is_exact", "A reading beside the limit is called good.",
                          "The gauge was taken for exact.",
                          "How far is the reading from the limit, and how far could the gauge be out?"),
    ("undecided", "low"): ("reading_is_exact", "A reading beside the limit is called bad.",
                           "The gauge was taken for exact.",
                           "How far is the reading from the limit, and how far could the gauge be out?"),
    ("low", "in"): ("inside_is_always_good", "A tired engine is called sound.",
                    "The limit here was made too low.", "Which limit do you get when it falls with the air?"),
    ("low", "undecided"): ("undecided_is_bad", "A clear case is left open.",
                           "The gauge was trusted less than it deserves.",
                           "Is the reading further below the limit than 1.645 u?"),
    ("high", "in"): ("more_compression_is_better", "A reading above the band is called good.",
                     "More was taken for better.", "What can fill the space above the piston?"),
    ("high", "undecided"): ("more_compression_is_better", "A reading far above the band is left open.",
                            "More was taken for better.", "Is it even below the limit of sea level?"),
}  # fmt: skip
_SIDE = ("looks_right_is_right", "The other side of the band is named.", "Reading and limits were mixed up.",
         "Write low limit, reading and high limit in one line, smallest first.")  # fmt: skip


def _verdicts(v: Variant, place: int) -> tuple[Option, ...]:
    true = v["engines"][place][0]
    found = []
    for name, text in _TEXT.items():
        misconception, *parts = _SAID.get((true, name), _SIDE)
        found.append(Option(name, text, name == true, misconception, Feedback(*parts)))
    return tuple(found)


def _judged(place: int) -> Pick:
    return Pick(f"engine_{ENGINES[place].casefold()}", f"engine {ENGINES[place]}", lambda v: _verdicts(v,
    place),
                fixed=True)  # fmt: skip


JUDGED = tuple(_judged(place) for place in range(len(ENGINES)))

TASK = Task(
    id="judge",
    title="Three engines",
    outcome="judge readings against a band at an altitude, in, out or undecided",
    kind="table",
    points=5,
    competency="compression and sealing",
    show=show,
    items=(
        Number(
            "low", "low limit here", "bar", lambda v, own: _band(v)[0] * own["expected.air"] / SEA_LEVEL,
            tolerance(0.1, (0.008, 0.6), reason="half a step of 0.1 bar, and the air to 0.6 hPa"), 0, 2000,
            (
                slip("sea_level_everywhere", lambda v, own: _band(v)[0],
                     "The limit of sea level.", "The altitude was left out.",
                     "Does thin air give as much pressure when it is squeezed as much?"),
                slip("difference_for_ratio",
                     lambda v, own: _band(v)[0] - (SEA_LEVEL - own["expected.air"]) / 1000,
                     "A little less than at sea level.", "The lost air was taken off once.",
                     "Is every bar in the cylinder made of thinner air, or only one of them?"),
                slip("factor_turned_round", lambda v, own: _band(v)[0] * SEA_LEVEL / own["expected.air"],
                     "A higher limit than at sea level.", "The share of the air was turned round.",
                     "Must the limit grow or shrink when you go up?"),
            ),
            Feedback("It does not follow from the band and your air.",
            "Another limit or another air was used.",
                     "Which part of the air of sea level has your workshop?"),
            2, any_unit=True, reference="gauge", share=2,
        ),
        *JUDGED,
    ),
)  # fmt: skip
