"""Lab 12: an estimate, and whether to repair or replace."""

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

RULE = 50
"""Per cent of the price of a like machine from which replacing is advised (common practice, no source)."""


def draw(d: Draw) -> dict[str, Any]:
    """Draw times, prices and the price of a like machine such that every slip can be told apart."""
    side = d.pick("advice side", ("repair", "replace"))

    def make(number: int) -> dict[str, Any]:
        find, mend, prove = (d.integer(f"{name} {number}", *band) for name, band in _MINUTES.items())
        given = {
            "minutes": [find, mend, prove],
            "rate_per_hour": d.integer(f"rate {number}", 36, 72, 2),
            "parts": [d.integer(f"part {number}", 35, 75), d.integer(f"small part {number}", 3, 12)],
            "tax_percent": d.pick(f"tax {number}", (5, 8, 10, 15, 19, 20)),
        }
        total = _total(Variant("", "", 1, given))
        share = (
            d.integer(f"share {number}", 22, 40) if side == "repair" else d.integer(f"share {number}", 62, 95)
        )
        return given | {"like_machine": 5 * round(100 * total / share / 5), "advice": side}

    def good(given: dict[str, Any]) -> bool:
        total = sum(given["minutes"])
        return total > 65 and total % 60 > 5 and told_apart(ESTIMATE, given) and told_apart(_BOTH, given)

    return sift(make, good)


_MINUTES = {"find": (12, 40), "mend": (25, 70), "prove": (8, 30)}


def _hours(v: Variant) -> float:
    return sum(v["minutes"]) / 60


