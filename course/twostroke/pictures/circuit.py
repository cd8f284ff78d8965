"""Magnet, shoes, legs and gap, drawn to size but for the gap, with the flux that passes the core."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from matplotlib.patches import Rectangle

from twostroke._core import Core, gaps
from twostroke.errors import UnitError
from twostroke.pictures._style import GREY, INK, Picture, canvas
from twostroke.units import si

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from pint import Quantity

GAP_SCALE = 10.0
IRON, SHOE, MAGNET, COPPER = "#c8c8c8", "#9a9a9a", "#f0f0f0", "#e8c9a0"


def magnetic_circuit(core: Core, air_gap: Any = "0.30 mm", position: str | Quantity = "0 mm") -> Picture:
    """The core over the flywheel's magnet, the gap under each leg, and the flux.

    Parameters
    ----------
    core : Core
        Iron and magnet.
    air_gap : str or Quantity, or a pair of them
        Under each leg. [mm]
    position : str or Quantity, optional
        How far the magnet's middle is past the core's middle. [mm]

    Returns
    -------
    Picture
        Figure and words.

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind, or something else in place of the core.
    RangeError
        A value outside physical sense.

    Examples
    --------
    >>> core = Core("10 mm", "8 mm", "24 mm", "12 mm", "14 mm", "8 mm", "1.00 T", 1.07, "24 mm", "8 mm", 2000)
    >>> print(magnetic_circuit(core).words.split(":")[0])
    Magnet aligned, 0.30 mm under both legs
    """
    if not isinstance(core, Core):
        raise UnitError(f"core: {type(core).__name__} is not a Core; make one with magneto.Core")
    x = si(position, "mm", "position", minimum=-200, maximum=200) * 1e3
    first, second = (gap * 1e3 for gap in gaps(air_gap))
    flux = float(core.flux(position, air_gap).to("uWb").magnitude)
    widest = max(abs(float(core.flux("0 mm", air_gap).to("uWb").magnitude)), 1e-9)
    size = {name: value * 1e3 for name, value in core.values.items()}
    figure, (axes,) = canvas(7.2, 5.6)
    axes.set_axis_off()
    axes.set_aspect("equal")
    half, leg = size["pitch"] / 2, size["leg_width"]
    low = {-1: GAP_SCALE * first, 1: GAP_SCALE * second}
    top = max(low.values()) + size["leg_height"]

    def block(
        left: float, bottom: float, width: float, height: float, color: str, hatch: str | None = None
    ) -> None:
        axes.add_patch(
            Rectangle(
                (left, bottom), width, height, facecolor=color, edgecolor=INK, hatch=hatch, linewidth=1.2
            )
        )

    for side in (-1, 1):
        block(side * half - leg / 2, low[side], leg, top - low[side], IRON)
        block(x + side * half - size["shoe_width"] / 2, -size["magnet_thickness"], size["shoe_width"],
              size["magnet_thickness"], SHOE)  # fmt: skip
    block(-half - leg / 2, top, size["pitch"] + leg, size["yoke"], IRON)
    block(-half - leg / 2 - 5, low[-1] + 4, leg + 10, size["leg_height"] - 6, COPPER, "//")
    block(-half - leg / 2, low[-1] + 4, leg, size["leg_height"] - 6, IRON)
    inside = size["pitch"] - size["shoe_width"]
    block(x - inside / 2, -size["magnet_thickness"], inside, size["magnet_thickness"], MAGNET)
    for text, at in (("N", x - inside / 2 + 2.2), ("S", x + inside / 2 - 2.2)):
        axes.text(
            at, -size["magnet_thickness"] / 2, text, ha="center", va="center", fontsize=14, fontweight="bold"
        )
    axes.text(x, -size["magnet_thickness"] / 2, "magnet", ha="center", va="center", fontsize=10)
    for side in (-1, 1):
        axes.text(
            x + side * half, -size["magnet_thickness"] / 2, "shoe", ha="center", va="center", fontsize=10
        )
        _gap_mark(axes, side * (half + leg / 2 + 4), low[side], (first, second)[side > 0])
    axes.text(half, top - size["leg_height"] / 2, "leg", ha="center", va="center", fontsize=10)
    axes.text(
        -half, top - size["leg_height"] / 2, "winding\nround\nthis leg", ha="center", va="center", fontsize=9
    )
    if abs(flux) > 0.02 * widest:
        _flux_arrow(axes, flux, widest, half, top + size["yoke"] / 2)
    axes.text(
        0,
        top + size["yoke"] / 2 + 0.2,
        f"{flux:.0f} µWb",
        ha="center",
        va="bottom",
        fontsize=13,
        fontweight="bold",
    )
    edge = half + max(leg, size["shoe_width"]) + 9
    axes.plot([-edge - 6, edge + 6], [0, 0], color=GREY, linewidth=0.8, linestyle=(0, (4, 3)))
    note = f"gap drawn {GAP_SCALE:.0f} times too wide; the rest to size, rim unrolled"
    axes.text(-edge - 6, -size["magnet_thickness"] - 3.2, note, fontsize=9, color=GREY)
    axes.set(xlim=(-edge - 8, edge + 8), ylim=(-size["magnet_thickness"] - 5, top + size["yoke"] + 3))
    return Picture(figure, _words(x, first, second, flux, core, position))


def _gap_mark(axes: Axes, x: float, height: float, gap: float) -> None:
    axes.annotate(
        "", (x, 0), (x, height), arrowprops={"arrowstyle": "<->", "color": INK, "shrinkA": 0, "shrinkB": 0}
    )
    side = "right" if x < 0 else "left"
    axes.text(x + (-1.2 if x < 0 else 1.2), height / 2, f"{gap:.2f} mm", ha=side, va="center", fontsize=11)


def _flux_arrow(axes: Axes, flux: float, widest: float, half: float, height: float) -> None:
    start, end = (-half, half) if flux > 0 else (half, -half)
    wide = 1.0 + 4.0 * abs(flux) / widest
    axes.annotate(
        "", (end, height - 1.6), (start, height - 1.6),
        arrowprops={"arrowstyle": "-|>", "linewidth": wide, "color": INK, "mutation_scale": 18},
    )  # fmt: skip


def _words(x: float, first: float, second: float, flux: float, core: Core, position: str | Quantity) -> str:
    where = (
        "Magnet aligned"
        if abs(x) < 0.05
        else f"Magnet {abs(x):.1f} mm {'past' if x > 0 else 'before'} the core"
    )
    if abs(first - second) < 5e-4:
        where += f", {first:.2f} mm under both legs"
    else:
        where += f", {first:.2f} mm under one leg and {second:.2f} mm under the other"
    double = float(core.flux(position, (f"{2 * first} mm", f"{2 * second} mm")).to("uWb").magnitude)
    words = f"{where}: {abs(flux):.0f} µWb pass through the core"
    if abs(flux) > 1.0 and abs(x) < 1.0:
        words += (
            f"; with the gap doubled it would be {abs(double):.0f} µWb: the magnet resists more than the gap"
        )
    return words + "."
