"""Grading on the screen: progress with the time left, states as a table, what needs a person and why."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator, Sequence

from rich.box import SIMPLE
from rich.console import Console, Group
from rich.live import Live
from rich.markup import escape
from rich.progress import BarColumn, Progress, TextColumn
from rich.table import Table

from twostroke.grading.figures import count_states
from twostroke.grading.place import lab_name
from twostroke.grading.run import Progress as Callback
from twostroke.grading.run import Summary
from twostroke.grading.standing import Standing
from twostroke.grading.states import Outcome, Reason, State, only_written

_MARK = {State.GRADED: "✓", State.PERSON: "?", State.NOT_GRADED: "–"}


_FEWEST = 3
"""Submissions that must have run before the time left is told: broken files are through at once."""


class Board:
    """What is seen while a class is graded: a bar with the time left, counts of states, whom to look at.

    Those who only wait for a written answer to be marked are counted and not listed: nothing is amiss there.

    Parameters
    ----------
    what : str
        Such as "lab01".
    most : int
        Rows of the table; the newest are shown.
    """

    def __init__(self, what: str, most: int = 10):
        self._bar = Progress(
            TextColumn("{task.description}", style="bold"),
            BarColumn(style="dim", complete_style="default", finished_style="default"),
            TextColumn("{task.fields[done]}"),
        )
        self._line = self._bar.add_task(f"grading {escape(what)}", total=None, done="making ready")
        self._counts = dict.fromkeys(State, 0)
        self._written = self._marked = 0
        self._most = most
        self._look: list[Outcome] = []

    def add(self, done: int, total: int, outcome: Outcome) -> None:
        """Take in one submission that is done; this is what `grade` calls as ``progress``."""
        self._counts[outcome.state] += 1
        self._marked += outcome.marked
        if only_written(outcome.causes):
            self._written += 1
        elif outcome.state is not State.GRADED:
            self._look.append(outcome)
        self._bar.update(self._line, completed=done, total=total)

    def __rich__(self) -> Group:
        task = self._bar.tasks[0]
        if task.total is not None:
            known = self._marked >= _FEWEST and task.time_remaining is not None
            left = f", about {_minutes(task.time_remaining or 0.0)} left" if known else ""
            self._bar.update(self._line, done=f"{task.completed:g} of {task.total:g}{left}")
        said = "   ".join(f"{_MARK[state]} {state.value} {count}" for state, count in self._counts.items())
        if self._written:
            said += f" ({self._written} only for a written answer)"
        rows = self._look[-self._most :]
        table = Table(box=SIMPLE, expand=True)
        table.add_column("learner", overflow="ellipsis", no_wrap=True, max_width=24)
        table.add_column("state", no_wrap=True)
        table.add_column("why", overflow="ellipsis", no_wrap=True, ratio=1)
        for outcome in rows:
            table.add_row(
                escape(outcome.learner), f"{_MARK[outcome.state]} {outcome.state.value}", escape(outcome.why)
            )
        hidden = len(self._look) - len(rows)
        more = [f"and {hidden} before these"] if hidden else []
        return Group(self._bar, said, *([table] if rows else []), *more)


def _minutes(seconds: float) -> str:
    return f"{seconds / 60:.0f} min" if seconds >= 90 else f"{max(1.0, seconds):.0f} s"


@contextlib.contextmanager
def live(console: Console, what: str) -> Iterator[Callback]:
    """Show a `Board` while a class is graded; yields what `grade` takes as ``progress``.

    Parameters
    ----------
    console : Console
    what : str
        Lab, as it was typed.
    """
    board = Board(lab_name(what))
    with Live(board, console=console, transient=True, refresh_per_second=4):
        yield board.add


def states(standings: Sequence[Standing], title: str) -> Table:
    """Return the table of states for the screen: a line a learner where there is nothing to say of one."""
    possible = max((standing.outcome.max_points for standing in standings), default=0.0)
    table = Table(title=f"{escape(title)}, {possible:g} points", title_justify="left", box=SIMPLE)
    table.add_column("learner", overflow="fold")
    table.add_column("state", no_wrap=True)
    table.add_column("points", justify="right", no_wrap=True)
    table.add_column("why, and what was put right", overflow="fold")
    for standing in standings:
        points = ""
        if standing.points is not None:
            points = f"{standing.points:.4g}" + ("" if standing.final is not None else " so far")
        why = "a written answer to mark" if only_written(standing.causes) else standing.why
        said = [why, *standing.outcome.notes, *standing.remarks]
        table.add_row(
            escape(standing.learner),
            f"{_MARK[standing.state]} {standing.state.value}",
            points,
            escape("\n".join(line for line in said if line)),
        )
    return table


def looked(summary: Summary) -> Table:
    """Return the table of a dry run: what would happen to each submission, and why."""
    table = Table(title=f"{summary.lab}: what a run would do", title_justify="left", box=SIMPLE)
    for name in ("learner", "would be", "why, and what would be put right"):
        table.add_column(name, overflow="fold")
    for outcome in summary.outcomes:
        last = outcome.notes[-1] if outcome.notes else ""
        would = (
            "passed over"
            if last.endswith("passed over")
            else "marked"
            if "would be run" in last
            else "not graded"
        )
        said = [*(cause.text for cause in outcome.causes), *outcome.notes]
        table.add_row(escape(outcome.learner), would, escape("\n".join(said)))
    return table


def closing(summary: Summary, standings: Sequence[Standing]) -> list[str]:
    """Return the lines that close a run: where everybody stands now, what it took, where to go from here."""
    counts = count_states(standings)
    lines = [", ".join(f"{state.value} {number}" for state, number in counts.items())]
    if summary.done:
        each = f", {summary.seconds / summary.done:.2f} s each" if summary.done > 1 else ""
        lines.append(f"{count(summary.done, 'submission')} in {summary.seconds:.1f} s{each}")
    if summary.skipped:
        lines.append(f"{summary.skipped} marked before and unchanged; --force marks again")
    lines.append(summary.walls.text)
    if summary.engine_failures:
        lines.append(f"the grader itself failed for {summary.engine_failures}: run the same command again")
    pages = summary.course.feedback / "LEARNER" / summary.lab
    lines.append(f"feedback to hand back, a page for each learner: {pages}")
    if any(cause.reason in (Reason.WRITTEN, Reason.CONFIRM) for each in standings for cause in each.causes):
        lines.append(f"next: {summary.course.command('mark', summary.lab)}")
    lines.append(f"next: {summary.course.command('report', summary.lab)}")
    return lines


def count(number: int, word: str) -> str:
    """Return a number with its word.

    Examples
    --------
    >>> count(1, "print"), count(2, "print")
    ('1 print', '2 prints')
    """
    return f"{number} {word}{'' if number == 1 else 's'}"
