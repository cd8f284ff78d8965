"""Lab 07: leads taken off and the reading brought to 20 °C."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from twostroke import resistance
from twostroke.lab.conversion import convert
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

COPPER = 0.00393
"""Change of copper's resistance for one degree, referred to 20 °C, as given to the learner (IEC 60028)."""


@lru_cache(maxsize=1024)
def _to_20(celsius: float) -> float:
    """Factor from a temperature to 20 °C, by the library."""
    return float(resistance.at_temperature("1 ohm", f"{celsius} degC", "20 degC").to("ohm").magnitude)


def _leads(v: Variant) -> float:
    return float(v["leads_hundredths_ohm"]) / 100


def _shown(v: Variant) -> float:
    """Display with winding and leads together, ohm to 0.01."""
    return float(v["primary_hundredths_ohm"] + v["leads_hundredths_ohm"]) / 100


def _warm(v: Variant) -> float:
    return float(v["winding_degC"])


def _show(v: Variant) -> Page:
    rows = (
        ("primary winding, on the display", f"{_shown(v):.2f} Ω"),
        ("probes held together, on the display", f"{_leads(v):.2f} Ω"),
        ("winding, by a probe thermometer", f"{v['winding_degC']} °C"),
        ("copper, for one degree from 20 °C", f"{COPPER} of the resistance at 20 °C"),
    )
    table = Table(f"{v['machine']}, demo engine {v['engine']}, just stopped", ("what", "reading"), rows)
    return Page("", (table, Text("The maker's band is for 20 °C.")))


def _close(v: Variant) -> Tolerance:
    factor = _to_20(_warm(v))
    per_degree = (_shown(v) - _leads(v)) * factor**2 * COPPER
    return tolerance(
        0.01, (factor, 0.005), (factor, 0.005), (per_degree, 0.5),
        reason="half a step of 0.01 Ω, both displays to half of that, the winding to half of 1 °C",
    )  # fmt: skip


def _at_20(v: Variant, own: Any) -> float:
    return float(own["correct.winding"]) * _to_20(_warm(v))


TASK = Task(
    id="correct",
    title="Leads off, and to 20 °C",
    outcome="take the leads off a reading and bring it to 20 °C",
    kind="value",
    points=3,
    competency="units and measuring",
    show=_show,
    items=(
        Number(
            "winding", "winding without the leads", "ohm", lambda v, own: _shown(v) - _leads(v),
            tolerance(0.01, (1, 0.005), (1, 0.005),
                reason="half a step of 0.01 Ω, both displays to half of that"),
            -100, 1e6,
            (
                slip("lead_resistance_ignored", lambda v, own: _shown(v),
                     "The display as it stands.", "The leads were left in.",
                     "What does the display show with nothing between the probes?"),
                slip("leads_added", lambda v, own: _shown(v) + _leads(v),
                     "More than the display shows.", "The leads were added instead of taken off.",
                     "Are the leads already in what the display shows?",
                         misconception="lead_resistance_ignored"),
                slip("leads_twice", lambda v, own: _shown(v) - 2 * _leads(v),
                     "Less than the winding has.", "The leads were taken off once for each probe.",
                     "Both leads were in the reading with the probes held together: how often, then?",
                     misconception="leads_for_each_probe"),
            ),
            Feedback("It does not follow from the two displays.", "A decimal place may be off.",
                     "Write both displays one below the other and take off."),
            2, any_unit=True, share=1,
        ),
        Number(
            "at_20", "the same at 20 °C", "ohm", _at_20, _close, -100, 1e6,
            (
                slip("cold_reading_hot_band", lambda v, own: own["correct.winding"],
                     "The warm reading again.", "The temperature was left out.",
                     "Would the same winding read more or less at 20 °C?"),
                slip("temperature_turned_round", lambda v, own: own["correct.winding"] / _to_20(_warm(v)),
                     "More than the warm reading.", "It was corrected the wrong way.",
                     "Copper has less resistance when it cools: must the figure grow or shrink?",
                     misconception="factor_turned_round"),
                slip("whole_temperature", lambda v, own: own["correct.winding"] / (1 + COPPER * _warm(v)),
                     "Corrected too much.", "The degrees were counted from 0 °C.",
                     "From which temperature does the copper figure count?"),
                slip("fahrenheit_as_celsius",
                     lambda v, own: own["correct.winding"] / (1 + COPPER * (convert(_warm(v), "degC",
                         "degF") - 20)),
                     "Corrected far too much.", "Degrees Fahrenheit were put in.",
                     "Which scale is the copper figure made for?"),
            ),
            Feedback("It does not follow from your own winding.", "A bracket or a sign may be off.",
                     "Divide by one plus copper figure times degrees above 20 °C."),
            2, any_unit=True, share=2,
        ),
    ),
)  # fmt: skip
