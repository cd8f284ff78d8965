"""The course's own tables, held against the lessons: misconceptions met where they say, words and modules
known."""

from __future__ import annotations

from twostroke import resources
from twostroke.lesson import content, tables

NUMBERS = sorted(path.stem[:2] for path in (resources.clone() / "course" / "text" / "lessons").glob("*.py"))


def test_is_every_misconception_met_where_the_table_says():
    met: dict[str, set[str]] = {}
    for number in NUMBERS:
        lesson = content.load(number)
        for question in (*lesson.questions, *lesson.exit_check):
            for option in question.options:
                if option.believes:
                    met.setdefault(option.believes, set()).add(number)
        for example in lesson.examples:
            for blank in example.blanks:
                for key in [*(slip.believes for slip in blank.slips), *blank.believes.values()]:
                    met.setdefault(key, set()).add(number)
        for task in lesson.orderings:
            for rule in task.rules:
                met.setdefault(rule.believes, set()).add(number)
    for key, found in tables.misconceptions().items():
        for module in found.modules:
            if module in NUMBERS:
                assert module in met.get(key, set()), (
                    f"{key}: the table says lesson {module}, its lesson does not meet it"
                )


def test_is_the_table_of_misconceptions_whole():
    table = tables.misconceptions()
    for found in table.values():
        assert found.believed.endswith("."), found.id
        assert len(found.why_wrong.split()) >= 5, found.id
        assert len(found.shown_by.split()) >= 5, found.id
        assert len(found.modules) >= 2, f"{found.id}: met at least twice in the course"
        assert all(module in tables.modules() for module in found.modules), found.id


def test_do_the_tables_hold_only_what_is_known():
    assert all(word.module in tables.modules() for word in tables.words().values())
    assert list(tables.modules()) == [f"{number:02d}" for number in range(16)]
    assert set(NUMBERS) <= set(content.numbers()), "a master without content"
