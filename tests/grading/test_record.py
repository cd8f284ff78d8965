"""Does a training record say what the gradebook says, keep signatures apart, and fit a page?"""

from __future__ import annotations

import contextlib
import io
import json
import re
import sqlite3
from datetime import date, timedelta
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

pytest.importorskip("nbgrader", reason="grading needs the teach extra")
pytest.importorskip("cryptography", reason="records need the teach extra")

from pypdf import PdfReader
from twostroke.grading import gradebook, record
from twostroke.grading.place import Course
from twostroke.grading.record import evidence, overview, page, signatures
from twostroke.grading.record.evidence import LabEvidence, TaskEvidence
from twostroke.grading.record.seal import Key, seal
from twostroke.grading.states import GradingError
from twostroke.lab.task import COMPETENCIES

_spec = spec_from_file_location("invented_shop", Path(__file__).parent / "invented_shop.py")
invented_shop = module_from_spec(_spec)
_spec.loader.exec_module(invented_shop)

SAM = {"by": "Sam Super", "initials": "SS"}


@pytest.fixture(scope="module")
def graded(tmp_path_factory):
    return invented_shop.make(tmp_path_factory.mktemp("shop"))


@pytest.fixture
def shop(graded, tmp_path):
    return invented_shop.copy(graded, tmp_path)


def words(pdf: bytes) -> str:
    return " ".join(" ".join(each.extract_text() for each in PdfReader(io.BytesIO(pdf)).pages).split())


