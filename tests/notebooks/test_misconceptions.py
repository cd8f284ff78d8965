"""One table of misconceptions for the whole course: what points into it, and where each entry is met."""

from __future__ import annotations

import ast
import dataclasses
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from twostroke import lab
from twostroke.lab import pick
from twostroke.lesson import content, tables

LEARNERS = ("learner01", "learner07", "Anna", "Bert 17", "30", "x")

# Entries that no lab can meet, and why.
LESSONS_ONLY = {
    "saved_is_handed_in": "working with a notebook: lesson 00 has no lab",
    "restart_loses_work": "working with a notebook: lesson 00 has no lab",
    "energy_in_proportion": "lesson 03 has no lab, and lab 04 asks for voltages, speeds and times, no energy",
}

# What the course is to clear up at least: id and words of the belief.
REQUIRED = {
    "open_air_spark_proves": "spark in open air proves the ignition",
    "inline_flash_proves": "in-line flash tester proves a spark at the plug",
    "resistance_in_band_proves": "Resistance in band proves a module good",
    "wide_gap_always_kills": "wide air gap always kills the spark",
    "more_compression_is_better": "More compression reading is always better",
    "cold_reading_hot_band": "cold reading can be held against a hot band",
    "leak_down_percent_compares": "Leak-down per cent compares between testers",
    "ratio_as_percent": "50:1 means 50 per cent",
    "half_turn_is_full_pull": "Half a turn of cranking is as good as a full pull",
    "new_plug_rules_out_plug": "new plug rules out the plug",
    "it_started_so_fixed": "It started, so it is fixed",
    "common_is_likely_here": "part most often replaced is the most likely fault here",
}


def in_lesson(number: str) -> Iterator[tuple[str, str | None]]:
    """(what is wrong, belief it points to) for everything wrong that a lesson foresees."""
    lesson = content.load(number)
    for question in (*lesson.questions, *lesson.exit_check):
        for option in question.options:
            if not option.right:
                yield f"{question.id}: {option.text}", option.believes
    for example in lesson.examples:
        for blank in example.blanks:
            yield from ((f"{example.id}.{blank.id}", slip.believes) for slip in blank.slips)
            wrong = [option for option in blank.options if option != blank.answer]
            yield from (
                (f"{example.id}.{blank.id}: {option}", blank.believes.get(option)) for option in wrong
            )
    for task in lesson.orderings:
        yield from ((f"{task.id}: {rule.first} before {rule.then}", rule.believes) for rule in task.rules)


def _walk(thing: Any, seen: set[int]) -> Iterator[Any]:
    """Every part of a lab's tasks that names a misconception."""
    if id(thing) in seen or isinstance(thing, str | int | float | bool | type(None) | type):
        return
    seen.add(id(thing))
    if hasattr(thing, "misconception"):
        yield thing
    if isinstance(thing, dict):
        children = list(thing.values())
    elif isinstance(thing, list | tuple | set | frozenset):
        children = list(thing)
    elif dataclasses.is_dataclass(thing):
        children = [getattr(thing, field.name) for field in dataclasses.fields(thing)]
    else:
        children = []
    for child in children:
        yield from _walk(child, seen)


@cache
def in_lab(number: str) -> tuple[tuple[str, str], ...]:
    """(what is wrong, belief it points to) for every slip and wrong option that a lab names."""
    found = []
    whole = lab.load(number)
    for part in _walk(whole.tasks, set()):
        belongs = getattr(part, "right", False) is True
        first = hasattr(part, "needs") and hasattr(part, "gives") and not part.needs and part.belongs
        if not belongs and not first:
            found.append((f"{number} {part.id}", part.misconception))
    for learner in LEARNERS:
        given = lab.variant(number, learner)
        for task in whole.tasks:
            for item in task.items:
                if isinstance(item, pick.Pick) and callable(item.options):
                    found += [
                        (f"{number} {task.id}.{item.id}: {option.id}", option.misconception)
                        for option in item.options(given)
                        if not option.right
                    ]
    return tuple(found)


@cache
def named_in_source(number: str) -> frozenset[str]:
    """Ids of the table that stand as text in the modules of a lab, for what is judged by a function."""
    found = set()
    for path in Path(lab.__file__).parent.glob(f"lab{number}*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and node.value in tables.misconceptions():
                found.add(node.value)
    return frozenset(found)


@pytest.mark.parametrize("number", content.numbers())
def test_does_everything_wrong_in_a_lesson_point_to_an_entry(number):
    found = list(in_lesson(number))
    assert len(found) >= 15
    for what, key in found:
        assert key in tables.misconceptions(), f"lesson {number}, {what}: {key!r}"


@pytest.mark.parametrize("number", lab.lab_ids())
def test_does_every_slip_of_a_lab_point_to_an_entry(number):
    found = in_lab(number)
    assert len(found) >= 10
    for what, key in found:
        assert key in tables.misconceptions(), f"lab {what}: {key!r}"


@pytest.mark.parametrize("number", lab.lab_ids())
def test_is_no_misconception_named_in_a_lab_that_the_table_lacks(number):
    """The keyword as it stands in the source, wherever it is used."""
    for path in Path(lab.__file__).parent.glob(f"lab{number}*.py"):
        for key in re.findall(r'misconception="([^"]+)"', path.read_text(encoding="utf-8")):
            assert key in tables.misconceptions(), f"{path.name}: {key}"


def test_is_every_entry_met_in_a_lesson_and_in_a_lab():
    lessons = {key for number in content.numbers() for _, key in in_lesson(number)}
    labs = {key for number in lab.lab_ids() for _, key in in_lab(number)}
    labs |= {key for number in lab.lab_ids() for key in named_in_source(number)}
    table = set(tables.misconceptions())
    assert table - lessons == set(), "in no lesson"
    assert table - labs == set(LESSONS_ONLY), "in no lab, or in one by now: then it needs no exemption"


def test_is_no_more_exempt_than_has_a_reason():
    assert set(LESSONS_ONLY) <= set(tables.misconceptions())
    assert not set(LESSONS_ONLY) & set(REQUIRED)


@pytest.mark.parametrize("key", REQUIRED)
def test_is_what_the_course_must_clear_up_in_the_table(key):
    assert REQUIRED[key] in tables.misconception(key).believed


def test_does_every_entry_say_why_and_show_a_reading_of_its_own():
    table = tables.misconceptions().values()
    assert len({one.why_wrong for one in table}) == len(table)
    assert len({one.shown_by for one in table}) == len(table)
    assert len({one.believed for one in table}) == len(table)
