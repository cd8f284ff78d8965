"""Repair practice on the panel: order of work, what comes of it, list before hand-back, plain messages."""

from __future__ import annotations

import random
import re

import pytest
from twostroke.bench import order_of, shuffled
from twostroke.lesson.bench_panel import BenchJob, BenchPanel
from twostroke.lesson.bench_panel.arranging import covered, moved
from twostroke.lesson.bench_panel.steps import plan
from twostroke.lesson.feedback import plain
from twostroke.table import load_table, scenario_paths

SHIM = {"shim": "0.30 mm", "screws": "by hand", "terminal": "outward"}


@pytest.fixture
def panel(tmp_path):
    return BenchPanel(BenchJob("air_gap_auger", "Dora", tmp_path), tmp_path)


def cautions(panel, action):
    return [name for name, _, _ in plan(panel.job, action).cautions]


def arrange(panel, repair, steps, **typed):
    panel.tell("choose", action=repair)
    panel.tell("setting", order_way="self", **typed)
    for step in steps:
        panel.tell("arrange", value=f"add:{step}", order_way="self", **typed)


def repair(panel, action, steps, **typed):
    arrange(panel, action, steps, **typed)
    panel.tell("do", order_way="self", confirm=cautions(panel, action), **typed)


# putting steps in order ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("order", "way", "step", "after"),
    [
        ([], "add", "a", ["a"]),
        (["a", "b", "c"], "up", "c", ["a", "c", "b"]),
        (["a", "b", "c"], "down", "a", ["b", "a", "c"]),
        (["a", "b"], "up", "a", ["a", "b"]),
        (["a", "b"], "down", "b", ["a", "b"]),
        (["a", "b"], "out", "a", ["b"]),
        (["a", "b"], "add", "a", ["b", "a"]),
        (["a"], "up", "b", ["a", "b"]),
    ],
)
def test_what_does_one_press_make_of_an_order(order, way, step, after):
    assert moved(order, way, step) == after


def test_are_the_steps_laid_out_in_an_order_that_tells_nothing(panel):
    arrange(panel, "set_air_gap", [])
    listed = re.findall(r"add:(\w+)", panel.regions["work"])
    assert listed == list(shuffled("set_air_gap", "Dora"))
    assert listed != list(order_of("set_air_gap").steps)


def test_does_the_rest_of_the_card_stay_while_steps_are_put_in(panel):
    arrange(panel, "set_air_gap", ["loosen", "magnet"], shim="0.35 mm", screws="by hand", confirm=["cut"])
    assert 'value="0.35 mm"' in panel.regions["work"]
    assert re.search(r'value="cut"[^>]* checked', panel.regions["work"])
    assert panel.order == ["loosen", "magnet"]
    panel.tell("arrange", value="out:loosen", order_way="self")
    assert panel.order == ["magnet"]
    assert "add:loosen" in panel.regions["work"]


def test_is_a_press_told_and_the_next_step_at_hand(panel):
    arrange(panel, "set_air_gap", ["loosen"])
    assert "Step 1 of 1: loosen both module screws" in panel.say
    assert panel.focus.startswith("order-add-")
    panel.tell("arrange", value="add:magnet", order_way="self")
    panel.tell("arrange", value="up:magnet", order_way="self")
    assert "Step 1 of 2: turn the flywheel" in panel.say
    assert panel.focus.startswith("order-up-magnet#")


def test_is_a_step_of_another_repair_refused(panel):
    arrange(panel, "set_air_gap", [])
    panel.tell("arrange", value="add:boot_off", order_way="self")
    assert "no step" in panel.message
    assert panel.order == []


def test_is_who_puts_steps_in_order_not_asked_again_for_what_is_in_them(panel):
    for action, gone in (("set_air_gap", "recheck"), ("replace_module", "terminal"), ("swap_plug", "screws")):
        assert gone in covered(action)
        assert gone in {field.name for field in plan(panel.job, action).fields}
        assert gone not in {field.name for field in plan(panel.job, action, {"order_way": "self"}).fields}


# what comes of it ---------------------------------------------------------------------------------


def test_is_an_empty_order_not_done(panel):
    repair(panel, "set_air_gap", [], **SHIM)
    assert panel.job.session.route == []
    assert "put the steps in" in panel.message


def test_does_a_sound_order_cure_and_stand_in_the_list(panel):
    repair(panel, "set_air_gap", list(order_of("set_air_gap").steps), **SHIM)
    assert panel.job.session.route[-1].settings["order"][0] == "loosen"
    assert "Gap after tightening" in panel.last.words
    assert re.search(r"measured again after tightening: <b>yes", panel.regions["help"])
    assert re.search(r"the stop switch really stops it: <b>not yet", panel.regions["help"], re.IGNORECASE)
    panel.tell("choose", action="verify")
    panel.tell("do", confirm=cautions(panel, "verify"))
    assert "<b>not yet" not in panel.regions["help"]


def test_does_an_unsound_order_show_on_the_engine_and_in_the_report(panel):
    steps = [name for name in order_of("set_air_gap").steps if name != "shim_out"]
    steps.insert(steps.index("tighten"), "shim_out")
    repair(panel, "set_air_gap", steps, **SHIM)
    assert "magnet" not in panel.last.words, "harm is not told, it is met"
    panel.tell("choose", action="verify")
    panel.tell("do", confirm=cautions(panel, "verify"))
    assert panel.job.session.route[-1].result == "fails"
    panel.tell("hand_back", diagnosis="airgap_wide", confidence="90", way="back")
    assert "the module follows the magnet" in panel.regions["report"]


