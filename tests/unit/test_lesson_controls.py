"""The controls of a lesson, pressed as a reader presses them, without a browser."""

from __future__ import annotations

import pytest
from twostroke import units
from twostroke.lesson import LessonError
from twostroke.lesson.drawing import Picture
from twostroke.lesson.example import Fill
from twostroke.lesson.figure import Show
from twostroke.lesson.outline import Figure, Parameter
from twostroke.lesson.prediction import Predict
from twostroke.lesson.progress import Progress
from twostroke.lesson.question import Ask
from twostroke.lesson.tasks import Blank, Example, Option, Prediction, Question, Slip

NUMBER = Prediction(id="p", ask="How thick is 12 thou?", look="Look at the scale.", unit="mm")
CHOICE = Prediction(id="c", ask="Up or down?", look="Move the slider.", options=("up", "down"))
QUESTION = Question(
    id="q",
    about="01",
    ask="What is 12 thou?",
    options=(
        Option(text="0.12 mm", say="That is twelve hundredths.", believes="thou_as_hundredth_mm"),
        Option(text="0.30 mm", say="12 × 0.0254 mm.", right=True),
    ),
)
WRONG, RIGHT = (
    next(str(row) for row, option in enumerate(QUESTION.shown) if option.right is right)
    for right in (False, True)
)
EXAMPLE = Example(
    id="e",
    title="14 thou",
    lines=(
        "One thou is 0.0254 mm.",
        Blank(
            id="way",
            label="The number must",
            options=("shrink", "grow"),
            answer="shrink",
            believes={"grow": "factor_turned_round"},
            say="Fewer.",
            hint="Which unit is larger?",
        ),
        Blank(
            id="mm",
            label="14 thou is",
            unit="mm",
            within=0.02,
            answer=lambda: units.read("14 thou"),
            say="0.356 mm.",
            hint="Multiply.",
            slips=(
                Slip(gives=lambda: units.read("0.14 mm"), believes="thou_as_hundredth_mm", say="Hundredths."),
            ),
        ),
        "Done.",
    ),
)


def _draw(size: str, guess=None) -> Picture:
    value = units.read(size, expect="mm").to("thou")
    said = "" if guess is None else f" Guess {guess:~P}."
    return Picture(f"<svg>{value.magnitude:.2f}</svg>", f"{value.magnitude:.2f} thou.{said}", {"size": value})


FIGURE = Figure(
    id="f",
    title="A leaf",
    draw=_draw,
    parameters=(Parameter(name="size", label="Size", unit="mm", low=0, high=1, step=0.05, start=0.5),),
    prediction="p",
    source="Definition.",
    shows_guess=True,
)


@pytest.fixture
def record(tmp_path):
    return Progress(tmp_path / "p.json")


class TestPrediction:
    def test_is_a_prediction_kept_and_never_judged(self, record):
        control = Predict("01", NUMBER, record)
        control.fill("guess", "0.12 mm")
        control.press("commit")
        assert control.committed == "0.12 mm"
        assert "You predicted: 0.12 mm" in control.shown_text
        entry = record.last("01", "p", "prediction")
        assert entry is not None
        assert "right" not in entry

    @pytest.mark.parametrize(
        ("typed", "said"),
        [
            ("12", "unit"),
            ("", "write a number with its unit"),
            ("a bit", "Not kept yet"),
            ("12 psi", "Not kept yet"),
        ],
    )
    def test_is_a_number_without_its_unit_asked_back(self, record, typed, said):
        control = Predict("01", NUMBER, record)
        control.fill("guess", typed)
        control.press("commit")
        assert control.committed is None
        assert said in control.shown_text

    def test_is_an_open_choice_asked_back(self, record):
        control = Predict("01", CHOICE, record)
        control.press("commit")
        assert control.committed is None
        assert "choose one" in control.shown_text

    def test_does_predicting_again_keep_the_first_one(self, record):
        control = Predict("01", CHOICE, record)
        for value in ("up", "down"):
            control.press("again")
            control.fill("guess", value)
            control.press("commit")
        assert [entry["value"] for entry in record.entries("01", "c")] == ["up", "down"]

    def test_is_it_still_there_in_a_new_kernel(self, record):
        control = Predict("01", CHOICE, record)
        control.fill("guess", "up")
        control.press("commit")
        again = Predict("01", CHOICE, Progress(record.file))
        assert "You predicted: up" in again.shown_text
        assert "You predicted: up" in again.still_words()


