"""Fuel, choke, cold and flood: the order of things."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from twostroke.bench import faults, mixture, start
from twostroke.bench.engine import ideal
from twostroke.bench.models import model

WARM = np.full(1, 293.15)
OPEN, CLOSED = np.zeros(1), np.ones(1)


def machine(fault=None, severity=0.9, kind=0.1):
    made = ideal(model("A"), 1)
    if fault:
        faults.apply(made, fault, severity, 1.0, kind)
    return made


def ratio(made, choke=CLOSED, kelvin=WARM, line=1.0):
    state = mixture.at_rest(made, line)
    return float(mixture.draw(made, state, mixture.choke_closing(made, float(choke[0])), kelvin)[0])


def test_does_the_choke_make_it_richer_and_cold_make_it_leaner():
    assert ratio(machine(), CLOSED) > 2.0 * ratio(machine(), OPEN)
    assert ratio(machine(), CLOSED, np.full(1, 273.15)) < ratio(machine(), CLOSED)
    assert ratio(machine(), OPEN, np.full(1, 363.15)) > 1.8 * ratio(machine(), OPEN)


def test_is_a_cold_engine_right_with_choke_and_a_hot_one_without():
    assert 0.8 < ratio(machine(), CLOSED) < 1.6
    assert 0.7 < ratio(machine(), OPEN, np.full(1, 363.15)) < 1.4
    assert ratio(machine(), OPEN) < 0.6
    assert ratio(machine(), CLOSED, np.full(1, 363.15)) > 2.0


@pytest.mark.parametrize(
    "fault", ["stale_fuel", "needle_shut", "diaphragm", "fuel_line", "crank_seal", "reed", "mixture_altered"]
)
def test_which_faults_make_the_mixture_leaner(fault):
    assert ratio(machine(fault)) < 0.8 * ratio(machine())


@pytest.mark.parametrize(
    ("fault", "kind"), [("air_filter", 0.1), ("mixture_altered", 0.9), ("needle_leak", 0.1)]
)
def test_which_faults_make_the_mixture_richer(fault, kind):
    assert ratio(machine(fault, kind=kind)) > 1.1 * ratio(machine())


@pytest.mark.parametrize("fault", ["primer", "fuel_filter", "fuel_off", "fuel_line"])
def test_which_faults_keep_the_bulb_from_filling(fault):
    made = machine(fault)
    state = mixture.at_rest(made)
    assert mixture.press_primer(made, state, 6)[0] < 0.6
    sound = machine()
    assert mixture.press_primer(sound, mixture.at_rest(sound), 6)[0] > 0.95


def test_does_fuel_that_is_drawn_and_not_burnt_end_as_a_wet_plug():
    made, state = machine(), mixture.at_rest(machine(), 1.0)
    paths = []
    for _ in range(60):
        state.line[:] = 1.0
        mixture.draw(made, state, CLOSED, WARM)
        paths.append(float(mixture.wet_path(state)[0]))
    assert paths[0] > 1e11
    assert paths[-1] < 300e3
    assert all(later <= earlier * 1.0001 for earlier, later in itertools.pairwise(paths))


@pytest.mark.parametrize("fault", ["fuel_filter", "tank_vent", "fuel_off", "other", "fuel_line"])
def test_which_faults_starve_a_running_engine(fault):
    lean = mixture.running_ratio(machine(fault), np.full(1, 340.0))[0]
    assert lean < mixture.CONSTANTS.lean_limit
    assert 0.9 < mixture.running_ratio(machine(), np.full(1, 340.0))[0] < 1.3


@pytest.mark.parametrize(
    "fault", ["cooling", "screen", "air_filter", "rings", "oil_wrong", "airgap_rub", "crank_seal"]
)
def test_which_faults_take_the_strength_of_a_running_engine(fault):
    from twostroke.bench import sparks

    made, sound = machine(fault), machine()
    there = start.strength(made, sparks.output(made, 80.0, "plug"), 90.0)[0]
    assert there < 0.8 < start.strength(sound, sparks.output(sound, 80.0, "plug"), 90.0)[0]
