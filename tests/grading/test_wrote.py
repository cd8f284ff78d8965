"""Does a learner see their own answer beside what was seen in it, whatever it is, and no right one?"""

from __future__ import annotations

import html
import io
import json
import re
from functools import cache

import pytest
from twostroke import lab as labs
from twostroke.grading import feedback, feedback_print, marker, skeleton, wrote
from twostroke.grading.place import Course
from twostroke.grading.standing import Standing, stand
from twostroke.grading.states import Outcome, State, Step, TaskResult
from twostroke.lab.number import Number
from twostroke.lab.task import Values

WHO = "learner-03"
PRACTICE = [number for number in labs.lab_ids() if labs.load(number).practice]
COURSE = Course.at()


@cache
def trusted(lab: str) -> skeleton.Skeleton:
    return skeleton.load(COURSE.source_notebook(lab))


def standing(number: str, answers: dict) -> Standing:
    """What marking these answers comes to, without notebook and gradebook."""
    lab = f"lab{number}"
    event = {"event": "mark", "lab": number, "learner": WHO, "attempt": 1}
    lines = [json.dumps({**event, "task": task, "answer": given}) for task, given in answers.items()]
    reply = marker.mark(lab, {"learner": WHO, "also": [], "lines": lines})
    tasks = [
        TaskResult(
            grade_id=f"{mark['task']}_mark",
            task=mark["task"],
            points=None if mark["state"] == "needs a person" else mark["points"],
            max_points=mark["max_points"],
            state=mark["state"],
            steps=tuple(map(Step.model_validate, mark["steps"])),
            competency=mark["competency"],
            marked="by hand" if mark["state"] == "needs a person" else "twice",
        )
        for mark in reply["marks"]
    ]
    return stand(
        Outcome(learner=WHO, lab=lab, state=State.GRADED, tasks=tasks, answers=reply["answers"]), None
    )


def shown(number: str, answers: dict) -> str:
    """The page as it is read, without markup."""
    page = feedback.page(COURSE, standing(number, answers), trusted(f"lab{number}"))
    assert "<script" not in page
    body = re.sub(r"<style>.*?</style>|<svg.*?</svg>", " ", page, flags=re.DOTALL)
    return html.unescape(re.sub(r"<[^>]*>", "\n", body))


def right_answers(number: str) -> dict[str, dict]:
    """Right values and letters; no jobs on the bench and no formulas."""
    given = labs.variant(number, WHO)
    values = Values(labs.load(number), given)
    found: dict[str, dict] = {}
    for task, item in labs.load(number).items():
        told = isinstance(item, Number) or hasattr(item, "lettered")
        found.setdefault(task.id, {})[item.id] = item.model(given, values) if told else ""
    return found


def wrong(number: str) -> dict[str, dict]:
    """A usual slip for every value, another letter for every choice, the order turned round, no formula."""
    given = labs.variant(number, WHO)
    slips = labs.slip_answers(number, WHO)
    model = right_answers(number)
    found: dict[str, dict] = {}
    for task, item in labs.load(number).items():
        right = model[task.id][item.id]
        if isinstance(item, Number):
            kinds = slips[f"{task.id}.{item.id}"]
            text = kinds[sorted(kinds)[0]] if kinds else ""
        elif hasattr(item, "lettered"):
            letters, first = list(item.lettered(given)), right.split()
            text = " ".join(reversed(first)) if len(first) > 3 else next(x for x in letters if x not in first)
        else:
            text = ""
        found.setdefault(task.id, {})[item.id] = text
    return found


@pytest.mark.parametrize("number", PRACTICE)
def test_is_no_right_value_or_choice_shown_to_who_gave_another(number):
    given, model = labs.variant(number, WHO), right_answers(number)
    answers = wrong(number)
    text = shown(number, answers)
    own = " ".join(str(each) for task in answers.values() for each in task.values())
    mine = standing(number, answers).outcome
    chosen = {line for task in answers for said in wrote.by_step(mine, task).values() for line in said.lines}
    looked = 0
    for task, item in labs.load(number).items():
        right = model[task.id][item.id]
        if isinstance(item, Number) and (len(right.split()) > 1 or "." in right) and right not in own:
            looked += 1
            assert not re.search(rf"(?<![\d.]){re.escape(right)}(?![\d.])", text), (task.id, item.id, right)
        elif hasattr(item, "options") and len(right.split()) == 1:
            option = f"{right}: {item.lettered(given)[right].text}"
            looked += 1
            assert option in chosen or option not in text, (task.id, item.id, option)
    assert looked


@pytest.mark.parametrize("number", PRACTICE)
def test_does_every_own_answer_stand_before_what_was_seen_in_it(number):
    answers = wrong(number)
    text = shown(number, answers)
    mine = standing(number, answers)
    for task in mine.tasks:
        for step in task.steps:
            typed = answers[task.task].get(step.item)
            if not typed:
                continue
            said = wrote.by_step(mine.outcome, task.task)[step.item]
            for line in said.lines:
                assert line in text, (task.task, step.item, line)
            assert text.index(said.lines[0]) < text.rindex(step.seen), (task.task, step.item)


