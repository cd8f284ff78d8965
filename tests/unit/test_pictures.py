"""Pictures of the physics: right numbers, units on axes, readable in grey, words that say the same."""

from __future__ import annotations

import numpy as np
import pytest
from matplotlib.colors import to_rgb
from twostroke import ignition, magneto, pictures
from twostroke.compression import Cylinder, gauge_readings
from twostroke.errors import RangeError, UnitError
from twostroke.pictures import _style

HEALTHY = ignition.Ignition()
WIDE = HEALTHY.changed(gap_1=1e-3, gap_2=1e-3)
FOULED = HEALTHY.changed(plug_shunt=2e5)
CORE = magneto.Core("10 mm", "8 mm", "24 mm", "12 mm", "14 mm", "8 mm", "1.00 T", 1.07, "24 mm", "8 mm", 2000)
ENGINE = Cylinder("34 mm", "28 mm", "48 mm", 9, "103 deg")

MADE = {
    "voltage": lambda: pictures.voltage_against_speed(
        {"healthy": HEALTHY, "wide gap": WIDE, "fouled": FOULED}, "9.9 kV"
    ),
    "spark": lambda: pictures.waveform(HEALTHY),
    "no spark": lambda: pictures.waveform(HEALTHY, "450 rpm", None),
    "circuit": lambda: pictures.magnetic_circuit(CORE, ("0.30 mm", "0.50 mm"), "-6 mm"),
    "gauge": lambda: pictures.compression_pump_up(ENGINE, band="7-9 bar"),
}


@pytest.mark.parametrize("name", MADE)
def test_is_there_a_figure_with_units_and_a_sentence(name):
    seen = MADE[name]()
    assert seen.png()[:8] == b"\x89PNG\r\n\x1a\n"
    assert seen.svg().startswith("<?xml")
    assert seen.words.endswith(".")
    assert len(seen.words.split()) > 8
    for axes in seen.figure.axes:
        if axes.axison and axes.get_xlabel() != "pull":
            assert "(" in axes.get_xlabel(), "unit on the axis"
            assert "(" in axes.get_ylabel()


def test_is_the_same_picture_the_same_file():
    assert MADE["gauge"]().svg() == MADE["gauge"]().svg()


def test_do_words_and_lines_of_the_voltage_agree_with_the_calculation():
    seen = MADE["voltage"]()
    lowest = ignition.minimum_speed(ignition.Ignition.stack([HEALTHY, WIDE]), 9.9e3)
    assert f"healthy line crosses the demand of 9.9 kV at {lowest[0]:.0f} rpm" in seen.words
    assert f"wide gap line crosses the demand of 9.9 kV at {lowest[1]:.0f} rpm" in seen.words
    assert "fouled line never reaches 9.9 kV" in seen.words
    assert "±30 %" in seen.words
    rpm, kilovolts = seen.figure.axes[0].get_lines()[1].get_data()
    at = int(np.argmin(np.abs(np.asarray(rpm) - 800)))
    volts = ignition.available(HEALTHY, [rpm[at]]).voltage[0, 0]
    assert kilovolts[at] == pytest.approx(volts / 1e3, rel=1e-6)


def test_do_the_words_of_the_trace_say_whether_it_fired():
    assert "fires at 9.9 kV" in MADE["spark"]().words
    assert "does not fire" in MADE["no spark"]().words


def test_do_the_words_of_the_gauge_hold_its_readings():
    seen = pictures.compression_pump_up(ENGINE, {"sound": {}}, pulls=4)
    bar = gauge_readings(ENGINE, 4, "800 rpm", "6 mL").to("bar").magnitude
    assert f"{bar[0]:.1f} bar after the first pull, {bar[-1]:.1f} bar after the fourth" in seen.words
    assert np.asarray(seen.figure.axes[0].get_lines()[0].get_ydata()) == pytest.approx(bar)


def test_do_the_words_of_the_circuit_hold_gap_and_flux():
    words = pictures.magnetic_circuit(CORE, "0.30 mm").words
    assert "0.30 mm under both legs" in words
    assert f"{CORE.flux('0 mm', '0.30 mm').to('uWb').magnitude:.0f} µWb" in words
    assert "0.30 mm under one leg and 0.50 mm under the other" in MADE["circuit"]().words


def luminance(color):
    red, green, blue = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in to_rgb(color))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_can_every_pair_of_lines_be_told_apart_without_colour():
    """Dash and marker differ in every pair; text-size contrast to white is at least 2.2 (WCAG luminance)."""
    for number, one in enumerate(_style.SERIES):
        assert 1.05 / (luminance(one["color"]) + 0.05) > 2.2
        for other in _style.SERIES[number + 1 :]:
            assert one["linestyle"] != other["linestyle"]
            assert one["marker"] != other["marker"]


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [
        (lambda: pictures.voltage_against_speed({}, "9 kV"), RangeError, "lines"),
        (lambda: pictures.voltage_against_speed({"a": HEALTHY}, 9), UnitError, "demand"),
        (lambda: pictures.magnetic_circuit("core"), UnitError, "Core"),
        (lambda: pictures.waveform(HEALTHY, "60 rpm"), RangeError, "never switches"),
    ],
)
def test_is_a_picture_that_cannot_be_drawn_refused_plainly(call, error, words):
    with pytest.raises(error, match=words):
        call()
