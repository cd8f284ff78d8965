"""Is a learner's work ever overwritten? Does a release renew what nobody touched?"""

from __future__ import annotations

import json
import os
import stat

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from twostroke import resources, server, workspace
from twostroke.workspace import WorkspaceError, lay_out

LESSON, LAB = "lessons/00_start_here.ipynb", "labs/lab01/lab01.ipynb"


@pytest.fixture
def course(tmp_path, monkeypatch):
    """A small course of one lesson and one lab, as if it were shipped; call with texts to make a release."""
    lessons, labs = tmp_path / "shipped" / "lessons", tmp_path / "shipped" / "release"
    (labs / "lab01").mkdir(parents=True)
    lessons.mkdir()
    monkeypatch.setattr(resources, "lessons", lambda: lessons)
    (tmp_path / "shipped" / "assets" / "cards").mkdir(parents=True)
    monkeypatch.setattr(resources, "release", lambda: labs)
    monkeypatch.setattr(resources, "assets", lambda: tmp_path / "shipped" / "assets")

    def release(lesson: str, lab: str) -> None:
        (lessons / "00_start_here.ipynb").write_text(lesson)
        (labs / "lab01" / "lab01.ipynb").write_text(lab)
        (labs / ".ipynb_checkpoints").mkdir(exist_ok=True)
        (labs / ".ipynb_checkpoints" / "x.ipynb").write_text("not for learners")

    release("lesson 1", "lab 1")
    return release


def words(folder) -> dict[str, str]:
    """All files a learner sees."""
    return {
        path.relative_to(folder).as_posix(): path.read_text()
        for path in folder.rglob("*")
        if path.is_file() and workspace.HIDDEN not in path.parts
    }


def test_is_everything_laid_out_the_first_time(course, tmp_path) -> None:
    laid = lay_out(tmp_path / "my work")
    assert laid.new == [LESSON, LAB]
    assert words(tmp_path / "my work") == {LESSON: "lesson 1", LAB: "lab 1"}
    again = lay_out(tmp_path / "my work")
    assert (again.new, again.renewed, again.beside, again.unchanged) == ([], [], [], 2)
    assert again.sentences() == ["nothing to renew"]


def test_are_bench_cards_laid_out_and_renewed(course, tmp_path) -> None:
    cards = resources.assets() / "cards"
    (cards / "card_01.pdf").write_bytes(b"%PDF-1")
    (cards / "card_01.html").write_bytes(b"for the clone only")
    assert lay_out(tmp_path / "w").new == [LESSON, "cards/card_01.pdf", LAB]
    (cards / "card_01.pdf").write_bytes(b"%PDF-2")
    assert lay_out(tmp_path / "w").renewed == ["cards/card_01.pdf"]
    assert (tmp_path / "w/cards/card_01.pdf").read_bytes() == b"%PDF-2"


def test_is_an_untouched_file_renewed(course, tmp_path) -> None:
    lay_out(tmp_path / "w")
    course("lesson 2", "lab 1")
    laid = lay_out(tmp_path / "w")
    assert laid.renewed == [LESSON]
    assert words(tmp_path / "w")[LESSON] == "lesson 2"


def as_notebook(source: str, ran: bool = False) -> str:
    """A notebook of one cell, as JupyterLab saves it before and after a run."""
    outputs = [{"output_type": "stream", "name": "stdout", "text": "0.30 mm"}] if ran else []
    cell = {"cell_type": "code", "source": source, "outputs": outputs, "execution_count": 1 if ran else None}
    return json.dumps({"cells": [cell], "metadata": {"language_info": {"version": "3.11"}} if ran else {}})


@pytest.mark.parametrize(
    ("now", "renewed"), [(as_notebook("a", ran=True), True), (as_notebook("my a", ran=True), False)]
)
def test_is_a_notebook_renewed_that_was_run_but_not_written_in(course, tmp_path, now, renewed) -> None:
    course(as_notebook("a"), "lab 1")
    lay_out(tmp_path / "w")
    (tmp_path / "w" / LESSON).write_text(now)
    course(as_notebook("b"), "lab 1")
    laid = lay_out(tmp_path / "w")
    assert (laid.renewed == [LESSON]) is renewed
    assert words(tmp_path / "w")[LESSON] == (as_notebook("b") if renewed else now)


