"""Does the report say what happened, count as zero nothing that is not graded, and compute rightly?"""

from __future__ import annotations

import csv
import io
import re
from dataclasses import replace

import numpy as np
import pytest
from rich.console import Console
from twostroke.grading import demo, figures, reporting, screen
from twostroke.grading.classlist import ClassList, Learner
from twostroke.grading.gradebook import read_rows
from twostroke.grading.rows import GradeRow, LearnerRows
from twostroke.grading.standing import Standing, stand
from twostroke.grading.states import Cause, GradingError, Outcome, Reason, State, TaskResult


@pytest.fixture(scope="module")
def shown(tmp_path_factory):
    console = Console(record=True, width=160, file=io.StringIO())
    made = demo(tmp_path_factory.mktemp("demo"), console=console, trust=True)
    return made, console.export_text()


def standing(
    learner: str, points: list[float | None], slips=None, answers=None, state=State.GRADED
) -> Standing:
    tasks = tuple(
        TaskResult(
            grade_id=f"t{i}_mark", task=f"t{i}", points=p, max_points=4, slips=(slips or {}).get(i, ()),
            competency="air gap",
        )
        for i, p in enumerate(points)
    )  # fmt: skip
    outcome = Outcome(learner=learner, lab="lab77", state=state, tasks=list(tasks), answers=answers or {})
    total = None if all(p is None for p in points) else sum(p or 0.0 for p in points)
    return Standing(outcome, state, (), total, total if state is State.GRADED else None, tasks)


def test_does_the_demo_class_show_every_state_and_reason(shown):
    made, text = shown
    outcomes = made.summary.outcomes
    assert len(outcomes) >= 12
    assert {outcome.state for outcome in outcomes} == set(State)
    reasons = {cause.reason for outcome in outcomes for cause in outcome.causes}
    assert reasons >= {
        Reason.CORRUPT, Reason.EMPTY, Reason.WRONG_LAB, Reason.LOST_METADATA, Reason.CRASHED,
        Reason.OUT_OF_TIME,
        Reason.MISSING, Reason.UNSAFE, Reason.OTHER_LEARNER, Reason.DIFFERENCE,
    }  # fmt: skip
    assert made.summary.engine_failures == 0
    for outcome in outcomes:
        assert outcome.learner in text
    assert "needs a person" in text


def test_do_the_sound_hand_ins_of_the_demo_earn_all_points(shown):
    found = {outcome.learner: outcome for outcome in shown[0].summary.outcomes}
    for learner in ("learner-01", "learner-02", "learner-06", "learner-07", "learner-16", "learner-18"):
        assert found[learner].final_points == 24, learner


def test_is_what_is_not_graded_blank_in_the_export(shown):
    rows = list(csv.DictReader(shown[0].report.table.open(encoding="utf-8")))
    assert {row["state"] for row in rows} == {state.value for state in State}
    for row in rows:
        assert (row["points"] != "") == (row["state"] == "graded")
        assert (row["percent"] != "") == (row["state"] == "graded")
        if row["state"] == "not graded":
            assert row["reason"]
            assert all(value == "" for name, value in row.items() if name.endswith("_mark"))


def test_does_the_gradebook_hold_nothing_for_what_is_not_graded(shown):
    made = shown[0]
    known = read_rows(made.summary.course, "lab01")
    for outcome in made.summary.outcomes:
        assert (outcome.learner in known) == outcome.marked


def test_does_the_page_name_slips_states_and_people_without_a_network(shown):
    page = shown[0].report.html.read_text(encoding="utf-8")
    for word in (
        "Slips seen",
        "needs a person",
        "Competencies by learner",
        "Same answers",
        "Invented class",
        "discrimination",
    ):
        assert word in page, word
    assert "thou as" in page
    assert 'role="img"' in page
    assert "<script" not in page
    assert "http://" not in page.replace("http://www.w3.org", "").replace("http://purl.org", "")
    assert "@media print" in page


def test_does_the_printed_report_say_the_same(shown):
    pypdf = pytest.importorskip("pypdf")
    made = shown[0]
    printed = reporting.report("01", course=made.summary.course, pdf=True, note="invented").pdf
    text = "".join(page.extract_text() for page in pypdf.PdfReader(printed).pages)
    for word in ("Look at these first", "learner-29", "Slips seen", "so far", "invented"):
        assert word in text, word


