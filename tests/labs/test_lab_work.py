"""Does the work session tell a learner what they need, keep their work, and never show a traceback?"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from twostroke import TwoStrokeError, lab
from twostroke.lab import plain_errors, surroundings
from twostroke.lab.page import INK, PAPER, SHADE, TONES, Caution, Figure, Page, Table, Text


@pytest.fixture(autouse=True)
def _own_folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for name in ("TWOSTROKE_LEARNER", "TWOSTROKE_ANSWERS", "TWOSTROKE_RECORD_ONLY", "NBGRADER_EXECUTION"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TWOSTROKE_WORKSPACE", str(tmp_path))


def _done(learner="learner07"):
    work = lab.open_lab("01", learner=learner)
    for task, answer in lab.model_answers("01", learner).items():
        work.answer(task, answer)
    return work


def test_does_a_whole_session_earn_everything(capsys):
    work = _done()
    assert sum(work.mark(task.id) for task in work.lab.tasks) == 24.0
    assert "4 of 4 points (right)" in capsys.readouterr().out


def test_does_the_form_message_come_with_the_answer_and_cost_nothing():
    work = lab.open_lab("01", learner="learner07")
    shown = repr(work.answer("metric", air_gap="0.38", compression="11.3 bar"))
    assert "mend (it costs nothing)" in shown
    assert "unit" in shown
    assert '"11.3 bar" can be read' in shown
    assert repr(work.tries()).count("none yet") == 8


def test_is_value_feedback_given_at_once_and_each_try_counted_and_kept():
    work = lab.open_lab("01", learner="learner07")
    work.answer("metric", air_gap="0.15 mm", compression="11.3 bar", torque="3.4 N·m", storage="36 °C")
    shown = repr(work.compare("metric"))
    assert "3 of 4 points (part right)" in shown
    assert "A thou was taken for a hundredth of a millimetre." in shown
    assert shown.endswith("Try 1.")
    assert repr(work.compare("metric")).endswith("Try 1."), "the same answer again is no new try"
    work.answer("metric", air_gap="0.38 mm", compression="11.3 bar", torque="3.4 N·m", storage="36 °C")
    assert repr(work.compare("metric")).endswith("Try 2.")
    again = lab.open_lab("01", learner=" LEARNER 07")
    assert "2 tries, the last one right" in repr(again.tries())


def test_are_answers_that_cannot_be_read_not_counted_as_tries():
    work = lab.open_lab("01", learner="learner07")
    assert "Not counted" in repr(work.compare("metric"))
    work.answer("mixing", steps="z z")
    assert "Not counted" in repr(work.compare("mixing"))


@pytest.mark.parametrize("content", ["", "{", "[]", '{"learner07 1": 3}', '{"learner07 1": {"metric": [3]}}'])
def test_does_a_damaged_file_of_tries_cost_only_the_tries(content, tmp_path):
    file = tmp_path / ".two-stroke" / "tries" / "lab01.json"
    file.parent.mkdir(parents=True)
    file.write_text(content)
    assert repr(_done().compare("metric")).endswith("Try 1.")


def test_does_a_folder_that_cannot_be_written_to_cost_only_the_memory(tmp_path):
    (tmp_path / ".two-stroke").write_text("a file where a folder should be")
    assert "Try 1." in repr(_done().compare("metric"))


@pytest.mark.parametrize(
    "typed", [surroundings.PLACEHOLDER, "Your Name or Number", "", "  ", "\u200b", None, 3.5]
)
def test_is_a_missing_name_asked_for_before_anything_is_shown(typed, capsys):
    work = lab.open_lab("01", learner=typed)
    for page in (work, work.show(), work.show("oil"), work.check("oil"), work.compare("oil"), work.tries()):
        assert "First write your name or number" in repr(page)
    assert "name or number" in repr(work.answer("oil", fuel="5 L"))
    assert work.mark("oil") == 0.0
    assert "No name" in capsys.readouterr().out


def test_does_the_trusted_name_serve_where_none_was_typed(monkeypatch):
    monkeypatch.setenv("TWOSTROKE_LEARNER", "learner07")
    work = lab.open_lab("01")
    assert (work.learner, work.trusted) == ("learner07", "learner07")


def test_is_another_typed_name_kept_beside_the_trusted_one_and_its_variant_marked(monkeypatch):
    monkeypatch.setenv("TWOSTROKE_LEARNER", "learner08")
    work = _done("learner07")
    assert (work.learner, work.trusted) == ("learner07", "learner08")
    assert work.mark("metric") == 4.0


def test_is_the_folder_of_the_submission_trusted_under_stock_nbgrader(monkeypatch, tmp_path):
    folder = tmp_path / "autograded" / "learner07" / "lab01"
    folder.mkdir(parents=True)
    monkeypatch.chdir(folder)
    monkeypatch.setenv("NBGRADER_EXECUTION", "autograde")
    assert lab.open_lab("01").trusted == "learner07"


def test_are_answers_recorded_for_the_second_marking(monkeypatch, tmp_path, capsys):
    file = tmp_path / "answers.jsonl"
    monkeypatch.setenv("TWOSTROKE_ANSWERS", str(file))
    monkeypatch.setenv("TWOSTROKE_RECORD_ONLY", "1")
    work = lab.open_lab("01", learner="learner07")
    work.answer("oil", fuel="11.4 L", oil="227 mL")
    assert work.mark("oil") == 0.0
    assert "desk only" in repr(work.compare("oil"))
    events = [json.loads(line) for line in file.read_text().splitlines()]
    assert [event["event"] for event in events] == ["open", "answer", "mark"]
    assert events[-1] == {
        "event": "mark",
        "lab": "01",
        "learner": "learner07",
        "trusted": None,
        "attempt": 1,
        "task": "oil",
        "answer": {"fuel": "11.4 L", "oil": "227 mL"},
    }
    assert capsys.readouterr().out == ""


def test_can_answers_be_recorded_to_an_open_descriptor(monkeypatch):
    read, write = os.pipe()
    monkeypatch.setenv("TWOSTROKE_ANSWERS", str(write))
    lab.open_lab("01", learner="learner07").answer("mixing", "a b")
    os.close(write)
    with open(read) as pipe:
        assert json.loads(pipe.read().splitlines()[1])["answer"] == "a b"


def test_is_no_try_written_while_grading(monkeypatch, tmp_path):
    monkeypatch.setenv("TWOSTROKE_LEARNER", "learner07")
    _done().compare("metric")
    assert not (tmp_path / ".two-stroke").exists()


def test_is_an_object_in_place_of_text_refused_in_words_and_earns_nothing(capsys):
    work = _done()
    shown = repr(work.answer("mixing", object()))
    assert "text between quotes" in shown
    assert "text between quotes" in repr(work.check("mixing"))
    assert work.mark("mixing") == 0.0
    assert "mixing" not in work.answers()


def test_are_a_wrong_task_and_a_wrong_blank_said_in_words(capsys):
    work = lab.open_lab("01", learner="learner07")
    for page in (
        work.show("metrik"),
        work.answer("metrik", "1"),
        work.check("metrik"),
        work.compare("metrik"),
    ):
        assert "its tasks are: metric, inch" in repr(page)
    assert "its blanks are: fuel, oil" in repr(work.answer("oil", petrol="5 L"))
    assert work.mark("metrik") == 0.0


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([task.id for task in lab.load("01").tasks]), st.text(max_size=40))
def test_does_any_text_give_a_page_and_no_error(task, text):
    work = lab.open_lab("01", learner="learner07")
    for item in work.lab.task(task).items:
        assert isinstance(work.answer(task, **{item.id: text}), Page)
    assert isinstance(work.check(task), Page)


def test_is_only_the_form_checked_before_an_examination_is_handed_in(monkeypatch):
    from dataclasses import replace

    examination = replace(lab.load("01"), practice=False)
    monkeypatch.setattr("twostroke.lab.work.load", lambda _: examination)
    work = lab.open_lab("01", learner="learner07")
    shown = repr(work.answer("oil", fuel="11.4 L", oil="227 mL"))
    assert "The form is right. The value is checked when you hand it in." in shown
    assert "when you hand it in" in repr(work.compare("oil"))


def test_does_the_overview_say_what_is_still_open():
    work = lab.open_lab("01", learner="learner07")
    work.answer("oil", fuel="11.4 L", oil="227 mL")
    work.answer("metric", air_gap="0.3")
    work.answer("inch", plug_gap="27 thou")
    shown = repr(work.check())
    assert "Oil for the can: form right" in shown
    assert "inch to metric: unfinished" in shown
    assert shown.count("nothing written yet") == 5


def test_is_a_fault_of_ours_said_to_be_ours(monkeypatch):
    work = _done()
    monkeypatch.setattr(type(work.lab), "task", lambda *_: 1 / 0)
    assert "fault of the course (ZeroDivisionError), not yours" in repr(work.check("oil"))


@pytest.mark.parametrize(
    ("error", "says"),
    [
        (SyntaxError("unterminated string literal"), "a quote or bracket is missing"),
        (NameError("name 'mm' is not defined", name="mm"), "the word mm outside quotes"),
        (TwoStrokeError("lab 77 does not exist"), "lab 77 does not exist"),
    ],
)
def test_are_slips_of_the_keyboard_told_in_plain_words(error, says):
    assert says in plain_errors.plain(type(error), error)


def test_are_plain_words_shown_in_a_notebook_in_place_of_a_traceback(capsys):
    from IPython.core.interactiveshell import InteractiveShell

    shell = InteractiveShell.instance()
    try:
        shell.run_cell('from twostroke import lab\nwork = lab.open_lab("01", learner="learner07")')
        capsys.readouterr()
        for cell in ('x = "0.30 mm', "gap = mm", 'lab.open_lab("77")'):
            shell.run_cell(cell)
            said = capsys.readouterr()
            assert "Traceback" not in said.out + said.err, cell
            assert said.out.strip(), cell
    finally:
        InteractiveShell.clear_instance()


def test_is_the_lab_light_to_import():
    code = (
        "import sys; from twostroke import lab; lab.open_lab('01', learner='x').show('absolute'); "
        "heavy = {'ipywidgets', 'nbgrader', 'matplotlib', 'ambiance', 'pandas', 'IPython'}; "
        "print(sorted(heavy & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def _luminance(colour: str) -> float:
    """Relative luminance of WCAG 2.2."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("ink", [INK, *TONES.values()])
