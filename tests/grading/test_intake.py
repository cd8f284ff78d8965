"""Is every file that reaches an instructor given to the right learner, or a reason?"""

from __future__ import annotations

import hashlib
import io
import os
import stat
import tracemalloc
import zipfile
from pathlib import Path

import pytest
from twostroke.grading import invent
from twostroke.grading.classlist import ClassList, Learner, read_class
from twostroke.grading.intake import receive, store
from twostroke.grading.names import copy_number, lab_in, whose
from twostroke.grading.place import Course, lab_name
from twostroke.grading.shelf import put_aside
from twostroke.grading.states import GradingError, Reason
from twostroke.grading.unpack import read_files

CLASS = ClassList(
    learner=(
        Learner(id="learner-01", name="Learner One", also=("s1001", "One Learner")),
        Learner(id="learner-02", name="Learner Two", also=("s1002",)),
    )
)
NOTEBOOK = b'{"cells": [], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}'

PLACES = [
    # place, learner with the class list, learner without it, why
    ("learner-01/lab01/lab01.ipynb", "learner-01", "learner-01", "nbgrader's own layout"),
    ("learner-01/lab01.ipynb", "learner-01", "learner-01", "one folder a learner"),
    ("lab01/learner-01/lab01.ipynb", "learner-01", "learner-01", "one folder a lab"),
    ("submissions/learner-01/lab01 (1).ipynb", "learner-01", "learner-01", "browser's second download"),
    ("LEARNER 01/Lab 1.ipynb", "learner-01", "LEARNER-01", "case and spaces do not matter"),
    (
        "Learner One_4711_assignsubmission_file_/lab01.ipynb",
        "learner-01",
        "Learner-One",
        "download, folders with a number",
    ),
    (
        "Learner One_4711_assignsubmission_file/lab01.ipynb",
        "learner-01",
        "Learner-One",
        "the same, older form",
    ),
    ("learnerone_84512_991273_lab01.ipynb", "learner-01", "learnerone", "download, all in one folder"),
    ("learnerone_LATE_84512_991273_lab01-2.ipynb", "learner-01", "learnerone", "the same, handed in late"),
    (
        "Lab 01_s1001_attempt_2026-03-01-10-11-12_lab01.ipynb",
        "learner-01",
        "s1001",
        "download with the attempt's date",
    ),
    (
        "481-77 - Learner One - 1 March 2026 1011/lab01.ipynb",
        "learner-01",
        "Learner-One",
        "download with a date folder",
    ),
    ("learner-01_lab01.ipynb", "learner-01", "learner-01", "renamed by hand, name first"),
    ("lab01_learner-01.ipynb", "learner-01", "learner-01", "renamed by hand, lab first"),
    ("lab01 - One Learner (2).ipynb", "learner-01", "One-Learner", "renamed by hand, with a copy number"),
    ("s1002/work.zip/lab01.ipynb", "learner-02", "s1002", "an archive in the learner's folder"),
    ("s1002.zip/lab01.ipynb", "learner-02", "s1002", "an archive named after the learner"),
    ("stranger/lab01.ipynb", "stranger", "stranger", "not on the list"),
    ("lab01.ipynb", None, None, "nothing says whose"),
]


def write(root: Path, place: str, data: bytes = NOTEBOOK) -> None:
    """Write a file; a part ending in .zip becomes an archive around the rest."""
    parts = place.split("/")
    for number, part in enumerate(parts[:-1]):
        if part.endswith(".zip"):
            buffer = io.BytesIO()
            with zipfile.ZipFile(buffer, "w") as archive:
                archive.writestr("/".join(parts[number + 1 :]), data)
            return write(root, "/".join(parts[: number + 1]), buffer.getvalue())
    (root / place).parent.mkdir(parents=True, exist_ok=True)
    (root / place).write_bytes(data)
    return None


