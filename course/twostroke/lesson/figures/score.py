"""Figure of lesson 14: what a route earns, and where it was given away."""

from __future__ import annotations

from functools import cache
from typing import Any

from twostroke.bench import Bench
from twostroke.isolation import RouteScore, score_route
from twostroke.isolation.score import PASS_MARK, UNVERIFIED_CAP
from twostroke.lesson.drawing import BLUE, GUIDE, INK, RUST, Canvas, DrawingError, Frame, Picture
from twostroke.units import ureg

MACHINE, LEARNER, FAULT = "rain_pump", "practice", "stop_switch"
LOOKS = ("compression", "air_filter_look", "fuel_sample", "plug_look")
GUESSES = ("swap_plug", "replace_module")


@cache
def _route(looks: int, guesses: int, verified: bool) -> tuple[Bench, tuple[dict[str, Any], ...]]:
    """The job as it was done on the bench, and its record."""
    bench = Bench(MACHINE, LEARNER)
    middle = (*LOOKS[:looks], *GUESSES[:guesses])
    for action in ("known_good_plug", *middle, "stop_ohm", "replace_switch", *("verify",) * verified):
        bench.do(action, prepare=True, confirm="all")
    bench.hand_back(FAULT, "90 %")
    return bench, tuple(step.to_dict() for step in bench.route)


@cache
def scored(looks: int, guesses: int, verified: bool, kept: bool) -> tuple[RouteScore, float]:
    """Score of the route and its minutes; without ``kept`` a caution was missed at the first step."""
    bench, route = _route(looks, guesses, verified)
    record = [dict(step) for step in route]
    record[0]["unsafe"] = not kept
    found = score_route(bench.table, bench.scenario.complaint.kind, record, truth=[FAULT])
    return found, bench.minutes


def what_a_route_earns(looks: float, guesses: float, verified: float, kept: float) -> Picture:
    """The score of one job on the pump that was left in the rain, with what each step gave away.

    Parameters
    ----------
    looks : float
        Needless looks and tests on the way, 0 to 4.
    guesses : float
        Parts fitted on a guess, 0 to 2: a plug, then a module.
    verified : float
        1 with a verify run before hand-back, 0 without.
    kept : float
        1 when every caution was kept, 0 when one was missed.

    Returns
    -------
    Picture
        ``shown`` holds ``score`` (0 to 100), ``passed`` (1.0 or 0.0) and ``minutes`` [min].

    Raises
    ------
    DrawingError
        A value that is not drawn.

    Examples
    --------
    >>> what_a_route_earns(0, 0, 1, 1).shown["passed"], what_a_route_earns(0, 0, 1, 0).shown["passed"]
    (1.0, 0.0)
    """
    given = (looks, guesses, verified, kept)
    if not all(0 <= value <= most for value, most in zip(given, (4, 2, 1, 1), strict=True)):
        raise DrawingError(f"{given}: looks are 0 to 4, guesses 0 to 2, verified and kept 0 or 1")
    found, minutes = scored(round(looks), round(guesses), bool(round(verified)), bool(round(kept)))
    table = _route(0, 0, True)[0].table
    why = [
        text
        for wrong, text in (
            (not found.safe, "a caution was missed"),
            (not found.verified, "not proven"),
            (found.score < PASS_MARK, f"below {PASS_MARK:.0f}"),
        )
        if wrong
    ]
    verdict = "passed" if found.passed else f"not passed: {', '.join(why)}"
    names = {"verify": "verify run", "hand_back": "hand back"}
    names |= {name: row.name.partition(",")[0] for name, row in table.tests.items()}
    names |= {name: row.name.partition(",")[0] for name, row in table.repairs.items()}
    worst = max(found.feedback, key=lambda remark: remark.lost)
    words = (
        f"{len(found.feedback)} steps, {minutes:.0f} min, score {found.score:.0f} of 100: {verdict}. Most was"
        f" given away at “{names[worst.action]}”: {max(worst.lost, 0):.0f} in money."
    )
    canvas = Canvas(720, 476, "What a route earns", words)
    canvas.label(20, 28, "step", size=16, strong=True)
    canvas.label(330, 28, "given away, in money", size=16, strong=True)
    for row, remark in enumerate(found.feedback):
        y, lost = 56 + row * 25, max(remark.lost, 0.0)
        canvas.label(20, y, names[remark.action], size=15, colour=RUST if remark.missed else INK)
        canvas.rect(330, y - 14, 300 * min(lost / 60, 1), 17, fill=canvas.hatch, weight="thin")
        canvas.label(338 + 300 * min(lost / 60, 1), y, f"{lost:.0f}" if lost >= 0.5 else "0", size=15)
    frame = Frame(20, 366, 680, 26, (0, 100), (0, 1))
    canvas.rect(20, 366, 680, 26, weight="thin")
    canvas.rect(20, 366, frame.x(found.score) - 20, 26, fill=canvas.dots, weight="thin")
    for mark, text in ((UNVERIFIED_CAP, "most without proof"), (PASS_MARK, "pass")):
        x = frame.x(mark)
        canvas.line(x, 358, x, 400, weight="bold", dash="dash" if mark == UNVERIFIED_CAP else "solid")
        canvas.label(x - 6 if mark == UNVERIFIED_CAP else x + 6, 354, f"{text} {mark:.0f}", size=15,
                     anchor="end" if mark == UNVERIFIED_CAP else "start")  # fmt: skip
    for mark in (0, 100):
        canvas.label(min(max(frame.x(mark), 26), 686), 412, f"{mark}", size=15, anchor="middle", colour=GUIDE)
    colour = BLUE if found.passed else RUST
    passed = "passed" if found.passed else "not passed"
    canvas.label(20, 438, f"{found.score:.0f} of 100, {minutes:.0f} min: {passed}", size=19, strong=True,
                 colour=colour)  # fmt: skip
    if why:
        canvas.label(20, 462, ", ".join(why), size=16, colour=colour)
    shown = {
        "score": found.score,
        "passed": 1.0 if found.passed else 0.0,
        "minutes": ureg.Quantity(minutes, "min"),
    }
    return Picture(canvas.svg(), words, shown)
