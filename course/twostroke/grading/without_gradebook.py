"""nbgrader's release of labs without a gradebook: for building release/, which knows of no class."""

from __future__ import annotations

import logging
from pathlib import Path

from nbgrader.apps.api import NbGraderAPI

from twostroke.grading.place import Course
from twostroke.grading.states import GradingError


def plain_release(course: Course) -> dict[str, Path]:
    """Make the learners' version of every lab of a course, and touch no gradebook.

    Parameters
    ----------
    course : Course
        Its ``source`` is read and its ``release`` written.

    Returns
    -------
    dict
        Lab name -> released notebook.

    Raises
    ------
    GradingError
        When nbgrader refuses a lab.
    """
    config = course.config()
    config.GenerateAssignment.no_database = True
    config.SaveCells.enabled = False
    api = NbGraderAPI(config=config)
    api.log.setLevel(logging.CRITICAL)
    course.home.mkdir(parents=True, exist_ok=True)
    made = {}
    for lab in course.labs():
        answer = api.generate_assignment(lab, force=True, create=True)
        if not answer["success"]:
            said = str(answer.get("error") or answer.get("log") or "no reason given").strip()
            raise GradingError(f"{lab}: nbgrader cannot make the release: {said.splitlines()[-1]}")
        made[lab] = course.release / lab / f"{lab}.ipynb"
    return made
