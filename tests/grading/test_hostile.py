"""Is hostile work kept from source, gradebook, network, other work, and points it has not earned?

Each attack is one learner of a class that is graded once. A cell prints LEAK where it gets what it must not.
"""

from __future__ import annotations

import contextlib
import json
import os
import socket
import subprocess
import threading
import zipfile
from pathlib import Path

import psutil
import pytest
from twostroke.grading import gradebook, invent
from twostroke.grading.gradebook import read_rows
from twostroke.grading.states import Reason, State
from twostroke.lab import exam

FULL = 24.0

TRY = """
def attempt(what):
    try:
        return what()
    except BaseException as error:
        print("held off", type(error).__name__)
"""

READS = {
    "source": "{source}/lab01/lab01.ipynb",
    "other_lab": "{source}/lab02/lab02.ipynb",
    "secret": "{home}/examination/secret",
    "gradebook": "{home}/gradebook.db",
    "class_list": "{home}/class.toml",
    "submitted": "{home}/submitted/reads-gradebook/lab01/lab01.ipynb",
    "inbox": "{inbox}/reads-source/lab01/lab01.ipynb",
    "home_folder": "{user}/.bashrc",
    "shadow": "/etc/shadow",
    "passwd": "/etc/passwd",
    "tests": "{tests}/grading/conftest.py",
    "journal": "{home}/journal/lab01.jsonl",
}
WRITES = {
    "gradebook": "{home}/gradebook.db",
    "package": "{package}/units.py",
    "inbox": "{inbox}/planted.txt",
    "root": "/planted.txt",
    "python": "{python}/sitecustomize.py",
}
ATTACKS = Path(__file__).parent / "attacks"
"""One small file for each: code that is put before an answer."""

CRASHES = {
    "os-exit": Reason.CRASHED,
    "segfault": Reason.CRASHED,
    "stubborn": Reason.OUT_OF_TIME,
    "closes-all": Reason.CRASHED,
    "eats-by-children": Reason.CRASHED,
}
CODE = sorted({path.stem for path in ATTACKS.glob("*.cell")} - set(CRASHES))


def attack(name: str) -> str:
    return (ATTACKS / f"{name}.cell").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def graded(session_class, walled, trusted):
    os.environ["TWOSTROKE_TEST_SECRET"] = "cohort"
    room = session_class("hostile")
    server = socket.create_server(("127.0.0.1", 0))
    threading.Thread(target=_accept, args=(server,), daemon=True).start()
    (room.folder / "home").mkdir()
    (room.folder / "home" / "class.toml").write_text('course = "tests"\n')
    exam.Place.make(room.course.home / "examination")
    places = {
        "source": room.course.source,
        "home": room.course.home,
        "inbox": room.inbox,
        "user": Path.home(),
        "tests": Path(__file__).parents[1],
        "package": Path(gradebook.__file__).parents[1],
        "python": Path(os.__file__).parent,
    }
    for name, path in READS.items():
        code = f"print('LEAK', open({path.format(**places)!r}, 'rb').read(40))"
        room.with_code(f"reads-{name}", f"{TRY}\nattempt(lambda: {code})")
    for name, path in WRITES.items():
        code = f"(open({path.format(**places)!r}, 'ab').write(b'x'), print('LEAK'))"
        room.with_code(f"writes-{name}", f"{TRY}\nattempt(lambda: {code})")
    for name in CODE:
        room.with_code(name, attack(name).replace("{port}", str(server.getsockname()[1])))
    for name in CRASHES:
        room.with_code(name, attack(name), task=3)
    _forgers(room, trusted)
    package = places["package"] / "units.py"
    before = package.read_bytes()
    summary = room.grade()
    server.close()
    del os.environ["TWOSTROKE_TEST_SECRET"]
    assert package.read_bytes() == before
    room.summary = summary
    room.wanted = {name: Path(path.format(**places)) for name, path in READS.items()}
    room.outcome = {outcome.learner: outcome for outcome in summary.outcomes}
    return room


