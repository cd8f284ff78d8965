"""Graded labs: a variant for each learner, tasks in steps, form before value, slips that are named.

A notebook needs four calls, ``work = lab.open_lab("01", learner="…")``, ``work.show()``, ``work.answer(…)``
and ``work.check(…)``; ``work.compare(…)`` gives value and slip feedback in the practice labs,
``work.mark(…)`` the points.
Graders call `mark_answers`, which runs no learner code.
"""

from twostroke.lab.catalogue import lab_ids, load, variant
from twostroke.lab.draw import LabError, Variant
from twostroke.lab.feedback import TaskMark
from twostroke.lab.marking import mark_answers, model_answers, slip_answers
from twostroke.lab.rules import check_lab, wrong_answers
from twostroke.lab.score import points
from twostroke.lab.work import Work, open_lab

__all__ = [
    "LabError",
    "TaskMark",
    "Variant",
    "Work",
    "check_lab",
    "lab_ids",
    "load",
    "mark_answers",
    "model_answers",
    "open_lab",
    "points",
    "slip_answers",
    "variant",
    "wrong_answers",
]
