"""Which faults the bench knows, how bad they are, and when an intermittent one shows itself."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from twostroke.bench import changes_ignition, changes_rest
from twostroke.bench.engine import Array, Machine
from twostroke.bench.seeds import unit_float
from twostroke.errors import TwoStrokeError
from twostroke.table import Table, TrueFault
from twostroke.units import read

Change = Callable[[Machine, Array, Array, Array], None]

_IGNITION = (
    "plug_fouled", "plug_cracked", "plug_gap_wide", "plug_internal", "boot_loose", "lead_leak", "lead_open",
    "lead_pinched", "module_dead", "module_shorted", "module_intermittent", "module_reversed", "airgap_wide",
    "airgap_rub", "legs_unequal", "magnet_weak", "key_sheared", "stop_switch", "stop_lead", "ground_open",
    "ground_missing",
)  # fmt: skip
_REST = (
    "stale_fuel", "oil_wrong", "fuel_off", "fuel_filter", "fuel_line", "tank_vent", "primer", "diaphragm",
    "needle_shut", "needle_leak", "mixture_altered", "flooded", "air_filter", "choke", "rings", "scored",
    "seized", "gasket", "plug_loose", "decompression_stuck", "crank_seal", "reed", "screen", "cooling",
    "other",
)  # fmt: skip

CHANGES: dict[str, Change] = {
    **{name: getattr(changes_ignition, name) for name in _IGNITION},
    **{name: getattr(changes_rest, name) for name in _REST},
    "module_heat": changes_ignition.module_dead,
}

MILD, BAD = 0.55, 1.0
"""Severities between which a fault brings a machine to the bench: milder ones are lived with."""

COLD_AT, HOT_AT = 25.0, 80.0


def change(name: str) -> Change:
    """The physical change of a fault.

    Raises
    ------
    TwoStrokeError
        The fault is not known.
    """
    if name not in CHANGES:
        raise TwoStrokeError(
            f"{name!r} is no fault that the bench can have: choose one of {', '.join(CHANGES)}"
        )
    return CHANGES[name]


def apply(
    machine: Machine,
    name: str,
    severity: Array | float,
    acting: Array | float = 1.0,
    kind: Array | float = 0.0,
) -> None:
    """Put a fault on the machines, in place.

    Parameters
    ----------
    machine : Machine
    name : str
        Identifier of the fault in the table.
    severity : float or array
        0 changes nothing, 1 is as bad as it gets.
    acting : float or array
        1 while an intermittent fault shows itself, else 0.
    kind : float or array
        0 to 1: which form of the fault it is, where it has several.
    """
    row = lambda value: np.broadcast_to(np.asarray(value, dtype=float), (machine.n,))  # noqa: E731
    level = row(severity)
    if not ((level >= 0.0) & (level <= 1.0)).all():
        raise TwoStrokeError(
            f"severity of {name} is {severity}: it must lie between 0 (nothing) and 1 (as bad as it gets)"
        )
    change(name)(machine, level, row(acting), row(kind))


@dataclass
class Present:
    """One fault of one machine.

    Attributes
    ----------
    name : str
    severity, kind : float
        How bad, and which form.
    threshold : float
        The fault acts while its chance to act, at this temperature or shaken, is above this number (0 to 1).
        A new number is drawn whenever wires are moved, where that matters to the fault.
    above, below, after_running, shaken
        Onset written in the scenario, in place of the chance: degrees Celsius, minutes, moved or not.
    """

    name: str
    severity: float
    kind: float
    threshold: float
    above: float | None = None
    below: float | None = None
    after_running: float | None = None
    shaken: bool = False

    def acts(
        self, table: Table, module: float, engine: float, running: float, moving: bool, moved: int
    ) -> bool:
        """Whether the fault shows itself now.

        Parameters
        ----------
        table : Table
            For the chance to act cold, hot and shaken.
        module, engine : float
            Temperatures, °C.
        running : float
            Minutes of running since the tank cap was last opened.
        moving : bool
            Wires are being moved.
        moved : int
            How often wires have been moved so far.
        """
        if self._scripted():
            hot = module if table.faults[self.name].sys == "ignition" else engine
            checks = [
                self.above is not None and hot >= self.above,
                self.below is not None and hot <= self.below,
                self.after_running is not None and running >= self.after_running,
                self.shaken and (moving or unit_float(self.name, self.threshold, moved) < 0.5),
            ]
            return any(checks)
        return self.now(moved) < chance_to_act(table, self.name, module, moving)

    def _scripted(self) -> bool:
        return self.shaken or any(v is not None for v in (self.above, self.below, self.after_running))

    def now(self, moved: int) -> float:
        """The threshold as it is after wires have been moved `moved` times."""
        if moved == 0 or self.name in HEAT_ONLY:
            return self.threshold
        return unit_float(self.name, self.threshold, moved)


HEAT_ONLY = frozenset({"module_heat", "tank_vent", "scored", "crank_seal", "cooling", "plug_cracked"})
"""Faults whose coming and going has nothing to do with moved wires."""


def chance_to_act(table: Table, name: str, module: float, moving: bool) -> float:
    """Chance that a fault shows itself at this module temperature (°C), or while wires are moved."""
    row = table.faults[name]
    if moving:
        return row.shows("shake")
    share = min(max((module - COLD_AT) / (HOT_AT - COLD_AT), 0.0), 1.0)
    smooth = share * share * (3.0 - 2.0 * share)
    return row.shows("cold") + (row.shows("hot") - row.shows("cold")) * smooth


def present(true: TrueFault, *words: object) -> Present:
    """A fault of a scenario on one machine; `words` name the stream of chance."""
    onset = true.onset
    celsius = lambda text: None if text is None else float(read(text, "degC").to("degC").magnitude)  # noqa: E731
    return Present(
        name=true.fault,
        severity=true.severity,
        kind=unit_float(*words, true.fault, "kind") if true.form is None else true.form,
        threshold=unit_float(*words, true.fault, "threshold"),
        above=None if onset is None else celsius(onset.above),
        below=None if onset is None else celsius(onset.below),
        after_running=None
        if onset is None or onset.after_running is None
        else float(read(onset.after_running, "min").to("min").magnitude),
        shaken=bool(onset and onset.shaken),
    )
