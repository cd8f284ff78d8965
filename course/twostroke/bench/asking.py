"""What may be asked of the bench: actions, their settings, their cautions, and what is never possible."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from twostroke.bench import repairing, tools
from twostroke.bench.guard import what
from twostroke.bench.settings import number_of, whole_number
from twostroke.bench.work_order import read_order
from twostroke.errors import TwoStrokeError
from twostroke.units import read

if TYPE_CHECKING:
    from twostroke.bench.situation import Situation
    from twostroke.table import Table

SESSION_ACTIONS = {
    "warm_up": "bring the machine to running temperature",
    "cool_down": "let the machine cool",
    "wait": "wait",
    "prime": "press the primer bulb",
    "pull": "pull the rope as for a start",
    "verify": "verify run: start, open up, stop, start again",
    "stop_lead": "take the stop lead off the module, or put it back",
    "measure": "measure something with thermometer, tachometer, calliper or scale",
    "trace": "record a waveform with the storage trace",
}
"""What can be done besides the table's tests, repairs and covers."""

_SETTINGS: dict[str, dict[str, str]] = {
    "wait": {"minutes": "minutes, above 0, such as 5 or '5 min'"},
    "prime": {"presses": "how often, 1 to 40"},
    "pull": {
        "pulls": "how often, 1 to 20",
        "pull": "'weak', 'normal' or 'fast'",
        "choke": "'closed', 'half' or 'open'",
        "plug": "'in' or 'out'",
    },
    "verify": {"condition": "'cold', 'hot' or 'shake'; all that the complaint asks for when left out"},
    "stop_lead": {"state": "'off' or 'on'"},
    "measure": {"what": f"one of {', '.join(tools.MEASURES)}", "pull": "'weak', 'normal' or 'fast'"},
    "trace": {"signal": f"one of {', '.join(tools.SIGNALS)}", "pull": "'weak', 'normal' or 'fast'"},
}
_GAP_TESTER = (
    "spark_gap_cold",
    "spark_gap_hot",
    "spark_shake",
    "spark_slow_fast",
    "stop_lead_off",
    "heat_module",
)
_PULLED = (
    *_GAP_TESTER,
    "spark_plug_cold",
    "spark_plug_hot",
    "spark_inline_cold",
    "spark_inline_hot",
    "known_good_plug",
)
CHOKE = {"closed": 1.0, "half": 0.5, "open": 0.0}


def settings(action: str) -> dict[str, str]:
    """Settings of a test or of a bench action, with what may be given."""
    out = dict(_SETTINGS.get(action, {}))
    if action in _PULLED:
        out["pull"] = "'weak', 'normal' or 'fast'"
    if action in _GAP_TESTER:
        out["gap"] = "spacing of the tester's points, 2 to 12 mm, such as '6 mm'"
    if action.endswith("_ohm"):
        out["leads_nulled"] = "True or False: the meter's leads shorted first and taken off"
    return out


_CHOICES: dict[str, tuple[object, ...]] = {
    "pull": ("weak", "normal", "fast"),
    "choke": tuple(CHOKE),
    "plug": ("in", "out"),
    "state": ("off", "on"),
    "condition": ("cold", "hot", "shake"),
    "what": tuple(tools.MEASURES),
    "signal": tuple(tools.SIGNALS),
    "screws": ("by hand", "by driver"),
    "terminal": ("outward", "inward"),
    "routing": ("free", "tight"),
    "recheck": (True, False),
    "leads_nulled": (True, False),
    "prepare": (True, False),
    "anyway": (True, False),
}


def check_settings(given: dict[str, Any], action: str) -> None:
    """Refuse values that no action could use, before anything is done.

    Raises
    ------
    TwoStrokeError
        Naming the setting, the value, and what may be given.
    """
    for name, value in given.items():
        known = _CHOICES.get(name)
        if known is not None and not any(value is word or value == word for word in known):
            raise TwoStrokeError(
                f"{name}={value!r} is not known: say {' or '.join(repr(word) for word in known)}"
            )
    if "order" in given:
        read_order(action, given["order"])
    if "gap" in given:
        gap_mm(given["gap"])
    if "minutes" in given:
        number_of(given["minutes"], "minutes", 0.1, 600.0)
    if "shim" in given:
        repairing.shim_thickness(given["shim"], ("check",))
    if "pulls" in given:
        whole_number(given["pulls"], "pulls", 1, 20)
    if "presses" in given:
        whole_number(given["presses"], "presses", 1, 40)


def gap_mm(given: object) -> float:
    """Spacing of the adjustable tester in millimetres."""
    gap = float(read(given, "mm", name="gap").to("mm").magnitude)  # type: ignore[arg-type]
    if not 2.0 <= gap <= 12.0:
        raise TwoStrokeError(f"gap {given!r}: the tester's points go from 2 to 12 mm")
    return gap


def hazards(table: Table, action: str, given: dict[str, Any]) -> list[str]:
    """Cautions of the bench's own actions, as far as the table has them."""
    wanted: list[str] = []
    if action == "pull" and given.get("plug") == "out":
        wanted = ["fuel_spray", "open_high_tension", "high_voltage"]
    elif action in ("verify", "pull"):
        wanted = list(table.meta.verify_hazards)
    elif action == "trace":
        wanted = ["high_voltage", "spark_near_fuel"]
    elif action == "warm_up":  # run, or warmed with air off the machine where it does not run
        wanted = ["heat_near_fuel", *table.meta.verify_hazards]
    return [name for name in wanted if name in table.hazards]


def never(table: Table, situation: Situation, action: str, given: dict[str, Any]) -> str | None:
    """Why an action cannot be done on this machine now, whatever is prepared."""
    s = situation
    if action in s.opened:
        return f"the {what(table, action)} is off already"
    if action == "prime" and not s.model.primer_bulb:
        return "this machine has no primer bulb"
    if action in ("warm_up", "cool_down"):
        wanted = "hot" if action == "warm_up" else "cold"
        if s.heat.condition == wanted:
            enough = "hot" if wanted == "hot" else "cool enough to touch"
            return f"the machine is {enough} already ({s.heat.engine:.0f} °C)"
    if action == "pull" and given.get("plug") == "out" and "plug_out" not in s.opened:
        return "the plug is still in: take it out first (plug_out)"
    if action == "trace" and "top_cover" not in s.opened:
        return (
            "the starter or fan cover is still on and the probe does not reach the module: "
            "take the cover off first (top_cover)"
        )
    return None
