"""The machine on the bench as a drawing: seen from the starter side, each place on it can be picked."""

from __future__ import annotations

import math
from collections.abc import Collection
from html import escape

from twostroke.lesson.bench_panel.parts import SPOTS
from twostroke.lesson.drawing import BLUE, BRASS, GUIDE, INK, PAPER, RUST, STEEL, Canvas

WIDTH, HEIGHT = 760, 500
_LYING = {
    "plug_out": "plug",
    "top_cover": "starter cover",
    "flywheel": "flywheel",
    "air_cover": "filter cover",
    "carb_off": "carburettor",
    "muffler": "muffler",
    "tank_off": "tank",
}


class Sheet(Canvas):
    """A canvas with places that can be picked by pointer and by keyboard."""

    def pick(self, key: str, picked: bool, box: tuple[float, float, float, float]) -> None:
        """Begin a place; what is drawn until `done` belongs to it."""
        x, y, width, height = box
        self._parts.append(
            f'<g class="bt-spot" role="button" tabindex="{0 if picked else -1}" data-press="pick" '
            f'data-value="{key}" data-focus="spot-{key}" aria-pressed="{"true" if picked else "false"}" '
            f'aria-label="{escape(SPOTS[key].name, quote=True)}">'
        )
        self._add(
            "rect",
            x=x,
            y=y,
            width=width,
            height=height,
            rx=6,
            class_="bt-hit",
            fill=PAPER,
            fill_opacity=0.01,
            stroke="none",
        )

    def done(self) -> None:
        """End a place."""
        self._parts.append("</g>")

    def svg(self) -> str:
        """The drawing as a group of buttons, not as one image."""
        return super().svg().replace('role="img"', 'role="group"', 1)


def machine(
    name: str,
    opened: Collection[str],
    picked: str,
    places: Collection[str],
    features: Collection[str] = (),
    hot: bool = False,
) -> str:
    """The drawing of the machine as it stands.

    Parameters
    ----------
    name : str
        What the machine is.
    opened : collection of str
        Covers that are off; they lie on the bench below.
    picked : str
        Place that is picked.
    places : collection of str
        Places where something can be done.
    features : collection of str
        Of the machine: a primer bulb and a decompression valve are drawn where it has them.
    hot : bool
        Whether it is at running temperature.

    Returns
    -------
    str
        One ``<svg>`` element whose places are buttons.
    """
    lying = [_LYING[cover] for cover in opened if cover in _LYING]
    words = (
        f"The machine from the starter side, {'hot' if hot else 'cold'}. "
        + (f"Lying on the bench: {', '.join(lying)}." if lying else "Everything is fitted.")
        + " Arrow keys move from place to place, Enter picks one."
    )
    sheet = Sheet(WIDTH, HEIGHT, f"Drawing of the {name}", words)
    sheet.line(20, 424, 740, 424, weight="bold", colour=GUIDE)
    for key, draw in _DRAWERS.items():
        if key in places:
            draw(sheet, key == picked, set(opened), set(features), hot)
    _bench(sheet, lying)
    return sheet.svg()


def _bench(sheet: Sheet, lying: list[str]) -> None:
    sheet.label(24, 450, "On the bench:", size=16, strong=True)
    sheet.label(172, 450, ", ".join(lying) or "nothing yet", size=16)
    sheet.label(24, 480, "Ringed place: picked. Dashed outline: cover still on.", size=15, colour=GUIDE)


def _ring(sheet: Sheet, picked: bool, box: tuple[float, float, float, float]) -> None:
    if picked:
        x, y, width, height = box
        sheet.rect(x, y, width, height, weight="bold", colour=RUST, corner=6)


def _name(sheet: Sheet, x: float, y: float, key_words: str, picked: bool, anchor: str = "middle") -> None:
    sheet.label(x, y, key_words, size=16, anchor=anchor, strong=picked)