@pytest.mark.parametrize(("place", "listed", "unlisted", "why"), PLACES)
def test_whose_file_is_it(place, listed, unlisted, why):
    parts = tuple(place.split("/"))
    assert whose(parts, CLASS).learner == listed, why
    assert whose(parts, ClassList()).learner == unlisted, why
    assert whose(parts, CLASS).listed == (listed in ("learner-01", "learner-02"))


@pytest.mark.parametrize(("place", "listed", "unlisted", "why"), PLACES[:-2])
@pytest.mark.parametrize("packed", [False, True])
def test_is_a_download_taken_as_it_comes(tmp_path, place, listed, unlisted, why, packed):
    inbox = tmp_path / "inbox"
    write(inbox, place)
    if packed:
        target = tmp_path / "all.zip"
        with zipfile.ZipFile(target, "w") as archive:
            for path in inbox.rglob("*"):
                if path.is_file():
                    archive.write(path, path.relative_to(inbox))
        inbox = target
    (got,) = receive(inbox, "lab01", CLASS)
    assert (got.learner, got.usable, got.causes) == (listed, True, []), why
    assert got.data == NOTEBOOK


def test_is_the_whole_download_without_its_outer_folder_the_same(tmp_path):
    for learner in ("learner-01", "learner-02"):
        write(tmp_path, f"Course download/lab one/{learner}/lab01.ipynb")
    assert [got.learner for got in receive(tmp_path, "lab01", ClassList())] == ["learner-01", "learner-02"]


def test_does_a_stranger_need_a_person_and_still_get_marked(tmp_path):
    write(tmp_path, "stranger/lab01.ipynb")
    (got,) = receive(tmp_path, "lab01", CLASS)
    assert got.usable
    assert [cause.reason for cause in got.causes] == [Reason.UNKNOWN_LEARNER]


def test_is_a_file_without_an_owner_not_graded(tmp_path):
    write(tmp_path, "lab01.ipynb")
    (got,) = receive(tmp_path, "lab01", CLASS)
    assert not got.usable
    assert [cause.reason for cause in got.causes] == [Reason.UNKNOWN_LEARNER]


def test_is_the_latest_of_several_taken(tmp_path):
    write(tmp_path, "learner-01/lab01.ipynb", b'{"cells": [1]}')
    write(tmp_path, "learner-01/lab01 (2).ipynb", b'{"cells": [3]}')
    write(tmp_path, "learner-01/lab01 (1).ipynb", b'{"cells": [2]}')
    (got,) = receive(tmp_path, "lab01", CLASS)
    assert got.data == b'{"cells": [3]}'
    assert any("set aside" in note for note in got.notes)


def test_is_another_labs_folder_left_alone(tmp_path):
    write(tmp_path, "learner-01/lab01/lab01.ipynb")
    write(tmp_path, "learner-01/lab02/lab02.ipynb")
    write(tmp_path, "learner-02/lab02/lab02.ipynb")
    assert [got.learner for got in receive(tmp_path, "lab01", CLASS)] == ["learner-01"]


def test_is_only_another_labs_file_said_so(tmp_path):
    write(tmp_path, "learner-01/lab02.ipynb")
    (got,) = receive(tmp_path, "lab01", CLASS)
    assert [cause.reason for cause in got.causes] == [Reason.WRONG_LAB]


UNSAFE = {
    "parent": "../../lab01.ipynb",
    "absolute": "/etc/lab01.ipynb",
    "drive": "C:/lab01.ipynb",
    "backslash": "..\\..\\lab01.ipynb",
}


@pytest.mark.parametrize("name", UNSAFE)
def test_is_a_path_out_of_an_archive_refused(tmp_path, name):
    place = tmp_path / "inbox" / "learner-01" / "lab01.zip"
    place.parent.mkdir(parents=True)
    with zipfile.ZipFile(place, "w") as archive:
        archive.writestr(UNSAFE[name], NOTEBOOK)
    (got,) = receive(tmp_path / "inbox", "lab01", CLASS)
    assert not got.usable
    assert [cause.reason for cause in got.causes] == [Reason.UNSAFE]
    assert sorted(p.name for p in tmp_path.rglob("*.ipynb")) == []


