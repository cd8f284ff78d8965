"""Lesson 02: worked with gaps, then alone. Demo engine B: bore 36 mm, stroke 30 mm, rod 52 mm, invented."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from twostroke import geometry, units
from twostroke.compression import Cylinder
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity

_STROKE, _ROD = "30 mm", "52 mm"


@cache
def _engine() -> Cylinder:
    return Cylinder("36 mm", _STROKE, _ROD, 9, "106 deg")


def _swept() -> Quantity:
    return _engine().displacement


def _angle(depth: str) -> Quantity:
    return geometry.crank_angle(depth, _STROKE, _ROD)


def _degrees(value: float) -> Quantity:
    return units.read(f"{value} deg")


def _geometric() -> float:
    return _engine().geometric_ratio


def _trapped() -> float:
    return _engine().trapped_ratio


EXAMPLES = (
    Example(
        id="swept_faded",
        title="Displacement of demo engine B: bore 36 mm, stroke 30 mm",
        lines=(
            "Work in centimetres: bore 3.6 cm, stroke 3.0 cm.",
            Blank(
                id="area",
                label="Area of the piston, π ÷ 4 × 3.6² =",
                unit="cm²",
                answer=lambda: _swept() / units.read("3 cm"),
                say="10.18 cm². A quarter of π, about 0.785, times 12.96.",
                hint="Square the bore, then multiply by 0.785.",
                slips=(
                    Slip(
                        gives=lambda: 4 * _swept() / units.read("3 cm"),
                        believes="diameter_as_radius",
                        say="That is π × 3.6², with the bore taken for the radius.",
                    ),
                    Slip(
                        gives=lambda: units.read("12.96 cm²"),
                        believes="square_piston",
                        say="That is the area of a square piston.",
                    ),
                ),
            ),
            Blank(
                id="swept",
                label="Times the stroke, the displacement is",
                unit="cm³",
                answer=_swept,
                say="30.5 cm³.",
                hint="Area times 3.0 cm.",
                slips=(
                    Slip(
                        gives=lambda: _swept() / 2,
                        believes="throw_as_stroke",
                        say="Half of it: the throw of 15 mm was taken for the stroke.",
                    ),
                    Slip(
                        gives=lambda: 4 * _swept(),
                        believes="diameter_as_radius",
                        say="Four times too much: bore taken for radius.",
                    ),
                    Slip(
                        gives=lambda: units.read("38.88 cm³"),
                        believes="square_piston",
                        say="That is bore × bore × stroke.",
                    ),
                ),
            ),
            "Check: a machine of this size is sold as 30 cm³ class. ✓",
        ),
    ),
    Example(
        id="ratio_faded",
        title="Ratios of demo engine B: clearance 3.82 cm³, exhaust shut 106° before top",
        lines=(
            "The swept volume is 30.54 cm³.",
            Blank(
                id="geometric",
                label="Geometric ratio, (30.54 + 3.82) ÷ 3.82 =",
                answer=_geometric,
                within=0.01,
                say="9.0: nine volumes at the bottom for one at the top.",
                hint="Add the clearance to the swept volume first.",
                slips=(
                    Slip(
                        gives=lambda: _geometric() - 1,
                        believes="clearance_left_out",
                        say="The clearance is there at the bottom too.",
                    ),
                ),
            ),
            "When the exhaust shuts, 21.55 cm³ of the swept volume are still ahead of the piston.",
            Blank(
                id="trapped",
                label="Trapped ratio =",
                answer=_trapped,
                within=0.01,
                say="6.6. This is what a gauge can feel.",
                hint="(21.55 + 3.82) ÷ 3.82.",
                slips=(
                    Slip(
                        gives=_geometric,
                        believes="geometric_as_trapped",
                        say="That counts the part of the stroke in which the port is open.",
                    ),
                    Slip(
                        gives=lambda: _trapped() - 1,
                        believes="clearance_left_out",
                        say="Add the clearance to the 21.55 cm³.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="ports_faded",
        title="Port timing of demo engine B: exhaust roof 20 mm down, transfer roof 23.5 mm down",
        lines=(
            "A table (law of cosines) gives 101° for 20 mm and 116.7° for 23.5 mm.",
            Blank(
                id="duration",
                label="The exhaust is open for",
                unit="deg",
                answer=lambda: geometry.port_duration(_angle("20 mm")),
                say="360° − 2 × 101° = 158°.",
                hint="It opens 101° after top and shuts 101° before top. The rest of the turn it is open.",
                slips=(
                    Slip(
                        gives=lambda: 2 * _angle("20 mm"),
                        believes="closed_part_counted",
                        say="For those 202° it is shut.",
                    ),
                    Slip(
                        gives=lambda: _degrees(180) - _angle("20 mm"),
                        believes="one_side_only",
                        say="That is the way down only; it stays open on the way up.",
                    ),
                ),
            ),
            Blank(
                id="blowdown",
                label="Blowdown is",
                unit="deg",
                within=0.03,
                answer=lambda: _angle("23.5 mm") - _angle("20 mm"),
                say="116.7° − 101.0° = 15.7°: the exhaust has this long to empty before fresh charge comes.",
                hint="Transfer opening less exhaust opening, both on the way down.",
                slips=(
                    Slip(
                        gives=lambda: 2 * (_angle("23.5 mm") - _angle("20 mm")),
                        believes="blowdown_both_ways",
                        say="That is the difference of both durations, down and up.",
                    ),
                    Slip(
                        gives=lambda: _degrees(180) - _angle("20 mm"),
                        believes="blowdown_both_ways",
                        say="Blowdown ends where the transfer opens, not at the bottom.",
                    ),
                ),
            ),
            "Blowdown happens once a turn, on the way down.",
        ),
    ),
    Example(
        id="advance_alone",
        title=(
            "A manual sets the spark 2.00 mm before top. Stroke 30 mm, rod 52 mm. Work out the angle:"
            " s = 15 + 52 − 2.00, cos a = (15² + s² − 52²) ÷ (2 × 15 × s)"
        ),
        stage="alone",
        lines=(
            Blank(
                id="angle",
                label="The spark comes before top by",
                unit="deg",
                within=0.01,
                answer=lambda: _angle("2.00 mm"),
                say="26.4°: s = 65 mm, the cosine is 0.895.",
                hint="s is 65 mm. Check that the calculator is set to degrees.",
                slips=(
                    Slip(
                        gives=lambda: _degrees(12),
                        believes="angle_in_proportion",
                        say="That is 2 parts of 30 of half a turn. Near the top the piston hardly moves.",
                    ),
                    Slip(
                        gives=lambda: _degrees(0.4615),
                        believes="radian_as_degree",
                        say="The calculator stands on radians.",
                    ),
                    Slip(
                        gives=lambda: _degrees(29.926),
                        believes="rod_left_out",
                        say="That comes from the throw alone, as if the rod were endless.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="depth_alone",
        title="Now back: how deep is the piston of demo engine B at 60° from top? x = 15 + 52 − s",
        stage="alone",
        lines=(
            "s = 15 × cos 60° + √(52² − (15 × sin 60°)²)",
            Blank(
                id="depth",
                label="The depth is",
                unit="mm",
                answer=lambda: geometry.piston_depth("60 deg", _STROKE, _ROD),
                within=0.01,
                say="9.1 mm: s is 57.86 mm, and 67 − 57.86 = 9.14 mm.",
                hint="cos 60° is 0.5. The root is 50.36 mm.",
                slips=(
                    Slip(
                        gives=lambda: units.read("10 mm"),
                        believes="angle_in_proportion",
                        say="That is 60 parts of 180 of the stroke.",
                    ),
                    Slip(
                        gives=lambda: units.read("7.5 mm"),
                        believes="rod_left_out",
                        say="That is 15 × (1 − cos 60°): the rod's lean is left out.",
                    ),
                    Slip(
                        gives=lambda: units.read("57.86 mm"),
                        believes="depth_added",
                        say="That is how far the pin is from the crank. At the top it is 67 mm.",
                    ),
                ),
            ),
        ),
    ),
)