def _clock(v: Variant) -> float:
    """Hours and minutes read as a decimal."""
    return float(sum(v["minutes"]) // 60 + sum(v["minutes"]) % 60 / 100)


def _labour(v: Variant) -> float:
    return float(_hours(v) * v["rate_per_hour"])


def _parts(v: Variant) -> float:
    return float(sum(v["parts"]))


def _taxed(v: Variant, money: float) -> float:
    return money * (1 + v["tax_percent"] / 100)


def _total(v: Variant) -> float:
    return _taxed(v, _labour(v) + _parts(v))


def _show_estimate(v: Variant) -> Page:
    find, mend, prove = v["minutes"]
    rows = (
        ("finding the fault", f"{find} min"),
        ("mending it", f"{mend} min"),
        ("proving it", f"{prove} min"),
        ("rate of the shop", f"{v['rate_per_hour']} an hour"),
        ("module", f"{v['parts'][0]}"),
        ("screws and clip", f"{v['parts'][1]}"),
        ("tax on labour and parts", f"{v['tax_percent']} %"),
    )
    return Page(
        "",
        (
            Table("Times and prices (invented)", ("what", "given"), rows),
            Text("All times are charged. Write money as a plain number with two decimals."),
        ),
    )


def _cents(v: Variant) -> Tolerance:
    return tolerance(0.1, reason="half a step of 0.10: cents are rounded once, at the end")


ESTIMATE = Task(
    id="estimate",
    title="The estimate",
    outcome="work out an estimate from times, rate, parts and tax",
    kind="value",
    points=5,
    competency="job card and estimate",
    show=_show_estimate,
    items=(
        Number(
            "labour", "labour before tax", "", lambda v, own: _labour(v), _cents, 0, 100_000,
            (
                slip("clock_as_decimal",
                     lambda v, own: _clock(v) * v["rate_per_hour"],
                     "Hours and minutes charged as a decimal.", "1:20 h was taken for 1.20 h.",
                     "What part of an hour are twenty minutes?"),
                slip("mending_only", lambda v, own: v["minutes"][1] / 60 * v["rate_per_hour"],
                     "The mending alone.", "Finding and proving were given away.",
                     "Which minutes did the job take from your day?", misconception="finding_is_free"),
                slip("proving_left_out", lambda v, own: sum(v["minutes"][:2]) / 60 * v["rate_per_hour"],
                     "Finding and mending.", "Proving was left out.", "Is the job done before it is proven?",
                     misconception="finding_is_free", share=0.5),
                slip("minutes_for_hours", lambda v, own: float(sum(v["minutes"]) * v["rate_per_hour"]),
                     "A bill for days.", "Minutes were multiplied by a rate for an hour.",
                     "How many hours are these minutes?", misconception="seconds_as_minutes"),
            ),
            Feedback("It does not follow from times and rate.", "A time may be missing.",
                     "Add the minutes, turn them into hours, then times the rate."),
            2,
        ),
        Number(
            "net", "labour and parts before tax", "", lambda v, own: own["estimate.labour"] + _parts(v),
            _cents,
            0, 100_000,
            (
                slip("module_only", lambda v, own: own["estimate.labour"] + v["parts"][0],
                     "The small parts are missing.", "Only the large part was charged.",
                     "What else did you take from the shelf?", misconception="finding_is_free", share=0.5),
                slip("parts_only", lambda v, own: _parts(v),
                     "Parts without labour.", "The labour was left out.",
                     "Which two sums make the net amount?",
                     misconception="finding_is_free"),
                slip("labour_only", lambda v, own: own["estimate.labour"],
                     "Labour without parts.", "The parts were left out.",
                     "Which two sums make the net amount?",
                     misconception="finding_is_free"),
            ),
            Feedback("It does not follow from your labour.", "A part may be missing or counted twice.",
                     "Your labour, the module, the small parts."),
            2,
        ),
        Number(
            "total", "total with tax", "", lambda v, own: _taxed(v, own["estimate.net"]), _cents, 0, 100_000,
            (
                slip("tax_on_parts_only", lambda v,
                own: own["estimate.net"] + _parts(v) * v["tax_percent"] / 100,
                     "Tax on the parts alone.", "Labour was left untaxed.",
                     "On what does the sheet put the tax?",
                     misconception="share_of_the_wrong_whole"),
                slip("tax_as_money", lambda v, own: own["estimate.net"] + v["tax_percent"],
                     "The per cent were added as money.", "Per cent of what was left out.",
                     "What is one per cent of the net amount?", misconception="label_swapped"),
                slip("tax_left_out", lambda v, own: own["estimate.net"],
                     "The net amount.", "Tax was left out.", "What does the owner pay in the end?",
                     misconception="finding_is_free", share=0.5),
                slip("tax_taken_off", lambda v, own: own["estimate.net"] * (1 - v["tax_percent"] / 100),
                     "Less than the net amount.", "Tax was taken off.", "Does tax make it dearer or cheaper?",
                     misconception="factor_turned_round"),
            ),
            Feedback("It does not follow from your net amount.", "The tax may be on another sum.",
                     "Net amount, and its tax on top."),
            2,
        ),
    ),
)  # fmt: skip


def _show_advice(v: Variant) -> Page:
    return Page(
        "",
        (
            Text(f"A like machine costs {v['like_machine']} with tax. The shop advises replacing from "
            f"{RULE} % of that "
                 "on (common practice, no source); the owner decides."),
            Text("What share is your total, and what do you tell the owner?"),
            ADVISE.options_block(v),
        ),
    )  # fmt: skip


def _options(v: Variant) -> tuple[Option, ...]:
    repair = v["advice"] == "repair"
    return (
        Option("repair", "Repair is the better buy; here are both figures, you decide.", repair,
               "share_of_the_wrong_whole", Feedback(
            "Repair is advised.", "The share was passed over.",
            "Is your total below or above the shop's line?")),
        Option("replace", "A like machine is the better buy; here are both figures, you decide.", not repair,
               "parts_first", Feedback(
            "A new machine is advised.", "The share was passed over.",
            "Is your total below or above the shop's line?")),
        Option("begin", "Begin at once; the owner will hear the price when it is done.", False,
               "owner_need_not_know", Feedback(
            "The owner is not asked.", "A decision that is the owner's was taken.",
            "Whose money is it, and what if the answer is no?")),
        Option("cheaper", "Charge less than it took, so that the share looks well.", False, "finding_is_free",
               Feedback("The figure is bent to fit.", "Honest work was priced by its look.",
                        "Who pays the difference, and what do you do next time?")),
    )  # fmt: skip


ADVISE = Pick("advice", "what you tell the owner", _options)

_SHARE = Number(
    "share", "total as a share of a like machine", "%",
    lambda v, own: 100 * own["estimate.total"] / v["like_machine"],
    tolerance(1, reason="half a step of 1 %"), 0, 100_000,
    (
        slip("turned_round", lambda v, own: 100 * v["like_machine"] / own["estimate.total"],
             "The machine as a share of the estimate.", "The division was turned round.",
             "Per cent of what: of the machine or of the estimate?", misconception="factor_turned_round"),
        slip("parts_only", lambda v, own: 100 * _parts(v) / v["like_machine"],
             "The parts alone as a share.", "Labour and tax were left out.",
             "What does the owner pay in all?",
             misconception="finding_is_free"),
        slip("saved_for_spent", lambda v, own: 100 * (1 - own["estimate.total"] / v["like_machine"]),
             "What is saved, not what is spent.", "The rest was given.",
             "Which share does the shop's line mean?",
             misconception="share_of_the_wrong_whole", share=0.5),
    ),
    Feedback("It does not follow from your total.", "Another sum may have been used.",
             "Your total over the price of a like machine."),
    0, any_unit=True,
)  # fmt: skip

ADVICE = Task(
    id="advice",
    title="Repair or replace?",
    outcome="advise an owner honestly between repair and another machine",
    kind="value",
    points=3,
    competency="job card and estimate",
    show=_show_advice,
    items=(_SHARE, ADVISE),
)
_BOTH = Task(
    id="estimate",
    title="Both",
    outcome="for the draw: estimate and share together",
    kind="value",
    points=1,
    competency="job card and estimate",
    show=_show_advice,
    items=(*ESTIMATE.items, _SHARE),
)
