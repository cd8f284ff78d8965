"""What a course has agreed on: how often a lab is handed in, which hand-in counts, what late work costs."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field


class Policy(BaseModel):
    """The part ``[policy]`` of the class list.

    Parameters
    ----------
    attempts : int
        Hand-ins of one lab that are marked; 0 for any number.
    counts : str
        "best" or "last": which of them counts.
    late_percent_a_day : float
        Taken off the points earned, for each day begun after the due time.
    late_days : int or None
        Days after which late work earns nothing; None for never.
    grace_minutes : float
        Minutes after the due time that cost nothing.
    time_from : str
        "stamp": the time of handing in is that of nbgrader's ``timestamp.txt`` alone; "file": where there is
        none, the date of the file, which learners can change.

    Examples
    --------
    >>> Policy(late_percent_a_day=10).text
    'any number of hand-ins, the best counts; late work: 10 % off for each day begun'
    """

    model_config = ConfigDict(extra="forbid", frozen=True)
    attempts: int = Field(default=0, ge=0)
    counts: Literal["best", "last"] = "best"
    late_percent_a_day: float = Field(default=0.0, ge=0.0, le=100.0)
    late_days: int | None = Field(default=None, ge=0)
    grace_minutes: float = Field(default=0.0, ge=0.0)
    time_from: Literal["stamp", "file"] = "stamp"

    @property
    def text(self) -> str:
        """The policy in one line, for the report."""
        often = f"{self.attempts} hand-ins of a lab" if self.attempts else "any number of hand-ins"
        late = []
        if self.late_percent_a_day:
            late.append(f"{self.late_percent_a_day:g} % off for each day begun")
        if self.late_days is not None:
            late.append(f"nothing after {self.late_days} days")
        if late and self.grace_minutes:
            late.append(f"the first {self.grace_minutes:g} minutes are free")
        return f"{often}, the {self.counts} counts; late work: {', '.join(late) or 'costs nothing'}"


class School(BaseModel):
    """The part ``[school]`` of the class list: identifiers of the school's own system, for exports.

    Parameters
    ----------
    class_id, period_id : str
        Class, and grading period.
    """

    model_config = ConfigDict(extra="forbid", frozen=True)
    class_id: str = "class"
    period_id: str = "period"


def _with_zone(moment: datetime) -> datetime:
    if moment.tzinfo is None:
        raise ValueError("a due time needs its zone, for example 2026-12-01T18:00:00+01:00")
    return moment.astimezone(UTC)


DueTime = Annotated[datetime, AfterValidator(_with_zone)]


def _lab_key(name: str) -> str:
    if not re.fullmatch(r"lab\d\d", name):
        raise ValueError(f"{name!r}: write labs as lab01, lab02 …")
    return name


LabKey = Annotated[str, AfterValidator(_lab_key)]
