"""Lab 10: two tests compared by what they save for each of their minutes."""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.sifted import sift, told_apart
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance


def draw(d: Draw) -> dict[str, Any]:
    """Draw two suspects and two tests such that every slip can be told apart."""

    def make(number: int) -> dict[str, Any]:
        first = d.integer(f"first repair {number}", 30, 55)
        return {
            "worth_first_percent": d.integer(f"first chance {number}", 52, 66, 2),
            "worth_repairs_min": [first, first + d.integer(f"second repair {number}", 5, 30)],
            "worth_tests_min": [d.integer(f"quick {number}", 2, 6), d.integer(f"sure {number}", 7, 20)],
            "worth_right_percent": d.integer(f"right {number}", 70, 85, 5),
        }

    return sift(make, _good)


def _good(given: dict[str, Any]) -> bool:
    v = Variant("", "", 1, given)
    rates = (_saved(v, 0) / _test(v, 0), _saved(v, 1) / _test(v, 1))
    clear = abs(rates[0] - rates[1]) > 0.3 and all(abs(rate - 1) > 0.15 for rate in rates)
    return clear and _saved(v, 0) > 2 and told_apart(TASK, given)


def _chance(v: Variant) -> float:
    return float(v["worth_first_percent"]) / 100


def _repairs(v: Variant) -> tuple[float, float]:
    first, second = v["worth_repairs_min"]
    return float(first), float(second)


def _test(v: Variant, which: int) -> float:
    return float(v["worth_tests_min"][which])


def _without(v: Variant) -> float:
    """First the likelier repair; the other one too where that was wrong."""
    first, second = _repairs(v)
    return first + (1 - _chance(v)) * second


def _pointed(v: Variant) -> float:
    """Average minutes when the right repair is known."""
    first, second = _repairs(v)
    return _chance(v) * first + (1 - _chance(v)) * second


def _saved(v: Variant, which: int) -> float:
    """Minutes of repair that a test saves on average, its own minutes not taken off."""
    right = 1.0 if which else v["worth_right_percent"] / 100
    return _without(v) - right * _pointed(v) - (1 - right) * sum(_repairs(v))


def show(v: Variant) -> Page:
    """Suspects and tests."""
    first, second = v["worth_repairs_min"]
    suspects = (
        ("first", f"{v['worth_first_percent']} %", f"{first} min"),
        ("second", f"{100 - v['worth_first_percent']} %", f"{second} min"),
    )
    tests = (
        ("quick", f"{v['worth_tests_min'][0]} min", f"{v['worth_right_percent']} % of the time"),
        ("sure", f"{v['worth_tests_min'][1]} min", "always"),
    )
    return Page(
        "",
        (
            Table("Two suspects are left", ("suspect", "chance", "repair and start"), suspects),
            Table("Two tests can tell them apart", ("test", "takes", "points to the right one"), tests),
            Text("Without a test the first suspect is repaired first, then the second if that was wrong. "
            "With a test "
                 "the one it points to is repaired first, then the other if that was wrong."),
            Text("Saved: average minutes of repair without a test, less those with it; the test's own "
            "minutes are not "
                 "taken off yet. What do you do?"),
            CHOICE.options_block(v),
        ),
    )  # fmt: skip


def _options(v: Variant) -> tuple[Option, ...]:
    rates = (_saved(v, 0) / _test(v, 0), _saved(v, 1) / _test(v, 1))
    best = "none" if max(rates) < 1 else ("quick" if rates[0] > rates[1] else "sure")
    return (
        Option("quick", "The quick test: it saves more for each of its minutes.", best == "quick",
               "cheapest_test_first", Feedback(
            "The quick test is chosen.", "It was chosen because it is quick.",
            "Compare the two rates, and each with one.")),
        Option("sure", "The sure test: it saves more for each of its minutes.", best == "sure",
               "sure_is_better", Feedback(
            "The sure test is chosen.", "It was chosen because it is never wrong.",
            "Compare the two rates, and each with one.")),
        Option("none", "No test: neither saves as much as it takes.", best == "none", "parts_first", Feedback(
            "Repair without a test.", "Tests were thought to cost only.",
            "Is there a rate above one: more minutes saved than spent?")),
    )  # fmt: skip


CHOICE = Pick("choice", "what you do", _options)


def _close(v: Variant) -> Tolerance:
    return tolerance(1, reason="half a step of 1 min")


def _taken_off(which: int) -> Any:
    return slip(
        "own_minutes_taken_off", lambda v, own: _saved(v, which) - _test(v, which),
        "The test's own minutes are taken off already.", "Net minutes were given.",
        "Here the minutes of repair alone are compared; the test's minutes come in the next step.",
        misconception="amount_as_rate", share=0.5,
    )  # fmt: skip


