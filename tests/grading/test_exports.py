"""Can a school's own system read the exports, and do they claim nothing that is not so?

The tables below are those of 1EdTech OneRoster, CSV Tables, version 1.1: names and order of columns as in
the list of the R package oneRoster (2020, seen), what is required and the words of scoreStatus from memory.
They are written down apart from the export, so that a slip there shows.
"""

from __future__ import annotations

import csv
import io
import json
import re
import zipfile
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner
from twostroke import cli
from twostroke.grading import course_report, oneroster, reporting
from twostroke.grading.attempts import Line
from twostroke.grading.classlist import ClassList
from twostroke.grading.place import Course
from twostroke.grading.policy import Policy, School
from twostroke.grading.standing import Standing
from twostroke.grading.states import Cause, GradingError, Outcome, Reason, State, TaskResult

TODAY = date(2026, 12, 2)
REQUIRED = {  # column -> required in bulk
    "categories": {"sourcedId": True, "status": False, "dateLastModified": False, "title": True},
    "lineItems": {
        "sourcedId": True, "status": False, "dateLastModified": False, "title": True, "description": False,
        "assignDate": True, "dueDate": True, "classSourcedId": True, "categorySourcedId": True,
        "gradingPeriodSourcedId": True, "resultValueMin": True, "resultValueMax": True,
    },
    "results": {
        "sourcedId": True, "status": False, "dateLastModified": False, "lineItemSourcedId": True,
        "studentSourcedId": True, "scoreStatus": True, "score": True, "scoreDate": True, "comment": False,
    },
}  # fmt: skip
SCORE_STATUS = {"exempt", "fully graded", "not submitted", "partially graded", "submitted"}
MANIFEST = {
    "manifest.version", "oneroster.version", "file.academicSessions", "file.categories", "file.classes",
    "file.classResources", "file.courses", "file.courseResources", "file.demographics", "file.enrollments",
    "file.lineItems", "file.orgs", "file.resources", "file.results", "file.users", "source.systemName",
    "source.systemCode",
}  # fmt: skip
DAY = re.compile(r"\d{4}-\d{2}-\d{2}")


def standing(learner: str, points: float | None, state: State = State.GRADED, **more) -> Standing:
    task = TaskResult(grade_id="gap_mark", task="gap", points=points, max_points=24, marked="twice")
    marked = [] if points is None else [task]
    causes = () if state is State.GRADED else (Cause(reason=Reason.CRASHED, detail=f"{learner} did it"),)
    outcome = Outcome(learner=learner, lab="lab01", state=state, tasks=marked, causes=list(causes))
    return Standing(
        outcome, state, causes, points, points if state is State.GRADED else None, tuple(marked), **more
    )


CLASS = [
    standing("learner-01", 24.0),
    standing("learner-02", 7.25),
    standing("learner-03", 12.0, State.PERSON),
    standing("learner-04", None, State.NOT_GRADED),
    standing("=learner-05", 0.0),
]


@pytest.fixture
def course(tmp_path):
    (tmp_path / "class.toml").write_text(
        'course = "tests"\n[school]\nclass_id = "class-a"\nperiod_id = "winter"\n'
        "[due]\nlab01 = 2026-12-01T18:00:00+01:00\n"
    )
    return Course.at(tmp_path)


def read(data: bytes) -> dict[str, list[dict[str, str]]]:
    with zipfile.ZipFile(io.BytesIO(data)) as made:
        assert all("/" not in name for name in made.namelist())
        texts = {name.removesuffix(".csv"): made.read(name).decode("utf-8") for name in made.namelist()}
    return {name: list(csv.DictReader(io.StringIO(text))) for name, text in texts.items()}


def test_does_the_archive_keep_to_the_tables_of_the_standard(course):
    found = read(oneroster.archive(course, {"lab01": CLASS}, TODAY))
    assert set(found) == {"manifest", *REQUIRED}
    for name, columns in REQUIRED.items():
        assert found[name], name
        for row in found[name]:
            assert list(row) == list(columns), name
            for column, required in columns.items():
                assert bool(row[column]) or not required, (name, column)
            assert row["status"] == row["dateLastModified"] == ""  # blank in bulk
        assert len({row["sourcedId"] for row in found[name]}) == len(found[name])
    listed = {row["propertyName"]: row["value"] for row in found["manifest"]}
    assert set(listed) == MANIFEST
    assert (listed["manifest.version"], listed["oneroster.version"]) == ("1.0", "1.1")
    for name, value in listed.items():
        if name.startswith("file."):
            assert value == ("bulk" if name.removeprefix("file.") in found else "absent")


def test_do_the_rows_refer_to_each_other_and_to_the_school(course):
    found = read(oneroster.archive(course, {"lab01": CLASS, "lab02": CLASS[:1]}, TODAY))
    items = {row["sourcedId"]: row for row in found["lineItems"]}
    assert len(items) == 2
    for row in items.values():
        assert row["categorySourcedId"] in {each["sourcedId"] for each in found["categories"]}
        assert (row["classSourcedId"], row["gradingPeriodSourcedId"]) == ("class-a", "winter")
        assert row["resultValueMax"] == "24"
        assert DAY.fullmatch(row["assignDate"])
        assert DAY.fullmatch(row["dueDate"])
        assert row["assignDate"] <= row["dueDate"]
    assert next(r["dueDate"] for r in items.values() if r["title"].startswith("Lab 01")) == "2026-12-01"
    for row in found["results"]:
        assert row["lineItemSourcedId"] in items
        assert row["scoreStatus"] in SCORE_STATUS
        assert 0 <= float(row["score"]) <= float(items[row["lineItemSourcedId"]]["resultValueMax"])
        assert DAY.fullmatch(row["scoreDate"])


