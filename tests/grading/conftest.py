"""A class of invented hand-ins for the grading tests, graded once for many questions."""

from __future__ import annotations

import contextlib
import copy
import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest

pytest.importorskip("nbgrader", reason="grading needs the teach extra")

from twostroke import lab as labs
from twostroke.grading import gradebook, invent, skeleton
from twostroke.grading.confine import Limits
from twostroke.grading.place import Course
from twostroke.grading.run import grade
from twostroke.grading.walls import find_walls

LAB = "lab01"
QUICK = Limits(cell_seconds=2.0, total_seconds=40.0, memory_mb=400, processes=32, file_mb=32)


@pytest.fixture(scope="session")
def trusted():
    """The lab as the trusted side knows it."""
    return skeleton.load(Course.at().source_notebook(LAB))


@pytest.fixture(scope="session")
def walled():
    """Tests of isolation need bubblewrap and namespaces."""
    walls = find_walls()
    if walls.mode != "walled":
        pytest.skip(f"this machine cannot wall submissions off: {walls.text}")
    return walls


class Class:
    """Hand-ins in a folder, and a course to grade them in."""

    def __init__(self, trusted: skeleton.Skeleton, folder: Path):
        self.trusted = trusted
        self.folder = folder
        self.inbox = folder / "inbox"
        self.course = Course.at(folder / "home")
        self.answers = invent.answer_cells(trusted)
        self.tasks = list(self.answers)
        self.marks = {slot.mark: slot.grade_id for slot in trusted.slots if slot.mark}

    def right(self, learner: str):
        """All answers right."""
        return invent.fill(self.trusted, learner, labs.model_answers("01", learner))

    def put(self, learner: str, notebook, name: str | None = None) -> None:
        data = notebook if isinstance(notebook, bytes) else invent.as_bytes(notebook)
        invent.put(self.inbox, learner, LAB, data, name)

    def changed(self, learner: str, change: Callable) -> None:
        """Right, then changed."""
        notebook = copy.deepcopy(self.right(learner))
        change(notebook)
        self.put(learner, notebook)

    def with_code(self, learner: str, source: str, task: int = 1) -> None:
        """Right, with code before one answer."""

        def change(notebook):
            cell = invent.cell_of(notebook, self.answers[self.tasks[task]])
            cell.source = f"{source}\n{cell.source}"

        self.changed(learner, change)

    def grade(self, **settings):
        return grade(LAB, self.inbox, course=self.course, trust=True, **{"limits": QUICK, **settings})

    def graded_text(self, learner: str) -> str:
        """The marked notebook as text."""
        return (self.course.autograded / learner / LAB / f"{LAB}.ipynb").read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def registered(trusted, tmp_path_factory):
    """A home whose gradebook knows the lab already, so that most tests need not make one."""
    home = tmp_path_factory.mktemp("registered")
    register_only(Course.at(home), trusted)
    return home


@pytest.fixture
def make_class(trusted, tmp_path, registered):
    """Make a class; ``fresh`` leaves the making of its gradebook to the run."""

    def make(fresh: bool = False) -> Class:
        made = Class(trusted, tmp_path)
        if not fresh:
            copy_home(registered, made.course)
        return made

    return make


def register_only(course: Course, trusted: skeleton.Skeleton) -> None:
    with tempfile.TemporaryDirectory() as folder:
        gradebook.register(course, trusted.lab, Path(folder))
    gradebook.note_registered(course, trusted)


def copy_home(registered: Path, course: Course) -> None:
    shutil.copytree(registered, course.home)
    gradebook.note_registered(course, skeleton.load(course.source_notebook(LAB)))


@pytest.fixture(scope="session")
def session_class(trusted, tmp_path_factory):
    return lambda name: Class(trusted, tmp_path_factory.mktemp(name))


class Server:
    """One PostgreSQL server; as an ordinary user even where the tests are run by root."""

    def __init__(self, programs: Path):
        self.programs = programs
        self.folder = Path(tempfile.mkdtemp(prefix="pg-"))
        self.user = "postgres" if os.geteuid() == 0 else None
        if self.user:
            shutil.chown(self.folder, self.user)
        self._call("initdb", "-N", "-A", "trust", "-U", "grader", "-D", str(self.folder / "data"))
        self.databases = 0

    def _call(self, program: str, *arguments: str) -> None:
        command = [str(self.programs / program), *arguments]
        done = subprocess.run(
            command,
            cwd=self.folder,
            user=self.user,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
        )
        assert done.returncode == 0, done.stderr

    def start(self) -> None:
        settings = f"-c listen_addresses='' -c unix_socket_directories='{self.folder}' -c fsync=off"
        place = ("-D", str(self.folder / "data"), "-l", str(self.folder / "log"))
        self._call("pg_ctl", "start", "-w", "-t", "60", *place, "-o", settings)

    def stop(self) -> None:
        self._call("pg_ctl", "stop", "-w", "-m", "immediate", "-D", str(self.folder / "data"))

    def url(self, database: str) -> str:
        return f"postgresql://grader@/{database}?host={self.folder}"

    def new(self) -> str:
        """Address of an empty database."""
        self.databases += 1
        name = f"class_{self.databases}"
        from sqlalchemy import create_engine, text
        from twostroke.grading.address import read_address

        engine = create_engine(read_address(self.url("postgres")), isolation_level="AUTOCOMMIT")
        with engine.connect() as connection:
            connection.execute(text(f"CREATE DATABASE {name}"))
        engine.dispose()
        return self.url(name)


@pytest.fixture(scope="module")
def server():
    found = shutil.which("initdb", path=os.pathsep.join(_folders()))
    if found is None:
        pytest.skip("PostgreSQL's server programs are not installed (Debian: postgresql)")
    if os.geteuid() == 0 and "postgres" not in {each.pw_name for each in pwd.getpwall()}:
        pytest.skip("PostgreSQL does not run as root, and there is no user postgres")
    pytest.importorskip("psycopg2", reason="the driver of PostgreSQL needs the school extra")
    made = Server(Path(found).resolve().parent)
    made.start()
    yield made
    with contextlib.suppress(AssertionError):
        made.stop()
    shutil.rmtree(made.folder)


def _folders() -> list[str]:
    installed = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda p: float(p.parent.name))
    return [*map(str, reversed(installed)), *os.environ.get("PATH", "").split(os.pathsep)]
