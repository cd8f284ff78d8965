"""A learner's route: one record a step, read from the bench or written by hand."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from twostroke.isolation.lookahead import HAND_BACK, HAND_ON, VERIFY
from twostroke.isolation.model import TEMPERATURES
from twostroke.table import CONDITIONS, UNDONE, Table, TableError, unknown

RUNS, FAILS = "runs", "fails"
_PASSED = {RUNS, "fixed", "cured", "passed", "pass", "ok", "works", "starts", "true"}
_FAILED = {
    FAILS,
    "not_fixed",
    "not_cured",
    "failed",
    "fail",
    "no_change",
    "no_start",
    "still_faulty",
    "false",
}
_NAMES = {
    VERIFY: VERIFY,
    "verify_run": VERIFY,
    HAND_BACK: HAND_BACK,
    "hand_over": HAND_BACK,
    "done": HAND_BACK,
    HAND_ON: HAND_ON,
    "escalate": HAND_ON,
    "give_up": HAND_ON,
}
_MOVES = {
    "heat": "hot",
    "warm_up": "hot",
    "run_warm": "hot",
    "cool": "cold",
    "cool_down": "cold",
    "wait": None,
    **dict.fromkeys(("prime", "pull", "measure", "trace", "stop_lead")),  # the bench's own, time only
}
_SPOKEN = {"shaken": "shake", "warm": "hot", **{c: c for c in CONDITIONS}}


@dataclass(frozen=True)
class Step:
    """One step of a route.

    Attributes
    ----------
    action : str
        Name of a test, repair or cover, or ``verify``, ``hand_back``, ``hand_on``, ``heat``, ``cool``,
        ``wait``.
    kind : str
        ``test``, ``repair``, ``attempt`` (a repair that left everything as it was), ``verify``,
        ``hand_back``, ``hand_on``, ``open`` or ``move``.
    result : str or None
        The table's name for what was seen; for a verify run ``runs`` or ``fails``.
    conditions : tuple of str
        Under which it was done, where the record says so.
    cautions : frozenset of str or None
        Cautions confirmed at this step; ``None`` where the record does not say.
    unsafe : bool
        The record says that a precaution was missed.
    fault, confidence
        Diagnosis stated at hand-back.
    minutes : float or None
        Time of the step where the record says so; used for waiting only.
    """

    action: str
    kind: str
    result: str | None = None
    conditions: tuple[str, ...] = ()
    cautions: frozenset[str] | None = None
    unsafe: bool = False
    fault: str | None = None
    confidence: float | None = None
    minutes: float | None = None


def read_route(table: Table, route: Sequence[Any]) -> list[Step]:
    """Step records of any accepted form as :class:`Step`.

    Parameters
    ----------
    table : Table
    route : sequence
        Dicts or objects; see :func:`twostroke.isolation.score_route` for the keys.

    Raises
    ------
    TableError
        A record without action, an unknown action, result or condition; the message names the step.
    """
    if not isinstance(route, list | tuple):
        raise TableError(
            f"a route is a list of steps, not {type(route).__name__}; see score_route for its form"
        )
    steps = []
    for number, record in enumerate(route, start=1):
        try:
            steps.append(record if isinstance(record, Step) else _read(table, record))
        except TableError as error:
            raise TableError(f"step {number} of the route: {error}") from None
    return steps


def _get(record: Any, *names: str) -> Any:
    for name in names:
        value = record.get(name) if isinstance(record, Mapping) else getattr(record, name, None)
        if value is not None:
            return value
    return None


def _read(table: Table, record: Any) -> Step:
    action = record if isinstance(record, str) else _get(record, "action")
    if not isinstance(action, str):
        raise TableError(f"{record!r} has no action; write it as {{'action': 'plug_look', 'result': 'wet'}}")
    result = None if isinstance(record, str) else _get(record, "result", "result_id")
    name = _NAMES.get(action, action)
    kind = _kind(table, name)
    if kind == "repair" and result == UNDONE:
        kind, result = "attempt", None
    elif kind == "test":
        result = _test_result(table, name, result)
    elif kind in ("verify", "repair"):
        result = _run_result(result)
    cautions = _get(record, "cautions", "cautions_confirmed")
    confidence = _get(record, "confidence")
    minutes = _get(record, "minutes")
    return Step(
        action=name,
        kind=kind,
        result=result,
        conditions=_conditions(record),
        cautions=None if cautions is None else _cautions(cautions),
        unsafe=bool(_get(record, "unsafe", "hazard_missed") or False),
        fault=_diagnosis(table, record, kind),
        confidence=None if confidence is None else _share(confidence),
        minutes=float(minutes) if isinstance(minutes, int | float) else None,
    )


def _cautions(given: Any) -> frozenset[str]:
    if isinstance(given, str) or not isinstance(given, Iterable):
        raise TableError(f"cautions {given!r}: write the names of the confirmed cautions as a list")
    return frozenset(str(caution) for caution in given)


def _kind(table: Table, name: str) -> str:
    if name in table.tests:
        return "test"
    if name in table.repairs:
        return "repair"
    if name in (VERIFY, HAND_BACK, HAND_ON):
        return name
    if name in table.access:
        return "open"
    if name in _MOVES:
        return "move"
    raise unknown("action", name, [*table.tests, *table.repairs, *table.access, VERIFY, HAND_BACK, HAND_ON])


def _test_result(table: Table, name: str, result: Any) -> str | None:
    if result is None:
        return None
    if not isinstance(result, str) or result not in table.tests[name].results:
        raise unknown(f"result of {name}", result, table.tests[name].results)
    return str(result)


def _run_result(result: Any) -> str | None:
    if result is None:
        return None
    word = str(result).lower()
    if word in _PASSED:
        return RUNS
    if word in _FAILED:
        return FAILS
    raise TableError(f"{result!r} is no outcome of a verify run; write '{RUNS}' or '{FAILS}'")


def _conditions(record: Any) -> tuple[str, ...]:
    """Known conditions only: a temperature in degrees belongs to the reading, not to the table."""
    if isinstance(record, str):
        return ()
    given = _get(record, "conditions", "condition")
    said = list(given or []) if given is None or isinstance(given, list | tuple) else [given]
    for condition in said:
        if not isinstance(condition, str) or condition not in _SPOKEN:
            raise unknown("condition", condition, CONDITIONS)
    temperature = _get(record, "temperature")
    if not said and isinstance(temperature, str) and temperature in TEMPERATURES:
        said = [temperature]
    return tuple(_SPOKEN[condition] for condition in said)


def _diagnosis(table: Table, record: Any, kind: str) -> str | None:
    fault = None if isinstance(record, str) else _get(record, "diagnosis", "fault")
    if fault is None or kind not in (HAND_BACK, HAND_ON):
        return None
    if not isinstance(fault, str) or fault not in table.faults:
        raise unknown("fault", fault, table.faults)
    return str(fault)


def _share(confidence: Any) -> float:
    if isinstance(confidence, bool) or not isinstance(confidence, int | float) or not 0 <= confidence <= 1:
        raise TableError(f"confidence {confidence!r}: must be a number from 0 (a guess) to 1 (certain)")
    return float(confidence)


def moved_to(action: str) -> str | None:
    """Temperature that a step such as ``heat`` or ``cool`` brings about; ``None`` for waiting."""
    return _MOVES[action]
