"""Does one mistake cost once: is all that rests on a slip right when it is worked from the slip?"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from twostroke import lab
from twostroke.lab.draw import Variant
from twostroke.lab.marking import mark_task
from twostroke.lab.number import Number
from twostroke.lab.task import Lab, Task, Values

LEARNERS = ("first", "second")


def _here(found: Lab) -> list[Task]:
    """Tasks that the checker marks from what was written."""
    return [task for task in found.tasks if task.kind not in ("route", "written") and not task.by_service]


def _gone_on_with(found: Lab, variant: Variant, wrong: tuple[str, str], text: str) -> dict:
    """All answers of a learner who writes one wrong value and works on from their own values."""
    answers: dict[str, dict] = {}
    for task in _here(found):
        answers[task.id] = {}
        for item in task.items:
            own = Values(found, variant, answers)
            answers[task.id][item.id] = text if (task.id, item.id) == wrong else item.model(variant, own)
    return answers


@pytest.mark.parametrize("lab_id", lab.lab_ids())
def test_does_a_slip_anywhere_cost_its_own_step_alone(lab_id):
    found = lab.load(lab_id)
    for learner in LEARNERS:
        variant = lab.variant(lab_id, learner)
        for place, slips in lab.slip_answers(lab_id, learner).items():
            wrong = tuple(place.split("."))
            for name, text in slips.items():
                answers = _gone_on_with(found, variant, wrong, text)
                values = Values(found, variant, answers)
                for task in _here(found):
                    for step, judged in mark_task(task, variant, answers, values).items:
                        if (task.id, step) == wrong:
                            assert judged.slip == name, (learner, place, text)
                        else:
                            assert judged.fraction == 1, (learner, place, name, task.id, step, judged)


def _odd(item: Number) -> tuple[float, ...]:
    """Values that can be read and make no sense: ends of the range, nothing, below nothing, tiny, huge."""
    found = (0.0, -1.0, 1e-9, 1e-3, 1.0, 100.0, 1e6, item.low, item.high)
    return tuple(dict.fromkeys(value for value in found if item.low <= value <= item.high))


@pytest.mark.parametrize("lab_id", lab.lab_ids())
def test_does_no_odd_value_stop_the_marking_of_what_rests_on_it(lab_id):
    """With everything else right, and with everything else wrong, so that the slips are looked at too."""
    found, learner = lab.load(lab_id), LEARNERS[0]
    variant = lab.variant(lab_id, learner)
    model = lab.model_answers(lab_id, learner)
    numbers = [(task, item) for task, item in found.items() if isinstance(item, Number)]
    wrong = {task.id: dict(model[task.id]) for task in found.tasks}
    for task, item in numbers:
        wrong[task.id][item.id] = f"{item.low + 0.377 * (item.high - item.low):.6g} {item.unit_for(variant)}"
    for task, item in numbers:
        for value in _odd(item):
            text = f"{value:.10g} {item.unit_for(variant)}".strip()
            for others in (model, wrong):
                answers = {**others, task.id: {**others[task.id], item.id: text}}
                values = Values(found, variant, answers)
                for each in _here(found):
                    mark = mark_task(each, variant, answers, values)
                    assert mark.state != "needs a person", (task.id, item.id, text, each.id, mark.message)
                    assert 0 <= mark.points <= mark.max_points


_text = st.text(max_size=20) | st.sampled_from(
    ["0", "-1 bar", "1e999 mm", "nan", "a b c", "a", "e e e", "1", "0 %", "x * 0", "1/0", "50:1", "0:1"]
)
_data = st.recursive(
    st.none() | st.booleans() | st.integers(-10, 10**18) | st.floats() | _text,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=6), inner, max_size=3),
    max_leaves=6,
)


@pytest.mark.parametrize("lab_id", lab.lab_ids())
@settings(max_examples=25, deadline=None)
@given(st.data())
def test_does_any_data_in_any_lab_give_marks_and_never_a_fault_of_ours(lab_id, data):
    found = lab.load(lab_id)
    answers = {
        task.id: data.draw(_data | st.fixed_dictionaries({item.id: _data for item in task.items}))
        for task in found.tasks
        if not task.by_service
    }
    for mark in lab.mark_answers(lab_id, "any", answers):
        assert 0.0 <= mark.points <= mark.max_points
        assert "failed here" not in mark.message, mark
