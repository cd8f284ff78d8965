"""The crankcase pump: its volume mirrors the cylinder's, and its pressure follows the ports."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from twostroke.compression import Cylinder
from twostroke.crankcase import Crankcase
from twostroke.errors import TwoStrokeError

ENGINE = Cylinder("34 mm", "28 mm", "48 mm", 9, "102 deg")
CASE = Crankcase(ENGINE, "117 deg", "65 deg", 1.4)


@settings(max_examples=30, deadline=None)
@given(angle=st.just(0.0) | st.floats(1e-6, 360))
def test_does_what_the_piston_leaves_above_it_take_away_below(angle):
    both = ENGINE.volume(f"{angle} deg") + CASE.volume(f"{angle} deg")
    total = ENGINE.volume("0 deg") + CASE.volume("0 deg")
    assert both.to("cm^3").magnitude == pytest.approx(total.to("cm^3").magnitude, rel=1e-9)


def test_is_the_ratio_that_of_the_two_ends():
    assert float((CASE.volume("0 deg") / CASE.volume("180 deg")).to("")) == pytest.approx(1.4)


@pytest.mark.parametrize(
    ("angle", "bar", "why"),
    [
        (0, 1.01325, "intake open"),
        (60, 1.01325, "intake still open"),
        (180, 1.01325, "transfer open"),
        (300, 1.01325, "intake open again"),
    ],
)
def test_does_an_open_port_level_the_pressure(angle, bar, why):
    assert CASE.pressure(f"{angle} deg").to("bar").magnitude == pytest.approx(bar), why


def test_does_it_press_before_the_transfer_and_draw_before_the_intake():
    """Closed form p V^n from the last angle at which a port was open."""
    for angle, shut in ((110, "65 deg"), (280, "117 deg")):
        squeezed = float((CASE.volume(shut) / CASE.volume(f"{angle} deg")).to(""))
        assert CASE.pressure(f"{angle} deg").to("bar").magnitude == pytest.approx(1.01325 * squeezed**1.25)
    assert CASE.pressure("110 deg") > CASE.pressure("180 deg") > CASE.pressure("280 deg")


def test_is_the_squeeze_that_of_air_in_coolprop():
    """Air shut in at 65 degrees and squeezed without heat until 110 degrees."""
    from CoolProp.CoolProp import PropsSI

    squeezed = float((CASE.volume("65 deg") / CASE.volume("110 deg")).to(""))
    density = PropsSI("D", "P", 101325, "T", 293.15, "Air")
    entropy = PropsSI("S", "P", 101325, "T", 293.15, "Air")
    outside = PropsSI("P", "D", squeezed * density, "S", entropy, "Air")
    found = CASE.pressure("110 deg", polytropic=1.4).to("Pa").magnitude
    assert found == pytest.approx(outside, rel=0.002)


@pytest.mark.parametrize(
    ("transfer", "intake", "ratio"),
    [("60 deg", "65 deg", 1.4), ("117 deg", "65 deg", 1.0), ("117", "65 deg", 1.4)],
)
def test_is_a_crankcase_that_cannot_be_refused(transfer, intake, ratio):
    with pytest.raises(TwoStrokeError, match=r"\w"):
        Crankcase(ENGINE, transfer, intake, ratio)
