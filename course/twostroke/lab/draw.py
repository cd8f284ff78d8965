"""Numbers for each learner: whole numbers drawn from SHA-256, alike on every machine and Python version."""

from __future__ import annotations

import hashlib
import re
import unicodedata
from collections.abc import Sequence
from typing import Any, TypeVar

from twostroke.errors import TwoStrokeError

T = TypeVar("T")
_SEPARATOR = "\x1f"
LONGEST_NAME = 200


class LabError(TwoStrokeError):
    """A lab, a learner's name or an attempt that cannot be used as it stands."""


def lab_number(lab: str | int) -> str:
    """Return the two-digit number of a lab from "1", "01", "lab01" or "Lab 1".

    Parameters
    ----------
    lab : str or int
        The lab as someone would write it.

    Returns
    -------
    str
        Two digits.

    Raises
    ------
    LabError
        When no lab number can be read.

    Examples
    --------
    >>> lab_number("Lab 1"), lab_number(7)
    ('01', '07')
    """
    match = re.fullmatch(r"(?:lab)?[\s_-]*([0-9]{1,2})", str(lab).strip().casefold())
    if match is None or isinstance(lab, bool):
        raise LabError(f'lab {str(lab)[:40]!r}: write its number, for example "01"')
    return f"{int(match.group(1)):02d}"


def fold(learner: str | int) -> str:
    """Return a learner's identifier without case, spaces and invisible characters.

    Parameters
    ----------
    learner : str or int
        Name or number as typed.

    Returns
    -------
    str
        The folded identifier; two spellings that fold alike are one learner.

    Raises
    ------
    LabError
        When nothing is left, or when it is over 200 characters long.

    Examples
    --------
    >>> fold("  Learner  07 ") == fold("LEARNER07")
    True
    """
    if isinstance(learner, bool) or not isinstance(learner, (str, int)):
        raise LabError("learner: write your name or number between quotes")
    text = unicodedata.normalize("NFKC", str(learner)).casefold()
    kept = "".join(c for c in text if not c.isspace() and unicodedata.category(c) not in ("Cf", "Cc"))
    if not kept:
        raise LabError("learner: write your name or number between the quotes")
    if len(kept) > LONGEST_NAME:
        raise LabError(f"learner: {len(kept)} characters; {LONGEST_NAME} at most")
    return kept


def attempt_number(attempt: int) -> int:
    """Return the attempt when it is a whole number from 1 to 99.

    Raises
    ------
    LabError
        Otherwise.

    Examples
    --------
    >>> attempt_number(2)
    2
    """
    if type(attempt) is not int or not 1 <= attempt <= 99:
        raise LabError(f"attempt {str(attempt)[:20]!r}: write a whole number from 1 to 99")
    return attempt


class Draw:
    """Named draws for one learner, lab and attempt.

    Each draw depends only on its own name, so that a new draw leaves the older ones as they were.

    Parameters
    ----------
    lab : str
        Two-digit lab number.
    learner : str
        Folded identifier.
    attempt : int
        1 for the first.

    Examples
    --------
    >>> draw = Draw("01", "learner07", 1)
    >>> draw.integer("gap", 8, 16) == Draw("01", "learner07", 1).integer("gap", 8, 16)
    True
    """

    def __init__(self, lab: str, learner: str, attempt: int = 1):
        self._key = _SEPARATOR.join(("two-stroke lab", lab, learner, str(attempt)))

    def number(self, name: str) -> int:
        """Return a whole number of 256 bits for this name."""
        return int.from_bytes(hashlib.sha256(f"{self._key}{_SEPARATOR}{name}".encode()).digest(), "big")

    def integer(self, name: str, low: int, high: int, step: int = 1) -> int:
        """Return one of low, low + step, … up to high, each equally likely."""
        return low + step * (self.number(name) % ((high - low) // step + 1))

    def pick(self, name: str, options: Sequence[T]) -> T:
        """Return one of the options, each equally likely."""
        return options[self.number(name) % len(options)]

    def shuffle(self, name: str, options: Sequence[T]) -> list[T]:
        """Return the options in an order drawn for this name."""
        order = sorted(range(len(options)), key=lambda place: self.number(f"{name} {place}"))
        return [options[place] for place in order]


class Variant(dict[str, Any]):
    """What one learner's lab looks like: a dictionary of whole numbers, text and lists of these.

    Attributes
    ----------
    lab : str
        Two-digit lab number.
    learner : str
        Folded identifier.
    attempt : int
        1 for the first.
    owner : str
        Who hands it in, as far as a grader vouches for it; the learner else.
    """

    def __init__(self, lab: str, learner: str, attempt: int, values: dict[str, Any]):
        super().__init__(values)
        self.lab, self.learner, self.attempt = lab, learner, attempt
        self.owner = learner