@pytest.mark.parametrize("torn", ["[]", '{"cells": [1]}', '{"cells": [{"cell_type": "code"}]}', "{", "\xff"])
def test_is_a_torn_file_the_learners(course, tmp_path, torn) -> None:
    lay_out(tmp_path / "w")
    (tmp_path / "w" / LAB).write_bytes(torn.encode("latin-1"))
    course("lesson 1", "lab 2")
    assert [yours for yours, _ in lay_out(tmp_path / "w").beside] == [LAB]
    assert (tmp_path / "w" / LAB).read_bytes() == torn.encode("latin-1")


def test_does_the_learners_file_stay_and_the_newer_lie_beside(course, tmp_path) -> None:
    lay_out(tmp_path / "w")
    (tmp_path / "w" / LAB).write_text("my answers")
    assert lay_out(tmp_path / "w").beside == []
    course("lesson 1", "lab 2")
    laid = lay_out(tmp_path / "w")
    newer = "labs/lab01/lab01.newer.ipynb"
    assert laid.beside == [(LAB, newer)]
    assert words(tmp_path / "w") == {LESSON: "lesson 1", LAB: "my answers", newer: "lab 2"}
    assert any(
        "stays as it is" in sentence and "lab01.newer.ipynb" in sentence for sentence in laid.sentences()
    )
    assert lay_out(tmp_path / "w").beside == []


def test_is_a_newer_file_that_was_worked_on_kept_too(course, tmp_path) -> None:
    lay_out(tmp_path / "w")
    (tmp_path / "w" / LAB).write_text("my answers")
    course("lesson 1", "lab 2")
    lay_out(tmp_path / "w")
    (tmp_path / "w" / "labs/lab01/lab01.newer.ipynb").write_text("my newer answers")
    course("lesson 1", "lab 3")
    lay_out(tmp_path / "w")
    held = words(tmp_path / "w")
    assert held[LAB] == "my answers"
    assert held["labs/lab01/lab01.newer.ipynb"] == "my newer answers"
    assert held["labs/lab01/lab01.newer-2.ipynb"] == "lab 3"


def test_is_a_file_that_was_there_before_the_course_kept(course, tmp_path) -> None:
    (tmp_path / "w" / "lessons").mkdir(parents=True)
    (tmp_path / "w" / LESSON).write_text("somebody's own")
    laid = lay_out(tmp_path / "w")
    assert words(tmp_path / "w")[LESSON] == "somebody's own"
    assert laid.beside == [(LESSON, "lessons/00_start_here.newer.ipynb")]


@pytest.mark.parametrize("record", ["", "{", "[1, 2]", "null"])
def test_is_everything_the_learners_when_the_record_is_lost(course, tmp_path, record) -> None:
    lay_out(tmp_path / "w")
    (tmp_path / "w" / LAB).write_text("my answers")
    (tmp_path / "w" / workspace.HIDDEN / "laid.json").write_text(record)
    course("lesson 2", "lab 2")
    lay_out(tmp_path / "w")
    held = words(tmp_path / "w")
    assert held[LAB] == "my answers"
    assert held[LESSON] == "lesson 1"


def test_is_a_removed_lesson_laid_out_afresh(course, tmp_path) -> None:
    lay_out(tmp_path / "w")
    (tmp_path / "w" / LESSON).unlink()
    assert lay_out(tmp_path / "w").new == [LESSON]


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(
        st.one_of(
            st.tuples(st.just("release"), st.integers(0, 5)),
            st.tuples(st.just("edit"), st.integers(0, 5)),
            st.tuples(st.just("open"), st.none()),
        ),
        max_size=10,
    )
)
def test_is_nothing_a_learner_wrote_ever_lost(course, tmp_path_factory, steps) -> None:
    folder = tmp_path_factory.mktemp("w") / "course"
    course("lesson 1", "lab 1")
    lay_out(folder)
    written: list[str] = []
    for step, number in steps:
        if step == "release":
            course("lesson 1", f"lab {number}")
        elif step == "edit":
            written = [f"mine {number}"]
            (folder / LAB).write_text(written[0])
        else:
            lay_out(folder)
        assert set(written) <= set(words(folder).values())


