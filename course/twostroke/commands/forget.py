"""``twostroke record erase`` and ``who``: a person removed everywhere; who is behind a pseudonym."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from twostroke.commands.shared import course_at, home_option, json_option


@click.command("erase")
@click.argument("learner")
@home_option
@click.option("--also", multiple=True, type=click.Path(path_type=Path), help="A further folder or file.")
@click.option(
    "--workspace",
    "workspaces",
    multiple=True,
    type=click.Path(path_type=Path),
    help="A workspace that is this person's own; it is removed whole.",
)
@click.option("--name", "names", multiple=True, help="A further name of the person.")
@click.option("--dry-run", is_flag=True, help="Only say what would be removed.")
@click.option("--yes", is_flag=True, help="Do not ask again.")
@json_option
def erase(
    learner: str,
    home: Path | None,
    also: tuple[Path, ...],
    workspaces: tuple[Path, ...],
    names: tuple[str, ...],
    dry_run: bool,
    yes: bool,
    as_json: bool,
) -> None:
    """Remove LEARNER from everything this class keeps, then search every file for what is left.

    Gradebook, backups, hand-ins, marked notebooks, feedback, journals, signatures, issued records, class
    list, reports, logs of the examination. Results of everybody else stay as they are; reports in which the
    person stood are removed and can be made again. Copies elsewhere (downloads, mail, copies of this
    machine) are not reached: name folders with --also. Exit code 1 when something is left.

    \b
    Example:
      twostroke record erase learner-01 --dry-run
      twostroke record erase learner-01 --also ~/Downloads --workspace ~/two-stroke-course
    """
    from twostroke.grading.erase import How
    from twostroke.grading.erase import erase as clear

    course = course_at(home)
    asked: dict[str, Any] = {"course": course, "also": also, "workspaces": workspaces, "further_names": names}
    found = clear(learner, **asked)
    if not as_json:
        click.echo(f"{found.person.id}, places found: {len(found.traces)}")
        for trace in found.traces:
            click.echo(f"  {trace.path}: {trace.what} -> {trace.how.value}")
    if not dry_run:
        if not yes:
            click.echo("This cannot be taken back: no copy is kept.")
            typed = click.prompt(f"To go on, type {found.person.id}")
            if typed.strip() != found.person.id:
                raise click.ClickException("not what was asked for: nothing was changed")
        before, found = found, clear(found.person.id, **{**asked, "dry_run": False})
        removed = [trace for trace in before.traces if trace.how is How.REMOVE]
    if as_json:
        click.echo(
            json.dumps(
                {
                    "person": found.person.id,
                    "spellings": found.spellings,
                    "dry run": found.dry_run,
                    "places": [{**vars(trace), "path": str(trace.path)} for trace in found.traces],
                    "left": found.left,
                    "searched": {"files": found.files, "databases": found.databases, "bytes": found.size},
                },
                ensure_ascii=False,
            )
        )
    elif dry_run:
        click.echo("dry run: nothing was changed")
    else:
        click.echo(
            f"searched again: {found.files} files, {found.databases} of them databases, "
            f"{found.size / 1e6:.1f} MB, for {', '.join(found.spellings)}: {_left(found.left)}"
        )
        if any(trace.path.is_relative_to(course.reports) for trace in removed):
            click.echo("reports were removed; make them again with: twostroke report LAB")
    if found.short and not as_json:
        click.echo(f"too short to be told from other words, looked for as whole values: {found.short}")
    if found.left:
        raise click.ClickException(f"places left, see above: {len(found.left)}; a person must look")


def _left(left: tuple[str, ...]) -> str:
    return "nothing left" if not left else "".join(f"\n  LEFT {each}" for each in left)


@click.command("who")
@click.argument("pseudonym")
@home_option
@json_option
def who(pseudonym: str, home: Path | None, as_json: bool) -> None:
    """Say who is behind PSEUDONYM; works only beside the key file of this class.

    \b
    Example:
      twostroke record who p-k3q7xw2mzt5a
    """
    from twostroke.grading import record as records
    from twostroke.grading.pseudonyms import KEY_FILE, Pseudonyms
    from twostroke.grading.states import GradingError

    course = course_at(home)
    if not (course.home / KEY_FILE).is_file():
        raise GradingError(f"{course.home}: no {KEY_FILE} here, so nobody can tell who is behind a pseudonym")
    everybody = {person.id: person for person in records.everybody(course)}
    found = Pseudonyms.of(course).who(pseudonym, everybody)
    if found is None:
        raise GradingError(f"{pseudonym[:40]!r}: nobody of this class; look whether it is another class's")
    person = everybody[found]
    if as_json:
        click.echo(json.dumps({"id": person.id, "name": person.name}, ensure_ascii=False))
        return
    click.echo(f"{pseudonym}: {person.name} ({person.id})")
