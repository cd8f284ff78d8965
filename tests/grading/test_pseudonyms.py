"""Do pseudonyms stay the same within a course, hide everybody, and open only with the key?"""

from __future__ import annotations

import base64
import dataclasses
import hashlib
import json
import stat

import pytest

pytest.importorskip("nbgrader", reason="grading needs the teach extra")

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from twostroke.grading.classlist import ClassList
from twostroke.grading.place import Course
from twostroke.grading.pseudonyms import KEY_FILE, Pseudonyms
from twostroke.grading.standing import Standing
from twostroke.grading.states import Cause, GradingError, Outcome, Reason, State, TaskResult

PEOPLE = ClassList(
    learner=(
        {"id": "learner-01", "name": "Ann Demo", "also": ("s1001", "Demo, Ann")},
        {"id": "learner-02", "name": "Bo Demo"},
    )
)
NAMES = ("learner-01", "learner-02", "Ann", "Bo Demo", "s1001", "Demo, Ann")
_identifiers = st.text(alphabet="abcdefghijklmnopqrstuvwxyz0123456789._@-", min_size=1, max_size=30)


@settings(max_examples=50, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(_identifiers, _identifiers)
def test_are_two_people_two_and_one_person_one(one, other) -> None:
    names = Pseudonyms(bytes(range(32)))
    assert (names(one) == names(other)) == (one == other)
    assert names(one).removeprefix("p-").isalnum()


def test_is_a_pseudonym_the_keyed_hash_of_rfc_2104() -> None:
    """Written out from the definition: H((K xor opad) || H((K xor ipad) || text))."""
    key, text = bytes(range(32)), b"learner-01"
    padded = key.ljust(64, b"\0")
    inner = hashlib.sha256(bytes(b ^ 0x36 for b in padded) + text).digest()
    outer = hashlib.sha256(bytes(b ^ 0x5C for b in padded) + inner).digest()
    assert Pseudonyms(key)("learner-01") == "p-" + base64.b32encode(outer).decode().lower()[:12]


def test_has_a_learner_one_pseudonym_under_all_their_names() -> None:
    names = Pseudonyms(bytes(32), PEOPLE)
    assert len({names(each) for each in ("learner-01", "Learner 01", "ann demo", "S1001", "Demo, Ann")}) == 1
    assert names("learner-01") != names("learner-02")


def test_is_the_key_made_once_and_for_its_owner_only(tmp_path) -> None:
    course = Course.at(tmp_path / "class")
    first = Pseudonyms.of(course)("learner-01")
    assert stat.S_IMODE((course.home / KEY_FILE).stat().st_mode) == 0o600
    assert Pseudonyms.of(Course.at(tmp_path / "class"))("learner-01") == first
    assert Pseudonyms.of(Course.at(tmp_path / "another class"))("learner-01") != first
    assert [path.name for path in course.home.iterdir()] == [KEY_FILE]


@pytest.mark.parametrize("content", ["", "short", "g" * 64, "0" * 63])
def test_is_a_damaged_key_never_replaced_in_silence(tmp_path, content) -> None:
    (tmp_path / KEY_FILE).write_text(content, encoding="ascii")
    with pytest.raises(GradingError, match="no pseudonym key"):
        Pseudonyms.of(Course.at(tmp_path))
    assert (tmp_path / KEY_FILE).read_text(encoding="ascii") == content


def test_does_only_the_key_tell_who_is_who() -> None:
    names = Pseudonyms(bytes(range(32)), PEOPLE)
    hidden = names("learner-02")
    everybody = [each.id for each in PEOPLE.learner]
    assert names.who(hidden, everybody) == "learner-02"
    assert Pseudonyms(bytes(32), PEOPLE).who(hidden, everybody) is None
    assert names.who("p-nobody", everybody) is None


def standing(learner: str) -> Standing:
    outcome = Outcome(
        learner=learner,
        lab="lab04",
        state=State.PERSON,
        causes=[
            Cause(reason=Reason.OTHER_LEARNER, detail="'Ann' is typed inside"),
            Cause(reason=Reason.WRITTEN, detail="task explain"),
        ],
        notes=["taken from Bo Demo_4711/lab04.ipynb"],
        tasks=[
            TaskResult(grade_id="t1", task="t1", points=2.0, max_points=2.0),
            TaskResult(
                grade_id="t2",
                task="t2",
                points=1.0,
                max_points=3.0,
                marked="by hand",
                message="you wrote: I, Ann",
            ),
        ],
        received="Demo, Ann_s1001.ipynb",
        typed="Bo Demo",
        worked_as="Bo Demo",
        answers={"t1": "0.3 mm", "t2": "I, Ann, would say to Bo Demo"},
    )
    said = {"t2": "Better than Bo Demo, Ann"}
    return Standing(
        outcome, State.PERSON, tuple(outcome.causes[:1]), 3.0, None, tuple(outcome.tasks), 0.5, said
    )


def test_does_no_name_pass_through_standings_while_marks_do() -> None:
    names = Pseudonyms(bytes(32), PEOPLE)
    found = [standing("learner-01"), standing("learner-02")]
    hidden = names.standings(found)
    text = json.dumps([{**vars(each), "outcome": each.outcome.model_dump(mode="json")} for each in hidden],
                      default=str)  # fmt: skip
    assert not [name for name in NAMES if name.casefold() in text.casefold()]
    assert [each.learner for each in hidden] == sorted(names(each.learner) for each in found)
    for each in hidden:
        assert (each.points, each.state, each.why) == (3.0, State.PERSON, Reason.OTHER_LEARNER.value)
        assert [task.points for task in each.tasks] == [2.0, 1.0]
        assert each.penalty == 0.5
        assert each.outcome.answers == {"t1": "0.3 mm"}
    assert dataclasses.asdict(found[0])["outcome"].typed == "Bo Demo", "the standings given stay as they were"
