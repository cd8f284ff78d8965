"""Learners' parts work where the modules of Unix do not exist; the instructor's say so in plain words."""

from __future__ import annotations

import subprocess
import sys
import textwrap

BEFORE = """
    import sys
    GONE = {"fcntl", "resource", "pwd", "grp", "termios", "pty"}

    class Without:
        def find_spec(self, name, path=None, target=None):
            if name in GONE:
                raise ModuleNotFoundError(f"No module named {name!r}", name=name)

    sys.meta_path.insert(0, Without())
    for name in GONE:
        sys.modules.pop(name, None)
"""


def run(program: str, folder) -> str:
    text = textwrap.dedent(BEFORE) + textwrap.dedent(program)
    done = subprocess.run([sys.executable, "-c", text], capture_output=True, text=True, cwd=folder)
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_do_lessons_labs_and_bench_work_there(tmp_path):
    said = run(
        """
        from twostroke import health, jobcard, lab, lesson, scenarios, server, workspace
        from twostroke.bench import Bench
        from twostroke.lesson.bench_panel import panel, serve, terminal
        print(len(workspace.lay_out("course").new) > 20)
        marks = lab.mark_answers("01", "a", lab.model_answers("01", "a"))
        print(sum(one.points for one in marks) == sum(one.max_points for one in marks) > 0)
        bench = Bench("plug_fouled_trimmer", "Anna")
        bench.do("switch_check")
        print(bench.minutes)
        """,
        tmp_path,
    )
    assert said.split() == ["True", "True", "1.0"]


def test_do_grading_and_examination_say_where_they_run(tmp_path):
    said = run(
        """
        from twostroke import TwoStrokeError, grading
        from twostroke.lab.exam.place import Place
        try:
            grading.grade
        except TwoStrokeError as error:
            print(error)
        try:
            with Place.make("exam").alone():
                print("held")
        except TwoStrokeError as error:
            print(error)
        """,
        tmp_path,
    )
    first, second = said.splitlines()
    assert "Linux or macOS" in first
    assert "Subsystem for Linux" in second
