"""Does every way of damaging a notebook end in the trusted lab with the learner's answers, or in a reason?"""

from __future__ import annotations

import copy
import json
from pathlib import Path

import nbformat
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from nbgrader import utils
from twostroke import lab as labs
from twostroke.grading import invent
from twostroke.grading.normalise import Refused, normalise, read_pieces
from twostroke.grading.place import Course
from twostroke.grading.skeleton import mark_call
from twostroke.grading.states import Reason

ZOO = Path(__file__).parent / "zoo"
REASONS = {
    "empty": Reason.EMPTY,
    "blanks": Reason.EMPTY,
    "broken_off": Reason.CORRUPT,
    "open_bracket": Reason.CORRUPT,
    "printed": Reason.CORRUPT,
    "sign_in_page": Reason.CORRUPT,
    "a_list": Reason.CORRUPT,
    "no_cells": Reason.CORRUPT,
    "cells_a_number": Reason.CORRUPT,
    "cells_of_other_kinds": Reason.LOST_METADATA,
    "utf16": Reason.CORRUPT,
    "nested": Reason.CORRUPT,
    "huge_number": Reason.CORRUPT,
    "nul": Reason.CORRUPT,
}


@pytest.fixture(scope="module")
def right(trusted):
    return invent.fill(trusted, "learner-01", labs.model_answers("01", "learner-01"))


def answers(trusted, work) -> dict[str, str]:
    return {
        slot.grade_id: cell.source
        for slot, cell in zip(work.slots, work.notebook.cells, strict=True)
        if slot is not None and slot.kind == "answer"
    }


def laid(trusted, notebook, change=None):
    other = copy.deepcopy(notebook)
    if change:
        change(other)
    return normalise(invent.as_bytes(other), trusted)


def check_trusted(trusted, work) -> None:
    """Check and locked cells are the trusted ones, each once, in order; the notebook is valid."""
    found = [slot for slot in work.slots if slot is not None]
    assert [slot.grade_id for slot in found if slot.grade_id] == [
        s.grade_id for s in trusted.slots if s.grade_id
    ]
    for slot, cell in zip(work.slots, work.notebook.cells, strict=True):
        if slot is not None and slot.kind in ("check", "locked"):
            assert cell.source == slot.cell.source
            assert cell.metadata == slot.cell.metadata
            assert cell.metadata.nbgrader["checksum"] == utils.compute_checksum(cell)
        if slot is None:
            assert "nbgrader" not in cell.metadata
    nbformat.validate(work.notebook)


@pytest.mark.parametrize("name", sorted(path.stem for path in ZOO.glob("*.spoilt")))
def test_does_each_animal_of_the_zoo_get_its_reason(trusted, name):
    with pytest.raises(Refused) as refused:
        normalise((ZOO / f"{name}.spoilt").read_bytes(), trusted)
    assert refused.value.cause.reason is REASONS[name]
    assert refused.value.cause.detail


def test_is_the_trusted_lab_what_was_handed_out(trusted):
    released = nbformat.read(Course.at().release / "lab01" / "lab01.ipynb", as_version=4)
    assert [cell.source for cell in released.cells] == [slot.released for slot in trusted.slots]


def test_does_an_untouched_notebook_come_through_without_notes(trusted, right):
    work = laid(trusted, right)
    check_trusted(trusted, work)
    assert work.notes == []
    assert work.causes == []
    assert answers(trusted, work)["metric"] == invent.cell_of(right, "metric").source


def copied_before(n):
    cell = invent.cell_of(n, "metric")
    n.cells.insert(n.cells.index(cell), nbformat.from_dict({**cell, "id": "copy"}))


def copied_after(n):
    cell = invent.cell_of(n, "metric")
    n.cells.append(nbformat.from_dict({**cell, "id": "copy"}))


def check_copied(n):
    cell = invent.cell_of(n, "metric_mark")
    n.cells.insert(0, nbformat.from_dict({**cell, "id": "copy"}))


def check_deleted(n):
    n.cells.remove(invent.cell_of(n, "metric_mark"))


def checks_deleted(n):
    n.cells = [c for c in n.cells if not c.metadata.get("nbgrader", {}).get("grade")]


def locked_deleted(n):
    n.cells = [c for c in n.cells if not c.metadata.get("nbgrader", {}).get("locked")]


def check_edited(n):
    invent.cell_of(n, "metric_mark").source = "100"


def order_turned(n):
    n.cells = n.cells[::-1]


def ids_renamed(n):
    for cell in n.cells:
        if cell.metadata.get("nbgrader", {}).get("solution"):
            cell.metadata.nbgrader["grade_id"] = f"renamed-{cell.metadata.nbgrader['grade_id']}"


def answer_metadata_lost(n):
    invent.cell_of(n, "metric").metadata = {}


def all_metadata_lost(n):
    for number, cell in enumerate(n.cells):
        cell["metadata"], cell["id"] = {}, f"x-{number}"


def turned_to_markdown(n):
    cell = invent.cell_of(n, "metric")
    cell["cell_type"] = "markdown"
    cell.pop("outputs"), cell.pop("execution_count")


def own_cells(n):
    n.cells.insert(3, nbformat.v4.new_code_cell("thou = 0.0254"))
    n.cells.append(nbformat.v4.new_markdown_cell("my notes"))


def old_format(n):
    n["worksheets"] = [{"cells": [{**c, "input": c.source} for c in n.cells]}]
    del n["cells"]


def source_as_lines(n):
    for cell in n.cells:
        cell["source"] = cell["source"].splitlines(keepends=True)


