"""Lab 04: a tester gap in open air that stands for the plug under compression."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from twostroke import breakdown
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.lab04_demand import open_air, plug_gap
from twostroke.lab.number import Number
from twostroke.lab.page import Caution, Page, Table, Text
from twostroke.lab.pick import Option
from twostroke.lab.ruling import Ruling
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import tolerance

ROWS = (2, 4, 6, 8, 10, 12, 14)
"""Gaps of the table, mm."""


@lru_cache(maxsize=1)
def _table() -> tuple[float, ...]:
    return tuple(
        round(float(breakdown.needle_gap_voltage(f"{gap} mm").to("kV").magnitude), 1) for gap in ROWS
    )


def _spacing(kilovolts: float) -> float:
    """Gap in mm that asks for these kilovolts; kept inside what the needle table can say."""
    return _spacing_for(round(min(max(kilovolts, 0.0), 40.0), 6))


@lru_cache(maxsize=4096)
def _spacing_for(kilovolts: float) -> float:
    return float(breakdown.needle_gap_for(f"{kilovolts} kV").to("mm").magnitude)


def _jumps(v: Variant) -> float:
    return float(v["jumps_tenths_mm"]) / 10


def _verdict(v: Variant, own: Any) -> str:
    return "enough" if _jumps(v) >= own["tester.gap"] else "short"


_LOOK = "Hold the tester's setting against the gap that you found."
_PROOF = Ruling(
    "proof",
    "what it shows",
    (
        Option("enough", "It gives at least what the plug asks for under compression.",
               misconception="any_jump_proves",
               feedback=Feedback("It is called enough.", "Any spark that jumps was taken as proof.", _LOOK)),
        Option("short", "It shows less than the plug asks for; it may still fail under compression.",
               misconception="tester_always_low",
               feedback=Feedback("It is called too little.",
               "The tester's gap was thought to be always easier "
                                 "than the plug.", _LOOK)),
    ),
    fixed=True,
    rule=_verdict,
)  # fmt: skip


def _show(v: Variant) -> Page:
    rows = [(f"{gap} mm", f"{each:.1f} kV") for gap, each in zip(ROWS, _table(), strict=True)]
    table = Table(
        "Pointed tester in open air (needle points, handbook table from memory)", ("gap", "asks for"), rows
    )
    lead = (
        "Which gap of a pointed tester asks for as much as your plug does under compression? "
        "A real tester is blunter than needles and asks for more; its maker's figure comes first."
    )
    jump = f"Set to {_jumps(v):.0f} mm, the tester of the {v['machine']} jumps at every turn. What does "
    "that show?"
    caution = Caution("Ground the tester before you pull; keep hands and fuel away from it.")
    return Page("", (Text(lead), table, caution, Text(jump), _PROOF.options_block(v)))


TASK = Task(
    id="tester",
    title="A tester gap that stands for the plug",
    outcome="choose a tester gap that stands for the plug under compression, and say what a jump shows",
    kind="table",
    points=3,
    competency="spark testing",
    show=_show,
    items=(
        Number(
            "gap", "tester gap", "mm", lambda v, own: _spacing(own["demand.kilovolts"]),
            tolerance(0.5, (0.85, 0.05), (0.85, 0.05),
                      reason="half a step of 0.5 mm, and your kilovolts and the table to half of 0.1 kV"),
            0, 500,
            (
                slip("open_air_spark_proves", lambda v, own: _spacing(open_air(v)),
                     "A gap that asks for what the plug does in open air.", "Compression was left out.",
                     "Which of your two kilovolts is it to stand for?"),
                slip("plug_gap_on_tester", lambda v, own: plug_gap(v),
                     "The plug's own gap.", "The same gap was thought to ask for the same.",
                     "Where is the air denser: in the tester or in the cylinder?"),
                slip("kilovolt_as_millimetre", lambda v, own: own["demand.kilovolts"],
                     "The kilovolts with another unit.", "One kilovolt was taken for one millimetre.",
                     "What does the table say for one millimetre of points?", misconception="label_swapped"),
            ),
            Feedback("It does not lie where your kilovolts do.", "The part between the rows may be off.",
                     "Find the two rows whose kilovolts lie around yours."),
            1, any_unit=True, share=2,
        ),
        _PROOF,
    ),
)  # fmt: skip
