"""What the door for units reads, what it refuses, and that it never misreads."""

from __future__ import annotations

import contextlib
import csv
import math
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from twostroke import RangeError, TwoStrokeError, UnitError, units

TABLES = Path(__file__).parent / "tables"


def rows(name):
    with open(TABLES / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", rows("readable.csv"), ids=lambda row: f"{row['text']}|{row['expect']}")
def test_is_it_read_as_it_was_meant(row):
    found = units.read(row["text"], row["expect"] or None)
    unit = "" if row["unit"] == "dimensionless" else units.read("1 " + row["unit"]).units
    meant = units.ureg.Quantity(float(row["value"]), unit)
    assert found.dimensionality == meant.dimensionality
    assert found.to_base_units().magnitude == pytest.approx(meant.to_base_units().magnitude, rel=1e-12)


@pytest.mark.parametrize("row", rows("refused.csv"), ids=lambda row: f"{row['text']}|{row['expect']}")
def test_is_it_refused_with_a_hint(row):
    with pytest.raises(TwoStrokeError) as caught:
        units.read(row["text"], row["expect"] or None)
    assert row["hint"] in str(caught.value)


@pytest.mark.parametrize("row", rows("conversions.csv"), ids=lambda row: row["id"])
def test_does_the_conversion_agree_with_the_published_one(row):
    target = units.read("1 " + row["unit"]).units
    assert units.read(row["text"]).to(target).magnitude == pytest.approx(
        float(row["value"]), rel=float(row["tolerance"])
    )


# The oracle: factors written down from NIST SP 811 and the definitions, not from the units library.
INCH = Fraction(254, 10000)
POUND_FORCE = Fraction("0.45359237") * Fraction("9.80665")
FACTORS = {
    "mm": Fraction(1, 1000),
    "millimetres": Fraction(1, 1000),
    "cm": Fraction(1, 100),
    "m": Fraction(1),
    "μm": Fraction(1, 10**6),
    "um": Fraction(1, 10**6),
    "thou": INCH / 1000,
    "mil": INCH / 1000,
    "in": INCH,
    "inch": INCH,
    "ft": INCH * 12,
    "cc": Fraction(1, 10**6),
    "cm³": Fraction(1, 10**6),
    "mL": Fraction(1, 10**6),
    "L": Fraction(1, 1000),
    "litres": Fraction(1, 1000),
    "cu in": INCH**3,
    "US gal": 231 * INCH**3,
    "imp gal": Fraction("0.00454609"),
    "US fl oz": 231 * INCH**3 / 128,
    "imp fl oz": Fraction("0.00454609") / 160,
    "kPa": Fraction(1000),
    "bar": Fraction(10**5),
    "psi": POUND_FORCE / INCH**2,
    "MPa": Fraction(10**6),
    "Ω": Fraction(1),
    "ohm": Fraction(1),
    "kΩ": Fraction(1000),
    "kohm": Fraction(1000),
    "MΩ": Fraction(10**6),
    "mΩ": Fraction(1, 1000),
    "kV": Fraction(1000),
    "V": Fraction(1),
    "mA": Fraction(1, 1000),
    "A": Fraction(1),
    "mH": Fraction(1, 1000),
    "pF": Fraction(1, 10**12),
    "nF": Fraction(1, 10**9),
    "ms": Fraction(1, 1000),
    "s": Fraction(1),
    "min": Fraction(60),
    "h": Fraction(3600),
    "N*m": Fraction(1),
    "lbf*in": POUND_FORCE * INCH,
    "lbf·ft": POUND_FORCE * INCH * 12,
    "mJ": Fraction(1, 1000),
    "mm²": Fraction(1, 10**6),
    "mL/min": Fraction(1, 60 * 10**6),
    "uWb": Fraction(1, 10**6),
    "kg": Fraction(1),
    "g": Fraction(1, 1000),
}
SIGNS = {"": 1, "+": 1, "-": -1, "–": -1, "−": -1, "‐": -1, "－": -1}
SPACES = ["", " ", "  ", "\u00a0", "\u2009", "\u202f", "\t"]


@st.composite
def written_numbers(draw):
    """A number as people write it, with its exact value."""
    form = draw(st.sampled_from(["whole", "point", "comma", "fraction", "mixed", "power"]))
    whole = draw(st.integers(0, 99_999))
    tail = draw(st.text("0123456789", min_size=1, max_size=5))
    if form == "whole":
        return str(whole), Fraction(whole)
    if form == "point":
        return f"{whole}.{tail}", Fraction(f"{whole}.{tail}")
    if form == "comma":
        if len(tail) == 3 and 0 < whole < 1000:
            tail += "0"
        return f"{whole},{tail}", Fraction(f"{whole}.{tail}")
    if form == "power":
        power = draw(st.integers(-6, 6))
        style = draw(st.sampled_from(["e{}", "E{}", "x10^{}", " × 10^{}"]))
        return f"{whole}.{tail}{style.format(power)}", Fraction(Decimal(f"{whole}.{tail}e{power}"))
    bottom = draw(st.sampled_from([2, 4, 8, 16, 32, 64]))
    top = draw(st.integers(1, bottom - 1))
    slash = draw(st.sampled_from(["/", " / ", "⁄"]))
    if form == "fraction":
        return f"{top}{slash}{bottom}", Fraction(top, bottom)
    joint = draw(st.sampled_from([" ", "-", "  "]))
    return f"{whole}{joint}{top}{slash}{bottom}", whole + Fraction(top, bottom)


@settings(max_examples=400, deadline=None)
@given(
    written_numbers(),
    st.sampled_from(sorted(FACTORS)),
    st.sampled_from(sorted(SIGNS)),
    st.sampled_from(SPACES),
)
def test_is_well_formed_text_read_as_an_independent_count_reads_it(number, unit, sign, space):
    text, value = number
    found = units.read(f"{sign}{text}{space}{unit}")
    meant = float(SIGNS[sign] * value * FACTORS[unit])
    assert found.to_base_units().magnitude == pytest.approx(meant, rel=1e-9, abs=0)


@settings(max_examples=400, deadline=None)
@given(st.text(max_size=30) | st.text("0123456789.,/-–−+ eE^×x10kmMΩµinpsibar°CFgal\"'()±:", max_size=14))
def test_does_any_text_give_a_quantity_or_our_own_error(text):
    messages = []
    for expect in (None, "ohm", "degC", "mm"):
        for door in (units.read, units.read_band):
            try:
                found = door(text, expect)
            except TwoStrokeError as error:
                messages.append(str(error))
            else:
                limits = found if isinstance(found, tuple) else (found,)
                assert all(math.isfinite(limit.magnitude) for limit in limits)
                assert any(figure.isdecimal() or figure.isnumeric() for figure in text)
    with contextlib.suppress(TwoStrokeError):
        assert units.read_ratio(text) >= 1
    assert all(10 < len(message) < 400 for message in messages)


@settings(max_examples=200, deadline=None)
@given(st.integers(1, 999), st.integers(0, 999), st.sampled_from(["mm", "rpm", "ohm", "psi"]))
def test_is_a_comma_before_three_figures_never_guessed(whole, thousandths, unit):
    with pytest.raises(UnitError, match="can mean"):
        units.read(f"{whole},{thousandths:03d} {unit}")


@settings(max_examples=100, deadline=None)
@given(
    st.one_of(
        st.none(),
        st.booleans(),
        st.binary(),
        st.integers(),
        st.floats(),
        st.complex_numbers(),
        st.lists(st.integers()),
        st.dictionaries(st.text(), st.text()),
        st.builds(object),
    )
)
def test_is_anything_else_refused_with_the_unit_that_is_missing(thing):
    with pytest.raises(TwoStrokeError, match=r"unit|quantity"):
        units.read(thing, "mm")


def test_does_a_bare_number_say_which_unit_was_expected():
    with pytest.raises(UnitError, match=r"air gap: '12'.*0.30 mm or 12 thou"):
        units.si(12, "mm", "air gap")


def test_is_text_of_any_length_refused_at_once():
    for text in ("9" * 100_000 + " mm", "1" + " " * 100_000 + "mm", "x" * 1_000_000):
        with pytest.raises(UnitError, match="too long"):
            units.read(text)


def test_is_a_quantity_of_another_registry_accepted():
    other = pint.UnitRegistry()
    assert units.read(other.Quantity(3, "mm"), "in").to("mm").magnitude == pytest.approx(3)
    assert units.read(other.Quantity(20, "degC"), "degC").to("K").magnitude == pytest.approx(293.15)
    assert units.read(other.Quantity(20, "delta_degF"), "delta_degC").to("kelvin").magnitude == pytest.approx(
        20 / 1.8
    )
    assert units.read(other.Quantity(1.5, "mm"))._REGISTRY is units.ureg


def test_is_a_unit_that_another_registry_defines_otherwise_converted_by_its_own_size():
    other = pint.UnitRegistry(on_redefinition="ignore")
    other.define("inch = 0.03 * meter")
    assert units.read(other.Quantity(1, "inch"), "mm").to("mm").magnitude == pytest.approx(30)
    other.define("cubit = 0.5 * meter")
    assert units.read(other.Quantity(2, "cubit"), "mm").to("m").magnitude == pytest.approx(1)


def test_are_quantities_without_one_plain_number_refused():
    import numpy as np
    from uncertainties import ufloat

    make = units.ureg.Quantity
    for magnitude in (np.array([1.0, 2.0]), ufloat(1, 0.1), complex(1, 1), math.nan, math.inf, 10**400):
        with pytest.raises(TwoStrokeError):
            units.read(make(magnitude, "mm"), "mm")
    for magnitude in (np.float32(2), Fraction(2), Decimal(2), np.array(2.0), 2):
        assert units.read(make(magnitude, "mm"), "mm").magnitude == 2.0


def test_is_the_registry_made_once():
    assert units.ureg is units.ureg
    assert units.read("1 mm")._REGISTRY is units.read("1 s")._REGISTRY


def test_does_a_registry_without_a_writable_cache_work(tmp_path):
    import subprocess
    import sys

    locked = tmp_path / "file"
    locked.write_text("a file where a folder is wanted")
    code = "from twostroke import units; print(units.read('10 thou').to('mm'))"
    for home in (str(locked), "/proc/none"):
        env = {"HOME": home, "XDG_CACHE_HOME": home, "LOCALAPPDATA": home, "PATH": ""}
        done = subprocess.run(
            [sys.executable, "-c", code], env=env, capture_output=True, text=True, check=False
        )
        assert done.stdout.strip() == "0.254 mm", done.stderr


@pytest.mark.parametrize(
    ("given_as", "kelvin"),
    [("20 C", 293.15), ("68 F", 293.15), ("293.15 K", 293.15), ("-40 F", 233.15), ("-40 °C", 233.15)],
)
def test_does_every_scale_reach_kelvin_without_an_offset_error(given_as, kelvin):
    assert units.si(given_as, "degC", "temperature") == pytest.approx(kelvin)
    assert units.si(units.read(given_as), "degF", "temperature") == pytest.approx(kelvin)


@pytest.mark.parametrize("text", ["-273.16 degC", "-460 F", "-1 K", "-0.001 K"])
def test_is_below_absolute_zero_refused(text):
    with pytest.raises(RangeError, match="absolute zero"):
        units.read(text)


def test_is_absolute_zero_itself_readable():
    assert units.si("-273.15 degC", "K", "temperature") == pytest.approx(0)
    assert units.si("-459.67 F", "K", "temperature") == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "reference", "bar"),
    [
        ("120 psig", "gauge", 8.27371),
        ("2 bar(g)", "gauge", 2),
        ("2 bar g", "gauge", 2),
        ("2 bar gauge", "gauge", 2),
        ("200 kPa(a)", "absolute", 2),
        ("2 bara", "absolute", 2),
        ("2 bar abs", "absolute", 2),
        ("2 bar", "gauge", 2),
    ],
)
def test_is_a_gauge_word_read_where_the_place_agrees(text, reference, bar):
    assert units.read(text, "bar", reference=reference).to("bar").magnitude == pytest.approx(bar, rel=1e-5)


