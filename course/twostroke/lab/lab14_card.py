"""Lab 14: the job card of one's own job, its figures marked against the log of the examination."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.exam.marking import Facts, facts, in_use
from twostroke.lab.feedback import OTHER, Feedback, Form, Judged
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.sifted import sift, told_apart
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import tolerance

_NO_JOB = Feedback(
    "There is no job of yours on the log that this card could belong to.",
    "The machine was not handed back.",
    "Hand the machine back first; then its minutes and parts stand.",
)


@dataclass(frozen=True)
class FromJob(Number):
    """A value that follows from the learner's own job; without a closed job it earns nothing."""

    def judge(self, form: Form, variant: Variant, values: Any) -> Judged:
        """As for any value, once there is a job."""
        if in_use() and facts(variant) is None:
            return Judged(0.0, OTHER, _NO_JOB)
        return super().judge(form, variant, values)


def draw(d: Draw) -> dict[str, Any]:
    """Draw the shop's rate, and a job that stands in where there is no examination."""

    def make(number: int) -> dict[str, Any]:
        return {
            "job_rate_per_hour": d.integer(f"job rate {number}", 36, 84, 6),
            "job_stand_in": [
                d.integer(f"job minutes {number}", 66, 118),
                d.integer(f"job finding {number}", 18, 40),
                d.integer(f"job proving {number}", 6, 16),
                d.integer(f"job parts {number}", 9, 70),
            ],
        }

    return sift(make, lambda given: given["job_stand_in"][0] % 60 > 4 and told_apart(_FIGURES, given))


def _job(v: Variant) -> Facts:
    found = facts(v) if v.learner else None
    return found or Facts(*(float(each) for each in v["job_stand_in"]))


def _cost(v: Variant, minutes: float) -> float:
    return minutes / 60 * float(v["job_rate_per_hour"]) + _job(v).parts


def _clock(minutes: float) -> float:
    return minutes // 60 + minutes % 60 / 100


_MINUTES = FromJob(
    "minutes", "minutes in all", "min", lambda v, own: _job(v).minutes,
    tolerance(1, reason="half a step of 1 min: times are written to the minute"), 0, 10_000,
    (
        slip("proving_left_out", lambda v, own: _job(v).minutes - _job(v).proving,
             "The verify run is missing.", "The proof was not counted as work.",
             "Is the job done before it is proven?", misconception="finding_is_free", share=0.5),
        slip("finding_left_out", lambda v, own: _job(v).minutes - _job(v).finding,
             "Only mending and proving.", "Finding was given away.",
             "Which minutes did the job take from your day?", misconception="finding_is_free", share=0.5),
        slip("clock_as_decimal", lambda v, own: _job(v).minutes + 40 * (_job(v).minutes // 60) or None,
             "Each full hour counted as a hundred minutes.", "The clock was read as a decimal.",
             "How many minutes has an hour?"),
    ),
    Feedback("It is not what the clock said at hand-back.", "A step may be left out.",
             "What stood in front of the last line that the machine printed?"),
    0, any_unit=True,
)  # fmt: skip
_COST = FromJob(
    "cost", "labour and parts", "", lambda v, own: _cost(v, own["card.minutes"]),
    tolerance(0.1, reason="half a step of 0.10: rounded once, at the end"), 0, 1_000_000,
    (
        slip("labour_only", lambda v, own: _cost(v,
             own["card.minutes"]) - _job(v).parts if _job(v).parts else None,
             "Labour without parts.", "The parts were left out.", "What was taken from the shelf?",
             misconception="finding_is_free", share=0.5),
        slip("minutes_for_hours", lambda v, own: _cost(v, 60 * own["card.minutes"]),
             "A bill for days.", "Minutes were multiplied by a rate for an hour.",
             "How many hours are these minutes?", misconception="seconds_as_minutes"),
        slip("clock_as_decimal", lambda v, own: _cost(v, 60 * _clock(own["card.minutes"])),
             "Hours and minutes charged as a decimal.", "1:20 h was taken for 1.20 h.",
             "What part of an hour are twenty minutes?"),
    ),
    Feedback("It does not follow from your minutes, the rate and your parts.", "A part may be missing.",
             "Minutes into hours, times the rate, then add the parts that stayed in."),
    2, share=2,
)  # fmt: skip

_LINES = {
    "words": ("the complaint in the owner's words, and in which state it shows", "opinion_is_evidence"),
    "before": ("the readings that led to the fault, each with unit and condition", "bare_number_is_enough"),
    "fault": ("the fault, and how sure you were", "sure_is_better"),
    "parts": ("parts and minutes", "finding_is_free"),
    "proof": ("the verify run, with the state in which it was made", "it_started_so_fixed"),
    "watch": ("what the owner should watch", "owner_need_not_know"),
}
_NEEDLESS = {
    "guess": ("what will probably fail next, without a reading", "first_word_decides",
              "A guess is put on the card.", "It was taken for service.", "Which reading says so?"),
    "blame": ("who did it wrong before", "opinion_is_evidence",
              "Blame is put on the card.", "It was taken for evidence.", "What would the next mechanic do "
                                                                         "with it?"),
    "ohms": ("ohms of the module, as the proof that it is good", "resistance_in_band_proves",
             "Ohms are called a proof.", "A static reading was trusted.", "Do ohms show what it does when "
                                                                          "it is hot?"),
}  # fmt: skip


def _options() -> tuple[Option, ...]:
    found = [
        Option(name, text, True, misconception, Feedback(
            "Something is left out that the next reader needs.", "It was taken for known.",
            "Could somebody repeat and trust the job from your card?"))
        for name, (text, misconception) in _LINES.items()
    ]  # fmt: skip
    found += [
        Option(name, text, False, misconception, Feedback(*parts))
        for name, (text, misconception, *parts) in _NEEDLESS.items()
    ]
    return tuple(found)


_HOLDS = Pick("holds", "all that belongs on this job card", _options(), several=True, share=2)


def _show(v: Variant) -> Page:
    rows = (
        ("labour", f"{v['job_rate_per_hour']} an hour; all minutes on the clock are charged"),
        ("parts", "as the bench charged them; those that went back in the drawer are not charged"),
    )
    return Page(
        "",
        (
            Text("The job card of the machine that you handed back in the task above."),
            Table("Prices of the shop (invented)", ("what", "given"), rows),
            Text(
                "Write the money as a plain number with two decimals. Then: what belongs on this card? "
                "All letters."
            ),
            _HOLDS.options_block(v),
        ),
    )


TASK = Task(
    id="card",
    title="Your job card",
    outcome="account for a job: minutes, money, and what the next reader needs",
    kind="table",
    points=5,
    competency="job card and estimate",
    show=_show,
    items=(_MINUTES, _COST, _HOLDS),
)
_FIGURES = Task(
    id="card",
    title="Figures",
    outcome="for the draw: the figures alone",
    kind="value",
    points=1,
    competency="job card and estimate",
    show=_show,
    items=(_MINUTES, _COST),
)
