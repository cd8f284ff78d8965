"""Figures of lesson 09: what a plug's face proves, alone and with a tester, and fuel pull by pull."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from twostroke import units
from twostroke.bench import mixture
from twostroke.bench.engine import ideal
from twostroke.bench.models import MODELS
from twostroke.cranking import TURNS
from twostroke.isolation import Belief, load_table
from twostroke.lesson.drawing import (
    BLUE,
    BRASS,
    GUIDE,
    INK,
    PAPER,
    RUST,
    STEEL,
    Canvas,
    DrawingError,
    Frame,
    Picture,
)
from twostroke.lesson.figures.cycle_parts import plain_axes

if TYPE_CHECKING:
    from pint import Quantity

COMPLAINT = "no_start"
FACES = ("tan_dry", "dry_clean", "wet", "black", "cracked")
_FACE_WORDS = ("tan and dry", "dry and clean", "wet with fuel", "black, oil or soot", "insulator cracked")
TESTS = ("", "good", "weak", "none")
_TEST_WORDS = ("not used yet", "jumps at each turn", "jumps now and then", "stays dark")
SYSTEMS = ("ignition", "fuel", "air", "compression", "exhaust", "other")
ALL = 1000

PULLS = 14
PRESSES = 6
_HIGHEST_RATIO, _MOST_PUDDLE = 3.0, 8.0
LEAN, RICH = mixture.CONSTANTS.lean_limit, mixture.CONSTANTS.rich_limit
WET = mixture.CONSTANTS.wet_from


@cache
def _counted(face: str, tester: str) -> tuple[tuple[float, ...], tuple[tuple[str, float], ...]]:
    """Of 1000 such machines: how many by system, and the three likeliest faults."""
    belief = Belief(load_table(), COMPLAINT, pairs=False)
    if face:
        belief.update("plug_look", face)
    if tester:
        belief.update("spark_gap_cold", tester)
    chances, faults = belief.probabilities(), belief.table.faults
    groups = dict.fromkeys(SYSTEMS, 0.0)
    for name, chance in chances.items():
        system = faults[name].sys
        groups[system if system in groups else "other"] += ALL * chance
    first = sorted(chances, key=lambda name: -chances[name])[:3]
    names = (faults[name].name.split(" (")[0] for name in first)
    likeliest = tuple((name, ALL * chances[key]) for name, key in zip(names, first, strict=True))
    return tuple(groups.values()), likeliest


def plug_face(face: float, tester: float) -> Picture:
    """A plug as it comes out, what the tester says, and what is still possible.

    Parameters
    ----------
    face : float
        1 tan and dry, 2 dry and clean, 3 wet with fuel, 4 black, 5 insulator cracked.
    tester : float
        0 not used yet, 1 jumps at each turn, 2 now and then, 3 stays dark.

    Returns
    -------
    Picture
        ``shown`` holds how many of 1000 machines have their fault in each system, as floats by its name.

    Raises
    ------
    DrawingError
        A number that stands for nothing.

    Notes
    -----
    Counted by the belief of :mod:`twostroke.isolation` over single faults of the course's own table, for
    machines that do not start at all. The table's chances are invented for teaching.

    Examples
    --------
    >>> alone, dark = (plug_face(3, tester).shown["ignition"] for tester in (0, 3))
    >>> 400 < alone < 700 < dark
    True
    """
    if face not in (1, 2, 3, 4, 5) or tester not in (0, 1, 2, 3):
        raise DrawingError(f"face {face:g}, tester {tester:g}: the figure shows faces 1 to 5, tester 0 to 3")
    row, said = int(face) - 1, int(tester)
    after, likeliest = _counted(FACES[row], TESTS[said])
    before, _ = _counted("", "")
    told = ", ".join(f"{name} {count:.0f}" for name, count in likeliest)
    words = (
        f"The plug is {_FACE_WORDS[row]}. The tester: {_TEST_WORDS[said]}. Of {ALL} machines that do not"
        f" start and show this, {after[0]:.0f} have their fault in the ignition, {after[1]:.0f} in the fuel,"
        f" {after[2] + after[4]:.0f} in air or exhaust, {after[3]:.0f} in the compression. Likeliest:"
        f" {told}."
    )
    canvas = Canvas(720, 430, "What a plug's face proves", words)
    canvas.label(20, 28, "plug", size=17, strong=True)
    _plug(canvas, 118, 48, FACES[row])
    canvas.label(118, 290, _FACE_WORDS[row], size=18, anchor="middle", strong=True)
    canvas.label(20, 330, "tester", size=17, strong=True)
    canvas.label(118, 356, _TEST_WORDS[said], size=17, anchor="middle", strong=bool(said))
    canvas.label(268, 28, f"fault of {ALL} such machines", size=17, strong=True)
    frame = Frame(400, 44, 250, 246, (0, ALL), (0, len(SYSTEMS)))
    for place, (name, count, old) in enumerate(zip(SYSTEMS, after, before, strict=True)):
        y = frame.top + 41 * place + 4
        canvas.rect(frame.left, y, frame.x(count) - frame.left, 30, fill=canvas.hatch, weight="thin")
        canvas.rect(frame.left, y, frame.x(old) - frame.left, 30, dash="dash", weight="thin", colour=BLUE)
        canvas.label(390, y + 21, name, size=17, anchor="end")
        canvas.label(frame.x(max(count, old)) + 10, y + 21, f"{count:.0f}", size=17, strong=True)
    canvas.line(frame.left, frame.top, frame.left, frame.top + 246)
    canvas.label(268, 318, "dashed: before anything was looked at", size=15, colour=BLUE)
    canvas.label(268, 352, "likeliest now", size=17, strong=True)
    for place, (name, count) in enumerate(likeliest):
        canvas.label(
            268, 376 + 22 * place, f"{count:.0f}  {name}", size=16, colour=INK if place else RUST,
            strong=place == 0,
        )  # fmt: skip
    return Picture(canvas.svg(), words, dict(zip(SYSTEMS, after, strict=True)))


def _plug(canvas: Canvas, x: float, y: float, face: str) -> None:
    """The firing end of a plug, thread up; what lies on it by hatch, drops and cracks."""
    nose = {"tan_dry": BRASS, "dry_clean": PAPER, "wet": STEEL, "black": INK, "cracked": PAPER}[face]
    canvas.rect(x - 58, y, 116, 96, fill=STEEL)
    for row in range(6):
        canvas.line(x - 58, y + 12 + 16 * row, x + 58, y + 4 + 16 * row, weight="thin", colour=GUIDE)
    corners = [(x - 36, y + 96), (x + 36, y + 96), (x + 20, y + 168), (x - 20, y + 168)]
    canvas.path(corners, closed=True, fill=nose)
    canvas.rect(x - 8, y + 168, 16, 22, fill=INK if face == "black" else STEEL)
    strap = [(x - 58, y + 96), (x - 58, y + 216), (x + 22, y + 216), (x + 22, y + 204), (x - 46, y + 204)]
    canvas.path([*strap, (x - 46, y + 96)], closed=True, fill=INK if face == "black" else STEEL)
    if face == "wet":
        for dx, dy in (
            (-22, 116),
            (6, 108),
            (18, 132),
            (-10, 146),
            (0, 186),
            (-50, 210),
            (8, 222),
            (-52, 150),
        ):
            canvas.circle(x + dx, y + dy, 7, fill=PAPER, weight="thin", colour=BLUE)
    if face == "black":
        for dx, dy in ((-44, 88), (-20, 80), (10, 86), (36, 80), (48, 90)):
            canvas.circle(x + dx, y + dy, 8, fill=INK, weight="hair")
    if face == "cracked":
        line = [(12, 96), (4, 116), (14, 130), (2, 148), (8, 168)]
        canvas.path([(x + dx, y + dy) for dx, dy in line], weight="bold", colour=RUST)


@cache
def _cranked(closed: int, celsius: float, light: float) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Mixture and liquid fuel after each pull of a sound engine that gets no spark."""
    machine = ideal(MODELS["A"], 1)
    machine.set("supply.freshness", light / 100)
    state = mixture.at_rest(machine)
    mixture.press_primer(machine, state, PRESSES)
    kelvin = np.array([celsius + 273.15])
    ratios, puddles = [], []
    for pull in range(PULLS):
        choke = mixture.choke_closing(machine, float(pull < closed))
        turns = [mixture.draw(machine, state, choke, kelvin) for _ in range(TURNS)]
        ratios.append(float(turns[-1][0]))
        puddles.append(float(state.puddle[0]))
    return tuple(ratios), tuple(puddles)


