"""The form of a fault table: faults, tests, repairs, covers, hazards, and what every row must satisfy.

A table is data only. It says how often a fault is met, what each test would show, what each action costs and
which cautions belong to it; nothing is inferred here. :func:`twostroke.table.load_table` reads one from YAML.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, PrivateAttr, model_validator

Identifier = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$")]
Chance = Annotated[float, Field(ge=0.0, le=1.0)]
Minutes = Annotated[float, Field(ge=0.0, le=10_000.0)]
Money = Annotated[float, Field(ge=0.0, le=1e6)]
Row = Annotated[list[Chance], Field(min_length=2)]

CONDITIONS = ("cold", "hot", "shake")
OTHER = "other"
UNDONE = "undone"
"""Result of a repair whose unsound order of work left everything as it was."""
SUM_TOLERANCE = 1e-6


class Part(BaseModel):
    """Base of all parts of the table: unchangeable, no unknown keys, no silent conversion of types."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)


def _one_hazard_to_many(data: Any) -> Any:
    """Accept ``hazard: id`` where a row has one hazard only, as in version 0.1 of the form."""
    if isinstance(data, dict) and "hazard" in data:
        data = dict(data)
        single = data.pop("hazard")
        data["hazards"] = [*data.get("hazards", []), single]
    return data


class Meta(Part):
    """Prices and rules that hold for the whole table.

    ``shop`` says whose own table it is and ``day`` of what date; both are empty in the course's own.
    """

    version: float
    title: str = "fault table"
    note: str = ""
    shop: str = ""
    day: str = ""
    money_per_minute: Annotated[float, Field(gt=0)]
    verify_minutes: Minutes
    comeback_cost: Money
    escalate_cost: Money
    cool_to_hot_minutes: Minutes
    hot_to_cool_minutes: Minutes
    repeat_corr: Annotated[float, Field(ge=0.0, lt=1.0)]
    double_fault_fraction: Annotated[float, Field(ge=0.0, lt=1.0)]
    result_order: str = ""
    verify: dict[Identifier, list[Literal["cold", "hot", "shake"]]] = {}
    verify_hazards: list[Identifier] = []


class Access(Part):
    """A cover or part that must be off before something can be reached; opened once, stays open."""

    name: str = ""
    minutes: Minutes
    needs: list[Identifier] = []
    needs_where: dict[Identifier, list[Identifier]] = {}
    only_with: Identifier | None = None
    cool: bool = False
    hazards: list[Identifier] = []
    note: str = ""

    _hazard = model_validator(mode="before")(_one_hazard_to_many)


class Active(Part):
    """Chance that an intermittent fault shows itself while the machine is cold, hot or shaken."""

    cold: Chance = 1.0
    hot: Chance = 1.0
    shake: Chance = 1.0


class Fault(Part):
    """One thing that can be wrong, with its rate per 1000 complaints and what a person should know of it."""

    sys: str
    rate: Annotated[float, Field(gt=0)]
    name: str
    active: Active | None = None
    only_with: Identifier | None = None
    owner: str = ""
    why: str = ""
    proof: str = ""
    repair: str = ""
    caution: str = ""

    def shows(self, condition: str) -> float:
        """Chance that the fault acts under `condition` (``cold``, ``hot`` or ``shake``)."""
        return 1.0 if self.active is None else float(getattr(self.active, condition))


class CommonCause(Part):
    """Two faults that come together more often than by chance."""

    pair: Annotated[list[Identifier], Field(min_length=2, max_length=2)]
    rate: Annotated[float, Field(gt=0)]
    why: str = ""


class Complaint(Part):
    """The customer's words as evidence: one distribution over complaint kinds for each fault."""

    results: Annotated[list[Identifier], Field(min_length=2)]
    base: Row
    hits: dict[Identifier, Row] = {}
    words: dict[Identifier, str] = {}


class Rung(Part):
    """One step of a ladder from the smallest reading to the largest.

    `below` is a factor on the end of the maker's band named by `of`, or, with ``of: fixed``, a number in the
    reading's unit. The last rung has neither.
    """

    result: Identifier
    below: Annotated[float, Field(ge=0)] | None = None
    of: Literal["low", "high", "fixed"] = "low"


class Reading(Part):
    """What an instrument shows in a test and how the number becomes a result of the test."""

    quantity: Identifier
    unit: str
    band: Identifier | None = None
    ladder: Annotated[list[Rung], Field(min_length=2)]


