"""Lab 04: cranking speed, peak and burn time from a trace, shown as a drawing and as a table."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import INK, LINE, PAPER, Figure, Page, Table, Text
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

SPEEDS = (540, 560, 640, 660, 740, 760, 840, 860)
DEMANDS = (620, 690, 770, 840)
"""Speeds (rpm) and tester demands (hundredths of a kV) of the traces that can be drawn."""
BURN = 400.0
HORIZON_MS = 2.0
_WIDTH, _HEIGHT, _LEFT, _BOTTOM, _TOP = 680, 300, 70, 250, 20

Trace = tuple[tuple[tuple[float, float], ...], tuple[tuple[float, float], ...], float, float]


@lru_cache(maxsize=128)
def trace(rpm: int, demand_hundredths: int) -> Trace:
    """Compute one spark.

    Parameters
    ----------
    rpm : int
        Speed of the flywheel.
    demand_hundredths : int
        Voltage at which the tester's gap breaks down, in hundredths of a kV.

    Returns
    -------
    tuple
        Rows of the table (ms, kV), points of the drawing (ms, kV), breakdown and end of the burn (ms).
    """
    import numpy as np

    from twostroke.burn import waveform
    from twostroke.ignition import Ignition

    seen = waveform(Ignition(), float(rpm), demand_hundredths * 10.0, BURN, (HORIZON_MS + 0.1) * 1e-3)
    fires, ends = seen.breakdown * 1e3, seen.burn_end * 1e3
    top = float(np.floor(fires * 1e4) / 1e4)
    step = 0.02
    near = round(ends / step) * step
    times = sorted({0.0, 0.002, 0.004, 0.006, 0.008} | {round(x * 0.1, 3) for x in range(1, 21)}
                   | {round(near + k * step, 3) for k in range(-2, 5)})  # fmt: skip
    times = sorted([*(x for x in times if abs(top - x) >= 0.001), top])
    kilovolts = seen.sampled(np.array(times) * 1e-3) / 1e3
    rows = tuple(
        (time, round(float(each), 1 if time <= top else 2))
        for time, each in zip(times, kilovolts, strict=True)
    )
    grid = np.unique(np.concatenate([np.linspace(0, 0.03, 121), np.linspace(0.03, HORIZON_MS, 700), [top]]))
    drawn = seen.sampled(grid * 1e-3) / 1e3
    return rows, tuple(zip(grid.tolist(), drawn.tolist(), strict=True)), fires, ends


def _trace(v: Variant) -> Trace:
    return trace(v["trace_rpm"], v["trace_hundredths_kV"])


def sparks(v: Variant) -> tuple[float, float, float, float]:
    """Times of four sparks in ms, as the recorder prints them to 0.1 ms; the middle turn is the fastest."""
    turn = 60_000 / v["trace_rpm"]
    before, after = v["slower_percent"]
    first = v["first_spark_tenths_ms"] / 10
    second = first + turn * (1 + before / 100)
    third = second + turn
    return first, round(second, 1), round(third, 1), round(third + turn * (1 + after / 100), 1)


def _speed(turn: float) -> float:
    return 60_000 / turn


def _fastest(v: Variant) -> float:
    times = sparks(v)
    return times[2] - times[1]


def _slowest(v: Variant) -> float:
    times = sparks(v)
    return _speed(max(times[1] - times[0], times[3] - times[2]))


def peak(v: Variant) -> float:
    """Highest voltage of the table, kV."""
    return max(kilovolts for _, kilovolts in _trace(v)[0])


def burn_time(v: Variant) -> float:
    """From breakdown to the end of the burn, ms."""
    _, _, fires, ends = _trace(v)
    return ends - fires


def _ringing(v: Variant) -> float:
    rows, _, _, ends = _trace(v)
    return max(kilovolts for time, kilovolts in rows if time > ends)


def drawing(v: Variant) -> Figure:
    """Draw the spark: kV from 0 to 10, ms from 0 to 2, no reading written in."""
    points = _trace(v)[1]

    def x(time: float) -> float:
        return _LEFT + time / HORIZON_MS * (_WIDTH - _LEFT - 20)

    def y(kilovolts: float) -> float:
        return _BOTTOM - kilovolts / 10 * (_BOTTOM - _TOP)

    parts = [
        f'<svg viewBox="0 0 {_WIDTH} {_HEIGHT}" width="100%" style="max-width:{_WIDTH}px;'
        f'background:{PAPER}" font-family="sans-serif" font-size="15" fill="{INK}">'
    ]
    for tenth in range(0, 21, 2):
        at = x(tenth / 10)
        parts.append(f'<path d="M{at:.1f} {_TOP}V{y(-0.6):.1f}" stroke="{LINE}" stroke-width=".4"/>')
        if tenth % 4 == 0:
            parts.append(
                f'<text x="{at:.1f}" y="{_BOTTOM + 30}" text-anchor="middle">{tenth / 10:.1f}</text>'
            )
    for kilovolts in range(0, 11, 2):
        at = y(kilovolts)
        parts.append(f'<path d="M{_LEFT} {at:.1f}H{_WIDTH - 20}" stroke="{LINE}" stroke-width=".4"/>')
        parts.append(f'<text x="{_LEFT - 8}" y="{at + 5:.1f}" text-anchor="end">{kilovolts}</text>')
    line = " ".join(f"{x(time):.1f},{y(kilovolts):.1f}" for time, kilovolts in points)
    parts.append(f'<polyline points="{line}" fill="none" stroke="{INK}" stroke-width="2"/>')
    parts.append(f'<text x="{(_LEFT + _WIDTH) / 2}" y="{_HEIGHT - 3}" text-anchor="middle">'
                 "time after the module opened (ms)</text>")  # fmt: skip
    middle = (_TOP + _BOTTOM) / 2
    parts.append(f'<text x="18" y="{middle}" text-anchor="middle" transform="rotate(-90 18 {middle})">'
                 "voltage (kV)</text></svg>")  # fmt: skip
    words = (
        "Trace of one spark: a steep rise to a spike, then a low flat line while it burns, then ringing "
        "that dies "
        "away. The same readings stand in the table below."
    )
    return Figure("".join(parts), words)


def _row(time: float, kilovolts: float) -> tuple[str, str]:
    """One row of the table, with more digits of the time where the voltage changes quickly."""
    if time < 0.1:
        return f"{time:.4f} ms", f"{kilovolts:.1f} kV"
    return f"{time:.2f} ms", f"{kilovolts:.2f} kV"


def _show(v: Variant) -> Page:
    times = [(f"spark {place + 1}", f"{time:.1f} ms") for place, time in enumerate(sparks(v))]
    rows = [_row(time, kilovolts) for time, kilovolts in _trace(v)[0]]
    lead = (
        f"A recorder on the lead of the {v['machine']}, a tester on its end, one good pull. One spark a "
        "turn. "
        "The recorder keeps more points where the voltage changes quickly."
    )
    return Page(
        "",
        (
            Text(lead),
            Table("Sparks of the pull", ("spark", "time since the recorder began"), times),
            drawing(v),
            Table("Spark 2, point by point", ("time after the module opened", "voltage"), rows),
        ),
    )


def _close_speed(v: Variant) -> Tolerance:
    change = v["trace_rpm"] / _fastest(v)
    return tolerance(
        10,
        (change, 0.05),
        (change, 0.05),
        reason="half a step of 10 rpm, and two times read to half of 0.1 ms",
    )


_KV = tolerance(0.1, (1, 0.05), reason="half a step of 0.1 kV, and the rounding of the table")

TASK = Task(
    id="trace",
    title="Read a trace",
    outcome="read cranking speed, peak voltage and burn time from a trace",
    kind="table",
    points=4,
    competency="spark testing",
    show=_show,
    items=(
        Number(
            "speed", "speed in the fastest turn", "rpm", lambda v, own: _speed(_fastest(v)), _close_speed, 0,
                30000,
            (
                slip("mean_of_pull", lambda v, own: _speed((sparks(v)[3] - sparks(v)[0]) / 3),
                     "The mean of the whole pull.", "All turns were counted together.",
                     "Between which two sparks is the time shortest?", share=0.5),
                slip("slowest_turn", lambda v, own: _slowest(v),
                     "The slowest turn.", "The longest time was taken for the fastest turn.",
                     "A fast turn: is the time between sparks long or short?",
                     misconception="longer_is_faster"),
                slip("four_stroke_halving", lambda v, own: 2 * _speed(_fastest(v)),
                     "Twice the speed.", "One spark was counted for every two turns.",
                     "How often does the magnet pass in one turn of the flywheel?"),
                slip("turns_each_second", lambda v, own: _speed(_fastest(v)) / 60,
                     "A speed of a clock, not of an engine.", "Turns were counted for each second.",
                     "For which time does the r in rpm count turns?", misconception="label_swapped"),
            ),
            Feedback("It does not follow from two sparks of your table.", "A time or a factor may be off.",
                     "Shortest time between two sparks in ms: how often does it go into a minute?"),
            0, any_unit=True, share=2,
        ),
        Number(
            "peak", "peak voltage", "kV", lambda v, own: peak(v), _KV, -200, 200,
            (
                slip("burn_as_peak", lambda v, own: BURN / 1000,
                     "The flat line's voltage.", "The burn was taken for the peak.",
                     "What happens before the flat line, and how high does it go?"),
                slip("ringing_as_peak", lambda v, own: _ringing(v),
                     "The highest of the ringing.", "The spike at the beginning was passed over.",
                     "Look at the first hundredth of a millisecond.", misconception="burn_as_peak"),
                slip("prefix_dropped", lambda v, own: peak(v) * 10,
                     "Ten times too large.", "A decimal place has slipped.",
                     "Read the highest row again, with its point."),
            ),
            Feedback("It is no peak of this trace.", "Another row may have been read.",
                     "Go down the column of voltages and keep the largest."),
            1, any_unit=True, share=1,
        ),
        Number(
            "burn", "burn time", "ms", lambda v, own: burn_time(v),
            tolerance(0.1, (1, 0.02), reason="half a step of 0.1 ms, and the recorder's 0.02 ms"), 0, 2000,
            (
                slip("ringing_counted", lambda v, own: HORIZON_MS,
                     "The whole trace.", "The ringing was counted as burning.",
                     "Where does the flat line end?"),
                slip("rise_as_burn", lambda v, own: _trace(v)[2],
                     "A hundredth of a millisecond.", "The rise was taken for the burn.",
                     "How long does the low flat line last?", misconception="ringing_counted"),
                slip("turn_as_burn", lambda v, own: _fastest(v),
                     "The time between two sparks.", "The turn was taken for the burn.",
                     "How long does one spark last, seen against one turn?", misconception="ringing_counted"),
            ),
            Feedback("It is no burn time of this trace.", "Beginning or end may be another row.",
                     "From the spike to the last row before the voltage leaves the flat line."),
            2, any_unit=True, share=1,
        ),
    ),
)  # fmt: skip


def own_speed(own: Any) -> float:
    """The learner's own cranking speed, rpm."""
    return float(own["trace.speed"])
