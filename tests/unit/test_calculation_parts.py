"""The private parts of the calculations, at the ends where rounding or a slip in a constant would show."""

from __future__ import annotations

import math

import pytest
from twostroke import RangeError, _copper, _leaks, _slider_crank, resistance
from twostroke.compression import Cylinder


def test_is_the_wire_table_that_of_its_conductivity():
    """IEC 60317-0-1, nominal 0.200 mm: 0.5441 ohm/m (from memory)."""
    found = resistance.wire_resistance(
        "0.200 mm", "1 m", conductivity=f"{float(_copper.WIRE_TABLE_CONDUCTIVITY)} MS/m"
    )
    assert found.to("ohm").magnitude == pytest.approx(0.5441, rel=1e-3)


@pytest.mark.parametrize("rounding", [0.0, 1e-16, 1e-12])
def test_is_a_depth_that_rounding_put_past_a_dead_centre_at_it(rounding):
    stroke, rod = 0.03, 0.055
    assert _slider_crank.crank_angle(-rounding, stroke, rod) == pytest.approx(0.0, abs=1e-5)
    assert _slider_crank.crank_angle(stroke + rounding, stroke, rod) == pytest.approx(math.pi, abs=1e-5)


@pytest.mark.parametrize("ratio", [1.0, 1 + 1e-12, 1.5])
def test_does_nothing_flow_through_a_nozzle_against_the_pressure(ratio):
    assert _leaks._nozzle(ratio) == 0


def test_is_a_reading_referred_to_a_warm_winding_by_the_same_factor_as_its_uncertainty():
    """1 + 0.00393 * 55 = 1.21615 from 20 to 75 degC (IEC 60028, from memory), once the leads are off."""
    found = resistance.corrected("1.1 ohm", "0.1 ohm", "20 degC", "0 K", "75 degC", "0.1 ohm")
    assert found.value.to("ohm").magnitude == pytest.approx(1.21615, rel=1e-9)
    assert found.uncertainty.to("ohm").magnitude == pytest.approx(0.121615, rel=1e-9)


def test_is_annealed_copper_what_a_wire_is_reckoned_of_unless_told():
    """IEC 60028: 1/58 ohm for 1 m of 1 mm2 (from memory)."""
    given = f"{float(_copper.CONDUCTIVITY)} MS/m"
    square = f"{math.sqrt(4 / math.pi)!r} mm"
    for found in (
        resistance.wire_resistance(square, "1 m"),
        resistance.wire_resistance(square, "1 m", conductivity=given),
    ):
        assert found.to("ohm").magnitude == pytest.approx(1 / 58, rel=1e-9)


def test_is_a_leak_as_wide_as_the_standard_restrictor_one_of_equal_nozzles():
    """0.040 in wide and 0.250 in long (FAA AC 43.13-1B, 8-14, seen); 22.1 % as two nozzles solved apart."""
    wide = float(_leaks.RESTRICTOR_BORE)
    assert _leaks.leak_down("100 psi", (0.040 / wide) ** 2) == pytest.approx(22.1, abs=0.1)
    assert float(_leaks.RESTRICTOR_LENGTH) / wide == pytest.approx(6.25)


@pytest.mark.parametrize(("depth", "degrees"), [("0 mm", 0.0), ("30 mm", 180.0)])
def test_does_a_piston_travel_from_one_dead_centre_to_the_other_and_no_further(depth, degrees):
    cylinder = Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg")
    assert cylinder.crank_angle(depth).to("deg").magnitude == pytest.approx(degrees, abs=1e-5)
    for beyond in ("-0.1 mm", "30.01 mm"):
        with pytest.raises(RangeError, match="piston depth"):
            cylinder.crank_angle(beyond)