KEEP = [
    (copied_before, "was there 2 times"), (copied_after, "was there 2 times"),
    (check_copied, "was there 2 times"),
    (check_deleted, "was missing; put back"), (checks_deleted, "was missing; put back"),
    (locked_deleted, "was missing; put back"), (check_edited, "put back as handed out"),
    (order_turned, "another order"), (ids_renamed, "grade id lost"), (answer_metadata_lost, "grade id lost"),
    (all_metadata_lost, "grade id lost"), (turned_to_markdown, "turned back"),
    (own_cells, None), (old_format, None),
    (source_as_lines, None),
]  # fmt: skip


@pytest.mark.parametrize(("change", "note"), KEEP, ids=[change.__name__ for change, _ in KEEP])
def test_does_damage_that_costs_nothing_keep_every_answer(trusted, right, change, note):
    work = laid(trusted, right, change)
    check_trusted(trusted, work)
    mine = [slot.grade_id for slot in trusted.slots if slot.kind == "answer"]
    wanted = {name: invent.cell_of(right, name).source for name in mine}
    assert answers(trusted, work) == wanted
    assert work.causes == []
    assert note is None or any(note in each for each in work.notes)


def test_does_an_empty_copy_not_wipe_the_answer(trusted, right):
    def change(n):
        cell = invent.cell_of(n, "metric")
        released = next(slot.released for slot in trusted.slots if slot.grade_id == "metric")
        n.cells.insert(
            n.cells.index(cell) + 1, nbformat.from_dict({**cell, "id": "copy", "source": released})
        )

    work = laid(trusted, right, change)
    assert answers(trusted, work)["metric"] == invent.cell_of(right, "metric").source
    assert sum("metric" in cell.source and "answer(" in cell.source for cell in work.notebook.cells) == 1


def test_does_an_unclear_place_need_a_person(trusted, right):
    def change(n):
        cell = invent.cell_of(n, "metric")
        cell.metadata = {}
        n.cells.insert(
            n.cells.index(cell), nbformat.v4.new_code_cell('work.answer("metric", air_gap="1 mm")')
        )

    work = laid(trusted, right, change)
    check_trusted(trusted, work)
    assert [cause.reason for cause in work.causes] == [Reason.AMBIGUOUS]


def test_is_another_labs_notebook_known(trusted, right):
    def change(n):
        for number, cell in enumerate(n.cells):
            cell["id"] = f"o{number}"
            if "nbgrader" in cell.metadata:
                cell.metadata.nbgrader["grade_id"] = f"other{number}"

    ids = {f"other{number}" for number in range(80)}
    with pytest.raises(Refused) as refused:
        normalise(invent.spoil(right, change), trusted, {"lab02": ids})
    assert refused.value.cause.reason is Reason.WRONG_LAB
    assert "lab02" in refused.value.cause.detail


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_does_no_shuffle_of_cells_and_ids_break_the_trusted_lab(trusted, right, data):
    notebook = copy.deepcopy(right)
    count = len(notebook.cells)
    picked = data.draw(st.lists(st.integers(0, count - 1), max_size=count + 10))
    cells = [copy.deepcopy(notebook.cells[index]) for index in picked]
    ids = [slot.grade_id for slot in trusted.slots if slot.grade_id]
    for cell in cells:
        action = data.draw(st.sampled_from(["keep", "keep", "keep", "strip", "forge", "source"]))
        if action == "strip":
            cell["metadata"] = {}
        elif action == "forge":
            cell["metadata"] = {
                "nbgrader": {"grade_id": data.draw(st.sampled_from([*ids, "?", ""])), "points": 99}
            }
        elif action == "source":
            cell["source"] = data.draw(st.text(max_size=20))
    notebook["cells"] = cells
    try:
        work = normalise(json.dumps(notebook).encode(), trusted)
    except Refused:
        return
    check_trusted(trusted, work)


def reason_or_none(data: bytes) -> str | None:
    """What a file is refused for, or None where its cells can be read."""
    try:
        read_pieces(data)
    except Refused as refused:
        return refused.cause.detail
    return None


@settings(max_examples=60, deadline=None)
@given(data=st.binary(max_size=200))
def test_does_no_file_raise_anything_but_a_reason(data):
    assert reason_or_none(data) != ""


@settings(max_examples=60, deadline=None)
@given(
    content=st.recursive(
        st.none() | st.booleans() | st.integers() | st.text(max_size=5),
        lambda inner: (
            st.lists(inner, max_size=4)
            | st.dictionaries(
                st.sampled_from(["cells", "metadata", "source", "nbgrader", "grade_id", "cell_type"]), inner
            )
        ),
        max_leaves=12,
    )
)
def test_does_no_json_raise_anything_but_a_reason(content):
    assert reason_or_none(json.dumps(content).encode()) != ""


@pytest.mark.parametrize(
    ("source", "task"),
    [
        ('work.mark("gap")', "gap"),
        ('# Task 1\n### BEGIN HIDDEN TESTS\nwork.mark("gap")\n### END HIDDEN TESTS', "gap"),
        ('work.check("gap")\nwork.mark("gap")', "gap"),
        ('work.mark("gap") * 2', None),
        ('print(1)\nwork.mark("gap")', None),
        ('work.mark("gap")\nwork.mark("key")', None),
        ('work.mark("gap")\nwork.check("gap")', None),
        ("work.mark(name)", None),
        ("assert gap == 3", None),
        ("work.mark(", None),
    ],
)
def test_is_only_a_plain_mark_call_marked_from_the_record(source, task):
    assert mark_call(source) == task
