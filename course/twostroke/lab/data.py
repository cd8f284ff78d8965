"""Answers as plain data: text, numbers, lists and dictionaries of these, nothing that can run."""

from __future__ import annotations

from typing import Any

LONGEST_TEXT = 6000
MOST_ENTRIES = 400
DEEPEST = 5


class NotData(Exception):  # noqa: N818  (a signal inside this package, not an error for the reader)
    """The answer is no plain data; its text says what to write instead."""


def as_data(answer: Any, depth: int = 0) -> Any:
    """Return the answer as plain data that JSON can hold.

    Exact types only: an object that claims to be equal to everything is no answer.

    Parameters
    ----------
    answer : object
        What the learner handed over.
    depth : int
        Depth of nesting so far.

    Returns
    -------
    str, int, float, bool, None, list or dict
        A copy made of plain data. Text is stripped of blanks at both ends.

    Raises
    ------
    NotData
        When it is something else, too long or nested too deep.

    Examples
    --------
    >>> as_data({"gap": " 0.30 mm "})
    {'gap': '0.30 mm'}
    """
    kind = type(answer)
    if answer is None or kind in (bool, int, float):
        if kind is int and abs(answer) > 10**15:
            raise NotData("a number with over 15 digits is no reading; write it as text with its unit")
        return answer
    if kind is str:
        if len(answer) > LONGEST_TEXT:
            raise NotData(f"the answer is {len(answer)} characters long; {LONGEST_TEXT} at most")
        return answer.strip()
    if depth >= DEEPEST:
        raise NotData("the answer is nested too deep; write one text for each blank")
    if kind in (list, tuple, dict):
        if len(answer) > MOST_ENTRIES:
            raise NotData(f"the answer has {len(answer)} entries; {MOST_ENTRIES} at most")
        if kind is dict:
            return {_name(key): as_data(value, depth + 1) for key, value in answer.items()}
        return [as_data(value, depth + 1) for value in answer]
    if kind.__module__.partition(".")[0] == "pint":
        return _quantity(answer)
    raise NotData('the answer must be text between quotes, for example "0.25 mm"')


def _name(key: Any) -> str:
    if type(key) is not str or len(key) > 200:
        raise NotData("each blank is named by text between quotes")
    return key


def _quantity(answer: Any) -> str:
    magnitude = getattr(answer, "magnitude", None)
    if type(magnitude) not in (int, float):
        raise NotData('write a reading as text with its unit, for example "0.25 mm"')
    return f"{magnitude:.12g} {answer.units:~}"
