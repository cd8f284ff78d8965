"""Is a scenario solvable, how hard is it, and do its readings fit its story?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from twostroke.bench import Bench
from twostroke.isolation.model import model_of
from twostroke.scenarios.difficulty import JOBS, Difficulty, difficulty
from twostroke.scenarios.work import Worked, act, best_route, cure, telling_tests
from twostroke.table import Scenario, Table, load_scenario, load_table, scenario_paths, unknown

LEARNERS = 6
RARE, ODD = 0.01, 0.04
"""A complaint less likely than RARE for its fault is refused, less likely than ODD is remarked on."""
SHOWS, TOLD, CURED, SOLVED = 0.75, 0.9, 0.9, 0.5
"""Shares of machines on which the complaint must show, a test must speak for the fault, the right repair must
end verified, and the recommended adviser must solve the job."""


@dataclass(frozen=True)
class Report:
    """What a scenario came to.

    Attributes
    ----------
    id : str
    learners : int
        Machines looked at.
    shows, told, cured, solved : float
        Shares of machines on which the complaint can be met, a test speaks for the fault, who knows the fault
        cures and proves it, and the recommended adviser ends cured and proven.
    mean_cost : float
        Of the adviser's jobs on these machines, in the table's money.
    difficulty : Difficulty
    faults : tuple of str
        What must be mended before the scenario is used.
    remarks : tuple of str
        What its writer should look at.
    """

    id: str
    learners: int
    shows: float
    told: float
    cured: float
    solved: float
    mean_cost: float
    difficulty: Difficulty
    faults: tuple[str, ...] = ()
    remarks: tuple[str, ...] = field(default=())

    @property
    def sound(self) -> bool:
        """Nothing has to be mended."""
        return not self.faults

    def to_dict(self) -> dict[str, Any]:
        """Plain values that JSON can hold."""
        plain = {k: list(v) if isinstance(v, tuple) else v for k, v in vars(self).items()}
        return {**plain, "difficulty": vars(self.difficulty), "sound": self.sound}


def check(
    scenario: str | Path | Scenario,
    *,
    learners: int | Sequence[str] = LEARNERS,
    table: Table | None = None,
    jobs: int = JOBS,
) -> Report:
    """Play a scenario on many machines and say what does not fit.

    Parameters
    ----------
    scenario : str, Path or Scenario
        Name of a scenario of the course, a file, or a scenario.
    learners : int or sequence of str
        How many invented learners' machines are played, or the learners themselves.
    table : Table, optional
        The course's own when left out.
    jobs : int
        Simulated jobs for the difficulty.

    Returns
    -------
    Report

    Raises
    ------
    TableError
        The file breaks the form of a scenario, or there is no such scenario.

    Examples
    --------
    >>> check("plug_fouled_trimmer", learners=2, jobs=2).faults
    ()
    """
    whole = load_table() if table is None else table
    found = _find(scenario, whole)
    names = [f"machine {n}" for n in range(1, learners + 1)] if isinstance(learners, int) else list(learners)
    hard = difficulty(found, whole, jobs)
    if not found.truth:
        return Report(found.id, 0, 1.0, 1.0, 1.0, 1.0, hard.expected_cost, hard)
    cut = found.table(whole)
    truth = [true.fault for true in found.truth]
    tests = telling_tests(cut, truth)
    shows = [_shows(found, name, whole) for name in names]
    told = [_told(found, name, whole, tests) for name in names]
    cured = [cure(found, name, table=whole) for name in names]
    best = [best_route(found, name, table=whole) for name in names]
    faults, remarks = _story(found, cut, truth)
    report = Report(
        found.id, len(names), _share(shows), _share(told), _share([job.solved for job in cured]),
        _share([job.solved for job in best]), sum(job.outcome.cost for job in best) / len(best), hard,
    )  # fmt: skip
    faults += _judged(report, best, tests)
    remarks += _remarks(best, truth)
    return Report(**{**vars(report), "faults": tuple(faults), "remarks": tuple(remarks)})


def _find(scenario: str | Path | Scenario, table: Table) -> Scenario:
    if isinstance(scenario, Scenario):
        return scenario
    if isinstance(scenario, str) and not scenario.endswith((".yaml", ".yml")):
        paths = scenario_paths()
        if scenario not in paths:
            raise unknown("scenario", scenario, paths)
        return load_scenario(paths[scenario], table)
    return load_scenario(scenario, table)


def _share(values: Sequence[bool]) -> float:
    return sum(values) / len(values)


def _story(scenario: Scenario, table: Table, truth: list[str]) -> tuple[list[str], list[str]]:
    """Does the complaint fit the fault, by the table's own chances?"""
    model, kind = model_of(table, True), scenario.complaint.kind
    state = model.index[truth[0]] if len(truth) == 1 else model.pair_number(*truth[:2])
    chance = float(model.complaint(kind)[state])
    said = f"'{kind}' is heard in {100 * chance:.0f} of 100 jobs with {' and '.join(truth)}"
    if chance < RARE:
        return [f"complaint: {said}: nobody will believe the story; choose another kind"], []
    return [], [f"complaint: {said}: unusual, but possible"] if chance < ODD else []


def _shows(scenario: Scenario, learner: str, table: Table) -> bool:
    """Whether the machine as it comes in does what the owner says: a verify run meets it."""
    bench = Bench(scenario, learner, table=table)
    return act(bench, "verify").result == "fails"


def _told(scenario: Scenario, learner: str, table: Table, tests: list[tuple[str, str]]) -> bool:
    """Whether some test shows what speaks for the fault."""
    seen = ((act(Bench(scenario, learner, table=table), name).result, result) for name, result in tests)
    return any(shown == speaks for shown, speaks in seen)


def _judged(report: Report, best: list[Worked], tests: list[tuple[str, str]]) -> list[str]:
    many = report.learners
    out = []
    if report.shows < SHOWS:
        out.append(
            f"complaint: a verify run in its condition passes on {100 * (1 - report.shows):.0f} % of {many} "
            "machines as they come in; make the fault worse (severity) or choose another complaint"
        )
    if not tests:
        out.append("evidence: no test that is allowed can see the fault; allow one")
    elif report.told < TOLD:
        out.append(
            f"evidence: on {100 * (1 - report.told):.0f} % of the machines no test shows what speaks for the "
            "fault; make the fault worse"
        )
    if report.cured < CURED:
        out.append(
            f"repair: on {100 * (1 - report.cured):.0f} % of the machines the right repairs do not end with "
            "a passed verify run; look at the repairs that are allowed, and at a second fault"
        )
    if report.solved < SOLVED:
        out.append(
            f"solvable: the recommended plan ends cured and proven on {100 * report.solved:.0f} % of the "
            f"machines only (at least {100 * SOLVED:.0f} % is asked); make the fault plainer or "
            "allow a test that sees it"
        )
    clashes = sorted({job.contradiction for job in best if job.contradiction})
    out += [f"evidence: readings that no fault gives together: {clash}" for clash in clashes]
    return out


def _remarks(best: list[Worked], truth: list[str]) -> list[str]:
    named = _share([job.diagnosis in truth for job in best])
    if named < 0.5:
        return [f"diagnosis: the recommended plan names the true fault on {100 * named:.0f} % of machines"]
    return []