def test_is_a_folder_inside_the_course_refused(tmp_path) -> None:
    top = resources.clone()
    for inside in (top, top / "course" / "lessons", top / "new folder" / "deeper"):
        with pytest.raises(WorkspaceError, match="inside the course itself"):
            lay_out(inside)
    assert not (top / "new folder").exists()


def test_is_another_clone_refused_too(course, tmp_path) -> None:
    (tmp_path / "clone" / "course" / "twostroke").mkdir(parents=True)
    (tmp_path / "clone" / "course" / "twostroke" / "resources.py").touch()
    (tmp_path / "clone" / "pyproject.toml").touch()
    with pytest.raises(WorkspaceError, match="inside the course itself"):
        lay_out(tmp_path / "clone" / "mine")


def test_is_a_file_in_place_of_a_folder_named(course, tmp_path) -> None:
    (tmp_path / "w").write_text("")
    with pytest.raises(WorkspaceError, match="is a file"):
        lay_out(tmp_path / "w")


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights another way")
def test_is_a_folder_that_cannot_be_written_named(course, tmp_path, monkeypatch) -> None:
    def refuses(*_, **__):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(workspace.tempfile, "mkstemp", refuses)
    with pytest.raises(WorkspaceError, match="Permission denied; give another folder"):
        lay_out(tmp_path / "w")


def test_is_a_write_whole_or_not_at_all(course, tmp_path, monkeypatch) -> None:
    lay_out(tmp_path / "w")
    course("lesson 2", "lab 2")

    def breaks(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(workspace.os, "replace", breaks)
    with pytest.raises(WorkspaceError, match="No space left"):
        lay_out(tmp_path / "w")
    assert words(tmp_path / "w") == {LESSON: "lesson 1", LAB: "lab 1"}


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights another way")
def test_can_the_learner_write_what_was_laid(course, tmp_path) -> None:
    lay_out(tmp_path / "w")
    assert (tmp_path / "w" / LAB).stat().st_mode & stat.S_IWUSR


def test_is_the_workspace_found_from_within(course, tmp_path, monkeypatch) -> None:
    monkeypatch.delenv("TWOSTROKE_WORKSPACE", raising=False)
    lay_out(tmp_path / "w")
    assert workspace.find(tmp_path / "w" / "labs" / "lab01") == (tmp_path / "w").resolve()
    assert workspace.find(tmp_path) is None
    monkeypatch.setenv("TWOSTROKE_WORKSPACE", str(tmp_path / "w"))
    assert workspace.find() == tmp_path / "w"


def test_does_jupyterlab_keep_to_its_own_settings(course, tmp_path) -> None:
    place = lay_out(tmp_path / "w").folder
    variables = server.settle(place)
    for name in (
        "JUPYTER_CONFIG_DIR",
        "JUPYTER_DATA_DIR",
        "JUPYTER_RUNTIME_DIR",
        "JUPYTERLAB_SETTINGS_DIR",
        "IPYTHONDIR",
    ):
        assert variables[name].startswith(str(place))
    page = json.loads((place / ".two-stroke/jupyter/config/labconfig/page_config.json").read_text())
    assert page["disabledExtensions"]["@jupyter/nbgrader:formgrader"] is True
    quiet = (
        place / ".two-stroke/jupyter/settings/@jupyterlab/apputils-extension/notification.jupyterlab-settings"
    )
    assert json.loads(quiet.read_text())["fetchNews"] == "false"
    quiet.write_text('{"fetchNews": "true"}')
    server.settle(place)
    assert json.loads(quiet.read_text())["fetchNews"] == "true"


def test_is_jupyterlab_bound_to_this_machine_and_guarded(tmp_path) -> None:
    command = server.command(tmp_path / "my work", browser=False, port=9000)
    assert "--ServerApp.ip=127.0.0.1" in command
    assert "--no-browser" in command
    assert "--ServerApp.port=9000" in command
    assert f"--ServerApp.root_dir={tmp_path / 'my work'}" in command
    assert not [word for word in command if "token" in word.lower() or "password" in word.lower()]
    assert "--no-browser" not in server.command(tmp_path)
