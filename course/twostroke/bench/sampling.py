"""How often each result of a test comes, by the physics: many machines and severities at once."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from twostroke.bench import faults, mixture, tests_at_bench
from twostroke.bench.engine import Array, Figures, Machine, healthy
from twostroke.bench.heat import MODULE_RUN
from twostroke.bench.history import history
from twostroke.bench.maker import bands_of
from twostroke.bench.models import MODELS
from twostroke.bench.seeds import Draws
from twostroke.bench.seen import Seen
from twostroke.bench.sparks import Output
from twostroke.bench.view import View
from twostroke.errors import TwoStrokeError
from twostroke.table import CONDITIONS, Table, load_table, unknown

HOT_ENGINE = 110.0


@dataclass(frozen=True)
class Crowd:
    """Machines of one model with a fault of various severities, ready for any test."""

    machine: Machine
    module: Array
    engine: Array
    fuel: mixture.FuelState
    wetness: Array
    colour: Array
    outputs: dict[tuple[str, bool], Output]
    bands: dict[str, tuple[float, float]]


@lru_cache(maxsize=64)
def crowd(letter: str, n: int, fault_id: str | None, condition: str, seed: object) -> Crowd:
    """`n` machines of one model, made once for all tests.

    Parameters
    ----------
    letter : str
        Demo engine.
    n : int
    fault_id : str or None
        ``None`` for sound machines.
    condition : str
        ``cold``, ``hot`` or ``shake``.
    seed : object
        Names the stream of chance.
    """
    model = MODELS[letter]
    words = ("sample", seed, letter)
    luck = Draws(*words, "machines")
    bands = bands_of(model)
    machine = healthy(model, n, luck, Figures.of(bands))
    if fault_id is not None:
        luck = Draws(*words, fault_id)
        severity, kind = luck.uniform(n, faults.MILD, faults.BAD), luck.uniform(n)
        faults.apply(machine, fault_id, severity, 1.0, kind)
    hot = condition == "hot"
    wetness, colour, fuel = history(machine, Draws(*words, "owner"))
    module = np.full(n, MODULE_RUN if hot else 20.0)
    return Crowd(machine, module, np.full(n, HOT_ENGINE if hot else 20.0), fuel, wetness, colour, {}, bands)


def view_of(crowd: Crowd, plug_out: bool, *words: object) -> View:
    """A view of a crowd with luck of its own."""
    fuel = crowd.fuel.copy()
    reading, lasting, owner = (Draws(*words, name) for name in ("reading", "lasting", "owner"))
    return View(
        crowd.machine, crowd.module, crowd.engine, fuel, reading, lasting, owner, crowd.bands, crowd.wetness,
        crowd.colour, plug_out=plug_out, _outputs=crowd.outputs,
    )  # fmt: skip


def sample(
    test_id: str, fault_id: str | None, condition: str, n: int, seed: object, table: Table | None = None
) -> tuple[Seen, ...]:
    """Answers of a test on `n` machines shared out over all demo engines."""
    table = load_table() if table is None else table
    if test_id not in table.tests:
        raise unknown("test", test_id, table.tests)
    if condition not in CONDITIONS:
        raise unknown("condition", condition, CONDITIONS)
    if fault_id is not None:
        faults.change(fault_id)
    if n < 1:
        raise TwoStrokeError(f"n is {n}: ask for at least one machine")
    out = "plug_out" in table.tests[test_id].access
    answers = []
    for number, letter in enumerate(MODELS):
        part = n // len(MODELS) + (number < n % len(MODELS))
        if part:
            group = crowd(letter, part, fault_id, condition, seed)
            view = view_of(group, out, "sample", seed, fault_id or "none", condition, letter, test_id)
            answers.append(tests_at_bench.run(test_id, table, view))
    return tuple(answers)


def sample_results(
    test_id: str,
    fault_id: str | None,
    condition: str,
    n: int = 600,
    seed: object = 1,
    table: Table | None = None,
) -> dict[str, int]:
    """How often each result of a test comes while a fault acts.

    Parameters
    ----------
    test_id : str
        A test of the table.
    fault_id : str or None
        A fault of the table, acting; ``None`` for sound machines.
    condition : {"cold", "hot", "shake"}
        In which the test is made.
    n : int
        Machines, shared out over the demo engines.
    seed : object
        Same seed, same counts.
    table : Table, optional
        The course's own when left out.

    Returns
    -------
    dict
        Result to count; every result of the test is there, and the counts add up to `n`.

    Raises
    ------
    TwoStrokeError
        Unknown test, fault or condition.

    Examples
    --------
    >>> counts = sample_results("air_gap", "airgap_wide", "cold", n=60)
    >>> sum(counts.values()), counts["wide"] > 50
    (60, True)
    """
    table = load_table() if table is None else table
    answers = sample(test_id, fault_id, condition, n, seed, table)
    words = np.concatenate([np.asarray(answer.result, dtype=str) for answer in answers])
    found, counts = np.unique(words, return_counts=True)
    tally = dict(zip(found.tolist(), counts.tolist(), strict=True))
    return {result: int(tally.get(result, 0)) for result in table.tests[test_id].results}
