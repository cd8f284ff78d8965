"""Figures of lesson 12: a gap after tightening, a job card that is held against its readings, an estimate."""

from __future__ import annotations

import textwrap
from functools import cache
from typing import TYPE_CHECKING

from twostroke import jobcard, units
from twostroke.bench import OwnMachine
from twostroke.bench.repairing import tightened
from twostroke.bench.seeds import Draws
from twostroke.jobcard import money
from twostroke.jobcard.form import Work
from twostroke.lesson.drawing import BLUE, GUIDE, INK, RUST, Canvas, DrawingError, Frame, Picture

if TYPE_CHECKING:
    from pint import Quantity

JOBS = 200
_LOW, _HIGH = 0.25, 0.35  # band of the invented machine, mm
_BIN = 0.01  # mm
_SHOP = jobcard.load_shop()


@cache
def _moved(again: bool) -> tuple[tuple[float, int], ...]:
    """For each job how far the gap is from the shim after tightening [mm], and how often it was set again."""
    wide = 1e-3  # a shim so thick that nothing is cut off at nought, metres
    jobs = (tightened(wide, Draws("lesson", job), recheck=again) for job in range(JOBS))
    return tuple(((gap - wide) * 1e3, turns) for gap, _, turns in jobs)


def gap_after_tightening(shim: str | Quantity, job: float, again: float) -> Picture:
    """The air gap of two hundred like jobs after the screws were tightened, with one of them marked.

    Parameters
    ----------
    shim : quantity or text
        Thickness of the shim [length], 0.20 to 0.40 mm.
    job : float
        Which job is marked, 1 to 20.
    again : float
        1 when the gap is measured again after tightening and set anew where it moved, else 0.

    Returns
    -------
    Picture
        ``shown`` holds ``gap`` [mm] of the marked job, ``outside`` (share of the jobs outside the band) and
        ``times`` that the marked job was set again.

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    The movement is that of the course's bench, `twostroke.bench.repairing.tightened`; its size is invented.

    Examples
    --------
    >>> once = gap_after_tightening("0.30 mm", 1, 0).shown["outside"]
    >>> gap_after_tightening("0.30 mm", 1, 1).shown["outside"] < once
    True
    """
    thick = float(units.read(shim, expect="mm").to("mm").magnitude)
    if not 0.2 <= thick <= 0.4 or not 1 <= job <= 20 or not 0 <= again <= 1:
        raise DrawingError(
            f"shim {thick:g} mm, job {job:g}, again {again:g}: the figure shows 0.20 to 0.40 mm, jobs 1 to"
            " 20, again 0 or 1"
        )
    checked = bool(round(again))
    gaps = [max(thick + off, 0.0) for off, _ in _moved(checked)]
    mine, (_, times) = gaps[round(job) - 1], _moved(checked)[round(job) - 1]
    outside = sum(not _LOW <= gap <= _HIGH for gap in gaps) / JOBS
    how = "measured again, set anew where it had moved" if checked else "not measured again"
    inside = _LOW <= mine <= _HIGH
    place = "inside" if inside else "outside"
    anew = f", set anew {times} time{'s' if times > 1 else ''}" if times else ""
    words = (
        f"Shim {thick:.2f} mm, {how}. Of {JOBS} like jobs {100 * outside:.0f} % end outside the band"
        f" {_LOW:.2f} to {_HIGH:.2f} mm. Job {round(job)} ends at {mine:.2f} mm, {place} the band{anew}."
    )
    canvas = Canvas(720, 400, "The gap after tightening", words)
    frame = Frame(70, 40, 620, 250, (0.15, 0.5), (0, 60))
    frame.axes(canvas, "gap after tightening, mm", "jobs of 200", y_ticks=[0, 20, 40, 60])
    canvas.rect(frame.x(_LOW), 40, frame.x(_HIGH) - frame.x(_LOW), 250, fill=canvas.dots, weight="thin")
    canvas.label(frame.x(0.30), 30, "band", size=16, anchor="middle", strong=True)
    for number in range(35):
        low = 0.15 + number * _BIN
        count = sum(low <= gap < low + _BIN for gap in gaps)
        if count:
            top = frame.y(min(count, 60))
            canvas.rect(frame.x(low), top, frame.x(low + _BIN) - frame.x(low), 290 - top, fill=canvas.hatch)
    x = frame.x(thick)
    canvas.line(x, 40, x, 290, weight="normal", dash="dash", colour=BLUE)
    canvas.label(x + 6, 58, f"shim {thick:.2f}", size=15, colour=BLUE)
    canvas.marker(frame.x(mine), 282, size=8, shape="diamond", colour=RUST)
    ending = f"job {round(job)}: {mine:.2f} mm, {place}{anew}"
    canvas.label(20, 362, ending, size=20, strong=True, colour=INK if inside else RUST)
    canvas.label(20, 390, f"{100 * outside:.0f} % of all jobs end outside ({how})", size=17)
    shown = {"gap": units.ureg.Quantity(mine, "mm"), "outside": outside, "times": float(times)}
    return Picture(canvas.svg(), words, shown)


