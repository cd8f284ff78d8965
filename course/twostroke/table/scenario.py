"""A scenario: one machine with its story, written in a form that an instructor can edit.

The bench starts from a scenario; the table says what its names mean.
"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import Field

from twostroke.table.load import load_table
from twostroke.table.machine import for_machine
from twostroke.table.model import OTHER, Identifier, Money, Part, Table
from twostroke.table.reader import build, complain, read_yaml

COMPETENCIES = (
    "safety",
    "taking a complaint",
    "units and measuring",
    "spark testing",
    "plug and lead",
    "stop circuit and ground",
    "module and windings",
    "air gap",
    "magnets, key and timing",
    "compression and sealing",
    "fuel, air and exhaust",
    "isolation logic",
    "intermittent faults",
    "repair and verify",
    "passing on",
    "job card and estimate",
)


class Machine(Part):
    """The invented machine of a scenario."""

    kind: Literal["hedge trimmer", "brush cutter", "cut-off saw", "earth auger", "water pump"]
    engine: Annotated[str, Field(pattern=r"^demo engine [A-F]$")]
    displacement: str
    features: list[Identifier] = Field(default_factory=list)
    ambient: str = "20 degC"
    altitude: str = "0 m"
    note: str = ""


class Owner(Part):
    """What the owner brings: the kind of complaint and their own words."""

    kind: Identifier
    words: Annotated[str, Field(min_length=10)]


class Onset(Part):
    """When an intermittent fault shows itself on this machine; what is left out comes from the engine."""

    above: str | None = None
    below: str | None = None
    shaken: bool = False
    after_running: str | None = None


class TrueFault(Part):
    """One thing that is wrong with this machine, from barely (near 0) to completely (1).

    ``form`` picks, from 0 to 1, which form of the fault it is where it has several (a plug shorted or open
    inside); left out, every learner gets another.
    """

    fault: Identifier
    severity: Annotated[float, Field(gt=0.0, le=1.0)] = 1.0
    form: Annotated[float, Field(ge=0.0, le=1.0)] | None = None
    onset: Onset | None = None


class Seed(Part):
    """Where the engine's spread and the readings' noise come from.

    ``learner`` gives every learner another engine and other readings, ``fixed`` gives all of them `number`,
    ``drawn`` draws the fault too, out of `draw_from` (or the whole table), with a secret of the course.
    """

    policy: Literal["learner", "fixed", "drawn"] = "learner"
    number: int = 1
    draw_from: list[Identifier] = Field(default_factory=list)


class Scenario(Part):
    """One machine, one complaint, what is true, and what the learner should gain.

    Attributes
    ----------
    tests, repairs : list of str or "all"
        What the learner may do; everything that the machine allows when ``"all"``.
    bands : dict
        The maker's bands of this invented machine, text with units, such as ``"0.20-0.40 mm"``.
    labour_per_minute : float or None
        Overrides the table's price of a minute.
    """

    id: Identifier
    title: Annotated[str, Field(min_length=5)]
    machine: Machine
    complaint: Owner
    truth: list[TrueFault]
    history: Annotated[list[str], Field(min_length=1)]
    aim: Annotated[str, Field(min_length=10)]
    competencies: Annotated[list[str], Field(min_length=1)]
    tests: list[Identifier] | Literal["all"] = "all"
    repairs: list[Identifier] | Literal["all"] = "all"
    bands: dict[Identifier, str] = Field(default_factory=dict)
    starts: Literal["cold", "hot"] = "cold"
    seed: Seed = Seed()
    labour_per_minute: Money | None = None
    closing: str = ""

    def table(self, whole: Table) -> Table:
        """The part of `whole` that holds on this machine, with the tests and repairs that are allowed."""
        cut = for_machine(whole, self.machine.features, self.bands)
        tests = cut.tests if self.tests == "all" else {t: cut.tests[t] for t in self.tests}
        repairs = cut.repairs if self.repairs == "all" else {r: cut.repairs[r] for r in self.repairs}
        return cut.replaced(tests=tests, repairs=repairs)


def load_scenario(path: str | Path, table: Table | None = None) -> Scenario:
    """A scenario file, checked for form and against the table.

    Parameters
    ----------
    path : str or Path
        A YAML file.
    table : Table, optional
        The table whose names the scenario uses; the course's own when left out.

    Raises
    ------
    TableError
        Naming file, row, line and cure.

    Examples
    --------
    >>> from twostroke.table import scenario_paths
    >>> load_scenario(scenario_paths()["plug_fouled_trimmer"]).truth[0].fault
    'plug_fouled'
    """
    table = load_table() if table is None else table
    path = Path(path)
    content, lines = read_yaml(path)
    scenario = build(Scenario, content, lines, path.name)
    faults = _against(scenario, table)
    if faults:
        raise complain(path.name, lines, faults)
    return scenario


def _against(scenario: Scenario, table: Table) -> list[tuple[tuple[str | int, ...], str]]:
    """Breaches between a scenario and the table."""
    out: list[tuple[tuple[str | int, ...], str]] = []

    def need(where: tuple[str | int, ...], name: str, known: Any, kind: str) -> bool:
        if name in known:
            return True
        out.append((where, f"'{name}' is no {kind}; known are {', '.join(known)}; correct the name"))
        return False

    features_known = [
        need(("machine", "features"), f, table.features, "machine feature") for f in scenario.machine.features
    ]
    need(("complaint", "kind"), scenario.complaint.kind, table.complaints, "complaint kind of the table")
    for competency in scenario.competencies:
        need(("competencies",), competency, COMPETENCIES, "competency of the course")
    if not all(features_known):
        return out
    cut = for_machine(table, scenario.machine.features, scenario.bands)
    if not scenario.truth and scenario.seed.policy != "drawn":
        message = "nothing is wrong with this machine; name a fault, or set seed › policy to drawn"
        out.append((("truth",), message))
    for index, true in enumerate(scenario.truth):
        where = ("truth", index)
        if true.fault == OTHER:
            out.append((where, "'other' is no fault that a bench can have; name one of the table"))
        elif not need(where, true.fault, table.faults, "fault of the table"):
            continue
        elif true.fault not in cut.faults:
            lacks = table.faults[true.fault].only_with
            out.append((where, f"'{true.fault}' needs a machine with {lacks}; add it to the features"))
    for index, fault in enumerate(scenario.seed.draw_from):
        need(("seed", "draw_from", index), fault, cut.faults, "fault that this machine can have")
    for key, chosen, known in (
        ("tests", scenario.tests, cut.tests),
        ("repairs", scenario.repairs, cut.repairs),
    ):
        for name in chosen if chosen != "all" else ():
            need((key,), name, known, f"thing that can be done on this machine ({key})")
    repairs = cut.repairs if scenario.repairs == "all" else {r: cut.repairs.get(r) for r in scenario.repairs}
    for index, true in enumerate(scenario.truth):
        if not any(row is not None and true.fault in row.fixes for row in repairs.values()):
            out.append((("truth", index), f"no allowed repair cures '{true.fault}'; add one to the repairs"))
    return out
