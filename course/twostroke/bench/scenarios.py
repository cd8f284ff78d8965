"""From a scenario to a machine on the bench."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from twostroke._air import air_at
from twostroke.bench.engine import Figures, ideal
from twostroke.bench.faults import MILD, Present, present
from twostroke.bench.heat import Heat
from twostroke.bench.history import history
from twostroke.bench.maker import UNITS, band, bands_of
from twostroke.bench.mixture import at_rest
from twostroke.bench.models import Model, model
from twostroke.bench.seeds import Draws, fold, unit_float
from twostroke.bench.situation import Situation
from twostroke.errors import TwoStrokeError
from twostroke.table import Scenario, Table, TrueFault, load_scenario, scenario_paths, unknown
from twostroke.table.reader import build
from twostroke.units import read


def find(scenario: str | Path | dict[str, Any] | Scenario, table: Table) -> Scenario:
    """A scenario by name, file, or content.

    Raises
    ------
    TwoStrokeError
        No scenario of that name, or content that is none.
    """
    if isinstance(scenario, Scenario):
        return scenario
    if isinstance(scenario, dict):
        return build(Scenario, scenario, {}, "scenario")
    if isinstance(scenario, str) and not scenario.endswith((".yaml", ".yml")):
        paths = scenario_paths()
        if scenario not in paths:
            raise unknown("scenario", scenario, paths)
        return load_scenario(paths[scenario], table)
    if isinstance(scenario, str | Path):
        return load_scenario(scenario, table)
    raise TwoStrokeError(f"scenario is a {type(scenario).__name__}: give its name, its file, or its content")


def seed_words(scenario: Scenario, learner: str, secret: str | None) -> tuple[object, ...]:
    """Words that name the stream of chance of this job."""
    seed = scenario.seed
    if seed.policy == "fixed":
        return ("bench", scenario.id, seed.number)
    if seed.policy == "drawn":
        return ("bench", scenario.id, seed.number, fold(learner), secret or "")
    return ("bench", scenario.id, seed.number, fold(learner))


def machine_model(scenario: Scenario) -> Model:
    """The demo engine with this scenario's size and features."""
    plain = model(scenario.machine.engine.rsplit(" ", 1)[-1])
    size = float(read(scenario.machine.displacement, "mL", name="displacement").to("m^3").magnitude)
    grown = plain.scaled(size) if abs(size / plain.displacement - 1.0) > 0.02 else plain
    has = scenario.machine.features
    return replace(
        grown,
        primer_bulb="primer_bulb" in has,
        decompressor="decompression_valve" in has,
        tank_over_module="tank_over_module" in has,
    )


def bands(scenario: Scenario) -> dict[str, tuple[float, float]]:
    """The maker's bands of this machine in the table's units; where none is given, the demo engine's."""
    given = {name: band(name, text) for name, text in scenario.bands.items() if name in UNITS}
    return {**bands_of(model(scenario.machine.engine.rsplit(" ", 1)[-1])), **given}


def truth_of(scenario: Scenario, table: Table, words: tuple[object, ...]) -> list[TrueFault]:
    """What is wrong: as written, or drawn by rate and complaint out of what may be drawn."""
    if scenario.seed.policy != "drawn" or scenario.truth:
        return list(scenario.truth)
    names = scenario.seed.draw_from or [name for name in table.faults if name != "other"]
    complaint = table.complaint
    weights = []
    for name in names:
        weight = table.faults[name].rate
        if complaint is not None:
            weight *= complaint.hits.get(name, complaint.base)[
                complaint.results.index(scenario.complaint.kind)
            ]
        weights.append(weight)
    steps = np.cumsum(weights) / np.sum(weights)
    picked = names[int(np.searchsorted(steps, unit_float(*words, "which fault")))]
    severity = 0.7 + 0.3 * unit_float(*words, "how bad")
    return [TrueFault(fault=picked, severity=severity)]


SHOWS_COLD = ("no_start", "hard_cold", "fast_pull", "weak_run", "runs_then_dies")


def settle(fault: Present, table: Table, complaint: str) -> Present:
    """Threshold such that the fault shows itself as the owner met it, until wires are moved."""
    row, u = table.faults[fault.name], fault.threshold
    cold, hot = row.shows("cold"), row.shows("hot")
    if complaint == "dies_hot" and hot > cold:
        return replace(fault, threshold=cold + (hot - cold) * 0.98 * u + 1e-9)
    if complaint in SHOWS_COLD and cold >= 0.1:
        return replace(fault, threshold=0.98 * u * cold)
    return fault


def set_up(
    scenario: Scenario, table: Table, learner: str, secret: str | None
) -> tuple[Situation, list[TrueFault]]:
    """The machine as it comes in, and what is true of it."""
    words = seed_words(scenario, learner, secret)
    truth = truth_of(scenario, table, words)
    for true in truth:
        if true.severity < 0.2:
            raise TwoStrokeError(
                f"severity {true.severity:g} of {true.fault}: nobody would bring that in; give {MILD:g} to 1"
            )
    ambient = float(read(scenario.machine.ambient, "degC", name="ambient").to("degC").magnitude)
    heat = Heat(ambient)
    if scenario.starts == "hot":
        heat.run(10.0)
    size = machine_model(scenario)
    faults = [settle(present(true, *words), table, scenario.complaint.kind) for true in truth]
    situation = Situation(
        size, Figures.of(bands(scenario)), words, faults, heat, at_rest(ideal(size, 1)),
        complaint=scenario.complaint.kind, atmosphere=float(air_at(scenario.machine.altitude)[0]),
    )  # fmt: skip
    machine = situation.machine(table)
    wetness, colour, fuel = history(machine, Draws(*words, "owner"), situation.heat.module)
    situation.fuel, situation.wetness, situation.colour = fuel, wetness, colour
    return situation, truth
