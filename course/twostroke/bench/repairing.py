"""Repairs: what is done to the machine, what may go wrong with hand and tool, and whether it cures."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from twostroke.bench.faults import Present
from twostroke.bench.seeds import Draws, unit_float
from twostroke.bench.work_order import Breach, breaches, orders, rechecked
from twostroke.errors import TwoStrokeError
from twostroke.units import read

if TYPE_CHECKING:
    from twostroke.bench.situation import Situation
    from twostroke.table import Repair, Table

GAP_REPAIRS = ("set_air_gap", "replace_module", "turn_module")
LEAD_REPAIRS = ("replace_lead", "reroute_lead", "replace_module")
THREAD_REPAIRS = (
    *GAP_REPAIRS,
    "swap_plug",
    "tighten_plug",
    "top_end",
    "new_rings",
    "new_seals",
    "set_plug_gap",
)

CROSS_THREAD = 0.3
"""Chance that a screw set on by the driver takes the thread crosswise; invented."""

THREAD_MINUTES, THREAD_MONEY = 15.0, 6.0
"""What a spoilt thread costs: an insert, and the time to fit it; invented."""

SHIFT, SHIFT_SPREAD = 0.015e-3, 0.035e-3
"""How far a module moves while its screws are tightened, metres; invented."""

CLOSE = 0.03e-3
"""Air gap that is further out than this is set again, metres; invented."""

RUBBING = 0.02e-3
"""Air gap of a module that sits on the flywheel, metres; invented."""

CARD = 0.20e-3
"""A stiff card as a shim; cards differ, so measure it (common practice, no source)."""


@dataclass
class Done:
    """What a repair came to.

    Attributes
    ----------
    minutes, money : float
        On top of the table's.
    words : list of str
    moved : bool
        Whether wires were moved.
    taken : bool
        Whether the repair was done at all: an unsound order can leave everything as it was.
    """

    minutes: float = 0.0
    money: float = 0.0
    words: list[str] | None = None
    moved: bool = False
    taken: bool = True

    def say(self, text: str) -> None:
        """Add a sentence."""
        self.words = [*(self.words or []), text]


def allowed(action: str) -> dict[str, str]:
    """Settings of a repair, with what may be given."""
    out: dict[str, str] = {}
    if action in GAP_REPAIRS:
        out["shim"] = "a thickness with its unit ('0.30 mm', '12 thou') or 'card'"
        out["recheck"] = "True or False: measure the gap again after tightening"
        out["terminal"] = "'outward' or 'inward': where the stop terminal points"
    if action in LEAD_REPAIRS:
        out["routing"] = "'free' or 'tight': how the lead lies under the cover"
    if action in THREAD_REPAIRS:
        out["screws"] = "'by hand' or 'by driver': how the first turns are made"
    if action in orders():
        out["order"] = (
            f"the steps in the order in which you do them, a list of {', '.join(orders()[action].steps)}"
        )
    return out


def shim_thickness(given: object, seed: tuple[object, ...]) -> float:
    """Thickness of a shim in metres.

    Raises
    ------
    TwoStrokeError
        No length, or one that is no shim (0.02 to 2 mm).
    """
    if given == "card":
        return CARD * (1.0 + 0.15 * float(Draws(*seed, "card").normal(1)[0]))
    thickness = float(read(given, "mm", name="shim").to("m").magnitude)  # type: ignore[arg-type]
    if not 0.02e-3 <= thickness <= 2e-3:
        raise TwoStrokeError(f"shim {given!r}: a shim for an air gap is 0.02 to 2 mm thick; measure it again")
    return thickness


def repair(
    situation: Situation, table: Table, action: str, row: Repair, settings: dict[str, Any], count: int
) -> Done:
    """Do a repair; the situation changes.

    Parameters
    ----------
    count : int
        How often this repair was done before on this job.
    """
    done = Done()
    seed = (*situation.seed, "repair", action, count)
    order = settings.get("order")
    wrong = [] if order is None else breaches(action, order)
    threads(done, action, settings, seed)
    if any(breach.effect.undone for breach in wrong):
        done.taken = False
        _unsound(situation, done, wrong, seed)
        return done
    for fault in list(situation.faults):
        chance = row.fixes.get(fault.name)
        if chance is None or (fault.name in _BY_GAP and action in GAP_REPAIRS):
            continue
        if unit_float(*seed, fault.name) < chance:
            situation.faults.remove(fault)
    if action in GAP_REPAIRS:
        again = settings.get("recheck", False) if order is None else rechecked(action, order)
        set_gap(situation, done, {**settings, "recheck": again}, seed)
    if action in LEAD_REPAIRS:
        route_lead(situation, done, settings, seed)
    if action == "clear_flood":
        situation.fuel.puddle[:] = 0.0 if situation.has("flooded") is None else situation.fuel.puddle
    if action in ("fresh_fuel", "fill_tank", "clear_vent", "new_fuel_filter", "new_fuel_line"):
        situation.running = 0.0
    if action in ("fresh_fuel", "new_fuel_line", "carb_kit", "replace_carb"):
        situation.fuel.line[:] = 0.0
    _unsound(situation, done, wrong, seed)
    done.moved = action in (*GAP_REPAIRS, *LEAD_REPAIRS, "refit_boot", "repair_stop_lead", "replace_switch")
    return done


_LEGS = ("ignition.gap_leading", "ignition.gap_trailing")
_BY_GAP = ("airgap_wide", "airgap_rub", "legs_unequal")


def _unsound(situation: Situation, done: Done, wrong: list[Breach], seed: tuple[object, ...]) -> None:
    """What comes of an unsound order: time and threads are said at once, harm shows itself on the engine."""
    for breach in wrong:
        effect = breach.effect
        done.minutes += effect.minutes
        done.money += effect.money
        if effect.minutes or effect.undone:
            done.say(f"{breach.why[:1].upper()}{breach.why[1:]}.")
        if effect.thread:
            _cross(done, seed)
        if effect.gap:
            for leg in _LEGS:
                if leg in situation.settings:
                    situation.settings[leg] += effect.gap * 1e-3
        if effect.fault == "airgap_rub":
            situation.settings |= dict.fromkeys(_LEGS, RUBBING)
        if effect.fault is not None and situation.has(effect.fault) is None:
            situation.faults.append(made(effect.fault, 0.9, 0.3))


def threads(done: Done, action: str, settings: dict[str, Any], seed: tuple[object, ...]) -> None:
    """Screws started by hand, or not."""
    if action not in THREAD_REPAIRS or settings.get("screws", "by hand") == "by hand":
        return
    _cross(done, seed)


def _cross(done: Done, seed: tuple[object, ...]) -> None:
    """A screw set on by the driver: now and then its thread is spoilt."""
    if unit_float(*seed, "thread") < CROSS_THREAD:
        done.minutes += THREAD_MINUTES
        done.money += THREAD_MONEY
        done.say(
            "A thread took crosswise and is spoilt: an insert had to be fitted. "
            "Start screws and plugs by hand."
        )


def tightened(wanted: float, draws: Draws, *, recheck: bool = False) -> tuple[float, float, int]:
    """Air gap after the screws are tightened: the module moves a little as they pull down.

    Parameters
    ----------
    wanted : float
        Thickness of the shim, metres.
    draws : Draws
        Chance of this one job.
    recheck : bool
        Measured again after tightening, and set again while it is out by more than `CLOSE`, three times at
        most.

    Returns
    -------
    gap : float
        Metres.
    tilt : float
        How far the legs differ, in standard deviations.
    turns : int
        How often it was set again.

    Examples
    --------
    >>> gap, _, turns = tightened(0.3e-3, Draws("demo"))
    >>> 0.15e-3 < gap < 0.45e-3, turns
    (True, 0)
    """
    shift, tilt = (float(v) for v in draws.normal(2))
    gap, turns = max(wanted + SHIFT + SHIFT_SPREAD * shift, 0.0), 0
    while recheck and abs(gap - wanted) > CLOSE and turns < 3:
        turns += 1
        gap = max(wanted + SHIFT + SHIFT_SPREAD * float(draws.normal(1)[0]), 0.0)
    return gap, tilt, turns


def set_gap(situation: Situation, done: Done, settings: dict[str, Any], seed: tuple[object, ...]) -> None:
    """Gap set with a shim; the module moves a little while it is tightened, and magnet pull closes slack."""
    wanted = (
        situation.figures.air_gap
        if "shim" not in settings
        else shim_thickness(settings["shim"], situation.seed)
    )
    inward = settings.get("terminal", "outward") == "inward"
    recheck = bool(settings.get("recheck", False))
    gap, tilt, turns = tightened(wanted, Draws(*seed, "tighten"), recheck=recheck)
    if recheck:
        done.minutes += 1.0 + 1.5 * turns
        again = f" It had moved and was set again {turns} time{'s' if turns > 1 else ''}." if turns else ""
        done.say(f"Gap after tightening {gap * 1e3:.2f} mm.{again}")
    else:
        done.say(
            "Set and tightened; a gap can move while the screws are tightened, and it was not measured again."
        )
    situation.settings["ignition.gap_leading"] = max(gap + 0.006e-3 * tilt, 0.0)
    situation.settings["ignition.gap_trailing"] = max(gap - 0.006e-3 * tilt, 0.0)
    situation.faults[:] = [
        fault for fault in situation.faults if fault.name not in (*_BY_GAP, "module_reversed")
    ]
    if inward:
        situation.faults.append(made("module_reversed", 0.9, 0.2))


def route_lead(situation: Situation, done: Done, settings: dict[str, Any], seed: tuple[object, ...]) -> None:
    """Lead laid free, or tight under the cover."""
    if settings.get("routing", "free") == "tight" and situation.has("lead_pinched") is None:
        situation.faults.append(made("lead_pinched", 0.8, unit_float(*seed, "pinch")))
        done.say("The lead lies tight over an edge of the cover.")


def made(name: str, severity: float, kind: float) -> Present:
    """A fault that the work itself has made: it acts as soon as things move."""
    return Present(name, severity, kind, threshold=0.3)
