"""Is the feedback worth reading, on a telephone and on paper, and does it give nothing away?"""

from __future__ import annotations

import contextlib
import io
import json
import re

import pytest
from click.testing import CliRunner
from twostroke import cli
from twostroke import lab as labs
from twostroke.grading import feedback_print, invent, skeleton
from twostroke.grading.again import mark_again
from twostroke.grading.by_hand import Desk
from twostroke.grading.place import Course
from twostroke.grading.routes import routes_of
from twostroke.grading.run import grade
from twostroke.grading.standing import standings
from twostroke.grading.states import GradingError
from twostroke.lab import load, variant

LAB, WHO = "lab10", "learner-02"
SHORT = ("look_over", "plug_look", "known_good_plug")


def job(actions, closed: bool = True) -> list[dict]:
    """The record of a job on this learner's machine."""
    desk = load("10").task("bench").items[0].opened(variant("10", WHO))
    with contextlib.redirect_stdout(io.StringIO()):
        for action in actions:
            desk.do(action, prepare=True, confirm="all")
        if closed:
            desk.hand_back("plug_fouled", "60 %")
    return desk.route


@pytest.fixture(scope="module")
def graded(tmp_path_factory):
    """A learner with slips, a route of their own, and a written answer that was marked; one who is right."""
    folder = tmp_path_factory.mktemp("feedback")
    trusted = skeleton.load(Course.at().source_notebook(LAB))
    for learner in ("learner-01", WHO, "learner-03", "learner-04"):
        answers = labs.model_answers("10", learner)
        if learner == "learner-03":  # readings made better by hand
            answers["bench"] = {"route": [{**step, "minutes": 0.0} for step in _record(answers)]}
        if learner == "learner-04":  # another learner's job
            answers["bench"] = labs.model_answers("10", WHO)["bench"]
        if learner == WHO:
            answers["bench"] = {"route": job(SHORT)}
            for key, kinds in labs.slip_answers("10", learner).items():
                task, _, item = key.partition(".")
                if kinds:
                    answers[task][item] = kinds[sorted(kinds)[0]]
        data = invent.as_bytes(invent.fill(trusted, learner, answers))
        invent.put(folder / "inbox", learner, LAB, data)
    course = Course.at(folder / "home")
    grade(LAB, folder / "inbox", course=course, trust=True, workers=1)
    desk = Desk("10", course)
    desk.give(desk.queue(learner=WHO)[0], rows=(1.0, 0.5, 0.0, 0.0), comment="Name two faults.")
    feedback_print.write_all(course, LAB)
    return course


def _record(answers: dict) -> list[dict]:
    found = answers["bench"]
    return found["route"] if isinstance(found, dict) else found


def page(course, learner: str = WHO) -> str:
    return (course.feedback / learner / LAB / f"{LAB}.html").read_text(encoding="utf-8")


def printed(course, learner: str = WHO) -> str:
    pypdf = pytest.importorskip("pypdf")
    path = course.feedback / learner / LAB / f"{LAB}.pdf"
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(path).pages)
    return " ".join(text.split())


@pytest.mark.parametrize("form", [page, printed])
def test_does_it_say_task_by_task_what_is_seen_what_it_suggests_what_to_check(graded, form):
    text = form(graded)
    for words in ("Seen", "It suggests", "To check", "Counting machines", "Name two faults", "1.5 of 4",
                  "Practise next", "isolation logic", "lesson 10 again"):  # fmt: skip
        assert words in text, words
    assert graded.classlist.course in text, "an invented class is named as such on every page"


@pytest.mark.parametrize("form", [page, printed])
def test_does_the_own_answer_stand_with_it(graded, form):
    text = form(graded)
    slips = labs.slip_answers("10", WHO)
    wrong = {kinds[sorted(kinds)[0]] for kinds in slips.values() if kinds}
    assert wrong
    for typed in wrong:
        assert typed in text, typed
    written = labs.model_answers("10", WHO)["explain"]["words"]
    assert " ".join(written.split()[:12]) in text, "a written answer that a person has marked"
    assert "You wrote" in text


def test_is_one_learner_asked_for_answered_alone(graded):
    def said(*words: str) -> str:
        home = ("--home", str(graded.home))
        return CliRunner().invoke(cli.group, [*words, *home], env={"COLUMNS": "120"}).stdout

    for more in ([], ["--dry-run"]):
        told = json.loads(said("grade", "10", "--learner", "Learner-04", "--json", *more))
        assert [each["learner"] for each in told["outcomes"]] == ["learner-04"]
    table = said("grade", "10", "--learner", "learner-04")
    assert "learner-04" in table
    assert "learner-01" not in table
    assert f"twostroke report 10 --home {graded.home}" in table, "the next command is for this class"
    listed = json.loads(said("mark", "10", "--every", "--learner", "learner-03", "--json"))
    assert {each["learner"] for each in listed} == {"learner-03"}