def _accept(server: socket.socket) -> None:
    try:
        while True:
            server.accept()[0].close()
    except OSError:
        return


def _forgers(room, trusted) -> None:
    def raised(notebook):
        cell = invent.cell_of(notebook, room.marks[room.tasks[0]])
        cell.source, cell.metadata.nbgrader["points"] = "1e9", 1e9

    room.changed("raises-points", raised)

    def claims(notebook):
        notebook.cells[0].metadata["nbgrader"] = {
            "grade_id": room.marks[room.tasks[0]],
            "grade": True,
            "points": 50,
        }

    room.changed("claims-mark", claims)

    def all_ids(notebook):
        for cell in notebook.cells:
            cell.metadata["nbgrader"] = {"grade_id": room.marks[room.tasks[0]], "grade": True, "points": 9}

    room.changed("one-id-for-all", all_ids)

    def no_object(notebook):
        cell = invent.cell_of(notebook, room.answers[room.tasks[0]])
        cell.source = (
            "class Yes(str):\n"
            "    __eq__ = lambda s, o: True\n"
            "    __hash__ = str.__hash__\n"
            "    __float__ = lambda s: 1.0\n"
            f"work.answer({room.tasks[0]!r}, Yes('anything'))"
        )

    room.changed("equal-to-all", no_object)

    def negative(notebook):
        cell = invent.cell_of(notebook, room.marks[room.tasks[0]])
        cell.source = "float('nan')"

    room.changed("not-a-number", negative)


@pytest.mark.parametrize("name", [*(f"reads-{n}" for n in READS), *(f"writes-{n}" for n in WRITES)])
def test_is_a_file_outside_out_of_reach(graded, name):
    text = graded.graded_text(name)
    assert "held off" in text
    assert "LEAK" not in _outputs(graded, name)
    assert graded.outcome[name].points == FULL


@pytest.mark.parametrize(
    "name",
    ["sockets", "namespaces", "is-nobody", "sees-others", "environment", "fills-disk", "leaves-note-b",
     "leaves-note-c", "reads-frames", "kills-parent"],
)  # fmt: skip
def test_is_the_rest_of_the_machine_out_of_reach(graded, name):
    assert "held off" in _outputs(graded, name) or name == "kills-parent"
    assert "LEAK" not in _outputs(graded, name)
    assert graded.outcome[name].points == FULL
    assert graded.outcome[name].state is State.GRADED


@pytest.mark.parametrize(
    "name",
    [
        "overrides-abs",
        "rewrites-asserts",
        "swallows-traces",
        "on-stderr",
        "floods",
        "threads",
        "leaves-children",
    ],
)
def test_does_a_trick_change_nothing(graded, name):
    assert graded.outcome[name].points == FULL


@pytest.mark.parametrize("name", ["replaces-mark", "replaces-work"])
def test_do_own_points_count_for_nothing_and_show(graded, name):
    outcome = graded.outcome[name]
    assert outcome.state is State.PERSON
    assert Reason.DIFFERENCE in {cause.reason for cause in outcome.causes}
    assert outcome.points <= (4 if name == "replaces-work" else FULL)


def test_does_replacing_our_marking_inside_not_matter(graded):
    assert graded.outcome["replaces-marking"].points == FULL


@pytest.mark.parametrize("name", ["forges-lines", "forges-frames"])
def test_are_forged_lines_seen_and_worth_nothing(graded, name):
    outcome = graded.outcome[name]
    assert outcome.points <= FULL
    assert outcome.state is State.PERSON
    assert Reason.TAMPERED in {cause.reason for cause in outcome.causes}


@pytest.mark.parametrize("name", ["sys-exit", "endless", "memory-in-cell"])
def test_does_one_bad_cell_cost_its_own_task_only(graded, name):
    outcome = graded.outcome[name]
    lost = [task.task for task in outcome.tasks if task.points < task.max_points]
    assert lost == [graded.tasks[1]]
    assert outcome.state is State.GRADED


