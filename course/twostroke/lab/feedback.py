"""What a learner is told: what is seen, what it suggests, what to check."""

from __future__ import annotations

from dataclasses import dataclass

LONGEST = 45
"""Most words in one feedback, the three parts together."""


@dataclass(frozen=True)
class Feedback:
    """One message in three parts.

    Parameters
    ----------
    seen : str
        What is seen in the answer.
    suggests : str
        What that suggests.
    check : str
        What to check next. Never the expected value.

    Examples
    --------
    >>> Feedback("Gap ten times too wide.", "A decimal place has slipped.", "Count the zeros.").words
    13
    """

    seen: str
    suggests: str = ""
    check: str = ""

    @property
    def text(self) -> str:
        """The parts in one line of text."""
        parts = (("Seen", self.seen), ("Suggests", self.suggests), ("Check", self.check))
        if not self.suggests and not self.check:
            return self.seen
        return " ".join(f"{name}: {part}" for name, part in parts if part)

    @property
    def words(self) -> int:
        """Number of words in the three parts."""
        return sum(len(part.split()) for part in (self.seen, self.suggests, self.check))


NOTHING = Feedback("")
"""For options and steps that need no feedback of their own."""


@dataclass(frozen=True)
class Form:
    """Result of the form check, which costs nothing.

    Parameters
    ----------
    ok : bool
        Whether the answer can be marked as it stands.
    message : str
        What is right or what to mend.
    value : object
        The answer as read (a float in the unit of the item, a key, an order …); None when it cannot be read.
    given : object
        The answer as plain data.
    empty : bool
        Whether nothing has been written yet.
    """

    ok: bool
    message: str
    value: object = None
    given: object = None
    empty: bool = False


@dataclass(frozen=True)
class Judged:
    """Result of marking one item.

    Parameters
    ----------
    fraction : float
        Part of the item's points, 0 to 1.
    state : str
        One of the names below.
    feedback : Feedback
        What the learner is told.
    slip : str or None
        Name of the slip that was recognised.
    """

    fraction: float
    state: str
    feedback: Feedback
    slip: str | None = None


RIGHT = "right"
PART = "part right"
SLIP = "known slip"
UNIT = "wrong unit"
OTHER = "not right"
FORM = "cannot be read"
EMPTY = "empty"
PERSON = "needs a person"
"""States of a mark."""


@dataclass(frozen=True)
class TaskMark:
    """The mark of one task.

    Parameters
    ----------
    task : str
        Task id.
    points, max_points : float
        Earned and possible.
    state : str
        "right", "part right", "known slip", "wrong unit", "not right", "cannot be read", "empty" or
        "needs a person".
    message : str
        What the learner is told; never the expected value.
    slip : str or None
        The first slip that was recognised.
    competency : str
        The competency to which the points belong.
    items : tuple of (str, Judged)
        The steps of the task, each with its own result.
    """

    task: str
    points: float
    max_points: float
    state: str
    message: str
    slip: str | None
    competency: str
    items: tuple[tuple[str, Judged], ...] = ()
