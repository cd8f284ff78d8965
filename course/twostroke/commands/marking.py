"""``twostroke mark``: written answers marked by hand, on the screen or by single calls."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from twostroke.grading.by_hand import Desk
    from twostroke.grading.marks import Piece


@click.command("mark")
@click.argument("lab")
@click.option(
    "--home",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder of this class; default autograde in the course's folder.",
)
@click.option("--gradebook", metavar="URL", help="Address of the gradebook, as for `twostroke grade`.")
@click.option("--task", help="Only this task; with --every also one that the checker has marked.")
@click.option("--learner", help="Only this learner.")
@click.option("--every", is_flag=True, help="Those that are marked already, too.")
@click.option("--names", is_flag=True, help="Show learners' names; they are hidden otherwise.")
@click.option("--who", default="", help="Your name for the log; default the name of your account.")
@click.option("--list", "as_list", is_flag=True, help="Only list what is to mark.")
@click.option("--give", type=float, metavar="POINTS", help="With --task and --learner: give these points.")
@click.option("--comment", help="With --give: a comment for the learner.")
@click.option("--undo", is_flag=True, help="Take back the last mark.")
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def mark(
    lab: str,
    home: Path | None,
    gradebook: str | None,
    task: str | None,
    learner: str | None,
    every: bool,
    names: bool,
    who: str,
    as_list: bool,
    give: float | None,
    comment: str | None,
    undo: bool,
    as_json: bool,
) -> None:
    """Mark the written answers of LAB by hand, task by task, with the rubric beside them.

    Marks and comments go into the gradebook at once and are never overwritten by a later run. On the screen
    one key sets one row of the rubric; the keys stand at its foot.

    \b
    Example:
      twostroke mark 10
      twostroke mark 10 --list
      twostroke mark 10 --task explain --learner learner-07 --give 3.5 --comment "Say how sure you were."
    """
    from twostroke.grading import Course, Desk

    if give is not None and not (task and learner):
        raise click.UsageError("--give needs --task and --learner, so that it is clear what is marked")
    if comment is not None and give is None:
        raise click.UsageError("--comment belongs to --give")
    desk = Desk(lab, Course.at(home, gradebook=gradebook), who)
    if undo:
        _undo(desk, as_json)
        return
    pieces = desk.queue(task, learner, every or give is not None)
    if give is not None:
        _give(desk, pieces, give, comment, as_json)
    elif as_list or as_json or not (sys.stdin.isatty() and sys.stdout.isatty()):
        _list(desk, pieces, as_json)
    elif not pieces:
        click.echo(f"{desk.lab}: no written answer waits for a person")
    else:
        from twostroke.grading import MarkingScreen

        kept = MarkingScreen(desk, pieces, names).run() or 0
        left = len(desk.queue(task, learner))
        following = desk.course.command("report" if not left else "mark", desk.lab)
        click.echo(f"{desk.lab}: {kept} kept, {left} still to mark; next: {following}")


def _undo(desk: Desk, as_json: bool) -> None:
    entry = desk.undo()
    if as_json:
        click.echo(json.dumps(entry.model_dump(mode="json") if entry else None))
    elif entry is None:
        click.echo(f"{desk.lab}: there is nothing to take back")
    else:
        click.echo(f"taken back: {entry.learner}, {entry.task}, {entry.before.points:g} points")


def _give(desk: Desk, pieces: list[Piece], points: float, comment: str | None, as_json: bool) -> None:
    if len(pieces) != 1:
        raise click.UsageError(f"{desk.lab}: {len(pieces)} answers fit --task and --learner; one must")
    entry = desk.give(pieces[0], points, comment)
    if as_json:
        click.echo(json.dumps(entry.model_dump(mode="json")))
    else:
        click.echo(f"{entry.learner}, {entry.task}: {points:g} of {pieces[0].possible:g} points kept")


def _list(desk: Desk, pieces: list[Piece], as_json: bool) -> None:
    if as_json:
        click.echo(json.dumps([piece.model_dump(mode="json", exclude={"guide"}) for piece in pieces]))
        return
    for piece in pieces:
        state = "to mark" if piece.mark.due else f"{piece.mark.points:g} of {piece.possible:g}"
        click.echo(f"{piece.task}: {piece.learner}: {state}, {len(piece.answer.split())} words")
    click.echo(f"{desk.lab}: {sum(piece.mark.due for piece in pieces)} to mark")
