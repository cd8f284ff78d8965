"""Lab 02: displacement, geometric ratio and trapped ratio from bore, stroke and a filled clearance."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

from twostroke.compression import Cylinder
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.ratio import Ratio
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance


def bore(v: Variant) -> float:
    """Bore in mm."""
    return float(v["bore_tenths_mm"]) / 10


def stroke(v: Variant) -> float:
    """Stroke in mm."""
    return float(v["stroke_tenths_mm"]) / 10


def rod(v: Variant) -> float:
    """Rod between centres in mm."""
    return float(v["rod_tenths_mm"]) / 10


def clearance(v: Variant) -> float:
    """Clearance volume in cm³, as measured by filling."""
    return float(v["clearance_tenths_mL"]) / 10


@lru_cache(maxsize=256)
def _engine(bore: float, stroke: float, rod: float, clearance: float, closing: float) -> tuple[float, float]:
    """Displacement (cm³) and depth at port closing (mm) of one engine, from the library's cylinder."""
    ratio = 1 + math.pi / 4 * bore**2 * stroke / 1000 / clearance
    found = Cylinder(f"{bore} mm", f"{stroke} mm", f"{rod} mm", ratio, f"{closing} deg")
    depth = found.piston_depth(found.port_closing)
    return float(found.displacement.to("cm^3").magnitude), float(depth.to("mm").magnitude)


def _of(v: Variant) -> tuple[float, float]:
    """The exhaust port closes as far before top dead centre as it opens after it."""
    return _engine(bore(v), stroke(v), rod(v), clearance(v), float(v["exhaust_deg"]))


def closing_depth(v: Variant) -> float:
    """Depth of the piston where the exhaust port closes, in mm, as read with a depth gauge of 0.1 mm."""
    return round(_of(v)[1], 1)


def _swept(v: Variant) -> float:
    return _of(v)[0]


def _per_mm(v: Variant) -> float:
    """Volume of one millimetre of stroke, cm³."""
    return math.pi / 4 * bore(v) ** 2 / 1000


def _size_page(v: Variant) -> Page:
    rows = (("bore", f"{bore(v):.1f} mm"), ("stroke", f"{stroke(v):.1f} mm"))
    return Page("", (Table(f"Measured on demo engine {v['engine']}", ("what", "reading"), rows),))


def _close_swept(v: Variant) -> Tolerance:
    step = 0.05
    return tolerance(
        0.1, (2 * _swept(v) / bore(v), step), (_swept(v) / stroke(v), step),
        reason="half a step of 0.1 cm³, and bore and stroke read to half of 0.1 mm",
    )  # fmt: skip


DISPLACEMENT = Task(
    id="displacement",
    title="Displacement",
    outcome="work out the displacement from bore and stroke",
    kind="value",
    points=2,
    competency="units and measuring",
    show=_size_page,
    items=(
        Number(
            "swept", "displacement", "cm³", lambda v, own: _swept(v), _close_swept, 0, 5000,
            (
                slip("diameter_as_radius", lambda v, own: 4 * _swept(v),
                     "Four times an engine of this size.", "The bore was taken for the radius.",
                     "Is the bore measured across the whole cylinder, or from its middle?"),
                slip("square_piston", lambda v, own: bore(v) ** 2 * stroke(v) / 1000,
                     "About a quarter too much.", "Bore times bore is a square; the piston is round.",
                     "What part of a square is the circle inside it?"),
                slip("throw_as_stroke", lambda v, own: _swept(v) / 2,
                     "Half an engine.", "The crank throw was taken for the stroke.",
                     "How far does the piston go while the crank pin goes from top to bottom?"),
                slip("prefix_dropped", lambda v, own: 10 * _swept(v),
                     "Ten times too large.", "A decimal place slipped between millimetres and centimetres.",
                     "Write bore and stroke in centimetres first: what changes?"),
            ),
            Feedback("The volume fits neither your readings nor a usual slip.",
                     "A factor or a reading may have gone astray.",
                     "First the area of the piston, then times the stroke: which of the two is off?"),
            1, any_unit=True,
        ),
    ),
)  # fmt: skip


def _ratio_page(v: Variant) -> Page:
    rows = (
        ("clearance volume, filled with oil at top dead centre", f"{clearance(v):.1f} mL"),
        ("piston depth below top dead centre, exhaust port just closed", f"{closing_depth(v):.1f} mm"),
        ("bore and stroke", f"{bore(v):.1f} mm and {stroke(v):.1f} mm"),
    )
    said = "The displacement is your own value from the task before."
    return Page("", (Table("More readings of the same engine", ("what", "reading"), rows), Text(said)))


def _trapped(v: Variant) -> float:
    return _per_mm(v) * closing_depth(v)