@pytest.mark.parametrize(("text", "reference"), [("120 psig", "absolute"), ("2 bar(a)", "gauge")])
def test_is_the_other_reference_refused(text, reference):
    with pytest.raises(UnitError, match=f"{reference} pressure is wanted"):
        units.read(text, "bar", reference=reference)


@pytest.mark.parametrize(
    ("text", "low", "high", "unit"),
    [
        ("0.3-0.5 mm", 0.3, 0.5, "mm"),
        ("0.3 – 0.5mm", 0.3, 0.5, "mm"),
        ("10 to 14 thou", 10, 14, "thou"),
        ("0,3…0,5 mm", 0.3, 0.5, "mm"),
        ("0.3..0.5 mm", 0.3, 0.5, "mm"),
        ("0.30 ± 0.05 mm", 0.25, 0.35, "mm"),
        ("0.30 mm +/- 0.05 mm", 0.25, 0.35, "mm"),
        ("2.6 kΩ ± 10 %", 2.34, 2.86, "kohm"),
        ("-5 to 40 °C", -5, 40, "degC"),
        ("-5--2 °C", -5, -2, "degC"),
        ("20 ± 3 °C", 17, 23, "degC"),
        ("1/4-3/8 in", 0.25, 0.375, "in"),
        ("1 1/4-1 1/2 in", 1.25, 1.5, "in"),
        ("0.3 mm - 20 thou", 0.3, 0.508, "mm"),
        ("30 in-lb to 35 in-lb", 30, 35, "lbf*in"),
        ("300–450V", 300, 450, "V"),
        ("1e-3 - 2e-3 m", 1, 2, "mm"),
    ],
)
def test_is_a_band_read(text, low, high, unit):
    target = units.read("1 " + unit).units
    found = [limit.to(target).magnitude for limit in units.read_band(text)]
    assert found == pytest.approx([low, high])


