"""Figures of lesson 11: a module that fails hot, and how many clean starts prove a repair."""

from __future__ import annotations

import math
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from twostroke import units
from twostroke.bench import faults, heat, sparks
from twostroke.bench.engine import ideal
from twostroke.bench.models import MODELS
from twostroke.isolation import load_table
from twostroke.lesson.drawing import BLUE, GUIDE, RUST, Canvas, DrawingError, Frame, Picture

if TYPE_CHECKING:
    from pint import Quantity

AMBIENT = 20.0  # degC
STILL_AIR_LAG = 30.0
"""Minutes in which the module alone would cool once the fan stands still (invented)."""
_STEP, _SHOWN = 0.25, 80.0  # minutes
_PULL_EVERY = 4.0
TESTER_GAP = 6.0  # mm
_KIND = 0.5  # the form of the fault that opens the primary

MOST_STARTS = 40
ENOUGH = 0.95


def module_lags() -> tuple[float, float]:
    """Lags of the module towards the engine, and towards the air that the fan blows [min].

    From the bench's own figures: with the engine hot and the fan running the module settles at
    ``heat.MODULE_RUN``, with the lag ``heat.MODULE_LAG``.

    Examples
    --------
    >>> [round(lag, 1) for lag in module_lags()]
    [4.5, 11.3]
    """
    share = (heat.ENGINE_RUN - heat.MODULE_RUN) / (heat.MODULE_RUN - AMBIENT)  # to engine over to air
    to_engine = heat.MODULE_LAG * (1 + share)
    return to_engine, to_engine / share


