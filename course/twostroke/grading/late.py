"""What late work costs, as a plug-in of nbgrader, so that its own commands take off the same."""

from __future__ import annotations

import logging
import math
from typing import Any

from nbgrader.api import SubmittedAssignment, SubmittedNotebook
from nbgrader.plugins import LateSubmissionPlugin
from nbgrader.preprocessors import AssignLatePenalties
from traitlets import Float, Integer
from traitlets.config import Config

from twostroke.grading.policy import Policy

_DAY = 86_400.0


class LatePolicy(LateSubmissionPlugin):  # type: ignore[misc]
    """A share of the points earned for each day begun.

    Set by `settings`; see `twostroke.grading.policy.Policy` for the meaning of its values.
    """

    percent_a_day = Float(0.0, help="Percent of the points earned, for each day begun").tag(config=True)
    most_days = Integer(-1, help="Days after which nothing is earned; -1 for never").tag(config=True)
    grace_minutes = Float(0.0, help="Minutes that cost nothing").tag(config=True)

    def late_submission_penalty(
        self, student_id: str, score: float, total_seconds_late: float
    ) -> float | None:
        """Return the points to take off, or None."""
        late = total_seconds_late - 60.0 * self.grace_minutes
        if late <= 0:
            return None
        days = math.ceil(late / _DAY)
        if 0 <= self.most_days < days:
            return score
        taken = round(score * min(1.0, days * self.percent_a_day / 100.0), 4)
        return taken or None


def settings(policy: Policy) -> Config:
    """Return the configuration under which nbgrader follows a policy.

    Parameters
    ----------
    policy : Policy

    Returns
    -------
    Config
    """
    config = Config()
    config.AssignLatePenalties.plugin_class = f"{__name__}.LatePolicy"
    config.LatePolicy.percent_a_day = policy.late_percent_a_day
    config.LatePolicy.most_days = -1 if policy.late_days is None else policy.late_days
    config.LatePolicy.grace_minutes = policy.grace_minutes
    return config


class Penalties:
    """Takes points off for late work in an open gradebook, by nbgrader's own step and a policy.

    Parameters
    ----------
    policy : Policy
    log : Logger
    """

    def __init__(self, policy: Policy, log: logging.Logger):
        self._step = AssignLatePenalties(config=settings(policy), log=log)
        self._step.init_plugin()

    def set(self, session: Any, submission: SubmittedAssignment, notebook: SubmittedNotebook) -> None:
        """Work the penalty of one submission out again from the points as they stand now."""
        notebook.late_submission_penalty = None
        if submission.total_seconds_late <= 0:
            return
        session.flush()
        session.refresh(notebook)
        score = notebook.score
        penalty = self._step.plugin_inst.late_submission_penalty(
            submission.student.id, score, submission.total_seconds_late
        )
        if penalty is not None:
            notebook.late_submission_penalty = self._step._check_late_penalty(notebook, penalty)
