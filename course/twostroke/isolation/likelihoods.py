"""P(result | fault) of every test that an instrument performs, computed on the virtual engine.

Machines of every demo engine, severities and instrument errors are drawn, the test is made on each, and the
results are counted. Counts, seed and number of machines are kept beside the table, in
``data/likelihoods.yaml``, from where :func:`twostroke.table.load_table` takes them; what a person looks at or
feels stays as it was typed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from twostroke.table import Table, forget_counted, load_table
from twostroke.table.counted import SOUND, Counted, counted_path, smooth
from twostroke.table.model import OTHER, Test

Sampler = Callable[..., Mapping[str, int]]

MACHINES = 600
SEED = 1
LARGE = 0.25
INSTRUMENTS = {
    "ohmmeter",
    "feeler",
    "plug_gauge",
    "inline_tester",
    "gap_tester",
    "spare_plug",
    "compression_gauge",
    "hand_pump",
    "hot_air",
}
SPARK_SEEN = {"spark_plug_cold", "spark_plug_hot"}


@dataclass(frozen=True)
class Difference:
    """A typed row that is far from the counted one.

    Attributes
    ----------
    test, fault : str
        `fault` is ``sound`` for the base row.
    typed, counted : list of float
    apart : float
        Total variation between the two.
    """

    test: str
    fault: str
    typed: list[float]
    counted: list[float]
    apart: float


def performed(table: Table) -> dict[str, str]:
    """Tests that an instrument performs, each with the condition in which it is sampled.

    Examples
    --------
    >>> from twostroke.table import load_table
    >>> tests = performed(load_table())
    >>> tests["spark_gap_hot"], "plug_look" in tests
    ('hot', False)
    """
    return {name: row.condition() for name, row in table.tests.items() if _performed(name, row)}


def _performed(name: str, test: Test) -> bool:
    return test.instrument in INSTRUMENTS or name in SPARK_SEEN


def count(
    table: Table,
    sampler: Sampler,
    *,
    machines: int = MACHINES,
    seed: int = SEED,
    faults: Iterable[str] | None = None,
    progress: Callable[[str], None] | None = None,
) -> Counted:
    """Count the results of all instrument tests for all faults.

    Parameters
    ----------
    table : Table
    sampler : callable
        ``sampler(test, fault, condition, n, seed)`` gives result to count while the fault acts; `fault` is
        ``None`` for sound machines. The bench has one: :func:`twostroke.bench.sampling.sample_results`.
    machines : int
        For each test and fault.
    seed : int
    faults : iterable of str, optional
        Only some of the faults.
    progress : callable, optional
        Is told each fault as it is begun.

    Returns
    -------
    Counted
    """
    tests = performed(table)
    wanted = [fault for fault in (faults or table.faults) if fault != OTHER]
    rows: dict[str, dict[str, list[int]]] = {name: {} for name in tests}
    for fault in [None, *wanted]:
        if progress is not None:
            progress(fault or SOUND)
        for name, condition in tests.items():
            found = sampler(name, fault, condition, machines, seed)
            rows[name][fault or SOUND] = [int(found[result]) for result in table.tests[name].results]
    return Counted.model_validate({"machines": machines, "seed": seed, "conditions": tests, "counts": rows})


def differences(typed: Table, counted: Counted, large: float = LARGE) -> list[Difference]:
    """Typed rows that are far from the counted ones, the farthest first.

    Parameters
    ----------
    typed : Table
        With the typed estimates, from ``load_table(counted=False)``.
    counted : Counted
    large : float
        Total variation above which a difference is listed.
    """
    out = []
    for name, rows in counted.counts.items():
        test = typed.tests[name]
        for fault, counts in rows.items():
            row = test.base if fault == SOUND else test.row(fault)
            share = [number / counted.machines for number in counts]
            apart = sum(abs(a - b) for a, b in zip(row, share, strict=True)) / 2
            if apart > large:
                out.append(Difference(name, fault, list(row), share, apart))
    return sorted(out, key=lambda found: (-found.apart, found.test, found.fault))


def renew(
    path: str | Path | None = None,
    *,
    sampler: Sampler | None = None,
    machines: int = MACHINES,
    seed: int = SEED,
    progress: Callable[[str], None] | None = None,
) -> Counted:
    """Count anew on the virtual bench and write ``data/likelihoods.yaml``.

    Parameters
    ----------
    path : str or Path, optional
        Another file.
    sampler : callable, optional
        Another sampler than the bench's.
    machines, seed : int
    progress : callable, optional

    Notes
    -----
    The scores' reference costs depend on the table: :func:`twostroke.isolation.references.renew` comes next.
    """
    if sampler is None:
        from twostroke.bench.sampling import sample_results

        sampler = sample_results
    counted = count(load_table(counted=False), sampler, machines=machines, seed=seed, progress=progress)
    target = Path(path) if path else counted_path()
    lines = [
        "# Counted on the virtual engine, made anew by one command; results in the order of the table.",
        f"machines: {counted.machines}",
        f"seed: {counted.seed}",
        "conditions:",
        *(f"  {name}: {condition}" for name, condition in counted.conditions.items()),
        "counts:",
    ]
    for name, rows in counted.counts.items():
        lines.append(f"  {name}:")
        lines += [f"    {fault}: [{', '.join(map(str, row))}]" for fault, row in rows.items()]
    target.write_text("\n".join(lines) + "\n", encoding="utf-8")
    forget_counted()
    return counted


__all__ = ["Counted", "Difference", "count", "differences", "performed", "renew", "smooth"]
