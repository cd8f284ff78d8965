"""The labs there are, and each learner's variant of one."""

from __future__ import annotations

import importlib
import pkgutil
import re
from functools import cache
from pathlib import Path

from twostroke.lab.draw import Draw, LabError, Variant, attempt_number, fold, lab_number
from twostroke.lab.task import Lab


@cache
def lab_ids() -> tuple[str, ...]:
    """Return the numbers of all labs that exist, in order.

    Examples
    --------
    >>> "01" in lab_ids()
    True
    """
    names = (module.name for module in pkgutil.iter_modules([str(Path(__file__).parent)]))
    return tuple(sorted(name[3:] for name in names if re.fullmatch(r"lab[0-9]{2}", name)))


def load(lab: str | int) -> Lab:
    """Return a lab by its number.

    Parameters
    ----------
    lab : str or int
        "01", "lab01", "Lab 1" or 1.

    Returns
    -------
    Lab

    Raises
    ------
    LabError
        When there is no such lab.

    Examples
    --------
    >>> load("lab01").title
    'Shop units'
    """
    number = lab_number(lab)
    if number not in lab_ids():
        raise LabError(f"lab {number} does not exist; there are: {', '.join(lab_ids())}")
    found: Lab = importlib.import_module(f"twostroke.lab.lab{number}").LAB
    return found


def variant(lab: str | int, learner: str | int, attempt: int = 1) -> Variant:
    """Return what one learner is given in one lab: the same on every machine and Python version.

    Whole numbers from SHA-256 of lab, learner, attempt and the name of each draw. Case, spaces and invisible
    characters of the learner's identifier do not matter.

    Parameters
    ----------
    lab : str or int
        "01", "lab01" or 1.
    learner : str or int
        Name or number.
    attempt : int, optional
        Another attempt draws other numbers.

    Returns
    -------
    Variant
        A dictionary of whole numbers and text, with attributes lab, learner, attempt.

    Raises
    ------
    LabError
        No such lab, an empty identifier, or an attempt that is no whole number from 1 to 99.

    References
    ----------
    FIPS 180-4 (SHA-256).

    Examples
    --------
    >>> variant("01", "Learner 07") == variant("lab01", "learner07")
    True
    >>> variant("01", "Learner 07") == variant("01", "Learner 08")
    False
    """
    found = load(lab)
    who, which = fold(learner), attempt_number(attempt)
    return Variant(found.id, who, which, found.draw(Draw(found.id, who, which)))
