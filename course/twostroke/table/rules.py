"""Rules that bind the rows of a table to one another; each breach says where it is and how to mend it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import networkx as nx

from twostroke.table.model import OTHER, SUM_TOLERANCE, Access, Complaint, Repair, Table, Test

Where = tuple[str | int, ...]
Breach = tuple[Where, str]


def breaches(table: Table) -> list[Breach]:
    """All breaches of the rules between rows.

    Parameters
    ----------
    table : Table
        A table whose single values are already sound.

    Returns
    -------
    list of (path, message)
        `path` leads to the row; the message names the value, what is allowed and the cure.
    """
    return [
        *_access(table),
        *_faults(table),
        *_distributions(table),
        *_tests(table),
        *_repairs(table),
        *_pairs(table),
    ]


def _known(where: Where, names: Iterable[str], known: Iterable[str], kind: str) -> Iterator[Breach]:
    known = list(known)
    for name in names:
        if name not in known:
            listed = ", ".join(known) or "none at all"
            yield (
                where,
                f"'{name}' is no {kind} of this table; known are {listed}; correct or add it",
            )


def _access(table: Table) -> Iterator[Breach]:
    graph = nx.DiGraph()
    for name, cover in table.access.items():
        where = ("access", name)
        needs = [*cover.needs, *(n for more in cover.needs_where.values() for n in more)]
        yield from _known((*where, "needs"), needs, table.access, "cover")
        yield from _known((*where, "needs_where"), cover.needs_where, table.features, "machine feature")
        yield from _shared(table, where, cover)
        graph.add_edges_from((name, need) for need in needs)
    for loop in nx.simple_cycles(graph):
        round_trip = " needs ".join([*loop, loop[0]])
        yield (
            ("access", loop[0], "needs"),
            f"can never be reached: {round_trip}; take one need away",
        )


def _shared(table: Table, where: Where, row: Access | Test | Repair) -> Iterator[Breach]:
    yield from _known((*where, "hazards"), row.hazards, table.hazards, "hazard")
    yield from _feature(table, where, row.only_with)


def _feature(table: Table, where: Where, feature: str | None) -> Iterator[Breach]:
    if feature is not None:
        yield from _known((*where, "only_with"), [feature], table.features, "machine feature")


def _faults(table: Table) -> Iterator[Breach]:
    cured = {fault for repair in table.repairs.values() for fault in repair.fixes}
    for name, fault in table.faults.items():
        where = ("faults", name)
        if name != OTHER and name not in cured:
            yield where, "no repair cures it; add it to the 'fixes' of a repair with its chance, such as 0.95"
        if fault.rate >= 1000:
            yield (
                (*where, "rate"),
                f"{fault.rate:g} is not below 1000, and rates are per 1000 complaints; lower it",
            )
        yield from _feature(table, where, fault.only_with)
        if table.systems:
            yield from _known((*where, "sys"), [fault.sys], table.systems, "system")


def _distributions(table: Table) -> Iterator[Breach]:
    groups: list[tuple[Where, Test | Complaint]] = [
        (("tests", name), test) for name, test in table.tests.items()
    ]
    if table.complaint is not None:
        groups.append((("complaint",), table.complaint))
    for where, group in groups:
        yield from _row((*where, "base"), group.results, group.base)
        for fault, row in group.hits.items():
            yield from _row((*where, "hits", fault), group.results, row)


def _row(where: Where, results: list[str], row: list[float]) -> Iterator[Breach]:
    if len(row) != len(results):
        listed = ", ".join(results)
        yield where, f"has {len(row)} numbers for {len(results)} results ({listed}); give one for each"
    elif abs(sum(row) - 1) > SUM_TOLERANCE:
        yield where, f"adds up to {sum(row):g} and must add up to 1; change one of {row}"


def _tests(table: Table) -> Iterator[Breach]:
    if table.complaint is not None:
        yield from _named_results(("complaint",), table.complaint.results, table.complaint.words)
        yield from _known(("complaint", "hits"), table.complaint.hits, table.faults, "fault")
    for name, test in table.tests.items():
        where = ("tests", name)
        yield from _named_results(where, test.results, test.words)
        yield from _known((*where, "hits"), test.hits, table.faults, "fault")
        yield from _known((*where, "access"), test.access, table.access, "cover")
        yield from _shared(table, where, test)
        if test.instrument is not None and table.instruments:
            yield from _known((*where, "instrument"), [test.instrument], table.instruments, "instrument")
        if test.forces and test.temp != "any" and test.forces != test.temp:
            yield where, f"needs the machine {test.temp} and forces it {test.forces}; keep one of the two"
        if test.reading is not None:
            rungs = [rung.result for rung in test.reading.ladder]
            yield from _known((*where, "reading"), rungs, test.results, f"result of {name}")
            if any(rung.below is None for rung in test.reading.ladder[:-1]):
                yield (*where, "reading"), "every rung of the ladder but the last needs 'below'"
            if test.reading.ladder[-1].below is not None:
                yield (
                    (*where, "reading"),
                    "the last rung takes all that is left; give it no 'below'",
                )


def _named_results(where: Where, results: list[str], words: dict[str, str]) -> Iterator[Breach]:
    twice = sorted({result for result in results if results.count(result) > 1})
    if twice:
        yield (*where, "results"), f"lists {', '.join(twice)} more than once; every result needs its own name"
    yield from _known((*where, "words"), words, results, "result")


def _repairs(table: Table) -> Iterator[Breach]:
    for name, repair in table.repairs.items():
        where = ("repairs", name)
        yield from _known((*where, "fixes"), repair.fixes, table.faults, "fault")
        yield from _known((*where, "access"), repair.access, table.access, "cover")
        yield from _shared(table, where, repair)
        if name in table.tests:
            yield where, "is the name of a test too; actions need names of their own"
        if OTHER in repair.fixes:
            yield (
                (*where, "fixes", OTHER),
                "'other' is what is not in this table, so no repair here cures it",
            )


def _pairs(table: Table) -> Iterator[Breach]:
    seen: dict[frozenset[str], int] = {}
    for index, common in enumerate(table.common_cause_pairs):
        where = ("common_cause_pairs", index)
        yield from _known(where, common.pair, table.faults, "fault")
        first, second = common.pair
        if first == second or OTHER in common.pair:
            yield where, f"[{first}, {second}] must be two different faults, and not 'other'"
        if frozenset(common.pair) in seen:
            yield (
                where,
                f"[{first}, {second}] stands in row {seen[frozenset(common.pair)] + 1} already; keep one",
            )
        seen.setdefault(frozenset(common.pair), index)
    yield from _known(("meta", "verify_hazards"), table.meta.verify_hazards, table.hazards, "hazard")
    if table.complaint is not None:
        conditions = set(table.meta.verify) - set(table.complaint.results)
        yield from _known(("meta", "verify"), sorted(conditions), table.complaint.results, "complaint")
