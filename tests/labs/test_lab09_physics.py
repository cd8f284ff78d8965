"""Lab 09 against the library: are the right values right?"""

from __future__ import annotations

import pytest
from twostroke import fuel, lab, units
from twostroke.lab import lab09_storage
from twostroke.lab.task import Values

LEARNERS = [f"learner {number}" for number in range(12)]


def _values(learner):
    given = lab.variant("09", learner)
    return given, Values(lab.load("09"), given)


@pytest.mark.parametrize(
    ("column", "substance"), [(lab09_storage.FRESH, "n-pentane"), (lab09_storage.STALE, "n-heptane")]
)
def test_is_the_table_of_vapour_pressures_that_of_coolprop(column, substance):
    for celsius, pressure in column.items():
        exact = fuel.vapour_pressure(f"{celsius} degC", substance).to("kPa").magnitude
        assert pressure == pytest.approx(exact, rel=0.003)


@pytest.mark.parametrize("learner", LEARNERS)
def test_does_the_can_have_the_wanted_ratio_when_the_fuel_is_added(learner):
    given, right = _values(learner)
    oil = right["mix.oil"]
    assert oil == pytest.approx(
        fuel.oil_for(f"{given['mix_mL'] - oil} mL", f"{given['old_ratio']}:1").to("mL").magnitude
    )
    whole = given["mix_mL"] - oil + 1000 * right["mix.add"]
    assert float(fuel.mixture(f"{oil} mL", f"{whole} mL")) == pytest.approx(given["wanted_ratio"])
    assert right["mix.add"] > 0


@pytest.mark.parametrize("learner", LEARNERS)
def test_is_the_shed_as_warm_as_the_library_says(learner):
    given, right = _values(learner)
    exact = units.read(f"{given['shed_degF']} degF").to("degC").magnitude
    assert right["age.temperature"] == pytest.approx(float(exact))
    assert 0 < right["age.temperature"] < 30


@pytest.mark.parametrize("learner", LEARNERS)
def test_does_only_the_change_that_fits_the_case_gain_much(learner):
    given, right = _values(learner)
    gains = {"screen": right["screen.screen"], "rich": right["screen.leaner"]}
    case = given["speed_case"]
    for name, gain in gains.items():
        assert (gain > 15) == (name == case)
    assert (right["screen.leaner"] < -5) == (case == "lean")


def test_does_one_mistake_in_the_temperature_cost_once():
    given = lab.variant("09", "learner 2")
    model = lab.model_answers("09", "learner 2")
    wrong_temperature = given["shed_degF"] / 1.8
    assert wrong_temperature < 30
    fresh = lab09_storage._at(lab09_storage.FRESH, wrong_temperature)
    stale = lab09_storage._at(lab09_storage.STALE, wrong_temperature)
    age = {
        **model["age"],
        "temperature": f"{wrong_temperature:.1f} °C",
        "fresh": f"{fresh:.1f} kPa",
        "stale": f"{stale:.2f} kPa",
        "times": f"{fresh / stale:.1f}",
    }
    mark = next(m for m in lab.mark_answers("09", "learner 2", {**model, "age": age}) if m.task == "age")
    assert mark.points == 4
