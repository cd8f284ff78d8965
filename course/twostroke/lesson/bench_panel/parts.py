"""What on the machine can be picked, and what can be done there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from twostroke.table import Table


@dataclass(frozen=True)
class Spot:
    """One place on the drawing with the actions that belong to it."""

    name: str
    actions: tuple[str, ...]


SPOTS: dict[str, Spot] = {
    "owner": Spot("owner", ("ask_fuel_age", "ask_last_work")),
    "machine": Spot(
        "whole machine and rope",
        ("look_over", "pull_feel", "pull", "verify", "warm_up", "cool_down", "wait", "measure"),
    ),
    "plug": Spot(
        "spark plug",
        (
            "plug_look", "plug_gap", "plug_tight", "spark_plug_cold", "spark_plug_hot", "plug_out",
            "swap_plug", "set_plug_gap", "tighten_plug", "clear_flood",
        ),
    ),
    "lead": Spot(
        "high-tension lead and boot",
        (
            "boot_check", "spark_inline_cold", "spark_inline_hot", "spark_gap_cold", "spark_gap_hot",
            "known_good_plug", "spark_shake", "spark_slow_fast", "lead_ohm", "lead_mist", "lead_route",
            "refit_boot", "replace_lead", "reroute_lead",
        ),
    ),
    "module": Spot(
        "ignition module",
        (
            "module_look", "air_gap", "legs_gap", "ground_ohm", "primary_ohm", "secondary_ohm",
            "heat_module", "trace", "set_air_gap", "turn_module", "replace_module", "clean_ground",
            "fit_ground",
        ),
    ),
    "cover": Spot("starter cover and fins", ("top_cover", "fins_look", "clean_fins")),
    "flywheel": Spot(
        "flywheel and key",
        ("magnet_pull", "key_look", "flywheel", "replace_flywheel", "replace_key"),
    ),
    "switch": Spot(
        "stop switch and stop lead",
        ("switch_check", "stop_lead_off", "stop_ohm", "stop_lead", "replace_switch", "repair_stop_lead"),
    ),
    "cylinder": Spot(
        "cylinder",
        ("compression", "compression_wet", "decomp_check", "top_end", "new_rings", "free_decompression"),
    ),
    "crankcase": Spot(
        "crankcase and reed", ("pressure_hold", "vacuum_hold", "reed_look", "new_seals", "new_reed")
    ),
    "muffler": Spot("muffler and port", ("screen_look", "port_look", "muffler", "clean_screen")),
    "air": Spot(
        "air filter and choke",
        ("air_filter_look", "choke_look", "air_cover", "new_air_filter", "free_choke"),
    ),
    "carburettor": Spot(
        "carburettor and primer",
        (
            "prime", "prime_look", "dose_start", "screw_count", "pop_off", "carb_look", "carb_off",
            "new_primer", "reset_mixture", "carb_kit", "replace_carb",
        ),
    ),
    "tank": Spot(
        "fuel tank and line",
        (
            "tank_look", "fuel_sample", "oil_check", "fuel_filter_flow", "line_pressure", "vent_listen",
            "tank_off", "fill_tank", "fresh_fuel", "new_fuel_filter", "new_fuel_line", "clear_vent",
        ),
    ),
}  # fmt: skip
GROUPS = ("Look and measure", "Run and wait", "Take off", "Repair")
_COVERS = {"plug_out": "plug", "top_cover": "cover", "flywheel": "flywheel", "air_cover": "air",
           "carb_off": "carburettor", "muffler": "muffler", "tank_off": "tank"}  # fmt: skip
_PLACE = {action: key for key, spot in SPOTS.items() for action in spot.actions}


def spot_of(table: Table, action: str) -> str:
    """Where an action is done; one that an instructor has added goes by the cover that it needs.

    Examples
    --------
    >>> from twostroke.table import load_table
    >>> spot_of(load_table(), "plug_look")
    'plug'
    """
    if action in _PLACE:
        return _PLACE[action]
    row: Any = table.tests.get(action) or table.repairs.get(action)
    covers = [_COVERS[name] for name in row.access if name in _COVERS] if row is not None else []
    return covers[-1] if covers else "machine"


def group_of(table: Table, action: str) -> str:
    """Which of the groups an action stands in."""
    if action in table.tests or action in ("measure", "trace"):
        return GROUPS[0]
    if action in table.access:
        return GROUPS[2]
    return GROUPS[3] if action in table.repairs else GROUPS[1]


def actions_at(session: Any) -> dict[str, dict[str, list[str]]]:
    """Everything that can be done, by place and group, in the order of the work.

    Returns
    -------
    dict
        Place to group to actions; places and groups without any are left out.
    """
    table = session.table
    order = {action: number for number, action in enumerate(_PLACE)}
    found: dict[str, dict[str, list[str]]] = {key: {group: [] for group in GROUPS} for key in SPOTS}
    for action in sorted(session.actions(), key=lambda name: order.get(name, len(order))):
        if action == "prime" and "primer" not in table.faults:
            continue
        found[spot_of(table, action)][group_of(table, action)].append(action)
    kept = {key: {group: rows for group, rows in groups.items() if rows} for key, groups in found.items()}
    return {key: groups for key, groups in kept.items() if groups}