@pytest.mark.parametrize("text", ["2.4-2.8k", "2.4k-2.8k", "2k4 to 2k8"])
def test_is_a_band_of_ohms_read_where_ohms_are_expected(text):
    assert [limit.to("ohm").magnitude for limit in units.read_band(text, "ohm")] == pytest.approx(
        [2400, 2800]
    )


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("0.5-0.3 mm", "lower one first"),
        ("3-1/2 in", "not a band"),
        ("0.3 mm", "not a band"),
        ("0.3-0.5", "unit"),
        ("0.3-0.5-0.7 mm", "band"),
        ("0.3 mm to 5 s", "different kinds"),
        ("1,250-1,500 rpm", "can mean"),
        (5, "band"),
        (None, "band"),
        ("20 °C ± 10 %", "temperature"),
    ],
)
def test_is_what_is_not_a_band_refused(text, hint):
    with pytest.raises(TwoStrokeError, match=hint):
        units.read_band(text)


@pytest.mark.parametrize(
    ("text", "value"),
    [("50:1", 50), ("50 : 1", 50), ("50 to 1", 50), ("9.5:1", 9.5), ("25:2", 12.5), ("50∶1", 50), (50, 50)],
)
def test_is_a_ratio_read(text, value):
    assert units.read_ratio(text) == value