def test_is_an_order_kept_with_the_job(panel, tmp_path):
    repair(panel, "set_air_gap", list(order_of("set_air_gap").steps), **SHIM)
    again = BenchJob("air_gap_auger", "Dora", tmp_path)
    assert again.session.route == panel.job.session.route


# messages -----------------------------------------------------------------------------------------

CODE = re.compile(r"\w=|'\w+_\w+'|\b[a-z]+_[a-z]+\b|prepare|confirm\b", re.ASCII)


@pytest.mark.parametrize("number", range(4))
def test_is_no_advice_given_that_the_panel_cannot_follow(number):
    luck = random.Random(number)
    name = luck.choice(sorted(scenario_paths()))
    panel = BenchPanel(BenchJob(name, "Zoe"))
    said = []
    for _ in range(30):
        action = luck.choice(list(panel.job.session.actions()))
        panel.tell("choose", action=action)
        step = plan(panel.job, action)
        values = {}
        for field in step.fields:
            free = luck.choice([field.start or "0.30 mm", "3", "abc", ""])
            values[field.name] = luck.choice([v for v, _ in field.options]) if field.options else free
        if values.get("order_way"):
            panel.order = list(shuffled(action, "Zoe"))[: luck.randint(0, 9)]
        panel.tell("do", confirm=[*cautions(panel, action), "fuel_spray"], **values)
        said += [step.never, plain(panel.message), panel.last.spoken if panel.last else ""]
    assert sum(map(bool, said)) > 20
    assert [text for text in said if CODE.search(text)] == []


def test_is_a_cover_that_is_off_told_without_advice(panel):
    for _ in range(2):
        panel.tell("choose", action="top_cover")
        panel.tell("do", confirm=cautions(panel, "top_cover"))
    assert plain(panel.message) == "The starter or fan cover is off already."
    assert panel.job.session.do("top_cover", prepare=True).words == "The starter or fan cover is off already."


def test_is_what_speaks_against_a_hot_machine_no_caution_to_confirm():
    from twostroke.bench import Bench

    table = load_table()
    row = table.tests["screen_look"]
    hot = table.replaced(
        tests={
            **table.tests,
            "screen_look": row.model_copy(update={"temp": "any", "hazards": ["hot_surface"]}),
        }
    )
    bench = Bench("plug_fouled_trimmer", "Anna", table=hot)
    bench.do("warm_up", confirm="all")
    reading = bench.do("screen_look", confirm="all", prepare=True)
    assert not reading.done
    assert "let it cool first" in reading.words
    assert "confirm=" not in reading.words


# what a newcomer looks for ------------------------------------------------------------------------


def test_is_a_job_on_the_shelf_before_its_first_step(tmp_path):
    panel = BenchPanel(None, tmp_path)
    panel.tell("begin", scenario="plug_fouled_trimmer", learner="Nova")
    again = BenchPanel(None, tmp_path)
    again.tell("resume", value=panel.job.file.name)
    assert again.screen == "job"


def test_does_the_last_hint_open_its_step_at_its_place(panel):
    for _ in range(3):
        panel.tell("hint")
    step = re.search(r'data-press="choose" data-action="(\w+)" data-focus="hinted"', panel.regions["help"])
    assert step
    panel.tell("choose", action=step.group(1))
    assert re.search(rf'data-value="{panel.picked}"[^>]* aria-pressed="true"', panel.regions["drawing"])
    assert "bt-card" in panel.regions["work"]


def test_does_a_run_say_that_covers_go_back_on(panel):
    assert not plan(panel.job, "verify").note
    panel.tell("choose", action="top_cover")
    panel.tell("do", confirm=cautions(panel, "top_cover"))
    panel.tell("choose", action="verify")
    assert "goes back on for it (starter or fan cover)" in panel.regions["work"]


def test_is_hand_back_offered_once_the_list_is_complete(panel):
    repair(panel, "set_air_gap", list(order_of("set_air_gap").steps), **SHIM)
    assert "hand it back" not in panel.regions["reading"]
    panel.tell("choose", action="verify")
    panel.tell("do", confirm=cautions(panel, "verify"))
    assert "hand it back" in panel.regions["reading"]
    panel.tell("jump", value="hand-back-form")
    assert panel.focus.startswith("hand-back-form#")
    panel.tell("jump", value="elsewhere")
    assert panel.focus.startswith("hand-back-form#")


def test_does_the_card_of_a_repair_show_the_band_that_it_sets(panel):
    panel.tell("choose", action="set_air_gap")
    assert "Maker's band: 0.20-0.40 mm" in panel.regions["work"].replace("&#39;", "'")


def test_is_a_test_that_is_pulled_both_ways_not_asked_how_hard(panel):
    assert [field.name for field in plan(panel.job, "spark_slow_fast").fields] == ["gap"]


def test_is_an_unsound_order_what_to_practise_next(panel):
    steps = list(order_of("set_air_gap").steps)
    repair(panel, "set_air_gap", steps[::-1], **SHIM)
    assert "it did not come to it" in panel.job.session.route[-1].words
    repair(panel, "set_air_gap", steps, **SHIM)
    panel.tell("choose", action="verify")
    panel.tell("do", confirm=cautions(panel, "verify"))
    panel.tell("hand_back", diagnosis="airgap_wide", confidence="90", way="back")
    assert "the order of work in a repair was unsound" in panel.regions["report"]
