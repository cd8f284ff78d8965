"""Lesson 11: worked with gaps, then alone. All logs, windings and counts are invented."""

from __future__ import annotations

from typing import TYPE_CHECKING

from twostroke import resistance, units
from twostroke.lesson.figures.comes_and_goes import starts_needed
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity

_PULLS, _MISSED = 30, {20: 0, 40: 3, 60: 9, 80: 19, 100: 27}
_COLD, _COLD_AT, _HOT, _HOT_AT = "2.60 kohm", "10 degC", "4.10 kohm", "90 degC"
_FAILS, _CLEAN, _DOUBT = 0.3, 5, 0.5
_ALONE = 0.2


def _per_cent(value: float) -> Quantity:
    return units.read(f"{value:.10g} %")


def _celsius(value: float) -> Quantity:
    return units.read(f"{value:.10g} degC")


def _kohm(value: float) -> Quantity:
    return units.read(f"{value:.10g} kohm")


def _half() -> Quantity:
    low, high = _MISSED[60], _MISSED[80]
    return _celsius(60 + 20 * (_PULLS / 2 - low) / (high - low))


def _copper() -> Quantity:
    return resistance.at_temperature(_COLD, _COLD_AT, _HOT_AT)


def _at_20() -> Quantity:
    return resistance.at_temperature(_HOT, _HOT_AT, "20 degC")


def _hides() -> float:
    return float((1 - _FAILS) ** _CLEAN)


def _still() -> float:
    return _DOUBT * _hides() / (_DOUBT * _hides() + 1 - _DOUBT)


_FEWEST = starts_needed(_ALONE, 0.9)

