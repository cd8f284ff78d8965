"""Lab 11: how many clean starts it takes, and what is left of a doubt."""

from __future__ import annotations

import math
from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.sifted import sift, told_apart
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

CONFIDENCE = (80, 90, 95, 99)


def draw(d: Draw) -> dict[str, Any]:
    """Draw counts, starts, confidence and doubt such that every slip can be told apart."""

    def make(number: int) -> dict[str, Any]:
        return {
            "trial_starts": d.integer(f"starts {number}", 16, 40),
            "trial_failed": d.integer(f"failed {number}", 3, 12),
            "trial_tries": d.integer(f"tries {number}", 2, 6),
            "trial_confidence_percent": d.pick(f"confidence {number}", CONFIDENCE),
            "doubt_percent": d.integer(f"doubt {number}", 30, 70, 5),
            "doubt_clean": d.integer(f"clean {number}", 3, 8),
        }

    def good(given: dict[str, Any]) -> bool:
        chance = given["trial_failed"] / given["trial_starts"]
        v = Variant("", "", 1, given)
        whole = {_needed(v, {"clean.chance": 100 * each}) for each in (chance, round(chance, 2))}
        if len(whole) > 1 or not 0.1 < chance < 0.45:
            return False
        return told_apart(CLEAN, given) and told_apart(_ALONE, given)

    return sift(make, good)


def _chance(own: Any) -> float:
    """Chance of a start that fails, kept where it can be worked with."""
    return min(max(own["clean.chance"] / 100, 0.005), 0.99)


def _true_chance(v: Variant) -> float:
    return float(v["trial_failed"]) / float(v["trial_starts"])


def _confidence(v: Variant) -> float:
    return float(v["trial_confidence_percent"]) / 100


def _exact(v: Variant, own: Any) -> float:
    return math.log(1 - _confidence(v)) / math.log(1 - _chance(own))


def _needed(v: Variant, own: Any) -> float:
    return float(math.ceil(_exact(v, own) - 1e-9))


def _show_clean(v: Variant) -> Page:
    rows = (
        ("starts in its bad condition", str(v["trial_starts"])),
        ("failed", str(v["trial_failed"])),
        ("a customer would try", f"{v['trial_tries']} starts"),
        ("you want to be sure by", f"{v['trial_confidence_percent']} %"),
    )
    return Page(
        "",
        (
            Table("Before the repair", ("what", "count"), rows),
            Text("Take the starts for independent; heat and fuel carry over, so this is a guide. Needed: "
            "the fewest "
                 "clean starts in the bad condition after which a fault still there would have shown with "
                 "that "
                 "chance; a whole number."),
        ),
    )  # fmt: skip


def _show_close(v: Variant) -> Tolerance:
    return tolerance(1, reason="half a step of 1 %")


def _within_close(v: Variant) -> Tolerance:
    tries, chance = v["trial_tries"], _true_chance(v)
    change = tries * (1 - chance) ** (tries - 1)
    return tolerance(1, (change, 0.5), reason="half a step of 1 %, and a chance written to 1 %")


CLEAN = Task(
    id="clean",
    title="How many clean starts?",
    outcome="say how many clean starts it takes before a fault may be called gone",
    kind="value",
    points=5,
    competency="intermittent faults",
    show=_show_clean,
    items=(
        Number(
            "chance", "chance that a start fails", "%", lambda v, own: 100 * _true_chance(v), _show_close,
            0, 10_000,
            (
                slip("clean_for_failed", lambda v, own: 100 * (1 - _true_chance(v)),
                     "The share of starts that went well.", "Failed and clean were mixed up.",
                     "Which of the two is the fault showing itself?", misconception="wrong_column",
                     share=0.5),
                slip("odds_for_share", lambda v, own: 100 * _true_chance(v) / (1 - _true_chance(v)),
                     "Failed over clean starts.", "The whole was left out.",
                     "A share is counted on all starts. How many are these?",
                     misconception="share_of_the_wrong_whole"),
                slip("turned_round", lambda v, own: 100 / _true_chance(v),
                     "Starts for each failure, as per cent.", "The division was turned round.",
                     "Can more than all starts fail?", misconception="factor_turned_round"),
            ),
            Feedback("It does not follow from the counts.", "Another count may have been used.",
                     "Failed starts over all starts."),
            0, any_unit=True,
        ),
        Number(
            "within", "chance that it fails at least once when the customer tries", "%",
            lambda v, own: 100 * (1 - (1 - _chance(own)) ** v["trial_tries"]), _within_close, 0, 10_000,
            (
                slip("chances_added", lambda v, own: 100 * _chance(own) * v["trial_tries"],
                     "The chances added up.", "Starts on which it fails twice were counted twice.",
                     "What would you get for twenty starts, and can that be?",
                     misconception="chances_added"),
                slip("every_time", lambda v, own: 100 * _chance(own) ** v["trial_tries"],
                     "The chance that it fails every time.", "At least once was read as always.",
                     "What must happen for it not to fail even once?",
                     misconception="at_least_once_is_always"),
                slip("never", lambda v, own: 100 * (1 - _chance(own)) ** v["trial_tries"],
                     "The chance that it never fails.", "The last step was left out.",
                     "Never and at least once make up the whole.",
                     misconception="at_least_once_is_always", share=0.5),
            ),
            Feedback("It does not follow from your chance.", "Another number of starts may have been used.",
                     "Work out the chance that all starts go well, then what is left."),
            0, any_unit=True, share=2,
        ),
        Number(
            "needed", "clean starts needed", "", _needed,
            tolerance(1, reason="half a step of one start: whole starts only"), 0, 100_000,
            (
                slip("rounded_down", lambda v, own: _needed(v, own) - 1,
                     "One too few.", "It was rounded down.",
                     "With one start fewer: is the chance that it would have shown still large enough?",
                     misconception="it_started_so_fixed", share=0.5),
                slip("one_over_chance", lambda v, own: float(math.ceil(1 / _chance(own))),
                     "One failure on average in that many starts.", "An average was taken for a certainty.",
                     "How often do that many starts all go well with the fault still there?",
                     misconception="chances_added"),
                slip("added_up", lambda v, own: float(math.ceil(_confidence(v) / _chance(own))),
                     "Starts until the chances add up.", "The chances were added.",
                     "What is the chance that all of these starts go well?", misconception="chances_added"),
                slip("one_is_enough", lambda v, own: 1.0,
                     "One start.", "A start was taken for a proof.",
                     "How often did it start before the repair?", misconception="it_started_so_fixed"),
            ),
            Feedback("It does not follow from your chance.", "Chance and certainty may be mixed up.",
                     "Multiply the chance of a clean start by itself until it is small enough. How often?"),
            0, share=2,
        ),
    ),
)  # fmt: skip


