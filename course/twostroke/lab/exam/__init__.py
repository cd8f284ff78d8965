"""The examination of lab 14: the fault is drawn with a secret, a service gives readings, a log is kept.

The instructor runs the service (`service`) over a folder (`place`) with the cohort's secret; a learner's
notebook holds a ticket and talks to it (`desk`). What was done is kept in a signed, chained log (`log`),
and marked from there (`marking`). Nothing here gives a fault away without the secret.
"""

from __future__ import annotations

from twostroke.lab.exam.marking import using
from twostroke.lab.exam.place import ExamError, Place

__all__ = ["ExamError", "Place", "using"]
