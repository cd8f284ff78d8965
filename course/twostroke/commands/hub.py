"""``twostroke hub``: what the instructor of a class under JupyterHub does, lab by lab."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from twostroke.grading.rooms import Rooms

_folder = click.option(
    "--folder",
    type=click.Path(path_type=Path, file_okay=False),
    default="/srv/two-stroke-hub",
    show_default=True,
    help="The hub's folder, as in its configuration file.",
)
_home = click.option(
    "--home",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder of this class: class list, gradebook, feedback; default autograde in the course's folder.",
)
_json = click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")


def _rooms(folder: Path, home: Path | None) -> Rooms:
    from twostroke.grading import Course
    from twostroke.grading.rooms import Rooms

    return Rooms(folder.expanduser().resolve(), Course.at(home))


@click.group("hub")
def hub() -> None:
    """A class under JupyterHub: passwords, lay a lab out, collect what came in, lay feedback back.

    How to begin is in autograde/README.md.

    \b
    Example:
      twostroke hub passwords
      twostroke hub lay-out 01
      twostroke hub collect 01
      twostroke hub feedback 01
    """


@hub.command("passwords")
@click.option("--also", multiple=True, metavar="NAME", help="A further name, such as the instructor's.")
@_folder
@_home
@_json
def passwords(also: tuple[str, ...], folder: Path, home: Path | None, as_json: bool) -> None:
    """Print each learner's name and password for the hub, to hand out on slips.

    \b
    Example:
      twostroke hub passwords --also instructor
    """
    from twostroke.grading.hub import passwords as all_of

    found = all_of(_rooms(folder, home), also)
    click.echo(json.dumps(found) if as_json else "\n".join(f"{name}  {word}" for name, word in found.items()))


@hub.command("lay-out")
@click.argument("lab")
@_folder
@_home
@_json
def lay_out(lab: str, folder: Path, home: Path | None, as_json: bool) -> None:
    """Lay the learners' version of LAB where every learner can fetch it.

    \b
    Example:
      twostroke hub lay-out 01
    """
    made = _rooms(folder, home).hand_out(lab)
    click.echo(json.dumps({"folder": str(made)}) if as_json else f"can be fetched: {made}")


@hub.command("collect")
@click.argument("lab")
@_folder
@_home
@_json
def collect(lab: str, folder: Path, home: Path | None, as_json: bool) -> None:
    """Collect each learner's last hand-in of LAB, ready for grading.

    \b
    Example:
      twostroke hub collect 01
      twostroke grade 01 /srv/two-stroke-hub/collected/lab01
    """
    found = _rooms(folder, home).collect(lab)
    if as_json:
        parts = {"learners": found.learners, "without": found.without, "refused": found.refused}
        click.echo(json.dumps({"folder": str(found.folder), **parts}))
        return
    click.echo(f"{len(found.learners)} collected, {len(found.without)} have handed nothing in")
    for learner in found.refused:
        click.echo(
            f"{learner}: the hand-in is a link, too large or without the lab's notebook; ask for another"
        )
    click.echo(f"next: twostroke grade {lab} {found.folder}")


@hub.command("feedback")
@click.argument("lab")
@_folder
@_home
@_json
def feedback(lab: str, folder: Path, home: Path | None, as_json: bool) -> None:
    """Lay the feedback pages of LAB back, each where its learner alone finds it.

    \b
    Example:
      twostroke hub feedback 01
    """
    done = _rooms(folder, home).hand_back(lab)
    click.echo(
        json.dumps({"learners": done}) if as_json else f"{len(done)} learners can fetch their feedback"
    )
