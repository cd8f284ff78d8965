"""A learner's own Python function, tried on other engines and edge cases: for those who program, no points.

It is tried at the learner's desk only, with a time limit for each try; graders never run it.
"""

from __future__ import annotations

import math
import sys
import threading
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import FrameType
from typing import Any

from twostroke.lab.draw import Variant
from twostroke.lab.formula import OTHER_ENGINE
from twostroke.lab.page import Lines, Page, Text

LIMIT = 1.0
"""Seconds for one try."""


class _TooSlow(BaseException):
    """Raised inside a try that has used up its time."""


@dataclass(frozen=True)
class Try:
    """One set of arguments.

    Parameters
    ----------
    kind : str
        OTHER_ENGINE, or an edge: a reading of zero, negative, with a wrong unit, missing.
    given : mapping of str to object
        Argument name -> value.
    refused : bool
        Whether the function must refuse it by raising ValueError.
    """

    kind: str
    given: Mapping[str, Any]
    refused: bool = False


@dataclass(frozen=True)
class OwnFunction:
    """An optional task: write a function.

    Parameters
    ----------
    id, title : str
        Name in calls; name for the reader.
    asked : str
        What it takes, gives and refuses, in words.
    reference : callable
        The library's own way, with the same arguments.
    tries : callable
        (variant) -> tuple of Try: this learner's numbers, other engines, edge cases.
    """

    id: str
    title: str
    asked: str
    reference: Callable[..., float]
    tries: Callable[[Variant], tuple[Try, ...]]


def run_limited(function: Callable[..., Any], given: Mapping[str, Any], seconds: float = LIMIT) -> Any:
    """Call a function and give up when its time is over.

    Parameters
    ----------
    function : callable
        What to call.
    given : mapping
        Its arguments by name.
    seconds : float
        Time allowed.

    Returns
    -------
    object
        What the function returns.

    Raises
    ------
    TimeoutError
        When the time is over, also in an endless loop.
    Exception
        What the function raises.

    Examples
    --------
    >>> run_limited(lambda ohm: 2 * ohm, {"ohm": 3})
    6
    """
    result: list[Any] = []
    failed: list[BaseException] = []
    end = time.monotonic() + seconds

    def watch(frame: FrameType, event: str, argument: Any) -> Any:
        if time.monotonic() > end:
            raise _TooSlow
        return watch

    def work() -> None:
        sys.settrace(watch)
        try:
            result.append(function(**given))
        except BaseException as error:
            failed.append(error)
        finally:
            sys.settrace(None)

    thread = threading.Thread(target=work, daemon=True)
    thread.start()
    thread.join(seconds + 0.5)
    if thread.is_alive():
        raise TimeoutError(f"it did not come back within {seconds:g} s and still runs: restart the kernel")
    if failed and isinstance(failed[0], _TooSlow):
        raise TimeoutError(f"it did not come back within {seconds:g} s")
    if failed:
        if isinstance(failed[0], Exception):
            raise failed[0]
        raise RuntimeError(type(failed[0]).__name__)
    return result[0]


def outcome(task: OwnFunction, function: Callable[..., Any], each: Try) -> str:
    """Say in words what is wrong with one try; empty when nothing is."""
    shown = ", ".join(f"{name}={value!r}" for name, value in each.given.items())
    try:
        value = run_limited(function, each.given)
    except TimeoutError as error:
        return f"with {shown}: {error}; look for a loop that never ends"
    except ValueError as error:
        return "" if each.refused else f'with {shown}: it refuses ("{error}") what it should compute'
    except Exception as error:
        said = f"with {shown}: {type(error).__name__}: {str(error)[:80]}"
        return said + ("; raise ValueError with a word of what is wrong" if each.refused else "")
    if each.refused:
        return f"with {shown}: it gives {_short(value)} where it should raise ValueError"
    if type(value) not in (int, float):
        return f"with {shown}: it gives {_short(value)}, not a number"
    if not math.isclose(float(value), task.reference(**each.given), rel_tol=1e-6, abs_tol=1e-9):
        return f"with {shown}: it gives {_short(value)}; work that one through by hand"
    return ""


def _short(value: Any) -> str:
    if value is None:
        return "nothing"
    return f"{value:.6g}" if type(value) in (int, float) else type(value).__name__


def try_function(task: OwnFunction, function: Any, given: Variant) -> Page:
    """Try a learner's function and say which kinds of reading it serves.

    Parameters
    ----------
    task : OwnFunction
    function : callable
        The learner's.
    given : Variant

    Returns
    -------
    Page
        For each kind of reading whether all is well, or the first try that is not; no points.
    """
    if not callable(function):
        return Page(
            task.title, (Text("Hand over the function itself, without brackets behind its name."),), "look"
        )
    rows: dict[str, str] = {}
    stopped = False
    for each in task.tries(given):
        if stopped or rows.get(each.kind):
            continue
        rows[each.kind] = outcome(task, function, each)
        stopped = "did not come back" in rows[each.kind]
    good = not any(rows.values())
    lines = tuple((f"{kind}:", said or "good") for kind, said in rows.items())
    last = "It serves every engine that was tried." if good else "The rest of the lab does not depend on it."
    return Page(
        f"{task.title}: no points, tried here only", (Lines(lines), Text(last)), "good" if good else "look"
    )


__all__ = ["LIMIT", "OTHER_ENGINE", "OwnFunction", "Try", "outcome", "run_limited", "try_function"]
