"""The ignition as a whole and the burn: laws to the last figure, batches, edges, the lowest speed's search.

These are the cases that only a slightly changed formula would show.
"""

from __future__ import annotations

import numpy as np
import pytest
from twostroke import _network, burn, ignition
from twostroke.errors import RangeError, UnitError
from twostroke.ignition import Ignition

EAGER = Ignition(switch_on=0.01, switch_drop=0.0)  # its module closes at the slowest turning


# --- speeds and batches


@pytest.mark.parametrize("rpm", [0.0, -5.0, np.inf, np.nan, [800.0, 0.0], [800.0, np.inf]])
def test_is_a_speed_that_is_none_refused(rpm):
    with pytest.raises(RangeError, match="above zero rpm"):
        ignition.available(Ignition(), rpm)
    assert not ignition.available(Ignition(), 0.5).conducts.any()


def test_are_rows_of_speeds_one_row_an_engine():
    both = Ignition.stack([Ignition(), Ignition(gap_1=0.8e-3)])
    rows = ignition.available(both, [[500.0, 900.0, 1200.0], [700.0, 400.0, 1000.0]])
    assert rows.voltage.shape == rows.conducts.shape == (2, 3)
    for engine, rpm in ((0, [500.0, 900.0, 1200.0]), (1, [700.0, 400.0, 1000.0])):
        alone = ignition.available(both, rpm)
        assert rows.voltage[engine] == pytest.approx(alone.voltage[engine], rel=1e-6)
        assert rows.spark_btdc[engine] == pytest.approx(alone.spark_btdc[engine], rel=1e-6)


def test_is_a_large_batch_what_its_parts_are():
    """More engines and speeds than are worked through together."""
    rpm = np.linspace(300.0, 2500.0, 400)
    three = Ignition.stack([Ignition(gap_1=gap, gap_2=gap) for gap in (0.2e-3, 0.5e-3, 0.9e-3)])
    many = ignition.available(three, rpm)
    alone = ignition.available(Ignition(gap_1=0.5e-3, gap_2=0.5e-3), rpm)
    assert many.voltage.shape == (3, 400)
    assert alone.voltage.shape == (1, 400)
    for name in ("voltage", "energy", "current", "time", "spark_btdc"):
        assert getattr(many, name)[1] == pytest.approx(getattr(alone, name)[0], rel=1e-5), name
    gaps = np.full(400, 0.5e-3)
    column = ignition.available(Ignition(gap_1=gaps, gap_2=gaps, run_out=np.linspace(0, 0.2e-3, 400)), 800.0)
    for engine in (0, 150, 399):
        one = Ignition(gap_1=0.5e-3, gap_2=0.5e-3, run_out=0.2e-3 * engine / 399)
        assert column.voltage[engine, 0] == pytest.approx(
            ignition.available(one, 800.0).voltage[0, 0], rel=1e-6
        )


def test_do_sparks_of_a_large_batch_agree_with_those_of_one():
    rpm = np.linspace(500.0, 1500.0, 390)  # more than go together, twice
    two = Ignition.stack([Ignition(), Ignition(gap_1=0.6e-3)])
    many = burn.spark(two, rpm, 7e3)
    assert many.fires.shape == (2, 390)
    for place in (0, 200, 389):
        one = burn.spark(Ignition(gap_1=0.6e-3), rpm[place], 7e3)
        for name in ("fires", "duration", "energy", "peak"):
            assert getattr(many, name)[1, place] == pytest.approx(getattr(one, name)[0, 0], rel=1e-4), name


# --- what one opening is made of


PARTS = {
    "secondary_inductance_factor": 0.8, "inductance_factor": 1.3, "lead_resistance": 1e4, "clamp": 300.0,
    "series_gap": 2e3, "plug_shunt": 1e6, "stop_path": 400.0, "coupling": 0.95,
}  # fmt: skip


