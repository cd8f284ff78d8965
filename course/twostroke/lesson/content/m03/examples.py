"""Lesson 03: worked with gaps, then alone."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from twostroke import burn, ignition, units
from twostroke.lesson.figures.demo_engine import ignition_system
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity


def _speed(milliseconds: float) -> Quantity:
    """Speed of a turn that takes so long."""
    return units.read(f"{60_000 / milliseconds} rpm")


@cache
def _seen() -> burn.Waveform:
    return burn.waveform(ignition_system(), 800.0, 8e3)


def _burn() -> Quantity:
    return units.read(f"{(_seen().burn_end - _seen().breakdown) * 1e3} ms")


def _energy(share: float = 0.5, power: int = 2) -> Quantity:
    return units.read(f"{share * 1.0 * 4.0**power} mJ")


@cache
def _enough() -> Quantity:
    return units.read(f"{ignition.minimum_speed(ignition_system(), 8e3)[0]} rpm")


EXAMPLES = (
    Example(
        id="speed_faded",
        title="Four sparks of one pull came at 12.0, 96.5, 171.5 and 253.0 ms",
        lines=(
            "Times between them: 84.5 ms, 75.0 ms, 81.5 ms. One spark a turn.",
            Blank(
                id="which",
                label="The fastest turn took",
                options=("75.0 ms", "84.5 ms", "80.3 ms, the mean"),
                answer="75.0 ms",
                believes={"84.5 ms": "longer_is_faster", "80.3 ms, the mean": "mean_of_pull"},
                say="The shortest time is the fastest turn.",
                hint="A fast turn is over soon.",
            ),
            Blank(
                id="rpm",
                label="Its speed, 60 000 ÷ the time in ms, is",
                unit="rpm",
                answer=lambda: _speed(75.0),
                say="800 rpm.",
                hint="A minute has 60 000 ms.",
                slips=(
                    Slip(
                        gives=lambda: _speed(84.5),
                        believes="longer_is_faster",
                        say="That is the slowest turn.",
                    ),
                    Slip(
                        gives=lambda: _speed(241.0 / 3),
                        believes="mean_of_pull",
                        say="That is the mean of three turns. The rope speeds up, compression slows down.",
                    ),
                ),
            ),
            "Check: a brisk pull of a small machine lies near 800 rpm (common practice, no source). ✓",
        ),
    ),
    Example(
        id="trace_faded",
        title="A trace at 800 rpm: 8.0 kV at 0.01 ms, then 0.4 kV until 1.16 ms, then waves up to 1.9 ms",
        lines=(
            "The spike is over in a hundredth of a millisecond.",
            Blank(
                id="peak",
                label="The gap asked for",
                unit="kV",
                answer=lambda: units.read("8.0 kV"),
                say="8.0 kV: the top of the spike. It broke down there.",
                hint="Look for the highest point.",
                slips=(
                    Slip(
                        gives=lambda: units.read("0.4 kV"),
                        believes="burn_as_peak",
                        say="That keeps a spark burning. To begin takes twenty times as much.",
                    ),
                ),
            ),
            Blank(
                id="burn",
                label="The spark burned for",
                unit="ms",
                within=0.03,
                answer=_burn,
                say="1.15 ms: from the spike to the end of the flat line.",
                hint="1.16 ms less 0.01 ms.",
                slips=(
                    Slip(
                        gives=lambda: units.read("1.89 ms"),
                        believes="ringing_counted",
                        say="The waves after 1.16 ms are what is left, ringing away. Nothing burns.",
                    ),
                ),
            ),
            "A recorder that keeps few points can miss the spike. Then its peak reads low.",
        ),
    ),
    Example(
        id="energy_alone",
        title="A primary of 1.0 mH opens at 4.0 A. Energy is ½ × L × I²",
        stage="alone",
        lines=(
            Blank(
                id="energy",
                label="It holds",
                unit="mJ",
                answer=_energy,
                say="8.0 mJ: half of 1.0 × 4.0 × 4.0.",
                hint="Square the current, times 1.0, then halve.",
                slips=(
                    Slip(
                        gives=lambda: _energy(0.5, 1),
                        believes="energy_in_proportion",
                        say="The current was not squared.",
                    ),
                    Slip(
                        gives=lambda: _energy(1.0),
                        believes="energy_in_proportion",
                        say="The half is missing: the current had to grow from nothing.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="enough_alone",
        title="The demo module gives 6.8 kV at 400 rpm and 8.8 kV at 500 rpm. The gap asks for 8.0 kV",
        stage="alone",
        lines=(
            Blank(
                id="speed",
                label="It sparks from",
                unit="rpm",
                within=0.02,
                answer=_enough,
                say="About 460 rpm: 1.2 of 2.0 kV, so six tenths of the way from 400 to 500.",
                hint="How many tenths of the way from 6.8 to 8.8 kV is 8.0 kV?",
                slips=(
                    Slip(
                        gives=lambda: units.read("500 rpm"),
                        believes="nearest_row_is_enough",
                        say="That is the next row. The true one lies between.",
                    ),
                    Slip(
                        gives=lambda: units.read("400 rpm"),
                        believes="nearest_row_is_enough",
                        say="At 400 rpm there are only 6.8 kV.",
                    ),
                ),
            ),
        ),
    ),
)
