"""Lab 09: a blocked screen told from a rich mixture, by what each change does to the top speed."""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Caution, Page, Table, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

GAINS = {"screen": ((22, 32), (3, 6)), "rich": ((3, 6), (18, 28)), "lean": ((3, 6), (-12, -8))}
"""Per cent of top speed gained with the screen out, and with the screw a quarter turn leaner (invented)."""


def draw(d: Draw) -> dict[str, Any]:
    """Draw three runs at full throttle."""
    case = d.pick("screen case", tuple(GAINS))
    found = d.integer("speed found", 6000, 7600, 50)
    gains = [d.integer(f"gain {place}", *GAINS[case][place]) for place in (0, 1)]
    runs = [found, *(50 * round(found * (1 + gain / 100) / 50) for gain in gains)]
    return {"speed_case": case, "speeds_rpm": runs}


def show(v: Variant) -> Page:
    """The three runs."""
    names = ("as found", "screen out, mixture as found", "screen back in, mixture a quarter turn leaner")
    rows = [(name, f"{speed} rpm") for name, speed in zip(names, v["speeds_rpm"], strict=True)]
    return Page(
        "",
        (
            Caution("Muffler and screen burn skin: cool, then touch. Run outdoors, attachment guarded, "
            "and put "
                    "the screen back before the machine goes out: without it sparks can set dry grass "
                    "alight."),
            Table("Full throttle, warm, same load, tachometer to ±25 rpm", ("run", "speed"), rows),
            Text("What does each change gain, in per cent of the speed as found, and what does it suggest?"),
            VERDICT.options_block(v),
        ),
    )  # fmt: skip


_TEXT = {
    "screen": "The screen is blocked: clean or renew it, then look for the cause of the soot.",
    "rich": "The mixture is rich: filter and choke first, then set the screw as the maker says.",
    "lean": "The mixture is lean already: put the screw back, look for an air leak or a starved line.",
}
_WHY = {
    "screen": ("screws_mend_anything", "The screen is blamed.",
    "Its run hardly differs from the one as found.",
               "Which of the two changes moved the speed most, and which way?"),
    "rich": ("screws_mend_anything", "Rich mixture is blamed.",
    "The leaner run did not gain by much, or lost.",
             "Compare the third run with the first, not with the second."),
    "lean": ("screws_mend_anything", "Lean mixture is blamed.", "The leaner run did not lose speed.",
             "What should a lean engine do when it gets even less fuel?"),
}  # fmt: skip


def _verdicts(v: Variant) -> tuple[Option, ...]:
    found = []
    for name, text in _TEXT.items():
        misconception, *parts = _WHY[name]
        found.append(Option(name, text, name == v["speed_case"], misconception, Feedback(*parts)))
    worn = Option(
        "worn", "The engine is worn: replace it.", False, "parts_first",
        Feedback("The engine is condemned.", "No reading here says anything of wear.",
                 "Which test would show wear, and was it done?"),
    )  # fmt: skip
    return (*found, worn)


VERDICT = Pick("verdict", "what it suggests", _verdicts)


def _gain(v: Variant, run: int, base: int = 0) -> float:
    speeds = v["speeds_rpm"]
    return 100 * float(speeds[run] - speeds[base]) / float(speeds[base])


def _close(v: Variant) -> Tolerance:
    change = 100 / v["speeds_rpm"][0]
    return tolerance(
        1, (change, 25), (change, 25), reason="half a step of 1 %, and two speeds read to ±25 rpm"
    )


def _item(name: str, label: str, run: int, other: int) -> Number:
    return Number(
        name, label, "%", lambda v, own: _gain(v, run), _close, -10_000, 10_000,
        (
            slip("other_run", lambda v, own: _gain(v, run, other),
                 "It was set against the other change.", "Two changes were compared with each other.",
                 "Which run is the one to compare with: before anything was changed?",
                 misconception="two_changes_at_once"),
            slip("new_for_gain", lambda v, own: _gain(v, run) + 100,
                 "The new speed as per cent of the old one.", "What is reached was given, not the gain.",
                 "How much is it above one hundred per cent, or below?",
                 misconception="share_of_the_wrong_whole", share=0.5),
            slip("rpm_as_percent", lambda v, own: _gain(v, run) * v["speeds_rpm"][0] / 100,
                 "The difference in rpm with another unit.", "Revolutions were written down as per cent.",
                 "What is one per cent of the speed as found?", misconception="label_swapped"),
        ),
        Feedback("It does not follow from the runs.", "Another run may have been read.",
                 "Difference first, then what part of the first run is that?"),
        0, any_unit=True,
    )  # fmt: skip


TASK = Task(
    id="screen",
    title="Blocked screen or wrong mixture?",
    outcome="tell a blocked screen from a wrong mixture by changing one thing at a time",
    kind="table",
    points=4,
    competency="fuel, air and exhaust",
    show=show,
    items=(
        _item("screen", "gain with the screen out", 1, 2),
        _item("leaner", "gain with the leaner screw (with a minus sign for a loss)", 2, 1),
        VERDICT,
    ),
)
