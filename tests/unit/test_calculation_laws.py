"""Laws that the calculations must obey whatever the numbers: round trips, order, limits, dimensions."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import norm
from twostroke import (
    RangeError,
    TwoStrokeError,
    compression,
    gap,
    geometry,
    resistance,
    verdict,
)

quick = settings(max_examples=60, deadline=None)


def from_zero(highest):
    """Zero, or a size that a shop could mean."""
    return st.just(0.0) | st.floats(1e-6, highest)


hundredths = st.integers(3, 120).map(lambda n: n / 100)


def engine(bore=40.0, stroke=30.0, rod=55.0, ratio=9.0, closing=105.0):
    return compression.Cylinder(f"{bore!r} mm", f"{stroke!r} mm", f"{rod!r} mm", ratio, f"{closing!r} deg")


# --- gap


@quick
@given(st.lists(hundredths, min_size=1, max_size=8), from_zero(0.02))
def test_does_a_stack_add_up_and_is_rss_never_above_the_worst_case(leaves, u):
    stack = gap.shim_stack([f"{leaf} mm" for leaf in leaves], f"{u!r} mm")
    assert stack.total.to("mm").magnitude == pytest.approx(sum(leaves))
    assert stack.rss <= stack.worst_case * (1 + 1e-12)
    assert len(stack.leaves) == len(leaves)


@quick
@given(
    st.lists(st.integers(3, 60), min_size=1, max_size=9), st.integers(5, 90), st.integers(0, 20), st.randoms()
)
def test_is_the_chosen_stack_the_best_of_all_that_exist(leaves, low, width, shuffler):
    """Every subset tried by brute force: nearest to the middle, then fewest leaves, then thinner."""
    high = low + width
    options = [
        (abs(2 * sum(chosen) - low - high), len(chosen), sum(chosen))
        for size in range(1, len(leaves) + 1)
        for chosen in itertools.combinations(leaves, size)
        if low <= sum(chosen) <= high
    ]
    shuffler.shuffle(leaves)
    available = [f"{leaf / 100!r} mm" for leaf in leaves]
    if not options:
        with pytest.raises(RangeError, match="no stack"):
            gap.choose_shims(available, f"{low / 100} mm", f"{high / 100} mm")
        return
    found = gap.choose_shims(available, f"{low / 100} mm", f"{high / 100} mm")
    best = min(options)
    assert len(found.leaves) == best[1]
    assert found.total.to("mm").magnitude == pytest.approx(best[2] / 100, rel=1e-9)


def test_does_a_full_feeler_set_of_mixed_units_give_its_stack_quickly():
    leaves = [f"{n} thou" for n in range(2, 26)] + [f"{n / 100} mm" for n in range(5, 50, 5)]
    found = gap.choose_shims(leaves, "0.29 mm", "0.31 mm")
    assert found.total.to("mm").magnitude == pytest.approx(0.30, abs=1e-9)
    assert len(found.leaves) == 1


@pytest.mark.parametrize(
    ("call", "hint"),
    [
        (lambda: gap.shim_stack([]), "no shim"),
        (lambda: gap.choose_shims([], "0.2 mm", "0.4 mm"), "empty"),
        (lambda: gap.choose_shims(["0.1 mm"], "0.4 mm", "0.2 mm"), "change them over"),
        (lambda: gap.choose_shims(["0.1 mm"] * 61, "0.2 mm", "0.4 mm"), "too large"),
        (lambda: gap.shim_stack(["-0.1 mm"]), "more than 0"),
        (lambda: gap.shim_stack(["0.1 mm"], ["0.01 mm", "0.01 mm"]), "one for each"),
        (lambda: gap.shim_stack(["0.1"]), "unit is missing"),
        (lambda: gap.shim_stack("0.1 mm"), "give a list"),
        (lambda: gap.two_legs("-0.1 mm", "0.2 mm"), "at least 0"),
        (lambda: gap.run_out("0.2 mm", "0.5 mm"), "rub"),
        (lambda: gap.judge("-0.1 mm", "0.2 mm", "0.4 mm", "0.01 mm"), "at least 0"),
        (lambda: gap.judge("0.3 ohm", "0.2 mm", "0.4 mm", "0.01 mm"), "a length"),
        (lambda: gap.judge("0.3 mm", None, None, "0.01 mm"), "at least one limit"),
    ],
)
def test_does_a_bad_gap_get_one_clear_error(call, hint):
    with pytest.raises(TwoStrokeError, match=hint):
        call()


# --- verdict


@quick
@given(st.floats(0.01, 2), st.floats(0.1, 1), st.floats(0.01, 1), st.floats(1e-4, 0.2))
def test_is_a_verdict_in_only_when_the_chance_inside_is_95_percent(y, low, width, u):
    texts = [f"{value!r} mm" for value in (y, low, low + width, u)]
    found = gap.judge(*texts)
    inside = verdict.probability_inside(texts[0], texts[3], texts[1], texts[2])
    assert 0 <= inside <= 1
    if found == "in":
        assert inside >= 0.90  # 5 % at each limit
    if found == "out":
        assert inside <= 0.0501
    outside = norm.cdf(y, low, u) - norm.cdf(y, low + width, u)
    assert inside == pytest.approx(outside, abs=1e-9)
    exact = gap.judge(texts[0], texts[1], texts[2], "0 mm")
    assert exact == ("in" if low <= y <= low + width else "out")
    assert found in (exact, "undecided")


def test_is_a_verdict_the_same_in_every_unit_and_mirrored():
    assert gap.judge("12 thou", "0.2 mm", "0.4 mm", "1 thou") == "in"
    assert gap.judge("0.2 mm", "0.2 mm", "0.4 mm", "0 mm") == "in"
    for reading, said in (
        ("0.19 mm", "out"),
        ("0.41 mm", "out"),
        ("0.405 mm", "undecided"),
        ("0.3 mm", "in"),
    ):
        assert gap.judge(reading, "0.2 mm", "0.4 mm", "0.006 mm") == said
    assert verdict.judge("20 degC", "18 degC", "25 degC", "0.5 K") == "in"
    assert resistance.judge("5 Mohm", "1 Mohm", None, "0.1 Mohm") == "in"
    assert resistance.judge("5 Mohm", None, "1 Mohm", "0.1 Mohm") == "out"


def test_do_small_chances_in_a_far_tail_keep_their_figures():
    upper = resistance.probability_inside("100 ohm", "10 ohm", "200 ohm", "300 ohm")
    lower = resistance.probability_inside("200 ohm", "10 ohm", "0 ohm", "100 ohm")
    assert upper == pytest.approx(0.5 * math.erfc(10 / math.sqrt(2)), rel=1e-9)
    assert lower == pytest.approx(upper, rel=1e-9)
    assert resistance.probability_inside("5 ohm", "0 ohm", "5 ohm", "6 ohm") == 1.0
    assert resistance.probability_inside("5 ohm", "0 ohm", "6 ohm", None) == 0.0


@quick
@given(from_zero(1), st.integers(0, 200), st.floats(0.01, 0.99), st.floats(0.01, 0.99))
def test_do_trials_add_up(p, n, chance, confidence):
    assert verdict.chance_within(p, n) == pytest.approx(1 - (1 - p) ** n, abs=1e-12)
    needed = verdict.clean_trials(chance, confidence)
    assert verdict.chance_within(chance, needed) >= confidence - 1e-9
    assert needed == 0 or verdict.chance_within(chance, needed - 1) < confidence + 1e-9


# --- geometry


@quick
@given(st.floats(10, 60), st.floats(0.55, 4), st.just(0.0) | st.floats(1e-6, 180))
def test_does_depth_lead_back_to_the_angle(stroke, rods, angle):
    rod = f"{stroke * rods!r} mm"
    depth = geometry.piston_depth(f"{angle!r} deg", f"{stroke!r} mm", rod)
    assert 0 <= depth.to("mm").magnitude <= stroke * (1 + 1e-9)
    found = geometry.crank_angle(depth, f"{stroke!r} mm", rod).to("deg").magnitude
    assert found == pytest.approx(angle, abs=2e-5)
    mirrored = geometry.piston_depth(f"{360 - angle!r} deg", f"{stroke!r} mm", rod)
    assert mirrored.to("mm").magnitude == pytest.approx(depth.to("mm").magnitude, abs=1e-9)


@quick
@given(st.floats(0.1, 9), st.floats(6, 30))
def test_does_half_a_turn_of_offset_give_180_degrees(offset, diameter):
    whole = geometry.key_offset_angle(f"{math.pi * diameter / 2 * (1 - 1e-12)!r} mm", f"{diameter!r} mm")
    assert whole.to("deg").magnitude == pytest.approx(180)
    one = geometry.key_offset_angle(f"{offset!r} mm", f"{diameter!r} mm")
    assert one.to("rad").magnitude * diameter / 2 == pytest.approx(offset)


@pytest.mark.parametrize(
    "call",
    [
        lambda: geometry.key_offset_angle("40 mm", "18 mm"),
        lambda: geometry.port_duration("181 deg"),
        lambda: geometry.port_duration("-1 deg"),
        lambda: geometry.crank_angle("31 mm", "30 mm", "55 mm"),
        lambda: geometry.piston_depth("10 deg", "30 mm", "15 mm"),
        lambda: geometry.displacement("0 mm", "30 mm"),
        lambda: engine(closing=181.0),
        lambda: engine(closing=-1.0),
        lambda: engine(ratio=1.0),
        lambda: engine(rod=10.0),
        lambda: engine(bore=-40.0),
    ],
)
def test_is_an_impossible_engine_refused(call):
    with pytest.raises(RangeError, match=r"must be|than half|measure again"):
        call()


def test_does_a_port_that_shuts_at_either_end_give_the_whole_or_no_compression():
    assert engine(closing=180.0).trapped_ratio == pytest.approx(9)
    assert engine(closing=0.0).trapped_ratio == pytest.approx(1)
    assert (
        compression.Cylinder("40 mm", "30 mm", "55 mm", "9:1", "105 deg").trapped_ratio
        == engine().trapped_ratio
    )


# --- resistance


@quick
@given(st.floats(0.1, 1e5), st.floats(-40, 200), st.floats(-40, 200))
def test_does_a_reading_referred_there_and_back_come_home(ohms, first, second):
    there = resistance.at_temperature(f"{ohms!r} ohm", f"{first!r} degC", f"{second!r} degC")
    back = resistance.at_temperature(there, f"{second!r} degC", f"{first!r} degC")
    assert back.to("ohm").magnitude == pytest.approx(ohms, rel=1e-9)
    assert (there.to("ohm").magnitude >= ohms * (1 - 1e-9)) == (second >= first) or second == pytest.approx(
        first
    )


@quick
@given(st.integers(-3, 55))
def test_is_the_next_gauge_number_thinner_by_the_same_ratio(awg):
    ratio = resistance.wire_diameter(awg) / resistance.wire_diameter(awg + 1)
    assert ratio.to("").magnitude == pytest.approx(92 ** (1 / 39))


@quick
@given(st.floats(0.02, 2), from_zero(500), st.floats(-40, 180))
def test_does_resistance_follow_length_section_and_temperature(d, length, celsius):
    once = resistance.wire_resistance(f"{d!r} mm", f"{length!r} m", f"{celsius!r} degC").to("ohm").magnitude
    twice = (
        resistance.wire_resistance(f"{d!r} mm", f"{2 * length!r} m", f"{celsius!r} degC").to("ohm").magnitude
    )
    thick = (
        resistance.wire_resistance(f"{2 * d!r} mm", f"{length!r} m", f"{celsius!r} degC").to("ohm").magnitude
    )
    cold = resistance.wire_resistance(f"{d!r} mm", f"{length!r} m")
    assert twice == pytest.approx(2 * once, abs=1e-15)
    assert thick == pytest.approx(once / 4, abs=1e-15)
    referred = resistance.at_temperature(cold, "20 degC", f"{celsius!r} degC").to("ohm").magnitude
    assert referred == pytest.approx(once, rel=1e-9, abs=1e-15)


@quick
@given(st.floats(1, 5000), st.floats(0.001, 50), st.floats(-10, 120), st.floats(0.01, 10), from_zero(0.9))
def test_do_the_propagated_uncertainties_agree_with_numeric_derivatives(ohms, u, celsius, u_t, leads):
    """First-order law of JCGM 100 5.1.2, derivatives by central differences of the plain formula."""
    found = resistance.corrected(
        f"{ohms!r} ohm",
        f"{u!r} ohm",
        f"{celsius!r} degC",
        f"{u_t!r} K",
        "20 degC",
        f"{leads!r} ohm",
        "0.05 ohm",
    )

    def plain(r, t, l):  # noqa: E741
        return (r - l) / (1 + 0.00393 * (t - 20))

    step = 1e-4
    by = [
        (plain(ohms + step, celsius, leads) - plain(ohms - step, celsius, leads)) / (2 * step) * u,
        (plain(ohms, celsius + step, leads) - plain(ohms, celsius - step, leads)) / (2 * step) * u_t,
        (plain(ohms, celsius, leads + step) - plain(ohms, celsius, leads - step)) / (2 * step) * 0.05,
    ]
    assert found.value.to("ohm").magnitude == pytest.approx(plain(ohms, celsius, leads), rel=1e-9)
    assert found.uncertainty.to("ohm").magnitude == pytest.approx(math.hypot(*by), rel=1e-5)


@quick
@given(st.lists(st.floats(0.1, 1e6), min_size=1, max_size=5))
def test_are_paths_side_by_side_less_than_the_smallest(paths):
    found = resistance.parallel(*[f"{path!r} ohm" for path in paths]).to("ohm").magnitude
    assert found <= min(paths) * (1 + 1e-12)
    assert 1 / found == pytest.approx(sum(1 / path for path in paths))


def test_does_a_path_of_no_resistance_short_the_others():
    assert resistance.parallel("0 ohm", "5 ohm").magnitude == 0


@pytest.mark.parametrize("awg", [-4, 57, 3.5, "AWG 30", None, True, "00000", "5/0", math.nan, "30 mm"])
def test_is_what_is_no_wire_gauge_refused(awg):
    with pytest.raises(TwoStrokeError):
        resistance.wire_diameter(awg)


def test_do_several_zeros_mean_thicker_wire():
    sizes = [resistance.wire_diameter(zeros) for zeros in ("0000", "000", "00", 0, 1)]
    assert sizes == sorted(sizes, reverse=True)
    assert resistance.wire_diameter("0000") == resistance.wire_diameter(-3) == resistance.wire_diameter("4/0")