@pytest.mark.parametrize("name", CRASHES)
def test_does_a_crash_keep_what_came_before(graded, name):
    outcome = graded.outcome[name]
    assert CRASHES[name] in {cause.reason for cause in outcome.causes}
    assert outcome.state is State.PERSON
    assert outcome.final_points is None
    done = [task for task in outcome.tasks if task.points is not None]
    assert [task.task for task in done] == graded.tasks[:3]
    assert all(task.points == task.max_points for task in done)


def test_does_a_fork_bomb_cost_no_more_than_its_own_place(graded):
    outcome = graded.outcome["fork-bomb"]
    assert outcome.tasks[0].points == outcome.tasks[0].max_points
    assert outcome.state is State.PERSON or outcome.points == FULL - outcome.tasks[1].max_points


def test_does_a_second_process_not_answer_too(graded):
    assert graded.outcome["fork-once"].points == FULL
    assert graded.outcome["fork-once"].state is State.GRADED


def test_are_points_of_crashed_tasks_left_open_in_the_gradebook(graded):
    grades = read_rows(graded.course, "lab01")["os-exit"].grades
    assert grades[graded.marks[graded.tasks[0]]].points == 4
    assert grades[graded.marks[graded.tasks[5]]].points is None


@pytest.mark.parametrize("name", ["raises-points", "claims-mark", "not-a-number"])
def test_are_forged_check_cells_put_back(graded, name):
    assert graded.outcome[name].points == FULL
    assert graded.outcome[name].state is State.GRADED


def test_does_one_grade_id_for_all_cells_end_in_a_reason(graded):
    outcome = graded.outcome["one-id-for-all"]
    assert outcome.state is not State.GRADED or outcome.points <= FULL
    assert outcome.causes or outcome.notes


def test_does_an_object_equal_to_everything_earn_nothing(graded):
    outcome = graded.outcome["equal-to-all"]
    assert outcome.tasks[0].points == 0
    assert outcome.points == FULL - outcome.tasks[0].max_points


def test_is_nothing_left_running(graded):
    running = subprocess.run(["ps", "-eo", "args"], capture_output=True, text=True, check=True).stdout
    assert "sleep 61.61" not in running
    left = []
    for process in psutil.Process().children(recursive=True):
        with contextlib.suppress(psutil.NoSuchProcess):  # a browser's helpers come and go
            left.append(" ".join(process.cmdline()))
    assert not [line for line in left if "twostroke.grading" in line]


def test_is_long_output_cut(graded):
    assert len(graded.graded_text("floods")) < 2_000_000
    assert "output cut here" in graded.graded_text("floods")


def test_is_every_file_that_was_to_be_read_there_at_all(graded):
    absent = [name for name, path in graded.wanted.items() if not path.exists()]
    assert absent in ([], ["home_folder"]), "what is not there cannot be kept from anybody"


def test_did_no_submission_stop_the_class(graded):
    assert len(graded.outcome) == len(READS) + len(WRITES) + len(CODE) + len(CRASHES) + 5
    assert graded.summary.engine_failures == 0


def test_does_output_that_no_file_can_hold_not_stop_the_class(graded):
    assert graded.outcome["half-characters"].points == FULL
    assert "? printed" in graded.graded_text("half-characters")


def test_is_no_expected_value_or_trace_in_any_feedback(graded):
    for page in graded.course.feedback.rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        assert "Traceback" not in text
        assert "HIDDEN" not in text
        assert "work.mark" not in text


def test_is_an_archive_bomb_refused(make_class):
    room = make_class()
    place = room.inbox / "learner-01" / "lab01.zip"
    place.parent.mkdir(parents=True)
    with zipfile.ZipFile(place, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("lab01.ipynb", bytes(60_000_000))
    (outcome,) = room.grade().outcomes
    assert outcome.state is State.NOT_GRADED
    assert [cause.reason for cause in outcome.causes] == [Reason.UNSAFE]


def _outputs(graded, name: str) -> str:
    cells = json.loads(graded.graded_text(name))["cells"]
    return json.dumps([cell.get("outputs", []) for cell in cells])