def test_is_a_link_inside_an_archive_not_followed(tmp_path):
    place = tmp_path / "learner-01" / "lab01.zip"
    place.parent.mkdir(parents=True)
    info = zipfile.ZipInfo("lab01.ipynb")
    info.external_attr = (stat.S_IFLNK | 0o777) << 16
    with zipfile.ZipFile(place, "w") as archive:
        archive.writestr(info, "/etc/passwd")
    (got,) = receive(tmp_path, "lab01", CLASS)
    assert [cause.reason for cause in got.causes] == [Reason.UNSAFE]
    assert got.data == b""


@pytest.mark.parametrize("kind", ["file", "folder", "pipe"])
def test_is_a_link_or_pipe_in_a_folder_not_read(tmp_path, kind):
    secret = tmp_path / "secret"
    secret.mkdir()
    (secret / "lab01.ipynb").write_bytes(b"the gradebook")
    inbox = tmp_path / "inbox" / "learner-01"
    inbox.mkdir(parents=True)
    if kind == "file":
        (inbox / "lab01.ipynb").symlink_to(secret / "lab01.ipynb")
    elif kind == "folder":
        (inbox / "lab01").symlink_to(secret, target_is_directory=True)
    else:
        os.mkfifo(inbox / "lab01.ipynb")
    (got,) = receive(tmp_path / "inbox", "lab01", CLASS)
    assert not got.usable
    assert got.data == b""
    assert [cause.reason for cause in got.causes] == [Reason.UNSAFE]


def test_is_a_nest_of_archives_given_up(tmp_path):
    data, name = NOTEBOOK, "lab01.ipynb"
    for _ in range(8):
        buffer = io.BytesIO()
        with zipfile.ZipFile(buffer, "w") as archive:
            archive.writestr(name, data)
        data, name = buffer.getvalue(), "lab01.zip"
    write(tmp_path, "learner-01/lab01.zip", data)
    (got,) = receive(tmp_path, "lab01", CLASS)
    assert [cause.reason for cause in got.causes] == [Reason.UNSAFE]


def test_is_an_archive_that_lies_about_its_size_refused(tmp_path):
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("lab01.ipynb", bytes(70 * 2**20))
    data = bytearray(buffer.getvalue())
    place = data.rfind(b"PK\x01\x02")
    data[place + 24 : place + 28] = (100).to_bytes(4, "little")
    write(tmp_path, "learner-01/lab01.zip", bytes(data))
    (got,) = receive(tmp_path, "lab01", CLASS)
    assert not got.usable
    assert got.causes[0].reason in (Reason.UNSAFE, Reason.CORRUPT)


@pytest.mark.parametrize(
    ("name", "data", "reason"),
    [
        ("lab01.pdf", b"%PDF-1.7", Reason.CORRUPT),
        ("lab01.docx", b"PK", Reason.CORRUPT),
        ("lab01.ipynb", b"", Reason.EMPTY),
        ("lab01.zip", b"", Reason.EMPTY),
        ("lab01.zip", b"not an archive", Reason.CORRUPT),
    ],
)
def test_does_a_spoilt_file_get_its_reason(tmp_path, name, data, reason):
    write(tmp_path, f"learner-01/{name}", data)
    (got,) = receive(tmp_path, "lab01", CLASS)
    assert not got.usable
    assert [cause.reason for cause in got.causes] == [reason]


def test_is_a_notebook_with_a_second_ending_accepted(tmp_path):
    write(tmp_path, "learner-01/lab01.ipynb.txt")
    (got,) = receive(tmp_path, "lab01", CLASS)
    assert got.usable


