"""Edges of the doors for units: bands without width, ratios of one, long text, figures shown."""

from __future__ import annotations

import pytest
from twostroke import RangeError, UnitError, units


def test_is_a_band_without_width_a_band():
    low, high = units.read_band("0.3-0.3 mm")
    assert low == high
    assert units.read_band(["0.3 mm", "0.5 mm"]) == units.read_band("0.3-0.5 mm")


@pytest.mark.parametrize("band", [("1 mm",), ("1 mm", "2 mm", "3 mm"), {"1 mm": 1, "2 mm": 2}])
def test_is_a_band_of_other_than_two_limits_refused(band):
    with pytest.raises(UnitError, match="not a band"):
        units.read_band(band)


@pytest.mark.parametrize(("text", "value"), [("1:1", 1), ("1.5:1", 1.5), ("0.5:0.25", 2), (1, 1)])
def test_is_a_small_ratio_read(text, value):
    assert units.read_ratio(text) == value


@pytest.mark.parametrize("text", ["1e300:1e-300", "-50:-1", "-0.5:-0.5", "50:-1", "0:1", "0.99:1"])
def test_is_a_ratio_without_sense_refused(text):
    with pytest.raises(UnitError, match="50:1"):
        units.read_ratio(text)


def test_is_a_long_ratio_read_whole_or_refused():
    spaces = " " * 115
    assert units.read_ratio(f"50:{spaces}10") == 5
    with pytest.raises(UnitError, match="too long"):
        units.read_ratio(f"50: {spaces}10")


@pytest.mark.parametrize(("text", "shown"), [("a:b", "'a'"), (None, "'None'")])
def test_does_a_bad_ratio_name_what_it_is_for(text, shown):
    for name, said in ((None, "ratio"), ("mixture", "mixture")):
        with pytest.raises(UnitError, match=f"^{said}: {shown}"):
            units.read_ratio(text, name=name)


def test_does_a_unit_of_no_named_kind_go_in_and_out_as_well():
    """A second moment of area: 1 cm^4 is 1e-8 m^4 (definition)."""
    assert units.si(units.ureg.Quantity(3, "cm^4"), "m^4", "stiffness") == pytest.approx(3e-8)
    assert units.from_si(3e-8, "cm^4").to("mm^4").magnitude == pytest.approx(3e4)


@pytest.mark.parametrize("value", [2.5, 1e-9, "1/2"])
def test_is_a_part_of_a_whole_number_refused(value):
    assert units.number(value, "share") == pytest.approx(float(units.read(value, "dimensionless").magnitude))
    with pytest.raises(RangeError, match="whole"):
        units.number(value, "count", whole=True)
    assert units.number(-3, "count", whole=True) == -3


@pytest.mark.parametrize("values", ["0.1 mm", 5, None, units.read("1 mm"), {"1 mm": 1}, b"1 mm"])
def test_is_what_is_not_a_list_refused(values):
    with pytest.raises(UnitError, match="give a list"):
        units.si_list(values, "mm", "shim")


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        ("0.000123 m", 3, "0.000123 m"),
        ("0.0000123 m", 3, "1.23e-05 m"),
        ("0.0000123 m", 2, "0.000012 m"),
        ("9.99 mm", 3, "9.99 mm"),
        ("10 mm", 3, "10.0 mm"),
        ("-0.25 mm", 1, "-0.2 mm"),
    ],
)
def test_are_few_figures_shown(value, digits, text):
    assert units.show(units.read(value), digits) == text


def test_has_the_door_nothing_but_its_own_names():
    with pytest.raises(AttributeError, match="no attribute 'uregs'"):
        units.uregs  # noqa: B018
