"""Demo engines A to F: invented machines with plausible dimensions. They stand for no maker's engine.

Everything a maker's manual would say of the machine stands here: dimensions, and the bands that a technician
compares a reading with. Bands are text, as a manual prints them.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any

from twostroke.errors import TwoStrokeError

INVENTED = "demo engine, invented for teaching; not a maker's data"


@dataclass(frozen=True, eq=False)
class Model:
    """One invented machine. SI values inside; bands as printed text."""

    letter: str
    name: str
    # cylinder
    bore: float
    stroke: float
    rod: float
    geometric_ratio: float
    port_closing: float
    ignition_advance: float
    # flywheel and module
    flywheel_radius: float
    shoe_width: float
    leg_width: float
    pitch: float
    depth: float
    magnet_width: float
    magnet_thickness: float
    remanence: float
    leg_height: float
    yoke: float
    primary_turns: int
    secondary_turns: int
    primary_wire: float
    secondary_wire: float
    primary_mean_turn: float
    secondary_mean_turn: float
    shaft_diameter: float
    # hand start
    pull_speed: float
    primer_bulb: bool = True
    decompressor: bool = False
    tank_over_module: bool = False
    spark_arrester: bool = True
    # what the (invented) manual says
    bands: dict[str, str] = field(default_factory=dict)

    @property
    def title(self) -> str:
        """Name with the words that say it is invented."""
        return f"{self.name}, demo engine {self.letter} (invented)"

    def scaled(self, displacement: float) -> Model:
        """The same machine grown or shrunk in bore, stroke and rod to a displacement (cubic metres)."""
        times = (displacement / self.displacement) ** (1.0 / 3.0)
        return replace(self, bore=self.bore * times, stroke=self.stroke * times, rod=self.rod * times)

    @property
    def displacement(self) -> float:
        """Swept volume in cubic metres."""
        return 3.141592653589793 / 4.0 * self.bore**2 * self.stroke


def _bands(
    air_gap: str, plug_gap: str, primary: str, secondary: str, lead: str, compression: str
) -> dict[str, str]:
    return {
        "air_gap": air_gap,
        "plug_gap": plug_gap,
        "primary_resistance": primary,
        "secondary_resistance": secondary,
        "lead_resistance": lead,
        "compression": compression,
        "mixture_turns": "1-1.5 turns",
    }


_WINDING: dict[str, Any] = {
    "primary_wire": 0.36e-3,
    "secondary_wire": 0.060e-3,
    "primary_mean_turn": 0.040,
    "secondary_mean_turn": 0.056,
}
_MAGNET: dict[str, Any] = {"magnet_thickness": 8e-3, "remanence": 1.0, "leg_height": 24e-3, "yoke": 8e-3}

MODELS: dict[str, Model] = {}


def _add(model: Model) -> None:
    MODELS[model.letter] = model


_add(
    Model(
        "A", "25 cm³ hedge trimmer",
        bore=34e-3, stroke=28e-3, rod=48e-3, geometric_ratio=9.0, port_closing=103.0, ignition_advance=25.0,
        flywheel_radius=42e-3, shoe_width=10e-3, leg_width=8e-3, pitch=24e-3, depth=13e-3, magnet_width=14e-3,
        primary_turns=160, secondary_turns=12_800, shaft_diameter=10e-3, pull_speed=900.0,
        bands=_bands("0.2-0.4 mm", "0.6-0.7 mm", "0.6-2 ohm", "2-6 kohm", "3-7 kohm", "7-11 bar"),
        **_WINDING, **{**_MAGNET, "remanence": 1.08},
    )
)  # fmt: skip
_add(
    Model(
        "B", "27 cm³ brush cutter",
        bore=35e-3, stroke=28e-3, rod=50e-3, geometric_ratio=9.0, port_closing=102.0, ignition_advance=26.0,
        flywheel_radius=44e-3, shoe_width=10e-3, leg_width=8e-3, pitch=24e-3, depth=13e-3, magnet_width=14e-3,
        primary_turns=155, secondary_turns=12_400, shaft_diameter=10e-3, pull_speed=920.0,
        bands=_bands("0.3-0.4 mm", "0.6-0.7 mm", "0.6-2 ohm", "2-6 kohm", "3-7 kohm", "7-11 bar"),
        **_WINDING, **{**_MAGNET, "remanence": 1.08},
    )
)  # fmt: skip
_add(
    Model(
        "C", "52 cm³ earth auger",
        bore=44e-3, stroke=34e-3, rod=60e-3, geometric_ratio=8.5, port_closing=104.0, ignition_advance=25.0,
        flywheel_radius=48e-3, shoe_width=10e-3, leg_width=8e-3, pitch=24e-3, depth=13e-3, magnet_width=14e-3,
        primary_turns=160, secondary_turns=13_000, shaft_diameter=12e-3, pull_speed=860.0,
        tank_over_module=True,
        bands=_bands("0.25-0.45 mm", "0.6-0.7 mm", "0.6-2 ohm", "2-6 kohm", "3-7 kohm", "7-10 bar"),
        **_WINDING, **_MAGNET,
    )
)  # fmt: skip
_add(
    Model(
        "D", "71 cm³ cut-off saw",
        bore=49e-3, stroke=38e-3, rod=66e-3, geometric_ratio=9.5, port_closing=104.0, ignition_advance=24.0,
        flywheel_radius=52e-3, shoe_width=11e-3, leg_width=9e-3, pitch=25e-3, depth=13e-3, magnet_width=14e-3,
        primary_turns=150, secondary_turns=12_600, shaft_diameter=13e-3, pull_speed=840.0,
        primer_bulb=True, decompressor=True,
        bands=_bands("0.2-0.4 mm", "0.5-0.6 mm", "0.6-2 ohm", "2-6 kohm", "3-7 kohm", "8-12 bar"),
        **_WINDING, **_MAGNET,
    )
)  # fmt: skip
_add(
    Model(
        "E", "33 cm³ water pump",
        bore=37e-3, stroke=31e-3, rod=54e-3, geometric_ratio=8.5, port_closing=102.0, ignition_advance=26.0,
        flywheel_radius=46e-3, shoe_width=10e-3, leg_width=8e-3, pitch=24e-3, depth=13e-3, magnet_width=14e-3,
        primary_turns=165, secondary_turns=13_200, shaft_diameter=11e-3, pull_speed=900.0,
        tank_over_module=True, spark_arrester=True,
        bands=_bands("0.3-0.5 mm", "0.6-0.7 mm", "0.6-2 ohm", "2-6 kohm", "3-7 kohm", "6.5-10 bar"),
        **_WINDING, **_MAGNET,
    )
)  # fmt: skip
_add(
    Model(
        "F", "45 cm³ brush cutter",
        bore=41e-3, stroke=34e-3, rod=60e-3, geometric_ratio=9.0, port_closing=103.0, ignition_advance=25.0,
        flywheel_radius=47e-3, shoe_width=10e-3, leg_width=8e-3, pitch=24e-3, depth=13e-3, magnet_width=14e-3,
        primary_turns=155, secondary_turns=12_600, shaft_diameter=12e-3, pull_speed=870.0,
        decompressor=True,
        bands=_bands("0.3-0.4 mm", "0.5-0.7 mm", "0.6-2 ohm", "2-6 kohm", "3-7 kohm", "7-11 bar"),
        **_WINDING, **_MAGNET,
    )
)  # fmt: skip


def model(letter: str) -> Model:
    """Demo engine by its letter.

    Examples
    --------
    >>> model("A").title
    '25 cm³ hedge trimmer, demo engine A (invented)'
    """
    key = str(letter).strip().upper()
    if key not in MODELS:
        raise TwoStrokeError(f"demo engine {letter!r} is not known: choose one of {', '.join(MODELS)}")
    return MODELS[key]