def test_are_letters_shown_with_the_words_that_stood_beside_them():
    mine = standing("10", {"complaint": {"kind": "b", "facts": "a c", "ask": "zz"}})
    found = wrote.by_step(mine.outcome, "complaint")
    options = labs.load("10").task("complaint").items[0].lettered(labs.variant("10", WHO))
    assert found["kind"].lines == (f"b: {options['b'].text}",)
    assert [line[:3] for line in found["facts"].lines] == ["a: ", "c: "]
    assert found["ask"].lines == ("zz",), "what is no letter of the sheet stays as it was typed"


def test_are_right_answers_shown_too_and_in_one_line():
    answers = {"metric": right_answers("01")["metric"]}
    page = feedback.page(COURSE, standing("01", answers), trusted("lab01"))
    for text in answers["metric"].values():
        assert re.search(rf'<bdi class="own">{re.escape(text)}</bdi> <span[^>]*>Right', page), text


def test_is_a_task_without_an_answer_one_line():
    text = shown("01", dict.fromkeys(task.id for task in labs.load("01").tasks))
    assert text.count("Nothing is written here yet.") == len(labs.load("01").tasks)
    assert "You wrote" not in text


WORDS = "I put the tester on first because it tells spark from fuel in two minutes, and\nonly then the plug. "
ODD = {
    "markup": ("<script>alert('1')</script> & \"quotes\" **bold**", "<script>alert('1')</script>"),
    "another direction of writing": ("פער \u202e0.3 mm", "פער �0.3 mm"),
    "control signs": ("0.3\x00\x1b[31m mm", "0.3��[31m mm"),
    "half a character": ("0.3\ud800 mm", "0.3? mm"),
    "one endless word": ("9" * 5000, "9" * wrote.LONGEST_LINE + " …"),
    "many lines": ("\n".join(["x"] * 900), "x\nx …"),
}


@pytest.mark.parametrize("kind", ODD)
def test_is_an_odd_answer_shown_harmless(kind):
    typed, seen = ODD[kind]
    text = shown("01", {"metric": {"air_gap": typed, "compression": "9 bar"}})
    assert seen in text
    assert "\x00" not in text
    assert "\u202e" not in text
    assert ("your notebook holds all" in text) == (len(typed) > 1000)


def test_is_a_written_answer_shown_whole_and_a_huge_one_cut(monkeypatch):
    text = shown("10", {"explain": {"words": WORDS * 3}})
    assert " ".join(WORDS.split()) in " ".join(text.split())
    long = wrote.plain(WORDS * 50)
    assert len(long.lines[0]) <= wrote.LONGEST_TEXT + 2
    assert f"of {len((WORDS * 50).strip())} characters" in long.note


@pytest.mark.parametrize(
    ("answer", "lines"),
    [(None, None), ({}, None), (3, ("3",)), (False, ("false",)), (["a", "b"], ("a b",)),
     ([{"action": "x"}], ("a record of 1 steps",)), ({"gap": [1]}, ('{"gap": [1]}',))],
)  # fmt: skip
def test_is_any_plain_data_put_into_words(answer, lines):
    found = wrote.plain(answer)
    assert (found.lines if found else None) == lines


def test_does_print_hold_every_odd_answer():
    pypdf = pytest.importorskip("pypdf")
    answers = {
        "metric": {"air_gap": ODD["markup"][0], "compression": ODD["one endless word"][0]},
        "inch": {"plug_gap": ODD["many lines"][0], "crankcase": ODD["another direction of writing"][0]},
        "oil": {"fuel": ODD["control signs"][0], "oil": "5 мл 油"},
        "vapour": {"place": "a", "reason": "b"},
    }
    content = feedback.content_of(COURSE, standing("01", answers), trusted("lab01"))
    pages = pypdf.PdfReader(io.BytesIO(feedback_print.sheet(content).to_pdf())).pages
    text = " ".join(" ".join(page.extract_text() for page in pages).replace("\u200b", "").split())
    for words in ("You wrote", "<script>alert('1')</script>", "**bold**", "your notebook holds all", "a: "):
        assert words in text, words
    assert len(pages) < 6


def test_is_what_another_answer_says_told_with_the_names_of_its_steps():
    outcome = standing("01", {"metric": {"air_gap": "0.3 mm", "torque": "5 N·m"}}).outcome
    assert wrote.told(outcome, "metric") == "air gap: 0.3 mm\ncover screw torque: 5 N·m"
    assert wrote.told(Outcome(learner="a", lab="lab77", answers={"x": "1"}), "x") == "1"
    assert wrote.told(outcome, "inch") == ""


def test_is_the_examination_no_place_to_practise():
    where = {where for _, where in feedback._next(standing("10", wrong("10")))}
    assert where
    assert not any("lab 14" in each for each in where)
    assert any("lab 13" in each for each in where)