def dump(course: Course) -> dict[str, list[dict]]:
    """All rows of all tables, read without the course's own code."""
    with contextlib.closing(sqlite3.connect(course.home / "gradebook.db")) as book:
        book.row_factory = sqlite3.Row
        names = [name for (name,) in book.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {name: [dict(row) for row in book.execute(f'SELECT * FROM "{name}"')] for name in names}


def lab(number: str, *tasks: tuple[str, float | None, float], counts: bool = True) -> LabEvidence:
    made = tuple(TaskEvidence(f"t{n}", "", name, got, of, False) for n, (name, got, of) in enumerate(tasks))
    return LabEvidence(number, "", counts, "" if counts else "a written answer to mark", "", "", made)


def test_are_points_those_of_the_gradebook_competency_by_competency(shop):
    made = record.write("Ann Demo", course=shop)
    rows = dump(shop)
    notebooks = {row["id"]: row["assignment_id"] for row in rows["submitted_notebook"]}
    mine = {row["id"] for row in rows["submitted_assignment"] if row["student_id"] == "learner-01"}
    booked = sum(
        row["auto_score"] if row["manual_score"] is None else row["manual_score"]
        for row in rows["grade"]
        if notebooks[row["notebook_id"]] in mine
    )
    shown = sum(each["points"] for one in made.content["graded"].values() for each in one["labs"].values())
    assert shown == pytest.approx(booked)
    assert shown == pytest.approx(
        sum(task["points"] for one in made.content["tasks"].values() for task in one.values())
    )
    assert set(made.content["graded"]) == set(COMPETENCIES)


def test_is_a_mark_by_hand_in_it_and_called_so(shop):
    made = record.write("learner-01", course=shop)
    task = made.content["tasks"]["lab 04"][invented_shop.WRITTEN]
    assert (task["points"], task["by hand"], task["final"]) == (3.0, True, True)
    assert made.content["graded"][task["competency"]]["labs"]["lab 04"]["by hand"]
    assert not made.content["graded"]["units and measuring"]["labs"]["lab 01"]["by hand"]


def test_counts_nothing_that_still_waits_for_a_person(graded, tmp_path):
    shop = invented_shop.copy(graded, tmp_path)
    book = gradebook.open_book(shop)
    (notebook,) = book.find_submission("lab04", "learner-01").notebooks
    for row in notebook.grades:
        if row.manual_score is not None:
            row.manual_score, row.needs_manual_grade = None, True
    book.db.commit()
    book.close()
    made = record.write("learner-01", course=shop).content
    spark = made["graded"]["spark testing"]
    assert (spark["state"], spark["share"]) == ("begun", None)
    assert any(each.startswith("lab 04") for each in made["open"]["waits for a person"])
    plan = record.plan(record.gather(shop)["learner-01"])
    assert plan.waits == ("03", "04")


def test_has_every_piece_of_evidence_a_day(shop):
    made = record.write("learner-02", course=shop).content
    pieces = [each for one in made["graded"].values() for each in one["labs"].values()]
    assert pieces
    for each in [*pieces, *made["labs"].values()]:
        assert each.get("date is", "received") == "received"
        assert date.fromisoformat(each["date"]) <= date.today() + timedelta(days=1)


def test_is_the_day_of_a_platform_taken_where_there_is_one(shop):
    made = record.write("learner-01", course=shop)
    whole = made.content["labs"]["lab 04"]
    assert (whole["date"], whole["date is"]) == ("2026-02-03", "handed in")
    assert made.content["graded"]["safety"]["labs"]["lab 04"]["date"] == "2026-02-03"
    assert "3 Feb 2026" in words(made.pdf.read_bytes())


@pytest.mark.parametrize(
    ("why", "labs", "name", "state"),
    [
        ("nothing handed in", [], "air gap", "open"),
        ("the only lab, all right", [lab("05", ("air gap", 19, 19))], "air gap", "proven"),
        ("just 80 per cent", [lab("05", ("air gap", 15.2, 19))], "air gap", "proven"),
        ("just below", [lab("05", ("air gap", 15.1, 19))], "air gap", "begun"),
        ("marks that wait prove nothing", [lab("05", ("air gap", 19, 19), counts=False)], "air gap", "begun"),
        ("a small part of the course's points", [lab("02", ("magnets, key and timing", 1, 1))],
         "magnets, key and timing", "begun"),
        ("safety: one lab does not make another good",
         [lab(n, ("safety", p, 20)) for n, p in (("01", 20), ("02", 10), ("04", 20), ("05", 20))],
         "safety", "begun"),
        ("other competencies add up",
         [lab("01", ("units and measuring", 40, 40)), lab("02", ("units and measuring", 0, 5))],
         "units and measuring", "proven"),
    ],
)  # fmt: skip
def test_what_counts_as_proven(why, labs, name, state):
    found = {each.name: each for each in evidence.competencies(labs)}
    assert found[name].state == state, why


def test_is_a_signature_never_worked_out_from_marks_nor_marks_from_a_signature(shop):
    before = record.write("learner-01", course=shop).content
    assert all(not signed for signed in before["hands on"].values())
    assert before["open"]["signature"] == list(COMPETENCIES)
    rows = dump(shop)
    for name in COMPETENCIES:
        record.sign(shop, "learner-01", name, **SAM)
    after = record.write("learner-01", course=shop).content
    assert after["graded"] == before["graded"]
    assert after["open"]["graded work"] == before["open"]["graded work"]
    assert after["open"]["signature"] == []
    assert dump(shop) == rows


def test_has_a_signature_name_day_and_initials_on_the_page(shop):
    record.sign(shop, "s1001", "air", day=date(2026, 3, 7), note="demo engine A", **SAM)
    made = record.write("Ann Demo", course=shop)
    (signed,) = made.content["hands on"]["air gap"].values()
    assert signed == {"by": "Sam Super", "date": "2026-03-07", "initials": "SS", "note": "demo engine A"}
    assert "Sam Super 7 Mar 2026 SS" in words(made.pdf.read_bytes())
    assert "Sam Super" in made.html.read_text(encoding="utf-8")


def test_stays_a_signature_that_was_taken_back_in_the_file_and_leaves_the_record(shop):
    record.sign(shop, "learner-02", "air gap", **SAM)
    record.withdraw(shop, "learner-02", 1, note="entered for the wrong person", **SAM)
    assert record.write("learner-02", course=shop).content["hands on"]["air gap"] == {}
    assert [line.withdraws for line in signatures.read(shop, "learner-02")] == [0, 1]
    with pytest.raises(GradingError, match="none to take back"):
        record.withdraw(shop, "learner-02", 1, note="again", **SAM)


@pytest.mark.parametrize(
    ("what", "says"),
    [
        ({"by": "", "initials": "SS"}, "name and initials"),
        ({"by": "Sam Super", "initials": " "}, "name and initials"),
        ({"by": "Sam Super", "initials": "SAMSUPER"}, "at most six"),
        ({"by": "ann demo", "initials": "AD"}, "the person themselves"),
        ({**SAM, "day": date.today() + timedelta(days=2)}, "not one to come"),
        ({**SAM, "competency": "welding"}, "choose one of"),
        ({**SAM, "competency": "s"}, "choose one of"),
        ({**SAM, "learner": "Ann Demmo"}, "did you mean Ann Demo"),
    ],
)
def test_is_a_signature_that_says_too_little_refused(shop, what, says):
    asked = {"learner": "learner-01", "competency": "safety", **what}
    with pytest.raises(GradingError, match=says):
        record.sign(shop, asked.pop("learner"), asked.pop("competency"), **asked)
    assert signatures.read(shop, "learner-01") == []


def test_is_a_new_hire_known_at_once(tmp_path):
    shop = Course.at(tmp_path)
    made = record.enter(shop, "Robin Demo")
    assert (made.id, made.name) == ("Robin-Demo", "Robin Demo")
    assert record.find(shop, "robin demo") == made
    content = record.write("Robin Demo", course=shop).content
    assert [step["module"] for step in content["plan"]["steps"]][:2] == ["00", "01"]
    assert content["open"]["graded work"] == list(COMPETENCIES)
    with pytest.raises(GradingError, match="known already"):
        record.enter(shop, "ROBIN demo")
    with pytest.raises(GradingError, match="letters or digits"):
        record.enter(shop, " - ")


def full(count: int) -> list[LabEvidence]:
    """Somebody with evidence in every lab of the course and a signature for everything."""
    offered = evidence.offered()
    numbers = sorted({number for one in offered.values() for number in one})[:count]
    return [
        LabEvidence(n, "Title", True, "", "2026-11-22", "handed in", tuple(
            TaskEvidence(name, name, name, of[n], of[n], True) for name, of in offered.items() if n in of))
        for n in numbers
    ]  # fmt: skip


@pytest.mark.parametrize("count", [0, 1, 4, 8, 99])
def test_fits_a_person_on_one_page(tmp_path, count):
    shop = Course.at(tmp_path)
    person = record.enter(shop, "Robin Demo With A Rather Long Name")
    for name in COMPETENCIES if count else []:
        record.sign(shop, person.id, name, by="Samantha Supervisor", initials="SSL")
    made = record.content(shop, person, evidence=full(count), note="Invented demo data")
    sheet = page.sheet(seal(made, Key.of(shop)))
    assert sheet.pages() == 1
    shown = words(sheet.to_pdf())
    for name in COMPETENCIES:
        assert name in shown.replace("- ", "-")
    assert "Issued by (name, date, initials)" in shown


def test_are_several_people_shown_side_by_side(shop):
    record.sign(shop, "learner-02", "units", **SAM)
    rows = overview.overview(shop)
    assert [row.name for row in rows] == ["Ann Demo", "Bo Demo", "Cy Demo"]
    bo = rows[1]
    assert bo.signed == ("units and measuring",)
    assert bo.graded == {name: one["state"] for name, one in
                         record.write("Bo Demo", course=shop).content["graded"].items()}  # fmt: skip
    assert "spark testing" in rows[0].to_sign
    made = overview.sheet(rows, "Invented demo shop", "Invented demo data")
    assert made.pages() == 1
    shown = words(made.to_pdf())
    assert all(row.name in shown for row in rows)
    assert len(overview.table(rows).splitlines()) == 1 + 3 * len(COMPETENCIES)
    assert [row.name for row in overview.overview(shop, ["s1003", "Cy Demo"])] == ["Cy Demo"]


def test_does_an_export_under_pseudonyms_name_nobody(shop):
    record.sign(shop, "learner-01", "safety", note="on Ann's bench", **SAM)
    names = ["learner-01", "learner-02", "learner-03", "Demo", "Ann", "s1001", "Sam", "SS"]
    rows = overview.overview(shop, pseudonyms=True)
    made = record.write("Ann Demo", course=shop, pseudonyms=True)
    again = record.write("Ann Demo", course=shop, pseudonyms=True)
    texts = {
        "table": overview.table(rows),
        "sheet": words(overview.sheet(rows, "Class").to_pdf()),
        "data": made.data.read_text(encoding="utf-8"),
        "pdf": words(made.pdf.read_bytes()),
        "page": made.html.read_text(encoding="utf-8"),
    }
    for kind, text in texts.items():
        text = text.replace("Invented demo shop", "")
        found = [name for name in names if re.search(rf"(?<![A-Za-z0-9]){name}(?![A-Za-z0-9])", text)]
        assert not found, f"{kind}: {found}"
    assert made.content["person"] == again.content["person"]
    assert made.content["person"]["id"] in {row.id for row in rows}
    assert made.content["graded"]["safety"]["labs"]["lab 01"]["points"] > 0
    assert made.pdf.name.startswith("p-")


def test_is_the_data_file_what_the_page_was_made_from(shop):
    made = record.write("learner-02", course=shop)
    data = json.loads(made.data.read_text(encoding="utf-8"))
    (held,) = PdfReader(made.pdf).attachments[page.ENCLOSED]
    assert json.loads(held) == data
    assert data["content"] == json.loads(json.dumps(made.content))
