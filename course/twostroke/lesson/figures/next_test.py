"""Figure of lesson 15: own readings in, what is still possible and what to test next out."""

from __future__ import annotations

from functools import cache

from twostroke.isolation import Belief, Planner
from twostroke.lesson.drawing import BLUE, GUIDE, INK, Canvas, DrawingError, Picture
from twostroke.table import Table, load_table

COMPLAINTS = (
    "no_start",
    "hard_cold",
    "dies_hot",
    "fast_pull",
    "after_lead_moved",
    "runs_then_dies",
    "weak_run",
)
TESTS = {
    "known_good_plug": ("none", "weak", "good"),
    "plug_look": ("tan_dry", "dry_clean", "wet", "black"),
    "compression": ("very_low", "low", "good"),
}
_MOST, _SHORT = 5, 36


@cache
def advised(
    complaint: int, spark: int, plug: int, gauge: int
) -> tuple[tuple[tuple[str, float], ...], tuple[tuple[str, float, float], ...]]:
    """Likeliest faults with their chance; next steps with minutes and the money expected in all."""
    table = load_table()
    belief = Belief(table, COMPLAINTS[complaint - 1])
    for (test, results), given in zip(TESTS.items(), (spark, plug, gauge), strict=True):
        if given:
            belief.update(test, results[given - 1])
    rows = sorted(belief.probabilities().items(), key=lambda row: -row[1])[:_MOST]
    likeliest = tuple((_name(table, fault), chance) for fault, chance in rows)
    steps = tuple(
        (_step(table, row.action), row.minutes, row.expected_cost) for row in Planner(table).rank(belief)[:3]
    )
    return likeliest, steps


def _name(table: Table, fault: str) -> str:
    return table.faults[fault].name if fault in table.faults else "something not in this table"


def _step(table: Table, action: str) -> str:
    return table.action(action).name if action in (*table.tests, *table.repairs) else action.replace("_", " ")


def what_to_test_next(complaint: float, spark: float, plug: float, gauge: float) -> Picture:
    """Own readings as numbers of choices; the likeliest faults and the three next steps that cost least.

    Parameters
    ----------
    complaint : float
        1 does not start, 2 hard to start cold, 3 dies hot, 4 fires only when pulled fast, 5 ran again when
        the lead was moved, 6 runs then dies, 7 no power.
    spark : float
        Known-good plug on the lead: 0 not tested, 1 no spark, 2 weak, 3 good.
    plug : float
        The plug: 0 not looked at, 1 tan and dry, 2 clean and dry, 3 wet, 4 black.
    gauge : float
        Compression: 0 not measured, 1 very low, 2 low, 3 in the maker's band.

    Returns
    -------
    Picture
        ``shown`` holds ``leading`` (chance of the likeliest fault) and ``minutes`` of the first step.

    Raises
    ------
    DrawingError
        A choice that is not there.

    Notes
    -----
    Counted over the course's fault table, a teaching estimate; the planner looks one step ahead.

    Examples
    --------
    >>> what_to_test_next(1, 0, 0, 0).words.split("Next: ")[1].split(",")[0]
    'known-good plug on the lead'
    """
    given = (complaint, spark, plug, gauge)
    limits = ((1, len(COMPLAINTS)), *((0, len(results)) for results in TESTS.values()))
    if not all(low <= value <= high for value, (low, high) in zip(given, limits, strict=True)):
        raise DrawingError(
            f"{given}: choices run from {', '.join(f'{low} to {high}' for low, high in limits)}"
        )
    which, *read = (round(value) for value in given)
    table = load_table()
    said = table.complaint.words[COMPLAINTS[which - 1]] if table.complaint else COMPLAINTS[which - 1]
    rows = [
        (
            f"{table.tests[test].name.partition(',')[0]}",
            table.tests[test].say(results[number - 1]) if number else "",
        )
        for (test, results), number in zip(TESTS.items(), read, strict=True)
    ]
    seen = [f"{name}: {word}" for name, word in rows if word]
    likeliest, steps = advised(which, *read)
    words = (
        f"Complaint: {said}. {'; '.join(seen) if seen else 'Nothing read yet'}. Likeliest: "
        + ", ".join(f"{fault} {100 * chance:.0f} %" for fault, chance in likeliest[:3])
        + ". Next: "
        + "; then ".join(f"{step}, {minutes:.0f} min" for step, minutes, _ in steps)
        + "."
    )
    canvas = Canvas(720, 460, "Own readings, and what to test next", words)
    canvas.label(20, 28, f"{which}  “{said}”", size=17, strong=True)
    for row, (name, word) in enumerate(rows):
        canvas.label(36, 56 + row * 24, f"{read[row]}  {name}", size=16, colour=INK if word else GUIDE)
        canvas.label(330, 56 + row * 24, word or "not yet", size=16, strong=bool(word),
                     colour=INK if word else GUIDE)  # fmt: skip
    canvas.line(20, 128, 700, 128, weight="hair", colour=GUIDE)
    canvas.label(20, 152, "still possible", size=16, strong=True)
    for row, (fault, chance) in enumerate(likeliest):
        y = 178 + row * 25
        canvas.label(
            350, y, fault if len(fault) <= _SHORT else f"{fault[: _SHORT - 1]}…", size=15, anchor="end"
        )
        canvas.rect(360, y - 14, 280 * chance, 17, fill=canvas.hatch, weight="thin")
        canvas.label(366 + 280 * chance, y, f"{100 * chance:.0f} %", size=15)
    canvas.line(20, 312, 700, 312, weight="hair", colour=GUIDE)
    canvas.label(20, 338, "next, the least expected cost first", size=16, strong=True)
    for row, (step, minutes, money) in enumerate(steps):
        y = 368 + row * 27
        canvas.label(36, y, f"{row + 1}. {step}", size=17 if row == 0 else 15, strong=row == 0,
                     colour=BLUE if row == 0 else GUIDE)  # fmt: skip
        canvas.label(600, y, f"{minutes:.0f} min", size=15, anchor="end")
        canvas.label(700, y, f"{money:.0f} in all", size=15, anchor="end")
    shown = {"leading": likeliest[0][1], "minutes": steps[0][1]}
    return Picture(canvas.svg(), words, shown)
