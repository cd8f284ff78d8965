"""Lesson 06: worked with gaps, then alone. All modules and meters are invented."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from twostroke import resistance, units
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity

_COPPER = 0.00393
_BAND = ("2300 ohm", "2800 ohm")


def _ohm(value: float) -> Quantity:
    return units.read(f"{value:.10g} ohm")


def _to_20(ohms: float, celsius: float) -> Quantity:
    return resistance.at_temperature(f"{ohms} ohm", f"{celsius} degC", "20 degC")


def _uncertainty() -> Quantity:
    return resistance.meter_uncertainty("2330 ohm", 0.8, 3, "10 ohm")


def _guard() -> Quantity:
    return 1.645 * _uncertainty()


_FAULTS = ("open", "shorted to the core", "partly shorted", "nothing that an ohmmeter can show")

EXAMPLES = (
    Example(
        id="to_20_faded",
        title="Display 1.62 Ω, probes together 0.32 Ω, winding at 70 °C",
        lines=(
            Blank(
                id="winding",
                label="Leads off: the winding has",
                unit="ohm",
                answer=lambda: _ohm(1.62 - 0.32),
                within=0.003,
                say="1.62 − 0.32 = 1.30 Ω.",
                hint="Display less what the probes show when held together.",
                slips=(
                    Slip(
                        gives=lambda: _ohm(1.62),
                        believes="lead_resistance_ignored",
                        say="That is the display. The leads are still in it.",
                    ),
                    Slip(
                        gives=lambda: _ohm(1.62 - 0.64),
                        believes="leads_for_each_probe",
                        say="The leads came off twice. Held together, the probes already show both.",
                    ),
                ),
            ),
            "The winding is 70 − 20 = 50 degrees above 20 °C. 50 × 0.00393 is 0.1965.",
            Blank(
                id="at_20",
                label="At 20 °C it has",
                unit="ohm",
                answer=lambda: _to_20(1.30, 70),
                within=0.006,
                say="1.30 ÷ 1.1965 = 1.09 Ω.",
                hint="Divide by one plus 0.1965.",
                slips=(
                    Slip(
                        gives=lambda: _ohm(1.30),
                        believes="cold_reading_hot_band",
                        say="That is still the hot reading.",
                    ),
                    Slip(
                        gives=lambda: _ohm(1.30 / (1 + _COPPER * 70)),
                        believes="whole_temperature",
                        say="That counts all 70 degrees. Only those above 20 °C count.",
                    ),
                    Slip(
                        gives=lambda: _ohm(1.30 * (1 + _COPPER * 50)),
                        believes="factor_turned_round",
                        say="That is more than hot. Cold copper has less.",
                    ),
                ),
            ),
            "Demo band 0.95 to 1.20 Ω at 20 °C. Hot, the winding looked too high. It is not.",
        ),
    ),
    Example(
        id="judge_faded",
        title="Secondary 2.33 kΩ, band 2.30 to 2.80 kΩ, meter ±(0.8 % + 3 digits), one digit is 10 Ω",
        lines=(
            "0.8 % of 2 330 Ω is 18.6 Ω. Three digits are 30 Ω. Together 48.6 Ω: a limit.",
            Blank(
                id="doubt",
                label="Divided by √3 (1.732), the standard uncertainty is",
                unit="ohm",
                answer=_uncertainty,
                within=0.02,
                say="48.6 ÷ 1.732 = 28 Ω.",
                hint="48.6 Ω divided by 1.732.",
                slips=(
                    Slip(
                        gives=lambda: _uncertainty() * math.sqrt(3),
                        believes="limit_is_uncertainty",
                        say="That is the limit itself, not yet divided.",
                    ),
                    Slip(
                        gives=lambda: _ohm((18.64 + 3) / math.sqrt(3)),
                        believes="prefix_dropped",
                        say="A digit was counted as 1 Ω. On a kΩ range here it is 0.01 kΩ, which is 10 Ω.",
                    ),
                ),
            ),
            Blank(
                id="guard",
                label="Times 1.645, the guard band is",
                unit="ohm",
                answer=_guard,
                within=0.02,
                say="About 46 Ω on each side.",
                hint="28 Ω times 1.645.",
                slips=(
                    Slip(
                        gives=_uncertainty,
                        believes="limit_is_uncertainty",
                        say="That is one standard uncertainty. One reading in three is further off.",
                    ),
                    Slip(
                        gives=lambda: 2 * _guard(),
                        believes="limit_is_uncertainty",
                        say="That is both sides together. One side counts.",
                    ),
                ),
            ),
            "The reading lies 30 Ω above the low limit.",
            Blank(
                id="verdict",
                label="So the winding is",
                answer=resistance.judge("2330 ohm", *_BAND, _uncertainty()),
                options=("in", "out", "undecided"),
                believes={"in": "inside_is_always_good", "out": "undecided_is_bad"},
                say="30 Ω is less than 46 Ω. This meter cannot say.",
                hint="Is the reading further from the limit than the guard band?",
            ),
        ),
    ),
    Example(
        id="four_faded",
        title="Four modules of one kind. Bands: primary 0.80 to 1.00 Ω, secondary 2.30 to 2.80 kΩ",
        lines=(
            "Secondary to core: there should be no reading on this kind (the manual tells).",
            "Module 1: primary 0.90 Ω, secondary over range, to core over range. It is open.",
            Blank(
                id="second",
                label="Module 2: 0.91 Ω, 2.58 kΩ, to core 12 Ω. It is",
                answer=_FAULTS[1],
                options=_FAULTS,
                believes={
                    _FAULTS[0]: "prefix_dropped",
                    _FAULTS[2]: "parallel_as_series",
                    _FAULTS[3]: "resistance_in_band_proves",
                },
                say="Both windings read well, but 12 Ω lead to the core where nothing should.",
                hint="Go through the three readings. Which one should not be there?",
            ),
            Blank(
                id="third",
                label="Module 3: 0.89 Ω, 1.85 kΩ, to core over range. It is",
                answer=_FAULTS[2],
                options=_FAULTS,
                believes={
                    _FAULTS[0]: "prefix_dropped",
                    _FAULTS[1]: "parallel_as_series",
                    _FAULTS[3]: "undecided_is_safe",
                },
                say="1.85 kΩ is far below the band: a quarter of the wire is bridged.",
                hint="Hold each reading against its band. Over range means no path.",
            ),
            Blank(
                id="fourth",
                label="Module 4: 0.90 Ω, 2.57 kΩ, to core over range. It is",
                answer=_FAULTS[3],
                options=_FAULTS,
                believes={
                    _FAULTS[0]: "prefix_dropped",
                    _FAULTS[1]: "parallel_as_series",
                    _FAULTS[2]: "undecided_is_bad",
                },
                say="All three are as they should be. That is not yet a proof that it sparks.",
                hint="Hold each reading against its band.",
            ),
        ),
    ),
    Example(
        id="warm_alone",
        title="Display 1.45 Ω, probes together 0.20 Ω. The thermometer on the winding shows 131 °F",
        stage="alone",
        lines=(
            Blank(
                id="celsius",
                label="The winding is at",
                unit="degC",
                answer=lambda: units.read("131 degF").to("degC"),
                within=0.003,
                say="(131 − 32) ÷ 1.8 = 55 °C.",
                hint="Take 32 off first, then divide by 1.8.",
                slips=(
                    Slip(
                        gives=lambda: units.read("72.8 degC"),
                        believes="offset_forgotten",
                        say="That is 131 ÷ 1.8. The 32 have to come off first.",
                    ),
                    Slip(
                        gives=lambda: units.read("131 degC"),
                        believes="label_swapped",
                        say="Only the letter was changed.",
                    ),
                ),
            ),
            Blank(
                id="at_20",
                label="At 20 °C the winding has",
                unit="ohm",
                answer=lambda: _to_20(1.25, 55),
                within=0.006,
                say="1.25 ÷ (1 + 0.00393 × 35) = 1.10 Ω.",
                hint="Leads off first. Then divide by one plus 0.00393 for each degree above 20 °C.",
                slips=(
                    Slip(
                        gives=lambda: _ohm(1.25 / (1 + _COPPER * 111)),
                        believes="fahrenheit_as_celsius",
                        say="131 was put in as if it were Celsius.",
                    ),
                    Slip(
                        gives=lambda: _to_20(1.45, 55),
                        believes="lead_resistance_ignored",
                        say="The leads are still in it.",
                    ),
                    Slip(
                        gives=lambda: _ohm(1.25 / (1 + _COPPER * 55)),
                        believes="whole_temperature",
                        say="That counts from 0 °C. The copper figure counts from 20 °C.",
                    ),
                    Slip(
                        gives=lambda: _ohm(1.25),
                        believes="cold_reading_hot_band",
                        say="That is the warm winding. The band is for 20 °C.",
                    ),
                ),
            ),
        ),
    ),
)
