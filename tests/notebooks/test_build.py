"""Are derived notebooks what their masters say, and is nothing handed out that must not be?"""

from __future__ import annotations

import json
import re
from pathlib import Path

import nbformat
import pytest
from twostroke import resources
from twostroke.build import PARTS, BuildError, Difference, build
from twostroke.build.leaks import guarded_lines, leaks
from twostroke.build.notebooks import read_master
from twostroke.errors import TwoStrokeError

TOP = resources.clone()
LAB = """\
# %% [markdown]
# # Lab

# %% nbgrader={"grade_id": "t1", "solution": true}
answer = None
### BEGIN SOLUTION
answer = secret_of_the_instructor = 42
### END SOLUTION

# %% nbgrader={"grade_id": "t1_check", "grade": true, "locked": true, "points": 2}
form = "free"
### BEGIN HIDDEN TESTS
hidden_rule = 2.0 if answer == 42 else 0.0
hidden_rule
### END HIDDEN TESTS

# %% [markdown] nbgrader={"grade_id": "t2", "grade": true, "solution": true, "points": 5}
# the model text of the instructor
"""
LESSON = """\
# %% [markdown]
# # Start here

# %%
print("0.30 mm")
"""


@pytest.fixture
def clone(tmp_path):
    """A clone with one lesson and one lab of our own."""
    for folder, name, text in (("lessons", "00_start_here.py", LESSON), ("labs", "lab01.py", LAB)):
        place = tmp_path / "course" / "text" / folder
        place.mkdir(parents=True)
        (place / name).write_text(text)
    return tmp_path


def derived() -> list[Path]:
    """Every committed notebook."""
    return sorted(
        path for folder in ("course/lessons", "source", "release") for path in (TOP / folder).rglob("*.ipynb")
    )


def test_are_the_committed_copies_fresh() -> None:
    assert build(check=True) == []


def test_does_every_master_have_its_notebook() -> None:
    lessons = {path.stem for path in (TOP / "course/text/lessons").glob("*.py")}
    labs = {path.stem for path in (TOP / "course/text/labs").glob("*.py")}
    assert lessons
    assert labs
    assert lessons == {path.stem for path in (TOP / "course/lessons").glob("*.ipynb")}
    for folder in ("source", "release"):
        assert labs == {path.parent.name for path in (TOP / folder).rglob("*.ipynb")}


def test_is_there_nothing_but_notebooks_in_what_is_handed_out() -> None:
    """nbgrader copies every file beside a source notebook into the release, so there may be none."""
    for folder in ("source", "release", "course/lessons"):
        for path in (TOP / folder).rglob("*"):
            if path.is_file() and ".ipynb_checkpoints" not in path.parts:
                assert path.suffix == ".ipynb", path


@pytest.mark.parametrize("path", derived(), ids=lambda path: path.stem + "-" + path.parent.parent.name)
def test_is_a_committed_notebook_clean(path) -> None:
    notebook = nbformat.reads(path.read_text(encoding="utf-8"), as_version=4)
    nbformat.validate(notebook)
    names = [cell["id"] for cell in notebook.cells]
    assert len(names) == len(set(names))
    for cell in notebook.cells:
        assert not cell.get("outputs")
        assert not cell.get("execution_count")
        assert cell["id"] == cell.metadata.get("nbgrader", {}).get("grade_id", cell["id"])
    assert "edit course/text/" in notebook.metadata["twostroke"]["derived"]
    master = re.search(r"course/text/\S+\.py", notebook.metadata["twostroke"]["derived"])
    assert master is not None
    assert (TOP / master.group()).is_file()


@pytest.mark.parametrize("path", sorted((TOP / "release").rglob("*.ipynb")), ids=lambda path: path.stem)
def test_does_a_release_hold_nothing_of_the_instructors(path) -> None:
    released = nbformat.reads(path.read_text(encoding="utf-8"), as_version=4)
    source = nbformat.reads(
        (TOP / "source" / path.parent.name / path.name).read_text(encoding="utf-8"), as_version=4
    )
    assert guarded_lines(source), "a lab without a solution or a hidden test cannot be graded"
    assert leaks(released, source) == []


