"""Words of the bench panel that a reader has stumbled over: prices, states, leaves, what a test told."""

from __future__ import annotations

import re

import pytest
from twostroke.isolation import load_table, score_route
from twostroke.lesson.bench_panel import BenchJob, BenchPanel
from twostroke.lesson.bench_panel.displays import display
from twostroke.lesson.bench_panel.steps import plan


def panel_of(scenario, folder):
    return BenchPanel(BenchJob(scenario, "Nova", folder), folder)


def do(panel, action, **values):
    panel.tell("choose", action=action)
    panel.tell("do", confirm=[name for name, _, _ in plan(panel.job, action).cautions], **values)


@pytest.mark.parametrize(
    ("scenario", "condition", "before"),
    [
        ("plug_fouled_trimmer", None, []),
        ("module_heat_saw", None, ["run it until it is hot (8 min)"]),
        ("module_heat_saw", "hot", ["run it until it is hot (8 min)"]),
        ("module_heat_saw", "cold", []),
        ("dusted_trimmer", None, []),
    ],
)
def test_is_the_price_of_a_verify_run_what_it_then_costs(scenario, condition, before, tmp_path):
    panel = panel_of(scenario, tmp_path)
    given = {"condition": condition} if condition else {}
    step = plan(panel.job, "verify", given)
    assert step.before == before
    bench = panel.job.fresh()
    asked = [condition] if condition else bench.table.verify_conditions(panel.job.complaint_kind) or ["cold"]
    warm = sum(float(found) for words in before for found in re.findall(r"\((\d+) min", words))
    assert step.minutes == pytest.approx(bench.table.meta.verify_minutes * len(asked) + warm)


def test_does_a_repaired_machine_pay_the_price_that_was_shown(tmp_path):
    panel = panel_of("module_heat_saw", tmp_path)
    way = {
        "terminal": "outward",
        "routing": "free",
        "screws": "by hand",
    }
    do(panel, "replace_module", shim="12 thou", recheck="yes", **way)
    shown = plan(panel.job, "verify").minutes
    do(panel, "verify")
    last = panel.job.session.route[-1]
    assert last.result == "runs"
    assert last.minutes == pytest.approx(shown)
    assert "(cold, hot)" in panel.regions["reading"], "both states in which it ran are named"


def test_does_a_part_say_that_it_costs_money(tmp_path):
    panel = panel_of("plug_fouled_trimmer", tmp_path)
    assert re.fullmatch(r"\d+ min, part costs \d+", plan(panel.job, "swap_plug").price)


def test_is_no_leaf_drawn_for_a_difference_or_for_no_gap_at_all():
    shown = {"difference of the legs": "0.05 mm", "leading leg": "0.00 mm", "trailing leg": "0.05 mm"}
    drawn = display(load_table(), "legs_gap", shown, None, "")
    labels = re.findall(r"<text[^>]*>([^<]+)</text>", drawn)
    assert labels == ["Thickest leaf that passes", "none passes", "leading leg", "0.05 mm", "trailing leg"]


def test_is_a_test_that_found_the_fault_not_said_to_tell_nothing():
    route = [{"action": "stop_lead_off", "result": "spark_returns"}]
    said = score_route(load_table(), "no_start", route).feedback[0]
    assert "nor any other two" not in said
    assert re.search(r"it can tell “[^”]+” from “stop switch stuck or shorted”", said)


def test_does_the_report_say_why_a_cheap_route_can_score_low(tmp_path):
    panel = panel_of("rain_pump", tmp_path)
    for action in ("stop_lead_off", "replace_switch", "verify"):
        do(panel, action)
    panel.tell("hand_back", diagnosis="stop_switch", confidence="85", way="back")
    panel.tell("score")
    assert "is luck here, until a test backs it" in panel.regions["report"]