@pytest.mark.parametrize("paper", [PAPER, SHADE])
def test_is_the_contrast_of_text_at_least_4_5_to_1(ink, paper):
    # WCAG 2.2, success criterion 1.4.3 (AA)
    light, dark = sorted((_luminance(paper), _luminance(ink)), reverse=True)
    assert (light + 0.05) / (dark + 0.05) >= 4.5


def test_do_tables_name_their_headers_and_figures_their_content():
    page = Page(
        "Title <b>",
        (
            Table("Sheet", ("what", "value"), (("gap", "12 thou"),)),
            Figure("<svg></svg>", 'A trace of "kV"'),
            Caution("Vapour."),
            Text("a < b"),
        ),
    )
    html = page._repr_html_()
    assert "<caption" in html
    assert "scope='col'" in html
    assert "scope='row'" in html
    assert 'role="img"' in html
    assert "A trace of &quot;kV&quot;" in html
    assert "Title &lt;b&gt;" in html
    assert "a &lt; b" in html
    assert "CAUTION: Vapour." in repr(page)
    assert "12 thou" in repr(page)


def test_is_what_a_learner_types_never_run_as_html():
    work = lab.open_lab("01", learner="<script>alert(1)</script>")
    shown = work._repr_html_() + work.answer("oil", fuel="<img src=x onerror=alert(1)>")._repr_html_()
    assert not re.search(r"<script|<img", shown)


def test_does_every_table_cell_bring_its_own_paper_for_dark_themes():
    html = Table("Sheet", ("what", "value"), (("gap", "12 thou"), ("plug", "0.6 mm"))).html()
    cells = re.findall(r"<(?:th|td) [^>]*style='([^']*)'|<td style='([^']*)'", html)
    assert len(cells) == 6
    assert all("background:" in style and "color:" in style for pair in cells for style in pair if style)