def test_is_everything_built_once_and_then_fresh(clone) -> None:
    made = build(top=clone)
    assert {difference.state for difference in made} == {"new"}
    assert {difference.path.split("/")[0] for difference in made} == {"course", "source", "release", "assets"}
    assert build(top=clone, check=True) == []
    assert build(top=clone) == []


def test_are_the_bytes_the_same_every_time(clone) -> None:
    build(top=clone)
    first = {path: path.read_bytes() for path in clone.rglob("*.ipynb")}
    for path in first:
        path.unlink()
    build(top=clone)
    assert {path: path.read_bytes() for path in clone.rglob("*.ipynb")} == first


def test_does_the_build_leave_nothing_else_behind(clone, monkeypatch) -> None:
    monkeypatch.chdir(clone)
    build(["lessons", "source", "release"], top=clone)
    files = {path.relative_to(clone).as_posix() for path in clone.rglob("*") if path.is_file()}
    assert files == {
        "course/text/lessons/00_start_here.py",
        "course/text/labs/lab01.py",
        "course/lessons/00_start_here.ipynb",
        "source/lab01/lab01.ipynb",
        "release/lab01/lab01.ipynb",
    }


def test_does_check_see_each_kind_of_difference_and_write_nothing(clone) -> None:
    build(top=clone)
    (clone / "source/lab01/lab01.ipynb").write_text("edited by hand")
    (clone / "release/lab01/lab01.ipynb").unlink()
    (clone / "course/lessons/09_gone.ipynb").write_text("{}")
    expected = [
        Difference("course/lessons/09_gone.ipynb", "left over"),
        Difference("source/lab01/lab01.ipynb", "changed"),
        Difference("release/lab01/lab01.ipynb", "new"),
    ]
    assert build(top=clone, check=True) == expected
    assert (clone / "source/lab01/lab01.ipynb").read_text() == "edited by hand"
    assert build(top=clone) == expected
    assert not (clone / "course/lessons/09_gone.ipynb").exists()


def test_can_one_part_be_built_alone(clone) -> None:
    assert [difference.path for difference in build(["lessons"], top=clone)] == [
        "course/lessons/00_start_here.ipynb"
    ]
    with pytest.raises(BuildError, match="'lesson' is unknown"):
        build(["lesson"], top=clone)


def test_does_the_release_keep_what_learners_need_and_drop_the_rest(clone) -> None:
    build(top=clone)
    text = (clone / "release/lab01/lab01.ipynb").read_text()
    for guarded in ("secret_of_the_instructor", "hidden_rule", "model text", "BEGIN"):
        assert guarded not in text
    notebook = nbformat.reads(text, as_version=4)
    assert [cell["id"] for cell in notebook.cells] == ["text-001", "t1", "t1_check", "t2"]
    assert notebook.cells[2].source == 'form = "free"'
    assert notebook.cells[2].metadata["nbgrader"]["points"] == 2
    assert notebook.cells[1].metadata["nbgrader"]["solution"] is True


def test_are_cell_names_kept_when_text_changes(clone) -> None:
    master = clone / "course/text/labs/lab01.py"
    before = [cell["id"] for cell in read_master(master).cells]
    master.write_text(LAB.replace("# # Lab", "# # Lab one, longer").replace("= None", "= 0"))
    assert [cell["id"] for cell in read_master(master).cells] == before