class Test(Part):
    """A test or a look: minutes, covers, condition, results from 'nothing wrong seen' to 'worst'."""

    __test__ = False

    name: str = ""
    how: str = ""
    minutes: Minutes
    results: Annotated[list[Identifier], Field(min_length=2)]
    words: dict[Identifier, str] = {}
    base: Row
    hits: dict[Identifier, Row] = {}
    temp: Literal["cold", "hot", "any"] = "any"
    forces: Literal["cold", "hot"] | None = None
    leaves: Literal["cold", "hot"] | None = None
    shake: bool = False
    access: list[Identifier] = []
    hazards: list[Identifier] = []
    sees_inactive: bool = False
    instrument: Identifier | None = None
    reading: Reading | None = None
    needs_band: Identifier | None = None
    only_with: Identifier | None = None
    not_alone: bool = False
    note: str = ""

    _hazard = model_validator(mode="before")(_one_hazard_to_many)

    def condition(self, present: str = "cold") -> str:
        """Condition under which the test runs when none is said.

        Shaken if the test shakes, else the temperature that it forces or needs, else `present`.

        Examples
        --------
        >>> hot_test = Test(minutes=3, results=["good", "none"], base=[0.9, 0.1], temp="hot")
        >>> hot_test.condition("cold")
        'hot'
        """
        if self.shake:
            return "shake"
        if self.forces:
            return self.forces
        return present if self.temp == "any" else self.temp

    def row(self, fault: str) -> list[float]:
        """Distribution over the results while `fault` acts: its own row, or the base row."""
        return self.hits.get(fault, self.base)

    def say(self, result: str) -> str:
        """Plain words for a result."""
        return self.words.get(result, result.replace("_", " "))


class Repair(Part):
    """A repair: minutes, covers, part, and the chance that each fault is gone once it is done."""

    name: str = ""
    how: str = ""
    minutes: Minutes
    part: Money = 0.0
    part_name: str = ""
    access: list[Identifier] = []
    temp: Literal["cold", "any"] = "any"
    trial: bool = False
    fixes: Annotated[dict[Identifier, Annotated[float, Field(gt=0.0, le=1.0)]], Field(min_length=1)]
    hazards: list[Identifier] = []
    only_with: Identifier | None = None
    note: str = ""

    _hazard = model_validator(mode="before")(_one_hazard_to_many)


class Hazard(Part):
    """A danger with the precaution that must be confirmed before the step."""

    name: str = ""
    caution: str
    source: str = "common practice, no source"

    @model_validator(mode="before")
    @classmethod
    def _text_only(cls, data: Any) -> Any:
        return {"caution": data} if isinstance(data, str) else data


class Table(Part):
    """A whole fault table.

    Notes
    -----
    Every number of the table that comes with this package is an estimate made up for teaching; it is not
    service data for any machine.
    """

    meta: Meta
    access: dict[Identifier, Access] = {}
    faults: Annotated[dict[Identifier, Fault], Field(min_length=1)]
    common_cause_pairs: list[CommonCause] = []
    complaint: Complaint | None = None
    tests: dict[Identifier, Test] = {}
    repairs: Annotated[dict[Identifier, Repair], Field(min_length=1)]
    hazards: dict[Identifier, Hazard] = {}
    features: dict[Identifier, str] = {}
    instruments: dict[Identifier, str] = {}
    systems: dict[Identifier, str] = {}

    _derived: dict[Any, Any] = PrivateAttr(default_factory=dict)

    __hash__ = object.__hash__

    def __eq__(self, other: object) -> bool:
        return self is other

    @property
    def derived(self) -> dict[Any, Any]:
        """Place where other modules keep what they have computed from this (unchangeable) table."""
        return self._derived

    def replaced(self, **rows: Any) -> Table:
        """A table with some of its groups of rows replaced."""
        kept = {name: getattr(self, name) for name in type(self).model_fields}
        return Table(**(kept | rows))

    @property
    def complaints(self) -> list[str]:
        """Identifiers of the complaint kinds."""
        return list(self.complaint.results) if self.complaint else []

    def action(self, identifier: str) -> Test | Repair:
        """The test or repair called `identifier`."""
        found = self.tests.get(identifier) or self.repairs.get(identifier)
        if found is None:
            from twostroke.table.reader import unknown

            raise unknown("test or repair", identifier, [*self.tests, *self.repairs])
        return found

    def opening(self, wanted: list[str], already: frozenset[str] | set[str] = frozenset()) -> list[str]:
        """Covers still to open, in an order in which each comes after what it needs.

        Examples
        --------
        >>> from twostroke.table import load_table
        >>> load_table().opening(["flywheel"], already={"plug_out"})
        ['top_cover', 'flywheel']
        """
        order: list[str] = []

        def add(name: str) -> None:
            if name in already or name in order:
                return
            for need in self.access[name].needs:
                add(need)
            order.append(name)

        for name in wanted:
            add(name)
        return order

    def verify_conditions(self, complaint: str | None) -> list[str]:
        """Conditions in which a verify run must be made so that this complaint would show again.

        An empty list means: as the machine stands.
        """
        return list(self.meta.verify.get(complaint or "", _VERIFY.get(complaint or "", [])))


_VERIFY = {"dies_hot": ["cold", "hot"], "after_lead_moved": ["shake"]}