def test_does_every_learner_get_a_page_of_feedback(shown):
    made = shown[0]
    for outcome in made.summary.outcomes:
        path = made.summary.course.feedback / outcome.learner / "lab01" / "lab01.html"
        if outcome.causes and outcome.causes[0].reason is Reason.MISSING:
            continue
        text = path.read_text(encoding="utf-8")
        if outcome.points is None:
            assert "This is not a zero" in text
        assert "Traceback" not in text


def test_is_no_right_value_in_the_feedback_of_a_wrong_answer(shown):
    """Own answers are shown, also those that happen to be right; the right ones of other steps are not."""
    from twostroke import lab as labs

    made = shown[0]
    text = (made.summary.course.feedback / "learner-03" / "lab01" / "lab01.html").read_text(encoding="utf-8")
    model = labs.model_answers("01", "learner-03")
    (outcome,) = [each for each in made.summary.outcomes if each.learner == "learner-03"]
    hidden = 0
    for task in ("metric", "inch", "oil"):
        for item, value in model[task].items():
            own = outcome.answers[task][item]
            assert own in text, own
            hidden += own != value
            assert own == value or value not in text, value
    assert hidden >= 6


def test_are_copied_answers_pointed_out(shown):
    made = shown[0]
    found = figures.alike(made.report.standings)
    assert ("learner-01", "learner-21") in {pair.learners for pair in found}
    assert all(set(pair.learners) == {"learner-01", "learner-21"} for pair in found)


def test_is_a_folder_that_holds_something_left_alone(tmp_path):
    (tmp_path / "mine.txt").write_text("x")
    with pytest.raises(GradingError, match="holds something"):
        demo(tmp_path)


def test_is_a_report_before_grading_refused_in_words(make_class):
    with pytest.raises(GradingError, match="nothing graded yet"):
        reporting.report("01", course=make_class().course)


def test_is_an_unknown_column_refused_in_words():
    with pytest.raises(GradingError, match="there are: learner"):
        reporting.table([], ["shoe size"])


def test_can_no_name_become_a_formula_in_a_spreadsheet():
    text = reporting.table([standing("=cmd()", [4.0])], ["learner", "points"])
    assert text.splitlines()[1].startswith("'=cmd()")


CLASS = [
    [4, 4, 4, 3], [4, 3, 4, 4], [4, 4, 2, 3], [3, 2, 2, 3], [2, 2, 1, 4], [1, 1, 0, 2],
    [0, 1, 0, 3], [4, 2, 3, 3],
]  # fmt: skip


def test_is_reliability_that_of_a_reference_library():
    """Against pingouin.cronbach_alpha (Vallat 2018, J. Open Source Software 3(31), 1026)."""
    pingouin = pytest.importorskip("pingouin")
    pandas = pytest.importorskip("pandas")
    found = figures.reliability([standing(f"l{i}", row) for i, row in enumerate(CLASS)])
    assert found == pytest.approx(pingouin.cronbach_alpha(data=pandas.DataFrame(CLASS))[0], abs=1e-12)


def test_is_discrimination_the_correlation_with_the_rest():
    table = np.array(CLASS, dtype=float)
    found = figures.task_figures([standing(f"l{i}", row) for i, row in enumerate(CLASS)])
    for column, task in enumerate(found):
        rest = table.sum(axis=1) - table[:, column]
        assert task.discrimination == pytest.approx(np.corrcoef(table[:, column], rest)[0, 1])
        assert task.difficulty == pytest.approx(table[:, column].mean() / 4)


@pytest.mark.parametrize("rows", [[], [[4, 4]], [[4, 4]] * 8, [[None, None]] * 6])
def test_do_figures_of_nothing_say_nothing(rows):
    found = [standing(f"l{i}", row) for i, row in enumerate(rows)]
    assert figures.reliability(found) is None
    assert all(task.discrimination is None for task in figures.task_figures(found))


def test_are_slips_counted_by_learner():
    found = figures.slips(
        [
            standing("a", [0, 4], {0: ("turned",)}),
            standing("b", [0, 0], {0: ("turned",), 1: ("offset", "turned")}),
            standing("c", [4, 4]),
        ]
    )
    assert found == [
        ("turned", "t0", ["a", "b"]),
        ("offset", "t1", ["b"]),
        ("turned", "t1", ["b"]),
    ]


