"""Figures of lesson 10: a thousand machines counted, and the belief's bars moving test by test."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from textwrap import wrap
from typing import TYPE_CHECKING

import numpy as np

from twostroke.isolation import Belief, Planner, load_table
from twostroke.lesson.drawing import BLUE, GUIDE, RUST, STEEL, Canvas, DrawingError, Frame, Picture

if TYPE_CHECKING:
    from pint import Quantity

    from twostroke.isolation import Advice

ALL = 1000

MACHINES = (
    ("no_start", "stop_switch"),
    ("fast_pull", "airgap_wide"),
    ("no_start", "needle_shut"),
    ("no_start", "module_dead"),
)
"""Complaint and true fault of the machines in the figure; readings are the likeliest for that fault."""
WAYS = ("least expected cost", "fewest minutes first")
MOST = 7
_ROWS = 8
_PITCH = 38
_LEAST_BITS = 0.02


def machines_counted(has: float, shows: float, others: float, guess: Quantity | None = None) -> Picture:
    """A thousand machines, by whether they have a fault and whether they show a reading.

    Parameters
    ----------
    has : float
        Machines of 1000 that have the fault, 10 to 500.
    shows : float
        Of these, per cent that show the reading, 5 to 100.
    others : float
        Of all others, per cent that show it too, 0 to 60.
    guess : quantity, optional
        The reader's prediction of the chance, per cent.

    Returns
    -------
    Picture
        ``shown`` holds ``have_and_show``, ``others_and_show`` (machines) and ``chance`` (0 to 1), floats.

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    Bayes' rule, by counting.

    Examples
    --------
    >>> round(machines_counted(50, 90, 10).shown["chance"], 2)
    0.32
    """
    if not 10 <= has <= 500 or not 5 <= shows <= 100 or not 0 <= others <= 60:
        raise DrawingError(
            f"{has:g} machines, {shows:g} and {others:g} per cent: the figure shows 10 to 500 machines, 5 to"
            " 100 and 0 to 60 per cent"
        )
    right, false = has * shows / 100, (ALL - has) * others / 100
    chance = right / (right + false)
    words = (
        f"Of {ALL} machines {has:.0f} have the fault, and {right:.0f} of them show the reading. Of the other"
        f" {ALL - has:.0f}, {false:.0f} show it too. So of {right + false:.0f} machines that show it,"
        f" {right:.0f} have the fault: {100 * chance:.0f} per cent."
    )
    canvas = Canvas(720, 440, "A thousand machines counted", words)
    frame = Frame(60, 52, 630, 220, (0, ALL), (0, 100))
    edge = frame.x(has)
    canvas.label(60, 36, f"{has:.0f} have the fault", size=17, strong=True, colour=BLUE)
    canvas.label(690, 36, f"{ALL - has:.0f} have not", size=17, strong=True, anchor="end")
    for value in (0, 50, 100):
        canvas.label(52, frame.y(value) + 5, f"{value}", size=15, anchor="end")
    canvas.label(18, 162, "per cent", size=16, anchor="middle", turn=-90)
    canvas.rect(frame.left, frame.top, frame.width, frame.height, fill=STEEL, weight="thin")
    canvas.rect(frame.left, frame.y(shows), edge - frame.left, frame.y(0) - frame.y(shows),
                fill=canvas.dots, weight="thin")  # fmt: skip
    canvas.rect(edge, frame.y(others), frame.left + frame.width - edge, frame.y(0) - frame.y(others),
                fill=canvas.hatch, weight="thin")  # fmt: skip
    canvas.line(edge, frame.top - 8, edge, frame.y(0), weight="bold", colour=BLUE)
    middle = (edge + frame.left + frame.width) / 2
    canvas.label(middle, frame.top + 22, "do not show the reading", size=16, anchor="middle")
    canvas.label(middle, frame.y(0) - 10, f"{false:.0f} show it and have not", size=16, anchor="middle")
    canvas.label(60, 300, "only those that show the reading", size=17, strong=True)
    bar = Frame(60, 312, 630, 40, (0, 1), (0, 1))
    canvas.rect(bar.left, bar.top, bar.x(chance) - bar.left, 40, fill=canvas.dots)
    canvas.rect(bar.x(chance), bar.top, bar.left + 630 - bar.x(chance), 40, fill=canvas.hatch)
    canvas.line(bar.x(chance), bar.top - 6, bar.x(chance), bar.top + 46, weight="bold", colour=BLUE)
    for part in (0.0, 0.25, 0.5, 0.75, 1.0):
        canvas.line(bar.x(part), 352, bar.x(part), 358, weight="thin", colour=GUIDE)
        canvas.label(bar.x(part), 374, f"{100 * part:.0f} %", size=15, anchor="middle")
    if guess is not None and 0 <= guess.to("%").magnitude <= 100:
        place = bar.x(float(guess.to("%").magnitude) / 100)
        canvas.marker(place, 332, shape="diamond", colour=RUST, size=8)
        canvas.label(place, 396, "◇ your prediction", size=15, colour=RUST,
                     anchor="end" if place > 560 else ("start" if place < 120 else "middle"))  # fmt: skip
    told = f"{right:.0f} of {right + false:.0f} have the fault: {100 * chance:.0f} per cent"
    canvas.label(20, 426, told, size=19, strong=True, colour=RUST)
    return Picture(canvas.svg(), words, {"have_and_show": right, "others_and_show": false, "chance": chance})


@dataclass(frozen=True)
class _Stand:
    """The belief after some tests: chances, what was read last, minutes so far, and what comes next."""

    chances: dict[str, float]
    test: str
    result: str
    minutes: float
    next_kind: str
    next_words: str


@cache
def _walk(machine: int, way: int) -> tuple[_Stand, ...]:
    """One machine tested in one way, from the complaint on; each reading the likeliest for its fault."""
    table, (complaint, fault) = load_table(), MACHINES[machine]
    planner, belief = Planner(table), Belief(table, complaint, pairs=False)
    minutes, made, told = 0.0, "nothing tested yet", ""
    stands = []
    for number in range(MOST + 1):
        best = _next(planner, belief, way)
        rows = table.tests if best.kind == "test" else table.repairs
        name = rows[best.action].name if best.action in rows else best.action.replace("_", " ")
        stands.append(_Stand(belief.probabilities(), made, told, minutes, best.kind, name or best.action))
        if best.kind != "test" or number == MOST:
            break
        row = table.tests[best.action]
        condition = row.condition(belief.place.temperature)
        likelihood = belief.model.likelihood(best.action, condition)[belief.model.index[fault]]
        result = row.results[int(np.argmax(likelihood))]
        belief.update(best.action, result, condition)
        minutes += best.minutes
        made, told = name, row.say(result)
    return tuple(stands)


def _next(planner: Planner, belief: Belief, way: int) -> Advice:
    """The next action: of least expected cost, or the test of fewest minutes that tells anything at all."""
    ranked = planner.rank(belief)
    if way == 0:
        return ranked[0]
    done = {entry.action for entry in belief.evidence}
    telling = (
        row
        for row in ranked
        if row.kind == "test" and row.information > _LEAST_BITS and row.action not in done
    )
    return min(telling, key=lambda row: (row.minutes, -row.information), default=ranked[0])


@cache
def _bars(machine: int) -> tuple[str, ...]:
    """Faults that get a bar: the likeliest at any time, in the order of the complaint's chances."""
    stands = [stand for way in range(len(WAYS)) for stand in _walk(machine, way)]
    most = {name: max(stand.chances[name] for stand in stands) for name in stands[0].chances}
    likeliest = sorted(most, key=lambda name: -most[name])[:_ROWS]
    return tuple(sorted(likeliest, key=lambda name: -stands[0].chances[name]))


