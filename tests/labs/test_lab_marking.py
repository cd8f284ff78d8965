"""Do right, partly right, wrong and dishonest answers earn what they must, with the message they must?"""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from twostroke import lab
from twostroke.lab.feedback import LONGEST
from twostroke.lab.order import Order, Step, run
from twostroke.lab.rules import wrong_answers
from twostroke.lab.tolerance import tolerance

LABS = lab.lab_ids()
TYPED = "model answer"


def _mark(lab_id: str, task: str, change: dict, learner: str = TYPED):
    model = lab.model_answers(lab_id, learner)
    answers = {**model, task: {**model[task], **change}}
    return next(mark for mark in lab.mark_answers(lab_id, learner, answers) if mark.task == task)


@pytest.mark.parametrize("lab_id", LABS)
def test_does_the_model_answer_earn_everything_and_nothing_earn_nothing(lab_id):
    full = lab.mark_answers(lab_id, TYPED, lab.model_answers(lab_id, TYPED))
    tasks = {task.id: task for task in lab.load(lab_id).tasks}
    here = [m for m in full if tasks[m.task].kind != "written" and not tasks[m.task].by_service]
    assert all(mark.points == mark.max_points for mark in here)
    empty = lab.mark_answers(lab_id, TYPED, {})
    assert [mark.points for mark in empty] == [0.0] * len(full)
    assert {mark.state for mark in empty} == {"empty"}


def _rows():
    for lab_id in LABS:
        for task, rows in wrong_answers(lab_id).items():
            for number, row in enumerate(rows):
                yield pytest.param(lab_id, task, row, id=f"lab{lab_id}-{task}-{number}")


@pytest.mark.parametrize(("lab_id", "task", "row"), list(_rows()))
def test_does_a_kept_wrong_answer_earn_its_points_with_its_message(lab_id, task, row):
    mark = _mark(lab_id, task, row["change"])
    found = (mark.points, mark.state, mark.slip, mark.message)
    assert found == (row["points"], row["state"], row["slip"], row["message"])


@pytest.mark.parametrize("lab_id", LABS)
def test_is_every_named_slip_recognised_when_a_learner_writes_it(lab_id):
    found = lab.load(lab_id)
    for learner in ("first", "second", "third"):
        for place, slips in lab.slip_answers(lab_id, learner).items():
            task, item = place.split(".")
            for name, text in slips.items():
                mark = _mark(lab_id, task, {item: text}, learner)
                assert dict(mark.items)[item].slip == name, (learner, place, text)
                assert mark.points < found.task(task).points


class AlwaysEqual:
    """Claims to be equal to everything, to be any number, and to be true."""

    def __eq__(self, other):
        return True

    def __hash__(self):
        return 0

    def __float__(self):
        return 1.0

    def __str__(self):
        return "0.305 mm"

    def __bool__(self):
        return True


class Text(str):
    """Text that is equal to everything."""

    __slots__ = ()

    def __eq__(self, other):
        return True

    __hash__ = str.__hash__


class Number(float):
    def __ge__(self, other):
        return True

    def __le__(self, other):
        return True


DISHONEST = [AlwaysEqual(), Text("x"), Number(5), object(), print, b"0.305 mm", {1, 2}, lambda: 1, math.nan]


@pytest.mark.parametrize("value", DISHONEST, ids=lambda value: type(value).__name__)
def test_does_an_object_in_place_of_an_answer_earn_nothing(value):
    for task in lab.load("01").tasks:
        for answer in (value, {item.id: value for item in task.items}, [value] * len(task.items)):
            marks = lab.mark_answers("01", TYPED, {task.id: answer})
            assert sum(mark.points for mark in marks) == 0.0


def test_does_an_object_in_place_of_all_answers_earn_nothing():
    class Everything(dict):
        def __contains__(self, key):
            return True

        def __getitem__(self, key):
            return lab.model_answers("01", TYPED)[key]

    for answers in (Everything(), AlwaysEqual(), None, [], "all"):
        assert sum(mark.points for mark in lab.mark_answers("01", TYPED, answers)) == 0.0


@pytest.mark.parametrize(
    "points", [-1.0, -math.inf, math.inf, math.nan, True, "2", None, AlwaysEqual(), Number(2), 1 + 0j]
)
def test_is_no_score_negative_infinite_or_made_of_anything_but_a_number(points):
    assert lab.points(points, 2.0) == 0.0
    assert lab.points(1.0, points) == 0.0


def test_is_no_score_above_what_a_task_is_worth():
    assert lab.points(100, 2) == 2.0
    assert lab.points(1.5, 2) == 1.5


_json = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-10, 10**18)
    | st.floats()
    | st.text(max_size=30)
    | st.sampled_from(
        ["0.305 mm", "a", "1", "a b c", "ratio", "gauge + air", "-1 bar", "1e999 mm", "nan mm"]
    ),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=8,
)


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_does_any_data_give_marks_and_never_an_error(data):
    found = lab.load("01")
    answers = {
        task.id: data.draw(_json | st.fixed_dictionaries({item.id: _json for item in task.items}))
        for task in found.tasks
    }
    for mark in lab.mark_answers("01", "any", answers):
        assert type(mark.points) is float
        assert 0.0 <= mark.points <= mark.max_points
        assert mark.state != "needs a person", mark.message


