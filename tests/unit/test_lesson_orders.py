"""Orders of work and exit checks, pressed as a reader presses them, without a browser."""

from __future__ import annotations

import pytest
from twostroke.lesson import LessonError
from twostroke.lesson.exit_check import ExitCheck
from twostroke.lesson.ordering import Order
from twostroke.lesson.progress import Progress
from twostroke.lesson.tasks import Before, Option, Ordering, Question

OPTIONS = (
    Option(text="0.12 mm", say="That is twelve hundredths.", believes="thou_as_hundredth_mm"),
    Option(text="0.30 mm", say="12 × 0.0254 mm.", right=True),
)
ORDERING = Ordering(
    id="o",
    ask="Put in order.",
    steps={"b": "convert", "a": "write it down", "c": "enter"},
    rules=(
        Before(first="a", then="b", why="It is lost otherwise.", believes="bare_number_is_enough"),
        Before(first="b", then="c", why="Nothing to enter.", believes="bare_number_is_enough"),
    ),
    done="Good.",
)


@pytest.fixture
def record(tmp_path):
    return Progress(tmp_path / "p.json")


class TestOrdering:
    def test_does_a_broken_order_hear_the_pair_and_why(self, record):
        control = Order("01", ORDERING, record)
        control.press("check")
        assert "Look at this pair" in control.shown_text
        assert "It is lost otherwise" in control.shown_text
        assert record.last("01", "o")["right"] is False

    def test_is_every_sound_order_accepted(self, record):
        free = Ordering(
            id="o",
            ask="Order.",
            steps={"b": "B", "a": "A", "c": "C"},
            rules=(Before(first="a", then="b", why="!", believes="parts_first"),),
            done="Good.",
        )
        for order in (["a", "b", "c"], ["a", "c", "b"], ["c", "a", "b"]):
            control = Order("01", free, Progress(None))
            control.fill("order", order)
            control.press("check")
            assert control.judgement.right, order

    @pytest.mark.parametrize("sent", [["a"], ["a", "b", "x"], []])
    def test_is_an_order_with_missing_steps_put_right_first(self, record, sent):
        control = Order("01", ORDERING, record)
        control.fill("order", sent)
        control.press("check")
        assert sorted(control.values["order"]) == ["a", "b", "c"]


class TestExitCheck:
    @pytest.fixture
    def five(self):
        return tuple(
            Question(
                id=f"x{row}",
                about="01",
                ask=f"Number {row}?",
                go_back=f"part {row}",
                options=OPTIONS,
            )
            for row in range(5)
        )

    @staticmethod
    def pick(control, number, right):
        shown = control.questions[number].shown
        control.fill(f"x{number}", next(str(row) for row, one in enumerate(shown) if one.right is right))

    def test_says_which_question_is_open_and_judges_none(self, record, five):
        control = ExitCheck("01", five, record)
        for row in (0, 1, 3):
            self.pick(control, row, True)
        control.press("check")
        assert control.say == "Still open: question 3, 5."
        assert record.entries() == []

    def test_tells_where_to_go_back_for_each_wrong_one(self, record, five):
        control = ExitCheck("01", five, record)
        for row in range(5):
            self.pick(control, row, row != 2)
        control.press("check")
        assert control.score == 4
        assert "4 of 5 right" in control.shown_text
        assert "part 2" in control.shown_text
        assert "part 1" not in control.shown_text
        assert record.last("01", "exit_check")["believes"] == ["thou_as_hundredth_mm"]

    def test_does_the_best_try_stay(self, record, five):
        control = ExitCheck("01", five, record)
        for right in (True, False):
            for row in range(5):
                self.pick(control, row, right)
            control.press("check")
        assert "Best so far: 5 of 5" in control.shown_text


def test_is_an_order_that_is_sound_from_the_start_refused():
    with pytest.raises(LessonError, match="already sound"):
        Ordering(id="o", ask="?", steps={"a": "A", "b": "B"}, rules=ORDERING.rules[:1], done="!")
