"""Lab 07: open, shorted to ground, partly shorted or nothing to see: four modules read with an ohmmeter."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option
from twostroke.lab.ruling import Ruling
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

FAULTS = ("open", "ground", "partial", "nothing")


def draw(d: Draw) -> dict[str, Any]:
    """Draw turns of the coil, which module has which fault, and how much is shorted."""
    return {
        "secondary_turns": d.integer("secondary turns", 11000, 14000, 100),
        "primary_turns": d.integer("primary turns", 140, 180, 2),
        "faults": d.shuffle("faults", FAULTS),
        "shorted_percent": d.integer("shorted", 18, 34),
        "leak_ohm": d.integer("leak to core", 2, 40),
    }


@lru_cache(maxsize=4096)
def _ohms(primary_turns: int, secondary_turns: int, shorted_percent: int) -> tuple[float, float]:
    """Primary and secondary of a coil with part of its secondary shorted, by the ignition model."""
    from twostroke.ignition import Ignition, winding_ohms

    coil = Ignition(
        primary_turns=float(primary_turns), secondary_turns=float(secondary_turns),
        shorted_fraction=shorted_percent / 100,
    )  # fmt: skip
    primary, secondary = winding_ohms(coil)
    return float(primary[0]), float(secondary[0])


def whole(v: Variant) -> int:
    """Secondary of a sound coil in ohm, to 10 ohm."""
    return round(_ohms(v["primary_turns"], v["secondary_turns"], 0)[1] / 10) * 10


def short(v: Variant) -> int:
    """Secondary of the partly shorted one in ohm, to 10 ohm."""
    return round(_ohms(v["primary_turns"], v["secondary_turns"], v["shorted_percent"])[1] / 10) * 10


def _row(v: Variant, place: int) -> tuple[str, str, str, str]:
    fault = v["faults"][place]
    primary = f"{_ohms(v['primary_turns'], v['secondary_turns'], 0)[0]:.2f} Ω"
    secondary = {"open": "no reading (over range)", "partial": f"{short(v) / 1000:.2f} kΩ"}
    core = f"{v['leak_ohm']} Ω" if fault == "ground" else "no reading (over range)"
    return f"module {place + 1}", primary, secondary.get(fault, f"{whole(v) / 1000:.2f} kΩ"), core


_LOOK = "Go through its row: primary against band, secondary against band, winding to core against none at "
"all."
_TEXTS = {
    "open": "winding open",
    "ground": "winding shorted to the core",
    "partial": "part of the winding shorted",
    "nothing": "nothing that an ohmmeter can show",
}
_WRONG = {
    "open": ("It is called open.", "No reading was looked for in the wrong column.", "no_continuity_is_good"),
    "ground": ("It is called shorted to the core.", "No reading to the core was taken for a fault.",
               "no_continuity_is_good"),
    "partial": ("It is called partly shorted.", "A small figure was taken for too small.",
                "looks_right_is_right"),
    "nothing": ("It is passed as showing nothing.", "One of its three readings was passed over.",
                "resistance_in_band_proves"),
}  # fmt: skip


def _ruling(place: int) -> Ruling:
    options = tuple(
        Option(fault, _TEXTS[fault], misconception=_WRONG[fault][2],
               feedback=Feedback(_WRONG[fault][0], _WRONG[fault][1], _LOOK))
        for fault in FAULTS
    )  # fmt: skip
    name = f"module_{place + 1}"
    return Ruling(
        name, f"module {place + 1}", options, fixed=True, rule=lambda v, own: str(v["faults"][place])
    )


_RULINGS = tuple(_ruling(place) for place in range(len(FAULTS)))


def _show(v: Variant) -> Page:
    rows = [_row(v, place) for place in range(len(FAULTS))]
    primary = _ohms(v["primary_turns"], v["secondary_turns"], 0)[0]
    bands = (
        f"Maker's bands at 20 °C: primary {0.9 * primary:.2f} to {1.1 * primary:.2f} Ω, "
        f"secondary {0.9 * whole(v) / 1000:.2f} to {1.1 * whole(v) / 1000:.2f} kΩ, windings to core: no "
        "reading. "
        "All four are off the engine, at 20 °C, leads taken off."
    )
    table = Table(
        "Four modules of one kind (computed, invented)",
        ("module", "primary", "secondary", "windings to core"),
        rows,
    )
    return Page("", (Text(bands), table, Text("For each module:"), _RULINGS[0].options_block(v)))


def _missing(v: Variant) -> float:
    return float(whole(v) - short(v))


def _close(v: Variant) -> Tolerance:
    return tolerance(10, (1, 5), (1, 5), reason="half a step of 10 Ω, and both readings to half of 10 Ω")


TASK = Task(
    id="find",
    title="Open, shorted to the core, partly shorted, or nothing to see",
    outcome="find an open, a short to ground and a partial short from three readings",
    kind="table",
    points=5,
    competency="module and windings",
    show=_show,
    items=(
        *_RULINGS,
        Number(
            "missing", "ohms that the partly shorted winding lacks", "ohm", lambda v, own: _missing(v),
                _close,
            -1e6, 1e6,
            (
                slip("band_edge_as_whole", lambda v, own: 0.9 * whole(v) - short(v),
                     "Too little.", "It was counted from the lower limit of the band.",
                     "What does a sound module of this kind read?", misconception="inside_is_always_good"),
                slip("total_as_change", lambda v, own: float(short(v)),
                     "All that it still reads.", "Nothing was taken off.",
                     "How much did it read when it was whole?"),
                slip("prefix_dropped", lambda v, own: _missing(v) / 10,
                     "Ten times too little.", "A decimal place of the kilohms has slipped.",
                     "How many ohms is one hundredth of a kilohm?"),
            ),
            Feedback("It does not follow from a sound and the shorted module.",
                "Another row may have been read.",
                     "Secondary of the sound module, less that of the partly shorted one, both in ohms."),
            0, any_unit=True,
        ),
    ),
)  # fmt: skip