EXAMPLES = (
    Example(
        id="log_faded",
        title=("30 pulls at each temperature. Dark: 0 at 20 °C, 3 at 40, 9 at 60, 19 at 80, 27 at 100 °C"),
        lines=(
            "Dark pulls over all pulls, row by row.",
            Blank(
                id="hot",
                label="Stays dark at 100 °C",
                unit="%",
                answer=lambda: _per_cent(100 * _MISSED[100] / _PULLS),
                within=0.01,
                say="27 ÷ 30 = 90 per cent.",
                hint="Dark pulls over all pulls of that row.",
                slips=(
                    Slip(
                        gives=lambda: _per_cent(10),
                        believes="wrong_column",
                        say="That is the share that flashed.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(27),
                        believes="label_swapped",
                        say="27 is a count. Of how many?",
                    ),
                    Slip(
                        gives=lambda: _per_cent(900),
                        believes="share_of_the_wrong_whole",
                        say="That is dark over flashed. A share is counted on all.",
                    ),
                ),
            ),
            "Half of the pulls are 15. That lies between 60 °C (9) and 80 °C (19).",
            Blank(
                id="half",
                label="Half stay dark at",
                unit="degC",
                answer=_half,
                within=0.004,
                say="60 + 20 × (15 − 9) ÷ (19 − 9) = 72 °C.",
                hint="6 of the 10 between the rows, so 6 tenths of the 20 degrees.",
                slips=(
                    Slip(
                        gives=lambda: _celsius(60),
                        believes="nearest_row_is_enough",
                        say="That is the row below. 9 are not half yet.",
                    ),
                    Slip(
                        gives=lambda: _celsius(80),
                        believes="nearest_row_is_enough",
                        say="That is the row above. 19 are past half.",
                    ),
                    Slip(
                        gives=lambda: _celsius(80 * 15 / 19),
                        believes="in_proportion_from_zero",
                        say="That scales the row of 80 from nothing. At 20 °C none is dark.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="copper_faded",
        title="Secondary winding: 2.60 kΩ at 10 °C; warmed off the machine 4.10 kΩ at 90 °C",
        lines=(
            "To 20 °C: 2.60 ÷ (1 + 0.00393 × (10 − 20)) = 2.60 ÷ 0.961 = 2.71 kΩ.",
            Blank(
                id="copper",
                label="Copper alone at 90 °C, 2.71 × (1 + 0.00393 × 70) =",
                unit="kohm",
                answer=_copper,
                within=0.008,
                say="2.71 × 1.275 = 3.45 kΩ.",
                hint="70 degrees above 20.",
                slips=(
                    Slip(
                        gives=lambda: _kohm(2.6),
                        believes="cold_reading_hot_band",
                        say="Copper does not read the same when it is warm.",
                    ),
                    Slip(
                        gives=lambda: _kohm(2.6 * (1 + 0.00393 * 90)),
                        believes="in_proportion_from_zero",
                        say="That counts from 0 °C, and from a reading at 10.",
                    ),
                    Slip(
                        gives=lambda: _kohm(2.6 * 9),
                        believes="in_proportion_from_zero",
                        say="Nine times the degrees is not nine times the ohms.",
                    ),
                ),
            ),
            "The display showed 4.10 kΩ. Compare, or go the other way:",
            Blank(
                id="at_20",
                label="The hot reading, brought to 20 °C: 4.10 ÷ 1.275 =",
                unit="kohm",
                answer=_at_20,
                within=0.008,
                say="3.22 kΩ, where the cold one gave 2.71.",
                hint="Divide: back at 20 °C it must be less.",
                slips=(
                    Slip(
                        gives=lambda: _kohm(4.1),
                        believes="cold_reading_hot_band",
                        say="That is the hot reading as it stands.",
                    ),
                    Slip(
                        gives=lambda: _kohm(4.1 * 1.275),
                        believes="factor_turned_round",
                        say="That makes it hotter still.",
                    ),
                ),
            ),
            Blank(
                id="verdict",
                label="It suggests",
                answer="something opens with heat",
                options=("copper alone", "something opens with heat", "turns touch with heat"),
                believes={
                    "copper alone": "cold_reading_hot_band",
                    "turns touch with heat": "cold_reading_hot_band",
                },
                say="It reads 19 per cent more than copper can. Test the spark hot to prove it.",
                hint="Is the hot reading above or below what copper alone would show?",
            ),
        ),
    ),
    Example(
        id="doubt_faded",
        title="A connector was reseated; doubt 50 per cent. It failed 30 of 100 starts. Now 5 clean starts",
        lines=(
            "Lay out 100 such machines: 50 still have the fault, 50 have not.",
            Blank(
                id="hides",
                label="All 5 clean with the fault there, 0.7 × 0.7 × 0.7 × 0.7 × 0.7 =",
                answer=_hides,
                within=0.02,
                say="0.17, so 8 of the 50.",
                hint="Each start is clean with 0.7.",
                slips=(
                    Slip(
                        gives=lambda: 1 - _hides(),
                        believes="at_least_once_is_always",
                        say="That is at least one failure. All clean is the rest.",
                    ),
                    Slip(
                        gives=lambda: _FAILS**_CLEAN,
                        believes="at_least_once_is_always",
                        say="That is failing every time.",
                    ),
                    Slip(
                        gives=lambda: 1 - _CLEAN * _FAILS,
                        believes="chances_added",
                        say="Below nothing: chances of trials do not add up.",
                    ),
                ),
            ),
            "Without the fault all 50 start cleanly.",
            Blank(
                id="still",
                label="So of 58 with clean starts, the fault is still in",
                unit="%",
                answer=lambda: _per_cent(100 * _still()),
                within=0.06,
                say="8 of 58: 14 per cent.",
                hint="8 of the 58 that started cleanly.",
                slips=(
                    Slip(
                        gives=lambda: _per_cent(100 * _hides()),
                        believes="likelihood_as_chance",
                        say="That is how often a fault hides so long.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(100 * _DOUBT * _hides()),
                        believes="share_of_the_wrong_whole",
                        say="That is 8 of all 100. Those that failed are out.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(50),
                        believes="common_is_likely_here",
                        say="That is the doubt before. The clean starts have moved it.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="clean_alone",
        title="Before the repair it failed 8 of 40 starts, hot. You want to be sure by 90 per cent",
        stage="alone",
        lines=(
            Blank(
                id="chance",
                label="Chance that a start fails",
                unit="%",
                answer=lambda: _per_cent(100 * _ALONE),
                within=0.01,
                say="8 ÷ 40 = 20 per cent.",
                hint="Failed starts over all starts.",
                slips=(
                    Slip(
                        gives=lambda: _per_cent(80),
                        believes="wrong_column",
                        say="That is the share that went well.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(25),
                        believes="share_of_the_wrong_whole",
                        say="That is failed over clean.",
                    ),
                ),
            ),
            Blank(
                id="within",
                label="The owner tries four times. Chance that it fails at least once",
                unit="%",
                answer=lambda: _per_cent(100 * (1 - (1 - _ALONE) ** 4)),
                within=0.015,
                say="1 − 0.8 × 0.8 × 0.8 × 0.8 = 59 per cent.",
                hint="First: all four go well. Then what is left.",
                slips=(
                    Slip(
                        gives=lambda: _per_cent(400 * _ALONE),
                        believes="chances_added",
                        say="Four times 20. With six tries that would be more than all.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(100 * (1 - _ALONE) ** 4),
                        believes="at_least_once_is_always",
                        say="That it never fails. At least once is the rest.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(100 * _ALONE**4),
                        believes="at_least_once_is_always",
                        say="That it fails every time.",
                    ),
                ),
            ),
            Blank(
                id="needed",
                label="Clean starts needed, hot",
                answer=lambda: float(_FEWEST),
                within=0.01,
                say="0.8 ten times over is 0.107, eleven times 0.086: so 11.",
                hint="0.8 times itself, until it is 0.10 or less. How often?",
                slips=(
                    Slip(
                        gives=lambda: float(_FEWEST - 1),
                        believes="it_started_so_fixed",
                        say="Ten leave 10.7 per cent. Round up.",
                    ),
                    Slip(
                        gives=lambda: 5.0,
                        believes="chances_added",
                        say="One failure in five on average. But 33 of 100 times five all go well.",
                    ),
                    Slip(
                        gives=lambda: 1.0,
                        believes="it_started_so_fixed",
                        say="It started four times of five before the repair.",
                    ),
                ),
            ),
        ),
    ),
)
