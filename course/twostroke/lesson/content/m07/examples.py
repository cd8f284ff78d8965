"""Lesson 07: worked with gaps, then alone. All machines and readings are invented."""

from __future__ import annotations

from typing import TYPE_CHECKING

from twostroke import resistance, units
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity

_PLACES = ("stop lead", "stop switch", "ground of the module", "module, magnets or gap")


def _ohm(value: float) -> Quantity:
    return units.read(f"{value:.10g} ohm")


def _both() -> Quantity:
    return resistance.parallel("1.2 ohm", "4 ohm")


EXAMPLES = (
    Example(
        id="paths_faded",
        title="Stop lead on: primary 1.2 Ω, chafed lead 4.0 Ω to metal",
        lines=(
            "The current has two ways: through the winding, and through the chafe.",
            Blank(
                id="both",
                label="From stop terminal to metal the meter shows",
                unit="ohm",
                answer=_both,
                within=0.01,
                say="1 ÷ (1 ÷ 1.2 + 1 ÷ 4.0) = 0.92 Ω.",
                hint="One over each, add up, one over that.",
                slips=(
                    Slip(
                        gives=lambda: _ohm(5.2),
                        believes="parallel_as_series",
                        say="That is one after the other. Side by side is less than either.",
                    ),
                    Slip(
                        gives=lambda: _ohm(1.2),
                        believes="resistance_in_band_proves",
                        say="That is the winding alone. The chafe lies beside it.",
                    ),
                ),
            ),
            "The band is 1.10 to 1.30 Ω: out, though the winding is good.",
            Blank(
                id="next",
                label="What do you do next?",
                answer="take the stop lead off and measure again",
                options=("order a module", "take the stop lead off and measure again", "call it good"),
                believes={"order a module": "module_first", "call it good": "no_continuity_is_good"},
                say="Now the winding is alone, and the lead can be measured alone.",
                hint="Which of the two paths is at fault? How can you part them?",
            ),
        ),
    ),
    Example(
        id="findings_faded",
        title="No spark. With the stop lead off: spark at every pull",
        lines=(
            "So module, gap, magnets, plug and high-tension lead are able to spark.",
            "Stop lead alone, to metal, unplugged at both ends: over range.",
            Blank(
                id="where",
                label="Switch alone, at run: 0.3 Ω. The fault is in the",
                answer=_PLACES[1],
                options=_PLACES,
                believes={
                    _PLACES[0]: "no_continuity_is_good",
                    _PLACES[2]: "ground_is_optional",
                    _PLACES[3]: "module_first",
                },
                say="At run a switch must be open. This one is closed.",
                hint="Which finding is not as on a sound machine?",
            ),
            Blank(
                id="leads",
                label="The probes held together show 0.2 Ω. So the switch itself has",
                unit="ohm",
                answer=lambda: _ohm(0.1),
                within=0.02,
                say="0.3 − 0.2 = 0.1 Ω: a good contact, only at the wrong time.",
                hint="Leads off, once.",
                slips=(
                    Slip(
                        gives=lambda: _ohm(0.3),
                        believes="lead_resistance_ignored",
                        say="The leads are still in it.",
                    ),
                    Slip(
                        gives=lambda: _ohm(-0.1),
                        believes="leads_for_each_probe",
                        say="Less than nothing: the leads came off twice.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="case_alone",
        title=(
            "No spark, and none with the stop lead off. Switch and lead: over range at run. Core to"
            " engine metal: over range"
        ),
        stage="alone",
        lines=(
            Blank(
                id="where",
                label="The fault is in the",
                answer=_PLACES[2],
                options=_PLACES,
                believes={
                    _PLACES[0]: "no_continuity_is_good",
                    _PLACES[1]: "leak_must_be_short",
                    _PLACES[3]: "module_first",
                },
                say="The spark has no way back. Clean the seat and the screws, then measure again.",
                hint="Where does the current of the spark return to the module?",
            ),
        ),
    ),
)
