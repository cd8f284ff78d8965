"""The guided job of "Start here": the guide follows the bench's own record, from complaint to job card."""

from __future__ import annotations

import pytest
from twostroke.lesson import LessonError, content
from twostroke.lesson.bench_panel.parts import SPOTS, actions_at
from twostroke.lesson.bench_panel.steps import plan
from twostroke.lesson.control import plain
from twostroke.lesson.guide import CARD, CLOSE, GuidedJob, Stage
from twostroke.lesson.guided import Guided
from twostroke.lesson.progress import Progress

(TASK,) = content.load("00").jobs
STAGES = {stage.id: stage for stage in TASK.stages}


@pytest.fixture
def record(tmp_path):
    return Progress(tmp_path / "my_progress.json")


@pytest.fixture
def guided(tmp_path, record):
    panel = Guided("00", TASK, record, tmp_path / "bench_jobs")
    panel.tell("begin", learner="Anna")
    return panel


def do(panel: Guided, action: str) -> None:
    """One step as a reader does it: choose it, tick the cautions, answer what must be answered, do it."""
    panel.tell("choose", action=action)
    step = plan(panel.job, action)
    fields = {
        field.name: "by hand"
        if field.name == "screws"
        else field.start or (field.options[1][0] if field.must else "")
        for field in step.fields
    }
    panel.tell("do", confirm=[name for name, _, _ in step.cautions], **fields)


def close(panel: Guided, diagnosis: str = "plug_fouled") -> None:
    panel.tell("hand_back", diagnosis=diagnosis, confidence="90", way="back")


def whole_job(panel: Guided) -> None:
    for stage in TASK.stages[:-2]:
        assert panel.stage is stage
        do(panel, stage.steps[0])
    close(panel)
    panel.tell("score")
    panel.tell("card")


def test_does_the_guide_lead_from_complaint_to_job_card(guided, record):
    whole_job(guided)
    assert guided.stage is None
    assert "The whole job is done" in guided.regions["message"]
    assert "srcdoc=" in guided.regions["message"], "the card is shown where it was written"
    assert "Job card written" not in guided.regions["message"], "no list of files in its way"
    kept = record.entries("00", TASK.id, "job")
    assert [len(entry["value"]) for entry in kept] == list(range(1, len(TASK.stages) + 1))
    assert kept[-1]["right"]
    assert (guided.job.file.parent / "cards" / "first_job--anna.pdf").read_bytes().startswith(b"%PDF")


def test_do_the_readings_say_what_the_guide_says_they_say(guided):
    """The text beside each stage holds on this very machine: it is the same for everyone."""
    words = {}
    for stage in TASK.stages[:-2]:
        do(guided, stage.steps[0])
        words[stage.id] = guided.job.session.route[-1].words.lower()
    assert "nothing was done" in words["ask"]
    assert "clicks both ways" in words["switch"]
    assert "black, oil or soot" in words["look"]
    assert "snaps blue" in words["spark"]
    assert "starts at pull 1" in words["prove"]
    assert "stops when it is stopped" in words["prove"]
    assert guided.job.follower.likeliest(1)[0][1] < 0.05, "nothing else is likely after the verify run"
    close(guided)
    assert "cured and stays cured" in guided.job.session.outcome.words


def test_does_the_name_change_nothing_on_the_machine(tmp_path, record):
    routes = []
    for name in ("Anna", "Bert 17"):
        panel = Guided("00", TASK, record, tmp_path / "jobs")
        panel.tell("begin", learner=name)
        for stage in TASK.stages[:-2]:
            do(panel, stage.steps[0])
        routes.append([(step.action, step.words, step.minutes) for step in panel.job.session.route])
    assert routes[0] == routes[1]


def test_is_each_place_named_as_on_the_drawing_and_holds_the_step(guided):
    names = {spot.name: key for key, spot in SPOTS.items()}
    at = actions_at(guided.job.session)
    for stage in TASK.stages[:-2]:
        assert all(step in guided.job.session.actions() for step in stage.steps)
        if stage.place:
            found = [action for group in at[names[stage.place]].values() for action in group]
            assert stage.steps[0] in found, stage.id


def test_does_the_guide_come_into_view_with_the_reading_when_a_stage_is_over(guided):
    do(guided, "ask_last_work")
    assert guided.focus.startswith("guide#")
    said = plain(guided.regions["message"])
    assert f"You read: {guided.job.session.route[-1].words}" in said
    do(guided, "look_over")
    assert guided.focus.startswith("reading#"), "a step aside shows its reading"


def test_is_a_step_aside_allowed_and_commented(guided):
    do(guided, "look_over")
    said = plain(guided.regions["message"])
    assert "Not on the guide’s way, and allowed." in said
    assert guided.stage is TASK.stages[0], "the guide waits"
    assert guided.job.session.minutes > 0, "and the clock ran"


def test_does_the_guide_not_name_the_repair_that_the_reader_is_to_choose(guided):
    for stage in TASK.stages[:4]:
        do(guided, stage.steps[0])
    said = plain(guided.regions["message"])
    assert STAGES["repair"].title in said
    assert "choose spark plug" not in said
    assert "Fit a known-good plug" not in said


def test_is_a_job_that_was_closed_too_early_told_so(guided):
    do(guided, "ask_last_work")
    close(guided)
    said = plain(guided.regions["message"])
    assert "Closed before these were done" in said
    assert STAGES["prove"].title in said


def test_can_it_be_left_and_gone_on_with(guided, tmp_path, record):
    do(guided, "ask_last_work")
    again = Guided("00", TASK, record, tmp_path / "bench_jobs")
    assert again.learner == "Anna"
    assert "Go on with the job" in again.regions["start"]
    again.tell("begin", learner="Anna")
    assert again.stage is STAGES["switch"]


def test_does_the_same_machine_again_begin_at_the_first_stage(guided):
    whole_job(guided)
    guided.tell("again")
    assert guided.done == []
    assert guided.stage is TASK.stages[0]
    for stage in TASK.stages[:-2]:
        do(guided, stage.steps[0])
    close(guided)
    assert guided.stage is STAGES["card"], "the old card does not count"


def test_is_a_name_asked_for(tmp_path, record):
    panel = Guided("00", TASK, record, tmp_path)
    panel.tell("begin", learner="  ")
    assert "your name or number first" in panel.regions["message"]
    assert panel.job is None


def test_does_it_read_without_a_kernel(guided):
    read = plain(guided.still_html())
    for stage in TASK.stages:
        assert stage.title in read


@pytest.mark.parametrize(
    ("stages", "says"),
    [
        ((Stage(id="a", title="A", say="a", steps=("plug_look",)),), "last two stages"),
        (
            (
                Stage(id="a", title="A", say="a", steps=(CLOSE,)),
                Stage(id="a", title="B", say="b", steps=(CARD,)),
            ),
            "one id",
        ),
    ],
)
def test_is_a_guided_job_without_an_end_refused(stages, says):
    with pytest.raises(LessonError, match=says):
        GuidedJob(id="x", title="X", scenario=dict, stages=stages)


def test_is_a_stage_that_nothing_completes_refused():
    with pytest.raises(LessonError, match="at least one step"):
        Stage(id="a", title="A", say="a", steps=())
