"""Is a person gone from everything a class keeps, and is everybody else's work as it was?"""

from __future__ import annotations

import contextlib
import hashlib
import json
import shutil
import sqlite3
import unicodedata
import zipfile
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from urllib.parse import quote

import pytest

pytest.importorskip("nbgrader", reason="grading needs the teach extra")
pytest.importorskip("cryptography", reason="records need the teach extra")

from twostroke import workspace
from twostroke.grading import record
from twostroke.grading.erase import How, Spellings, erase, server
from twostroke.grading.journal import Journal, only_one
from twostroke.grading.place import Course
from twostroke.grading.pseudonyms import Pseudonyms
from twostroke.grading.reporting import report
from twostroke.grading.run import grade
from twostroke.grading.states import GradingError
from twostroke.lab.exam.place import Place

pytestmark = pytest.mark.slow
_spec = spec_from_file_location("invented_shop", Path(__file__).parent / "invented_shop.py")
invented_shop = module_from_spec(_spec)
_spec.loader.exec_module(invented_shop)
SAM = {"by": "Sam Super", "initials": "SS"}
# What an independent search looks for: no pattern of the product.
PLAIN = ("learner-01", "learner_01", "learner01", "ann demo", "anndemo", "demo, ann", "ann_demo", "s1001")


def exam_logs(course: Course, folded: str) -> list[Path]:
    """The logs of two sittings: named by a hash, so that a folder listing tells nobody's name."""
    names = [hashlib.sha256(f"{folded}\x1f{attempt}".encode()).hexdigest()[:32] for attempt in (1, 2)]
    return [course.home / "examination" / "logs" / f"{name}.jsonl" for name in names]


@pytest.fixture(scope="module")
def graded(tmp_path_factory):
    folder = tmp_path_factory.mktemp("shop")
    course = invented_shop.make(folder)
    record.sign(course, "learner-01", "air gap", **SAM)
    record.sign(course, "learner-02", "air gap", **SAM)
    for who in ("learner-01", "learner-02"):
        record.write(who, course=course)
    record.write("learner-01", course=course, to=course.reports, pseudonyms=True)
    report("01", course=course, pdf=True, oneroster=True)
    report("01", course=course, oneroster=True, pseudonyms=True)
    place = Place.make(course.home / "examination")
    for who in ("Learner-01", "learner-02"):
        logs = [place.log(who, attempt).path for attempt in (1, 2)]
        assert logs == exam_logs(course, who.lower())
        for log in logs:
            log.write_text('{"did": "spark test"}\n', encoding="utf-8")
    return course


@pytest.fixture
def shop(graded, tmp_path):
    return invented_shop.copy(graded, tmp_path)


def everything(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.name.endswith(("-wal", "-shm"))
    }


def hits(folder: Path, names=PLAIN) -> list[str]:
    """Files in whose name or bytes a plain spelling stands, by plain search."""
    found = []
    for name, data in everything(folder).items():
        text = (name + "\n" + data.decode("latin-1")).lower()
        found += [f"{name}: {each}" for each in names if each.lower() in text]
    return found


