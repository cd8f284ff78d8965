"""Figure of lesson 13: one machine, two ways of working, step by step with what is still possible."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from twostroke.bench import Bench
from twostroke.isolation.follow import Follower, fault_name
from twostroke.lesson.drawing import BLUE, GUIDE, INK, PAPER, RUST, Canvas, DrawingError, Picture
from twostroke.units import ureg

MACHINE, LEARNER = "rain_pump", "practice"
WAYS = {
    "by tests": ("known_good_plug", "stop_ohm", "replace_switch", "verify"),
    "by habit": ("swap_plug", "verify", "replace_module", "verify", "replace_switch", "verify"),
}
MOST = max(len(way) for way in WAYS.values())
_BARS = 6
_SHORT = 34  # letters of a line beside a bar


@dataclass(frozen=True)
class Stage:
    """A job after a step: what was done and seen, minutes and money so far, likeliest faults, chance of
    cured."""

    done: str
    minutes: float
    money: float
    likeliest: tuple[tuple[str, float], ...]
    cured: float


@cache
def job(way: str) -> tuple[Stage, ...]:
    """A job on the machine, worked in one of the two ways; the first stage is the complaint alone."""
    bench = Bench(MACHINE, LEARNER)
    follower = Follower(bench.table, bench.scenario.complaint.kind)
    stages = [_stage("the owner's words", bench, follower)]
    for action in WAYS[way]:
        reading = bench.do(action, prepare=True, confirm="all")
        follower.take(bench.route[-1])
        table = bench.table
        name = table.action(action).name.partition(",")[0] if action != "verify" else "verify run"
        seen = table.tests[action].say(str(reading.result)) if action in table.tests else reading.result or ""
        stages.append(_stage(f"{name}: {seen}" if seen else f"{name}", bench, follower))
    return tuple(stages)


def _stage(done: str, bench: Bench, follower: Follower) -> Stage:
    rows = tuple((fault_name(bench.table, fault), chance) for fault, chance in follower.likeliest(_BARS))
    return Stage(done, bench.minutes, bench.cost, rows, follower.cured[-1])


def job_step_by_step(step: float, way: float) -> Picture:
    """One dead machine, worked by tests or by habit: steps so far, minutes, money, what is still possible.

    Parameters
    ----------
    step : float
        Steps done, 0 to 6; a way with fewer steps stays at its end.
    way : float
        0 by tests, 1 by habit: new plug, new module, then the rest.

    Returns
    -------
    Picture
        ``shown`` holds ``minutes`` [min], ``money`` (labour and parts), ``leading`` (chance of the likeliest
        fault) and ``cured`` (chance that nothing is wrong any more).

    Raises
    ------
    DrawingError
        A step or way that is not drawn.

    Notes
    -----
    The machine is one of the course's virtual bench; the belief is counted over the course's fault table.

    Examples
    --------
    >>> tests, habit = (job_step_by_step(6, way).shown["money"] for way in (0, 1))
    >>> habit > 2 * tests
    True
    """
    if not 0 <= step <= MOST or not 0 <= way <= 1:
        raise DrawingError(f"step {step:g}, way {way:g}: the figure shows steps 0 to {MOST}, way 0 or 1")
    name = list(WAYS)[round(way)]
    stages = job(name)
    at, asked = min(round(step), len(stages) - 1), round(step)
    now = stages[at]
    ended = at == len(stages) - 1
    bars = ", ".join(f"{fault} {100 * chance:.0f} %" for fault, chance in now.likeliest[:3]) or "no fault"
    words = (
        f"Worked {name}, after step {at} of {len(stages) - 1} ({now.done}): {now.minutes:.0f} min,"
        f" {now.money:.0f} in money. Still possible: {bars}. Chance that it is cured:"
        f" {100 * now.cured:.0f} %."
    )
    canvas = Canvas(720, 470, "One machine, two ways", words)
    canvas.label(20, 30, f"worked {name}", size=18, strong=True)
    for row, stage in enumerate(stages[: at + 1]):
        y, last = 62 + row * 30, row == at
        canvas.marker(30, y - 6, size=8 if last else 5, colour=BLUE)
        canvas.label(46, y, stage.done, size=15, colour=BLUE if last else INK)
        canvas.label(630, y, f"{stage.minutes:.0f} min", size=16, anchor="end")
        canvas.label(700, y, f"{stage.money:.0f}", size=16, anchor="end")
    canvas.label(700, 30, "money", size=15, anchor="end")
    canvas.line(20, 266, 700, 266, weight="hair", colour=GUIDE)
    canvas.label(20, 290, "still possible", size=16, strong=True)
    rows = now.likeliest[: _BARS - 1]
    entries = [*rows, ("cured", now.cured)] if now.cured >= 0.005 else list(rows)
    for row, (fault, chance) in enumerate(entries):
        y = 314 + row * 22
        canvas.label(330, y, fault if len(fault) <= _SHORT else f"{fault[: _SHORT - 1]}…", size=15,
                     anchor="end")  # fmt: skip
        canvas.rect(340, y - 14, 300 * chance, 17, fill=canvas.dots if fault == "cured" else canvas.hatch,
                    weight="thin")  # fmt: skip
        canvas.label(346 + 300 * chance, y, f"{100 * chance:.0f} %", size=15)
    after = f", done; no step {asked} is needed" if asked > at else ", done" if ended else ""
    told = f"{now.minutes:.0f} min, {now.money:.0f} in money{after}"
    canvas.rect(20, 436, 680, 32, fill=PAPER, weight="hair", colour=GUIDE)
    canvas.label(30, 459, told, size=19, strong=True, colour=RUST if ended and round(way) else BLUE)
    shown = {
        "minutes": ureg.Quantity(now.minutes, "min"),
        "money": now.money,
        "leading": now.likeliest[0][1] if now.likeliest else 0.0,
        "cured": now.cured,
    }
    return Picture(canvas.svg(), words, shown)
