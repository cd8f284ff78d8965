"""What can be seen, heard and felt of a machine, computed from its physical state.

Names stand in ``data/what_is_seen.yaml``; each gives one number a machine.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from twostroke.bench.engine import Array
from twostroke.bench.mixture import CONSTANTS
from twostroke.errors import TwoStrokeError

if TYPE_CHECKING:
    from twostroke.bench.view import View


def _owner_unsure(view: View) -> Array:
    """How vague the owner is about the fuel; half of them do not know."""
    return view.owner.uniform(view.n)


def _owner_serviced(view: View) -> Array:
    """Whether something was serviced lately: more likely where work has left its marks."""
    m = view.machine
    care = 0.16 + 0.2 * (np.abs(m.supply.oil_share / 0.02 - 1.0) > 0.3) + 0.2 * m.plug.looseness
    care = care + 0.2 * (m.plug.inner_break > 0) + 0.2 * (m.plug.inner_path < 1e9)
    return view.owner.uniform(view.n) * 0.45 + np.minimum(care, 0.4)


def _firmness(view: View) -> Array:
    """Compression felt at the rope, as a share of a sound machine's."""
    return view.compression_share * np.where(view.machine.cylinder.seized > 0.5, 0.2, 1.0)


def _fuel_quality(view: View) -> Array:
    s = view.machine.supply
    return s.freshness * (1.0 - 2.5 * s.water)


def _oil_error(view: View) -> Array:
    """How far the oil share is from right: 0 right, 1 none at all or many times too much."""
    share = view.machine.supply.oil_share / 0.02
    return np.where(share < 1.0, 1.0 - share, np.minimum((share - 1.0) / 5.0, 1.0))


def _air_in_line(view: View) -> Array:
    s = view.machine.supply
    return np.maximum(s.line_air, 0.75 * (1.0 - s.tank))


def _primer_flow(view: View) -> Array:
    s = view.machine.supply
    return s.primer * s.filter_flow * s.vent_flow**0.1 * s.tank * (0.62 + 0.38 * np.minimum(s.jets, 1.0))


def _plug_wetness(view: View) -> Array:
    """Wet from 1 on: liquid fuel in the cylinder after the owner's pulls."""
    return view.wetness / (1.4 * CONSTANTS.wet_from)


def _plug_colour(view: View) -> Array:
    """Colour of a plug that has burnt: 1 tan, 0 clean and dry, where little fuel came."""
    return np.clip(view.colour, 0.0, 1.0)


def _tracks_when_wet(view: View) -> Array:
    """Where a mist shows the spark's path, and there must be voltage to show it."""
    alive = np.clip((view.volts("tester").at(view.normal_speed)[0] - 800.0) / 1500.0, 0.0, 1.0)
    leaks = np.clip(3.0e3 / view.machine.ignition.leak_voltage, 0.0, 1.2)
    return np.maximum(view.machine.signs.lead_wet_track, leaks) * alive


def _lead_lies_badly(view: View) -> Array:
    s = view.machine.signs
    return np.maximum(s.lead_pinch, 0.4 * s.chafe)


def _line_flow(view: View) -> Array:
    s = view.machine.supply
    return s.filter_flow * s.tank * s.vent_flow**0.25 * (1.0 - 0.42 * s.line_air)


def _tank_vacuum(view: View) -> Array:
    return 1.0 - view.machine.supply.vent_flow


def _needle_seat(view: View) -> Array:
    """Pressure that the shut needle keeps, as a share of a tight one."""
    return 1.0 / (1.0 + 0.35 * view.machine.supply.needle_leak)


def _opening_pressure(view: View) -> Array:
    """Pressure that opens the needle: gum holds it too."""
    s = view.machine.supply
    return s.pop_off * (1.0 + 0.45 * np.clip(1.0 - s.jets, 0.0, 1.0)) * (1.0 + 0.12 * (1.0 - s.diaphragm))


SIGNALS: dict[str, Callable[[View], Array]] = {
    "owner_unsure": _owner_unsure,
    "owner_serviced": _owner_serviced,
    "firmness": _firmness,
    "fuel_quality": _fuel_quality,
    "oil_error": _oil_error,
    "air_in_line": _air_in_line,
    "primer_flow": _primer_flow,
    "plug_wetness": _plug_wetness,
    "plug_colour": _plug_colour,
    "tracks_when_wet": _tracks_when_wet,
    "lead_lies_badly": _lead_lies_badly,
    "line_flow": _line_flow,
    "tank_vacuum": _tank_vacuum,
    "needle_seat": _needle_seat,
    "opening_pressure": _opening_pressure,
}


def signal(name: str, view: View) -> Array:
    """What `name` amounts to on these machines.

    Raises
    ------
    TwoStrokeError
        No part, field or signal of that name.
    """
    if name in SIGNALS:
        return SIGNALS[name](view)
    part, _, item = name.partition(".")
    found = getattr(getattr(view.machine, part, None), item, None)
    if found is None:
        raise TwoStrokeError(f"{name!r} cannot be seen: give part.field or one of {', '.join(SIGNALS)}")
    return np.asarray(found, dtype=float)
