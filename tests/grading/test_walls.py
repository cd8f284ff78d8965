"""Does grading find out what this machine can wall off, and say it; does it hold for ordinary users too?"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import psutil
import pytest
from twostroke.grading import pool, run, walls
from twostroke.grading.states import GradingError, Reason, State

TOP = Path(__file__).parents[2]


@pytest.fixture
def without_bubblewrap(monkeypatch):
    walls.find_walls.cache_clear()
    monkeypatch.setattr(shutil, "which", lambda name, *rest: None)
    yield
    walls.find_walls.cache_clear()


def test_is_a_class_not_run_in_the_open_unless_trusted(make_class, without_bubblewrap):
    room = make_class()
    room.put("learner-01", room.right("learner-01"))
    with pytest.raises(GradingError, match="--trust") as refused:
        run.grade("01", room.inbox, course=room.course)
    assert "network" in str(refused.value)
    assert "read and change every file" in str(refused.value)
    assert not room.course.autograded.exists()


def test_does_trust_still_limit_time_and_end_every_process(make_class, without_bubblewrap):
    room = make_class()
    room.put("learner-01", room.right("learner-01"))
    room.with_code(
        "learner-02", "import subprocess\nsubprocess.Popen(['sleep', '62.62'], start_new_session=True)"
    )
    room.with_code(
        "learner-03",
        "import signal\nsignal.signal(signal.SIGALRM, signal.SIG_IGN)\nwhile True:\n    try:\n"
        "        while True: pass\n    except BaseException: pass",
        task=3,
    )
    room.with_code("learner-04", "import os; os._exit(0)", task=3)
    summary = room.grade()
    assert summary.walls.mode == "open"
    found = {outcome.learner: outcome for outcome in summary.outcomes}
    assert found["learner-01"].points == found["learner-02"].points == 24
    assert {c.reason for c in found["learner-03"].causes} == {Reason.OUT_OF_TIME}
    assert {c.reason for c in found["learner-04"].causes} == {Reason.CRASHED}
    assert not [p for p in psutil.process_iter(["cmdline"]) if "62.62" in (p.info["cmdline"] or [])]


def test_is_a_wall_that_cannot_be_built_noticed(monkeypatch):
    walls.find_walls.cache_clear()
    monkeypatch.setattr(walls, "interpreter", lambda module, call: ["/bin/false"])
    found = walls.find_walls()
    walls.find_walls.cache_clear()
    assert found.mode == "open"
    assert "namespaces" in found.text


def test_can_a_submission_see_only_python_and_its_packages():
    seen = walls.visible()
    for hidden in (
        TOP / "source",
        TOP / "release",
        TOP / "tests",
        TOP / "autograde",
        TOP / "course" / "text",
    ):
        assert not any(hidden.is_relative_to(place) for place in seen)


@pytest.mark.parametrize("workers", [0, -1])
def test_is_an_impossible_number_of_workers_refused(workers):
    with pytest.raises(GradingError, match="at least one"):
        pool.core_count(workers)


def test_is_a_dry_run_only_a_look(make_class):
    room = make_class()
    room.put("learner-01", room.right("learner-01"))
    room.put("learner-02", b"")
    before = sorted(room.course.home.rglob("*"))
    summary = room.grade(dry_run=True)
    assert sorted(room.course.home.rglob("*")) == before
    assert [outcome.state for outcome in summary.outcomes] == [State.NOT_GRADED] * 2
    assert "would be run" in summary.outcomes[0].notes[-1]


def test_is_one_learner_alone_graded_when_asked(make_class):
    room = make_class()
    for learner in ("learner-01", "learner-02"):
        room.put(learner, room.right(learner))
    assert [o.learner for o in room.grade(learner="Learner 02").outcomes] == ["learner-02"]
    with pytest.raises(GradingError, match="nothing of lab01"):
        room.grade(learner="learner-99")


@pytest.mark.slow
def test_do_the_walls_hold_for_an_ordinary_user_too(walled):
    """The tests of hostile work, run by a user without any privilege."""
    if os.geteuid() != 0:
        pytest.skip("these tests are run by an ordinary user already")
    home = Path(tempfile.mkdtemp(prefix="ordinary-"))
    os.chown(home, 12345, 12345)
    command = ["bwrap", "--dev-bind", "/", "/"]
    command += ["--perms", "0755", "--tmpfs", str(Path.home())]
    for place in walls.visible():
        if place.is_relative_to(Path.home()):
            for parent in reversed(place.relative_to(Path.home()).parents[:-1]):
                command += ["--perms", "0755", "--dir", str(Path.home() / parent)]
            command += ["--ro-bind", str(place), str(place)]
    for name in ("CAP_SETUID", "CAP_SETGID", "CAP_SETPCAP"):
        command += ["--cap-add", name]
    command += ["--", "setpriv", "--reuid", "12345", "--regid", "12345", "--clear-groups"]
    command += ["--inh-caps=-all", "--bounding-set=-all", "env", f"HOME={home}", f"TMPDIR={home}"]
    command += [sys.executable, "-m", "pytest", str(Path(__file__).with_name("test_hostile.py"))]
    command += ["-q", "-p", "no:cacheprovider", "--basetemp", str(home / "base"), "--no-header"]
    done = subprocess.run(command, cwd=TOP, capture_output=True, text=True, timeout=600)
    shutil.rmtree(home, ignore_errors=True)
    assert done.returncode == 0, done.stdout[-3000:]
    assert " passed" in done.stdout
    assert "skipped" not in done.stdout
