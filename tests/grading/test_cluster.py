"""Does a cluster do the same work with the same results, whatever happens to its workers?

The cluster is a real one on the loopback address: scheduler and workers are processes of their own, started
as a person would start them.
"""

from __future__ import annotations

import contextlib
import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import psutil
import pytest
from click.testing import CliRunner
from twostroke.commands.teach import grade as command
from twostroke.grading import invent
from twostroke.grading.confine import Limits
from twostroke.grading.journal import Journal
from twostroke.grading.place import Course
from twostroke.grading.run import grade
from twostroke.grading.states import GradingError, State

distributed = pytest.importorskip("distributed", reason="a cluster needs the school extra")
from twostroke.grading import cluster as clusters  # noqa: E402

pytestmark = pytest.mark.slow
LAB = "lab01"
PATIENCE = 180  # s; waiting costs nothing when it comes, and a busy machine is slow
QUICK = Limits(cell_seconds=2.0, total_seconds=40.0, memory_mb=400, processes=32, file_mb=32)


class Cluster:
    """A scheduler and workers, each a process."""

    def __init__(self, folder: Path):
        self.folder = folder
        self.note = folder / "scheduler.json"
        self.processes: list[subprocess.Popen] = []
        self._start("dask_scheduler", "--host", "127.0.0.1", "--port", "0", "--no-dashboard")
        until = time.monotonic() + PATIENCE
        while not self.note.is_file():
            assert time.monotonic() < until, "the scheduler did not start"
            time.sleep(0.1)
        self.address = json.loads(self.note.read_text())["address"]

    def _start(self, program: str, *arguments: str, **env: str) -> subprocess.Popen:
        command = [sys.executable, "-m", f"distributed.cli.{program}", "--scheduler-file", str(self.note)]
        process = subprocess.Popen(
            [*command, *arguments],
            cwd=self.folder,
            env=os.environ | {"OMP_NUM_THREADS": "1"} | env,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        self.processes.append(process)
        return process

    def worker(self, **env: str) -> subprocess.Popen:
        """Start one more worker and wait until it is known."""
        with distributed.Client(self.address, set_as_default=False) as client:
            have = len(client.nthreads())
            process = self._start(
                "dask_worker", "--host", "127.0.0.1", "--nthreads", "1", "--no-nanny", "--no-dashboard", **env
            )
            client.wait_for_workers(have + 1, timeout=PATIENCE)
        return process

    def close(self) -> None:
        for process in reversed(self.processes):
            process.terminate()
        for process in self.processes:
            with contextlib.suppress(subprocess.TimeoutExpired):
                process.wait(PATIENCE)
            process.kill()
            process.wait()


@pytest.fixture
def empty_cluster(tmp_path_factory):
    made = Cluster(tmp_path_factory.mktemp("cluster"))
    yield made
    made.close()


@pytest.fixture(scope="module")
def cluster(tmp_path_factory):
    made = Cluster(tmp_path_factory.mktemp("cluster"))
    made.worker()
    made.worker()
    yield made
    made.close()


def fill(room) -> None:
    """Right, with a copied cell, crashing, running out of time, broken, blank."""
    for number in range(1, 5):
        room.put(f"learner-{number:02d}", room.right(f"learner-{number:02d}"))
    room.changed("learner-05", lambda n: n.cells.append(n.cells[6]))
    room.with_code("learner-06", "import os; os._exit(1)", task=4)
    room.with_code("learner-07", "while True: pass", task=6)
    room.put("learner-08", b'{"cells": [')
    room.put("learner-09", invent.blank(room.trusted))
    room.put("learner-10", room.right("somebody else"))


def result(course) -> dict[str, object]:
    """Everything that a run leaves; rows of the gradebook without drawn ids."""
    from nbgrader.api import Gradebook

    with Gradebook(course.db_url) as book:
        rows = [
            (s.student_id, g.name, g.auto_score, g.manual_score, g.extra_credit, g.needs_manual_grade)
            for s in book.assignment_submissions(LAB)
            for n in s.notebooks
            for g in n.grades
        ]
    files = {
        str(path.relative_to(course.home)): path.read_bytes()
        for folder in (course.autograded, course.feedback, course.submitted)
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
    return {"rows": sorted(rows), "states": Journal.of(course, LAB).outcomes(), "files": files}


@pytest.fixture(scope="module")
def here(session_class, walled):
    """The class, graded on this machine."""
    room = session_class("here")
    fill(room)
    room.grade()
    return room, result(room.course)


def test_are_the_results_of_a_cluster_those_of_this_machine(here, cluster, tmp_path):
    room, wanted = here
    course = Course.at(tmp_path / "there")
    summary = grade(LAB, room.inbox, course=course, limits=QUICK, cluster=cluster.address)
    found = result(course)
    for part in wanted:
        assert found[part] == wanted[part], part
    assert len(wanted["rows"]) == 9 * 8
    assert summary.walls.mode == "walled"
    assert summary.engine_failures == 0
    assert grade(LAB, room.inbox, course=course, cluster=cluster.address).done == 0


def test_are_workers_killed_in_mid_run_without_effect(here, empty_cluster, tmp_path, monkeypatch):
    """One of two killed: the other does its work. The last one killed: no grade, and a new one goes on."""
    room, wanted = here
    first, last = empty_cluster.worker(), empty_cluster.worker()
    ended: list[psutil.Process] = []

    def killing(process):
        def kill_it(done, total, outcome):
            if done == 2:
                ended.extend(psutil.Process(process.pid).children(recursive=True))
                process.send_signal(signal.SIGKILL)

        return kill_it

    settings = {"limits": QUICK, "cluster": empty_cluster.address}
    course = Course.at(tmp_path / "one")
    summary = grade(LAB, room.inbox, course=course, progress=killing(first), **settings)
    assert first.wait(PATIENCE) == -signal.SIGKILL
    assert summary.engine_failures == 0
    assert result(course) == wanted

    monkeypatch.setattr(clusters, "_PATIENCE", 3.0)
    course = Course.at(tmp_path / "all")
    summary = grade(LAB, room.inbox, course=course, progress=killing(last), **settings)
    assert last.wait(PATIENCE) == -signal.SIGKILL
    assert summary.engine_failures > 0
    assert all(each.points is None for each in summary.outcomes if each.engine_failed)
    assert ended, "the killed workers were at work"
    _, alive = psutil.wait_procs(ended, timeout=PATIENCE)
    assert alive == [], "nothing that a killed worker started goes on"

    empty_cluster.worker()
    grade(LAB, room.inbox, course=course, **settings)
    assert result(course) == wanted


def test_is_a_submission_on_a_worker_walled_off(here, cluster, make_class, tmp_path):
    secret = tmp_path / "secret.txt"
    secret.write_text("nobody may read this")
    room = make_class()
    room.with_code("learner-01", f"print(open({str(secret)!r}).read())", task=1)
    room.with_code("learner-02", "import os; os.kill(os.getppid(), 9)", task=6)
    room.put("learner-03", room.right("learner-03"))
    summary = grade(LAB, room.inbox, course=room.course, limits=QUICK, cluster=cluster.address)
    marked = room.graded_text("learner-01")
    assert "nobody may read this" not in marked
    assert "FileNotFoundError" in marked
    assert summary.outcomes[2].state is not State.NOT_GRADED
    assert summary.engine_failures == 0


def test_is_a_worker_that_cannot_wall_off_refused_without_trust(here, empty_cluster, tmp_path):
    room, _ = here
    with pytest.raises(GradingError, match="has no worker"):
        grade(LAB, room.inbox, course=Course.at(tmp_path), cluster=empty_cluster.address)
    empty_cluster.worker(PATH=str(Path(sys.executable).parent))  # a machine without bubblewrap
    course = Course.at(tmp_path / "there")
    with pytest.raises(GradingError, match=r"not protected: tcp://.*install bubblewrap.*--trust"):
        grade(LAB, room.inbox, course=course, cluster=empty_cluster.address)
    assert not course.journal.exists()
    summary = grade(
        LAB, room.inbox, course=course, limits=QUICK, cluster=empty_cluster.address, learner="learner-01",
        trust=True,
    )  # fmt: skip
    assert summary.walls.mode == "open"
    assert [each.points for each in summary.outcomes] == [24]


@pytest.mark.parametrize(
    ("address", "told"),
    [("tcp://127.0.0.1:9", "does not answer"), ("nonsense://x", "does not answer")],
)
def test_is_a_cluster_that_is_not_there_told(here, tmp_path, monkeypatch, address, told):
    monkeypatch.setattr(clusters, "_CONNECT", 1.0)
    with pytest.raises(GradingError, match=told):
        grade(LAB, here[0].inbox, course=Course.at(tmp_path), cluster=address)


def test_is_another_version_on_a_worker_told(here, cluster, tmp_path, monkeypatch):
    monkeypatch.setattr(clusters, "code_mark", lambda: "another")
    with pytest.raises(GradingError, match="another version of the course"):
        grade(LAB, here[0].inbox, course=Course.at(tmp_path), cluster=cluster.address)


def test_does_the_command_take_a_cluster(here, cluster, tmp_path):
    room, _ = here
    told = CliRunner().invoke(
        command,
        ["01", str(room.inbox), "--home", str(tmp_path), "--cluster", cluster.address, "--learner",
         "learner-01", "--json"],
    )  # fmt: skip
    assert told.exit_code == 0, told.output
    assert json.loads(told.stdout)["outcomes"][0]["state"] == "graded"
