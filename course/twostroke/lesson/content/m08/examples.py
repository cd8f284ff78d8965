"""Lesson 08: worked with gaps, then alone. All engines and readings are invented."""

from __future__ import annotations

from typing import TYPE_CHECKING

from twostroke import compression, geometry, units
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity

_SEA = 1.01325  # bar, ISO 2533
_AREA = 10.1788  # cm², bore 36 mm
_FACTOR = 9.39  # 6.0 to the power 1.25


def _bar(value: float) -> Quantity:
    return units.read(f"{value:.10g} bar")


def _ml(value: float) -> Quantity:
    return units.read(f"{value:.10g} mL")


def _per_cent(value: float) -> Quantity:
    return units.read(f"{value:.10g} %")


def _trapped() -> Quantity:
    return geometry.displacement("36 mm", "18.5 mm") + _ml(3.8)


def _air() -> Quantity:
    return compression.standard_atmosphere("1500 m").pressure.to("bar")


def _here() -> float:
    return float(_air().magnitude)


def _expected() -> Quantity:
    return _air() * (_FACTOR - 1)


def _limit() -> Quantity:
    return compression.reading_at_altitude("6.9 bar", "1500 m")


def _leak() -> Quantity:
    return compression.leak_rate("300 mL", "0.50 bar", "0.42 bar", "2 min")