class TestFigure:
    def test_is_the_figure_covered_until_the_prediction_is_committed(self, record):
        figure = Show("01", FIGURE, NUMBER, record)
        assert not figure.opened
        assert figure.picture == ""
        assert "opens when you have committed" in figure.shown_text
        guess = Predict("01", NUMBER, record)
        guess.fill("guess", "0.12 mm")
        guess.press("commit")
        assert figure.opened
        assert "19.69" in figure.picture
        assert "Guess 0.12 mm" in figure.words

    def test_does_a_slider_step_redraw_with_the_librarys_numbers(self, record):
        record.add("01", "p", "prediction", value="0.3 mm")
        figure = Show("01", FIGURE, NUMBER, record)
        figure.fill("size", 0.254)
        assert figure.drawn.shown["size"].magnitude == pytest.approx(10)
        assert "10.00" in figure.picture
        assert figure.words.startswith("10.00 thou")

    def test_has_every_parameter_a_label_a_unit_and_limits(self, record):
        record.add("01", "p", "prediction", value="0.3 mm")
        figure = Show("01", FIGURE, NUMBER, record)
        (slider,) = [part for part in figure.parts if part["kind"] == "range"]
        assert (slider["label"], slider["unit"], slider["low"], slider["high"]) == ("Size", "mm", 0, 1)

    def test_does_a_value_from_outside_stay_within_the_figure(self, record):
        record.add("01", "p", "prediction", value="0.3 mm")
        figure = Show("01", FIGURE, NUMBER, record)
        figure.fill("size", 900)
        assert figure.drawn.shown["size"].to("mm").magnitude == pytest.approx(1)
        with pytest.raises(LessonError, match="give 0 to 1"):
            FIGURE.picture({"size": 900})

    def test_is_there_a_still_picture_without_a_kernel(self, record):
        data, _ = Show("01", FIGURE, NUMBER, record)._repr_mimebundle_()
        assert "application/vnd.jupyter.widget-view+json" in data
        assert data["image/svg+xml"].startswith("<svg")
        assert "19.69 thou" in data["text/plain"]
        assert "<svg" in data["text/html"]


class TestQuestion:
    def test_does_a_wrong_choice_hear_the_belief_and_the_reading(self, record):
        control = Ask("01", QUESTION, record)
        control.fill("pick", WRONG)
        control.press("check")
        assert "Look again" in control.shown_text
        assert "twelve hundredths" in control.shown_text
        assert "One thou is one hundredth of a millimetre" in control.shown_text
        assert "micrometer" in control.shown_text
        assert "Look again" in control.say
        assert record.last("01", "q")["believes"] == "thou_as_hundredth_mm"

    def test_does_the_right_choice_hear_why(self, record):
        control = Ask("01", QUESTION, record)
        control.fill("pick", RIGHT)
        control.press("check")
        assert "✓ Right" in control.shown_text
        assert record.last("01", "q")["right"] is True

    @pytest.mark.parametrize("picked", [None, "7", "x"])
    def test_is_nothing_chosen_asked_back(self, record, picked):
        control = Ask("01", QUESTION, record)
        if picked is not None:
            control.fill("pick", picked)
        control.press("check")
        assert "Choose one answer first" in control.shown_text
        assert record.entries() == []

    def test_is_an_earlier_module_named(self, record):
        assert "From lesson 01, Shop units" in Ask("02", QUESTION, record).shown_text

    def test_is_the_answer_on_paper_folded_away(self, record):
        html = Ask("01", QUESTION, record).still_html()
        assert html.index("<details>") < html.index("12 × 0.0254 mm.")