def test_is_a_hand_in_time_of_nbgrader_kept(tmp_path):
    write(tmp_path, "learner-01/lab01/lab01.ipynb")
    write(tmp_path, "learner-01/lab01/timestamp.txt", b"2026-03-01 10:00:00 UTC")
    (got,) = receive(tmp_path, "lab01", CLASS)
    assert got.handed_in.isoformat() == "2026-03-01T10:00:00"


def test_is_an_older_different_file_kept(tmp_path):
    course = Course.at(tmp_path / "home")
    for data in (b'{"cells": [1]}', b'{"cells": [2]}'):
        write(tmp_path / "inbox", "learner-01/lab01.ipynb", data)
        store(course, "lab01", receive(tmp_path / "inbox", "lab01", CLASS)[0])
    assert (course.submitted / "learner-01" / "lab01" / "lab01.ipynb").read_bytes() == b'{"cells": [2]}'
    (kept,) = (course.backups / "submitted").rglob("*.ipynb")
    assert kept.read_bytes() == b'{"cells": [1]}'


@pytest.mark.parametrize(
    ("text", "lab"), [("1", "lab01"), ("01", "lab01"), (1, "lab01"), ("Lab 12", "lab12")]
)
def test_how_may_a_lab_be_written(text, lab):
    assert lab_name(text) == lab


@pytest.mark.parametrize("text", ["", "lab", "../01", "001x", "lab 100"])
def test_is_no_lab_refused(text):
    with pytest.raises(GradingError, match="write its number"):
        lab_name(text)


@pytest.mark.parametrize(
    ("name", "lab", "number"),
    [("lab01.ipynb", "lab01", 0), ("lab01 (3).ipynb", "lab01", 3), ("Lab 7 - copy.ipynb", "lab07", 1),
     ("notes.ipynb", None, 0), ("collab1.ipynb", None, 0), ("lab01_final v2.ipynb", "lab01", 2)],
)  # fmt: skip
def test_is_lab_and_copy_read_from_a_name(name, lab, number):
    assert lab_in(name) == lab
    assert copy_number(name) == number


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[[learner]]\nname = 'x'", "id"),
        ("[[learner]]\nid = '../x'", "folder name"),
        ("[[learner]]\nid = 'a'\n[[learner]]\nid = 'A'", "belongs to"),
        ("[[learner]]\nid = 'a'\nnick = 'b'", "class.example.toml"),
        ("learner = [", "cannot be read"),
    ],
)
def test_is_a_wrong_class_list_refused_in_words(tmp_path, text, said):
    path = tmp_path / "class.toml"
    path.write_text(text)
    with pytest.raises(GradingError, match=said):
        read_class(path)


def test_is_the_example_class_list_sound():
    found = read_class(Course.at().home / "class.example.toml")
    assert len(found.learner) >= 3


def test_is_a_path_that_is_nothing_refused(tmp_path):
    with pytest.raises(GradingError, match="give a folder"):
        list(read_files(tmp_path / "missing"))


@pytest.mark.parametrize("size", [0, 1, 512, 513, 100_000])
def test_is_a_content_put_aside_the_same_when_read_again(size):
    data = bytes(range(256)) * (size // 256 + 1)
    kept = [put_aside(data[:size]), put_aside(b"between"), put_aside(data[: size // 2])]
    assert kept[0].read() == data[:size]
    assert kept[0].head(5) == data[:size][:5]
    assert kept[0].digest == hashlib.sha256(data[:size]).hexdigest()
    assert kept[2].read() == data[: size // 2]


def test_does_memory_not_grow_with_the_files_of_a_class(tmp_path):
    """Sixteen megabytes of hand-ins, as outputs can make them, held by far less than that."""
    for number in range(16):
        invent.put(tmp_path / "inbox", f"learner-{number:02d}", "lab01", b'{"cells": []}' + bytes(2**20))
    tracemalloc.start()
    found = receive(tmp_path / "inbox", "lab01", ClassList())
    held, _ = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert len(found) == 16
    assert held < 2**20
    assert all(len(each.data) == 2**20 + 13 for each in found)
