"""How long the bench panel takes from a press to the regions of the new screen, without a browser."""

from __future__ import annotations

import itertools

import pytest
from twostroke.lesson.bench_panel import BenchJob, BenchPanel
from twostroke.lesson.bench_panel.steps import plan


@pytest.fixture
def panel(tmp_path):
    made = BenchPanel(BenchJob("plug_fouled_trimmer", "Anna", tmp_path), tmp_path)
    for action in ("known_good_plug", "compression"):  # tables and readings that are worked out once
        _do(made, action)
    return made


def _do(panel, action):
    panel.tell("choose", action=action)
    panel.tell("do", confirm=[name for name, _, _ in plan(panel.job, action).cautions])


def test_pick_a_place(benchmark, panel):
    places = itertools.cycle(["module", "plug"])
    benchmark.pedantic(lambda: panel.tell("pick", value=next(places)), rounds=20, iterations=1)
    assert "<svg" in panel.regions["drawing"]


def test_do_a_step(benchmark, panel):
    steps = itertools.cycle(["plug_look", "known_good_plug", "air_filter_look", "compression"])
    benchmark.pedantic(lambda: _do(panel, next(steps)), rounds=20, iterations=1)
    assert len(panel.job.session.route) >= (20 if benchmark.enabled else 3)


def test_go_on_with_a_kept_job(benchmark, panel, tmp_path):
    again = benchmark.pedantic(
        lambda: BenchJob("plug_fouled_trimmer", "Anna", tmp_path), rounds=5, iterations=1
    )
    assert again.session.route == panel.job.session.route
