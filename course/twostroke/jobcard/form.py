"""The form of a job card: plain parts that JSON can hold, nothing worked out here."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from twostroke.table.model import Part

State = Literal["fixed", "repaired, not proven", "found, not repaired", "handed on", "open"]
Verdict = Literal["repair", "the owner decides", "replace", "not decided"]


class Read(Part):
    """One reading: what was measured or looked at, what it showed, with what, in which state."""

    action: str
    what: str
    shown: str = ""
    result: str = ""
    instrument: str = ""
    state: str = ""
    supports: bool = False


class Diagnosis(Part):
    """What the technician says is wrong."""

    fault: str
    name: str
    confidence: Annotated[float, Field(ge=0.0, le=1.0)]


class Work(Part):
    """A repair that was done; a part on trial that changed nothing went back in the drawer."""

    action: str
    what: str
    how: str = ""
    part: str = ""
    price: Annotated[float, Field(ge=0.0)] = 0.0
    returned: bool = False


class Verification(Part):
    """Verify runs after the last repair."""

    passed: bool
    asked: list[str] = Field(default_factory=list)
    made: list[str] = Field(default_factory=list)
    words: str = ""


class Minutes(Part):
    """Where the time went."""

    finding: float
    repair: float
    proving: float

    @property
    def total(self) -> float:
        """All of it."""
        return self.finding + self.repair + self.proving


class Line(Part):
    """One line of the estimate."""

    what: str
    amount: float


class Estimate(Part):
    """What it costs."""

    currency: str
    lines: list[Line]
    total: float


class Advice(Part):
    """Repair or replace, with the rule and its figures."""

    verdict: Verdict
    rule: str
    figures: str


class JobCard(Part):
    """A whole job card."""

    form: Literal[1] = 1
    shop: str
    note: str = ""
    date: str = ""
    technician: str = ""
    machine: str
    complaint: str
    history: list[str] = Field(default_factory=list)
    readings: list[Read]
    diagnosis: Diagnosis | None
    repairs: list[Work]
    verification: Verification
    state: State
    minutes: Minutes
    estimate: Estimate
    advice: Advice
    owner: list[str]
    cautions: list[str]

    def to_json(self) -> str:
        """The card as JSON text."""
        return self.model_dump_json(indent=1)
