"""``twostroke gradebook``: where the marks lie, and moving them."""

from __future__ import annotations

import json

import click


@click.group("gradebook")
def gradebook() -> None:
    """Move a class's gradebook from a file to a server or back, or lay a backup back.

    \b
    Example:
      twostroke gradebook copy autograde/gradebook.db postgresql://grader@localhost/gradebook
    """


def _address(typed: str) -> str:
    """An address, or the path of a gradebook file."""
    from pathlib import Path

    from twostroke.grading.address import read_address

    return read_address(typed if ":" in typed else f"sqlite:///{Path(typed).expanduser().resolve()}")


@gradebook.command("copy")
@click.argument("source")
@click.argument("target")
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def copy(source: str, target: str, as_json: bool) -> None:
    """Copy the gradebook SOURCE to TARGET, which must be empty; each is a file or the address of a server.

    \b
    Example:
      twostroke gradebook copy autograde/gradebook.db postgresql://grader@localhost/gradebook
      twostroke gradebook copy autograde/backups/gradebook-20260901T080000000000.db autograde/gradebook.db
    """
    from pathlib import Path

    from twostroke.grading.address import shown
    from twostroke.grading.backup import copy_gradebook

    if ":" not in source and not Path(source).expanduser().is_file():
        raise click.UsageError(f"{source}: there is no such file; name a gradebook file or an address")
    copied = copy_gradebook(_address(source), _address(target))
    if as_json:
        click.echo(json.dumps({"target": shown(_address(target)), "rows": copied}))
        return
    click.echo(f"{sum(copied.values())} rows of {len(copied)} tables -> {shown(_address(target))}")
    click.echo('name it in class.toml (gradebook = "...") or behind --gradebook, and grade on as before')