def test_is_a_learner_or_task_that_is_not_there_said_and_not_passed_over(graded):
    with pytest.raises(GradingError, match="'nobody': nothing of lab10 was graded"):
        Desk("10", graded).queue(learner="nobody")
    with pytest.raises(GradingError, match="no task 'essay'; there are: complaint"):
        Desk("10", graded).queue(task="essay")
    with pytest.raises(GradingError, match="nothing of learner 'nobody' graded"):
        mark_again("10", "count", course=graded, learner="nobody")


def test_does_who_marks_read_other_answers_with_their_names(graded):
    piece = Desk("10", graded).queue(learner=WHO, every=True)[0]
    counting = piece.others["Counting machines"]
    assert counting.startswith("machines whose tester stays dark: ")
    assert "1. Look the machine over" in piece.others["A job on the bench"]


@pytest.mark.parametrize("form", [page, printed])
def test_does_the_own_route_stand_beside_the_best_one(graded, form):
    text = form(graded)
    best = routes_of("10", WHO, {"bench": {"route": job(SHORT)}})["bench"].best
    assert len(best) > 3
    for leg in best:
        assert leg.title in text or leg.title[:30] in text, leg.title
    for words in ("best route on your machine", "Look the machine over", "your route"):
        assert words.lower() in text.lower(), words


@pytest.mark.parametrize("form", [page, printed])
def test_does_it_give_nothing_away(graded, form):
    text = re.sub(r"<style>.*?</style>|<svg.*?</svg>|<[^>]*>", " ", form(graded), flags=re.DOTALL)
    model = labs.model_answers("10", WHO)
    expected = {
        value
        for key, kinds in labs.slip_answers("10", WHO).items()
        if kinds
        for value in [str(model[key.partition(".")[0]][key.partition(".")[2]])]
    }
    assert expected
    for value in expected:
        assert not re.search(rf"(?<![\d.]){re.escape(value)}(?![\d.])", text), value
    for words in ("Traceback", "HIDDEN", "work.mark", "What was wrong", "twostroke.", "/home", ".py"):
        assert words not in text, words


def test_is_a_best_route_shown_only_when_the_own_job_is_closed():
    pair = routes_of("10", WHO, {"bench": {"route": job(SHORT, closed=False)}})["bench"]
    assert [leg.kind for leg in pair.mine] == ["test"] * 3
    assert pair.best == ()


@pytest.mark.parametrize("learner", ["learner-03", "learner-04"])
def test_does_a_forged_route_in_a_hand_in_earn_nothing(graded, learner):
    now = next(each for each in standings(graded, LAB) if each.learner == learner)
    task = next(each for each in now.tasks if each.task == "bench")
    assert (task.points, task.slips) == (0.0, ("not_from_this_machine",))
    assert now.outcome.routes == {}
    text = page(graded, learner)
    assert "does not come from your machine" in text
    assert "best route" not in text


def test_is_a_forged_route_not_drawn():
    forged = job(SHORT)
    forged[1] = {**forged[1], "result": "dry", "words": "Dry and clean", "minutes": 0.0}
    assert routes_of("10", WHO, {"bench": {"route": forged}}) == {}


@pytest.mark.parametrize("record", [None, [], "a", [1], [{"action": "x"}] * 500, [{}], {"route": 3}])
def test_is_any_other_record_passed_over(record):
    assert routes_of("10", WHO, {"bench": {"route": record}}) == {}


def test_does_a_lab_without_a_bench_have_no_routes():
    assert routes_of("01", WHO, labs.model_answers("01", WHO)) == {}


def test_does_the_page_need_no_network_and_fit_a_telephone(graded):
    text = page(graded)
    assert 'name="viewport"' in text
    assert "<script" not in text
    assert "src=" not in text
    assert "@media (max-width" in text


def test_does_an_old_print_never_stand_beside_a_new_page(graded):
    path = graded.feedback / "learner-01" / LAB / f"{LAB}.pdf"
    assert path.is_file()
    desk = Desk("10", graded)
    desk.give(desk.queue(learner="learner-01")[0], 4.0)
    assert not path.exists()
    assert feedback_print.write_all(graded, LAB) == [path]
    assert feedback_print.write_all(graded, LAB) == []
    assert "4 of 4" in printed(graded, "learner-01")


@pytest.mark.browser
def test_does_nothing_stick_out_of_a_telephone(graded):
    playwright = pytest.importorskip("playwright.sync_api")
    with playwright.sync_playwright() as start:
        browser = start.chromium.launch(executable_path="/usr/bin/chromium", timeout=120_000)
        view = browser.new_page(viewport={"width": 360, "height": 740})
        view.set_default_timeout(120_000)
        view.goto((graded.feedback / WHO / LAB / f"{LAB}.html").as_uri())
        assert view.evaluate("document.documentElement.scrollWidth") <= 360
        assert view.locator("svg[role=img]").count() == 1
        size = view.evaluate("Math.min(...[...document.querySelectorAll('p,li,dd,dt')].map(e => "
                             "parseFloat(getComputedStyle(e).fontSize)))")  # fmt: skip
        assert size >= 13
        browser.close()