def _geometric(v: Variant, own: Any) -> float:
    return float(1 + own["displacement.swept"] / clearance(v))


def _close_geometric(v: Variant) -> Tolerance:
    share = _swept(v) / clearance(v) ** 2
    return tolerance(
        0.1, (share, 0.05), (1 / clearance(v), _close_swept(v).value / 2),
        reason="half a step of 0.1, and the clearance read to half of 0.1 mL",
    )  # fmt: skip


def _trapped_ratio(v: Variant, own: Any) -> float:
    return 1 + own["ratios.trapped"] / clearance(v)


def _close_ratio(v: Variant) -> Tolerance:
    share = _trapped(v) / clearance(v) ** 2
    return tolerance(
        0.1, (share, 0.05), (1 / clearance(v), 0.15),
        reason="half a step of 0.1, and clearance and depth read to half of 0.1",
    )  # fmt: skip


RATIOS = Task(
    id="ratios",
    title="Geometric and trapped ratio",
    outcome="tell the geometric from the trapped compression ratio and work out both",
    kind="value",
    points=4,
    competency="compression and sealing",
    show=_ratio_page,
    items=(
        Ratio(
            "geometric", "geometric ratio", ":1", _geometric, _close_geometric, 0, 1000,
            (
                slip("clearance_left_out", lambda v, own: own["displacement.swept"] / clearance(v),
                     "One less than this engine has.", "The clearance was left out of the larger volume.",
                     "What is above the piston at bottom dead centre: only what it swept?", share=0.5),
                slip("larger_less_clearance", lambda v, own: own["displacement.swept"] / clearance(v) - 1,
                     "Two less than this engine has.",
                     "The clearance was taken off the swept volume instead of added.",
                     "Is the clearance part of what the piston sweeps, or above it?",
                     misconception="clearance_left_out"),
                slip("ratio_of_volumes_turned", lambda v, own: clearance(v) / own["displacement.swept"] + 1,
                     "Hardly more than one to one.", "The smaller volume was divided by the larger.",
                     "Which volume is squeezed into which?", misconception="ratio_turned_round"),
            ),
            Feedback("It does not follow from your volumes.", "One of the two volumes may be another one.",
                     "Write down the volume at bottom and the volume at top, then divide."),
            1, share=1,
        ),
        Number(
            "trapped", "volume swept after the exhaust port has closed", "cm³", lambda v, own: _trapped(v),
            lambda v: tolerance(0.1, (_per_mm(v), 0.05), (2 * _trapped(v) / bore(v), 0.05),
                                reason="half a step of 0.1 cm³, depth and bore read to half of 0.1 mm"),
            0, 5000,
            (
                slip("geometric_as_trapped", lambda v, own: _swept(v),
                     "The whole displacement again.",
                     "The full stroke was taken for the part that compresses.",
                     "Where is the piston when the last port closes, and where does the charge go before "
                     "that?"),
                slip("stroke_as_port_closing_stroke", lambda v,
                    own: _per_mm(v) * (stroke(v) - closing_depth(v)),
                     "The volume below the port's edge.",
                     "The part of the stroke with the port open was taken.",
                     "From which end of the stroke is the depth measured?"),
                slip("diameter_as_radius", lambda v, own: 4 * _trapped(v),
                     "Four times too much.", "The bore was taken for the radius.",
                     "Is the bore measured across the whole cylinder, or from its middle?"),
            ),
            Feedback("It fits neither your depth nor a usual slip.", "Area or depth may be another one.",
                     "Area of the piston times the depth at which the port closes."),
            1, any_unit=True, share=1,
        ),
        Ratio(
            "trapped_ratio", "trapped ratio", ":1", _trapped_ratio, _close_ratio, 0, 1000,
            (
                slip("geometric_as_trapped", lambda v, own: own["ratios.geometric"],
                     "The geometric ratio again.", "The whole stroke was counted as compressing.",
                     "Which volume is shut in when the exhaust port closes?"),
                slip("clearance_left_out", lambda v, own: own["ratios.trapped"] / clearance(v),
                     "One less than it should be.", "The clearance was left out of the larger volume.",
                     "What is above the piston when the port closes: only what it still has to sweep?",
                     share=0.5),
                slip("part_of_geometric",
                     lambda v, own: own["ratios.geometric"] * closing_depth(v) / stroke(v),
                     "The geometric ratio, shortened in step with the stroke.",
                     "The clearance was shortened too, but it stays as it is.",
                     "Which of the two volumes changes when the port closes late?",
                     misconception="geometric_as_trapped"),
            ),
            Feedback("It does not follow from your own volumes.",
                "One of the two volumes may be another one.",
                     "Volume shut in when the port closes, divided by the clearance."),
            1, share=2,
        ),
    ),
)  # fmt: skip
