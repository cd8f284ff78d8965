"""The rules of the curriculum, counted for every lesson master; exemptions stand in one table."""

from __future__ import annotations

import ast
import re
from functools import cache

import pytest
import textstat
from twostroke import resources
from twostroke.build import notebooks
from twostroke.lesson import content, tables
from twostroke.lesson.control import plain
from twostroke.lesson.tasks import Blank

MASTERS = sorted((resources.clone() / "course" / "text" / "lessons").glob("*.py"))
NUMBERS = [path.stem[:2] for path in MASTERS]

# rule -> lessons to which it does not apply
EXEMPT = {
    "two questions on earlier lessons": {"00": 0, "01": 0, "02": 1},  # how many are asked for instead
    "one of them three or more lessons back": {"00", "01", "02", "03"},
    "comes back at least twice": {"14", "15"},
    "outcomes tied to a lab task": {"00", "15"},
    "worked, faded, alone; predictions": {"14"},
}
MOST_WORDS, MOST_LINES = 120, 15
GRADE_CEILING = 7.0  # school year by the automated readability index, running text of a lesson

# What a text says about doing something that can hurt -> the cautions of which one must stand within two
# cells.
HAZARDS = {
    r"\b(mix(ing|es)?|pour(ing)?|drain(ing)?) (the )?fuel|fuel (line|filter|tank) off": {"fuel_vapour"},
    r"\b(pull|pulls|pulling) (on )?the (rope|cord|starter)": {"moving_parts", "sudden_start"},
    r"\bspark test|test(ed|ing)? for spark|spark tester": {"spark_near_fuel", "high_voltage"},
    r"\bhot (muffler|cylinder|module|engine)|\bheat soak": {"hot_surface"},
    r"\bgauge into the plug hole|compressed air|air line|leak-down test|pressure test": {"pressure"},
    r"\bstop lead off|lead off the module|flywheel off|fingers? near": {
        "sudden_start",
        "high_voltage",
        "moving_parts",
    },
    r"\b(thousands of volts|high tension)": {"high_voltage"},
}


@cache
def cells(number: str) -> tuple[tuple[str, str], ...]:
    """(kind, source) of each cell of a master."""
    (path,) = [one for one in MASTERS if one.stem.startswith(number)]
    return tuple((cell.cell_type, cell.source) for cell in notebooks.read_master(path).cells)


@cache
def calls(number: str) -> tuple[tuple[int, str, tuple[str, ...]], ...]:
    """(cell, method, arguments) of each call on the page."""
    found = []
    for row, (kind, source) in enumerate(cells(number)):
        if kind != "code":
            continue
        for node in ast.walk(ast.parse(source)):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
                arguments = tuple(str(one.value) for one in node.args if isinstance(one, ast.Constant))
                found.append((row, node.func.attr, arguments))
    return tuple(found)


def texts(number: str) -> str:
    return "\n\n".join(source for kind, source in cells(number) if kind == "markdown")


def called(number: str, method: str) -> list[str]:
    return [arguments[0] for _, name, arguments in calls(number) if name == method and arguments]


def rows_of(number: str, method: str, key: str) -> list[int]:
    return [row for row, name, arguments in calls(number) if name == method and key in arguments]


each_lesson = pytest.mark.parametrize("number", NUMBERS)


def test_are_there_lessons_at_all():
    assert NUMBERS[:2] == ["00", "01"]
    assert len(set(NUMBERS)) == len(NUMBERS)


@each_lesson
def test_is_the_file_named_as_the_module(number):
    (path,) = [one for one in MASTERS if one.stem.startswith(number)]
    assert f"{path.stem}.ipynb" == tables.module(number).notebook


