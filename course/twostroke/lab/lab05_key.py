"""Lab 05: a key that has given way, in degrees, and what it does to the timing."""

from __future__ import annotations

import math
from functools import lru_cache

from twostroke import geometry
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance


@lru_cache(maxsize=1024)
def _angle(offset_hundredths: int, shaft_tenths: int) -> float:
    found = geometry.key_offset_angle(f"{offset_hundredths / 100} mm", f"{shaft_tenths / 10} mm")
    return float(found.to("deg").magnitude)


def angle(v: Variant) -> float:
    """Angle in degrees by which the flywheel stands wrong."""
    return _angle(v["offset_hundredths_mm"], v["shaft_tenths_mm"])


def _offset(v: Variant) -> float:
    return float(v["offset_hundredths_mm"]) / 100


def _shaft(v: Variant) -> float:
    return float(v["shaft_tenths_mm"]) / 10


def _show(v: Variant) -> Page:
    way = "behind the crank: each magnet comes later" if v["late"] else "ahead of the crank: each magnet "
    "comes sooner"
    rows = (
        ("step between the two halves of the keyway, at the shaft's surface", f"{_offset(v):.2f} mm"),
        ("diameter of the shaft there", f"{_shaft(v):.1f} mm"),
        ("the flywheel stands", way),
        ("maker's timing", f"{v['maker_deg']}° before top dead centre"),
    )
    table = Table(f"Flywheel off, {v['machine']}, demo engine {v['engine']}", ("what", "reading"), rows)
    return Page("", (table, Text("What will the owner notice, and what not?"), EFFECT.options_block(v)))


def _close(v: Variant) -> Tolerance:
    per_mm = math.degrees(2 / _shaft(v))
    return tolerance(
        0.5, (per_mm, 0.025), (angle(v) / _shaft(v), 0.05),
        reason="half a step of 0.5°, the step read to half of 0.05 mm, the shaft to half of 0.1 mm",
    )  # fmt: skip


def _timing(v: Variant, moved: float) -> float:
    return float(v["maker_deg"]) - (moved if v["late"] else -moved)


def _effects(v: Variant) -> tuple[Option, ...]:
    return (
        Option(
            "late", "It starts badly and runs weak and hot: the spark comes late. Its kilovolts hardly "
            "change.",
            v["late"], "timing_way_round",
            Feedback("A late spark is named.", "The way the flywheel has moved was turned round.",
                     "Does the magnet now pass the module sooner or later than the piston comes up?"),
        ),
        Option(
            "early", "It kicks back at the rope: the spark comes early. Its kilovolts hardly change.",
            not v["late"], "timing_way_round",
            Feedback("An early spark is named.", "The way the flywheel has moved was turned round.",
                     "Does the magnet now pass the module sooner or later than the piston comes up?"),
        ),
        Option(
            "weak", "The spark is weak: the magnet passes the module at the wrong moment.",
            misconception="timing_changes_strength",
            feedback=Feedback("Strength is blamed.",
            "The key was thought to set how the magnet meets the module.",
                              "Magnet and module pass each other as before: what has moved against them?"),
        ),
        Option(
            "none", "Nothing: the key only carries load, and the nut holds the flywheel.",
            misconception="key_only_holds",
            feedback=Feedback("No effect is expected.", "The key was taken for a part that only holds.",
                              "What tells the flywheel where the crank is?"),
        ),
    )  # fmt: skip


EFFECT = Pick("effect", "what the owner notices", _effects)

TASK = Task(
    id="key",
    title="A sheared key",
    outcome="turn a key offset into crank degrees and say what it changes",
    kind="value",
    points=4,
    competency="magnets, key and timing",
    show=_show,
    items=(
        Number(
            "angle", "angle of the offset", "deg", lambda v, own: angle(v), _close, 0, 360,
            (
                slip("diameter_as_radius", lambda v, own: angle(v) / 2,
                     "Half the angle.", "The shaft's diameter was taken for its radius.",
                     "How far is the keyway from the middle of the shaft?"),
                slip("radian_as_degree", lambda v, own: math.radians(angle(v)),
                     "A very small angle.", "Offset over radius was written down as degrees.",
                     "In which unit is an arc divided by its radius?"),
                slip("percent_of_turn", lambda v, own: angle(v) / 3.6,
                     "Too small by some three and a half times.",
                     "The part of the turn was written in hundredths.",
                     "Into how many degrees is a whole turn divided?", misconception="radian_as_degree"),
                slip("radius_twice", lambda v, own: 2 * angle(v),
                     "Twice the angle.", "The shaft was halved twice.",
                     "Radius from diameter: how often do you halve?", misconception="diameter_as_radius"),
            ),
            Feedback("It fits neither your offset nor a usual slip.",
            "A length or a factor may be another one.",
                     "Offset divided by the shaft's whole circumference, times a whole turn."),
            1, any_unit=True, share=2,
        ),
        Number(
            "timing", "timing now, before top dead centre", "deg", lambda v, own: _timing(v,
            own["key.angle"]),
            _close, -180, 360,
            (
                slip("timing_way_round", lambda v, own: _timing(v, -own["key.angle"]),
                     "The timing moved the other way.", "Late and early were changed over.",
                     "Later means nearer to top dead centre: is that more or fewer degrees before it?"),
                slip("key_only_holds", lambda v, own: float(v["maker_deg"]),
                     "The maker's timing, unchanged.", "The offset was thought to leave the timing alone.",
                     "Which two parts does the key hold together, and which makes the spark?"),
                slip("four_stroke_halving", lambda v, own: _timing(v, own["key.angle"] / 2),
                     "Half the angle was counted.", "The flywheel was thought to turn at half crank speed.",
                     "How often does the flywheel turn while the crank turns once?"),
            ),
            Feedback("It does not follow from your own angle.", "The sum may have gone astray.",
                     "Maker's timing, then your angle taken off or added on."),
            1, any_unit=True, share=1,
        ),
        EFFECT,
    ),
)  # fmt: skip