def _owner(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (16, 14, 120, 62)
    sheet.pick("owner", picked, box)
    sheet.path(
        [(26, 22), (126, 22), (126, 58), (62, 58), (48, 72), (50, 58), (26, 58)], closed=True, fill=PAPER
    )
    _name(sheet, 76, 46, "owner", picked)
    _ring(sheet, picked, box)
    sheet.done()


def _machine(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (16, 352, 196, 62)
    sheet.pick("machine", picked, box)
    sheet.rect(26, 366, 64, 20, fill=BRASS, corner=9)
    sheet.line(90, 376, 320, 352, weight="thin", dash="chain")
    _name(sheet, 26, 406, "machine, rope", picked, "start")
    _ring(sheet, picked, box)
    sheet.done()


def _tank(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (536, 296, 206, 120)
    sheet.pick("tank", picked, box)
    if "tank_off" in opened:
        sheet.rect(548, 316, 182, 88, dash="dot", weight="thin", colour=GUIDE, corner=14)
    else:
        sheet.rect(548, 316, 182, 88, fill=PAPER, corner=14)
        sheet.rect(552, 352, 174, 49, fill=sheet.dots, weight="hair", corner=10)
        sheet.rect(664, 302, 46, 16, fill=STEEL, corner=4)
        sheet.path([(590, 384), (578, 352), (566, 300), (548, 262), (520, 250)], weight="thin", colour=BLUE)
        sheet.circle(592, 388, 8, fill=STEEL)
    _name(sheet, 640, 342, "tank and line", picked)
    _ring(sheet, picked, box)
    sheet.done()


def _carburettor(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (452, 118, 92, 164)
    sheet.pick("carburettor", picked, box)
    off = "carb_off" in opened
    sheet.rect(438, 158, 24, 34, fill=STEEL)
    sheet.rect(
        462, 140, 72, 72, fill="none" if off else sheet.hatch, dash="dot" if off else "solid", corner=5
    )
    if not off:
        sheet.rect(462, 162, 72, 28, fill=PAPER, weight="thin")
        sheet.circle(498, 176, 6, fill=INK)
    if "primer_bulb" in features:
        sheet.circle(498, 232, 16, fill=PAPER)
        sheet.circle(498, 232, 9, fill=BRASS, weight="thin")
        sheet.label(498, 272, "primer", size=16, anchor="middle", strong=picked)
    _name(sheet, 498, 134, "carburettor", picked)
    _ring(sheet, picked, box)
    sheet.done()


def _air(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (546, 104, 160, 150)
    off = "air_cover" in opened
    sheet.pick("air", picked, box)
    sheet.rect(550, 130, 96, 92, fill=PAPER)
    for step in range(8):
        sheet.line(592 + 6 * step, 136, 592 + 6 * step, 216, weight="thin", colour=INK if off else GUIDE)
    sheet.line(562, 150, 580, 202, weight="bold")
    if not off:
        sheet.rect(584, 122, 70, 108, fill=sheet.hatch, dash="dash", corner=10)
    _name(sheet, 628, 248, "air filter, choke", picked)
    _ring(sheet, picked, box)
    sheet.done()


def _muffler(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (192, 104, 138, 112)
    off = "muffler" in opened
    sheet.pick("muffler", picked, box)
    sheet.rect(322, 152, 22, 30, fill=INK if off else STEEL)
    sheet.rect(
        206, 134, 116, 68, fill="none" if off else sheet.hatch, dash="dot" if off else "solid", corner=12
    )
    if not off:
        sheet.rect(206, 158, 20, 22, fill=PAPER, weight="thin")
        for step in range(4):
            sheet.line(208 + 5 * step, 160, 208 + 5 * step, 178, weight="hair")
        if hot:
            for step in range(3):
                x = 240 + 26 * step
                sheet.path([(x, 130), (x + 5, 122), (x - 2, 115), (x + 4, 107)], weight="thin", colour=RUST)
    _name(sheet, 264, 174, "muffler", picked)
    _ring(sheet, picked, box)
    sheet.done()


def _cylinder(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (334, 98, 112, 124)
    sheet.pick("cylinder", picked, box)
    sheet.rect(352, 108, 76, 108, fill=PAPER)
    for step in range(8):
        y = 114 + 13 * step
        sheet.line(338, y, 352, y, weight="bold")
        sheet.line(428, y, 442, y, weight="bold")
    sheet.rect(358, 166, 64, 46, fill=STEEL)
    sheet.line(358, 174, 422, 174, weight="thin")
    if "decompression_valve" in features:
        sheet.rect(424, 100, 12, 14, fill=BRASS, weight="thin")
    _name(sheet, 390, 144, "cylinder", picked)
    if hot:
        sheet.label(390, 162, "hot", size=15, anchor="middle", colour=RUST, strong=True)
    _ring(sheet, picked, box)
    sheet.done()


def _plug(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (366, 60, 106, 46)
    out = "plug_out" in opened
    sheet.pick("plug", picked, box)
    if out:
        sheet.circle(390, 104, 6, fill=INK)
        sheet.line(390, 100, 390, 60, weight="thin", dash="dot", colour=GUIDE)
    else:
        sheet.rect(382, 66, 16, 30, fill=PAPER)
        sheet.rect(376, 84, 28, 14, fill=STEEL)
        sheet.line(386, 98, 386, 110)
    _name(sheet, 412, 88, "plug", picked, "start")
    _ring(sheet, picked, box)
    sheet.done()


def _lead(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (140, 44, 196, 52)
    sheet.pick("lead", picked, box)
    if "plug_out" in opened:
        boot = (330, 70)
        sheet.rect(318, 58, 24, 26, fill=INK, corner=5)
    else:
        boot = (380, 50)
        sheet.rect(376, 40, 28, 32, fill=INK, corner=6)
    sheet.path([boot, (300, 60), (210, 74), (172, 120), (168, 210), (200, 262), (252, 282)], weight="bold")
    _name(sheet, 232, 62, "lead and boot", picked)
    _ring(sheet, picked, box)
    sheet.done()


def _crankcase(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (434, 330, 104, 86)
    sheet.pick("crankcase", picked, box)
    sheet.path(
        [(352, 216), (428, 216), (470, 262), (470, 340), (430, 392), (350, 392), (312, 340), (312, 262)],
        closed=True,
        fill=STEEL,
    )
    sheet.line(466, 350, 486, 372, weight="thin")
    _name(sheet, 486, 390, "crankcase", picked)
    _ring(sheet, picked, box)
    sheet.done()


def _flywheel(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (334, 248, 114, 112)
    off, covered = "flywheel" in opened, "top_cover" not in opened
    dash = "dash" if covered else "solid"
    sheet.pick("flywheel", picked, box)
    if off:
        sheet.circle(390, 304, 12, fill=PAPER)
        sheet.rect(386, 290, 8, 8, fill=INK)
    else:
        points = [(390 + 56 * math.cos(a), 304 + 56 * math.sin(a)) for a in _angles(48)]
        sheet.path(
            points,
            closed=True,
            fill="none" if covered else PAPER,
            dash=dash,
            weight="thin" if covered else "normal",
        )
        for turn in (math.radians(168), math.radians(192)):
            x, y = 390 + 44 * math.cos(turn), 304 + 44 * math.sin(turn)
            sheet.circle(x, y, 6, fill=BLUE, weight="thin")
        sheet.circle(390, 304, 9, fill=STEEL, weight="thin")
    _name(sheet, 390, 336, "flywheel", picked)
    _ring(sheet, picked, box)
    sheet.done()


def _angles(count: int) -> list[float]:
    return [2 * math.pi * step / count for step in range(count)]


def _module(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (228, 252, 102, 92)
    covered = "top_cover" not in opened
    dash, weight = ("dash", "thin") if covered else ("solid", "normal")
    sheet.pick("module", picked, box)
    fill = "none" if covered else sheet.hatch
    sheet.rect(250, 272, 48, 64, fill=fill, dash=dash, weight=weight, corner=4)
    for y in (276, 318):
        sheet.rect(298, y, 30, 13, fill="none" if covered else STEEL, dash=dash, weight=weight)
    _name(sheet, 279, 266, "module", picked)
    _ring(sheet, picked, box)
    sheet.done()


def _cover(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (330, 222, 122, 24)
    sheet.pick("cover", picked, box)
    if "top_cover" not in opened:
        points = [(372 + 150 * math.cos(a), 306 + 84 * math.sin(a)) for a in _angles(60)]
        sheet.path(points, closed=True, dash="dash", weight="bold")
    _name(sheet, 390, 240, "starter cover", picked)
    _ring(sheet, picked, box)
    sheet.done()


def _switch(sheet: Sheet, picked: bool, opened: set[str], features: set[str], hot: bool) -> None:
    box = (16, 180, 138, 106)
    sheet.pick("switch", picked, box)
    sheet.rect(26, 216, 118, 30, fill=BRASS, corner=14)
    sheet.rect(64, 206, 30, 16, fill=RUST, corner=4)
    sheet.path([(92, 246), (120, 300), (190, 330), (252, 328)], weight="normal", dash="chain")
    _name(sheet, 85, 198, "stop switch", picked)
    _name(sheet, 26, 278, "stop lead", picked, "start")
    _ring(sheet, picked, box)
    sheet.done()


_DRAWERS = {
    "owner": _owner,
    "crankcase": _crankcase,
    "flywheel": _flywheel,
    "cover": _cover,
    "module": _module,
    "muffler": _muffler,
    "cylinder": _cylinder,
    "plug": _plug,
    "lead": _lead,
    "carburettor": _carburettor,
    "air": _air,
    "tank": _tank,
    "switch": _switch,
    "machine": _machine,
}
