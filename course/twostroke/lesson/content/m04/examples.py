"""Lesson 04: worked with gaps, then alone."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from twostroke import breakdown, units
from twostroke.lesson.figures.demand_figures import available_at
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity


@cache
def _asked(gap: str, pressure: str, temperature: str = "20 degC") -> Quantity:
    return breakdown.voltage(gap, pressure, temperature)


def _bar(value: float) -> Quantity:
    return units.read(f"{value} bar")


def _kv(value: float) -> Quantity:
    return units.read(f"{value} kV")


def _dense() -> float:
    return 6.4 * 293.15 / (152 + 273.15)


def _linear(pd: float) -> Quantity:
    return _kv(float(breakdown.LINEAR_TERM) * pd)


EXAMPLES = (
    Example(
        id="dense_faded",
        title="Plug gap 0.60 mm; when the spark is due 6.4 bar absolute and 152 °C",
        lines=(
            "Only the density counts. Bring the pressure to what it would be at 20 °C.",
            Blank(
                id="dense",
                label="6.4 × 293 ÷ (273 + 152) =",
                unit="bar",
                answer=lambda: _bar(_dense()),
                say="4.41 bar: hot gas is thinner than cold gas at the same pressure.",
                hint="293 is 20 °C counted from absolute zero.",
                slips=(
                    Slip(
                        gives=lambda: _bar(6.4 * 20 / 152),
                        believes="celsius_as_kelvin",
                        say="That divides degrees Celsius by each other. Add 273 to both.",
                    ),
                    Slip(
                        gives=lambda: _bar(6.4),
                        believes="temperature_left_out",
                        say="That is the pressure as it stands; the charge is hot.",
                    ),
                ),
            ),
            "pd = 4.41 bar × 0.060 cm = 0.265 bar·cm.",
            Blank(
                id="volts",
                label="6.72 × √0.265 + 24.36 × 0.265 =",
                unit="kV",
                within=0.015,
                answer=lambda: _asked("0.60 mm", "6.4 bar", "152 degC"),
                say="3.46 + 6.45 = 9.9 kV. In open air the same gap asked for 3.1 kV.",
                hint="The root of 0.265 is 0.515.",
                slips=(
                    Slip(
                        gives=lambda: _linear(0.06 * _dense()),
                        believes="one_term_enough",
                        say="That is the second part only. The root is missing.",
                    ),
                    Slip(
                        gives=lambda: _asked("0.60 mm", "6.4 bar"),
                        believes="temperature_left_out",
                        say="That is for cold gas at 6.4 bar.",
                    ),
                    Slip(
                        gives=lambda: _asked("0.60 mm", "101.325 kPa") * (6.4 / 1.01325),
                        believes="pressure_in_proportion",
                        say="That is 3.1 kV times the pressure. Part of it grows with the root only.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="margin_faded",
        title="The demo module at 800 rpm, against a plug that asks for 9.9 kV",
        lines=(
            "At 800 rpm the module gives 13.7 kV (lesson 03).",
            Blank(
                id="margin",
                label="The margin is",
                unit="kV",
                within=0.03,
                answer=lambda: _kv(available_at(800) - 9.9),
                say="13.7 − 9.9 = 3.8 kV.",
                hint="Given less asked for, at the speed of the pull.",
                slips=(
                    Slip(
                        gives=lambda: _kv(available_at(1200) - 9.9),
                        believes="best_case_counts",
                        say="That takes the module at 1 200 rpm. Nobody pulls like this.",
                    ),
                ),
            ),
            "The 9.9 kV are good to 30 %: they may be 6.9 to 12.9 kV.",
            Blank(
                id="verdict",
                label="What can you say?",
                options=("It sparks", "It cannot be said", "It sparks, whatever the pull"),
                answer="It sparks",
                believes={
                    "It cannot be said": "undecided_is_safe",
                    "It sparks, whatever the pull": "best_case_counts",
                },
                say="13.7 kV is above even the 12.9 kV. That decides.",
                hint="Compare with the upper end of what the plug may ask for.",
            ),
        ),
    ),
    Example(
        id="half_current_alone",
        title="A weak magnet: the same module opens at half the current. Before, it held 8.0 mJ",
        stage="alone",
        lines=(
            Blank(
                id="energy",
                label="Now it holds",
                unit="mJ",
                answer=lambda: units.read(f"{8.0 * 0.5**2} mJ"),
                say="2.0 mJ: half the current squared is a quarter.",
                hint="Energy goes with the current squared (lesson 03).",
                slips=(
                    Slip(
                        gives=lambda: units.read("4.0 mJ"),
                        believes="energy_in_proportion",
                        say="That halves the energy with the current.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="tester_alone",
        title=(
            "Another plug asks for 9.5 kV under compression. A pointed tester asks for 7.1 kV at 6 mm and"
            " 11.9 kV at 10 mm"
        ),
        stage="alone",
        lines=(
            Blank(
                id="gap",
                label="The tester gap that stands for the plug is",
                unit="mm",
                within=0.03,
                answer=lambda: breakdown.needle_gap_for("9.5 kV"),
                say="8.0 mm: 9.5 is half-way from 7.1 to 11.9.",
                hint="Which part of the way from 7.1 to 11.9 kV is 9.5 kV?",
                slips=(
                    Slip(
                        gives=lambda: units.read("6 mm"),
                        believes="nearest_row_is_enough",
                        say="That asks for 7.1 kV only.",
                    ),
                    Slip(
                        gives=lambda: units.read("0.6 mm"),
                        believes="plug_gap_on_tester",
                        say="In open air the plug's gap asks for 3.1 kV.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="trace_alone",
        title="Sparks at 10.0, 102.0, 182.0 ms; a spike of 7.2 kV, flat at 0.4 kV to 1.0 ms, waves to 1.8 ms",
        stage="alone",
        lines=(
            Blank(
                id="speed",
                label="The fastest turn ran at",
                unit="rpm",
                answer=lambda: units.read(f"{60_000 / 80} rpm"),
                say="750 rpm, from 80.0 ms.",
                hint="Which turn took the shorter time?",
                slips=(
                    Slip(
                        gives=lambda: units.read(f"{60_000 / 92} rpm"),
                        believes="longer_is_faster",
                        say="That is from 92.0 ms, the slower turn.",
                    ),
                    Slip(
                        gives=lambda: units.read(f"{60_000 / 86} rpm"),
                        believes="mean_of_pull",
                        say="That is the mean of both turns.",
                    ),
                ),
            ),
            Blank(
                id="peak",
                label="The gap broke down at",
                unit="kV",
                answer=lambda: _kv(7.2),
                say="7.2 kV, the spike.",
                hint="The highest point.",
                slips=(Slip(gives=lambda: _kv(0.4), believes="burn_as_peak", say="That is the flat line."),),
            ),
            Blank(
                id="burn",
                label="It burned until",
                unit="ms",
                answer=lambda: units.read("1.0 ms"),
                say="1.0 ms, where the flat line ends.",
                hint="The waves are not a spark.",
                slips=(
                    Slip(
                        gives=lambda: units.read("1.8 ms"),
                        believes="ringing_counted",
                        say="That counts the waves.",
                    ),
                ),
            ),
        ),
    ),
)
