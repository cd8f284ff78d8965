"""Lab 02: piston against crank angle, port timing from heights, ignition advance from millimetres."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from twostroke import _slider_crank
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.lab02_sizes import bore, clearance, closing_depth, rod, stroke
from twostroke.lab.number import Number
from twostroke.lab.page import Lines, Page, Table, Text
from twostroke.lab.slips import Slip, slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import tolerance

__all__ = ["ADVANCE", "PISTON", "PORTS", "bore", "clearance"]
ROW = 10
"""Degrees between the rows of the table."""


def depth_at(v: Variant, degrees: float) -> float:
    """Depth below top dead centre in mm at a crank angle in degrees."""
    return 1e3 * float(_slider_crank.piston_depth(math.radians(degrees), stroke(v) / 1e3, rod(v) / 1e3))


def angle_at(v: Variant, depth: float) -> float:
    """Crank angle from top dead centre in degrees at a depth in mm, kept inside the stroke."""
    inside = min(max(depth, 0.0), stroke(v))
    return math.degrees(_slider_crank.crank_angle(inside / 1e3, stroke(v) / 1e3, rod(v) / 1e3))


def _table(v: Variant, first: int, last: int) -> Table:
    rows = [(f"{angle}°", f"{depth_at(v, angle):.1f} mm") for angle in range(first, last + 1, ROW)]
    caption = f"Piston of demo engine {v['engine']} (stroke {stroke(v):.1f} mm, rod {rod(v):.1f} mm)"
    return Table(caption, ("crank angle from top", "depth below top"), rows)


def _piston_page(v: Variant) -> Page:
    said = (
        f"How deep below top dead centre is the piston at {v['angle_deg']}°? Go part of the way between rows."
    )
    return Page("", (Text(said), _table(v, 0, 60)))


def _row_below(v: Variant) -> int:
    return int(v["angle_deg"]) // ROW * ROW


PISTON = Task(
    id="piston",
    title="Piston depth at a crank angle",
    outcome="read the piston's depth at a crank angle from a table",
    kind="table",
    points=2,
    competency="units and measuring",
    show=_piston_page,
    items=(
        Number(
            "depth", "depth below top dead centre", "mm", lambda v, own: depth_at(v, v["angle_deg"]),
            tolerance(0.1, (1, 0.05), (1, 0.08),
                      reason="half a step of 0.1 mm, rounding of the table, and the bend between its rows"),
            0, 500,
            (
                slip("row_below", lambda v, own: depth_at(v, _row_below(v)),
                     "The depth of the row below your angle.", "A row was taken as it stands.",
                     "How far is it from that row to your angle? Take that part of the way.",
                     misconception="nearest_row_is_enough", share=0.5),
                slip("row_above", lambda v, own: depth_at(v, _row_below(v) + ROW),
                     "The depth of the row above your angle.", "A row was taken as it stands.",
                     "How far is it from the row below to your angle? Take that part of the way.",
                     misconception="nearest_row_is_enough", share=0.5),
                slip("angle_in_proportion", lambda v, own: stroke(v) * v["angle_deg"] / 180,
                     "Stroke times angle over 180.", "The piston was thought to move evenly with the crank.",
                     "Compare the first and the last rows: does each ten degrees give the same step?"),
                slip("height_from_bottom", lambda v, own: stroke(v) - depth_at(v, v["angle_deg"]),
                     "Most of the stroke.", "It was counted from bottom dead centre.",
                     "At which end of the stroke is the crank angle nought here?"),
            ),
            Feedback("The depth does not lie where your angle does.",
                     "The part between the rows may be off.",
                     "Is your figure between those of the row below and the row above?"),
            1, any_unit=True,
        ),
    ),
)  # fmt: skip


def _transfer_depth(v: Variant) -> float:
    return round(depth_at(v, v["transfer_deg"]), 1)


def _ports_page(v: Variant) -> Page:
    rows = (
        ("exhaust port just opens", f"{closing_depth(v):.1f} mm"),
        ("transfer ports just open", f"{_transfer_depth(v):.1f} mm"),
    )
    heights = Table(
        "Depth of the piston below top dead centre, read with a depth gauge", ("what", "depth"), rows
    )
    last = "A port that the piston's upper edge opens closes as far before top as it opened after top."
    return Page("", (heights, _table(v, 80, 150), Text(last)))


def _rows_around(v: Variant, depth: float) -> tuple[int, int]:
    low = int(angle_at(v, depth)) // ROW * ROW
    return low, low + ROW


def _opening_slips(depth: Callable[[Variant], float]) -> tuple[Slip, ...]:
    return (
        slip("row_below", lambda v, own: _unless_row(v, depth(v), 0),
             "The angle of the row below your depth.", "A row was taken as it stands.",
             "How far is your depth from that row? Take that part of the ten degrees.",
             misconception="nearest_row_is_enough", share=0.5),
        slip("row_above", lambda v, own: _unless_row(v, depth(v), 1),
             "The angle of the row above your depth.", "A row was taken as it stands.",
             "How far is your depth from the row below? Take that part of the ten degrees.",
             misconception="nearest_row_is_enough", share=0.5),
        slip("angle_in_proportion", lambda v, own: 180 * depth(v) / stroke(v),
             "Depth over stroke, times 180.", "The piston was thought to move evenly with the crank.",
             "What does the table give at 90°: half the stroke?"),
        slip("height_from_bottom", lambda v, own: angle_at(v, stroke(v) - depth(v)),
             "An angle far too early.", "The depth was taken for a height above bottom dead centre.",
             "From which end of the stroke does the depth gauge count?"),
    )  # fmt: skip


def _unless_row(v: Variant, depth: float, which: int) -> float | None:
    """Angle of a neighbouring row, unless the depth lies almost on it."""
    row = float(_rows_around(v, depth)[which])
    return row if abs(row - angle_at(v, depth)) > 2.2 else None


_ANGLE = tolerance(1.0, (4.0, 0.05), (4.0, 0.05),
                   reason="half a degree, and depth and table rounded to 0.1 mm")  # fmt: skip
_OWN_ANGLES = Feedback(
    "It does not follow from your own angles.",
    "A side of the dead centre or one of the angles may be missing.",
    "Draw the circle of the crank and mark where the port opens and closes.",
)

PORTS = Task(
    id="ports",
    title="Port timing from heights",
    outcome="turn measured port heights into opening angle, duration and blowdown",
    kind="table",
    points=4,
    competency="fuel, air and exhaust",
    show=_ports_page,
    items=(
        Number(
            "exhaust", "exhaust opens, after top dead centre", "deg",
            lambda v, own: angle_at(v, closing_depth(v)), _ANGLE, 0, 360,
            _opening_slips(closing_depth),
            Feedback("The angle does not lie where your depth does.", "The part between the rows may be off.",
                     "Find the two rows whose depths lie around yours."),
            1, any_unit=True,
        ),
        Number(
            "duration", "exhaust open for", "deg", lambda v, own: 360 - 2 * own["ports.exhaust"], _ANGLE, 0,
            720,
            (
                slip("closed_part_counted", lambda v, own: 2 * own["ports.exhaust"],
                     "More than half a turn.", "The time with the port shut was counted.",
                     "Between which two angles is the piston below the edge of the port?"),
                slip("one_side_only", lambda v, own: 180 - own["ports.exhaust"],
                     "Half of what the port is open.", "Only the way down to bottom was counted.",
                     "What does the port do while the piston comes up again?", share=0.5),
                slip("one_opening_off", lambda v, own: 360 - own["ports.exhaust"],
                     "More than half a turn.", "The opening angle was taken off once only.",
                     "On how many sides of top dead centre is the port shut?",
                     misconception="one_side_only"),
            ),
            _OWN_ANGLES, 1, any_unit=True,
        ),
        Number(
            "transfer", "transfers open, after top dead centre", "deg",
            lambda v, own: angle_at(v, _transfer_depth(v)), _ANGLE, 0, 360,
            _opening_slips(_transfer_depth),
            Feedback("The angle does not lie where your depth does.", "The part between the rows may be off.",
                     "Find the two rows whose depths lie around yours."),
            1, any_unit=True,
        ),
        Number(
            "blowdown", "blowdown", "deg", lambda v, own: own["ports.transfer"] - own["ports.exhaust"],
            _ANGLE, -720, 720,  # below nought where an opening of the learner's own is off
            (
                slip("both_sides", lambda v, own: 2 * (own["ports.transfer"] - own["ports.exhaust"]),
                     "Twice the blowdown.", "Two durations were taken from each other.",
                     "Does blowdown happen on the way up too?", misconception="blowdown_both_ways",
                     share=0.5),
                slip("to_the_bottom", lambda v, own: 180 - own["ports.exhaust"],
                     "All the way to bottom dead centre.", "Blowdown was thought to last to the bottom.",
                     "What opens first after the exhaust, and ends the blowdown?",
                     misconception="blowdown_both_ways"),
                slip("heights_as_angles", lambda v, own: _transfer_depth(v) - closing_depth(v),
                     "The difference of the two depths.", "Millimetres were written down as degrees.",
                     "In which unit did you find the two openings?", misconception="label_swapped"),
            ),
            _OWN_ANGLES, 1, any_unit=True,
        ),
    ),
)  # fmt: skip


def advance_depth(v: Variant) -> float:
    """Piston depth at which the spark comes, in mm."""
    return float(v["advance_hundredths_mm"]) / 100


def _advance_page(v: Variant) -> Page:
    rows = (
        ("spark comes with the piston below top dead centre by", f"{advance_depth(v):.2f} mm"),
        ("stroke", f"{stroke(v):.1f} mm"),
        ("connecting rod between centres", f"{rod(v):.1f} mm"),
    )
    lines = (
        ("throw:", "r = stroke / 2"),
        ("crank centre to piston pin:", "s = r + rod − depth"),
        ("angle:", "cos(angle) = (r² + s² − rod²) / (2 · r · s)"),
    )
    given = Table(f"Demo engine {v['engine']}, dial gauge in the plug hole", ("what", "reading"), rows)
    return Page(
        "", (given, Text("Law of cosines on the triangle of crank, rod and cylinder axis:"), Lines(lines))
    )


def _pin(v: Variant, own: Any) -> float:
    return stroke(v) / 2 + rod(v) - advance_depth(v)


def _from_pin(v: Variant, pin: float, throw: float) -> float:
    cosine = (throw**2 + pin**2 - rod(v) ** 2) / (2 * throw * pin)
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))


ADVANCE = Task(
    id="advance",
    title="Ignition advance from millimetres to degrees",
    outcome="turn an ignition advance in millimetres into crank degrees",
    kind="value",
    points=3,
    competency="magnets, key and timing",
    show=_advance_page,
    items=(
        Number(
            "pin", "crank centre to piston pin, s", "mm", _pin,
            tolerance(0.1, reason="half a step of 0.1 mm; the next step asks for all your digits"), 0, 1000,
            (
                slip("throw_as_stroke", lambda v, own: stroke(v) + rod(v) - advance_depth(v),
                     "Longer than crank and rod together.", "The whole stroke was taken for the throw.",
                     "How far is the crank pin from the middle of the crank?"),
                slip("depth_added", lambda v, own: stroke(v) / 2 + rod(v) + advance_depth(v),
                     "The pin would be above top dead centre.", "The depth was added instead of taken off.",
                     "Is the piston pin nearer to the crank or further away than at top?"),
                slip("throw_left_out", lambda v, own: rod(v) - advance_depth(v),
                     "Shorter than the rod.", "The throw was left out.",
                     "At top dead centre, what lies between crank centre and piston pin?",
                     misconception="depth_added"),
            ),
            Feedback("It does not follow from stroke, rod and depth.", "One of the three may be another one.",
                     "Throw plus rod is the reach at top dead centre; what does the depth do to it?"),
            2, any_unit=True, share=1,
        ),
        Number(
            "angle", "ignition advance", "deg", lambda v, own: _from_pin(v, own["advance.pin"],
            stroke(v) / 2),
            lambda v: tolerance(
                0.5, (_slope(v), 0.005), (_slope(v), 0.05),
                reason="half a step of 0.5°, the dial gauge to half of 0.01 mm, stroke and rod to half of "
                "0.1 mm",
            ),
            0, 360,
            (
                slip("angle_in_proportion", lambda v, own: 180 * advance_depth(v) / stroke(v),
                     "Depth over stroke, times 180.", "The piston was thought to move evenly with the crank.",
                     "Near top dead centre, does a degree move the piston much or little?"),
                slip("rod_left_out", lambda v,
                    own: math.degrees(math.acos(1 - 2 * advance_depth(v) / stroke(v))),
                     "A few degrees too many.", "The rod was left out, as if it were endlessly long.",
                     "Does the lean of the rod also pull the piston down?", share=0.5),
                slip("radian_as_degree",
                     lambda v, own: math.radians(_from_pin(v, own["advance.pin"], stroke(v) / 2)),
                     "Less than one degree.", "The calculator was set to radians.",
                     "What does it give for the cosine of 90?"),
                slip("cosine_as_angle",
                     lambda v, own: 100 * math.cos(math.radians(_from_pin(v, own["advance.pin"],
                     stroke(v) / 2))),
                     "A hundred times the cosine.", "The inverse cosine was left out.",
                     "Which key turns a cosine back into an angle?", misconception="radian_as_degree"),
            ),
            Feedback("It does not follow from your own s.", "A square or a bracket may be missing.",
                     "Work out above and below the line apart, then divide, then the inverse cosine."),
            1, any_unit=True, share=2,
        ),
    ),
)  # fmt: skip


def _slope(v: Variant) -> float:
    """Degrees of crank for one millimetre of piston at the spark."""
    depth = advance_depth(v)
    return (angle_at(v, depth + 0.01) - angle_at(v, depth - 0.01)) / 0.02
