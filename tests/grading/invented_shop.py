"""A small invented shop, graded for real: three people, two labs, one of them with a written answer."""

from __future__ import annotations

import shutil
from pathlib import Path

from twostroke import lab as labs
from twostroke.grading import invent, skeleton
from twostroke.grading.files import write_text
from twostroke.grading.gradebook import open_book
from twostroke.grading.place import Course
from twostroke.grading.run import grade

PEOPLE = (
    ("learner-01", "Ann Demo", "s1001"),
    ("learner-02", "Bo Demo", "Démo, Bø"),
    ("learner-03", "Cy Demo", "s1003"),
)
WRITTEN = "explain"
WHEN = "2026-02-03 10:00:00.000000 UTC"  # as a platform says it, for lab 04


def make(folder: Path) -> Course:
    """Ann has all right in both labs and her text marked; Bo hands in lab 01, Cy half of it."""
    course = Course.at(folder / "home")
    lines = ['course = "Invented demo shop"  # with Ann Demo and others\n']
    for identifier, name, also in PEOPLE:
        lines += [f'\n[[learner]]\nid = "{identifier}"\nname = "{name}"   # by hand\nalso = ["{also}"]\n']
    write_text(course.home / "class.toml", "".join(lines))
    _hand_in(course, folder, "01", {who: 99 for who, _, _ in PEOPLE} | {"learner-03": 4})
    _hand_in(course, folder, "04", {"learner-01": 99})
    by_hand(course, "lab04", "learner-01", 3.0, "Well told, Ann Demo.")
    return course


def _hand_in(course: Course, folder: Path, lab: str, tasks: dict[str, int]) -> None:
    trusted = skeleton.load(course.source_notebook(f"lab{lab}"))
    for learner, count in tasks.items():
        answers = dict(list(labs.model_answers(lab, learner).items())[:count])
        notebook = invent.fill(trusted, learner, answers)
        invent.put(folder / "inbox" / lab, learner, trusted.lab, invent.as_bytes(notebook))
        if lab == "04":
            write_text(folder / "inbox" / lab / learner / trusted.lab / "timestamp.txt", WHEN)
    grade(lab, folder / "inbox" / lab, course=course, trust=True, workers=2)


def by_hand(course: Course, lab: str, learner: str, points: float, comment: str = "") -> None:
    """Points of the written answer, as an instructor gives them in nbgrader's own form."""
    book = open_book(course)
    try:
        (notebook,) = book.find_submission(lab, learner).notebooks
        for row in notebook.grades:
            if row.needs_manual_grade:
                row.manual_score, row.needs_manual_grade = points, False
        for row in notebook.comments:
            if row.name == WRITTEN:
                row.manual_comment = comment
        book.db.commit()
    finally:
        book.close()


def copy(course: Course, folder: Path) -> Course:
    """The same shop again, to be changed by one test."""
    shutil.copytree(course.home, folder / "home", symlinks=True)
    return Course.at(folder / "home")