def _show_still(v: Variant) -> Page:
    rows = (
        ("before the clean starts: chance that the fault is still there", f"{v['doubt_percent']} %"),
        ("clean starts in the bad condition", str(v["doubt_clean"])),
    )
    return Page(
        "",
        (
            Table("You reseated a connector, and are not sure", ("what", "given"), rows),
            Text("Chance that a start fails with the fault there: yours of the task before. Without the "
            "fault no start "
                 "fails. What is the chance now that the fault is still there?"),
        ),
    )  # fmt: skip


def _survived(v: Variant, own: Any) -> float:
    """Chance of so many clean starts with the fault there."""
    return float((1 - _chance(own)) ** v["doubt_clean"])


def _still(v: Variant, own: Any) -> float:
    doubt = v["doubt_percent"] / 100
    shown = doubt * _survived(v, own)
    return 100 * float(shown / (shown + 1 - doubt))


def _still_close(v: Variant) -> Tolerance:
    own = {"clean.chance": 100 * _true_chance(v)}
    low, high = _still(v, {"clean.chance": own["clean.chance"] + 0.5}), _still(v, own)
    return tolerance(1, (2 * abs(high - low), 0.5), reason="half a step of 1 %, and a chance written to 1 %")


_STILL = Number(
    "still", "chance that the fault is still there", "%", _still, _still_close, 0, 10_000,
    (
        slip("survival_for_chance", lambda v, own: 100 * _survived(v, own),
             "The chance of so many clean starts with the fault there.",
             "How often it happens was taken for how likely the fault is.",
             "The clean starts can also come from a machine without the fault: where is that counted?",
             misconception="likelihood_as_chance"),
        slip("not_moved", lambda v, own: float(v["doubt_percent"]),
             "The doubt did not move.", "The clean starts have no say.",
             "Is it as likely to start cleanly with the fault as without?",
             misconception="common_is_likely_here"),
        slip("not_shared_out", lambda v, own: v["doubt_percent"] * _survived(v, own),
             "Fault there and all starts clean, out of all cases.",
             "The cases that are out were still counted.",
             "Which cases are left once the starts were clean, and what part of these has the fault?",
             misconception="share_of_the_wrong_whole", share=0.5),
        slip("gone_for_there", lambda v, own: 100 - _still(v, own),
             "The chance that it is gone.", "Gone and still there were mixed up.",
             "Which of the two is asked?", misconception="wrong_column", share=0.5),
    ),
    Feedback("It does not follow from your chance.", "Counting helps: lay out 100 such machines.",
             "How many have the fault and start cleanly, how many have none, and what share is that?"),
    0, any_unit=True,
)  # fmt: skip

STILL = Task(
    id="still",
    title="What is left of the doubt?",
    outcome="say how far clean starts have taken a doubt away",
    kind="value",
    points=3,
    competency="isolation logic",
    show=_show_still,
    items=(_STILL,),
)
_ALONE = Task(
    id="clean",
    title="Both",
    outcome="for the draw: chance and doubt together",
    kind="value",
    points=1,
    competency="isolation logic",
    show=_show_still,
    items=(CLEAN.items[0], _STILL),
)
