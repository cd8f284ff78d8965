"""Figures of lessons 09 to 11: what they show is what bench and isolation package compute."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.stats import binom
from twostroke.bench import heat, sample_results
from twostroke.bench.mixture import CONSTANTS
from twostroke.isolation import Belief, Planner, load_table
from twostroke.lesson.drawing import DrawingError
from twostroke.lesson.figures import comes_and_goes, counting, plug_and_mixture


@pytest.mark.parametrize("face", range(1, 6))
@pytest.mark.parametrize("tester", range(4))
def test_are_the_machines_of_the_plug_all_counted_once(face, tester):
    shown = plug_and_mixture.plug_face(face, tester).shown
    assert sum(shown.values()) == pytest.approx(1000, abs=1e-6)


def test_is_the_plug_counted_as_the_belief_counts():
    shown = plug_and_mixture.plug_face(3, 3).shown
    table = load_table()
    belief = Belief(table, "no_start", pairs=False)
    belief.update("spark_gap_cold", "none").update("plug_look", "wet")  # the other way round
    of_ignition = sum(
        chance for name, chance in belief.probabilities().items() if table.faults[name].sys == "ignition"
    )
    assert shown["ignition"] == pytest.approx(1000 * of_ignition)


@pytest.mark.parametrize(
    ("face", "tester", "system", "least", "why"),
    [
        (3, 0, "ignition", 500, "wet alone: no spark is likelier than too much fuel"),
        (3, 3, "ignition", 900, "wet and dark: the fuel side has done its work"),
        (3, 1, "fuel", 500, "wet and a good spark: flooded"),
        (2, 1, "fuel", 800, "dry and a good spark: starved"),
        (1, 1, "fuel", 500, "a tan plug with a good spark points to the fuel of today"),
    ],
)
def test_does_the_plug_prove_what_the_lesson_says(face, tester, system, least, why):
    assert plug_and_mixture.plug_face(face, tester).shown[system] > least, why


@pytest.mark.slow
def test_do_plugs_of_the_virtual_bench_look_as_the_lesson_says():
    """By the physics of the bench: dead module and flood wet the plug, a shut needle leaves it dry."""
    for fault, face in (("module_dead", "wet"), ("flooded", "wet"), ("needle_shut", "dry_clean")):
        counts = sample_results("plug_look", fault, "cold", n=240)
        assert max(counts, key=counts.__getitem__) == face, (fault, counts)


@pytest.mark.parametrize("values", [(0, 0), (6, 0), (3, 4), (2.5, 0)])
def test_is_a_plug_that_is_not_drawn_refused(values):
    with pytest.raises(DrawingError, match="faces 1 to 5, tester 0 to 3"):
        plug_and_mixture.plug_face(*values)


@given(closed=st.integers(0, 13), celsius=st.integers(0, 12), light=st.integers(0, 9))
@settings(max_examples=25, deadline=None)
def test_does_more_choke_leave_more_fuel_and_fresh_fuel_less(closed, celsius, light):
    """Another pull with the choke closed never leaves less fuel, fresher fuel never more."""
    shown = plug_and_mixture.fuel_by_pull(closed, f"{5 * celsius} degC", 10 * light).shown
    more = plug_and_mixture.fuel_by_pull(closed + 1, f"{5 * celsius} degC", 10 * light).shown
    fresher = plug_and_mixture.fuel_by_pull(closed, f"{5 * celsius} degC", 10 * light + 10).shown
    assert more["most"] >= shown["most"] - 1e-9
    assert fresher["most"] <= shown["most"] + 1e-9


@pytest.mark.parametrize(
    ("closed", "warmth", "light", "can_burn", "wet", "why"),
    [
        (14, "20 degC", 100, 14, True, "cold, choke closed: could burn all along, and ends wet"),
        (4, "20 degC", 100, 4, False, "opened in time: lean again, and dry"),
        (0, "20 degC", 100, 0, False, "cold without choke: too lean"),
        (14, "20 degC", 20, 0, True, "stale: lean and wet at once"),
        (0, "60 degC", 100, 10, False, "warm: no choke needed"),
    ],
)
def test_does_the_mixture_go_as_the_lesson_says(closed, warmth, light, can_burn, wet, why):
    shown = plug_and_mixture.fuel_by_pull(closed, warmth, light).shown
    assert shown["can_burn"] >= can_burn if can_burn == 10 else shown["can_burn"] == can_burn, why
    assert bool(shown["wet_from"]) is wet, why


def test_is_a_warm_engine_with_choke_too_rich_at_first():
    picture = plug_and_mixture.fuel_by_pull(3, "60 degC", 100)
    assert picture.shown["can_burn"] < 14
    assert plug_and_mixture._cranked(3, 60.0, 100.0)[0][0] > CONSTANTS.rich_limit


@pytest.mark.parametrize(
    "values", [(15, "20 degC", 50), (4, "90 degC", 50), (4, "20 degC", 120), (-1, "20 degC", 0)]
)
def test_is_a_pull_outside_the_drawing_refused(values):
    with pytest.raises(DrawingError, match="the figure shows 0 to 14 pulls"):
        plug_and_mixture.fuel_by_pull(*values)


@given(has=st.integers(1, 50), shows=st.integers(1, 20), others=st.integers(0, 60))
@settings(max_examples=40, deadline=None)
def test_does_the_count_keep_the_law_of_odds(has, shows, others):
    """Odds after are odds before times the ratio of the two shares."""
    shown = counting.machines_counted(10 * has, 5 * shows, others).shown
    if others == 0:
        assert shown["chance"] == 1.0
    else:
        odds = has * 10 / (1000 - has * 10) * (5 * shows / others)
        assert shown["chance"] / (1 - shown["chance"]) == pytest.approx(odds)


def test_does_the_count_agree_with_the_belief_on_the_course_table():
    """One reading of the real table, told as machines: the same chance as the exact update."""
    table = load_table()
    belief = Belief(table, "no_start", pairs=False)
    prior = belief.probability("module_dead")
    rows = belief.model.likelihood("known_good_plug", "cold")[:, 2]
    hit = rows[belief.model.index["module_dead"]]
    false = (belief.vector @ rows - prior * hit) / (1 - prior)
    shown = counting.machines_counted(1000 * prior, 100 * hit, 100 * false).shown
    assert shown["chance"] == pytest.approx(
        belief.update("known_good_plug", "none").probability("module_dead")
    )


@pytest.mark.parametrize("machine", range(1, 5))
def test_are_the_bars_the_exact_belief_and_the_first_test_the_advisers(machine):
    complaint, fault = counting.MACHINES[machine - 1]
    belief = Belief(load_table(), complaint, pairs=False)
    assert counting.belief_bars(machine, 0, 1).shown["true_fault"] == pytest.approx(belief.probability(fault))
    advised = Planner(belief.table).rank(belief)[0]
    assert belief.table.tests[advised.action].name in counting.belief_bars(machine, 0, 1).words
    assert counting.belief_bars(machine, 1, 1).shown["minutes"] == pytest.approx(advised.minutes)


@pytest.mark.parametrize("machine", range(1, 5))
def test_does_the_way_of_least_cost_end_at_the_true_fault(machine):
    shown = counting.belief_bars(machine, counting.MOST, 1).shown
    assert shown["true_fault"] == shown["likeliest"] > 0.8
    assert "Repair next" in counting.belief_bars(machine, counting.MOST, 1).words


@pytest.mark.parametrize(
    ("machine", "tests", "way", "low", "high", "why"),
    [
        (4, 1, 1, 0.33, 0.43, "a dark good plug: the module in about four jobs of ten"),
        (1, 2, 1, 0.85, 0.93, "stop circuit measured: the switch at about 90"),
        (3, 7, 2, 0.15, 0.30, "seven quick tests told little"),
        (3, 5, 1, 0.85, 0.95, "five telling ones find it"),
    ],
)
def test_do_the_bars_stand_where_the_lesson_says(machine, tests, way, low, high, why):
    assert low < counting.belief_bars(machine, tests, way).shown["true_fault"] < high, why


@pytest.mark.parametrize("values", [(0, 1, 1), (5, 1, 1), (1, 8, 1), (1, 1, 3), (1, 1.5, 1)])
def test_is_a_bar_that_is_not_drawn_refused(values):
    with pytest.raises(DrawingError, match="machines 1 to 4, 0 to 7 tests"):
        counting.belief_bars(*values)


@pytest.mark.parametrize("values", [(5, 50, 10), (50, 0, 10), (50, 50, 70)])
def test_is_a_count_outside_the_drawing_refused(values):
    with pytest.raises(DrawingError, match="10 to 500 machines"):
        counting.machines_counted(*values)


@pytest.mark.parametrize("run", [3.0, 12.0, 20.0])
def test_do_engine_and_module_follow_the_two_heat_balances(run):
    """The drawn steps against the same two balances solved by scipy."""
    to_engine, blown = comes_and_goes.module_lags()

    def change(time, state):
        hot, warm = state
        target, lag, air = (
            (heat.ENGINE_RUN, heat.ENGINE_LAG, blown)
            if time < run
            else (comes_and_goes.AMBIENT, heat.ENGINE_COOLING, comes_and_goes.STILL_AIR_LAG)
        )
        return [(target - hot) / lag, (hot - warm) / to_engine - (warm - comes_and_goes.AMBIENT) / air]

    times, engine, module = comes_and_goes.temperatures(run)
    up = times <= run
    first = solve_ivp(change, (0, run), [20, 20], t_eval=times[up], rtol=1e-9, atol=1e-9)
    then = solve_ivp(change, (run, times[-1]), first.y[:, -1], t_eval=times[~up], rtol=1e-9, atol=1e-9)
    assert np.hstack([first.y[0], then.y[0]]) == pytest.approx(engine, abs=1e-4)
    assert np.hstack([first.y[1], then.y[1]]) == pytest.approx(module, abs=1e-4)


def test_does_a_running_module_settle_where_the_bench_says():
    to_engine, blown = comes_and_goes.module_lags()
    settled = (heat.ENGINE_RUN / to_engine + comes_and_goes.AMBIENT / blown) / (1 / to_engine + 1 / blown)
    assert settled == pytest.approx(heat.MODULE_RUN)
    assert 1 / (1 / to_engine + 1 / blown) == pytest.approx(heat.MODULE_LAG)


@pytest.mark.parametrize(
    ("run", "opens", "after", "died", "flashes", "why"),
    [
        (15, 80, 30, True, True, "cold again: as if nothing were wrong"),
        (15, 80, 2, True, False, "in the minutes after it died"),
        (20, 88, 2, False, False, "held in work, opened by the heat that creeps in after stopping"),
        (20, 88, 30, False, True, "and shut again"),
        (15, 100, 2, False, True, "never that hot"),
    ],
)
def test_does_the_module_go_dark_when_the_lesson_says(run, opens, after, died, flashes, why):
    shown = comes_and_goes.heat_soak(f"{run} min", f"{opens} degC", f"{after} min").shown
    assert bool(shown["died"]) is died, why
    assert (shown["tester"].to("kV").magnitude > 8) is flashes, why


@given(opens=st.integers(50, 86), after=st.integers(0, 60))
@settings(max_examples=15, deadline=None)
def test_is_it_dark_while_hot_and_only_then(opens, after):
    shown = comes_and_goes.heat_soak("20 min", f"{opens} degC", f"{after} min").shown
    hot = shown["module"].to("degC").magnitude >= opens
    assert (shown["tester"].to("kV").magnitude < 8) is hot
    assert (after <= shown["dark"].to("min").magnitude) is hot


@given(fails=st.integers(5, 90), clean=st.integers(0, 40))
@settings(max_examples=30, deadline=None)
def test_does_a_hidden_fault_pass_as_the_binomial_says(fails, clean):
    shown = comes_and_goes.clean_starts(fails, clean, 50).shown
    assert shown["hidden"] == pytest.approx(binom.pmf(0, clean, fails / 100))
    needed = int(shown["needed"])
    assert binom.pmf(0, needed, fails / 100) <= 0.05 + 1e-9 < binom.pmf(0, needed - 1, fails / 100) + 2e-9


def test_is_the_doubt_left_that_of_the_isolation_package():
    """A module that fails now and then, replaced, and one verify run passed: the same Bayes' rule."""
    table = load_table()
    belief = Belief(table, "no_start", pairs=False).repair("set_air_gap")
    shows = table.faults["module_intermittent"].shows("cold")
    before = belief.probability("module_intermittent")
    sound = belief.cured
    belief.verify(True, ["cold"])
    after = belief.probability("module_intermittent")
    shown = comes_and_goes.clean_starts(100 * shows, 1, 50).shown
    ratio = (after / belief.cured) / (before / sound)
    assert shown["still"] / (1 - shown["still"]) == pytest.approx(ratio)


@pytest.mark.parametrize(("fails", "sure", "needed"), [(0.2, 0.9, 11), (0.25, 0.95, 11), (1 / 3, 0.95, 8)])
def test_are_the_needed_starts_those_of_the_lesson(fails, sure, needed):
    assert comes_and_goes.starts_needed(fails, sure) == needed


@pytest.mark.parametrize("values", [("1 min", "80 degC", "0 min"), ("15 min", "120 degC", "0 min")])
def test_is_a_soak_outside_the_drawing_refused(values):
    with pytest.raises(DrawingError, match="the figure shows 2 to 20 min"):
        comes_and_goes.heat_soak(*values)


@pytest.mark.parametrize("values", [(0, 3, 50), (33, 41, 50), (33, 3, 100)])
def test_is_a_start_outside_the_drawing_refused(values):
    with pytest.raises(DrawingError, match="the figure shows 5 to 90 of 100"):
        comes_and_goes.clean_starts(*values)


def test_is_a_chance_that_is_none_refused():
    with pytest.raises(DrawingError, match="between 0 and 1"):
        comes_and_goes.starts_needed(1.0)