READINGS = ("none", "ohms of the primary", "ohms, and tester cold and hot")
RUNS = ("no run", "run cold", "run cold, then hot")


@cache
def _card(readings: int, runs: int) -> tuple[jobcard.JobCard, tuple[str, ...]]:
    """A card of a machine that dies hot, from what was noted, and everything that does not hold on it."""
    own = OwnMachine("dies_hot", "practice", {"primary_resistance": "0.8-1.0 ohm"})
    if readings >= 1:
        own.do("primary_ohm", reading="1.3 ohm", confirm="all")
    if readings >= 2:
        own.do("spark_gap_cold", reading="good", confirm="all")
        own.do("spark_gap_hot", reading="none", condition="hot", confirm="all")
    own.do("replace_module", confirm="all")
    for condition in ("cold", "hot")[:runs]:
        own.do("verify", reading="runs", condition=condition, confirm="all")
    own.hand_back("module_heat", "80 %")
    card = jobcard.job_card(own, machine="45 cm³ cut-off saw, demo engine C", value=620.0)
    claimed = card.model_copy(update={"state": "fixed"})
    return claimed, tuple(jobcard.problems(claimed, own.table))


def card_held_against_readings(readings: float, runs: float) -> Picture:
    """A job card that says “fixed”, and what the course's check of cards finds on it.

    Parameters
    ----------
    readings : float
        What was noted before the repair: 0 nothing, 1 the primary's ohms, 2 those and a tester cold and hot.
    runs : float
        Verify runs after it: 0 none, 1 cold, 2 cold and hot.

    Returns
    -------
    Picture
        ``shown`` holds ``problems``, how many lines do not hold.

    Raises
    ------
    DrawingError
        A value that is not drawn.

    Examples
    --------
    >>> card_held_against_readings(2, 2).shown["problems"], card_held_against_readings(0, 0).shown["problems"]
    (0.0, 2.0)
    """
    if not 0 <= readings <= 2 or not 0 <= runs <= 2:
        raise DrawingError(f"readings {readings:g}, runs {runs:g}: each is 0, 1 or 2")
    noted, made = round(readings), round(runs)
    card, found = _card(noted, made)
    told = [text.partition(";")[0] for text in found]
    words = f"Noted: {READINGS[noted]}. Verified: {RUNS[made]}. The card says fixed. " + (
        f"{len(told)} line{'s do' if len(told) > 1 else ' does'} not hold: {'; '.join(told)}."
        if told
        else "Every line holds."
    )
    canvas = Canvas(720, 420, "A job card held against its readings", words)
    canvas.rect(20, 20, 350, 380, weight="bold")
    canvas.label(36, 50, "Job card (invented)", size=18, strong=True)
    lines = [
        ("complaint", "dies when it is hot"),
        ("readings", READINGS[noted]),
        ("found", card.diagnosis.name if card.diagnosis else "none"),
        ("done", card.repairs[0].what),
        ("verified", RUNS[made]),
        ("state", card.state),
    ]
    for row, (name, text) in enumerate(lines):
        y = 88 + row * 52
        canvas.line(36, y - 22, 354, y - 22, weight="hair", colour=GUIDE)
        canvas.label(36, y, name, size=15, colour=GUIDE)
        canvas.label(36, y + 21, text, size=17, strong=True)
    good = not told
    canvas.label(395, 50, "Every line holds." if good else "Does not hold:", size=19, strong=True,
                 colour=BLUE if good else RUST)  # fmt: skip
    y = 84
    for number, text in enumerate(told, start=1):
        for line in textwrap.wrap(f"{number}. {text}", 36):
            canvas.label(395, y, line, size=16)
            y += 22
        y += 12
    return Picture(canvas.svg(), words, {"problems": float(len(told))})


