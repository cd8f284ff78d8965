"""Rows of the table that were counted on the virtual engine, and how they replace the typed estimates."""

from __future__ import annotations

from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Literal

from pydantic import Field

from twostroke.table.model import Identifier, Part, Table, Test
from twostroke.table.reader import TableError, build, read_yaml

SOUND = "sound"
TYPED_SHARE = 0.04
ALIKE = 0.02


class Counted(Part):
    """Results counted on the virtual engine.

    Attributes
    ----------
    machines, seed : int
        Machines for each test and fault, and the seed from which they were drawn.
    conditions : dict
        Condition in which each test was made.
    counts : dict
        Test, then fault (``sound`` for machines with nothing wrong), then counts in the order of the results.
    """

    machines: int = Field(gt=0)
    seed: int
    conditions: dict[Identifier, Literal["cold", "hot", "shake"]]
    counts: dict[Identifier, dict[Identifier, list[int]]]


class Settled(Part):
    """Why a counted row differs much from the typed one, and which of the two is used."""

    tests: list[Identifier]
    faults: list[Identifier]
    use: Literal["counted", "typed"]
    why: str = Field(min_length=20)


class Settlement(Part):
    """All reasons."""

    reasons: list[Settled]

    def find(self, test: str, fault: str) -> Settled | None:
        """The reason for one row."""
        return next((row for row in self.reasons if test in row.tests and fault in row.faults), None)


def counted_path() -> Path:
    """File of the counted rows."""
    return Path(str(files("twostroke") / "data" / "likelihoods.yaml"))


@lru_cache(maxsize=1)
def load_counted() -> Counted | None:
    """The counted rows that come with the course; ``None`` before they were made."""
    path = counted_path()
    if not path.is_file():
        return None
    content, lines = read_yaml(path)
    return build(Counted, content, lines, path.name)


@lru_cache(maxsize=1)
def load_settlement() -> Settlement:
    """The reasons for large differences between counted and typed rows."""
    path = counted_path().with_name("likelihood_reasons.yaml")
    content, lines = read_yaml(path)
    return build(Settlement, content, lines, path.name)


def smooth(counts: list[int], typed: list[float]) -> list[float]:
    """Chances out of counts, with a small share of the typed row, so that nothing is quite impossible.

    Examples
    --------
    >>> smooth([96, 0], [0.5, 0.5])
    [0.98, 0.02]
    """
    total = sum(counts)
    if total == 0:
        raise TableError("a counted row is empty; count anew")
    mixed = [
        round((1 - TYPED_SHARE) * number / total + TYPED_SHARE * chance, 4)
        for number, chance in zip(counts, typed, strict=True)
    ]
    most = mixed.index(max(mixed))
    mixed[most] = round(mixed[most] + 1 - sum(mixed), 4)
    return mixed


def with_counted(table: Table, counted: Counted, settled: Settlement) -> Table:
    """The table with counted rows in place of the typed ones, but for those settled the other way."""
    tests = dict(table.tests)
    for name, rows in counted.counts.items():
        if name in tests:
            tests[name] = _renewed(name, tests[name], rows, settled)
    return table.replaced(tests=tests)


def _renewed(name: str, test: Test, rows: dict[str, list[int]], settled: Settlement) -> Test:
    def row(fault: str, typed: list[float]) -> list[float]:
        reason = settled.find(name, fault)
        if fault not in rows or (reason is not None and reason.use == "typed"):
            return typed
        return smooth(rows[fault], typed)

    base = row(SOUND, test.base)
    hits = {}
    for fault in [*test.hits, *(f for f in rows if f != SOUND and f not in test.hits)]:
        chances = row(fault, test.row(fault))
        if fault in test.hits or sum(abs(a - b) for a, b in zip(chances, base, strict=True)) / 2 > ALIKE:
            hits[fault] = chances
    return test.model_copy(update={"base": base, "hits": hits})
