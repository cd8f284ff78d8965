"""Lab 07: stop lead on and off, two paths side by side, what a leak costs, where the fault lies."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from twostroke import resistance
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Caution, Page, Table, Text
from twostroke.lab.pick import Option
from twostroke.lab.ruling import Ruling
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

PATHS = (3000, 1000, 300, 100, 30, 10)
"""Resistance of the path to ground in the table, ohm."""
CASES = {
    "lead": (
        ("stop lead pulled off at the module", "spark at every pull"),
        ("stop switch alone, off the machine, set to run", "no reading (over range)"),
        ("stop lead alone, to engine metal", "2 Ω"),
        ("module's core to engine metal", "0.1 Ω"),
    ),
    "switch": (
        ("stop lead pulled off at the module", "spark at every pull"),
        ("stop switch alone, off the machine, set to run", "0.3 Ω"),
        ("stop lead alone, to engine metal", "no reading (over range)"),
        ("module's core to engine metal", "0.1 Ω"),
    ),
    "ground": (
        ("stop lead pulled off at the module", "no spark"),
        ("stop switch alone, off the machine, set to run", "no reading (over range)"),
        ("stop lead alone, to engine metal", "no reading (over range)"),
        ("module's core to engine metal", "no reading (over range)"),
    ),
    "module": (
        ("stop lead pulled off at the module", "no spark"),
        ("stop switch alone, off the machine, set to run", "no reading (over range)"),
        ("stop lead alone, to engine metal", "no reading (over range)"),
        ("module's core to engine metal", "0.1 Ω"),
    ),
}


def draw(d: Draw) -> dict[str, Any]:
    """Draw the two paths, the demand for the table and the case."""
    return {
        "path_winding_tenths_ohm": d.integer("path winding", 8, 15),
        "path_leak_tenths_ohm": d.integer("path leak", 20, 60),
        "stop_demand_tenths_kV": d.pick("stop demand", (75, 85, 100)),
        "stop_rpm": d.pick("stop speed", (600, 700)),
        "case": d.pick("case", tuple(CASES)),
    }


def _winding(v: Variant) -> float:
    return float(v["path_winding_tenths_ohm"]) / 10


def _leak(v: Variant) -> float:
    return float(v["path_leak_tenths_ohm"]) / 10


@lru_cache(maxsize=1024)
def _parallel(one: float, other: float) -> float:
    return float(resistance.parallel(f"{one} ohm", f"{other} ohm").to("ohm").magnitude)


@lru_cache(maxsize=8)
def gives(rpm: int) -> tuple[float, ...]:
    """Peak voltage at the plug in kV to 0.1 kV for each path of the table, by the ignition model."""
    from twostroke.ignition import Ignition, available

    batch = Ignition.stack([Ignition(stop_path=float(path)) for path in PATHS])
    return tuple(round(float(each) / 1e3, 1) for each in available(batch, float(rpm)).voltage[:, 0])


def _fails_at(v: Variant) -> str:
    """Row of the largest path with which the plug no longer gets what it asks for."""
    demand = v["stop_demand_tenths_kV"] / 10
    for path, kilovolts in zip(PATHS, gives(v["stop_rpm"]), strict=True):
        if kilovolts < demand:
            return f"path_{path}"
    return "none"


def _row_feedback(path: int) -> Feedback:
    return Feedback(
        f"The row of {path} Ω is named.",
        "Another row is the first, from the top, in which the voltage falls short.",
        "Go down the column of voltages and stop at the first below what the plug asks for.",
    )


_ROW = Ruling(
    "row",
    "first row, from the top, that no longer sparks",
    (
        *(Option(f"path_{path}", f"{path} Ω", misconception="leak_must_be_short",
            feedback=_row_feedback(path))
          for path in PATHS),
        Option("none", "none of them", misconception="leak_must_be_short",
               feedback=Feedback("No row is named.", "Only a dead short was thought to stop a spark.",
                                 "Compare each voltage with what the plug asks for.")),
    ),
    fixed=True,
    numbered=True,
    rule=lambda v, own: _fails_at(v),
)  # fmt: skip


def _close(v: Variant) -> Tolerance:
    total = _winding(v) + _leak(v)
    return tolerance(
        0.01, ((_leak(v) / total) ** 2, 0.005), ((_winding(v) / total) ** 2, 0.05),
        reason="half a step of 0.01 Ω, winding to half of 0.01 Ω, path of the lead to half of 0.1 Ω",
    )  # fmt: skip


def _show_paths(v: Variant) -> Page:
    lead = (
        f"With the stop lead on the module of the {v['machine']}, an ohmmeter from stop terminal to ground "
        "sees two "
        f"paths side by side: the primary, {_winding(v):.2f} Ω, and a chafed stop lead, {_leak(v):.1f} Ω."
    )
    rows = [(f"{path} Ω", f"{each:.1f} kV") for path, each in zip(PATHS, gives(v["stop_rpm"]), strict=True)]
    table = Table(
        f"Sound module at {v['stop_rpm']} rpm with a path from stop terminal to ground (computed)",
        ("path", "peak voltage at the plug"),
        rows,
    )
    asks = f"The plug asks for {v['stop_demand_tenths_kV'] / 10:.1f} kV. Which is the first row that no "
    "longer sparks?"
    return Page("", (Text(lead), table, Text(asks), _ROW.options_block(v)))


PATHS_TASK = Task(
    id="paths",
    title="Stop lead on: two paths side by side",
    outcome="work out what an ohmmeter sees with the stop lead on, and what a leak to ground costs",
    kind="value",
    points=3,
    competency="stop circuit and ground",
    show=_show_paths,
    items=(
        Number(
            "both", "stop terminal to ground, stop lead on", "ohm",
            lambda v, own: _parallel(_winding(v), _leak(v)), _close, 0, 1e6,
            (
                slip("parallel_as_series", lambda v, own: _winding(v) + _leak(v),
                     "More than either path.", "Paths side by side were added up.",
                     "Does a second path make it easier or harder for the current?"),
                slip("leak_unseen", lambda v, own: _winding(v),
                     "The winding alone.", "The chafed lead was left out.",
                     "What is there beside the winding while the stop lead is on?",
                     misconception="resistance_in_band_proves"),
                slip("mean_of_paths", lambda v, own: (_winding(v) + _leak(v)) / 2,
                     "Half-way between the two.", "The mean was taken.",
                     "Can two paths together have more than the smaller one alone?",
                     misconception="parallel_as_series"),
                slip("lead_alone", lambda v, own: _leak(v),
                     "The chafed lead alone.", "The winding was left out.",
                     "Is the winding still connected while you measure?", misconception="parallel_as_series"),
            ),
            Feedback("It does not follow from the two paths.", "A step may be missing.",
                     "One over each, add up, one over that; less than the smaller one must come out."),
            2, any_unit=True, share=2,
        ),
        _ROW,
    ),
)  # fmt: skip

_LOOK = "Go through the four findings: which one is not as it is on a sound machine?"


def _place(name: str, text: str, seen: str, suggests: str, misconception: str) -> Option:
    return Option(name, text, misconception=misconception, feedback=Feedback(seen, suggests, _LOOK))


_WHERE = Ruling(
    "where",
    "where the fault lies",
    (
        _place("lead", "stop lead chafed through to metal", "The stop lead is blamed.",
               "Its own reading, or what happened with it off, was passed over.", "module_first"),
        _place("switch", "stop switch closed when set to run", "The switch is blamed.",
               "Its own reading, or what happened with the lead off, was passed over.", "module_first"),
        _place("ground", "module without ground", "The ground is blamed.",
               "The reading from core to metal was passed over.", "ground_is_optional"),
        _place("module", "module, magnets or air gap: go on there", "The module's side is blamed.",
               "A fault outside the module was passed over.", "module_first"),
    ),
    rule=lambda v, own: str(v["case"]),
)  # fmt: skip
_NEXT = Ruling(
    "next",
    "what you do next",
    (
        _place("lead", "Mend or replace the lead, route it clear of sharp edges, then test for spark with "
        "it on.",
               "The lead is mended.", "The work does not meet the fault that the findings show.",
                   "parts_first"),
        _place("switch", "Replace the switch, then prove that run sparks and stop stops.",
               "The switch is replaced.", "The work does not meet the fault that the findings show.",
               "parts_first"),
        _place("ground", "Clean and tighten the module's seat and screws, then measure core to metal again.",
               "The seat is cleaned.", "The work does not meet the fault that the findings show.",
                   "parts_first"),
        _place("module", "Check air gap, magnets, key and lead before a new module is ordered.",
               "Gap and magnets are checked.", "The work does not meet the fault that the findings show.",
               "parts_first"),
    ),
    rule=lambda v, own: str(own["stop.where"][0]),
)  # fmt: skip


def _show_case(v: Variant) -> Page:
    table = Table(
        f"No spark on the {v['machine']}, stop switch set to run", ("what was done", "what was found"),
        CASES[v["case"]],
    )  # fmt: skip
    caution = Caution(
        "With the stop lead off the switch does not stop the engine: know how else to stop it (choke or "
        "fuel), and put "
        "the lead back before the machine leaves the bench."
    )
    blocks = (Text("Where does the fault lie?"), _WHERE.options_block(v), Text("What do you do next?"))
    return Page("", (caution, table, *blocks, _NEXT.options_block(v)))


STOP_TASK = Task(
    id="stop",
    title="Stop lead off: where the fault lies",
    outcome="tell a fault of the stop circuit or the ground from one of the module",
    kind="choice",
    points=3,
    competency="stop circuit and ground",
    show=_show_case,
    items=(_WHERE, _NEXT),
)

TASKS = (PATHS_TASK, STOP_TASK)