@pytest.mark.parametrize("part", [0.0, 4e-5, 0.01])
def test_are_the_elements_of_the_circuit_turns_squared_times_permeance(part):
    """L = n^2 P (definition); the smallest short is half a turn."""
    e = ignition.effective(Ignition(**PARTS, shorted_fraction=part).columns())
    permeance = np.array([3.1e-8])
    found = ignition._circuit(e, permeance)
    turns = 12800 * part
    wanted = {
        "l1": 160.0**2 * 3.1e-8, "l2": (12800 - turns) ** 2 * 3.1e-8 * 0.8, "k": 0.95, "r_lead": 1e4,
        "clamp": 300.0, "r_stop": 400.0, "r_shunt": 1e6, "gap_breakdown": 2e3, "c1": 1e-9, "c2a": 35e-12,
        "c2b": 15e-12, "r_loss": 1e6, "l3": turns**2 * 3.1e-8 if part else 1.0,
    }  # fmt: skip
    for name, value in wanted.items():
        assert getattr(found, name)[0] == pytest.approx(value, rel=1e-9), name
    shut = ignition.effective(Ignition(stop_path=0.0).columns())
    assert 0 < ignition._circuit(shut, permeance).r_stop[0] < 0.01


@pytest.mark.parametrize(
    "change", [{}, {"inductance_factor": 0.6}, {"shorted_primary_fraction": 0.02}], ids=str
)
def test_is_the_energy_that_of_the_inductance_at_opening(change):
    """Half L i^2, where L is n^2 times the permeance at that moment (definition)."""
    system = Ignition(**change)
    opened, flat, _ = ignition.transient(system, [800.0])
    out = ignition.available(system, 800.0)
    inductance = flat["n1"][0] ** 2 * opened.permeance[0]
    assert out.energy[0, 0] == pytest.approx(0.5 * inductance * out.current[0, 0] ** 2, rel=1e-9)
    at = opened.position[0]
    here = _network.solve({n: flat[n] for n in ignition.CORE_FIELDS}, at, flat["gap_1"], flat["gap_2"])[1]
    assert opened.permeance[0] == pytest.approx(float(here[0]) * flat["inductance_factor"][0], rel=2e-3)


def test_does_a_sheared_key_shift_the_spark_by_its_own_angle():
    straight, sheared = (ignition.available(Ignition(key_offset=angle), 800.0) for angle in (0.0, 0.12))
    assert straight.spark_btdc - sheared.spark_btdc == pytest.approx(0.12, rel=1e-9)
    moved = ignition.available(Ignition(aligned_btdc=0.42), 800.0).spark_btdc
    assert moved - straight.spark_btdc == pytest.approx(0.12, rel=1e-9)
    opened, _, _ = ignition.transient(Ignition(), [800.0])
    assert straight.spark_btdc[0, 0] == pytest.approx(0.30 - opened.position[0] / 42e-3, rel=1e-9)


def test_is_the_voltage_cut_off_where_it_flashes_over():
    free, cut = (
        ignition.available(Ignition(flashover=volts), 800.0).voltage[0, 0] for volts in (np.inf, 6e3)
    )
    assert free > 8e3
    assert cut == 6e3


@pytest.mark.parametrize("reversed_module", [False, True])
def test_does_the_driving_voltage_die_away_where_the_flux_peaks(reversed_module):
    """A quarter of a cosine from the opening to where the flux rises no more, or, reversed, little more."""
    system = Ignition(reversed_module=reversed_module)
    opened, flat, out = ignition.transient(system, [800.0], record=True, horizon=4e-3)
    core = {name: flat[name] for name in ignition.CORE_FIELDS}

    def slope(x):
        low, high = _network.solve(core, x + np.array([-1e-6, 1e-6]), flat["gap_1"], flat["gap_2"])[0]
        return (low - high if reversed_module else high - low) / 2e-6

    stated = ignition.REVERSED_PEAK * 24e-3 if reversed_module else 0.0
    assert -1e-6 < slope(stated) / slope(opened.position[0]) < (0.5 if reversed_module else 1e-6)
    speed = 800.0 * 2 * np.pi / 60 * 42e-3
    time = np.concatenate([t for _, t, _ in out.trace])
    share = np.concatenate([state[-2] for _, _, state in out.trace])
    at_peak = (stated - opened.position[0]) / speed
    assert 0 < at_peak < 4e-3
    assert share[0] == pytest.approx(1.0)
    assert np.interp(at_peak / 3, time, share) == pytest.approx(np.cos(np.pi / 6), abs=2e-3)
    assert np.interp(at_peak, time, share) == pytest.approx(0.0, abs=2e-3)