@pytest.mark.parametrize(
    "text", ["1:50", "50", "50 %", "50:0", "0:1", "-50:1", "a:b", ":", "", None, True, 0.5, "50:1:1"]
)
def test_is_what_is_not_a_ratio_refused(text):
    with pytest.raises(TwoStrokeError):
        units.read_ratio(text)


@settings(max_examples=150, deadline=None)
@given(
    st.floats(1e-6, 1e6), st.sampled_from(["mm", "psi", "kohm", "L", "rpm", "degF", "deg", "mJ", "mL/min"])
)
def test_does_out_of_si_and_back_give_the_same(value, unit):
    assert units.si(units.from_si(value, unit), unit, "value") == pytest.approx(value, rel=1e-9)


def test_does_a_limit_itself_count_as_inside_and_is_it_left_out_by_above():
    assert units.si("0 mm", "mm", "gap", minimum=0) == 0
    assert units.si("180 deg", "deg", "angle", maximum=180) == pytest.approx(math.pi)
    for limits in ({"above": 0}, {"minimum": 1e-9}):
        with pytest.raises(RangeError, match=r"gap: '0 mm'.*must be"):
            units.si("0 mm", "mm", "gap", **limits)


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        ("0.25400001 mm", 3, "0.254 mm"),
        ("12800 rpm", 3, "12800 rpm"),
        ("0 mm", 3, "0 mm"),
        ("-5 degC", 2, "-5.0 °C"),
    ],
)
def test_is_a_quantity_shown_short(value, digits, text):
    assert units.show(units.read(value), digits) == text