@each_lesson
def test_does_the_first_cell_give_question_outcomes_needs_and_minutes(number):
    kind, first = cells(number)[0]
    assert kind == "markdown"
    assert first.startswith(f"# {number} {tables.module(number).title}")
    assert tables.module(number).question.split("(")[0].strip().rstrip("?") in first
    assert "After this you can" in first
    assert re.search(r"\bneed\b", first), "what is needed first"
    minutes = re.search(r"[Aa]bout (\d+) minutes", first)
    assert minutes is not None, "how long it takes"
    assert 20 <= int(minutes.group(1)) <= 40


@each_lesson
def test_is_every_outcome_tied_to_a_lab_task_or_a_check(number):
    outcomes = re.findall(r"^- (.*?)(?=\n- |\n\n|\Z)", cells(number)[0][1], flags=re.S | re.M)
    assert len(outcomes) >= 3
    free = number in EXEMPT["outcomes tied to a lab task"]
    tie = r"check|Practice|task" if free else r"\blab \d\d\b"
    for outcome in outcomes:
        assert re.search(tie, outcome), outcome


@each_lesson
def test_is_no_cell_too_long(number):
    for row, (kind, source) in enumerate(cells(number), start=1):
        if kind == "markdown":
            assert len(re.findall(r"[\w'’]+", source)) <= MOST_WORDS, f"cell {row}: {source[:60]}"
        else:
            assert len(source.splitlines()) <= MOST_LINES, f"cell {row}"


@each_lesson
def test_is_each_code_cell_one_short_call_and_folded(number):
    (path,) = [one for one in MASTERS if one.stem.startswith(number)]
    opened = 0
    for cell in notebooks.read_master(path).cells:
        if cell.cell_type != "code":
            continue
        assert cell.metadata.get("jupyter", {}).get("source_hidden") is True, cell.source
        body = ast.parse(cell.source).body
        if cell.source.startswith("from twostroke import lesson"):
            opened += 1
            assert f'page = lesson.open_lesson("{number}")' in cell.source
            continue
        assert len(body) == 1, cell.source
        assert isinstance(body[0], ast.Expr), cell.source
        assert isinstance(body[0].value, ast.Call), cell.source
    assert opened == 1


@each_lesson
def test_does_every_call_name_something_that_exists_and_is_everything_used(number):
    lesson = content.load(number)
    kinds = {
        "predict": lesson.predictions,
        "figure": lesson.figures,
        "question": lesson.questions,
        "example": lesson.examples,
        "order": lesson.orderings,
        "job": lesson.jobs,
    }
    for method, tasks in kinds.items():
        assert sorted(called(number, method)) == sorted(task.id for task in tasks), method
    for once in ("exit_check", "card", "words"):
        assert [name for _, name, _ in calls(number)].count(once) == 1, once


@each_lesson
def test_does_a_prediction_come_before_its_figure_and_a_why_after_it(number):
    if number in EXEMPT["worked, faded, alone; predictions"]:
        pytest.skip("exempt: examination") if not content.load(number).figures else None
    lesson = content.load(number)
    assert lesson.figures, "at least one interactive figure"
    for figure in lesson.figures:
        (shown,) = rows_of(number, "figure", figure.id)
        (asked,) = rows_of(number, "predict", figure.prediction)
        assert asked < shown, figure.id
        reasons = [question for question in lesson.questions if question.explains == figure.id]
        assert reasons, f"no question asks why {figure.id} did what it did"
        assert all(row > shown for reason in reasons for row in rows_of(number, "question", reason.id))


@each_lesson
def test_are_there_worked_faded_and_alone_in_this_order(number):
    if number in EXEMPT["worked, faded, alone; predictions"]:
        return
    worked = [
        row
        for row, (kind, source) in enumerate(cells(number))
        if kind == "markdown" and "worked example" in source.lower()
    ]
    stages = {task.id: task.stage for task in content.load(number).examples}
    faded = [
        row for row, name, arguments in calls(number) if name == "example" and stages[arguments[0]] == "faded"
    ]
    alone = [
        row for row, name, arguments in calls(number) if name == "example" and stages[arguments[0]] == "alone"
    ]
    assert worked
    assert faded
    assert alone
    assert worked[0] < faded[0] < alone[0]