def test_are_answers_that_many_give_no_sign_of_copying():
    same = {"t0": {"choice": "a"}, "t1": {"choice": "b"}, "t2": {"choice": "c"}}
    class_ = [standing(f"l{i}", [4, 4], answers=same) for i in range(12)]
    assert figures.alike(class_) == []


def test_is_a_written_answer_marked_by_hand_no_longer_for_a_person(make_class):
    task = TaskResult(
        grade_id="w", task="w", points=None, max_points=5, state="needs a person", marked="by hand"
    )
    outcome = Outcome(learner="a", lab="lab04", state=State.GRADED, tasks=[task])
    outcome.add(Reason.WRITTEN, "w")
    assert outcome.state is State.PERSON
    due = LearnerRows({"w": GradeRow(None, None, 0.0, True)})
    done = LearnerRows({"w": GradeRow(None, 4.0, 0.0, False)})
    assert stand(outcome, due).final is None
    assert stand(outcome, done).final == 4.0
    assert stand(outcome, done).state is State.GRADED


def test_is_a_task_that_waits_for_a_person_no_task_to_teach_again():
    """Nobody has earned a point in t1, but most answers to it have not been read yet."""
    waits = [standing(f"l{n}", [1.0, None], state=State.PERSON) for n in range(5)]
    for each in waits:
        object.__setattr__(each.tasks[1], "marked", "by hand")
    found = [*waits, standing("l9", [1.0, 0.0])]
    assert [task for task, _, _ in figures.reteach(found)] == ["t0"]
    content = reporting.content_of("lab77", found, ClassList())
    assert [row["reading"] for row in content["tasks"]][1] == "5 still to be marked by hand"
    assert content["waiting"] == 5
    assert "points so far" in reporting.page(content)


def test_does_a_name_of_the_class_list_stand_beside_the_identifier():
    people = ClassList(learner=(Learner(id="learner-01", name="Ann <Demo>"),))
    page = reporting.page(reporting.content_of("lab77", [standing("learner-01", [1.0])], people))
    assert 'learner-01<div class="soft">Ann &lt;Demo&gt;</div>' in page


def states_on_screen(found: list[Standing], width: int = 80) -> str:
    console = Console(width=width, file=io.StringIO())
    console.print(screen.states(found, "lab77"))
    return console.file.getvalue()


def test_is_each_learner_of_whom_nothing_is_to_be_said_one_line_on_a_narrow_screen():
    written = Cause(reason=Reason.WRITTEN, detail="explain")
    waits = [
        replace(standing(f"learner-{n:02d}", [1 / 3], state=State.PERSON), causes=(written,))
        for n in range(9)
    ]
    text = states_on_screen([*waits, standing("learner-99", [2.0])])
    for n in range(9):
        assert re.search(rf"learner-0{n} .*needs a person .*0\.3333 so far .*a written answer to mark", text)
    assert len(text.strip().splitlines()) == 14, text


def test_are_those_who_wait_for_a_written_answer_counted_and_not_listed_while_a_class_is_graded():
    board = screen.Board("lab77")
    for n, reason in enumerate((Reason.WRITTEN, Reason.WRITTEN, Reason.CRASHED), 1):
        outcome = Outcome(learner=f"learner-{n:02d}", lab="lab77", state=State.PERSON)
        outcome.causes.append(Cause(reason=reason, detail="at task gap: " + "x" * 99))
        board.add(n, 3, outcome)
    console = Console(width=80, file=io.StringIO())
    console.print(board)
    text = console.file.getvalue()
    assert "needs a person 3" in text
    assert "(2 only for a written answer)" in text
    assert "learner-03" in text
    assert "learner-01" not in text
    assert "…" in text, "what is cut says so"
    assert " left" not in text, "no guess before anything has run"


def test_do_written_answers_of_many_not_bury_what_is_odd():
    written, crash = Cause(reason=Reason.WRITTEN), Cause(reason=Reason.CRASHED)
    many = [
        replace(standing(f"learner-{n:02d}", [1.0], state=State.PERSON), causes=(written,)) for n in range(25)
    ]
    odd = replace(standing("learner-77", [1.0], state=State.PERSON), causes=(written, crash))
    rows = reporting.content_of("lab10", [*many, odd], ClassList())["persons"]
    assert rows[0] == ("learner-77", odd.why)
    assert rows[1:] == [("25 learners", "a written answer to mark: twostroke mark 10")]
    assert reporting.content_of("lab10", [many[0], odd], ClassList())["persons"][1][0] == "learner-00"
