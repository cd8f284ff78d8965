"""How fast is a class graded, against nbgrader and against bare execution, and how does it grow?

By hand: ``python -m pytest tests/benchmarks/test_grading_speed.py --long -s``. TWOSTROKE_CLASS sets the
size of the class (200), TWOSTROKE_STOCK how many of it stock nbgrader grades (all).
"""

from __future__ import annotations

import contextlib
import os
import resource
import shutil
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path

import psutil
import pytest

pytest.importorskip("nbgrader", reason="grading needs the teach extra")

from twostroke import lab as labs
from twostroke.grading import invent, pool, skeleton
from twostroke.grading.place import Course, prepare_environment
from twostroke.grading.run import grade

LAB = "lab01"
SIZE = int(os.environ.get("TWOSTROKE_CLASS", "200"))
STOCK = int(os.environ.get("TWOSTROKE_STOCK", str(SIZE)))


@pytest.fixture(scope="module")
def trusted():
    return skeleton.load(Course.at().source_notebook(LAB))


def fill(trusted, inbox: Path, count: int) -> None:
    """A class of which two in three have everything right and one in three left some tasks open."""
    for number in range(1, count + 1):
        learner = f"learner-{number:04d}"
        answers = labs.model_answers("01", learner)
        if number % 3 == 0:
            answers = dict(list(answers.items())[: number % 7])
        invent.put(inbox, learner, LAB, invent.as_bytes(invent.fill(trusted, learner, answers)))


@dataclass
class Spent:
    """What a class took: seconds by the clock, peak memory in MB, seconds of processor time by place.

    Processor time holds on a machine that has other work to do; time by the clock does not.
    """

    seconds: float = 0.0
    memory: float = 0.0
    writer: float = 0.0
    forks: float = 0.0
    parents: float = 0.0
    marking: float = 0.0

    @property
    def processor(self) -> float:
        return self.writer + self.forks + self.parents + self.marking


def ours(trusted, folder: Path, count: int) -> Spent:
    """A class, from no gradebook to the last page of feedback."""
    fill(trusted, folder / "inbox", count)
    spent = Spent()
    close = pool.Partner.close

    def weighed(partner) -> None:
        with contextlib.suppress(psutil.Error):
            root = psutil.Process(partner._process.pid)
            for process in (root, *root.children(recursive=True)):
                times = process.cpu_times()
                if "import marker" in " ".join(process.cmdline()):
                    spent.marking += times.user + times.system
                elif process.name() != "bwrap":
                    spent.parents += times.user + times.system
                    spent.forks += times.children_user + times.children_system
        close(partner)

    pool.Partner.close = weighed
    before, started = time.process_time(), time.perf_counter()
    try:
        summary = grade(LAB, folder / "inbox", course=Course.at(folder / "home"), trust=True)
    finally:
        pool.Partner.close = close
    spent.seconds, spent.writer = time.perf_counter() - started, time.process_time() - before
    assert summary.done == count
    assert all(outcome.points is not None for outcome in summary.outcomes)
    spent.memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return spent


def stock(trusted, folder: Path, count: int) -> tuple[float, float]:
    """Seconds by the clock and of processor time of ``nbgrader autograde`` for the same class."""
    prepare_environment()
    fill(trusted, folder / "submitted", count)
    shutil.copytree(Course.at().source / LAB, folder / "source" / LAB)
    (folder / "nbgrader_config.py").write_text(
        "c = get_config()\n"
        f"c.CourseDirectory.root = {str(folder)!r}\n"
        "c.ClearSolutions.code_stub = {'python': '# your answer here'}\n"
    )
    command = [str(Path(sys.executable).parent / "nbgrader")]
    subprocess.run([*command, "generate_assignment", LAB], cwd=folder, check=True, capture_output=True)
    before, started = _of_children(), time.perf_counter()
    subprocess.run([*command, "autograde", LAB], cwd=folder, check=True, capture_output=True)
    return time.perf_counter() - started, _of_children() - before


def _of_children() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def floor(trusted, count: int) -> float:
    """Processor seconds for one submission: its cells run in a fork of a warm process, nothing else."""
    from twostroke.grading.cells import make_shell, rehearse, run_cells

    learner = "learner-0001"
    notebook = invent.fill(trusted, learner, labs.model_answers("01", learner))
    cells = [(i, c.source) for i, c in enumerate(notebook.cells) if c.cell_type == "code"]
    os.environ["TWOSTROKE_RECORD_ONLY"] = "1"
    child = os.fork()
    if child:
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0
        return float(Path(os.environ["FLOOR"]).read_text())
    try:
        shell = make_shell()
        rehearse(shell, [slot.released for slot in trusted.slots if slot.cell.cell_type == "code"])
        before = _of_children()
        for _ in range(count):
            grandchild = os.fork()
            if not grandchild:
                run_cells(shell, cells, 30.0, 64, lambda frame: None)
                os._exit(0)
            os.waitpid(grandchild, 0)
        Path(os.environ["FLOOR"]).write_text(str((_of_children() - before) / count))
    finally:
        os._exit(0)


@pytest.mark.long
def test_is_a_class_graded_fifteen_times_as_fast_as_by_stock_nbgrader(trusted, tmp_path, monkeypatch):
    monkeypatch.setenv("FLOOR", str(tmp_path / "floor"))
    bare = floor(trusted, 100)
    mine = ours(trusted, tmp_path / "ours", SIZE)
    seconds, processor = stock(trusted, tmp_path / "stock", STOCK)
    each, other = mine.seconds / SIZE, seconds / STOCK
    print(f"\n{SIZE} submissions: ours {each * 1000:.0f} ms each, {mine.seconds:.1f} s in all")
    print(f"nbgrader: {other * 1000:.0f} ms each ({STOCK} of them), {other / each:.1f} times as long")
    work, theirs = mine.processor / SIZE, processor / STOCK
    print(f"processor time: ours {work * 1000:.1f} ms each, nbgrader {theirs * 1000:.0f} ms")
    print(f"  nbgrader {theirs / work:.1f} times as much")
    for name in ("forks", "parents", "marking", "writer"):
        print(f"  {name}: {getattr(mine, name) / SIZE * 1000:.1f} ms each, start included")
    print(f"bare cells in a fork: {bare * 1000:.1f} ms; ours {work / bare:.1f} times that")
    assert other / each >= 15
    assert theirs / work >= 15


@pytest.mark.long
def test_does_time_grow_with_the_class_and_memory_not(trusted, tmp_path):
    figures = {count: ours(trusted, tmp_path / str(count), count) for count in (10, 100, 1000)}
    for count, spent in figures.items():
        print(f"\n{count}: {spent.seconds:.1f} s, {spent.seconds / count * 1000:.0f} ms each")
        print(f"  processor {spent.processor / count * 1000:.0f} ms each, peak {spent.memory:.0f} MB")
    assert figures[1000].processor < 12 * figures[100].processor
    assert figures[1000].memory < figures[100].memory + 150