_ZONES = {"repair": "repair", "the owner decides": "the owner decides", "replace": "advise against it"}


def estimate_and_advice(
    finding: str | Quantity, mending: str | Quantity, proving: str | Quantity, parts: float, like: float
) -> Picture:
    """What a job comes to in the course's invented shop, and whether the machine is worth it.

    Parameters
    ----------
    finding, mending, proving : quantity or text
        Time at the bench [time], 0 to 120 min each.
    parts : float
        Price of the parts, 0 to 150.
    like : float
        What a like machine with the same life left costs, 50 to 700.

    Returns
    -------
    Picture
        ``shown`` holds ``total`` (money), ``labour`` (money) and ``share`` of the like machine's price.

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    Lines and rule are those of the course's job card. Rates and prices are invented.

    Examples
    --------
    >>> shown = estimate_and_advice("30 min", "20 min", "10 min", 50, 300).shown
    >>> shown["labour"], shown["share"] == shown["total"] / 300
    (60.0, True)
    """
    times = [float(units.read(one, expect="min").to("min").magnitude) for one in (finding, mending, proving)]
    if not all(0 <= one <= 120 for one in times) or not 0 <= parts <= 150 or not 50 <= like <= 700:
        raise DrawingError(
            f"{times} min, parts {parts:g}, like machine {like:g}: the figure shows 0 to 120 min each, parts"
            " to 150, a like machine from 50 to 700"
        )
    bought = [Work(action="replace_module", what="parts fitted", part="parts", price=parts)] if parts else []
    bill = money.estimate(sum(times), bought, _SHOP)
    advice = money.advise(bill.total, like, _SHOP)
    share = bill.total / like
    told = "; ".join(f"{line.what} {line.amount:.2f}" for line in bill.lines)
    words = (
        f"Finding {times[0]:g}, mending {times[1]:g}, proving {times[2]:g} min. {told}. Total"
        f" {bill.total:.2f} {bill.currency}, {100 * share:.0f} % of a like machine at {like:g}:"
        f" {_ZONES[advice.verdict]}."
    )
    canvas = Canvas(720, 440, "Estimate and advice", words)
    canvas.label(20, 32, f"estimate in {bill.currency} (invented shop)", size=17, strong=True)
    for row, line in enumerate(bill.lines):
        y = 64 + row * 36
        canvas.label(20, y, line.what, size=16)
        canvas.label(330, y, f"{line.amount:.2f}", size=16, anchor="end")
        width = 330 * min(line.amount / 200, 1.0)
        canvas.rect(350, y - 17, width, 22, fill=(canvas.hatch, canvas.dots)[row % 2], weight="thin")
    canvas.line(20, 216, 700, 216)
    canvas.label(20, 242, "total", size=19, strong=True)
    canvas.label(330, 242, f"{bill.total:.2f}", size=19, anchor="end", strong=True)
    frame = Frame(20, 316, 680, 44, (0, 1.2), (0, 1))
    low, high = _SHOP.repair_up_to, _SHOP.replace_from
    for begin, end, fill, name in (
        (0, low, canvas.dots, "repair"),
        (low, high, "none", "owner decides"),
        (high, 1.2, canvas.hatch, "advise against it"),
    ):
        canvas.rect(frame.x(begin), 316, frame.x(end) - frame.x(begin), 44, fill=fill)
        canvas.label((frame.x(begin) + frame.x(end)) / 2, 344, name, size=16, anchor="middle")
    for tick in (0, low, high, 1):
        canvas.label(max(frame.x(tick), 34), 382, f"{100 * tick:.0f} %", size=15, anchor="middle")
    x = frame.x(min(share, 1.19))
    canvas.arrow(x, 290, x, 316, weight="bold", colour=RUST)
    canvas.label(
        min(max(x, 90), 600), 284, f"{100 * share:.0f} %", size=17, anchor="middle", strong=True, colour=RUST
    )
    canvas.label(20, 422, f"{100 * share:.0f} % of a like machine at {like:g}: {_ZONES[advice.verdict]}",
                 size=19, strong=True)  # fmt: skip
    shown = {"total": bill.total, "labour": bill.lines[0].amount, "share": share}
    return Picture(canvas.svg(), words, shown)
