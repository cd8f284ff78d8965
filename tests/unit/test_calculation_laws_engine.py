"""Laws of compression, breakdown and fuel: round trips, order, limits, dimensions."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from twostroke import (
    RangeError,
    TwoStrokeError,
    UnitError,
    breakdown,
    compression,
    fuel,
    gap,
    geometry,
    resistance,
    units,
)

quick = settings(max_examples=60, deadline=None)


def from_zero(highest):
    """Zero, or a size that a shop could mean."""
    return st.just(0.0) | st.floats(1e-6, highest)


def engine(bore=40.0, stroke=30.0, rod=55.0, ratio=9.0, closing=105.0):
    return compression.Cylinder(f"{bore!r} mm", f"{stroke!r} mm", f"{rod!r} mm", ratio, f"{closing!r} deg")


# --- compression


pump = st.tuples(st.floats(1.0, 1.4), st.floats(0.5, 15), st.floats(100, 1500), st.floats(0.01, 2))


@settings(max_examples=30, deadline=None)
@given(pump)
def test_does_the_gauge_rise_with_each_pull_and_a_leak_never_raise_it(numbers):
    n, volume, speed, leak = numbers
    settings_ = {"pulls": 5, "gauge_volume": f"{volume!r} mL", "polytropic": n}
    tight = compression.gauge_readings(engine(), speed=f"{speed!r} rpm", **settings_).to("bar").magnitude
    leaky = compression.gauge_readings(
        engine(), speed=f"{speed!r} rpm", leak_area=f"{leak!r} mm^2", **settings_
    )
    faster = compression.gauge_readings(
        engine(), speed=f"{2 * speed!r} rpm", leak_area=f"{leak!r} mm^2", **settings_
    )
    leaky, faster = leaky.to("bar").magnitude, faster.to("bar").magnitude
    limit = 1.01325 * (engine().trapped_ratio ** n - 1)
    for readings in (tight, leaky, faster):
        assert all(later >= earlier - 1e-9 for earlier, later in itertools.pairwise(readings))
        assert readings[-1] <= limit * (1 + 1e-9)
    assert all(leaky <= tight + 1e-9)
    assert all(leaky <= faster + 1e-6)
    assert all(leaky >= -1e-12)


@settings(max_examples=30, deadline=None)
@given(st.floats(1.0, 1.4), st.floats(0.5, 20), st.integers(1, 6))
def test_does_a_tight_cylinder_obey_the_balance_of_contents(n, volume, pulls):
    """Closed form: p^(1/n) Vc p0^(1-1/n) + p Vg = p0 Vt + p_before Vg, pull by pull."""
    e = engine()
    clearance, trapped = e.clearance_volume.to("mL").magnitude, e.trapped_volume.to("mL").magnitude
    readings = compression.gauge_readings(e, pulls, "800 rpm", f"{volume!r} mL", polytropic=n)
    before = p0 = 1.01325
    for after in readings.to("bar").magnitude + p0:
        left = after ** (1 / n) * p0 ** (1 - 1 / n) * clearance + after * volume
        assert left == pytest.approx(p0 * trapped + before * volume, rel=1e-8)
        before = after


@settings(max_examples=30, deadline=None)
@given(from_zero(4000), from_zero(1))
def test_does_altitude_multiply_every_reading_of_a_tight_engine(metres, n_more):
    height = f"{metres!r} m"
    sea = compression.gauge_readings(engine(), 3, "800 rpm", "6 mL", polytropic=1 + n_more / 2)
    up = compression.gauge_readings(
        engine(), 3, "800 rpm", "6 mL", polytropic=1 + n_more / 2, altitude=height
    )
    share = (compression.standard_atmosphere(height).pressure / units.read("1 atm")).to("").magnitude
    assert up.to("bar").magnitude == pytest.approx(sea.to("bar").magnitude * share, rel=1e-8)
    assert compression.reading_at_altitude(sea[2], height).to("bar").magnitude == pytest.approx(
        up[2].to("bar").magnitude, rel=1e-8
    )


@quick
@given(from_zero(105), st.floats(1, 1.5))
def test_does_the_charge_end_where_a_gauge_without_volume_reads(angle, n):
    e = engine()
    top = compression.charge_at(e, "0 deg", n)
    here = compression.charge_at(e, f"{angle!r} deg", n)
    assert here.pressure_absolute <= top.pressure_absolute * (1 + 1e-12)
    gauge = compression.gauge_readings(e, 1, "800 rpm", "0 mL", polytropic=n)[0]
    assert compression.absolute_pressure(gauge).magnitude == pytest.approx(top.pressure_absolute.magnitude)


def test_is_there_no_charge_while_the_port_is_open():
    with pytest.raises(RangeError, match="at most 105 deg"):
        compression.charge_at(engine(), "106 deg")


def test_does_the_standard_atmosphere_agree_with_a_second_library():
    import ambiance

    for metres in (-300, 0, 500, 1500, 4000, 9000, 15_000, 25_000, 60_000):
        ours, theirs = compression.standard_atmosphere(f"{metres} m"), ambiance.Atmosphere(metres)
        assert ours.pressure.to("Pa").magnitude == pytest.approx(theirs.pressure[0], rel=2e-5)
        assert ours.temperature.to("K").magnitude == pytest.approx(theirs.temperature[0], rel=2e-5)


@quick
@given(st.floats(0.01, 10), from_zero(20), st.floats(0.001, 5))
def test_does_leak_down_grow_with_the_leak_and_with_the_supply(bar, ratio, more):
    first = compression.leak_down(f"{bar!r} bar", ratio)
    assert 0 <= first <= 100
    assert compression.leak_down(f"{bar!r} bar", ratio + more) >= first
    assert compression.leak_down(f"{bar!r} bar", 0) == pytest.approx(0, abs=1e-9)


@quick
@given(st.floats(0.001, 0.05), st.floats(0.05, 20))
def test_does_leak_down_at_low_pressure_follow_the_incompressible_law(bar, ratio):
    """Two orifices in series, incompressible: share lost = k^2/(1 + k^2)."""
    assert compression.leak_down(f"{bar!r} bar", ratio) == pytest.approx(
        100 * ratio**2 / (1 + ratio**2), rel=0.06, abs=0.05
    )


@quick
@given(st.floats(1, 500), st.floats(0.1, 1), from_zero(0.1), st.floats(1, 600))
def test_is_the_leak_proportional_to_volume_and_fall(volume, start, end, seconds):
    flow = compression.leak_rate(f"{volume!r} mL", f"{start!r} bar", f"{end!r} bar", f"{seconds!r} s")
    double = compression.leak_rate(f"{2 * volume!r} mL", f"{start!r} bar", f"{end!r} bar", f"{seconds!r} s")
    assert double.to("mL/min").magnitude == pytest.approx(2 * flow.to("mL/min").magnitude)
    vacuum = compression.leak_rate(f"{volume!r} mL", f"-{start!r} bar", f"-{end!r} bar", f"{seconds!r} s")
    assert vacuum.magnitude == pytest.approx(flow.magnitude)


@pytest.mark.parametrize(
    ("call", "hint"),
    [
        (lambda: compression.leak_rate("200 mL", "0.5 bar", "0.7 bar", "60 s"), "nearer to 0"),
        (lambda: compression.leak_rate("200 mL", "0.5 bar", "-0.1 bar", "60 s"), "nearer to 0"),
        (lambda: compression.leak_rate("200 mL", "-1.2 bar", "-1 bar", "60 s"), "at least"),
        (
            lambda: compression.leak_rate("200 mL", "0.7 bar(a)", "0.5 bar", "60 s"),
            "gauge pressure is wanted",
        ),
        (lambda: compression.leak_rate("0 mL", "0.7 bar", "0.5 bar", "60 s"), "more than 0"),
        (lambda: compression.leak_down("0 psi", 1), "more than 0"),
        (lambda: compression.leak_down("100 psi", -1), "at least 0"),
        (lambda: compression.leak_down("100 psi", "0.2 mm"), "plain number"),
        (lambda: compression.standard_atmosphere("90 km"), "at most"),
        (lambda: compression.absolute_pressure("-2 bar"), "vacuum"),
        (lambda: compression.gauge_pressure("-1 bar"), "at least 0"),
        (lambda: compression.gauge_readings("engine", 3, "800 rpm", "6 mL"), "is not a Cylinder"),
        (lambda: compression.gauge_readings(engine(), 0, "800 rpm", "6 mL"), "at least 1"),
        (lambda: compression.gauge_readings(engine(), 2.5, "800 rpm", "6 mL"), "whole"),
        (lambda: compression.gauge_readings(engine(), 3, "0 rpm", "6 mL"), "more than 0"),
        (lambda: compression.gauge_readings(engine(), 3, "800", "6 mL"), "unit is missing"),
        (lambda: compression.gauge_readings(engine(), 3, "800 rpm", "-6 mL"), "at least 0"),
        (lambda: compression.gauge_readings(engine(), 3, "800 rpm", "6 mL", polytropic=0.5), "at least 1"),
        (lambda: compression.gauge_readings(engine(), 3, "800 rpm", "6 mL", leak_area="1 mm"), "an area"),
    ],
)
def test_does_a_bad_compression_value_get_one_clear_error(call, hint):
    with pytest.raises(TwoStrokeError, match=hint):
        call()


# --- breakdown


@quick
@given(
    st.floats(0.05, 1.4), st.floats(0.5, 10), st.floats(250, 600), st.floats(0.05, 1), st.floats(1.01, 1.5)
)
def test_does_more_gap_or_density_never_need_less_and_an_edge_never_more(mm, bar, kelvin, radius, more):
    def at(gap_mm=mm, pressure=bar, temperature=kelvin, edge=None):
        return breakdown.voltage(f"{gap_mm!r} mm", f"{pressure!r} bar", f"{temperature!r} K", edge).magnitude

    assert at(gap_mm=mm * more) >= at()
    assert at(pressure=bar * more) >= at()
    assert at(temperature=kelvin * more) <= at()
    density = bar * 293.15 / kelvin
    assume(density < 11.9)
    assert at(edge=f"{radius!r} mm") <= at() * (1 + 1e-12)
    assert at(edge=f"{radius!r} mm") <= at(edge=f"{radius * more!r} mm") * (1 + 1e-12)
    assert at(edge=f"{radius!r} mm") >= 0.327 - 1e-12


@quick
@given(from_zero(40.9), st.floats(1.0001, 1.2))
def test_does_a_needle_gap_lead_back_to_its_voltage(mm, more):
    assume(mm * more <= 41)
    volts = breakdown.needle_gap_voltage(f"{mm!r} mm")
    assert breakdown.needle_gap_for(volts).to("mm").magnitude == pytest.approx(mm, abs=1e-9)
    assert breakdown.needle_gap_voltage(f"{mm * more!r} mm") >= volts


def test_is_no_gap_ever_below_the_lowest_breakdown_voltage():
    assert breakdown.voltage("1 um", "1 kPa", "20 degC").to("V").magnitude == pytest.approx(327)


@pytest.mark.parametrize(
    ("call", "hint"),
    [
        (lambda: breakdown.voltage("-0.6 mm", "1 bar", "20 degC"), "more than 0"),
        (lambda: breakdown.voltage("0.6 mm", "0 bar", "20 degC"), "more than 0"),
        (lambda: breakdown.voltage("0.6 mm", "1 bar(g)", "20 degC"), "absolute pressure is wanted"),
        (lambda: breakdown.voltage("0.6 mm", "1 bar", "-300 degC"), "absolute zero"),
        (lambda: breakdown.voltage("0.6 mm", "1 bar", "20"), "unit is missing"),
        (lambda: breakdown.voltage("0.6 mm", "1 bar", "20 degC", "0.01 mm"), "at least"),
        (lambda: breakdown.voltage("1.6 mm", "1 bar", "20 degC", "0.1 mm"), "leave edge_radius out"),
        (lambda: breakdown.voltage("1.0 mm", "13 bar", "20 degC", "0.1 mm"), "as dense as 13 bar"),
        (lambda: breakdown.voltage("1.0 mm", "26 bar", "586.3 K", "0.1 mm"), "leave edge_radius out"),
        (lambda: breakdown.needle_gap_voltage("42 mm"), "at most"),
        (lambda: breakdown.needle_gap_for("50 kV"), "at most"),
        (lambda: breakdown.townsend_voltage("1 um", "1 bar"), "too little air"),
    ],
)
def test_does_a_bad_spark_gap_get_one_clear_error(call, hint):
    with pytest.raises(TwoStrokeError, match=hint):
        call()


# --- fuel


@quick
@given(st.floats(0.05, 50), st.floats(1, 200))
def test_does_the_oil_lead_back_to_the_ratio(litres, parts):
    oil = fuel.oil_for(f"{litres!r} L", f"{parts!r}:1")
    assert float(fuel.mixture(oil, f"{litres!r} L")) == pytest.approx(parts, rel=1e-9)
    assert fuel.oil_share_of_mix(parts) < fuel.oil_share_of_fuel(parts)
    assert fuel.oil_share_of_fuel(parts) == pytest.approx(1 / parts)


def test_is_a_ratio_a_number_and_reads_as_people_write_it():
    found = fuel.mixture("100 mL", "5 L")
    assert found == 50
    assert found == "50:1"
    assert found != "40:1"
    assert f"{found}" == str(found) == repr(found) == "50:1"
    assert hash(found) == hash(50.0)
    assert fuel.oil_for("5 L", found).to("mL").magnitude == pytest.approx(100)
    assert units.read_ratio(str(found)) == 50


@pytest.mark.parametrize(
    ("call", "hint"),
    [
        (lambda: fuel.oil_for("5 L", "1:50"), "turned round"),
        (lambda: fuel.oil_for("5 L", "50 %"), "not a ratio"),
        (lambda: fuel.oil_for("5 gal", "50:1"), "US gal or imp gal"),
        (lambda: fuel.oil_for("-5 L", "50:1"), "at least 0"),
        (lambda: fuel.mixture("5 L", "100 mL"), "more than fuel"),
        (lambda: fuel.mixture("0 mL", "5 L"), "more than 0"),
        (lambda: fuel.vapour_pressure("20 degC", "petrol"), "use one of"),
        (lambda: fuel.vapour_pressure("120 degC"), "at most"),
    ],
)
def test_does_a_bad_mixture_get_one_clear_error(call, hint):
    with pytest.raises(TwoStrokeError, match=hint):
        call()


@quick
@given(st.floats(-40, 79), st.floats(0.01, 1))
def test_does_vapour_pressure_rise_and_the_lighter_part_boil_first(celsius, more):
    def at(substance, extra=0.0):
        return fuel.vapour_pressure(f"{celsius + extra!r} degC", substance).magnitude

    assert at("n-pentane") > at("n-hexane") > at("n-heptane")
    assert at("n-hexane", more) > at("n-hexane")


@pytest.mark.parametrize(
    ("parameter", "call"),
    [
        ("gap", lambda x: gap.two_legs(x, "0.3 mm")),
        ("angle", lambda x: geometry.port_duration(x)),
        ("ohms", lambda x: resistance.at_temperature(x, "20 degC", "20 degC")),
        ("volume", lambda x: fuel.oil_for(x, "50:1")),
        ("altitude", lambda x: compression.standard_atmosphere(x)),
        ("pressure", lambda x: breakdown.voltage("0.6 mm", x, "20 degC")),
        ("temperature", lambda x: breakdown.voltage("0.6 mm", "1 bar", x)),
    ],
)
def test_is_the_wrong_dimension_named_with_the_right_one(parameter, call):
    for wrong in ("5 A", units.read("5 A"), "5 kg"):
        with pytest.raises(UnitError, match="is not a"):
            call(wrong)
    with pytest.raises(UnitError, match="has no unit"):
        call(5)
