"""Lesson 15: own readings worked with gaps, then alone. Machines and bands are invented."""

from __future__ import annotations

from typing import TYPE_CHECKING

from twostroke import compression, gap, units
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity

_LIMIT, _HEIGHT = "7.5 bar", "1000 m"


def _here() -> Quantity:
    return compression.reading_at_altitude(_LIMIT, _HEIGHT)


EXAMPLES = (
    Example(
        id="own_gap_faded",
        title="Your leaf says 14 thou. The manual says 0.25 to 0.35 mm. Your leaves: doubt 0.5 thou",
        lines=(
            "The bench takes either unit. To see for yourself, bring both to one.",
            Blank(
                id="mm",
                label="14 thou in mm",
                unit="mm",
                within=0.01,
                answer=lambda: units.read("14 thou"),
                say="14 × 0.0254 = 0.356 mm.",
                hint="A thou is 0.0254 mm.",
                slips=(
                    Slip(
                        gives=lambda: units.read("0.14 mm"),
                        believes="thou_as_hundredth_mm",
                        say="That is 14 hundredths. A thou is about two and a half of them.",
                    ),
                ),
            ),
            "It stands 0.006 mm past the limit. The doubt is 0.013 mm, its guard band 0.021 mm.",
            Blank(
                id="verdict",
                label="Verdict",
                options=("in", "out", "undecided"),
                answer=str(gap.judge("14 thou", "0.25 mm", "0.35 mm", "0.5 thou")),
                believes={"in": "inside_is_always_good", "out": "reading_is_exact"},
                say="Nearer to the limit than the guard band. Set it to the middle, and it is no question.",
                hint="Which is larger, the distance from the limit or the guard band?",
            ),
        ),
    ),
    Example(
        id="own_hill_alone",
        title="The manual: at least 7.5 bar, at sea level. You work at 1 000 m",
        stage="alone",
        lines=(
            Blank(
                id="limit",
                label="Your limit here",
                unit="bar",
                within=0.01,
                answer=_here,
                say="7.5 × 0.887 = 6.65 bar (ISO 2533).",
                hint="The whole reading falls in step with the air: 0.887 of sea level at 1 000 m.",
                slips=(
                    Slip(
                        gives=lambda: units.read("7.386 bar"),
                        believes="difference_for_ratio",
                        say="Only the 0.11 bar that the air has lost came off. The reading loses its share.",
                    ),
                    Slip(
                        gives=lambda: units.read(_LIMIT),
                        believes="sea_level_everywhere",
                        say="That is the figure for the coast.",
                    ),
                ),
            ),
        ),
    ),
)