def rows(path: Path, without: str = "") -> dict[str, list[tuple]]:
    """All rows of a gradebook, row by row; those of one learner left out."""
    with contextlib.closing(sqlite3.connect(path)) as book:
        gone = {
            "student": f"id = '{without}'",
            "submitted_assignment": f"student_id = '{without}'",
        }
        mine = f"SELECT id FROM submitted_assignment WHERE student_id = '{without}'"
        notebooks = f"SELECT id FROM submitted_notebook WHERE assignment_id IN ({mine})"
        gone["submitted_notebook"] = f"assignment_id IN ({mine})"
        gone["grade"] = gone["comment"] = f"notebook_id IN ({notebooks})"
        names = [name for (name,) in book.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {
            name: sorted(
                book.execute(f'SELECT * FROM "{name}" WHERE NOT ({gone.get(name, "0")})').fetchall(), key=repr
            )
            for name in names
        }


def standing_files(folder: Path, who: str) -> dict[str, bytes]:
    return {name: data for name, data in everything(folder).items() if f"/{who}" in f"/{name}"}


def test_is_a_person_gone_and_everybody_else_as_before(shop):
    assert len(hits(shop.home)) > 20
    books = [shop.home / "gradebook.db", *sorted(shop.backups.glob("*.db"))]
    assert len(books) == 2
    before = {path.name: rows(path, "learner-01") for path in books}
    others = {who: standing_files(shop.home, who) for who in ("learner-02", "learner-03")}
    lines = {
        lab: [each for each in Journal.of(shop, lab).outcomes() if each.learner != "learner-01"]
        for lab in ("lab01", "lab04")
    }
    found = erase("Ann Demo", course=shop, dry_run=False)
    assert found.left == ()
    assert hits(shop.home) == []
    assert {path.name: rows(path) for path in books} == before
    assert {who: standing_files(shop.home, who) for who in others} == others
    assert {lab: Journal.of(shop, lab).outcomes() for lab in lines} == lines
    fresh = Course.at(shop.home)
    assert [each.id for each in fresh.classlist.learner] == ["learner-02", "learner-03"]
    assert "# by hand" in (shop.home / "class.toml").read_text(encoding="utf-8"), "the list stays as written"
    with pytest.raises(GradingError, match="nobody of that name"):
        erase("learner-01", course=fresh)


def test_are_reports_and_records_of_others_made_as_before(shop):
    before = [each for each in report("01", course=shop).standings if each.learner != "learner-01"]
    sealed = shop.home / "records" / "learner-02" / "learner-02_training_record.pdf"
    erase("learner-01", course=shop, dry_run=False)
    fresh = Course.at(shop.home)
    assert [each.outcome for each in report("01", course=fresh).standings] == [e.outcome for e in before]
    assert record.verify(sealed, course=fresh).whole
    assert record.write("learner-02", course=fresh).content["hands on"]["air gap"]
    assert hits(shop.home) == []


def test_does_a_later_run_find_nothing_to_do_again(shop, graded):
    """The state of the others is not lost: nothing is marked anew, and nobody comes back."""
    erase("learner-01", course=shop, dry_run=False)
    fresh = Course.at(shop.home)
    done = grade("01", course=fresh, trust=True, workers=1)
    assert (done.done, done.skipped) == (0, 2)
    assert hits(shop.home) == []


def test_does_a_dry_run_change_nothing_and_name_every_place(shop):
    before = everything(shop.home)
    found = erase("s1001", course=shop)
    assert everything(shop.home) == before
    assert found.dry_run
    places = {trace.path.relative_to(shop.home).parts[0] for trace in found.traces}
    assert places >= {
        "autograded", "submitted", "feedback", "journal", "backups", "records", "reports",
        "gradebook.db", "class.toml", "examination",
    }  # fmt: skip
    assert {trace.how for trace in found.traces} == {How.REMOVE, How.ROWS, How.LINES, How.LIST}
    done = erase("s1001", course=shop, dry_run=False)
    assert {trace.path for trace in done.traces} == {trace.path for trace in found.traces}


def test_are_logs_of_the_examination_gone_although_their_names_are_hashes(shop):
    Place(shop.home / "examination")
    mine, theirs = exam_logs(shop, "learner-01"), exam_logs(shop, "learner-02")
    assert all(path.is_file() for path in mine)
    erase("learner-01", course=shop, dry_run=False)
    assert not any(path.exists() for path in mine)
    assert all(path.is_file() for path in theirs)


def test_are_exports_under_the_pseudonym_found_too(shop):
    name = Pseudonyms.of(shop)("learner-01")
    (shop.reports / "grades.csv").write_text(f"person,points\n{name},5\np-other,6\n", encoding="utf-8")
    assert hits(shop.home, [name])
    assert erase("learner-01", course=shop, dry_run=False).left == ()
    assert hits(shop.home, [name]) == []


def test_is_somebody_whose_identifier_begins_alike_left_alone(shop):
    """learner-01 goes, learner-011 stays, in the database's bytes too."""
    book = shop.home / "gradebook.db"
    with contextlib.closing(sqlite3.connect(book)) as connection:
        connection.execute("INSERT INTO student (id, first_name) VALUES ('learner-011', 'Ann Demory')")
        connection.commit()
    assert erase("learner-01", course=shop, dry_run=False).left == ()
    assert any("learner-011" in row for row in rows(book)["student"])


def test_is_nothing_left_in_free_pages_of_a_database(shop):
    """Deleted with the plain means of the database, the words stay in its file; that is found and mended."""
    book = shop.home / "gradebook.db"
    with contextlib.closing(sqlite3.connect(book)) as connection:
        connection.execute("PRAGMA secure_delete=OFF")
        connection.execute("CREATE TABLE notes (text TEXT)")
        connection.executemany("INSERT INTO notes VALUES (?)", [(f"Ann Demo {n}" * 50,) for n in range(50)])
        connection.commit()
        connection.execute("DROP TABLE notes")
        connection.commit()
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    assert b"Ann Demo 7" in book.read_bytes()
    assert erase("learner-01", course=shop, dry_run=False).left == ()
    assert b"Ann Demo" not in book.read_bytes()


SPELT = [
    ("a comment on somebody else", "ann demo helped"),
    ("accents", "Ánn Demó"),
    ("escaped as JSON", json.dumps("Ánn Demo")),
    ("in an address", quote("Ann Demo")),
    ("two parts turned round", "Demo,  ANN"),
    ("underscores", "demo_ann_4711_assignsubmission_file_"),
    ("after a line end in a notebook", '"\\nAnn Demo"'),
    ("identifier in capitals", "LEARNER-01"),
    ("decomposed", unicodedata.normalize("NFD", "Ánn Demo")),
]


@pytest.mark.parametrize(("what", "text"), SPELT, ids=[each[0] for each in SPELT])
def test_is_each_spelling_blanked_in_the_papers_of_others(shop, what, text):
    """The names of the list are written with accents here, so that both directions are tried."""
    listed = shop.home / "class.toml"
    listed.write_text(
        listed.read_text(encoding="utf-8").replace('name = "Ann Demo"', 'name = "Ánn Demo"'), encoding="utf-8"
    )
    page = shop.feedback / "learner-02" / "lab01" / "note.html"
    page.write_text(f"<p>before {text} after</p>", encoding="utf-8")
    other = shop.home / "notes" / "lesson.txt"
    other.parent.mkdir()
    lines = ["keep this line", f"and take {text} out", "learner-011 and Joann Demory stay"]
    other.write_text("\n".join(lines) + "\n", encoding="utf-8")
    found = erase("learner-01", course=Course.at(shop.home), further_names=["Ánn Demó"], dry_run=False)
    assert found.left == ()
    said = page.read_text(encoding="utf-8")
    assert said.startswith("<p>before ")
    assert said.endswith(" after</p>")
    assert "erased" in said
    assert other.read_text(encoding="utf-8").splitlines() == [lines[0], lines[2]]


def test_keeps_a_hand_in_of_somebody_else_its_state_when_the_name_in_it_is_blanked(shop):
    path = shop.submitted / "learner-02" / "lab01" / "lab01.ipynb"
    notebook = json.loads(path.read_text(encoding="utf-8"))
    notebook["cells"][0]["source"] = "copied from Ann Demo (learner-01)"
    path.write_text(json.dumps(notebook), encoding="utf-8")
    grade("01", course=shop, trust=True, workers=1)
    before = Journal.of(shop, "lab01").get("learner-02")
    points = rows(shop.home / "gradebook.db", "learner-01")
    erase("learner-01", course=shop, dry_run=False)
    fresh = Course.at(shop.home)
    assert "erased" in path.read_text(encoding="utf-8")
    assert rows(shop.home / "gradebook.db") == points
    after = Journal.of(fresh, "lab01").get("learner-02")
    assert after.model_dump(exclude={"digest"}) == before.model_dump(exclude={"digest"})
    assert grade("01", course=fresh, trust=True, workers=1).done == 0
    assert hits(shop.home) == []


def test_is_a_comment_about_them_on_somebody_else_blanked_in_every_copy(shop):
    invented_shop.by_hand(shop, "lab01", "learner-02", 3.0)
    book = shop.home / "gradebook.db"
    with contextlib.closing(sqlite3.connect(book)) as connection:
        mine = "SELECT id FROM submitted_assignment WHERE student_id = 'learner-02'"
        notebook = f"SELECT id FROM submitted_notebook WHERE assignment_id IN ({mine})"
        first = f"SELECT min(rowid) FROM comment WHERE notebook_id IN ({notebook})"
        text = "'better than Ann Demo'"
        connection.execute(f"UPDATE comment SET manual_comment = {text} WHERE rowid = ({first})")
        connection.commit()
    assert erase("learner-01", course=shop, dry_run=False).left == ()
    texts = [row for row in rows(book)["comment"] if "better than erased" in row]
    assert len(texts) == 1


def test_are_marks_by_hand_of_others_still_in_order(shop):
    log = shop.journal / "lab04.marks.jsonl"
    entries = [
        {"number": 1, "learner": "learner-02", "undoes": None},
        {"number": 2, "learner": "learner-01", "undoes": None},
        {"number": 3, "learner": "learner-02", "undoes": 1},
        {"number": 4, "learner": "learner-03", "undoes": 2},
    ]
    log.write_text("".join(json.dumps(each) + "\n" for each in entries), encoding="utf-8")
    erase("learner-01", course=shop, dry_run=False)
    kept = [json.loads(line) for line in log.read_text(encoding="utf-8").splitlines()]
    assert [(each["number"], each["learner"], each["undoes"]) for each in kept] == [
        (1, "learner-02", None), (2, "learner-02", 1), (3, "learner-03", None)]  # fmt: skip


def test_are_further_folders_cleared_archives_too(shop, tmp_path):
    downloads = tmp_path / "downloads"
    downloads.mkdir()
    with zipfile.ZipFile(downloads / "lab01.zip", "w") as archive:
        archive.writestr("Ann Demo_4711_assignsubmission_file_/lab01.ipynb", "{}")
        archive.writestr("Bo Demo_4712_assignsubmission_file_/lab01.ipynb", '{"cells": []}')
    (downloads / "grades.csv").write_text("id,points\ns1001,5\ns1002,6\n", encoding="utf-8")
    (downloads / "grades.json").write_text('[{"learner": "learner-01"}, {"learner": "learner-02"}]')
    (downloads / "photo.bin").write_bytes(b"\0\1" + "Ann Demo".encode("utf-16-le"))
    found = erase("learner-01", course=shop, also=[downloads], dry_run=False)
    assert [each for each in found.left if "photo.bin" in each] == list(found.left) != []
    with zipfile.ZipFile(downloads / "lab01.zip") as archive:
        assert archive.namelist() == ["Bo Demo_4712_assignsubmission_file_/lab01.ipynb"]
        assert archive.read(archive.namelist()[0]) == b'{"cells": []}'
    assert (downloads / "grades.csv").read_text(encoding="utf-8") == "id,points\ns1002,6\n"
    assert json.loads((downloads / "grades.json").read_text(encoding="utf-8")) == [{"learner": "learner-02"}]
    with pytest.raises(GradingError, match="is not there"):
        erase("learner-02", course=shop, also=[tmp_path / "nowhere"])


def test_is_their_own_course_folder_removed_and_no_other_folder(shop, tmp_path):
    mine = workspace.lay_out(tmp_path / "course of ann").folder
    (mine / "my_progress.json").write_text('{"format": 1, "entries": []}', encoding="utf-8")
    other = tmp_path / "photographs"
    other.mkdir()
    with pytest.raises(GradingError, match="no workspace"):
        erase("learner-01", course=shop, workspaces=[other], dry_run=False)
    assert other.is_dir()
    assert hits(shop.home), "and nothing was removed"
    assert erase("learner-01", course=shop, workspaces=[mine]).traces[0].path == mine
    assert mine.is_dir()
    assert erase("learner-01", course=shop, workspaces=[mine], dry_run=False).left == ()
    assert not mine.exists()


def test_is_a_link_taken_away_and_what_it_shows_to_left_alone(shop, tmp_path):
    treasure = tmp_path / "elsewhere"
    treasure.mkdir()
    (treasure / "file.txt").write_text("of nobody", encoding="utf-8")
    (shop.submitted / "ann demo").symlink_to(treasure)
    assert erase("learner-01", course=shop, dry_run=False).left == ()
    assert (treasure / "file.txt").is_file()
    assert not (shop.submitted / "ann demo").is_symlink()


def test_is_what_cannot_be_changed_told_and_not_hidden(shop):
    """A signature given by the person on somebody else's record would break when it is changed."""
    record.sign(shop, "learner-02", "safety", by="Demo Ann", initials="DA")
    with pytest.raises(GradingError, match="the person themselves"):
        record.sign(shop, "learner-01", "safety", by="Ann Demo", initials="AD")
    found = erase("learner-01", course=shop, dry_run=False)
    assert any("signatures.jsonl" in each for each in found.left)
    assert record.write("learner-02", course=Course.at(shop.home)).content["hands on"]["safety"]


def test_is_a_run_that_was_cut_off_finished_by_the_next(shop, monkeypatch):
    from twostroke.grading.erase import remove

    real, calls = remove.clear, []

    def sometimes(course, trace, spellings):
        calls.append(trace)
        if len(calls) % 5 == 0:
            raise KeyboardInterrupt
        real(course, trace, spellings)

    monkeypatch.setattr(remove, "clear", sometimes)
    for _ in range(20):
        with contextlib.suppress(KeyboardInterrupt):
            done = erase("Ann Demo", course=Course.at(shop.home), dry_run=False)
            break
    assert len(calls) > 10
    assert done.left == ()
    assert hits(shop.home) == []


def test_does_it_wait_for_no_other_run(shop):
    with only_one(shop), pytest.raises(GradingError, match="another run"):
        erase("learner-01", course=shop, dry_run=False)
    assert hits(shop.home)


def test_is_a_gradebook_elsewhere_cleared_by_the_same_means_as_a_server(shop, tmp_path):
    away = tmp_path / "far" / "gradebook.db"
    away.parent.mkdir()
    shutil.move(shop.home / "gradebook.db", away)
    listed = shop.home / "class.toml"
    text = listed.read_text(encoding="utf-8")
    listed.write_text(f'gradebook = "sqlite:///{away}"\n{text}', encoding="utf-8")
    course = Course.at(shop.home)
    before = rows(away, "learner-01")
    copy = tmp_path / "copy.db"
    shutil.copy(away, copy)
    assert erase("learner-01", course=course, dry_run=False).left == ()
    assert rows(away) == before
    assert hits(away.parent) == []
    # the calls that a server gets
    shutil.copy(copy, away)
    who = Spellings(["learner-01", "Ann Demo"])
    assert server.look(course, who)
    server.take_out(course, "learner-01", who)
    assert server.look(course, who) == []
    assert rows(away) == before