@pytest.mark.parametrize("answer", ["9" * 100_000, "(" * 90_000, ["x"] * 5000, {"a": [[[[[[["deep"]]]]]]]}])
def test_is_a_huge_or_deep_answer_refused_in_words(answer):
    mark = lab.mark_answers("01", TYPED, {"metric": answer})[0]
    assert (mark.points, mark.state) == (0.0, "cannot be read")
    assert len(mark.message) < 300


def test_does_one_mistake_cost_once_where_a_later_step_rests_on_it():
    imperial = _mark("01", "oil", {"fuel": "7.27 L", "oil": "227.3 mL"})
    assert imperial.points == 2.0, "the oil follows from the learner's own litres"
    unread = _mark("01", "oil", {"fuel": "a lot"})
    assert unread.points == 2.0, "a litre figure that cannot be read falls back to the right one"


def test_does_a_figure_restated_in_the_given_unit_earn_nothing():
    assert _mark("01", "metric", {"air_gap": "12 thou"}).points == 3.0
    assert _mark("01", "oil", {"fuel": "1.6 US gal"}).points == 2.0


def test_is_the_tolerance_half_a_step_and_kept_to():
    assert _mark("01", "metric", {"compression": "10.11 bar"}).state == "right"
    assert _mark("01", "metric", {"compression": "10.13 bar"}).points == 3.0
    # 146 psi = 10.0664 bar (NIST SP 811: 1 psi = 6.894757 kPa); within half a step of 0.1 bar


def test_does_the_tolerance_follow_the_rule_of_the_guide():
    # JCGM 100:2008, 4.3.7: half-width a of a rectangle has u = a / sqrt(3); coverage factor 2 (6.3.3)
    assert tolerance(0.0, (1.0, 0.5), reason="").value == pytest.approx(2 * 0.5 / math.sqrt(3))
    both = tolerance(0.0, (1.0, 0.5), (3.0, 0.5), reason="").value
    assert both == pytest.approx(2 * 0.5 / math.sqrt(3) * math.sqrt(10))


def _orders() -> Order:
    item = lab.load("01").task("mixing").items[0]
    assert isinstance(item, Order)
    return item


def _sound(steps: list[Step], seed: int) -> list[Step]:
    """An order found by doing, again and again, any step that finds what it needs."""
    rng, left, holds, done = random.Random(seed), list(steps), set(), []
    while left:
        ready = [step for step in left if holds.issuperset(step.needs)]
        step = rng.choice(ready)
        left.remove(step)
        done.append(step)
        holds |= set(step.gives)
    return done


@pytest.mark.parametrize("seed", range(40))
def test_does_any_sound_order_of_work_earn_everything(seed):
    item, given_ = _orders(), lab.variant("01", TYPED)
    letters = {step.id: letter for letter, step in item.lettered(given_).items()}
    order = _sound([step for step in item.steps if step.belongs], seed)
    assert _mark("01", "mixing", {"steps": " ".join(letters[step.id] for step in order)}).points == 3.0
    assert run(order) == []


def test_is_more_than_one_order_sound():
    steps = [step for step in _orders().steps if step.belongs]
    assert len({tuple(step.id for step in _sound(steps, seed)) for seed in range(40)}) > 5


def test_does_a_step_left_out_cost_once_and_not_again_for_those_after_it():
    item, given_ = _orders(), lab.variant("01", TYPED)
    letters = {step.id: letter for letter, step in item.lettered(given_).items()}
    order = [letters[name] for name in item.truth(given_, None) if name != "cool"]
    assert _mark("01", "mixing", {"steps": " ".join(order)}).points == pytest.approx(3 * 0.75)


def test_does_no_message_hold_the_expected_value_or_run_long():
    found = lab.load("01")
    for learner in ("one", "two", "three"):
        model = lab.model_answers("01", learner)
        for place, slips in lab.slip_answers("01", learner).items():
            task, item = place.split(".")
            expected = model[task][item]
            for text in slips.values():
                judged = dict(_mark("01", task, {item: text}, learner).items)[item]
                assert expected not in judged.feedback.text
                assert judged.feedback.words <= LONGEST
                assert judged.feedback.seen
                assert judged.feedback.suggests
                assert judged.feedback.check
    assert found.points == 24


def test_is_a_fault_of_ours_never_a_grade(monkeypatch):
    task = lab.load("01").tasks[0]

    def broken(*_):
        raise RuntimeError("ours")

    monkeypatch.setattr(type(task), "mark", broken)
    mark = lab.mark_answers("01", TYPED, lab.model_answers("01", TYPED))[0]
    assert mark.state == "needs a person"
    assert "failed here" in mark.message


def test_does_the_sheet_not_say_before_marking_which_line_is_wrong():
    work = lab.open_lab("01", TYPED)
    asked = repr(work.show("sheet")).partition("What to write:")[2]
    assert "US fl oz" not in asked
    said = {
        repr(work.answer("sheet", value=f"6.19 {unit}")).replace(unit, "UNIT")
        for unit in ("mm", "bar", "N·m", "thou", "US fl oz", "°C")
    }
    assert len(said) == 1
    assert "is no value in a unit of the colleague's column" in repr(work.answer("sheet", value="6.19"))
