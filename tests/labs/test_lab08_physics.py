"""Lab 08 against the library and against what is published: are the right values right?"""

from __future__ import annotations

import pytest
from twostroke import compression, lab
from twostroke.lab.lab08 import EXPONENT, FACTORS
from twostroke.lab.lab08_judge import UNCERTAINTY
from twostroke.lab.task import Values

LEARNERS = [f"learner {number}" for number in range(12)]


def _values(learner):
    given = lab.variant("08", learner)
    return given, Values(lab.load("08"), given)


def _cylinder(given):
    """The drawn engine; its port closing is the angle at which the piston stands that far from the top."""
    from twostroke import geometry

    bore, stroke, height = (given[f"{name}_tenths_mm"] / 10 for name in ("bore", "stroke", "height"))
    rod = 1.85 * stroke
    swept = 3.141592653589793 / 4 * bore**2 * stroke / 1000
    clearance = given["clearance_tenths_mL"] / 10
    closing = geometry.crank_angle(f"{height} mm", f"{stroke} mm", f"{rod} mm")
    return compression.Cylinder(
        f"{bore} mm", f"{stroke} mm", f"{rod} mm", (swept + clearance) / clearance, closing
    )


@pytest.mark.parametrize("learner", LEARNERS)
def test_are_trapped_volume_and_ratio_those_of_the_library(learner):
    given, right = _values(learner)
    engine = _cylinder(given)
    assert right["size.trapped"] == pytest.approx(engine.trapped_volume.to("mL").magnitude, rel=1e-6)
    assert right["size.ratio"] == pytest.approx(engine.trapped_ratio, rel=1e-6)


@pytest.mark.parametrize("learner", LEARNERS[:4])
def test_does_a_tight_engine_pumped_up_show_the_expected_reading(learner):
    given, right = _values(learner)
    altitude = f"{given['altitude_m']} m"
    shown = compression.gauge_readings(
        _cylinder(given), 12, "800 rpm", "1 mL", polytropic=EXPONENT, altitude=altitude
    )[-1]
    assert right["expected.reading"] == pytest.approx(shown.to("bar").magnitude, abs=0.1)


def test_is_the_table_of_factors_the_ratio_to_the_power_of_the_exponent():
    assert {ratio: round(ratio**1.25, 2) for ratio in FACTORS} == FACTORS


@pytest.mark.parametrize("learner", LEARNERS)
def test_is_the_leak_rate_that_of_the_library(learner):
    given, right = _values(learner)
    leak = compression.leak_rate(
        f"{given['case_mL']} mL",
        f"{given['hold_start_hundredths_bar'] / 100} bar",
        f"{given['hold_end_hundredths_bar'] / 100} bar",
        f"{given['hold_s']} s",
    )
    assert right["decay.leak"] == pytest.approx(leak.to("mL/min").magnitude, rel=1e-6)


@pytest.mark.parametrize("learner", LEARNERS)
def test_are_the_three_engines_judged_as_the_library_judges(learner):
    given, right = _values(learner)
    altitude = f"{given['altitude_m']} m"
    low, high = (
        compression.reading_at_altitude(f"{limit / 10} bar", altitude) for limit in given["band_tenths_bar"]
    )
    assert right["judge.low"] == pytest.approx(low.to("bar").magnitude, abs=0.01)
    for true, reading in given["engines"]:
        said = compression.judge(f"{reading / 10} bar", low, high, f"{UNCERTAINTY} bar")
        assert said == {"low": "out", "high": "out"}.get(true, true)


def test_does_one_mistake_in_the_volume_cost_once():
    model = lab.model_answers("08", "learner 1")
    wrong = {**model, "size": {"trapped": "99.9 mL", "ratio": model["size"]["ratio"]}}
    assert sum(mark.max_points - mark.points for mark in lab.mark_answers("08", "learner 1", wrong)) == 2