def _left(which: int) -> Any:
    return slip(
        "left_for_saved", lambda v, own: _without(v) - _saved(v, which),
        "The minutes of repair with the test.", "What is left was given, not what is saved.",
        "Without less with: which of the two did you write?", misconception="level_for_change",
    )  # fmt: skip


def _rate(name: str, label: str, which: int, source: str) -> Number:
    return Number(
        name, label, "", lambda v, own: own[f"worth.{source}"] / _test(v, which),
        lambda v: tolerance(0.1, (1 / _test(v, which), 0.5),
                            reason="half a step of 0.1, and minutes saved to half a minute"),
        -1000, 1000,
        (
            slip("rate_turned_round", lambda v, own: _test(v, which) / own[f"worth.{source}"],
                 "Minutes spent for each minute saved.", "The division was turned round.",
                 "Is a larger figure now better or worse?", misconception="factor_turned_round", share=0.5),
            slip("not_divided", lambda v, own: own[f"worth.{source}"],
                 "The minutes saved again.", "They were not divided by the test's minutes.",
                 "How many does it save for each one that it takes?", misconception="amount_as_rate"),
            slip("product_for_rate", lambda v, own: own[f"worth.{source}"] * _test(v, which),
                 "Far too large.", "The two were multiplied.", "For each minute: multiply or divide?",
                 misconception="amount_as_rate"),
        ),
        Feedback("It does not follow from your minutes saved.",
        "The other test's minutes may have been used.",
                 "Minutes saved over minutes taken."),
        1,
    )  # fmt: skip


TASK = Task(
    id="worth",
    title="What is a test worth?",
    outcome="compare two tests by the minutes they save for each minute they take",
    kind="value",
    points=6,
    competency="isolation logic",
    show=show,
    items=(
        Number(
            "without", "average without a test", "min", lambda v, own: _without(v), _close, 0, 10_000,
            (
                slip("both_always", lambda v, own: sum(_repairs(v)),
                     "Both repairs, always.", "The times when the first one cures were left out.",
                     "How often is the second repair needed at all?", misconception="parts_first"),
                slip("first_only", lambda v, own: _repairs(v)[0],
                     "The first repair alone.", "The first suspect was taken for certain.",
                     "How often is it the other one, and what does that add?",
                     misconception="common_is_likely_here"),
                slip("right_one_known", lambda v, own: _pointed(v),
                     "What it takes when the right one is known.", "No minutes were lost on a wrong repair.",
                     "When the second is guilty, which repairs have you done?",
                     misconception="one_test_decides"),
                slip("chance_turned_round", lambda v, own: _repairs(v)[0] + _chance(v) * _repairs(v)[1],
                     "The second repair too often.", "The chance of the first was used for the second.",
                     "How often is the second repair needed?", misconception="chance_turned_round"),
            ),
            Feedback("It does not follow from the table.", "A chance may be on the wrong repair.",
                     "The first repair always, the second only when the first was wrong."),
            0, any_unit=True,
        ),
        Number(
            "quick", "saved by the quick test", "min", lambda v, own: _saved(v, 0), _close, -10_000, 10_000,
            (
                slip("never_wrong", lambda v, own: _saved(v, 1),
                     "As if it were never wrong.", "The times when it points to the wrong one were left out.",
                     "What happens, and how often, when it points to the wrong one?",
                     misconception="one_test_decides"),
                _taken_off(0),
                _left(0),
            ),
            Feedback("It does not follow from the tables.", "The wrong pointings may be weighed wrongly.",
                     "When it is right, one repair; when it is wrong, both. How often is each?"),
            0, any_unit=True, share=2,
        ),
        Number(
            "sure", "saved by the sure test", "min", lambda v, own: _saved(v, 1), _close, -10_000, 10_000,
            (
                _taken_off(1),
                _left(1),
                slip("plain_mean", lambda v, own: _without(v) - sum(_repairs(v)) / 2,
                     "The plain mean of the two repairs was taken off.", "The chances have no say.",
                     "How often is each of the two the right one?", misconception="share_of_the_wrong_whole"),
            ),
            Feedback("It does not follow from the tables.", "A chance may be on the wrong repair.",
                     "With a sure test only the right repair is done. How long is that on average?"),
            0, any_unit=True,
        ),
        _rate("quick_rate", "quick test, minutes saved for each minute", 0, "quick"),
        _rate("sure_rate", "sure test, minutes saved for each minute", 1, "sure"),
        CHOICE,
    ),
)  # fmt: skip
