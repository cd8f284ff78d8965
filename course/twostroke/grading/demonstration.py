"""The first thing an instructor tries: an invented class, graded for real, with its report."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path

from rich.console import Console

from twostroke import resources
from twostroke.grading import screen, skeleton
from twostroke.grading.confine import Limits
from twostroke.grading.files import write_text
from twostroke.grading.invented_class import InventedClass
from twostroke.grading.place import Course, lab_name
from twostroke.grading.reporting import Report, report
from twostroke.grading.run import Summary, grade
from twostroke.grading.states import GradingError

NOTE = "Invented class: names, answers and faults were made up to show what grading does."
_LIMITS = Limits(cell_seconds=4.0, total_seconds=60.0)


@dataclass(frozen=True)
class Demonstration:
    """What the demonstration made.

    Parameters
    ----------
    folder : Path
        Everything lies here.
    summary : Summary
        Of the run.
    report : Report
        Of the class.
    """

    folder: Path
    summary: Summary
    report: Report


def demo(
    folder: str | Path | None = None,
    *,
    lab: str | int = "01",
    trust: bool = False,
    workers: int | None = None,
    console: Console | None = None,
) -> Demonstration:
    """Make an invented class, grade it for real, print the states and write the class report.

    Parameters
    ----------
    folder : path, optional
        Empty or new folder for all of it; without it, a new temporary folder that is kept.
    lab : str or int, optional
        Which lab.
    trust, workers
        As for `grade`.
    console : Console, optional
        Where to print; without it, the usual output.

    Returns
    -------
    Demonstration

    Raises
    ------
    GradingError
        When the folder already holds something, or the machine cannot wall submissions off and `trust` is
        False.
    """
    console = console or Console()
    name = lab_name(lab)
    home = Path(folder).expanduser().resolve() if folder else Path(tempfile.mkdtemp(prefix="twostroke-demo-"))
    if home.exists() and (not home.is_dir() or any(home.iterdir())):
        raise GradingError(f"{home}: holds something already; name an empty or new folder")
    course = Course.at(home / "autograde", resources.clone() / "source")
    trusted = skeleton.load(course.source_notebook(name))
    learners = InventedClass(trusted, home / "handed-in").make()
    lines = ['course = "Invented demo class"']
    lines += [f'\n[[learner]]\nid = "{learner}"' for learner in learners]
    write_text(course.home / "class.toml", "\n".join(lines) + "\n")
    with screen.live(console, name) as progress:
        summary = grade(
            name,
            home / "handed-in",
            course=course,
            trust=trust,
            limits=_LIMITS,
            workers=workers,
            progress=progress,
        )
    made = report(name, course=course, note=NOTE)
    console.print(screen.states(made.standings, f"{name}, invented class of {len(learners)}"))
    for line in screen.closing(summary, made.standings):
        console.print(line, highlight=False, soft_wrap=True)
    console.print(f"class report: {made.html}", highlight=False, soft_wrap=True)
    console.print(f"marks as a table: {made.table}", highlight=False, soft_wrap=True)
    return Demonstration(home, summary, made)