@pytest.mark.parametrize(("reversed_module", "pitches"), [(False, 0.05), (True, 0.35)])
def test_does_the_driving_voltage_last_a_while_where_the_opening_comes_late(reversed_module, pitches):
    """Without resistance the current peaks where the flux does or past it: lengths chosen, see the module."""
    eager = {"primary_resistance": 1e-3, "switch_drop": 0.0, "trip_current": 100.0}
    system = Ignition(reversed_module=reversed_module, **eager)
    _, _, out = ignition.transient(system, [800.0], record=True, horizon=4e-3)
    time = np.concatenate([t for _, t, _ in out.trace])
    share = np.concatenate([state[-2] for _, _, state in out.trace])
    gone = pitches * 24e-3 / (800.0 * 2 * np.pi / 60 * 42e-3)
    assert np.interp(gone / 3, time, share) == pytest.approx(np.cos(np.pi / 6), abs=2e-3)
    assert np.interp(gone, time, share) == pytest.approx(0.0, abs=2e-3)


@pytest.mark.parametrize(("reversed_module", "edges"), [(False, (-15e-3, -9e-3)), (True, (9e-3, 15e-3))])
def test_are_positions_closest_where_the_edges_of_shoe_and_leg_meet(reversed_module, edges):
    """Half of 10 and 8 mm from a leg, and a pitch of 24 mm from that (geometry): there the flux bends."""
    opened, _, _ = ignition.transient(Ignition(reversed_module=reversed_module), [800.0], record=True)
    place = opened.nodes[:, 0]

    def step_at(x):
        return np.diff(place)[np.abs(0.5 * (place[1:] + place[:-1]) - x).argmin()]

    elsewhere = min(step_at(x) for x in (edges[0] - 4e-3, sum(edges) / 2, edges[1] + 6e-3))
    assert max(step_at(edge) for edge in edges) < 0.4 * elsewhere


# --- the lowest speed


def test_does_the_search_begin_at_sixty_rpm():
    assert ignition.minimum_speed(EAGER, 1.0).tolist() == [60.0]
    assert ignition.minimum_speed(EAGER, 0.5).tolist() == [60.0]
    below, just = ignition.available(EAGER, [60.0, 70.0]).voltage[0]
    assert below < just
    assert ignition.minimum_speed(EAGER, just)[0] == pytest.approx(70.0, rel=1e-9)


@pytest.mark.parametrize("rpm", [250.0, 333.0, 480.0, 700.0])
def test_does_the_search_come_home(rpm):
    batch = Ignition.stack([Ignition(), Ignition(gap_1=0.7e-3, gap_2=0.5e-3), Ignition(plug_shunt=1e6)])
    volts = ignition.available(batch, rpm).voltage[:, 0]
    hard = np.append(volts[:2], 90e3)
    assert ignition.minimum_speed(batch, volts) == pytest.approx(rpm, rel=1e-9)
    found = ignition.minimum_speed(batch, hard)
    assert found[:2] == pytest.approx(rpm, rel=1e-9)
    assert np.isinf(found[2])


def test_does_the_search_end_where_it_is_told():
    demand = ignition.available(Ignition(), 700.0).voltage[0, 0]
    assert np.isinf(ignition.minimum_speed(Ignition(), demand, highest=690.0)[0])
    assert ignition.minimum_speed(Ignition(), demand, highest=710.0)[0] == pytest.approx(700.0, rel=1e-9)


