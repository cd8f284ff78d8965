"""Lesson 01: worked with gaps, then alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from twostroke import compression, fuel, units
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity


def _air(height: str) -> Quantity:
    return compression.standard_atmosphere(height).pressure.to("bar")


def _bar(text: str) -> Quantity:
    return units.read(text).to("bar")


EXAMPLES = (
    Example(
        id="leaf_faded",
        title="A gap of 14 thou, for a manual in millimetres",
        lines=(
            "One thou is exactly 0.0254 mm.",
            Blank(
                id="way",
                label="A millimetre is larger than a thou, so the number must",
                options=("shrink", "grow"),
                answer="shrink",
                believes={"grow": "factor_turned_round"},
                say="Fewer of the larger unit are needed.",
                hint="14 small steps are less than 14 large ones.",
            ),
            Blank(
                id="mm",
                label="14 × 0.0254 mm =",
                unit="mm",
                within=0.02,
                answer=lambda: units.read("14 thou"),
                say="0.356 mm; with leaves in steps of 1 thou, write 0.36 mm.",
                hint="Multiply 14 by 0.0254 mm, and write the unit with it.",
                slips=(
                    Slip(
                        gives=lambda: units.read("0.14 mm"),
                        believes="thou_as_hundredth_mm",
                        say="That is 14 hundredths of a millimetre.",
                    ),
                    Slip(
                        gives=lambda: units.read("0.014 mm"),
                        believes="thou_as_thousandth_mm",
                        say="That is 14 micrometres.",
                    ),
                    Slip(
                        gives=lambda: units.read("551.18 mm"),
                        believes="factor_turned_round",
                        say="That gap would be half a metre wide.",
                    ),
                ),
            ),
            "Check by going back: 0.356 mm ÷ 0.0254 mm gives 14 again. ✓",
        ),
    ),
    Example(
        id="leaf_alone",
        title=(
            "The manual gives a plug gap of 0.65 mm. Your wire gauges are marked in thou. Which one do you"
            " take?"
        ),
        stage="alone",
        lines=(
            Blank(
                id="thou",
                label="0.65 mm is",
                unit="thou",
                within=0.025,
                answer=lambda: units.read("0.65 mm"),
                say="25.6 thou. Take the nearest that your set has inside the maker's band.",
                hint="Ask first: grow or shrink? Then multiply or divide by 0.0254.",
                slips=(
                    Slip(
                        gives=lambda: units.read("65 thou"),
                        believes="thou_as_hundredth_mm",
                        say="65 thou would be 1.65 mm.",
                    ),
                    Slip(
                        gives=lambda: units.read("650 thou"),
                        believes="thou_as_thousandth_mm",
                        say="650 thou would be 16.5 mm.",
                    ),
                    Slip(
                        gives=lambda: units.read("0.01651 thou"),
                        believes="factor_turned_round",
                        say="Thinner than any wire.",
                    ),
                    Slip(
                        gives=lambda: units.read("0.65 thou"),
                        believes="label_swapped",
                        say="The number stayed and only its unit was changed.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="absolute_faded",
        title="A gauge shows 118 psi in a workshop at 800 m",
        lines=(
            "1 bar is 14.5 psi.",
            Blank(
                id="bar",
                label="118 psi is",
                unit="bar",
                answer=lambda: _bar("118 psi"),
                say="118 ÷ 14.5 = 8.14 bar, still counted from the air.",
                hint="psi into bar makes the number smaller: divide by 14.5.",
                slips=(
                    Slip(
                        gives=lambda: units.read("1711 bar"),
                        believes="factor_turned_round",
                        say="No engine holds that.",
                    ),
                    Slip(
                        gives=lambda: units.read("11.8 bar"),
                        believes="psi_as_tenth_bar",
                        say="That divides by ten.",
                    ),
                ),
            ),
            f"The standard air at 800 m presses with {_air('800 m').magnitude:.3f} bar.",
            Blank(
                id="sign",
                label="absolute = gauge",
                options=("+ air", "− air"),
                answer="+ air",
                believes={"− air": "subtract_for_absolute"},
                say="The air is below the gauge's zero, so it is added.",
                hint="Think of a gauge with its hose open: it shows 0, and the air is there.",
            ),
            Blank(
                id="absolute",
                label="So the absolute pressure is",
                unit="bar",
                within=0.006,
                answer=lambda: _bar("118 psi") + _air("800 m"),
                say="9.06 bar absolute.",
                hint="Add the two pressures in bar.",
                slips=(
                    Slip(
                        gives=lambda: _bar("118 psi"),
                        believes="gauge_is_absolute",
                        say="That is the gauge reading in bar.",
                    ),
                    Slip(
                        gives=lambda: _bar("118 psi") - _air("800 m"),
                        believes="subtract_for_absolute",
                        say="The air was taken off.",
                    ),
                    Slip(
                        gives=lambda: _bar("118 psi") + _air("0 m"),
                        believes="sea_level_everywhere",
                        say="That is the air of the coast.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="table_alone",
        title=(
            f"A table gives the air as {_air('500 m').magnitude:.3f} bar at 500 m and"
            f" {_air('1000 m').magnitude:.3f} bar at 1 000 m. Your workshop lies at 700 m"
        ),
        stage="alone",
        lines=(
            Blank(
                id="air",
                label="The air presses with",
                unit="bar",
                within=0.004,
                answer=lambda: _air("700 m"),
                say="Two fifths of the way from one row to the other: about 0.932 bar.",
                hint=(
                    "700 m is two fifths of the way from 500 m to 1 000 m. Go two fifths of the way in"
                    " pressure too."
                ),
                slips=(
                    Slip(
                        gives=lambda: _air("500 m"),
                        believes="nearest_row_is_enough",
                        say="That is the row of 500 m.",
                    ),
                    Slip(
                        gives=lambda: _air("1000 m"),
                        believes="nearest_row_is_enough",
                        say="That is the row of 1 000 m.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="absolute_alone",
        title=(
            "A gauge shows 105 psi at 1 500 m, where the standard air presses with"
            f" {_air('1500 m').magnitude:.3f} bar"
        ),
        stage="alone",
        lines=(
            Blank(
                id="absolute",
                label="The absolute pressure is",
                unit="bar",
                within=0.006,
                answer=lambda: _bar("105 psi") + _air("1500 m"),
                say="7.24 bar on the gauge and 0.85 bar of air make 8.09 bar.",
                hint="Gauge into bar first, then add the air of that height.",
                slips=(
                    Slip(
                        gives=lambda: _bar("105 psi"),
                        believes="gauge_is_absolute",
                        say="That is the gauge reading in bar.",
                    ),
                    Slip(
                        gives=lambda: _bar("105 psi") - _air("1500 m"),
                        believes="subtract_for_absolute",
                        say="The air was taken off.",
                    ),
                    Slip(
                        gives=lambda: _bar("105 psi") + _air("0 m"),
                        believes="sea_level_everywhere",
                        say="That is the air of the coast.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="oil_faded",
        title="A can with 4 L of fuel at 40:1",
        lines=(
            "40:1 means 40 parts of fuel to one part of oil.",
            Blank(
                id="way",
                label="So the oil is the fuel",
                options=("÷ 40", "× 40 %"),
                answer="÷ 40",
                believes={"× 40 %": "ratio_as_percent"},
                say="One part for every 40.",
                hint="How many parts of fuel go with one part of oil?",
            ),
            "4 L are 4 000 mL.",
            Blank(
                id="oil",
                label="The oil is",
                unit="mL",
                answer=lambda: fuel.oil_for("4 L", "40:1"),
                say="4 000 mL ÷ 40 = 100 mL.",
                hint="Divide 4 000 mL by 40.",
                slips=(
                    Slip(
                        gives=lambda: units.read("1600 mL"),
                        believes="ratio_as_percent",
                        say="That is 40 per cent of the can.",
                    ),
                    Slip(
                        gives=lambda: units.read("4 L") / 41,
                        believes="ratio_of_mix",
                        say="That divides by 41.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="oil_alone",
        title="A can marked 1 US gal, full of fuel. The manual says 50:1. How much oil, in millilitres?",
        stage="alone",
        lines=(
            Blank(
                id="oil",
                label="The oil is",
                unit="mL",
                answer=lambda: fuel.oil_for("1 US gal", "50:1"),
                say="3 785 mL ÷ 50 = 76 mL.",
                hint="A US gallon is 3.785 L. Turn it into millilitres, then divide.",
                slips=(
                    Slip(
                        gives=lambda: fuel.oil_for("1 imp gal", "50:1"),
                        believes="gallon_is_gallon",
                        say="That is for an imperial gallon.",
                    ),
                    Slip(
                        gives=lambda: units.read("1 US gal") / 2,
                        believes="ratio_as_percent",
                        say="That is half of the can.",
                    ),
                    Slip(
                        gives=lambda: units.read("1 US gal") / 51,
                        believes="ratio_of_mix",
                        say="That divides by 51.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="degrees_alone",
        title="The thermometer in an invented workshop shows 77 °F. The sheet asks for °C",
        stage="alone",
        lines=(
            Blank(
                id="degrees",
                label="77 °F is",
                unit="degC",
                within=0.0012,
                answer=lambda: units.read("77 degF"),
                say="(77 − 32) ÷ 1.8 = 25 °C.",
                hint="Take 32 off first, then divide by 1.8.",
                slips=(
                    Slip(
                        gives=lambda: units.read("77 degC"),
                        believes="fahrenheit_as_celsius",
                        say="At 77 °C nobody could work there.",
                    ),
                    Slip(
                        gives=lambda: units.read("106.6 degC"),
                        believes="factor_turned_round",
                        say="That is above boiling water: it multiplies by 1.8 and takes 32 off last.",
                    ),
                    Slip(
                        gives=lambda: units.read("42.8 degC"),
                        believes="offset_forgotten",
                        say="That divides by 1.8 and leaves the 32 on.",
                    ),
                ),
            ),
        ),
    ),
)
