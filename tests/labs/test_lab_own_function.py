"""Is a learner's own function tried on other engines and edge cases, and can nothing in it stop the lab?"""

from __future__ import annotations

import subprocess
import sys
import threading

import pytest
from twostroke import lab
from twostroke.lab.own_function import outcome, run_limited

OPTIONAL = [(lab_id, each) for lab_id in lab.lab_ids() for each in lab.load(lab_id).optional]
NAMES = [f"lab{lab_id}-{each.id}" for lab_id, each in OPTIONAL]


@pytest.fixture(autouse=True)
def _own_folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for name in ("TWOSTROKE_LEARNER", "TWOSTROKE_ANSWERS", "TWOSTROKE_RECORD_ONLY", "NBGRADER_EXECUTION"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TWOSTROKE_WORKSPACE", str(tmp_path))


@pytest.mark.parametrize(("lab_id", "task"), OPTIONAL, ids=NAMES)
def test_does_the_library_itself_serve_what_it_asks(lab_id, task):
    """The reference computes what may be computed; a check that refuses the rest makes it whole."""
    given = lab.variant(lab_id, "learner07")
    tries = task.tries(given)
    assert {each.refused for each in tries} == {True, False}
    assert sum(not each.refused for each in tries) >= 4
    for each in tries:
        if not each.refused:
            assert outcome(task, task.reference, each) == ""


@pytest.mark.parametrize(("lab_id", "task"), OPTIONAL, ids=NAMES)
def test_does_a_number_that_is_right_for_one_engine_fail_on_others(lab_id, task):
    first = next(each for each in task.tries(lab.variant(lab_id, "learner07")) if not each.refused)
    right = task.reference(**first.given)
    shown = repr(lab.open_lab(lab_id, "learner07").try_function(task.id, lambda **given: right))
    assert "work that one through by hand" in shown
    assert "should raise ValueError" in shown
    assert "It serves every engine" not in shown


def _good(shown, leads, celsius):
    for value in (shown, leads, celsius):
        if type(value) not in (int, float):
            raise ValueError("missing, or no number")
    if leads < 0 or shown < leads:
        raise ValueError("leads above the reading")
    return (shown - leads) / (1 + 0.00393 * (celsius - 20))


def test_is_a_sound_function_told_so():
    shown = repr(lab.open_lab("07", "learner07").try_function("to_20", _good))
    assert "It serves every engine that was tried." in shown
    assert "no points" in shown


def _endless(**given):
    while True:
        pass


WOKEN = threading.Event()


def _asleep(**given):
    WOKEN.wait(300)
    return 1.0


def test_is_a_function_that_will_not_be_stopped_left_behind_with_advice():
    """In a process of its own, since it runs on until that ends: no further line of its own is met."""
    code = (
        "import time\n"
        "from twostroke import lab\n"
        "def stubborn(**given):\n"
        "    time.sleep(600)\n"
        "print(lab.open_lab('07', 'learner07').try_function('to_20', stubborn))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, timeout=300, check=True
    )
    assert "still runs: restart the kernel" in done.stdout


@pytest.mark.parametrize("function", [_endless, _asleep])
def test_is_a_function_that_never_comes_back_stopped_at_its_own_cost_only(function):
    work = lab.open_lab("07", "learner07")
    work.answer("paths", row="1")
    WOKEN.clear()
    try:
        shown = repr(work.try_function("to_20", function))
    finally:
        WOKEN.set()
    assert "did not come back within 1 s" in shown, "it was waited for"
    assert work.answers() == {"paths": {"row": "1"}}
    assert repr(work.check("paths"))


@pytest.mark.parametrize(
    ("function", "says"),
    [
        pytest.param(lambda shown, leads, celsius: None, "it gives nothing, not a number", id="untouched"),
        pytest.param(lambda shown: shown, "TypeError", id="other names"),
        pytest.param(lambda shown, leads, celsius: 1 / 0, "ZeroDivisionError", id="divides by zero"),
        pytest.param(lambda shown, leads, celsius: "1.2 ohm", "it gives str, not a number", id="text"),
        pytest.param(
            lambda shown, leads, celsius: (shown - leads) / (1 + 0.00393 * (celsius - 20)),
            "raise ValueError with a word",
            id="refuses nothing",
        ),
        pytest.param("to_20", "Hand over the function itself", id="its name"),
        pytest.param(lambda **given: exit(), "RuntimeError: SystemExit", id="leaves Python"),
    ],
)
def test_is_what_is_wrong_said_in_words(function, says):
    assert says in repr(lab.open_lab("07", "learner07").try_function("to_20", function))


def test_is_an_optional_function_never_run_in_grading(monkeypatch):
    monkeypatch.setenv("TWOSTROKE_LEARNER", "learner07")
    ran = []
    shown = repr(lab.open_lab("07", "learner07").try_function("to_20", lambda **given: ran.append(1)))
    assert "Tried at the learner's desk only." in shown
    assert not ran


def test_is_the_question_shown_and_an_unknown_one_named():
    work = lab.open_lab("07", "learner07")
    assert "raises ValueError" in repr(work.try_function("to_20"))
    assert "there are: to_20" in repr(work.try_function("to_30", _good))
    assert "name" in repr(lab.open_lab("07").try_function("to_20", _good))


def test_is_the_trace_of_the_reader_left_as_it_was():
    before = sys.gettrace()
    assert run_limited(lambda: 3, {}) == 3
    assert sys.gettrace() is before
