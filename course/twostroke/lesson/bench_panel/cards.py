"""The job card of a job at the bench: written beside the job as PDF, HTML and JSON."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

from twostroke import jobcard
from twostroke.lesson.bench_panel.job import Job, OwnJob
from twostroke.lesson.errors import LessonError

FOLDER = "cards"
ENDINGS = ("pdf", "html", "json")


def make(job: Job, **options: Any) -> jobcard.JobCard:
    """The card of a job as it stands, checked.

    Parameters
    ----------
    job : Job
    **options
        ``shop``, ``value`` and ``date`` of :func:`twostroke.jobcard.job_card`.

    Raises
    ------
    JobCardError
        The card would claim what the readings do not show; the message says what is missing.
    """
    machine = job.title if isinstance(job, OwnJob) else None
    return jobcard.check(jobcard.job_card(job.session, machine=machine, **options), job.session.table)


def write(job: Job, shop: jobcard.Shop | None = None) -> dict[str, Path]:
    """Write the card of a job as it stands.

    Parameters
    ----------
    job : Job
        One that is kept in a folder.
    shop : Shop, optional
        The shop's figures; the course's invented shop when left out.

    Returns
    -------
    dict
        Ending to file.

    Raises
    ------
    LessonError
        The job is kept in memory only.
    JobCardError
        The card would claim what the readings do not show; the message says what is missing.
    """
    if job.file is None:
        raise LessonError("this job is kept in memory only: open it with a folder to get a card")
    card = make(job, shop=shop, date=date.today().isoformat())
    folder = job.file.parent / FOLDER
    try:
        folder.mkdir(parents=True, exist_ok=True)
        files = {ending: folder / f"{job.file.stem}.{ending}" for ending in ENDINGS}
        page = jobcard.sheet(card)
        page.pdf(files["pdf"])
        page.html(files["html"])
        files["json"].write_text(card.model_dump_json(indent=1), encoding="utf-8")
    except OSError as error:
        raise LessonError(
            f"the card cannot be written in {folder}: {error.strerror or error}; free some room"
        ) from None
    return files
