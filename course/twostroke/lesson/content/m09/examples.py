"""Lesson 09: worked with gaps, then alone. All cans, sheds and machines are invented."""

from __future__ import annotations

from typing import TYPE_CHECKING

from twostroke import fuel, units
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity

_MIX = 2600.0  # mL, at 25:1
_OLD, _WANTED = 25, 50
_FOUND, _SCREEN_OUT, _LEANER = 6400.0, 8000.0, 6700.0  # rpm


def _ml(value: float) -> Quantity:
    return units.read(f"{value:.10g} mL")


def _litres(value: float) -> Quantity:
    return units.read(f"{value / 1000:.10g} L")


def _per_cent(value: float) -> Quantity:
    return units.read(f"{value:.10g} %")


def _oil() -> Quantity:
    return _ml(_MIX * fuel.oil_share_of_mix(f"{_OLD}:1"))


def _add() -> Quantity:
    oil = float(_oil().to("mL").magnitude)
    return _litres(oil * _WANTED - (_MIX - oil))


def _pressure(celsius: float, substance: str) -> Quantity:
    return fuel.vapour_pressure(f"{celsius} degC", substance)


def _times() -> float:
    return float((_pressure(15, "n-pentane") / _pressure(15, "n-heptane")).to("").magnitude)


def _gain(after: float, before: float = _FOUND) -> Quantity:
    return _per_cent(100 * (after - before) / before)


_VERDICT = {
    "blocked screen": "",
    "rich mixture": "screws_mend_anything",
    "lean mixture": "screws_mend_anything",
    "worn engine": "parts_first",
}

