"""Where a class keeps its things: source, release, the autograde folder, the gradebook."""

from __future__ import annotations

import os
import re
import shlex
import sys
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from traitlets.config import Config

from twostroke import resources
from twostroke.grading.address import read_address, shown
from twostroke.grading.classlist import ClassList, read_class
from twostroke.grading.states import GradingError

COURSE_ID = "default_course"
"""The course under which nbgrader's own steps look for grades when they are told nothing else."""

CODE_STUB = {"python": "# (write between the quotes above)"}
TEXT_STUB = "Your answer here."
"""What stands in a released cell in place of the solution."""


def lab_name(lab: str | int) -> str:
    """Return the folder name of a lab from "1", "01", "lab01" or "Lab 1".

    Raises
    ------
    GradingError
        When it is no lab number.

    Examples
    --------
    >>> lab_name("1"), lab_name("lab01")
    ('lab01', 'lab01')
    """
    match = re.fullmatch(r"\s*(?:lab)?[\s_-]*(\d{1,2})\s*", str(lab), re.IGNORECASE)
    if match is None:
        raise GradingError(f"lab {str(lab)[:40]!r}: write its number, for example 01 or lab01")
    return f"lab{int(match.group(1)):02d}"


@dataclass(frozen=True)
class Course:
    """The folders of one class.

    Parameters
    ----------
    home : Path
        The autograde folder: submitted, autograded, feedback, reports, journal, backups, gradebook.
    source, release : Path
        Instructor's and learners' notebooks, one folder a lab.
    gradebook : str
        Address of the gradebook where it is not the one of the class list.

    Examples
    --------
    >>> Course.at("/srv/class-a").home.name
    'class-a'
    """

    home: Path
    source: Path
    release: Path
    gradebook: str = ""

    @classmethod
    def at(
        cls,
        home: str | os.PathLike[str] | None = None,
        source: str | os.PathLike[str] | None = None,
        release: str | os.PathLike[str] | None = None,
        *,
        gradebook: str | None = None,
    ) -> Course:
        """Return the course of this repository, or one whose results go to another folder.

        A course installed from a wheel has no such folders: there all of them lie in `home`, which must be
        named.
        """
        top = resources.repository() or home
        if top is None:
            raise GradingError(
                "this course was installed from a wheel and has no folder autograde: name a folder for the "
                "class, for example --home ~/class-a"
            )

        def place(given: str | os.PathLike[str] | None, name: str) -> Path:
            return Path(given or Path(top) / name).expanduser().resolve()

        folders = place(home, "autograde"), place(source, "source"), place(release, "release")
        return cls(*folders, gradebook or "")

    @cached_property
    def classlist(self) -> ClassList:
        """The class list, read once."""
        return read_class(self.home / "class.toml")

    def command(self, word: str, lab: str, *more: str) -> str:
        """Return the command line that does something with a lab of this class.

        Examples
        --------
        >>> Course.at().command("report", "lab04")
        'twostroke report 04'
        >>> Course.at("/srv/class a").command("report", "lab04")
        "twostroke report 04 --home '/srv/class a'"
        """
        words = ["twostroke", word, lab.removeprefix("lab"), *more]
        top = resources.repository()
        if top is None or self.home != top / "autograde":
            words += ["--home", str(self.home)]
        if self.gradebook:
            words += ["--gradebook", shown(self.gradebook)]
        return shlex.join(words)

    @property
    def submitted(self) -> Path:
        """Files as they came, under nbgrader's layout."""
        return self.home / "submitted"

    @property
    def autograded(self) -> Path:
        """Marked notebooks."""
        return self.home / "autograded"

    def marked_notebook(self, learner: str, lab: str) -> Path:
        """Where the marked notebook of the hand-in that stands in the gradebook lies."""
        return self.autograded / learner / lab / f"{lab}.ipynb"

    @property
    def feedback(self) -> Path:
        """One page a submission, for the learner."""
        return self.home / "feedback"

    @property
    def reports(self) -> Path:
        """Class reports and exports."""
        return self.home / "reports"

    @property
    def journal(self) -> Path:
        """States of each lab's submissions."""
        return self.home / "journal"

    @property
    def backups(self) -> Path:
        """Copies of the gradebook, one before each run."""
        return self.home / "backups"

    @cached_property
    def db_url(self) -> str:
        """Address of the gradebook: the one given, the class list's, or a file in the autograde folder."""
        named = self.gradebook or self.classlist.gradebook
        return read_address(named) if named else f"sqlite:///{self.home / 'gradebook.db'}"

    def labs(self) -> list[str]:
        """Names of the labs that have a source notebook."""
        found = self.source.glob("lab[0-9][0-9]/lab[0-9][0-9].ipynb")
        return sorted(path.parent.name for path in found if path.stem == path.parent.name)

    def source_notebook(self, lab: str) -> Path:
        """Return the instructor's notebook of a lab.

        Raises
        ------
        GradingError
            When there is none.
        """
        path = self.source / lab / f"{lab}.ipynb"
        if not path.is_file():
            have = ", ".join(self.labs()) or "none"
            raise GradingError(
                f"{lab}: no notebook {path.name} in {self.source}; labs there: {have}{self.remedy}"
            )
        return path

    @property
    def remedy(self) -> str:
        """What to do where the masters of labs are missing, as the end of a sentence."""
        if resources.repository() is None:
            return "; a wheel brings none: work in a clone of the course, or copy its folder source there"
        return "; `twostroke build source` makes them"

    def config(self) -> Config:
        """Configuration of nbgrader for these folders, without any file or working folder."""
        config = Config()
        config.CourseDirectory.root = str(self.home)
        config.CourseDirectory.course_id = COURSE_ID
        config.CourseDirectory.source_directory = str(self.source)
        config.CourseDirectory.release_directory = str(self.release)
        config.CourseDirectory.submitted_directory = str(self.submitted)
        config.CourseDirectory.autograded_directory = str(self.autograded)
        config.CourseDirectory.feedback_directory = str(self.feedback)
        config.CourseDirectory.db_url = self.db_url
        config.OverwriteCells.add_missing_cells = True
        config.ClearSolutions.code_stub = CODE_STUB
        config.ClearSolutions.text_stub = TEXT_STUB
        from twostroke.grading.late import settings  # needs nbgrader, which learners do not have

        config.merge(settings(self.classlist.policy))
        return config


def prepare_environment() -> None:
    """Put the interpreter's own folder on PATH: nbgrader calls ``alembic`` by name for a new gradebook."""
    here = str(Path(sys.executable).parent)
    parts = os.environ.get("PATH", "").split(os.pathsep)
    if here not in parts:
        os.environ["PATH"] = os.pathsep.join([here, *parts])
    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
        os.environ.setdefault(name, "1")
