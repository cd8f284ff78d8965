"""Cut-aways, gauges and curves as SVG, all in one style that survives grey printing.

A picture is told apart by line weight, dash and hatch first and by colour last. Every label carries a
paper-coloured halo, so that it can be read on top of a hatch.

Examples
--------
>>> sheet = Canvas(320, 120, "A leaf", "A feeler leaf, 0.30 mm thick.")
>>> sheet.rect(20, 40, 280, 30, fill=STEEL)
>>> sheet.label(160, 60, "0.30 mm", anchor="middle")
>>> 'role="img"' in sheet.svg(), "<title" in sheet.svg()
(True, True)
"""

from __future__ import annotations

from twostroke.lesson.drawing.axes import Frame, nice_steps
from twostroke.lesson.drawing.canvas import (
    BLUE,
    BRASS,
    GUIDE,
    INK,
    PAPER,
    RUST,
    STEEL,
    Canvas,
    DrawingError,
)
from twostroke.lesson.drawing.dial import dial
from twostroke.lesson.drawing.picture import Picture

__all__ = [
    "BLUE",
    "BRASS",
    "GUIDE",
    "INK",
    "PAPER",
    "RUST",
    "STEEL",
    "Canvas",
    "DrawingError",
    "Frame",
    "Picture",
    "dial",
    "nice_steps",
]