def fuel_by_pull(closed: float, warmth: str | Quantity, light: float) -> Picture:
    """Mixture in the cylinder and fuel left lying, pull by pull, on a sound engine without a spark.

    Parameters
    ----------
    closed : float
        Pulls with the choke closed, 0 to 14; it is open for the rest.
    warmth : quantity or text
        Of the engine, 0 to 60 °C. [degC]
    light : float
        Light part left in the fuel, 0 to 100 per cent of fresh.

    Returns
    -------
    Picture
        ``shown`` holds ``can_burn`` (pulls with a mixture that can burn), ``wet_from`` (the first pull after
        which the plug is wet, 0 for none), ``ratio`` and ``puddle`` after the last pull, all floats.

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    The fuel balance of the virtual bench, :mod:`twostroke.bench.mixture`, demo engine A, six presses of the
    primer first. Its constants are invented: the order of things counts, not the digits.

    Examples
    --------
    >>> fuel_by_pull(14, "20 degC", 100).shown["wet_from"] > 5
    True
    >>> fuel_by_pull(0, "20 degC", 100).shown["can_burn"]
    0.0
    """
    count = round(closed)
    celsius = float(units.read(warmth, expect="degC").to("degC").magnitude)
    if not 0 <= count <= PULLS or not 0 <= celsius <= 60 or not 0 <= light <= 100:
        raise DrawingError(
            f"{closed:g} pulls, {celsius:g} degC, {light:g} per cent: the figure shows 0 to {PULLS} pulls,"
            " 0 to 60 degC and 0 to 100 per cent"
        )
    ratios, puddles = _cranked(count, celsius, float(light))
    burns = [LEAN <= ratio <= RICH for ratio in ratios]
    wet = [puddle > WET for puddle in puddles]
    wet_from = wet.index(True) + 1 if any(wet) else 0
    said = f"the plug is wet after pull {wet_from}" if wet_from else "the plug stays dry enough"
    words = (
        f"Choke closed for {count} of {PULLS} pulls at {celsius:.0f} °C, with {light:.0f} per cent of the"
        f" light part left in the fuel and no spark. In {sum(burns)} of the pulls the mixture could burn."
        f" After the last it is {ratios[-1]:.2f} of what burns all the air. As to fuel left lying, {said}."
    )
    canvas = Canvas(720, 470, "Fuel pull by pull", words)
    top = Frame(96, 42, 590, 178, (0, PULLS + 0.5), (0, _HIGHEST_RATIO))
    low = Frame(96, 264, 590, 118, (0, PULLS + 0.5), (0, _MOST_PUDDLE))
    plain_axes(canvas, top, "fuel to air", range(0, PULLS + 1, 2), [0, 1, 2, 3])
    canvas.rect(
        top.left, top.y(RICH), top.width, top.y(LEAN) - top.y(RICH), fill=canvas.dots, weight="hair",
        colour=GUIDE,
    )  # fmt: skip
    canvas.label(top.left + 8, top.y(RICH) - 8, "too rich", size=16)
    canvas.label(top.left + 8, top.y(LEAN) + 22, "too lean", size=16)
    canvas.label(680, top.y(RICH) + 20, "can burn", size=16, anchor="end", strong=True)
    pulls = range(1, PULLS + 1)
    top.curve(canvas, pulls, ratios, colour=BLUE)
    for pull, ratio, burn in zip(pulls, ratios, burns, strict=True):
        canvas.marker(top.x(pull), top.y(ratio), shape="round" if burn else "ring", colour=BLUE)
    canvas.label(96, 26, "vapour in the cylinder; 1 burns all the air", size=17, strong=True)
    low.axes(
        canvas, "pulls of the rope, no spark", "liquid fuel", x_ticks=list(range(0, PULLS + 1, 2)),
        y_ticks=[0, 4, 8],
    )  # fmt: skip
    canvas.label(96, 252, "fuel left lying in the engine, in fillings", size=17, strong=True)
    for pull, puddle, over in zip(pulls, puddles, wet, strict=True):
        left = low.x(pull - 0.3)
        canvas.rect(
            left, low.y(puddle), low.x(pull + 0.3) - left, low.y(0) - low.y(puddle), weight="thin",
            fill=canvas.hatch if over else STEEL,
        )  # fmt: skip
    canvas.line(low.left, low.y(WET), low.left + low.width, low.y(WET), dash="dash", colour=RUST)
    canvas.label(low.left + 8, low.y(WET) - 8, "plug wet above this", size=15, colour=RUST)
    for frame in (top, low):
        canvas.line(
            frame.x(count + 0.5), frame.top, frame.x(count + 0.5), frame.top + frame.height, dash="chain",
            weight="thin",
        )  # fmt: skip
    side = "end" if count > 7 else "start"
    canvas.label(
        top.x(count + 0.5) + (-8 if count > 7 else 8), top.top + 18, "choke opened", size=15, anchor=side
    )
    told = f"could burn in {sum(burns)} of {PULLS} pulls; {said}"
    canvas.label(20, 458, told, size=18, strong=True, colour=RUST)
    shown = {
        "can_burn": float(sum(burns)),
        "wet_from": float(wet_from),
        "ratio": ratios[-1],
        "most": max(puddles),
    }
    return Picture(canvas.svg(), words, shown)