def belief_bars(machine: float, tests: float, way: float) -> Picture:
    """What is still possible, and how likely, after each test.

    Parameters
    ----------
    machine : float
        1 to 4.
    tests : float
        Tests made so far, 0 to 7; a way that ends sooner stays at its end.
    way : float
        1 each time the action of least expected cost, 2 each time the test of fewest minutes.

    Returns
    -------
    Picture
        ``shown`` holds ``true_fault`` (its chance), ``likeliest`` (the highest chance), ``minutes`` and
        ``tests`` made, as floats.

    Raises
    ------
    DrawingError
        A number that stands for nothing.

    Notes
    -----
    Exact Bayes update over the single faults of the course's own table, and its adviser
    (:class:`twostroke.isolation.Planner`). The table's chances and minutes are invented for teaching.

    Examples
    --------
    >>> shown = belief_bars(1, 2, 1).shown
    >>> shown["true_fault"] > 0.8, shown["minutes"] < 10
    (True, True)
    """
    if machine not in (1, 2, 3, 4) or way not in (1, 2) or tests not in range(MOST + 1):
        raise DrawingError(
            f"machine {machine:g}, tests {tests:g}, way {way:g}: the figure shows machines 1 to 4, 0 to"
            f" {MOST} tests, and ways 1 and 2"
        )
    place, chosen = int(machine) - 1, int(way) - 1
    walk, table = _walk(place, chosen), load_table()
    made = min(int(tests), len(walk) - 1)
    now, before = walk[made], walk[max(made - 1, 0)]
    complaint, fault = MACHINES[place]
    words_of = table.complaint.words if table.complaint else {}
    ended = made == len(walk) - 1 and chosen == 0
    bars = _bars(place)
    best = max(bars, key=lambda name: now.chances[name])
    last = f"{now.test}: {now.result}" if made else now.test
    after = f"{'Test' if now.next_kind == 'test' else 'Repair'} next: {now.next_words}."
    words = (
        f"Machine {machine:.0f}: the owner says that {words_of.get(complaint, complaint)}. Tests made:"
        f" {made}, in {now.minutes:.0f} minutes. Last: {last}. Likeliest now: {_short(best)}, with"
        f" {100 * now.chances[best]:.0f} per cent. Way {way:.0f}, {WAYS[chosen]}. {after}"
    )
    canvas = Canvas(720, 536, "The bars of a belief", words)
    canvas.label(
        20, 26, f"machine {machine:.0f}: “{words_of.get(complaint, complaint)}”", size=17, strong=True
    )
    count = f"{made} test{'' if made == 1 else 's'}, {now.minutes:.0f} min"
    canvas.label(20, 54, count, size=17, strong=True, colour=RUST)
    canvas.label(20, 80, now.test, size=16)
    if made:
        canvas.label(20, 104, f"→ {now.result}", size=16, strong=True)
    frame = Frame(300, 120, 350, _PITCH * (_ROWS + 1), (0, 100), (0, 1))
    rest = 1 - sum(now.chances[name] for name in bars), 1 - sum(before.chances[name] for name in bars)
    rows = [(_short(name), now.chances[name], before.chances[name], name == fault) for name in bars]
    for row, (name, chance, old, true) in enumerate([*rows, ("all others together", *rest, False)]):
        y = frame.top + _PITCH * row
        canvas.rect(frame.left, y + 5, frame.x(100 * chance) - frame.left, 26, weight="thin",
                    fill=STEEL if row == _ROWS else canvas.hatch)  # fmt: skip
        canvas.rect(frame.left, y + 5, frame.x(100 * old) - frame.left, 26, weight="thin", dash="dash",
                    colour=BLUE)  # fmt: skip
        lines = wrap(name, 30)
        for place_of, line in enumerate(lines):
            canvas.label(290, y + (23 if len(lines) == 1 else 16 + 16 * place_of), line, size=15,
                         anchor="end", strong=true and ended)  # fmt: skip
        canvas.label(frame.x(100 * max(chance, old)) + 8, y + 24, f"{100 * chance:.0f} %", size=16,
                     strong=True)  # fmt: skip
    canvas.line(frame.left, frame.top, frame.left, frame.top + frame.height)
    canvas.label(frame.left, frame.top + frame.height + 20, "dashed: before the last test", size=15,
                 colour=BLUE)  # fmt: skip
    canvas.label(20, 500, f"way {way:.0f}: {WAYS[chosen]}", size=16)
    canvas.label(20, 526, after[:-1], size=16, strong=True, colour=RUST)
    shown = {
        "true_fault": now.chances[fault],
        "likeliest": now.chances[best],
        "minutes": now.minutes,
        "tests": float(made),
    }
    return Picture(canvas.svg(), words, shown)


def _short(fault: str) -> str:
    """Name of a fault without what stands in brackets."""
    return load_table().faults[fault].name.split(" (")[0]
