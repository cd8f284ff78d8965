"""Closing and keeping a job at the bench, and an own machine on it, without a browser."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner
from pypdf import PdfReader
from twostroke.commands.card import card as card_command
from twostroke.errors import TwoStrokeError
from twostroke.lesson.bench_panel import BenchJob, BenchPanel, OwnJob, open_kept, open_own, report, store
from twostroke.lesson.bench_panel.steps import plan
from twostroke.table import load_table

NAME = "plug_fouled_trimmer"


@pytest.fixture
def job(tmp_path):
    return BenchJob(NAME, "Anna", tmp_path)


@pytest.fixture
def panel(job, tmp_path):
    return BenchPanel(job, tmp_path)


def do(panel, action, **values):
    """A step as a reader does it: card, settings, all cautions ticked."""
    panel.tell("choose", action=action)
    panel.tell("do", confirm=[name for name, _, _ in plan(panel.job, action).cautions], **values)


def cure(panel):
    do(panel, "plug_look")
    do(panel, "known_good_plug", pull="normal")
    do(panel, "swap_plug", screws="by hand")
    do(panel, "verify")


# the end ------------------------------------------------------------------------------------------


def test_is_a_job_closed_only_with_diagnosis_and_confidence(panel):
    panel.tell("hand_back", confidence="80", way="back")
    assert "Say first what was wrong" in panel.regions["help"], "said in the form"
    assert 'value="80"' in panel.regions["help"], "what was filled in stays"
    assert panel.focus.startswith("diagnosis#")
    panel.tell("hand_back", diagnosis="plug_fouled", way="back")
    assert "how sure" in panel.regions["help"]
    assert 'value="plug_fouled" selected' in panel.regions["help"]
    panel.tell("hand_back", diagnosis="plug_fouled", confidence="800", way="back")
    assert "a number from 0" in panel.regions["help"]
    assert not panel.job.closed


@pytest.fixture
def quick_score(monkeypatch):
    """Reference costs that are at hand, so that the score needs no simulation here."""
    from twostroke.isolation import references

    known = references.Reference(40.0, 120.0, 1.0, 1.0, 1, 1)
    monkeypatch.setattr("twostroke.isolation.score.reference", lambda *_: known)


@pytest.mark.usefixtures("quick_score")
def test_does_the_report_say_what_happened(panel):
    cure(panel)
    panel.tell("hand_back", diagnosis="plug_fouled", confidence="80", way="back")
    text = panel.regions["report"]
    assert panel.screen == "report"
    assert "cured and stays cured" in text
    assert 'data-ask="score"' in text
    panel.tell("score")
    text = panel.regions["report"]
    assert "of 100" in text
    assert "data-ask" not in text
    assert "Best route" in text
    assert "nothing wrong any more" in text
    assert panel.job.session.scenario.closing in text
    panel.tell("reflect", reflection="The known-good plug sparked.")
    assert open_kept(panel.job.file).reflection == "The known-good plug sparked."


@pytest.mark.usefixtures("quick_score")
def test_what_is_there_to_practise_after_a_poor_job(tmp_path):
    job = BenchJob(NAME, "Anna", tmp_path)
    job.do("replace_module", prepare=True, confirm="all")
    job.hand_back("module_dead", 0.9)
    report.score(job)
    named = {competency for competency, _, _ in report.practise(job)}
    assert {"repair and verify", "isolation logic"} <= named


@pytest.mark.parametrize(
    ("name", "competency", "lesson"),
    [
        ("scraping_saw", "air gap", "05"),
        ("boundary_stone_cutter", "magnets, key and timing", "05"),
        ("module_heat_saw", "module and windings", "06"),
        ("rain_pump", "stop circuit and ground", "07"),
        (NAME, "plug and lead", "07"),
        ("nine_summers_pump", "compression and sealing", "08"),
        ("midday_cutter", "fuel, air and exhaust", "09"),
    ],
)
def test_does_a_missed_fault_lead_to_what_it_belongs_to(name, competency, lesson):
    job = BenchJob(name, "Anna")
    job.hand_back(None, 0.1)
    found = {name: (number, why) for name, number, why in report.practise(job)}
    assert found[competency][0] == lesson
    assert "the fault was elsewhere" in found[competency][1]


@pytest.mark.parametrize("name", [NAME, "module_heat_saw"])
def test_is_the_best_route_played_on_the_same_machine_and_proven(name):
    job = BenchJob(name, "Anna")
    bench, _ = report.best_route(job)
    assert bench.outcome is not None
    assert bench.outcome.fixed
    assert bench.outcome.verified
    assert bench.outcome.safe
    again, _ = report.best_route(job)
    assert again is bench


# keeping ------------------------------------------------------------------------------------------


def test_does_a_job_go_on_after_the_page_was_closed(panel, tmp_path):
    do(panel, "plug_look")
    panel.tell("hint")
    again = BenchPanel(BenchJob(NAME, " ANNA ", tmp_path), tmp_path)
    assert again.job.session.route == panel.job.session.route
    assert len(again.job.hints) == 1
    assert "Continued where you left it" in again.regions["message"]
    assert "Look at the plug" in again.regions["reading"]


def test_do_two_windows_with_one_job_follow_each_other(tmp_path):
    one, two = BenchJob(NAME, "Anna", tmp_path), BenchJob(NAME, "Anna", tmp_path)
    one.do("switch_check")
    two.do("plug_tight")
    one.do("ask_fuel_age")
    assert [step.action for step in one.session.route] == ["switch_check", "plug_tight", "ask_fuel_age"]
    assert one.session.minutes == 3.0


def test_do_two_learners_stay_apart(tmp_path):
    one, two = BenchJob(NAME, "Anna", tmp_path), BenchJob(NAME, "Ben", tmp_path)
    one.do("switch_check")
    assert two.session.route == []
    assert one.file != two.file


@pytest.mark.parametrize("damage", ["", "{", '{"form": 1}', "[]"])
def test_is_a_damaged_job_put_aside_and_said(tmp_path, damage):
    job = BenchJob(NAME, "Anna", tmp_path)
    job.do("switch_check")
    job.file.write_text(damage)
    fresh = BenchJob(NAME, "Anna", tmp_path)
    assert fresh.session.route == []
    assert "lies aside" in fresh.news
    assert len(list(tmp_path.glob("*.aside-*"))) == 1


def test_is_a_forged_step_not_taken_over(tmp_path):
    job = BenchJob(NAME, "Anna", tmp_path)
    job.do("switch_check")
    content = json.loads(job.file.read_text())
    content["bench"]["steps"][0]["minutes"] = 0.1
    job.file.write_text(json.dumps(content))
    assert "could not be continued" in BenchJob(NAME, "Anna", tmp_path).news


def test_does_the_kept_job_hide_what_is_wrong(job):
    job.do("switch_check")
    assert 'plug_fouled"' not in job.file.read_text()


def test_is_trouble_with_the_disk_said_and_the_work_goes_on(tmp_path, monkeypatch):
    panel = BenchPanel(BenchJob(NAME, "Anna", tmp_path), tmp_path)

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(store, "replace_whole", full)
    do(panel, "switch_check")
    assert panel.job.session.minutes == 1.0
    assert "No space left" in panel.regions["strip"]


def test_does_the_same_machine_begin_again(panel):
    do(panel, "switch_check")
    panel.tell("hand_back", way="on", confidence="10")
    panel.tell("again")
    assert panel.screen == "job"
    assert panel.job.session.route == []
    assert len(list(panel.folder.glob("*.aside-*"))) == 1


def test_does_the_first_page_list_kept_jobs_and_open_them(panel, tmp_path):
    do(panel, "switch_check")
    first = BenchPanel(None, tmp_path)
    assert "Jobs on the shelf" in first.regions["start"]
    first.tell("resume", value=panel.job.file.name)
    assert first.job.session.minutes == 1.0
    first.tell("leave")
    assert first.screen == "start"
    first.tell("resume", value="../../etc/passwd")
    assert "not in the folder" in first.regions["message"]


def test_is_a_name_asked_for(tmp_path):
    panel = BenchPanel(None, tmp_path)
    panel.tell("begin", scenario=NAME, learner=" ")
    assert "Type your name" in panel.regions["message"]
    panel.tell("show", show="water pump", learner="Anna")
    assert "hedge trimmer that was choked" not in panel.regions["start"]
    assert 'value="Anna"' in panel.regions["start"]


# own machine --------------------------------------------------------------------------------------


def test_does_an_own_machine_take_readings_in_any_unit(tmp_path):
    panel = open_own("fast_pull", "Anna", {"air_gap": "8-16 thou"}, folder=tmp_path)
    panel.tell("choose", action="air_gap")
    assert "8-16 thou" in panel.regions["work"]
    panel.tell("do", number="0.9 mm", condition="cold", confirm=["cut"])
    assert panel.job.session.route[0].result == "wide"
    assert "air gap between module and flywheel too wide" in panel.regions["possible"].split("</li>")[0]
    assert "teaching estimate" in panel.regions["possible"]
    assert "What to do next, and why" in panel.regions["possible"]


def test_is_a_reading_judged_again_when_its_band_comes_later(tmp_path):
    panel = open_own("fast_pull", "Anna", folder=tmp_path)
    panel.tell("choose", action="air_gap")
    panel.tell("do", number="35 thou", confirm=["cut"])
    assert panel.job.session.route[0].result is None
    assert "type in the maker" in panel.regions["reading"]
    panel.tell("bands", **{"band-air_gap": "0.2-0.4 mm"})
    assert panel.job.session.route[0].result == "wide"
    assert OwnJob("own machine", "fast_pull", "anna", folder=tmp_path).session.route[0].result == "wide"


def test_is_a_test_offered_in_the_state_in_which_it_is_made(tmp_path):
    panel = open_own("dies_hot", "Anna", folder=tmp_path)
    for action, state in (("spark_gap_hot", "hot"), ("spark_shake", "shake"), ("spark_gap_cold", "cold")):
        panel.tell("choose", action=action)
        assert f'<option value="{state}" selected>' in panel.regions["work"], action
    do(panel, "spark_gap_hot", word="none")
    assert panel.job.session.route[-1].conditions == ("hot",)
    panel.tell("choose", action="plug_look")
    assert '<option value="hot" selected>' in panel.regions["work"], "it is still hot"


def test_are_readings_that_contradict_said(tmp_path):
    """Three tests that never err, and three faults where two at once are the most that are thought of."""
    table = load_table()
    sure = {"switch_check": "stop_switch", "plug_tight": "plug_loose", "tank_look": "fuel_off"}
    tests = {
        name: table.tests[name].model_copy(update={"base": [1.0, 0.0], "hits": {fault: [0.0, 1.0]}})
        for name, fault in sure.items()
    }
    job = OwnJob("saw", "no_start", "Anna", folder=tmp_path, table=table.replaced(tests=tests))
    panel = BenchPanel(job, tmp_path)
    for name in ("switch_check", "plug_tight"):
        do(panel, name, word=tests[name].results[-1])
    assert "do not go together" not in panel.regions["possible"]
    before = job.follower.belief.probabilities()
    do(panel, "tank_look", word="empty_or_shut")
    said = panel.regions["possible"].partition("do not go together")[2].partition("</p>")[0]
    for name in sure:
        assert table.tests[name].say(tests[name].results[-1]) in said, name
    assert "left out of account" in said
    assert job.follower.belief.probabilities() == before
    assert len(job.session.route) == 3, "it stays in the log"


def test_is_a_reading_without_its_unit_asked_for_again(tmp_path):
    panel = open_own("no_start", "Anna", folder=tmp_path)
    panel.tell("choose", action="air_gap")
    panel.tell("do", number="12", confirm=["cut"])
    assert "unit" in panel.message


def test_does_an_own_machine_speak_of_fields_and_never_of_code(tmp_path):
    panel = open_own("no_start", "Anna", folder=tmp_path)
    panel.tell("choose", action="air_gap")
    panel.tell("do", confirm=["cut"])
    assert "Fill in the reading with its unit, or choose what was seen" in panel.regions["work"]
    panel.tell("do", confirm=["cut"], number="7 bar")
    assert "7 bar&#x27; is not a length" in panel.message
    panel.tell("do", confirm=["cut"], number="0.3 mm", minutes="-3")
    assert "minutes -3" in panel.message.lower()
    panel.tell("do", confirm=["cut"], number="0.3 mm", minutes="2,5")
    assert panel.job.session.minutes == 2.5
    assert "type in the maker's for the air gap" in panel.last.words
    panel.tell("choose", action="verify")
    panel.tell("do", confirm=list(panel.job.session.table.meta.verify_hazards))
    assert "Choose what was seen" in panel.message


def finished_own(tmp_path):
    """An own machine from complaint to hand-back, on the panel."""
    panel = open_own("fast_pull", "Ben", {"air_gap": "8-16 thou"}, name="45 cm³ saw", folder=tmp_path)
    for action, given in (
        ("air_gap", {"number": "0.9 mm"}),
        ("set_air_gap", {}),
        ("air_gap", {"number": "0.3 mm"}),
        ("verify", {"word": "runs", "condition": "cold"}),
    ):
        panel.tell("choose", action=action)
        panel.tell("do", confirm=[name for name, _, _ in plan(panel.job, action).cautions], **given)
    panel.tell("hand_back", diagnosis="airgap_wide", confidence="90", way="back")
    return panel


@pytest.mark.parametrize("whose", ["own", "demo"])
def test_does_the_card_command_read_the_file_that_the_panel_keeps(whose, tmp_path, request):
    if whose == "own":
        panel = finished_own(tmp_path)
    else:
        panel = request.getfixturevalue("panel")
        cure(panel)
        panel.tell("hand_back", diagnosis="plug_fouled", confidence="80", way="back")
    before = panel.job.file.read_bytes()
    pdf = tmp_path / "made.pdf"
    done = CliRunner().invoke(card_command, [str(panel.job.file), "--json", "--pdf", str(pdf)])
    assert done.exit_code == 0, done.output
    card = json.loads(done.output)
    assert card["state"] == "fixed"
    assert card["machine"].startswith("45 cm³ saw" if whose == "own" else "25 cm³ hedge trimmer")
    assert len(PdfReader(pdf).pages) == 1
    assert panel.job.file.read_bytes() == before
    assert list(tmp_path.glob("*.aside*")) == []


def test_is_a_forged_job_file_refused_by_the_card_command_and_left_where_it_is(panel, tmp_path):
    cure(panel)
    panel.tell("hand_back", diagnosis="plug_fouled", confidence="80", way="back")
    content = json.loads(panel.job.file.read_text())
    content["bench"]["steps"][0]["minutes"] = 0.1
    panel.job.file.write_text(json.dumps(content))
    done = CliRunner().invoke(card_command, [str(panel.job.file)])
    assert isinstance(done.exception, TwoStrokeError)
    assert "minutes is 3" in str(done.exception)
    assert panel.job.file.exists()


def test_is_an_own_job_closed_without_a_score(tmp_path):
    panel = open_own("no_start", "Anna", folder=tmp_path)
    panel.tell("choose", action="swap_plug")
    panel.tell("do", confirm=["fuel_spray"])
    panel.tell("choose", action="verify")
    panel.tell("do", word="runs", condition="cold", confirm=list(panel.job.session.table.meta.verify_hazards))
    panel.tell("hand_back", diagnosis="plug_fouled", confidence="70", way="back")
    assert "Proven by a verify run" in panel.regions["report"]
    assert "of 100" not in panel.regions["report"]


def test_is_a_job_card_written_from_the_session(panel):
    cure(panel)
    panel.tell("hand_back", diagnosis="plug_fouled", confidence="80", way="back")
    panel.tell("card")
    assert "Job card written" in panel.regions["message"]
    folder = panel.job.file.parent / "cards"
    assert {file.suffix for file in folder.iterdir()} == {".pdf", ".html", ".json"}
    card = json.loads(next(folder.glob("*.json")).read_text())
    assert card["diagnosis"]["fault"] == "plug_fouled"


def test_is_a_card_refused_that_claims_more_than_was_read(panel):
    panel.tell("hand_back", diagnosis="module_dead", confidence="80", way="back")
    panel.tell("card")
    assert "Job card written" not in panel.regions["message"]
    assert "reading" in panel.regions["message"]