EXAMPLES = (
    Example(
        id="mix_faded",
        title="2.60 L of mixture, made at 25:1. The machine wants 50:1",
        lines=(
            "25 parts of fuel and 1 of oil: the mixture has 26 parts.",
            Blank(
                id="oil",
                label="Oil in it, 2 600 mL ÷ 26 =",
                unit="mL",
                answer=_oil,
                within=0.01,
                say="2 600 ÷ 26 = 100 mL.",
                hint="How many parts has the mixture, fuel and oil together?",
                slips=(
                    Slip(
                        gives=lambda: _ml(_MIX / _OLD),
                        believes="ratio_of_mix",
                        say="That divides by 25. The mixture has 26 parts.",
                    ),
                    Slip(
                        gives=lambda: _ml(_MIX * _OLD / 100),
                        believes="ratio_as_percent",
                        say="That is a quarter of the can. 25:1 is not 25 per cent.",
                    ),
                    Slip(
                        gives=lambda: _ml(_MIX * _OLD / (_OLD + 1)),
                        believes="ratio_turned_round",
                        say="That is the fuel. The oil is the one part.",
                    ),
                ),
            ),
            "So 2 600 − 100 = 2 500 mL of fuel are in it.",
            Blank(
                id="add",
                label="100 mL of oil want 50 × 100 mL of fuel. So pour in",
                unit="L",
                answer=_add,
                within=0.01,
                say="5 000 − 2 500 = 2 500 mL, or 2.5 L.",
                hint="Fuel wanted less fuel that is there.",
                slips=(
                    Slip(
                        gives=lambda: _litres(5000),
                        believes="total_as_change",
                        say="That is all the fuel it wants. Half of it is in the can already.",
                    ),
                    Slip(
                        gives=lambda: _litres(5000 - _MIX),
                        believes="ratio_of_mix",
                        say="The oil in the can was taken for fuel.",
                    ),
                    Slip(
                        gives=lambda: _litres(_MIX / 2),
                        believes="share_of_the_wrong_whole",
                        say="Half of the can is not half of what is missing. Count by the oil.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="vapour_faded",
        title="A shed at 15 °C: how much vapour do the light part and the rest give?",
        lines=(
            "From the table: light part 37.8 kPa at 10 °C, 56.6 at 20 °C. What is left: 2.75 and 4.72 kPa.",
            Blank(
                id="light",
                label="Light part, half-way between the rows",
                unit="kPa",
                answer=lambda: _pressure(15, "n-pentane"),
                within=0.025,
                say="47.2 by the table; the true curve gives 46.4.",
                hint="Half of 37.8 and 56.6 together.",
                slips=(
                    Slip(
                        gives=lambda: _pressure(10, "n-pentane"),
                        believes="nearest_row_is_enough",
                        say="That is the row of 10 °C.",
                    ),
                    Slip(
                        gives=lambda: _pressure(20, "n-pentane"),
                        believes="nearest_row_is_enough",
                        say="That is the row of 20 °C.",
                    ),
                    Slip(
                        gives=lambda: _pressure(15, "n-heptane"),
                        believes="wrong_column",
                        say="That is the column of what is left.",
                    ),
                ),
            ),
            "What is left, half-way: 3.7 kPa.",
            Blank(
                id="times",
                label="The light part gives how many times more?",
                answer=_times,
                within=0.05,
                say="47.2 ÷ 3.7 is about 13 times.",
                hint="How often does 3.7 go into 47?",
                slips=(
                    Slip(
                        gives=lambda: 47.2 - 3.7,
                        believes="difference_for_ratio",
                        say="That is the difference. Times means divide.",
                    ),
                    Slip(
                        gives=lambda: 3.7 / 47.2,
                        believes="factor_turned_round",
                        say="That is the heavy part as a share of the light one.",
                    ),
                ),
            ),
            Blank(
                id="do",
                label="The fuel is nine months old, the cap was loose. You",
                answer="drain it and fill fresh mixture",
                options=(
                    "drain it and fill fresh mixture",
                    "use it with more choke",
                    "add a little oil",
                    "use it: it burns in a dish",
                ),
                believes={
                    "use it with more choke": "stale_still_burns",
                    "add a little oil": "more_oil_is_safer",
                    "use it: it burns in a dish": "stale_still_burns",
                },
                say="Outdoors, into a marked can. The light part that lights a cold engine has gone.",
                hint="What left the can first, and what needs it?",
            ),
        ),
    ),
    Example(
        id="screen_alone",
        title=(
            "Weak at full throttle. As found 6 400 rpm; screen out 8 000 rpm; screen back in and a quarter"
            " turn leaner 6 700 rpm"
        ),
        stage="alone",
        lines=(
            Blank(
                id="screen",
                label="Gain with the screen out",
                unit="%",
                answer=lambda: _gain(_SCREEN_OUT),
                within=0.02,
                say="1 600 of 6 400 is 25 per cent.",
                hint="Difference first. Then: what part of the speed as found is that?",
                slips=(
                    Slip(
                        gives=lambda: _gain(_SCREEN_OUT, _LEANER),
                        believes="two_changes_at_once",
                        say="That was held against the other change.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(100 * (_SCREEN_OUT - _FOUND) / _SCREEN_OUT),
                        believes="share_of_the_wrong_whole",
                        say="That is a share of the new speed.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(125),
                        believes="total_as_change",
                        say="That is the new speed as per cent of the old.",
                    ),
                ),
            ),
            Blank(
                id="leaner",
                label="Gain with the leaner screw",
                unit="%",
                answer=lambda: _gain(_LEANER),
                within=0.05,
                say="300 of 6 400 is 4.7 per cent.",
                hint="Compare with the run before anything was changed.",
                slips=(
                    Slip(
                        gives=lambda: _gain(_LEANER, _SCREEN_OUT),
                        believes="two_changes_at_once",
                        say="That was held against the run with the screen out.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(100 * _LEANER / _FOUND),
                        believes="total_as_change",
                        say="That is the new speed as per cent of the old.",
                    ),
                ),
            ),
            Blank(
                id="verdict",
                label="It suggests",
                answer="blocked screen",
                options=tuple(_VERDICT),
                believes={name: key for name, key in _VERDICT.items() if key},
                say="Clean or renew the screen, put the screw back, and ask where the soot came from.",
                hint="Which of the two changes moved the speed most?",
            ),
        ),
    ),
)
