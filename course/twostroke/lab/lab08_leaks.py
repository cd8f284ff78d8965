"""Lab 08: wet and dry test, pressure decay of the crankcase, and where a leak is."""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Caution, Page, Table, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.sifted import sift, told_apart
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

STANDARD_BAR = 1.01325
"""Pressure at which leaked air is counted, in bar (ISO 2533:1975, sea level)."""
REGAINED = {"rings": (62, 80), "between": (34, 40), "elsewhere": (8, 14)}
"""Per cent of the shortfall that oil brings back, by what leaks (common practice, no source)."""
PLACES = {
    "seal": "bubbles at the crankshaft seal behind the flywheel",
    "base": "bubbles along the joint between cylinder and crankcase",
    "intake": "bubbles at the rubber boot between carburettor and cylinder",
    "plate": "bubbles at the blanking plate of the tester itself",
}


def _draw_wet(d: Draw, number: int) -> dict[str, Any]:
    """One try; the first has the names of the draws that were handed out before."""
    more = f" {number}" if number else ""
    expected = d.integer(f"tight{more}", 75, 95)
    short = round(expected * d.pick(f"short{more}", (*range(26, 34), *range(41, 47))) / 100)
    case = d.pick(f"wet case{more}", tuple(REGAINED))
    regained = d.integer(f"regained{more}", *REGAINED[case])
    return {
        "tight_tenths_bar": expected,
        "dry_tenths_bar": expected - short,
        "wet_tenths_bar": expected - short + round(short * regained / 100),
        "wet_case": case,
    }


def draw(d: Draw) -> dict[str, Any]:
    """Draw a wet and dry test and a crankcase that loses pressure."""
    wet = sift(lambda number: _draw_wet(d, number), lambda given: told_apart(WETDRY, given))
    start, drop = d.integer("hold start", 42, 50), d.integer("hold drop", 6, 10)
    return wet | {
        "case_mL": d.integer("case volume", 200, 400, 10),
        "hold_start_hundredths_bar": start,
        "hold_end_hundredths_bar": start - drop,
        "hold_s": d.integer("hold time", 75, 150, 5),
        "place": d.pick("place", tuple(PLACES)),
    }


def _three(v: Variant) -> tuple[float, float, float]:
    return v["tight_tenths_bar"] / 10, v["dry_tenths_bar"] / 10, v["wet_tenths_bar"] / 10


def _wet_page(v: Variant) -> Page:
    tight, dry, wet = _three(v)
    rows = (
        ("a tight engine of this kind, here", f"{tight:.1f} bar"),
        ("dry, needle steady", f"{dry:.1f} bar"),
        ("wet: a small spoon of oil in, turned over, measured again", f"{wet:.1f} bar"),
    )
    return Page(
        "",
        (
            Table("Gauge readings, each to ±0.05 bar", ("test", "reading"), rows),
            Text("Shortfall: what is lacking dry, in per cent of the tight engine. Regained: how much of "
            "what "
                 "is lacking the oil brings back, in per cent."),
            Text("What does it suggest? (Oil also takes up room and so lifts any reading a little.)"),
            VERDICT.options_block(v),
        ),
    )  # fmt: skip


def _short_close(v: Variant) -> Tolerance:
    return tolerance(1, (100 / _three(v)[0], 0.05), reason="half a step of 1 %, and the gauge to ±0.05 bar")


def _regained_close(v: Variant) -> Tolerance:
    tight, dry, _ = _three(v)
    change = 100 / (tight - dry)
    return tolerance(
        1, (change, 0.05), (change, 0.05), reason="half a step of 1 %, and two readings to ±0.05 bar"
    )


_VERDICTS = {
    "rings": "Rings, piston or bore: oil seals there, and most of the loss came back.",
    "elsewhere": "Not the rings: look at plug seat, gasket and decompression valve.",
    "between": "Neither is shown: part came back. Repeat it, then a leak-down or pressure test before "
    "opening.",
}
_INSTEAD = {
    "rings": Feedback("You name the rings.", "Any rise after oil was taken for worn rings.",
                      "How much of the loss did the oil bring back: most, some, hardly any?"),
    "elsewhere": Feedback("You clear the rings.", "What the oil brought back was passed over.",
                          "Where in the cylinder can oil seal, and did it?"),
    "between": Feedback("You leave it open.", "The share that came back was not weighed.",
                        "Is it near nothing, near the half, or near all of the loss?"),
}  # fmt: skip