class TestExample:
    def test_is_each_gap_checked_by_itself(self, record):
        control = Fill("01", EXAMPLE, record)
        control.fill("mm", "0.36 mm")
        control.press("check")
        assert control.judged["mm"].right
        assert "way" not in control.judged
        assert not control.complete
        control.fill("way", "shrink")
        control.press("check")
        assert control.complete
        assert "Every gap is right" in control.shown_text

    @pytest.mark.parametrize(
        ("typed", "state", "believes", "said"),
        [
            ("14 thou", "right", None, "0.356 mm"),
            ("0,356 mm", "right", None, "0.356 mm"),
            ("0.0356 cm", "right", None, "0.356 mm"),
            ("0.14 mm", "look", "thou_as_hundredth_mm", "Hundredths"),
            ("0.5 mm", "look", None, "Multiply"),
            ("0.36", "form", None, "costs nothing"),
            ("0.36 psi", "form", None, "costs nothing"),
            ("<b>x</b>", "form", None, "costs nothing"),
        ],
    )
    def test_what_does_an_entry_hear(self, record, typed, state, believes, said):
        control = Fill("01", EXAMPLE, record)
        control.fill("mm", typed)
        control.press("check")
        judged = control.judged["mm"]
        assert (judged.state, judged.believes) == (state, believes)
        assert said in judged.words
        assert "<b>x</b>" not in judged.html
        assert len(record.entries()) == (0 if state == "form" else 1)

    def test_does_a_wrong_word_hear_the_belief(self, record):
        control = Fill("01", EXAMPLE, record)
        control.fill("way", "grow")
        control.press("check")
        assert control.judged["way"].believes == "factor_turned_round"

    def test_does_an_entry_come_back_in_a_new_kernel(self, record):
        control = Fill("01", EXAMPLE, record)
        control.fill("mm", "0.36 mm")
        control.press("check")
        assert Fill("01", EXAMPLE, Progress(record.file)).judged["mm"].right

    def test_is_the_same_entry_not_kept_twice(self, record):
        control = Fill("01", EXAMPLE, record)
        control.fill("mm", "0.36 mm")
        control.press("check")
        control.press("check")
        assert len(record.entries()) == 1


def test_is_a_fault_of_ours_never_shown_as_a_fault_of_theirs(record, monkeypatch):
    control = Ask("01", QUESTION, record)
    monkeypatch.setattr("twostroke.lesson.feedback.of_option", lambda option: 1 / 0)
    control.fill("pick", RIGHT)
    control.press("check")
    assert "your answer is not the reason" in control.shown_text
    assert "ZeroDivision" not in control.shown_text


def test_does_an_unknown_button_do_nothing(record):
    control = Ask("01", QUESTION, record)
    before = list(control.parts)
    control.press("nonsense")
    assert control.parts == before


def test_does_a_message_from_the_browser_press_the_button(record):
    control = Ask("01", QUESTION, record)
    control._receive(control, {"press": "check", "values": {"pick": RIGHT}}, [])
    assert record.last("01", "q")["right"] is True


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: Option(text="x", say="y"), "names no misconception"),
        (lambda: Option(text="x", say="y", believes="no_such_id"), "not in the table"),
        (lambda: Question(id="q", about="01", ask="?", options=(QUESTION.options[0],) * 2), "exactly one"),
        (lambda: Question(id="q", about="77", ask="?", options=QUESTION.options), "lesson '77'"),
        (lambda: Prediction(id="p", ask="?", look="!"), "either options or the unit"),
        (lambda: Example(id="e", title="t", lines=("only text", "more")), "at least one blank"),
        (
            lambda: Parameter(name="n", label="l", unit="mm", low=0, high=1, step=0.1, start=2),
            "start must lie",
        ),
    ],
)
def test_is_a_badly_written_task_refused(make, said):
    with pytest.raises(LessonError, match=said):
        make()