def test_is_a_demand_just_met_where_it_flashes_over_met():
    plain, cut = (ignition.minimum_speed(Ignition(flashover=limit), 8e3)[0] for limit in (np.inf, 8e3))
    assert plain * (1 - 1e-3) <= cut < 1.26 * plain
    assert np.isinf(ignition.minimum_speed(Ignition(flashover=7999.0), 8e3)[0])


@pytest.mark.parametrize("demand", [0.0, -1.0, np.nan])
def test_is_a_demand_of_nothing_refused(demand):
    with pytest.raises(RangeError, match="demand must be above 0 V"):
        ignition.minimum_speed(Ignition(), demand)


# --- the burn


def test_is_the_voltage_of_the_burn_fall_and_column():
    """280 V + 100 V/mm times the root of the density over that of 1 bar at 20 degC, by hand (from memory)."""
    for gap, pressure, kelvin, volts in (
        (0.6e-3, 1e5, 293.15, 340.0), (1.0e-3, 4e5, 293.15, 480.0), (0.5e-3, 9e5, 4 * 293.15, 355.0),
        (0.0, 1e5, 300.0, 280.0),
    ):  # fmt: skip
        assert float(burn.burn_voltage(gap, pressure, kelvin)) == pytest.approx(volts, rel=1e-12)


@pytest.mark.parametrize(("demand", "volts"), [(0.0, 400.0), (8e3, 0.0), (-1.0, 400.0), (8e3, np.nan)])
def test_is_a_gap_that_needs_nothing_refused(demand, volts):
    for call in (burn.spark, burn.waveform):
        with pytest.raises(RangeError, match="must be above 0 V"):
            call(Ignition(), 800.0, demand, volts)
    assert burn.spark(Ignition(), 800.0, 0.5, 0.5).fires.all()


@pytest.mark.parametrize(
    ("change", "demand"),
    [
        ({}, 9e3),
        ({"plug_shunt": 2e5}, 4e3),
        ({"lead_resistance": 0.0}, 9e3),
        ({"secondary_inductance_factor": 0.7}, 8e3),
        ({"winding_capacitance": 60e-12, "lead_resistance": 2e4}, 7e3),
    ],
    ids=str,
)
def test_do_trace_and_spark_tell_of_the_same_burn(change, demand):
    system = Ignition(**change)
    seen = burn.waveform(system, 900.0, demand=demand, volts=420.0, horizon=6e-3)
    told = burn.spark(system, 900.0, demand, 420.0)
    assert told.fires.all()
    assert told.peak[0, 0] == demand
    assert told.duration[0, 0] == pytest.approx(seen.burn_end - seen.breakdown, rel=1e-3)
    lit = seen.alight & (seen.time > seen.breakdown)
    assert not seen.alight[seen.time < seen.breakdown].any()
    assert seen.time[lit][-1] == pytest.approx(seen.burn_end, abs=1e-9)
    assert not seen.gap_current[~seen.alight].any()
    last = seen.gap_current[lit][-1]
    assert last == pytest.approx(3e-3, rel=5e-3)  # A, where the demo's spark goes out
    gone = 0.5 * 15e-12 * (demand**2 - 420.0**2)
    later = lit & (seen.time > seen.breakdown + 2e-6)  # before that, the winding's end empties itself
    charge = np.trapezoid(seen.gap_current[later], seen.time[later])
    charge += system.winding_capacitance * (demand - seen.winding_voltage[later][0])
    assert told.energy[0, 0] == pytest.approx(charge * 420.0 + gone, rel=0.02)
    # What comes out of the winding goes into its loss, the shunt and the gap, once the first surge is over.
    steady = (
        lit & (seen.time > seen.breakdown + 0.3 * told.duration[0, 0]) & (seen.time < seen.burn_end - 5e-6)
    )
    lost = seen.winding_voltage[steady] / 1e6 + 420.0 / float(system.plug_shunt)
    assert np.median(seen.secondary_current[steady] - lost) == pytest.approx(
        np.median(seen.gap_current[steady]), rel=0.02
    )


