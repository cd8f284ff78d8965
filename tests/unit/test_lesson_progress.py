"""The learner's record: kept, never lost, never half written."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from twostroke.lesson import progress
from twostroke.lesson.progress import Progress


def test_is_an_entry_still_there_after_the_kernel_is_gone(tmp_path):
    Progress(tmp_path / "p.json").add("01", "leaf", "prediction", value="0.3 mm")
    assert Progress(tmp_path / "p.json").last("01", "leaf")["value"] == "0.3 mm"


def test_are_earlier_predictions_kept_when_a_new_one_is_made(tmp_path):
    record = Progress(tmp_path / "p.json")
    for value in ("0.12 mm", "0.30 mm"):
        record.add("01", "leaf", "prediction", value=value)
    assert [entry["value"] for entry in record.entries("01", "leaf")] == ["0.12 mm", "0.30 mm"]


def test_do_two_notebooks_see_each_others_entries(tmp_path):
    one, other = Progress(tmp_path / "p.json"), Progress(tmp_path / "p.json")
    one.add("00", "a", "answer", value="x", right=True)
    other.add("01", "b", "answer", value="y", right=False)
    assert len(one.entries()) == len(other.entries()) == 2


WRITE_MANY = """
import sys
from pathlib import Path
from twostroke.lesson.progress import Progress
record = Progress(Path(sys.argv[1]))
for row in range(20):
    record.add("01", f"{sys.argv[2]}-{row}", "answer", value=str(row), right=True)
"""


def test_is_nothing_lost_when_two_kernels_write_at_once(tmp_path):
    file = tmp_path / "p.json"
    writers = [subprocess.Popen([sys.executable, "-c", WRITE_MANY, str(file), name]) for name in ("a", "b")]
    assert [writer.wait(300) for writer in writers] == [0, 0]
    assert len({entry["task"] for entry in Progress(file).entries()}) == 40


def test_does_a_failing_write_leave_the_old_record_whole(tmp_path, monkeypatch):
    record = Progress(tmp_path / "p.json")
    record.add("01", "leaf", "prediction", value="first")
    before = (tmp_path / "p.json").read_bytes()

    def full(*_args):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(progress.os, "replace", full)
    record.add("01", "leaf", "prediction", value="second")
    assert (tmp_path / "p.json").read_bytes() == before
    assert "Not written" in record.trouble
    assert record.last("01", "leaf")["value"] == "second", "kept in memory until the disk has room"
    monkeypatch.undo()
    record.add("01", "leaf", "prediction", value="third")
    assert [entry["value"] for entry in Progress(tmp_path / "p.json").entries()] == [
        "first",
        "second",
        "third",
    ]
    assert record.trouble == ""
    assert [file.name for file in tmp_path.iterdir()] == ["p.json"], "no half-written file stays behind"


@pytest.mark.parametrize(
    ("content", "why"),
    [
        ('{"entries": [', "cut off"),
        ("[]", "another form"),
        ('{"entries": [1]}', "entries that are no records"),
        ("\x00\x00", "zeros after a power cut"),
    ],
)
def test_is_a_damaged_record_put_aside_and_said(tmp_path, content, why):
    file = tmp_path / "p.json"
    file.write_text(content)
    record = Progress(file)
    assert record.entries() == [], why
    assert "put aside" in record.trouble
    aside = list(tmp_path.glob("p.damaged-*.json"))
    assert [one.read_text() for one in aside] == [content]
    record.add("01", "leaf", "prediction", value="new")
    assert Progress(file).last("01", "leaf")["value"] == "new"


def test_is_a_lock_left_by_a_dead_program_overcome(tmp_path):
    lock = tmp_path / "p.lock"
    lock.touch()
    old = time.time() - 60
    os.utime(lock, (old, old))
    record = Progress(tmp_path / "p.json")
    record.add("01", "leaf", "prediction", value="0.3 mm")
    assert record.trouble == ""
    assert not lock.exists()


def test_where_does_the_record_lie(tmp_path, monkeypatch):
    monkeypatch.delenv("TWOSTROKE_PROGRESS", raising=False)
    monkeypatch.delenv("TWOSTROKE_WORKSPACE", raising=False)
    monkeypatch.chdir(tmp_path)
    assert progress.place() == tmp_path / "my_progress.json"
    (tmp_path / ".two-stroke").mkdir()
    (tmp_path / ".two-stroke" / "laid.json").write_text("{}")
    (tmp_path / "lessons").mkdir()
    monkeypatch.chdir(tmp_path / "lessons")
    assert progress.place() == tmp_path / "my_progress.json", "in the workspace, not beside the lesson"
    monkeypatch.setenv("TWOSTROKE_PROGRESS", "off")
    assert progress.place() is None


@settings(max_examples=25, deadline=None)
@given(value=st.text(max_size=60))
def test_does_any_text_come_back_as_it_was(tmp_path_factory, value):
    file = tmp_path_factory.mktemp("record") / "p.json"
    Progress(file).add("01", "leaf", "prediction", value=value)
    assert Progress(file).last("01", "leaf")["value"] == value
    json.loads(file.read_text(encoding="utf-8"))