EXAMPLES = (
    Example(
        id="trapped_faded",
        title="Bore 36 mm, stroke 30 mm, 18.5 mm from port closing to the top, clearance 3.8 mL",
        lines=(
            "Area of the bore: 0.785 × 3.6² = 10.18 cm².",
            Blank(
                id="trapped",
                label="Trapped when the exhaust shuts, 10.18 × 1.85 + 3.8 =",
                unit="mL",
                answer=_trapped,
                within=0.01,
                say="18.8 + 3.8 = 22.6 mL. One cubic centimetre is one millilitre.",
                hint="In centimetres the volume comes out in mL. Then add the clearance.",
                slips=(
                    Slip(
                        gives=lambda: _ml(4 * _AREA * 1.85 + 3.8),
                        believes="diameter_as_radius",
                        say="Nearly four times too much: the bore went in as the radius.",
                    ),
                    Slip(
                        gives=lambda: _ml(12.96 * 1.85 + 3.8),
                        believes="square_piston",
                        say="That is a square piston, 3.6 × 3.6.",
                    ),
                    Slip(
                        gives=lambda: _ml(_AREA * 3.0 + 3.8),
                        believes="stroke_as_port_closing_stroke",
                        say="That takes the whole stroke. Until the port shuts, nothing is trapped.",
                    ),
                    Slip(
                        gives=lambda: _ml(_AREA * 1.15 + 3.8),
                        believes="height_from_bottom",
                        say="That is the part below the port, counted from the bottom.",
                    ),
                    Slip(
                        gives=lambda: _ml(_AREA * 1.85),
                        believes="clearance_left_out",
                        say="The clearance is filled with charge too.",
                    ),
                ),
            ),
            Blank(
                id="ratio",
                label="Squeezed into 3.8 mL: trapped ratio",
                answer=lambda: float((_trapped() / _ml(3.8)).to("").magnitude),
                within=0.01,
                say="22.6 ÷ 3.8 = 6.0.",
                hint="Trapped volume over clearance.",
                slips=(
                    Slip(
                        gives=lambda: (_AREA * 3.0 + 3.8) / 3.8,
                        believes="geometric_as_trapped",
                        say="That is the geometric ratio, with the whole stroke.",
                    ),
                    Slip(
                        gives=lambda: _AREA * 1.85 / 3.8,
                        believes="clearance_left_out",
                        say="The clearance belongs on top of the fraction too.",
                    ),
                ),
            ),
            "Squeezing warms the air. So the pressure rises 6.0 to the power 1.25, which is 9.39 times.",
        ),
    ),
    Example(
        id="expected_faded",
        title="What must this engine show at 1 500 m, tight and pumped up?",
        lines=(
            "From the table: 0.899 bar at 1 000 m, 0.795 bar at 2 000 m.",
            Blank(
                id="air",
                label="Air at 1 500 m, half-way between the rows",
                unit="bar",
                answer=_air,
                within=0.004,
                say="0.847 by the table; the true curve gives 0.846.",
                hint="Half of 0.899 and 0.795 together.",
                slips=(
                    Slip(
                        gives=lambda: _bar(0.899),
                        believes="nearest_row_is_enough",
                        say="That is the row of 1 000 m. You are half-way to the next.",
                    ),
                    Slip(
                        gives=lambda: _bar(0.795),
                        believes="nearest_row_is_enough",
                        say="That is the row of 2 000 m. You are half-way below it.",
                    ),
                    Slip(
                        gives=lambda: _bar(_SEA),
                        believes="sea_level_everywhere",
                        say="That is the air at sea level.",
                    ),
                ),
            ),
            "Squeezed 9.39 times: 0.846 × 9.39 = 7.94 bar absolute.",
            Blank(
                id="gauge",
                label="The gauge shows",
                unit="bar",
                answer=_expected,
                within=0.006,
                say="7.94 − 0.85 = 7.1 bar. A gauge counts from the air around it.",
                hint="Take the air here off.",
                slips=(
                    Slip(
                        gives=lambda: _air() * _FACTOR,
                        believes="gauge_is_absolute",
                        say="That is absolute. The gauge starts counting at the air.",
                    ),
                    Slip(
                        gives=lambda: _air() * (_FACTOR + 1),
                        believes="subtract_for_absolute",
                        say="The air was put on once more. To go from absolute to gauge it comes off.",
                    ),
                    Slip(
                        gives=lambda: _air() * 5,
                        believes="ratio_is_pressure",
                        say="That squeezes 6 times only, as if the air stayed cold.",
                    ),
                    Slip(
                        gives=lambda: _bar(_SEA * (_FACTOR - 1)),
                        believes="sea_level_everywhere",
                        say="So it would read at the coast.",
                    ),
                    Slip(
                        gives=lambda: _bar(_SEA * (_FACTOR - 1) - (_SEA - _here())),
                        believes="difference_for_ratio",
                        say="The hill takes its share of every bar, not once 0.17 bar.",
                    ),
                ),
            ),
            Blank(
                id="psi",
                label="In psi",
                unit="psi",
                answer=lambda: _expected().to("psi"),
                within=0.015,
                say="7.1 × 14.5 = 103 psi. So 100 psi is a fine reading here.",
                hint="14.5 psi to the bar.",
                slips=(
                    Slip(
                        gives=lambda: units.read("71 psi"),
                        believes="psi_as_tenth_bar",
                        say="That takes ten psi for a bar.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="wet_faded",
        title="Tight engines of this kind show 8.0 bar here. This one: 5.6 bar dry, 7.4 bar wet",
        lines=(
            Blank(
                id="short",
                label="Lacking dry, as a share of the tight engine",
                unit="%",
                answer=lambda: _per_cent(30),
                within=0.02,
                say="2.4 ÷ 8.0 = 30 %.",
                hint="First the loss in bar. Then divide by what a tight engine shows.",
                slips=(
                    Slip(
                        gives=lambda: _per_cent(70),
                        believes="share_of_the_wrong_whole",
                        say="That is what is left.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(100 * 2.4 / 5.6),
                        believes="share_of_the_wrong_whole",
                        say="That counts the loss on what is left.",
                    ),
                ),
            ),
            Blank(
                id="gain",
                label="Gained with oil",
                unit="bar",
                answer=lambda: _bar(1.8),
                within=0.02,
                say="7.4 − 5.6 = 1.8 bar.",
                hint="Wet less dry.",
                slips=(
                    Slip(
                        gives=lambda: _bar(7.4),
                        believes="total_as_change",
                        say="That is the new reading. The change begins at the old one.",
                    ),
                ),
            ),
            "Of 2.4 bar that were lacking, 1.8 came back: 75 %.",
            Blank(
                id="where",
                label="This suggests",
                answer="rings, piston or bore",
                options=("rings, piston or bore", "plug seat, gasket or valve", "nothing: the oil cured it"),
                believes={
                    "plug seat, gasket or valve": "any_rise_means_rings",
                    "nothing: the oil cured it": "oil_repairs",
                },
                say="Oil seals there and hardly anywhere else, and most came back.",
                hint="Where in the cylinder can oil seal? How much of the loss came back?",
            ),
            "Confirm it with a leak-down or by looking through the exhaust port before you order parts.",
        ),
    ),
    Example(
        id="hill_alone",
        title="Low limit 6.9 bar at sea level. Workshop at 1 500 m, air 0.846 bar. The gauge shows 5.8 bar",
        stage="alone",
        lines=(
            Blank(
                id="limit",
                label="The low limit here is",
                unit="bar",
                answer=_limit,
                within=0.01,
                say="6.9 × 0.846 ÷ 1.013 = 5.76 bar.",
                hint="Which part of sea-level air have you here? The limit has the same part.",
                slips=(
                    Slip(
                        gives=lambda: _bar(6.9),
                        believes="sea_level_everywhere",
                        say="That is the limit at the coast.",
                    ),
                    Slip(
                        gives=lambda: _bar(6.9 - (_SEA - _here())),
                        believes="difference_for_ratio",
                        say="The lost air was taken off once. It is a share of every bar.",
                    ),
                    Slip(
                        gives=lambda: _bar(6.9 * _SEA / _here()),
                        believes="factor_turned_round",
                        say="Higher than at the coast? Thinner air cannot do that.",
                    ),
                ),
            ),
            Blank(
                id="verdict",
                label="Standard uncertainty of the gauge 0.1 bar. The engine is",
                answer=compression.judge("5.8 bar", _limit(), None, "0.1 bar"),
                options=("in", "out", "undecided"),
                believes={"in": "inside_is_always_good", "out": "reading_is_exact"},
                say="The guard band is 0.16 bar. 5.8 is within it.",
                hint="1.645 × 0.1 bar. How far is 5.8 from the limit?",
            ),
        ),
    ),
    Example(
        id="hold_alone",
        title="Crankcase and tester hold 300 mL. In 2 minutes the gauge falls from 0.50 to 0.42 bar",
        stage="alone",
        lines=(
            Blank(
                id="drop",
                label="The drop is",
                unit="bar",
                answer=lambda: _bar(0.08),
                within=0.01,
                say="0.08 bar.",
                hint="Start less end.",
                slips=(
                    Slip(
                        gives=lambda: _bar(0.42),
                        believes="level_for_change",
                        say="That is what is left, not what has gone.",
                    ),
                ),
            ),
            Blank(
                id="leak",
                label="The leak is",
                unit="mL/min",
                answer=_leak,
                within=0.02,
                say="300 × 0.08 ÷ (1.013 × 2) = 11.8 mL a minute, counted as outside air.",
                hint="Volume times drop, over the air's 1.013 bar and the minutes.",
                slips=(
                    Slip(
                        gives=lambda: _leak() / 60,
                        believes="seconds_as_minutes",
                        say="That is for one second.",
                    ),
                    Slip(
                        gives=lambda: _leak() * 2,
                        believes="amount_as_rate",
                        say="That is all that leaked in the two minutes.",
                    ),
                    Slip(
                        gives=lambda: _leak() * 0.42 / 0.08,
                        believes="level_for_change",
                        say="The pressure left over was put in, not the drop.",
                    ),
                ),
            ),
        ),
    ),
)