def test_does_the_trace_begin_with_the_dwell():
    opened, _, _ = ignition.transient(Ignition(), [800.0], record=True)
    seen = burn.waveform(Ignition(), 800.0)
    assert seen.dwell_time[-1] == 0
    assert np.all(np.diff(seen.dwell_time) > 0)
    assert len(seen.dwell_time) > 30
    speed = 800.0 * 2 * np.pi / 60 * 42e-3
    assert seen.dwell_time[0] == pytest.approx((opened.nodes[0, 0] - opened.position[0]) / speed, rel=1e-9)
    assert seen.dwell_current[-1] == pytest.approx(opened.i1[0], rel=1e-9)
    assert seen.dwell_current.max() <= opened.i1[0] * (1 + 1e-3)
    assert seen.primary_current[0] == pytest.approx(opened.i1[0], rel=1e-9)
    at = np.array([-1e-6, 0.0, 5e-6])
    assert seen.sampled(at)[0] == 0
    assert seen.sampled(at)[2] == pytest.approx(np.interp(5e-6, seen.time, seen.plug_voltage))


def test_does_the_trace_reach_what_is_available_and_no_further_than_the_clamp():
    for change in ({"clamp": 250.0}, {"plug_capacitance": 0.0}, {"winding_capacitance": 60e-12}):
        system = Ignition(**change)
        seen = burn.waveform(system, 900.0)
        limit = float(np.asarray(system.clamp))
        assert seen.plug_voltage.max() == pytest.approx(
            ignition.available(system, 900.0).voltage[0, 0], rel=3e-3
        )
        assert seen.primary_voltage.max() == pytest.approx(limit, rel=1e-6) or not seen.clamped.any()
        if change.get("clamp"):
            assert seen.clamped.any()
            assert seen.primary_voltage[seen.clamped] == pytest.approx(limit, rel=1e-6)
            assert seen.primary_voltage[~seen.clamped].min() < 0.5 * limit
            assert not seen.clamped[0]


def test_is_a_trace_that_cannot_be_refused():
    with pytest.raises(UnitError, match="is not an Ignition"):
        burn.waveform("system", 800.0)
    with pytest.raises(UnitError, match="is not an Ignition"):
        burn.spark("system", 800.0, 8e3)
    with pytest.raises(RangeError, match="2 systems"):
        burn.waveform(Ignition.stack([Ignition(), Ignition()]), 800.0)
    for horizon in (0.0, -0.5, 20.1e-3):
        with pytest.raises(RangeError, match="horizon"):
            burn.waveform(Ignition(), 800.0, horizon=horizon)
    assert burn.waveform(Ignition(), 800.0, horizon=20e-3).time[-1] >= 19.9e-3
    with pytest.raises(RangeError, match="never switches"):
        burn.waveform(Ignition(), 20.0)


def test_does_a_spark_at_the_very_flashover_still_jump_at_the_plug():
    assert burn.spark(Ignition(flashover=8e3), 800.0, 8e3).fires.all()
    assert not burn.spark(Ignition(flashover=7.99e3), 800.0, 8e3).fires.any()
    each = burn.spark(Ignition.stack([Ignition(), Ignition()]), [700.0, 900.0], [[3e3, 6e3], [20e3, 5e3]])
    assert each.fires.tolist() == [[True, True], [False, True]]
    assert each.energy[1, 0] == each.duration[1, 0] == 0
    assert each.peak[[0, 0, 1], [0, 1, 1]].tolist() == [3e3, 6e3, 5e3]
    rows = burn.spark(
        Ignition.stack([Ignition(), Ignition(gap_1=0.5e-3)]), [[700.0, 900.0], [800.0, 600.0]], 5e3
    )
    swapped = burn.spark(Ignition(gap_1=0.5e-3), [600.0, 800.0], 5e3)
    assert rows.duration[1] == pytest.approx(swapped.duration[0, ::-1], rel=1e-4)
