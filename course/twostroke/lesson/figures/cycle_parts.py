"""Parts of the drawing of lesson 02: the cylinder cut open, the ring of port timing, axes without a name."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from twostroke import units
from twostroke.lesson.drawing import BLUE, GUIDE, INK, PAPER, RUST, STEEL, Canvas, Frame
from twostroke.lesson.drawing.axes import tick
from twostroke.lesson.figures import demo_engine

_SCALE = 3.2  # px per mm
_MIDDLE, _TOP = 118.0, 66.0  # px: the cylinder's axis; the crown at top dead centre
_SKIRT, _PIN = 26.0, 13.0  # mm, of the drawn piston


def _mm(text: str) -> float:
    return float(units.read(text).to("mm").magnitude)


@dataclass(frozen=True)
class Openings:
    """Crank angles [deg]: exhaust and transfer after top dead centre, intake before it."""

    exhaust: float
    transfer: float
    intake: float

    def states(self, angle: float) -> tuple[str, str, str]:
        """Whether exhaust, transfer and intake are open or shut at an angle after top dead centre.

        Examples
        --------
        >>> Openings(102, 117, 65).states(180)
        ('open', 'open', 'shut')
        """
        opened = (
            self.exhaust <= angle <= 360 - self.exhaust,
            self.transfer <= angle <= 360 - self.transfer,
            angle <= self.intake or angle >= 360 - self.intake,
        )
        exhaust, transfer, intake = ("open" if one else "shut" for one in opened)
        return exhaust, transfer, intake


def plain_axes(
    canvas: Canvas, frame: Frame, y_name: str, x_ticks: Sequence[float], y_ticks: Sequence[float]
) -> None:
    """Axes of an upper picture that shares its angle axis with the one below."""
    canvas.rect(frame.left, frame.top, frame.width, frame.height, fill=PAPER, weight="hair", colour=GUIDE)
    bottom, right = frame.top + frame.height, frame.left + frame.width
    for value in x_ticks:
        canvas.line(
            frame.x(value), frame.top, frame.x(value), bottom, weight="hair", dash="dot", colour=GUIDE
        )
    for value in y_ticks:
        place = frame.y(value)
        canvas.line(frame.left, place, right, place, weight="hair", dash="dot", colour=GUIDE)
        canvas.label(frame.left - 8, place + 5, tick(value), size=15, anchor="end")
    canvas.line(frame.left, bottom, right, bottom)
    canvas.line(frame.left, frame.top, frame.left, bottom)
    canvas.label(frame.left - 44, frame.top + frame.height / 2, y_name, size=16, anchor="middle", turn=-90)


def cut_away(canvas: Canvas, depth: float, angle: float, roof: float, openings: Openings) -> None:
    """Cylinder, ports, piston, rod and crank at a depth [mm] and crank angle [deg]."""
    bore, stroke, rod = (_mm(text) for text in (demo_engine.BORE, demo_engine.STROKE, demo_engine.ROD))
    half, throw = bore / 2 * _SCALE, stroke / 2 * _SCALE
    crown = _TOP + depth * _SCALE
    foot = _TOP + (stroke + 12) * _SCALE
    shaft = _TOP + (_PIN + rod + stroke / 2) * _SCALE
    left, right, wall = _MIDDLE - half, _MIDDLE + half, 14.0
    canvas.rect(left - wall, 38, 2 * (half + wall), _TOP - 8 - 38, fill=canvas.hatch)
    canvas.rect(left - wall, _TOP - 8, wall, foot - _TOP + 8, fill=canvas.hatch)
    canvas.rect(right, _TOP - 8, wall, foot - _TOP + 8, fill=canvas.hatch)
    canvas.rect(left, _TOP - 8, 2 * half, crown - _TOP + 8, fill=canvas.dots, weight="hair")
    _ports(canvas, roof, openings, left, right, wall)
    canvas.circle(_MIDDLE, shaft, throw + 24, fill=PAPER)
    canvas.circle(_MIDDLE, shaft, throw, weight="hair", colour=GUIDE)
    canvas.rect(left + 1, crown, 2 * half - 2, _SKIRT * _SCALE, fill=STEEL)
    for ring in (4.0, 8.0):
        canvas.line(left + 1, crown + ring * _SCALE, right - 1, crown + ring * _SCALE, weight="thin")
    turn = math.radians(angle)
    pin_x, pin_y = _MIDDLE + throw * math.sin(turn), shaft - throw * math.cos(turn)
    canvas.line(_MIDDLE, crown + _PIN * _SCALE, pin_x, pin_y, weight="bold")
    canvas.line(_MIDDLE, shaft, pin_x, pin_y, weight="bold", colour=RUST)
    for x, y in ((_MIDDLE, crown + _PIN * _SCALE), (pin_x, pin_y), (_MIDDLE, shaft)):
        canvas.circle(x, y, 6, fill=PAPER)
    canvas.label(_MIDDLE, 26, "plug", size=15, anchor="middle")
    canvas.line(_MIDDLE, 30, _MIDDLE, _TOP + 2, weight="bold")
    said = (f"{angle:.0f}° after top,", f"piston {depth:.1f} mm down")
    canvas.note(_MIDDLE, shaft + throw + 48, said, size=17, anchor="middle", strong=True)


def _ports(canvas: Canvas, roof: float, openings: Openings, left: float, right: float, wall: float) -> None:
    """Exhaust on the right, transfer behind the piston, intake on the left, below the piston at its top."""
    stroke = _mm(demo_engine.STROKE)
    floor = _TOP + stroke * _SCALE
    exhaust = _TOP + roof * _SCALE
    canvas.rect(right - 1, exhaust, wall + 24, floor - exhaust, fill=PAPER, weight="thin")
    canvas.label(right + wall + 2, exhaust - 8, "exhaust", size=15)
    transfer = _TOP + _mm(demo_engine.TRANSFER_DEPTH) * _SCALE
    canvas.rect(_MIDDLE - 28, transfer, 56, floor - transfer, fill=PAPER, weight="thin", dash="dash")
    opened = demo_engine.engine().piston_depth(f"{openings.intake:.10g} deg").to("mm").magnitude
    low = _TOP + (opened + _SKIRT) * _SCALE
    canvas.rect(left - wall - 24, low - 26, wall + 25, 26, fill=PAPER, weight="thin")
    canvas.label(left - wall - 4, low - 34, "intake", size=15, anchor="end")


def ring(canvas: Canvas, angle: float, openings: Openings) -> None:
    """Port timing as arcs round a ring, top dead centre above, and what is open now."""
    x, y = 360.0, 122.0
    canvas.circle(x, y, 92, weight="hair", colour=GUIDE)
    spans = (
        ("exhaust", openings.exhaust, 360 - openings.exhaust, 84, "bold", "solid", BLUE),
        ("transfer", openings.transfer, 360 - openings.transfer, 70, "bold", "dash", INK),
        ("intake", -openings.intake, openings.intake, 84, "bold", "dot", RUST),
    )
    for _, start, end, radius, weight, dash, colour in spans:
        steps = [start + (end - start) * part / 36 for part in range(37)]
        arc = [
            (x + radius * math.sin(math.radians(a)), y - radius * math.cos(math.radians(a))) for a in steps
        ]
        canvas.path(arc, weight=weight, dash=dash, colour=colour)
    turn = math.radians(angle)
    canvas.arrow(x, y, x + 92 * math.sin(turn), y - 92 * math.cos(turn), weight="normal", colour=RUST)
    canvas.label(x, 24, "top", size=15, anchor="middle")
    canvas.label(x, 232, "bottom", size=15, anchor="middle")
    for row, ((name, start, end, _, weight, dash, colour), state) in enumerate(
        zip(spans, openings.states(angle), strict=True)
    ):
        line = 60 + row * 52
        canvas.line(474, line - 5, 506, line - 5, weight=weight, dash=dash, colour=colour)
        canvas.label(514, line, f"{name}: {state}", size=17, strong=state == "open")
        canvas.label(514, line + 20, f"{start % 360:.0f}° to {end:.0f}°, {end - start:.0f}° in all", size=15)
    canvas.label(474, 224, f"blowdown {openings.transfer - openings.exhaust:.0f}°", size=17)
