"""Lesson 05: worked with gaps, then alone."""

from __future__ import annotations

import math
from functools import cache
from typing import TYPE_CHECKING

from twostroke import gap, geometry, ignition, units
from twostroke.lesson.figures.demo_engine import ignition_system
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity

_STROKE, _ROD = "30 mm", "52 mm"


def _mm(value: float) -> Quantity:
    return units.read(f"{value} mm")


def _degrees(value: float) -> Quantity:
    return units.read(f"{value} deg")


def _stack() -> gap.ShimStack:
    return gap.shim_stack(["0.10 mm", "0.20 mm"], "0.005 mm")


def _key() -> Quantity:
    return geometry.key_offset_angle("1.2 mm", "16 mm")


@cache
def _lowest(wide: float) -> Quantity:
    system = ignition_system().changed(gap_1=wide * 1e-3, gap_2=wide * 1e-3)
    return units.read(f"{ignition.minimum_speed(system, 10e3)[0]} rpm")


def _depth(stroke: str = _STROKE) -> Quantity:
    return geometry.piston_depth("20 deg", stroke, _ROD)


def _in_radians() -> Quantity:
    return geometry.piston_depth(f"{20 * 180 / math.pi} deg", _STROKE, _ROD)


EXAMPLES = (
    Example(
        id="shims_faded",
        title="An invented sheet asks for 10 to 14 thou. You have leaves of 0.10, 0.15 and 0.20 mm",
        lines=(
            "10 thou = 0.254 mm and 14 thou = 0.356 mm.",
            Blank(
                id="total",
                label="0.10 mm and 0.20 mm together are",
                unit="thou",
                within=0.02,
                answer=lambda: _stack().total.to("thou"),
                say="0.30 mm = 11.8 thou, inside the band.",
                hint="0.30 mm ÷ 0.0254 mm.",
                slips=(
                    Slip(
                        gives=lambda: units.read("30 thou"),
                        believes="thou_as_hundredth_mm",
                        say="That takes hundredths of a millimetre for thou.",
                    ),
                    Slip(
                        gives=lambda: units.read("300 thou"),
                        believes="thou_as_thousandth_mm",
                        say="That takes thousandths of a millimetre for thou.",
                    ),
                ),
            ),
            "Each leaf is good to ±0.005 mm.",
            Blank(
                id="worst",
                label="At worst the stack is off by ±",
                unit="mm",
                answer=lambda: _stack().worst_case,
                say="0.010 mm: the doubts add up.",
                hint="What if both leaves are off the same way?",
                slips=(
                    Slip(
                        gives=lambda: _mm(0.005),
                        believes="errors_do_not_add",
                        say="That is one leaf. Both may be off the same way.",
                    ),
                ),
            ),
            Blank(
                id="few",
                label="0.30 mm out of two leaves, or of three?",
                options=("two", "three, it makes no odds"),
                answer="two",
                believes={"three, it makes no odds": "more_leaves_do_no_harm"},
                say="Each leaf brings its doubt, and some dirt between.",
                hint="What lies between the leaves?",
            ),
        ),
    ),
    Example(
        id="legs_faded",
        title="Leaves drag at 0.25 mm under one leg, 0.35 mm under the other. The indicator swings 0.10 mm",
        lines=(
            "The flux crosses both gaps one after the other. What counts for it is the mean.",
            Blank(
                id="mean",
                label="The mean gap is",
                unit="mm",
                answer=lambda: gap.two_legs("0.25 mm", "0.35 mm").mean,
                say="0.30 mm, and the module stands 0.10 mm askew.",
                hint="Half of the sum.",
                slips=(
                    Slip(
                        gives=lambda: gap.two_legs("0.25 mm", "0.35 mm").total,
                        believes="sum_as_mean",
                        say="That is both gaps added. The band is meant for each.",
                    ),
                    Slip(gives=lambda: _mm(0.25), believes="one_leg_enough", say="That is one leg only."),
                    Slip(gives=lambda: _mm(0.35), believes="one_leg_enough", say="The other leg only."),
                ),
            ),
            "The indicator shows highest less lowest in one turn. The middle lies half-way.",
            Blank(
                id="least",
                label="In one turn the mean gap falls to",
                unit="mm",
                answer=lambda: gap.run_out("0.30 mm", "0.10 mm")[0],
                say="0.25 mm: half of the swing either way.",
                hint="0.30 mm less half of 0.10 mm.",
                slips=(
                    Slip(
                        gives=lambda: _mm(0.20),
                        believes="run_out_whole",
                        say="That takes off the whole swing.",
                    ),
                    Slip(
                        gives=lambda: _mm(0.30),
                        believes="one_place_is_all",
                        say="That is where you measured. Turn the flywheel.",
                    ),
                ),
            ),
            Blank(
                id="most",
                label="and rises to",
                unit="mm",
                answer=lambda: gap.run_out("0.30 mm", "0.10 mm")[1],
                say="0.35 mm, the upper end of the usual band.",
                hint="0.30 mm and half of 0.10 mm.",
                slips=(
                    Slip(gives=lambda: _mm(0.40), believes="run_out_whole", say="That adds the whole swing."),
                    Slip(
                        gives=lambda: _mm(0.30),
                        believes="run_out_one_way",
                        say="It swings to both sides of the middle.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="speed_alone",
        title="The demo module needs 568 rpm at 0.30 mm and 694 rpm at 0.50 mm. Somebody set 0.40 mm",
        stage="alone",
        lines=(
            Blank(
                id="rise",
                label="The speed that it needs rises by",
                unit="rpm",
                within=0.08,
                answer=lambda: _lowest(0.40) - _lowest(0.30),
                say="By some 65 rpm, to about 633 rpm. A brisk pull still makes it.",
                hint="0.40 mm is half-way from 0.30 to 0.50 mm. How far is it from 568 rpm?",
                slips=(
                    Slip(
                        gives=lambda: _lowest(0.40),
                        believes="total_as_change",
                        say="That is the new speed. Take the old one off.",
                    ),
                    Slip(
                        gives=lambda: _lowest(0.30) / 3,
                        believes="gap_in_proportion",
                        say="A third more gap is not a third more speed.",
                    ),
                    Slip(
                        gives=lambda: units.read("0 rpm"),
                        believes="gap_does_nothing",
                        say="It asks for a faster pull, if only a little.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="key_faded",
        title="A key has given way: step 1.2 mm, shaft 16 mm. The flywheel stands behind. Spark as made: 27°",
        lines=(
            "The step is an arc on the shaft's surface. Its radius is 8 mm.",
            Blank(
                id="angle",
                label="1.2 ÷ 8 × 57.3 =",
                unit="deg",
                answer=_key,
                say="8.6°. 57.3 turns arc over radius into degrees.",
                hint="Half of 16 mm is the radius.",
                slips=(
                    Slip(
                        gives=lambda: _key() / 2,
                        believes="diameter_as_radius",
                        say="That divides by the diameter.",
                    ),
                    Slip(
                        gives=lambda: _degrees(0.15),
                        believes="radian_as_degree",
                        say="Arc over radius is not in degrees yet.",
                    ),
                ),
            ),
            "Behind means that the magnet arrives later.",
            Blank(
                id="timing",
                label="The spark now comes before top by",
                unit="deg",
                answer=lambda: _degrees(27) - _key(),
                say="27 − 8.6 = 18.4°: late.",
                hint="Later is nearer to the top.",
                slips=(
                    Slip(
                        gives=lambda: _degrees(27) + _key(),
                        believes="timing_way_round",
                        say="That would be early. Behind is late.",
                    ),
                    Slip(
                        gives=lambda: _degrees(27) - _key() / 2,
                        believes="four_stroke_halving",
                        say="The flywheel sits on the crank. Nothing is halved.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="depth_alone",
        title=(
            "The maker's mark is 20° before top. Stroke 30 mm, rod 52 mm. How far is the piston from the top?"
            " s = 15 × cos 20° + √(52² − (15 × sin 20°)²)"
        ),
        stage="alone",
        lines=(
            Blank(
                id="depth",
                label="It is down by 15 + 52 − s =",
                unit="mm",
                within=0.02,
                answer=_depth,
                say="1.16 mm: s is 65.84 mm.",
                hint="15 × cos 20° is 14.10 mm. The root is 51.75 mm.",
                slips=(
                    Slip(
                        gives=lambda: _depth("15 mm"),
                        believes="throw_as_stroke",
                        say="That takes 15 mm for the stroke. 15 mm is the throw.",
                    ),
                    Slip(
                        gives=lambda: _mm(30 * 20 / 180),
                        believes="angle_in_proportion",
                        say="That is 20 parts of 180 of the stroke.",
                    ),
                    Slip(
                        gives=lambda: _mm(65.84),
                        believes="depth_added",
                        say="That is s, from crank to pin. At the top it is 67 mm.",
                    ),
                    Slip(
                        gives=lambda: _mm(15 * (1 - math.cos(math.radians(20)))),
                        believes="rod_left_out",
                        say="The rod leans, and that pulls the piston further down.",
                    ),
                    Slip(
                        gives=_in_radians,
                        believes="radian_as_degree",
                        say="The calculator stands on radians.",
                    ),
                ),
            ),
        ),
    ),
)