@each_lesson
def test_are_there_four_retrieval_questions_and_enough_on_earlier_lessons(number):
    questions = content.load(number).questions
    assert len(questions) >= 4
    earlier = [question for question in questions if question.about < number]
    assert len(earlier) >= EXEMPT["two questions on earlier lessons"].get(number, 2)
    if number not in EXEMPT["one of them three or more lessons back"]:
        assert any(int(number) - int(question.about) >= 3 for question in earlier)
    assert all(question.about <= number for question in questions), "nothing is asked before it was taught"


def test_does_each_lesson_come_back_at_least_twice():
    """Counted once the lessons that would bring it back are written."""
    written = [int(number) for number in NUMBERS]
    if len(written) < 16:
        later = {number: [one for one in written if one > number] for number in written}
        counted = [number for number in written if len(later[number]) >= 6]
    else:
        counted = [number for number in written if f"{number:02d}" not in EXEMPT["comes back at least twice"]]
    for number in counted:
        back = [
            question.id
            for other in NUMBERS
            for question in content.load(other).questions
            if int(other) > number and int(question.about) == number
        ]
        assert len(back) >= 2, f"lesson {number:02d} comes back only in {back}"
    assert [number for number in written if number > 15] == []


@each_lesson
def test_has_the_exit_check_five_questions_that_say_where_to_go_back(number):
    check = content.load(number).exit_check
    assert len(check) == 5
    for question in check:
        assert len(question.go_back) > 10, question.id
        quoted = re.findall(r"“([^”]+)”", question.go_back)
        assert quoted, f"{question.id}: name the heading, figure or example in “…”"
        for name in quoted:
            assert name in plain(texts(number)) or any(
                name in plain(task.title)
                for task in (*content.load(number).figures, *content.load(number).examples)
            ), f"{question.id}: “{name}” is not a heading, figure or example of the lesson"


@each_lesson
def test_does_every_wrong_option_say_something_of_its_own(number):
    lesson = content.load(number)
    for question in (*lesson.questions, *lesson.exit_check):
        said = [option.say for option in question.options]
        assert len(set(said)) == len(said), question.id
        for option in question.options:
            assert len(option.say) >= 10, f"{question.id}: {option.text}"
            assert not re.search(
                r"\b(wrong|incorrect|try again)\b", option.say.lower().replace("wrong way", "")
            ), option.say


@each_lesson
def test_is_the_right_option_not_always_the_first_or_the_longest(number):
    questions = (*content.load(number).questions, *content.load(number).exit_check)
    places = [question.shown.index(question.right) for question in questions]
    assert len(set(places)) > 1, "all right answers stand in the same place"
    longest = [
        question for question in questions if max(question.options, key=lambda one: len(one.text)).right
    ]
    assert len(longest) <= 0.8 * len(questions), "the longest answer gives itself away"


@each_lesson
def test_is_every_answer_reached_and_every_slip_told_apart(number):
    for example in content.load(number).examples:
        for blank in example.blanks:
            if not callable(blank.answer):
                continue
            answer = blank.answer()
            for slip in blank.slips:
                assert not _same(slip.gives(), answer, blank), f"{example.id}.{blank.id}: {slip.believes}"


def _same(one, other, blank: Blank) -> bool:
    if isinstance(other, int | float):
        return abs(one - other) <= blank.within * abs(other)
    base = other.to_base_units()
    return abs(one.to(base.units).magnitude - base.magnitude) <= blank.within * abs(base.magnitude)


@each_lesson
def test_stands_a_caution_within_two_cells_of_each_hazard(number):
    stands: dict[int, set[str]] = {}
    for row, name, arguments in calls(number):
        if name == "caution":
            stands.setdefault(row, set()).update(arguments)
            for key in arguments:
                tables.caution(key)
    for row, (kind, source) in enumerate(cells(number)):
        if kind != "markdown":
            continue
        near = set().union(*(stands.get(place, set()) for place in range(row - 2, row + 3)))
        for pattern, wanted in HAZARDS.items():
            found = re.search(pattern, source, flags=re.I)
            assert not found or near & wanted, f"cell {row + 1}: “{found.group(0)}” without a caution near"