def _verdicts(v: Variant) -> tuple[Option, ...]:
    cured = Option(
        "cured", "Nothing is wrong: with oil in it the engine seals again.", False, "oil_repairs",
        Feedback("The oil is taken for a repair.", "A test was read as a cure.",
                 "How long does the oil stay between ring and bore once the engine runs?"),
    )  # fmt: skip
    found = tuple(
        Option(name, text, name == v["wet_case"], "any_rise_means_rings", _INSTEAD[name])
        for name, text in _VERDICTS.items()
    )
    return (*found, cured)


VERDICT = Pick("verdict", "what it suggests", _verdicts)


def _regained(v: Variant, part: float) -> float:
    """Per cent of the shortfall."""
    tight, dry, _ = _three(v)
    return 100 * part / (tight - dry)


WETDRY = Task(
    id="wetdry",
    title="Wet and dry",
    outcome="read a wet and dry test and say what it shows and what it leaves open",
    kind="table",
    points=4,
    competency="compression and sealing",
    show=_wet_page,
    items=(
        Number(
            "short", "shortfall dry", "%", lambda v, own: 100 * (1 - _three(v)[1] / _three(v)[0]),
            _short_close,
            0, 1000,
            (
                slip("rest_for_loss", lambda v, own: 100 * _three(v)[1] / _three(v)[0],
                     "The part that is still there.", "What is left was given, not what is lacking.",
                     "Is the shortfall large or small on this engine?",
                     misconception="share_of_the_wrong_whole", share=0.5),
                slip("loss_of_what_is_left", lambda v, own: 100 * (_three(v)[0] / _three(v)[1] - 1),
                     "A share of the dry reading.", "The loss was divided by what is left.",
                     "Per cent of which engine: the tight one or yours?",
                     misconception="share_of_the_wrong_whole"),
                slip("bar_as_percent", lambda v, own: _three(v)[0] - _three(v)[1],
                     "The loss in bar with another unit behind it.", "Bar were written down as per cent.",
                     "What is one per cent of the tight reading?", misconception="label_swapped"),
            ),
            Feedback("It does not follow from the two readings.", "Another reading may have been taken.",
                     "Which two of the three readings say how much is lacking dry?"),
            0, any_unit=True,
        ),
        Number(
            "regained", "regained with oil", "%",
            lambda v, own: _regained(v, _three(v)[2] - _three(v)[1]), _regained_close, 0, 5000,
            (
                slip("reached_for_regained", lambda v, own: 100 * _three(v)[2] / _three(v)[0],
                     "The wet reading as a share of the tight engine.",
                     "What is reached was given, not what came back of the loss.",
                     "How much was lacking, and how much of that came back?",
                     misconception="share_of_the_wrong_whole"),
                slip("still_missing", lambda v, own: _regained(v, _three(v)[0] - _three(v)[2]),
                     "What is still lacking.", "The part that did not come back was given.",
                     "Which two readings differ by what the oil did?",
                     misconception="share_of_the_wrong_whole", share=0.5),
                slip("turned_round",
                     lambda v, own: 100 * (_three(v)[0] - _three(v)[1]) / (_three(v)[2] - _three(v)[1]),
                     "More than the whole loss.", "The two differences were divided the wrong way round.",
                     "Can oil bring back more than was lacking?", misconception="factor_turned_round"),
            ),
            Feedback("It does not follow from the three readings.", "The share of another whole was taken.",
                     "First the loss in bar, then the gain in bar: which is divided by which?"),
            0, any_unit=True,
        ),
        VERDICT,
    ),
)  # fmt: skip


def _decay_page(v: Variant) -> Page:
    rows = (
        ("crankcase and tester, volume", f"{v['case_mL']} mL"),
        ("at the start", f"{v['hold_start_hundredths_bar'] / 100:.2f} bar"),
        ("at the end", f"{v['hold_end_hundredths_bar'] / 100:.2f} bar"),
        ("time between", f"{v['hold_s']} s"),
    )
    return Page(
        "",
        (
            Caution("Air under pressure: at most 0.5 bar in a crankcase (common practice; the maker's "
            "limit comes "
                    "first), eye protection on, carburettor and muffler off and their openings closed."),
            Table("Pressure hold, gauge to ±0.005 bar", ("what", "reading"), rows),
            Text("Leak = volume × drop / (pressure of the air × time), as air at 1.013 bar."),
            Text(f"Soap water shows {PLACES[v['place']]}. What do you do next?"),
            NEXT.options_block(v),
        ),
    )  # fmt: skip