def temperatures(run: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Engine and module while it runs for some minutes and then stands [min, degC, degC].

    Notes
    -----
    Two lumps. The engine goes towards its running or its resting temperature; the module takes heat from
    the engine and gives it to the air, fast while the fan blows and slowly when it stands still.
    """
    times = np.arange(0.0, _SHOWN + _STEP / 2, _STEP)
    to_engine, blown = module_lags()
    engine, module = np.empty_like(times), np.empty_like(times)
    hot, warm = AMBIENT, AMBIENT
    for row, time in enumerate(times):
        engine[row], module[row] = hot, warm
        runs = time < run - 1e-9
        target, lag = (heat.ENGINE_RUN, heat.ENGINE_LAG) if runs else (AMBIENT, heat.ENGINE_COOLING)
        air = blown if runs else STILL_AIR_LAG
        hot, warm = _advance(hot, warm, target, lag, to_engine, air)
    return times, engine, module


def _advance(
    hot: float, warm: float, target: float, lag: float, to_engine: float, to_air: float
) -> tuple[float, float]:
    """Both temperatures one step later, exactly: the engine decays alone, the module follows it."""
    rate = 1 / to_engine + 1 / to_air
    fall = math.exp(-_STEP / lag)
    settled = (target / to_engine + AMBIENT / to_air) / rate
    follows = (hot - target) / to_engine / (rate - 1 / lag)
    return target + (hot - target) * fall, (
        settled + follows * fall + (warm - settled - follows) * math.exp(-_STEP * rate)
    )


@cache
def _ran(run: float, opens: float) -> tuple[float, tuple[float, ...], tuple[float, ...], tuple[bool, ...]]:
    """When it stopped, both temperatures, and whether the joint is open, from step to step."""
    joint = faults.Present("module_heat", 1.0, _KIND, 0.5, above=opens)
    table = load_table()

    def open_at(celsius: float) -> bool:
        return joint.acts(table, celsius, celsius, 0.0, False, 0)

    times, engine, module = temperatures(run)
    dies = next((time for time, warm in zip(times, module, strict=True) if open_at(warm)), math.inf)
    stopped = min(run, dies)
    if stopped < run:
        times, engine, module = temperatures(float(stopped))
    return float(stopped), tuple(engine), tuple(module), tuple(open_at(warm) for warm in module)


@cache
def _volts() -> tuple[tuple[float, ...], tuple[float, ...], float]:
    """Voltage at a tester of a sound module by its temperature, and that of one with an open joint."""
    celsius = np.arange(20.0, 121.0, 10.0)
    model = MODELS["A"]
    sound, broken = ideal(model, len(celsius)), ideal(model, 1)
    faults.apply(broken, "module_heat", 1.0, kind=_KIND)
    speed = model.pull_speed
    gives = sparks.output(sound, celsius, "tester").at(np.full(len(celsius), speed))[0]
    dead = sparks.output(broken, 90.0, "tester").at(np.array([speed]))[0]
    return tuple(celsius.tolist()), tuple(gives.tolist()), float(dead[0])


def heat_soak(run: str | Quantity, opens: str | Quantity, after: str | Quantity) -> Picture:
    """Engine and module while it runs and then stands, and a joint that opens when it is hot.

    Parameters
    ----------
    run : quantity or text
        How long the owner wants to run it, 2 to 20 min. It stops sooner when the joint opens. [min]
    opens : quantity or text
        Temperature of the module at which the joint opens, 50 to 100 °C. [degC]
    after : quantity or text
        When you pull, counted from the moment it stopped, 0 to 60 min. [min]

    Returns
    -------
    Picture
        ``shown`` holds ``stopped`` and ``dark`` (how long it stays dark afterwards) [min], ``module``
        [degC] and ``tester`` [kV] at the moment of the pull, ``died`` (1.0 when it stopped by itself).

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    Temperatures and lags of the virtual bench; that the fan stands still once it has stopped is added here.
    The voltage is that of the bench's ignition, demo engine A at the speed of a normal pull, at a tester of
    6 mm. All invented.

    Examples
    --------
    >>> at_once, later = (heat_soak("15 min", "80 degC", time).shown for time in ("2 min", "40 min"))
    >>> at_once["tester"].magnitude < 2 < 12 < later["tester"].magnitude
    True
    """
    wished, wait = (float(units.read(value, expect="min").to("min").magnitude) for value in (run, after))
    limit = float(units.read(opens, expect="degC").to("degC").magnitude)
    if not 2 <= wished <= 20 or not 50 <= limit <= 100 or not 0 <= wait <= 60:
        raise DrawingError(
            f"{wished:g} min, {limit:g} degC, {wait:g} min: the figure shows 2 to 20 min of running, 50 to"
            " 100 degC and 0 to 60 min after it"
        )
    stopped, engine, module, open_now = _ran(wished, limit)
    times = np.arange(len(module)) * _STEP
    still = [number for number, shut in enumerate(open_now) if shut and times[number] >= stopped]
    dark = times[still[-1]] - stopped if still else 0.0
    row = min(round((stopped + wait) / _STEP), len(module) - 1)
    celsius, gives, dead = _volts()
    volts = dead if open_now[row] else float(np.interp(module[row], celsius, gives))
    flash = "dark" if volts < sparks.tester_demand(TESTER_GAP) else f"{volts / 1e3:.1f} kV"
    died = stopped < wished
    began = f"it died after {stopped:.0f} min" if died else f"it was stopped after {stopped:.0f} min"
    keeps = f"the tester stays dark for {dark:.0f} min" if still else "the tester never goes dark"
    words = (
        f"The joint opens at {limit:.0f} °C. The owner wants {wished:.0f} minutes: {began}, and then {keeps}."
        f" Pulled {wait:.0f} minutes after it stopped, the module has {module[row]:.0f} °C and the tester:"
        f" {flash}."
    )
    canvas = Canvas(720, 450, "A module that fails hot", words)
    frame = Frame(92, 44, 600, 240, (0, _SHOWN), (0, 120))
    frame.axes(
        canvas, "minutes since it was started", "°C", x_ticks=[0, 20, 40, 60, 80],
        y_ticks=[0, 20, 40, 60, 80, 100, 120],
    )  # fmt: skip
    if still:
        left = frame.x(float(times[still[0]]))
        canvas.rect(left, frame.top, max(frame.x(stopped + float(dark)) - left, 3), frame.height,
                    fill=canvas.dots, weight="hair", colour=GUIDE)  # fmt: skip
    shown = times <= _SHOWN
    frame.curve(canvas, times[shown][::2], np.array(engine)[shown][::2], weight="thin", dash="dash")
    frame.curve(canvas, times[shown][::2], np.array(module)[shown][::2], weight="bold", colour=BLUE)
    canvas.line(frame.left, frame.y(limit), frame.left + 600, frame.y(limit), dash="chain", colour=RUST)
    canvas.label(686, frame.y(limit) - 7, f"joint opens, {limit:.0f} °C", size=15, anchor="end", colour=RUST)
    canvas.label(92, 26, "dashed: engine; bold: module", size=17, strong=True)
    canvas.line(frame.x(stopped), frame.top, frame.x(stopped), frame.y(0), weight="thin")
    canvas.label(frame.x(stopped) + 6, frame.y(6), "stopped", size=15)
    pulls = np.arange(0.0, _SHOWN - stopped + 0.01, _PULL_EVERY)
    canvas.label(20, 356, "pulls:", size=16)
    for minute in pulls:
        place = min(round((stopped + float(minute)) / _STEP), len(module) - 1)
        shape = "ring" if open_now[place] else "round"
        canvas.marker(frame.x(stopped + float(minute)), 350, shape=shape, colour=BLUE, size=5.5)
    canvas.label(92, 382, "● flashes   ○ dark", size=15, colour=BLUE)
    here = frame.x(min(stopped + wait, _SHOWN))
    canvas.line(here, frame.top, here, frame.y(0), weight="thin", dash="dash", colour=RUST)
    canvas.arrow(here, 374, here, 360, colour=RUST)
    canvas.marker(here, frame.y(module[row]), shape="diamond", colour=RUST, size=7)
    canvas.label(20, 412, f"{began}; {keeps}", size=18, strong=True)
    told = f"you pull {wait:.0f} min after it stopped: module {module[row]:.0f} °C, tester {flash}"
    canvas.label(20, 440, told, size=18, strong=True, colour=RUST)
    quantity = units.ureg.Quantity
    return Picture(
        canvas.svg(),
        words,
        {
            "stopped": quantity(stopped, "min"),
            "dark": quantity(float(dark), "min"),
            "module": quantity(float(module[row]), "degC"),
            "tester": quantity(volts / 1e3, "kV"),
            "died": float(died),
        },
    )


def starts_needed(fails: float, sure: float = ENOUGH) -> int:
    """Fewest clean starts in a row that a fault still there would have survived with at most ``1 - sure``.

    Parameters
    ----------
    fails : float
        Chance that one start fails while the fault is there, above 0 and below 1.
    sure : float
        Chance that it would have shown, below 1.

    Returns
    -------
    int

    Raises
    ------
    DrawingError
        A chance outside these limits.

    Examples
    --------
    >>> starts_needed(1 / 3), starts_needed(0.5, 0.9)
    (8, 4)
    """
    if not 0 < fails < 1 or not 0 <= sure < 1:
        raise DrawingError(f"chances {fails:g} and {sure:g}: both lie between 0 and 1")
    return max(math.ceil(math.log(1 - sure) / math.log(1 - fails) - 1e-9), 0)


def clean_starts(fails: float, clean: float, doubt: float) -> Picture:
    """What clean starts in a row say about a fault that comes and goes.

    Parameters
    ----------
    fails : float
        Starts of a hundred that fail while the fault is there, 5 to 90.
    clean : float
        Clean starts in a row since the repair, 0 to 40.
    doubt : float
        Chance before them that the fault is still there, 5 to 95 per cent.

    Returns
    -------
    Picture
        ``shown`` holds ``hidden`` (chance that a fault still there would have passed), ``needed`` (starts
        for 95 per cent) and ``still`` (what is left of the doubt), floats.

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    Independent starts; what is left of the doubt by Bayes' rule, a machine without the fault never failing.

    Examples
    --------
    >>> shown = clean_starts(30, 5, 50).shown
    >>> round(shown["hidden"], 3), shown["needed"], round(shown["still"], 3)
    (0.168, 9.0, 0.144)
    """
    count = round(clean)
    if not 5 <= fails <= 90 or not 0 <= count <= MOST_STARTS or not 5 <= doubt <= 95:
        raise DrawingError(
            f"{fails:g} of 100, {clean:g} starts, {doubt:g} per cent: the figure shows 5 to 90 of 100, 0 to"
            f" {MOST_STARTS} starts and 5 to 95 per cent"
        )
    chance, before = fails / 100, doubt / 100
    hidden = (1 - chance) ** count
    still = before * hidden / (before * hidden + 1 - before)
    needed = starts_needed(chance)
    words = (
        f"A fault that fails {fails:.0f} of 100 starts would pass {count} clean starts with a chance of"
        f" {100 * hidden:.1f} per cent. For 95 per cent of certainty {needed} are needed. The doubt was"
        f" {doubt:.0f} per cent, and {100 * still:.1f} are left."
    )
    canvas = Canvas(720, 420, "How many clean starts", words)
    frame = Frame(92, 48, 420, 250, (0, MOST_STARTS), (0, 100))
    frame.axes(
        canvas, "clean starts in a row", "per cent", x_ticks=[0, 10, 20, 30, 40], y_ticks=[0, 25, 50, 75, 100]
    )
    canvas.label(92, 28, "chance that the fault is there and hides", size=17, strong=True)
    steps = list(range(MOST_STARTS + 1))
    frame.curve(canvas, steps, [100 * (1 - chance) ** step for step in steps], weight="bold", colour=BLUE)
    edge = 100 * (1 - ENOUGH)
    canvas.line(frame.left, frame.y(edge), frame.left + 420, frame.y(edge), dash="dash", colour=RUST)
    canvas.label(508, frame.y(edge) - 8, "5 per cent", size=15, anchor="end", colour=RUST)
    if needed <= MOST_STARTS:
        canvas.line(frame.x(needed), frame.y(30), frame.x(needed), frame.y(0), weight="thin", colour=RUST)
        side = "end" if needed > 30 else "start"
        canvas.label(frame.x(needed), frame.y(33), f"{needed} needed", size=16, anchor=side, colour=RUST)
    canvas.marker(frame.x(count), frame.y(100 * hidden), size=7)
    canvas.label(622, 28, "doubt", size=17, anchor="middle", strong=True)
    for place, (name, value) in enumerate((("before", before), ("now", still))):
        left = 566 + 66 * place
        canvas.rect(left, frame.y(100), 46, frame.height, weight="hair", colour=GUIDE)
        canvas.rect(left, frame.y(100 * value), 46, frame.y(0) - frame.y(100 * value),
                    fill=canvas.dots if place else canvas.hatch, weight="thin")  # fmt: skip
        canvas.label(left + 23, frame.y(0) + 20, name, size=15, anchor="middle")
        canvas.label(left + 23, frame.y(0) + 42, f"{100 * value:.0f} %", size=16, anchor="middle",
                     strong=True)  # fmt: skip
    first = f"after {count} clean starts it would still hide with {100 * hidden:.0f} per cent"
    canvas.label(20, 376, first, size=18, strong=True)
    enough = "that is enough" if hidden <= 1 - ENOUGH + 1e-12 else f"{needed - count} more to 95 per cent"
    canvas.label(20, 406, enough, size=19, strong=True, colour=RUST)
    return Picture(canvas.svg(), words, {"hidden": hidden, "needed": float(needed), "still": still})