@each_lesson
def test_do_technical_words_link_to_the_list_of_words(number):
    linked = re.findall(r"\[([^\]]+)\]\(#Words-of-this-lesson\)", texts(number))
    assert "## Words of this lesson" in texts(number)
    own = [word for word in tables.words().values() if word.module == number]
    assert own or number in ("13", "14", "15")
    said = {word.lower().rstrip("s") for word in linked}
    for word in own:
        name = word.word.split(" (")[0].lower()
        assert name.rstrip("s") in said, f"“{name}” is not linked at its first use"


@each_lesson
def test_does_every_link_and_picture_exist(number):
    (path,) = [one for one in MASTERS if one.stem.startswith(number)]
    heads = {
        re.sub(r"\s+", "-", head.strip()) for head in re.findall(r"^#+ (.*)$", texts(number), flags=re.M)
    }
    for target in re.findall(r"\]\(([^)]+)\)", texts(number)):
        if target.startswith("#"):
            assert target[1:] in heads, target
        elif not target.startswith("http"):
            file = target.split("#")[0].replace(".ipynb", ".py")
            laid = target.replace(
                "../labs/", "../../release/"
            )  # labs and lessons lie side by side in a workspace
            assert (path.parent / file).exists() or (
                resources.clone() / "course" / "lessons" / laid
            ).exists(), target


@each_lesson
def test_does_a_lesson_lead_on_to_its_lab_and_the_next_lesson(number):
    targets = re.findall(r"\]\(([^)#]+)\)", texts(number).rpartition("## Go on")[2])
    after, lab = tables.modules().get(f"{int(number) + 1:02d}"), tables.module(number).lab
    wanted = [f"../labs/lab{lab}/lab{lab}.ipynb"] if lab else []
    wanted += [after.notebook] if after else []
    wanted += ["00_start_here.ipynb"] if number != "00" else []
    assert targets == wanted


@each_lesson
def test_does_every_figure_have_units_words_a_source_and_a_still_picture(number):
    for figure in content.load(number).figures:
        still = figure.still()
        assert still.svg.startswith("<svg"), figure.id
        assert 'role="img"' in still.svg
        assert "<title" in still.svg
        assert "<desc" in still.svg
        assert len(still.words.split()) >= 10, figure.id
        assert still.shown, "the numbers that it shows, for tests"
        assert re.search(r"common practice, no source|from memory|\d", figure.source), figure.id
        assert figure.parameters


@each_lesson
def test_does_the_bench_card_fit_one_page_and_name_its_sources(number):
    from twostroke.lesson import card_sheet

    card = content.load(number).card
    assert card_sheet(number).pages() == 1
    assert len(card.rows) >= 3
    assert len(card.traps) >= 2
    assert card.sources
    assert number in ("14", "15") or card.cautions, "what can hurt belongs on the wall too"


@each_lesson
def test_is_the_text_easy_to_read(number):
    running = re.sub(r"\[([^\]]+)\]\([^)]+\)", r"\1", texts(number))
    running = re.sub(r"^#+ .*$|^\d+\. ", "", running, flags=re.M).replace("*", "").replace("# ", "")
    grade = textstat.automated_readability_index(running)
    assert grade <= GRADE_CEILING, f"school year {grade:.1f}: shorter sentences, plainer words"


@each_lesson
def test_is_every_number_of_the_trade_marked(number):
    """A lesson that shows a usual figure says so, and sends the reader to the maker's manual."""
    whole = texts(number) + " ".join(figure.source for figure in content.load(number).figures)
    assert "common practice, no source" in whole
    assert re.search(r"maker's|manual", whole)