GRADED = '# %% nbgrader={"grade_id": "x", "grade": true, "locked": true}\n1.0\n'


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (LAB.replace('"t1_check"', '"t1"'), "grade id 't1' is used twice"),
        (LAB.replace('"t1_check"', '"t1 check"'), "must be 1 to 60 letters"),
        (LAB.replace('"grade_id": "t1", ', ""), "grade id None"),
        (
            LAB.replace('# %% nbgrader={"grade_id": "t1", "solution": true}', "# %%"),
            "needs nbgrader metadata",
        ),
        (
            LAB.replace('"grade": true, "locked": true, "points": 2', '"solution": true'),
            "only in a cell with grade",
        ),
        (GRADED, "graded but has no points"),
        ("# %% nbgrader=3\n1\n", "must be a table"),
        ("", "has no cells"),
    ],
)
def test_is_a_master_that_would_mislead_refused(clone, text, says) -> None:
    (clone / "course/text/labs/lab01.py").write_text(text)
    with pytest.raises(BuildError, match=re.escape(says)) as caught:
        build(top=clone)
    assert "lab01" in str(caught.value)


def test_is_an_unfinished_region_refused(clone) -> None:
    (clone / "course/text/labs/lab01.py").write_text(LAB.replace("### END SOLUTION", ""))
    with pytest.raises(TwoStrokeError, match="lab01: nbgrader cannot make the release"):
        build(["release"], top=clone)


@pytest.mark.parametrize("name", ["Lab1.py", "lab1.py", "lab01_old.py"])
def test_is_a_master_of_another_name_refused(clone, name) -> None:
    (clone / "course/text/labs" / name).write_text(LAB)
    with pytest.raises(BuildError, match="is named like"):
        build(["source"], top=clone)


def code(source: str, **more) -> dict:
    return {
        "cell_type": "code",
        "id": "a",
        "metadata": {},
        "outputs": [],
        "execution_count": None,
        "source": source,
        **more,
    }


def notebook(*cells: dict):
    return nbformat.reads(
        json.dumps({"cells": cells, "metadata": {}, "nbformat": 4, "nbformat_minor": 5}), as_version=4
    )


@pytest.mark.parametrize(
    ("cell", "says"),
    [
        (code("x = 1\n### BEGIN SOLUTION"), "BEGIN SOLUTION"),
        (code("  ### END HIDDEN TESTS"), "END HIDDEN"),
        (code("x", execution_count=3), "outputs"),
        (code("x", outputs=[{"output_type": "stream", "name": "stdout", "text": "42"}]), "outputs"),
        (code("    gap = 0.30"), "gap = 0.30"),
    ],
)
def test_does_the_scan_see_each_kind_of_leak(cell, says) -> None:
    source = notebook(code("### BEGIN SOLUTION\ngap = 0.30\n### END SOLUTION"))
    found = leaks(notebook(cell), source)
    assert found
    assert says in found[0]


def test_is_a_line_that_every_learner_sees_no_leak() -> None:
    source = notebook(code("gap = 0.30", id="b"), code("### BEGIN SOLUTION\ngap = 0.30\n### END SOLUTION"))
    assert leaks(notebook(code("gap = 0.30")), source) == []


def test_is_a_card_printed_by_another_version_of_the_library_still_fresh(clone) -> None:
    build(["cards"], top=clone)
    cards = clone / "assets/cards"
    one = sorted(cards.glob("card_*.pdf"))[0]
    one.write_bytes(one.read_bytes() + b"\n% printed elsewhere")
    assert build(["cards"], top=clone, check=True) == []
    one.write_bytes(sorted(cards.glob("card_*.pdf"))[1].read_bytes())
    assert [difference.state for difference in build(["cards"], top=clone, check=True)] == ["changed"]


def test_does_every_bench_card_fit_one_page() -> None:
    from twostroke.lesson import card, content

    assert {number: card.sheet(number).pages() for number in content.numbers()} == dict.fromkeys(
        content.numbers(), 1
    )


def test_is_every_part_of_the_build_a_real_place() -> None:
    for part in PARTS.values():
        assert (TOP / part.folder).is_dir()
