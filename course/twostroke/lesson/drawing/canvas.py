"""Lines, surfaces and labels: the few strokes that every drawing of the course is made of."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from html import escape

from twostroke.errors import TwoStrokeError

PAPER = "#faf8f2"
INK = "#20262b"
STEEL = "#c9d0d3"
GUIDE = "#6b747a"
BLUE = "#1f4e79"  # like marking-out dye: what is measured
RUST = "#9a3412"  # what to look at, and the reader's own guess
BRASS = "#e7d3a1"

_WEIGHTS = {"hair": 1.0, "thin": 1.5, "normal": 2.2, "bold": 3.6}
_DASHES = {"solid": "", "dash": "9 5", "dot": "2 5", "chain": "14 4 2 4"}
_FONT = "'Source Sans 3','Noto Sans','DejaVu Sans','Segoe UI',Arial,sans-serif"


class DrawingError(TwoStrokeError):
    """A drawing was asked for something that cannot be drawn."""


def number(value: float) -> str:
    """A coordinate as short text, refused when it is not finite.

    Examples
    --------
    >>> number(12.5), number(3.0)
    ('12.5', '3')
    """
    if not math.isfinite(value):
        raise DrawingError(
            f"coordinate {value}: a drawing needs finite numbers; check what was fed to the figure"
        )
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


class Canvas:
    """A drawing under way; coordinates in pixels of the view box, origin top left.

    Parameters
    ----------
    width, height : float
        Size of the view box [px]. 640 wide fits the reading column of a tablet.
    title : str
        Name of the picture, read first by a screen reader.
    words : str
        What the picture shows, in one to three sentences.

    Examples
    --------
    >>> canvas = Canvas(100, 50, "A line", "One line across.")
    >>> canvas.line(0, 0, 100, 50)
    >>> 'x2="100"' in canvas.svg()
    True
    """

    def __init__(self, width: float, height: float, title: str, words: str) -> None:
        if not title.strip() or not words.strip():
            raise DrawingError(
                "drawing without title or words: say what it shows, for those who cannot see it"
            )
        self.width, self.height, self.title, self.words = width, height, title, words
        self._parts: list[str] = []
        self._key = re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")

    @property
    def hatch(self) -> str:
        """Fill for cut metal: lines at 45 degrees, as on a workshop drawing."""
        return f"url(#{self._key}-hatch)"

    @property
    def dots(self) -> str:
        """Fill for a gas or liquid: dots, so that it differs from metal in grey too."""
        return f"url(#{self._key}-dots)"

    def _add(self, tag: str, text: str | None = None, **attributes: object) -> None:
        pairs = []
        for name, value in attributes.items():
            if value is None or value == "":
                continue
            shown = number(value) if isinstance(value, int | float) else escape(str(value), quote=True)
            pairs.append(f' {name.rstrip("_").replace("_", "-")}="{shown}"')
        head = f"<{tag}{''.join(pairs)}"
        self._parts.append(f"{head}/>" if text is None else f"{head}>{text}</{tag}>")

    def line(
        self,
        x1: float,
        y1: float,
        x2: float,
        y2: float,
        *,
        weight: str = "normal",
        dash: str = "solid",
        colour: str = INK,
    ) -> None:
        """A straight line; weights ``hair thin normal bold``, dashes ``solid dash dot chain``."""
        self._add(
            "line",
            x1=x1,
            y1=y1,
            x2=x2,
            y2=y2,
            stroke=colour,
            stroke_width=_WEIGHTS[weight],
            stroke_dasharray=_DASHES[dash],
            stroke_linecap="round" if dash == "dot" else "",
        )

    def path(
        self,
        points: Iterable[tuple[float, float]],
        *,
        closed: bool = False,
        fill: str = "none",
        weight: str = "normal",
        dash: str = "solid",
        colour: str = INK,
    ) -> None:
        """A line through points, or an outline when closed."""
        corners = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        self._add(
            "polygon" if closed else "polyline",
            points=corners,
            fill=fill,
            stroke=colour,
            stroke_width=_WEIGHTS[weight],
            stroke_dasharray=_DASHES[dash],
            stroke_linejoin="round",
        )

    def rect(
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        *,
        fill: str = "none",
        weight: str = "normal",
        dash: str = "solid",
        colour: str = INK,
        corner: float = 0.0,
    ) -> None:
        """A rectangle from its top left corner."""
        self._add(
            "rect",
            x=x,
            y=y,
            width=max(width, 0.0),
            height=max(height, 0.0),
            rx=corner or None,
            fill=fill,
            stroke=colour,
            stroke_width=_WEIGHTS[weight],
            stroke_dasharray=_DASHES[dash],
        )

    def circle(
        self,
        x: float,
        y: float,
        radius: float,
        *,
        fill: str = "none",
        weight: str = "normal",
        colour: str = INK,
    ) -> None:
        """A circle about its centre."""
        self._add("circle", cx=x, cy=y, r=radius, fill=fill, stroke=colour, stroke_width=_WEIGHTS[weight])

    def label(
        self,
        x: float,
        y: float,
        text: str,
        *,
        size: float = 17,
        anchor: str = "start",
        colour: str = INK,
        strong: bool = False,
        turn: float = 0.0,
    ) -> None:
        """Text with a halo of paper; ``anchor`` is ``start``, ``middle`` or ``end``; ``turn`` in degrees."""
        self._add(
            "text",
            escape(text),
            x=x,
            y=y,
            font_size=size,
            text_anchor="" if anchor == "start" else anchor,
            fill=colour,
            font_weight="600" if strong else "",
            transform=f"rotate({number(turn)} {number(x)} {number(y)})" if turn else "",
            class_="label",
        )

    def arrow(
        self,
        x1: float,
        y1: float,
        x2: float,
        y2: float,
        *,
        both: bool = False,
        weight: str = "thin",
        colour: str = INK,
        head: float = 9.0,
    ) -> None:
        """An arrow to the second point, or with two heads."""
        length = math.hypot(x2 - x1, y2 - y1)
        if length < 1e-9:
            return
        self.line(x1, y1, x2, y2, weight=weight, colour=colour)
        size = min(head, length / (2.2 if both else 1.2))
        ux, uy = (x2 - x1) / length, (y2 - y1) / length
        tips = [(x2, y2, 1.0), (x1, y1, -1.0)] if both else [(x2, y2, 1.0)]
        for x, y, way in tips:
            back_x, back_y = x - way * ux * size, y - way * uy * size
            side_x, side_y = -uy * size * 0.42, ux * size * 0.42
            corners = [(x, y), (back_x + side_x, back_y + side_y), (back_x - side_x, back_y - side_y)]
            self.path(corners, closed=True, fill=colour, weight="hair", colour=colour)

    def marker(
        self, x: float, y: float, *, shape: str = "round", colour: str = INK, size: float = 6.0
    ) -> None:
        """A mark on a curve: ``round`` filled, ``ring`` open, ``diamond`` open, for telling apart without
        colour."""
        if shape == "diamond":
            corners = [(x, y - size), (x + size, y), (x, y + size), (x - size, y)]
            self.path(corners, closed=True, fill=PAPER, colour=colour)
        else:
            self.circle(x, y, size, fill=colour if shape == "round" else PAPER, colour=colour)

    def note(self, x: float, y: float, lines: Sequence[str], **options: object) -> None:
        """Several lines of label, one below the other."""
        size = float(options.get("size", 17))  # type: ignore[arg-type]
        for row, text in enumerate(lines):
            self.label(x, y + row * size * 1.25, text, **options)  # type: ignore[arg-type]

    def svg(self) -> str:
        """The whole drawing as one ``<svg>`` element with its title, description and patterns."""
        key = self._key
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {number(self.width)}'
            f' {number(self.height)}" '
            f'role="img" aria-labelledby="{key}-t {key}-d" font-family="{_FONT}">'
            f'<title id="{key}-t">{escape(self.title)}</title><desc id="{key}-d">{escape(self.words)}</desc>'
            f'<defs><pattern id="{key}-hatch" width="8" height="8" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate(45)"><rect width="8" height="8" fill="{STEEL}"/>'
            f'<line x1="0" y1="0" x2="0" y2="8" stroke="{GUIDE}" stroke-width="1.6"/></pattern>'
            f'<pattern id="{key}-dots" width="9" height="9" patternUnits="userSpaceOnUse">'
            f'<rect width="9" height="9" fill="{BRASS}"/><circle cx="3" cy="3" r="1.1"'
            f' fill="{GUIDE}"/></pattern></defs>'
            f"<style>.label{{paint-order:stroke;stroke:{PAPER};stroke-width:4px;stroke-linejoin:round}}</style>"
            f'<rect width="{number(self.width)}" height="{number(self.height)}" fill="{PAPER}"/>'
            f"{''.join(self._parts)}</svg>"
        )
