"""The examination's job, marked from the log of its service instead of from what the notebook says."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from twostroke.errors import TwoStrokeError
from twostroke.grading import marker
from twostroke.grading.place import Course
from twostroke.grading.routes import RoutePair, legs

FOLDER = "examination"


def place_of(course: Course) -> Path:
    """Return the folder of the examination of a class: secret and logs, beside its gradebook."""
    return course.home / FOLDER


def mark_from_log(course: Course, lab: str, learner: str, result: dict[str, Any]) -> None:
    """Mark an examination once more, with the service's log at hand; other labs stay as they are.

    Parameters
    ----------
    course : Course
    lab : str
        Such as "lab14".
    learner : str
        Trusted identifier.
    result : dict
        Of its run; ``marking`` is made anew.

    Notes
    -----
    The recorded answers are plain data and no learner's code runs. Whose log it is follows from the place
    of the submission, never from the name that is typed inside.
    """
    from twostroke import lab as labs
    from twostroke.lab import exam

    number = lab.removeprefix("lab")
    if "engine" in result or number not in labs.lab_ids() or labs.load(number).practice:
        return
    known = course.classlist.find(learner)
    also = sorted({known.id, known.name, *known.also} - {""}) if known else []
    request = {"learner": learner, "also": also, "lines": result["answers"]}
    folder = place_of(course)
    if not folder.is_dir():
        return
    with exam.using(folder):
        marking = result["marking"] = marker.mark(lab, request)
        try:
            pair = exam.marking.closed_job(labs.variant(number, learner, marking["attempt"]))
        except TwoStrokeError:  # no attempt that could be: nothing was marked either
            return
    if pair is not None:
        both = RoutePair(mine=legs(pair[0]), best=legs(pair[1]))
        jobs = [task.id for task in labs.load(number).tasks if task.by_service]
        marking["routes"] = dict.fromkeys(jobs, both.model_dump())