def test_has_what_is_not_graded_no_row_and_what_waits_its_own_word(course):
    rows = read(oneroster.archive(course, {"lab01": CLASS}, TODAY))["results"]
    found = {row["studentSourcedId"]: (row["scoreStatus"], row["score"]) for row in rows}
    assert found == {
        "learner-01": ("fully graded", "24"),
        "learner-02": ("fully graded", "7.25"),
        "learner-03": ("partially graded", "12"),
        "=learner-05": ("fully graded", "0"),
    }


def test_is_the_archive_the_same_each_time(course):
    first = oneroster.archive(course, {"lab01": CLASS}, TODAY)
    assert oneroster.archive(course, {"lab01": CLASS}, TODAY) == first


def test_can_columns_be_chosen_and_renamed():
    text = reporting.table(CLASS, ["learner=Student ID", "percent=Grade", "state"], with_tasks=False)
    rows = list(csv.reader(io.StringIO(text)))
    assert rows[0] == ["Student ID", "Grade", "state"]
    assert rows[1] == ["learner-01", "100", "graded"]
    assert rows[3] == ["learner-03", "", "needs a person"]
    assert rows[5][0] == "'=learner-05"


def test_can_a_heading_be_no_formula():
    assert reporting.table([], ["learner==1+1"]).startswith("'=1+1")


def test_are_late_work_and_hand_ins_in_table_and_report():
    lines = (Line(1, 20.0, False), Line(2, 21.6, True))
    each = standing("learner-01", 21.6, penalty=2.4, hand_ins=lines)
    each.outcome.handed_in = datetime(2026, 12, 1, 20, tzinfo=UTC)
    row = next(csv.DictReader(io.StringIO(reporting.table([each]))))
    assert (row["late"], row["hand-ins"], row["handed in"]) == ("2.4", "2", "2026-12-01T20:00:00+00:00")
    agreed = ClassList(policy=Policy(late_percent_a_day=10, attempts=3), school=School())
    page = reporting.page(reporting.content_of("lab01", [each], agreed))
    for words in (
        "3 hand-ins of a lab, the best counts",
        "10 % off",
        "2.4 points off",
        "hand-in 2: 21.6 points, counts",
    ):
        assert words in page, words


def test_does_an_export_under_pseudonyms_name_nobody(make_class):
    room = make_class()
    room.put("learner-01", room.right("learner-01"))
    room.with_code("learner-02", "import os; os._exit(1)", task=4)
    room.grade(workers=1)
    made = reporting.report("01", course=room.course, pdf=True, oneroster=True, pseudonyms=True)
    with zipfile.ZipFile(made.results) as results:
        texts = [results.read(name).decode() for name in results.namelist()]
    texts += [made.html.read_text(encoding="utf-8"), made.table.read_text(encoding="utf-8")]
    pypdf = pytest.importorskip("pypdf")
    texts.append("".join(page.extract_text() for page in pypdf.PdfReader(made.pdf).pages))
    for text in texts:
        assert "learner-0" not in text
    assert sum("p-" in text for text in texts) >= 4
    plain = reporting.report("01", course=room.course)
    assert plain.html != made.html
    assert "learner-01" in plain.html.read_text(encoding="utf-8")


def test_are_all_marks_of_a_course_in_one_table():
    other = [standing("learner-01", 12.0), standing("learner-02", None, State.NOT_GRADED)]
    rows = list(csv.DictReader(io.StringIO(course_report.marks({"lab01": CLASS[:4], "lab02": other}))))
    assert [row["learner"] for row in rows] == [f"learner-0{n}" for n in (1, 2, 3, 4)]
    first = rows[0]
    assert (first["lab01"], first["lab02"], first["labs graded"]) == ("24", "12", "2")
    assert (first["points"], first["possible"], first["percent"]) == ("36", "48", "75")
    assert (rows[1]["lab01"], rows[1]["lab02"], rows[1]["percent"]) == ("7.25", "", "30.2")
    assert (rows[2]["lab01"], rows[2]["labs graded"], rows[2]["percent"]) == ("", "0", "")


def test_is_the_report_of_a_course_that_of_its_labs_with_one_archive(make_class):
    room = make_class()
    with pytest.raises(GradingError, match="nothing graded yet"):
        course_report.report_course(room.course)
    room.put("learner-01", room.right("learner-01"))
    room.grade(workers=1)
    home = str(room.course.home)
    done = CliRunner().invoke(cli.group, ["report", "--home", home, "--oneroster", "--json"])
    assert done.exit_code == 0, done.output
    told = json.loads(done.stdout)
    assert list(told["labs"]) == ["lab01"]
    assert "learner-01,24,1,24,24,100" in Path(told["table"]).read_text(encoding="utf-8")
    found = read(Path(told["results"]).read_bytes())
    assert [row["score"] for row in found["results"]] == ["24"]
    assert "all marks as a table" in CliRunner().invoke(cli.group, ["report", "--home", home]).output


def test_is_a_wrong_part_of_the_class_list_named(tmp_path):
    (tmp_path / "class.toml").write_text("[school]\nroom = 3\n")
    with pytest.raises(GradingError, match=r"school\.room"):
        _ = Course.at(tmp_path).classlist
