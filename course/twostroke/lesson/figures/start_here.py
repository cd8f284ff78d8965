"""Figure of lesson 00: a reading held against its band."""

from __future__ import annotations

from typing import TYPE_CHECKING

from twostroke import gap, units
from twostroke.lesson.drawing import BLUE, GUIDE, RUST, Canvas, DrawingError, Frame, Picture

if TYPE_CHECKING:
    from pint import Quantity

_LOW, _HIGH = "0.20 mm", "0.35 mm"
_COVER = 1.645  # standard doubts, one side, 5 per cent risk (JCGM 106)
_MEANING = {
    "in": "in: the whole reach of the reading lies inside the band",
    "out": "out: the whole reach of the reading lies outside the band",
    "undecided": "undecided: the reach crosses a limit",
}
_ADVICE = {"undecided": " Measure more finely."}


def reading_in_band(reading: str | Quantity, doubt: str | Quantity) -> Picture:
    """An air-gap reading with the reach of its doubt, against the band 0.20 to 0.35 mm.

    Parameters
    ----------
    reading : quantity or text
        The reading [length], 0.10 to 0.45 mm.
    doubt : quantity or text
        Its standard uncertainty [length], zero to 0.05 mm.

    Returns
    -------
    Picture
        ``shown`` holds ``reading``, ``reach`` [length] and ``verdict``.

    Raises
    ------
    DrawingError
        A value outside the drawn scale.

    Notes
    -----
    The verdict is `twostroke.gap.judge`: a guard band of 1.645 standard uncertainties (JCGM 106). The band
    itself is common practice, no source.

    Examples
    --------
    >>> str(reading_in_band("0.28 mm", "0.01 mm").shown["verdict"])
    'in'
    """
    value = units.read(reading, expect="mm").to("mm")
    spread = units.read(doubt, expect="mm").to("mm")
    if not 0.10 <= value.magnitude <= 0.45 or not 0 <= spread.magnitude <= 0.05:
        raise DrawingError(
            f"{value:~P} with doubt {spread:~P}: the figure shows 0.10 to 0.45 mm, doubt to 0.05 mm"
        )
    verdict = str(gap.judge(value, _LOW, _HIGH, spread))
    reach = _COVER * spread
    words = (
        f"Reading {value.magnitude:.3f} mm, doubt {spread.magnitude:.3f} mm, band 0.20 to 0.35 mm. With its"
        f" doubt the reading reaches from {(value - reach).magnitude:.3f} to {(value + reach).magnitude:.3f}"
        f" mm. Verdict {_MEANING[verdict]}."
    )
    canvas = Canvas(680, 270, "A reading held against its band", words)
    frame = Frame(50, 60, 580, 90, (0.05, 0.50), (0, 1))
    low, high = (units.read(limit).to("mm").magnitude for limit in (_LOW, _HIGH))
    canvas.rect(frame.x(low), 60, frame.x(high) - frame.x(low), 90, fill=canvas.dots, weight="thin")
    canvas.label((frame.x(low) + frame.x(high)) / 2, 82, "band", anchor="middle", strong=True)
    for limit, name in ((low, "lower limit"), (high, "upper limit")):
        canvas.line(frame.x(limit), 46, frame.x(limit), 158)
        canvas.label(frame.x(limit), 38, f"{name} {limit:.2f}", size=16, anchor="middle")
    canvas.line(50, 150, 630, 150)
    for row in range(1, 11):
        x = frame.x(row * 0.05)
        canvas.line(x, 150, x, 158, weight="thin")
        canvas.label(x, 178, f"{row * 0.05:.2f}", size=15, anchor="middle")
    canvas.label(340, 204, "air gap, mm", anchor="middle")
    x, arm = frame.x(value.magnitude), frame.width * reach.magnitude / 0.45
    canvas.line(x - arm, 116, x + arm, 116, weight="bold", colour=BLUE)
    for end in (x - arm, x + arm):
        canvas.line(end, 104, end, 128, weight="bold", colour=BLUE)
    canvas.marker(x, 116, size=8, colour=BLUE)
    colour = {"in": BLUE, "out": RUST}.get(verdict, GUIDE)
    canvas.rect(
        50,
        222,
        580,
        38,
        fill="none",
        weight="bold",
        dash="dash" if verdict == "undecided" else "solid",
        colour=colour,
    )
    canvas.label(340, 247, _MEANING[verdict], size=18, anchor="middle", strong=True)
    return Picture(canvas.svg(), words, {"reading": value, "reach": reach, "verdict": verdict})
