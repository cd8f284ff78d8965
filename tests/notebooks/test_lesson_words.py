"""Does a lesson keep its promises in words: outcomes by the labs' own names, terms explained at first use?"""

from __future__ import annotations

import re

import pytest
from twostroke import lab, resources
from twostroke.build import notebooks
from twostroke.lesson import content, tables
from twostroke.lesson.control import plain

MASTERS = {
    path.stem[:2]: path for path in sorted((resources.clone() / "course" / "text" / "lessons").glob("*.py"))
}
# Words of the glossary that a sentence also needs in their common sense, so that a use proves nothing.
COMMON = {"open", "key", "band", "cell", "peak", "stack", "bar", "ground", "crank", "demand", "margin"}
LINK = re.compile(r"\[([^\]]+)\]\(#Words-of-this-lesson\)")

each_lesson = pytest.mark.parametrize("number", MASTERS)


def texts(number: str) -> list[str]:
    """Text cells of a lesson after the first one, without their headings."""
    cells = [cell for cell in notebooks.read_master(MASTERS[number]).cells if cell.cell_type == "markdown"]
    return [re.sub(r"^#+ .*$", "", cell.source, flags=re.M) for cell in cells[1:]]


@each_lesson
def test_does_an_outcome_name_a_task_as_its_lab_does(number):
    first = notebooks.read_master(MASTERS[number]).cells[0].source
    for outcome in re.findall(r"^- (.*?)(?=\n- |\n\n|\Z)", first, flags=re.S | re.M):
        for lab_id in re.findall(r"\blab (\d\d)\b", outcome):
            titles = " | ".join(task.title for task in lab.load(lab_id).tasks).casefold()
            for name in re.findall(r"“([^”]+)”", " ".join(outcome.split())):
                assert name.casefold() in titles, f"lab {lab_id} has no task “{name}”"


@each_lesson
def test_is_a_word_of_the_lesson_explained_where_it_first_comes(number):
    cells = texts(number)
    for word in tables.words().values():
        name = word.word.split(" (")[0].lower()
        if word.module != number or name in COMMON:
            continue
        form = re.compile(rf"(?<![\w-]){re.escape(name)}(s|es|ed|d)?\b")
        used = [place for place, text in enumerate(cells) if form.search(" ".join(text.lower().split()))]
        linked = [
            place
            for place, text in enumerate(cells)
            for link in LINK.findall(text)
            if " ".join(link.lower().split()).rstrip("s") == name.rstrip("s")
        ]
        assert min(linked) == min(used), f"“{name}” is used before it is explained"


@each_lesson
def test_does_a_lesson_bring_back_the_one_before_it(number):
    if number != "00":
        about = {int(question.about) for question in content.load(number).questions}
        assert int(number) - 1 in about


# What a worked-through job does that can hurt -> the cautions of which one stands within two cells.
JOBS = {
    r"fuel line|fuel filter|tank": {"fuel_vapour", "skin_and_lungs"},
    r"\bspoon of oil": {"pressure"},
    r"spark-arrester screen": {"hot_surface"},
}


@each_lesson
def test_stands_a_caution_near_a_job_that_is_worked_through_on_paper(number):
    cells = notebooks.read_master(MASTERS[number]).cells
    stands = [
        set(re.findall(r'"(\w+)"', cell.source)) if cell.source.startswith("page.caution(") else set()
        for cell in cells
    ]
    lesson = content.load(number)
    for place, cell in enumerate(cells):
        shown = re.match(r'page\.(example|predict)\("(\w+)"\)', cell.source)
        if shown is None:
            continue
        kind = {"example": "examples", "predict": "predictions"}[shown[1]]
        task = lesson.find(kind, shown[2])
        said = plain(
            " ".join(
                [task.ask]
                if kind == "predictions"
                else [line if isinstance(line, str) else f"{line.label} {line.answer}" for line in task.lines]
            )
        )
        near = set().union(*stands[max(0, place - 2) : place + 3])
        for pattern, wanted in JOBS.items():
            found = re.search(pattern, said)
            assert not found or near & wanted, f"{shown[2]}: “{found[0]}” without a caution near"
