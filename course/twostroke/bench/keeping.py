"""Keeping a job: saving and opening it again, and checking a route that someone hands in."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from twostroke.bench.reading import Step
from twostroke.bench.session import Bench
from twostroke.errors import TwoStrokeError
from twostroke.table import Scenario, Table, scenario_paths

FORM = 1
_CHECKED = (
    "reading",
    "words",
    "result",
    "minutes",
    "money",
    "time",
    "conditions",
    "opened",
    "cautions_missed",
)
_ENDS = ("hand_back", "hand_on")


class RouteError(TwoStrokeError):
    """A route is not what this machine gives."""


def replay(
    route: Sequence[Step | Mapping[str, Any]],
    scenario: Any,
    learner: str,
    *,
    secret: str | None = None,
    reminders: bool = True,
    table: Table | None = None,
) -> Bench:
    """Do a route again, step by step, and compare every reading.

    Parameters
    ----------
    route : sequence of Step or dict
        As ``bench.route`` or JSON gives it.
    scenario, learner, secret, reminders, table
        As for :class:`Bench`.

    Returns
    -------
    Bench
        The job as it stands at the end of the route.

    Raises
    ------
    RouteError
        A step that this machine does not give; the message names it.

    Examples
    --------
    >>> bench = Bench("plug_fouled_trimmer", "Anna")
    >>> _ = bench.do("switch_check")
    >>> replay(bench.route, "plug_fouled_trimmer", "ANNA").minutes
    1.0
    >>> forged = [{**bench.route[0].to_dict(), "minutes": 0.1}]
    >>> replay(forged, "plug_fouled_trimmer", "anna")
    Traceback (most recent call last):
        ...
    twostroke.bench.keeping.RouteError: step 1 (switch_check): minutes is 1.0 on this machine,
    and the route says 0.1
    """
    if not isinstance(route, list | tuple):
        raise RouteError(f"a route is a list of steps, not {type(route).__name__}")
    bench = Bench(scenario, learner, secret=secret, reminders=reminders, table=table)
    for number, record in enumerate(route, start=1):
        if not isinstance(record, Mapping):
            raise RouteError(f"step {number}: is no record of a step")
        _again(bench, number, record)
    return bench


def _again(bench: Bench, number: int, record: Mapping[str, Any]) -> None:
    action = str(record.get("action"))
    where = f"step {number} ({action})"
    try:
        if action in _ENDS:
            confidence = record.get("confidence")
            bench.hand_back(
                record.get("diagnosis"),
                0.0 if confidence is None else confidence,
                hand_on=action == "hand_on",
            )
        else:
            settings = dict(record.get("settings") or {})
            confirmed = [str(name) for name in record.get("cautions_confirmed") or ()]
            reading = bench.do(action, **settings, confirm=confirmed, anyway=True)
            if not reading.done:
                raise RouteError(f"{where}: cannot be done there: {reading.words}")
    except RouteError:
        raise
    except (TwoStrokeError, TypeError, ValueError) as error:
        raise RouteError(f"{where}: {error}") from None
    made = bench.route[-1].to_dict()
    for key in _CHECKED:
        given = record.get(key)
        given = list(given) if isinstance(given, tuple) else given
        if given != made[key]:
            raise RouteError(f"{where}: {key} is {made[key]!r} on this machine, and the route says {given!r}")


def to_json(bench: Bench) -> str:
    """A job as text, to be opened again by :func:`from_json`; what is wrong with the machine is not in it.

    A scenario that does not come with the course has to be handed in again when the job is opened.
    """
    content = {
        "form": FORM,
        "scenario": bench.scenario.id,
        "learner": bench.learner,
        "reminders": bench.reminders,
        "steps": [step.to_dict() for step in bench.route],
    }
    return json.dumps(content, ensure_ascii=False, indent=1, sort_keys=True)


def from_json(
    text: str,
    *,
    scenario: Scenario | dict[str, Any] | None = None,
    secret: str | None = None,
    table: Table | None = None,
) -> Bench:
    """Open a kept job where it was left.

    Parameters
    ----------
    text : str
        What :func:`to_json` gave.
    scenario : Scenario or dict, optional
        Where the scenario does not come with the course.
    secret : str, optional
        For a scenario whose fault is drawn.
    table : Table, optional

    Raises
    ------
    TwoStrokeError
        Text that is no kept job, or a scenario that is not at hand.
    RouteError
        The steps are not what this machine gives.

    Examples
    --------
    >>> bench = Bench("plug_fouled_trimmer", "Anna")
    >>> _ = bench.do("switch_check")
    >>> from_json(to_json(bench)).route == bench.route
    True
    """
    try:
        content = json.loads(text)
        name, learner, steps = content["scenario"], content["learner"], content["steps"]
        form, reminders = content["form"], bool(content["reminders"])
    except (ValueError, TypeError, KeyError):
        raise TwoStrokeError(
            "this is no kept bench job: open the file that the bench itself has written"
        ) from None
    if form != FORM:
        raise TwoStrokeError(
            f"this job is kept in form {form!r}, and this bench reads form {FORM}: start the job again"
        )
    if scenario is None and name not in scenario_paths():
        raise TwoStrokeError(f"scenario {name!r} does not come with the course: hand it in with scenario=…")
    source: Any = name if scenario is None else scenario
    return replay(steps, source, learner, secret=secret, reminders=reminders, table=table)
