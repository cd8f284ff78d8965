"""Do the notebooks of each lab run: the source earns everything, the release shows words and no error?"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient
from twostroke import lab, resources

LABS = lab.lab_ids()
TOP = resources.clone()


def _notebook(folder: str, lab_id: str):
    path = TOP / folder / f"lab{lab_id}" / f"lab{lab_id}.ipynb"
    return nbformat.read(path, as_version=4)


def _run(notebook, folder: Path):
    NotebookClient(notebook, timeout=600, resources={"metadata": {"path": str(folder)}}).execute()
    return notebook


def _text(cell) -> str:
    return "".join(
        output.get("text", "") or output.get("data", {}).get("text/plain", "")
        for output in cell.get("outputs", ())
    )


def _filled(lab_id: str, learner: str, answers: dict):
    """The release as one learner fills it in: text between the quotes, nothing else."""
    notebook = _notebook("release", lab_id)
    for cell in notebook.cells:
        cell.source = cell.source.replace('"your name or number"', f'"{learner}"')
        for task, blanks in answers.items():
            if f'work.answer("{task}"' not in cell.source:
                continue
            names = dict(re.findall(r"(\w+)=(\w+)", cell.source.partition("work.answer")[2]))
            for item, text in blanks.items():
                if not isinstance(text, str):  # the record of a job on the bench
                    cell.source = cell.source.replace("machine.route", repr(text))
                    continue
                cell.source = re.sub(rf'(?m)^({names[item]} *= )""', rf'\g<1>"{text}"', cell.source)
    return notebook


@pytest.mark.parametrize("lab_id", LABS)
def test_does_the_source_run_and_earn_everything(lab_id, tmp_path):
    done = _run(_notebook("source", lab_id), tmp_path)
    elsewhere = {f"{task.id}_mark" for task in lab.load(lab_id).tasks if task.by_service}
    for cell in done.cells:
        marks = cell.metadata.get("nbgrader", {})
        if marks.get("grade") and not marks.get("solution") and marks["grade_id"] not in elsewhere:
            result = next(each for each in cell.outputs if each.output_type == "execute_result")
            assert float(result.data["text/plain"]) == marks["points"]


@pytest.mark.parametrize("lab_id", LABS)
def test_does_the_master_hold_the_model_answers_of_the_lab(lab_id, tmp_path):
    source = _notebook("source", lab_id)
    model = lab.model_answers(lab_id, "model answer")
    for task, blanks in model.items():
        cell = next(cell for cell in source.cells if f'work.answer("{task}"' in cell.source)
        for text in blanks.values():
            if isinstance(text, str):
                assert f'"{text}"' in cell.source
                continue
            written = cell.source.partition("BEGIN SOLUTION")[2]
            done = re.findall(r'machine\.(?:do\("(\w+)|(hand_back))', written)
            assert ["".join(each) for each in done] == [step["action"] for step in text]


@pytest.mark.parametrize("lab_id", LABS)
def test_does_the_untouched_release_run_from_top_to_bottom_without_an_error(lab_id, tmp_path):
    done = _run(_notebook("release", lab_id), tmp_path)
    assert "First write your name or number" in _text(done.cells[2])
    assert not any(
        output.output_type in ("error", "stream") for cell in done.cells for output in cell.get("outputs", ())
    )


@pytest.mark.parametrize("lab_id", LABS)
def test_does_a_learner_who_fills_in_the_release_see_that_all_is_right(lab_id, tmp_path):
    answers = lab.model_answers(lab_id, "learner07")
    if lab_id == "14":  # as the service prints it
        answers["bench"] = {"receipt": "9-ABCDEFGHIJ-KLMNOPQRST"}
    done = _run(_filled(lab_id, "learner07", answers), tmp_path)
    compared = [_text(cell) for cell in done.cells if cell.source.startswith("work.compare(")]
    found = lab.load(lab_id)
    if not found.practice:  # the examination: the form alone
        assert compared == []
        checked = [_text(cell) for cell in done.cells if cell.source.startswith('work.check("')]
        assert all("The value is checked when you hand it in." in text for text in checked)
        return
    kinds = [task.kind for task in found.tasks]
    state = {"written": "once a person has read it"}
    assert len(compared) == len(kinds)
    for text, kind in zip(compared, kinds, strict=True):
        assert state.get(kind, "(right)") in text
        assert "Try 1." in text
    assert (tmp_path / ".two-stroke" / "tries" / f"lab{lab_id}.json").is_file()


@pytest.mark.parametrize("lab_id", LABS)
def test_does_the_release_say_what_each_hidden_cell_is_for(lab_id):
    marks = [(cell, cell.metadata.get("nbgrader", {})) for cell in _notebook("release", lab_id).cells]
    hidden = [cell for cell, each in marks if each.get("grade") and not each.get("solution")]
    assert hidden
    assert all("Leave this cell as it is." in cell.source for cell in hidden)


def _autograde(folder: Path, lab_id: str, learners: list[str]) -> dict[str, float]:
    """Grade with nbgrader's own command and return each learner's score."""
    (folder / "nbgrader_config.py").write_text(
        f"c = get_config()\nc.CourseDirectory.root = {str(folder)!r}\n"
        "c.ClearSolutions.code_stub = {'python': '# here'}\n"
    )
    scripts = str(Path(sys.executable).parent)
    environment = {"PATH": f"{scripts}:/usr/bin:/bin", "HOME": str(folder), "JUPYTER_PLATFORM_DIRS": "1"}
    command = [sys.executable, "-m", "nbgrader"]
    for step in (["generate_assignment", f"lab{lab_id}"], ["autograde", f"lab{lab_id}"]):
        done = subprocess.run(
            [*command, *step], cwd=folder, capture_output=True, text=True, env=environment, check=False
        )
        assert done.returncode == 0, done.stderr[-2000:]
    from nbgrader.api import Gradebook

    with Gradebook(f"sqlite:///{folder / 'gradebook.db'}") as book:
        return {name: book.find_submission(f"lab{lab_id}", name).score for name in learners}


@pytest.mark.parametrize(
    "most", [pytest.param(1, marks=pytest.mark.slow), pytest.param(1000, marks=pytest.mark.long)]
)
@pytest.mark.parametrize("lab_id", LABS)
def test_does_stock_nbgrader_give_the_points_of_our_marking(lab_id, most, tmp_path):
    """Model answer, nothing, and kept wrong answers, one of each task in a submission."""
    model = lab.model_answers(lab_id, "model answer")
    kept = lab.wrong_answers(lab_id)
    rounds = min(most, max(len(rows) for rows in kept.values()))
    classes: dict[str, tuple[str, dict]] = {
        "full": ("full", lab.model_answers(lab_id, "full")),
        "none": ("none", {}),
    }
    here = [task for task in lab.load(lab_id).tasks if task.kind != "written" and not task.by_service]
    by_checker = sum(task.points for task in here)
    expected = {"full": by_checker, "none": 0.0}
    for number in range(rounds):
        name = f"wrong{number}"
        answers = {task: {**model[task], **rows[number % len(rows)]["change"]} for task, rows in kept.items()}
        classes[name] = ("model answer", answers)
        expected[name] = sum(mark.points for mark in lab.mark_answers(lab_id, "model answer", answers))
        by_rows = sum(rows[number % len(rows)]["points"] for rows in kept.values())
        # a wrong value may make a later task right on the learner's own figures, never wrong
        assert expected[name] >= by_rows - 1e-6
    shutil.copytree(TOP / "source" / f"lab{lab_id}", tmp_path / "source" / f"lab{lab_id}")
    for name, (typed, answers) in classes.items():
        target = tmp_path / "submitted" / name / f"lab{lab_id}"
        target.mkdir(parents=True)
        nbformat.write(_filled(lab_id, typed, answers), target / f"lab{lab_id}.ipynb")
    assert _autograde(tmp_path, lab_id, list(classes)) == pytest.approx(expected)
    graded_here = {task.id for task in here}
    for name, (typed, answers) in classes.items():
        path = tmp_path / "autograded" / name / f"lab{lab_id}" / f"lab{lab_id}.ipynb"
        told = "\n".join(_text(cell) for cell in nbformat.read(path, as_version=4).cells)
        for mark in lab.mark_answers(lab_id, typed, answers):
            if mark.task in graded_here:
                assert f"({mark.state})\n{mark.message}" in told, (name, mark.task)