def _pressures(v: Variant) -> tuple[float, float]:
    return v["hold_start_hundredths_bar"] / 100, v["hold_end_hundredths_bar"] / 100


def _leak(v: Variant, drop: float) -> float:
    """Leak in mL/min."""
    return float(v["case_mL"] * drop / STANDARD_BAR * 60 / v["hold_s"])


_NEXT = {
    "seal": ("Replace that seal: it pulls in air and leans the mixture.",
             "You replace the seal.", "The bubbles were not where the seal sits."),
    "base": ("Renew the gasket there, faces clean, screws evenly tightened.",
             "You renew the gasket.", "The bubbles were not along that joint."),
    "intake": ("Renew the boot; look for the crack on its underside.",
               "You renew the boot.", "The bubbles were not at the boot."),
    "plate": ("Seal the tester first and measure again: this reading says nothing of the engine yet.",
              "You mend the tester.", "The leak was in the engine, not in the tester."),
}  # fmt: skip


def _nexts(v: Variant) -> tuple[Option, ...]:
    return tuple(
        Option(
            name, text, name == v["place"], "looks_right_is_right",
            Feedback(seen, why, "Read once more where the soap water bubbles: what sits there?"),
        )
        for name, (text, seen, why) in _NEXT.items()
    )  # fmt: skip


NEXT = Pick("next", "what you do next", _nexts)

DECAY = Task(
    id="decay",
    title="How fast the crankcase loses pressure",
    outcome="turn a pressure hold into a leak rate and find its place",
    kind="value",
    points=4,
    competency="compression and sealing",
    show=_decay_page,
    items=(
        Number(
            "drop", "drop of pressure", "bar", lambda v, own: _pressures(v)[0] - _pressures(v)[1],
            tolerance(0.01, (1, 0.005), (1, 0.005),
            reason="half a step of 0.01 bar, and two readings to that"),
            0, 1000,
            (
                slip("level_for_change", lambda v, own: _pressures(v)[1],
                     "The pressure at the end.", "What is left was taken for what was lost.",
                     "What has gone between start and end?"),
                slip("start_for_change", lambda v, own: _pressures(v)[0],
                     "The pressure at the start.", "It was read as if all of it had gone.",
                     "Was anything left at the end?", misconception="level_for_change"),
                slip("added_for_change", lambda v, own: sum(_pressures(v)),
                     "More than was ever in there.", "The two readings were added.",
                     "Can more be lost than was pumped in?", misconception="level_for_change"),
            ),
            Feedback("It does not follow from the two readings.", "A decimal may have slipped.",
                     "Write the two readings one below the other and compare."),
            2, any_unit=True,
        ),
        Number(
            "leak", "leak rate", "mL/min", lambda v, own: _leak(v, own["decay.drop"]),
            lambda v: tolerance(1, (_leak(v, 1), 0.005), (_leak(v, 1), 0.005),
                                reason="half a step of 1 mL/min, and a drop read on a gauge to ±0.005 bar"),
            0, 100_000,
            (
                slip("seconds_as_minutes", lambda v, own: _leak(v, own["decay.drop"]) / 60,
                     "A sixtieth of the leak.", "It was worked out for a second and called a minute.",
                     "In which unit was the time when you divided?"),
                slip("minutes_twice", lambda v, own: _leak(v, own["decay.drop"]) * v["hold_s"] / 60,
                     "The air lost in the whole test.", "It was not divided by the time.",
                     "Would the rate change if you waited twice as long?", misconception="amount_as_rate"),
                slip("level_for_change", lambda v, own: _leak(v, _pressures(v)[1]),
                     "A leak much too large.", "The pressure left over was used, not the drop.",
                     "Which pressure has gone out with the air?"),
            ),
            Feedback("It does not follow from your drop.", "Volume, air or time may be upside down.",
                     "A larger case loses more air for the same drop; a longer time means a smaller leak."),
            0, any_unit=True, share=2,
        ),
        NEXT,
    ),
)  # fmt: skip
