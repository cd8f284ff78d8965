"""``twostroke exam``: the examination of lab 14, for the instructor."""

from __future__ import annotations

import asyncio
import contextlib
import json
import signal
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from twostroke.lab.exam import Place

_home = click.option(
    "--home",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder of this class, as for twostroke grade; default autograde in the course's folder.",
)
_attempt = click.option(
    "--attempt", type=click.IntRange(1, 99), default=1, show_default=True, help="2 for a retake."
)


@click.group("exam")
def exam() -> None:
    """Hold the examination of lab 14: tickets, the service that gives readings, what was done.

    The fault of each learner's machine is drawn with a secret that this command makes and keeps; learners
    get a ticket and talk to the service. Grade it with twostroke grade 14, like any lab.

    \b
    Example:
      twostroke exam tickets
      twostroke exam serve
      twostroke exam log learner-01
    """


def _place(home: Path | None, make: bool = False) -> Place:
    from twostroke.grading import Course
    from twostroke.grading.examination import place_of
    from twostroke.lab.exam import Place

    folder = place_of(Course.at(home))
    return Place.make(folder) if make else Place(folder)


@exam.command("tickets")
@click.argument("learners", nargs=-1, metavar="[LEARNER]...")
@_home
@_attempt
@click.option(
    "--address", default="http://127.0.0.1:8614", show_default=True, help="As learners reach the service."
)
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def tickets(learners: tuple[str, ...], home: Path | None, attempt: int, address: str, as_json: bool) -> None:
    """Print a ticket for each LEARNER (default the class list); the same again when asked again.

    Give each learner their own line only: who holds it sits in that learner's place.

    \b
    Example:
      twostroke exam tickets
      twostroke exam tickets learner-07 --attempt 2
    """
    from twostroke.grading import Course

    place = _place(home, make=True)
    names = list(learners) or [each.id for each in Course.at(home).classlist.learner]
    if not names:
        raise click.UsageError("there is no class list: name the learners, or write autograde/class.toml")
    made = {name: f"{address.rstrip('/')} {name} {attempt} {place.token(name, attempt)}" for name in names}
    if as_json:
        click.echo(json.dumps(made, ensure_ascii=False))
        return
    for ticket in made.values():
        click.echo(ticket)


@exam.command("serve")
@_home
@click.option(
    "--host", default="127.0.0.1", show_default=True, help="0.0.0.0 for every machine of the network."
)
@click.option("--port", type=click.IntRange(0, 65535), default=8614, show_default=True)
@click.option(
    "--certificate",
    nargs=2,
    type=click.Path(exists=True, dir_okay=False),
    help="Files of certificate and key: HTTPS. Without it tickets cross the network in clear.",
)
def serve(home: Path | None, host: str, port: int, certificate: tuple[str, str] | None) -> None:
    """Give readings until it is stopped with Control and C. Begun again, every sitting goes on where it was.

    \b
    Example:
      twostroke exam serve
      twostroke exam serve --host 0.0.0.0 --certificate shop.pem shop.key
    """
    from twostroke.lab.exam.service import serve as run

    place = _place(home, make=True)

    async def until_stopped() -> None:
        stop = asyncio.Event()
        loop = asyncio.get_running_loop()
        for number in (signal.SIGINT, signal.SIGTERM):
            with contextlib.suppress(NotImplementedError):
                loop.add_signal_handler(number, stop.set)
        await run(place, host, port, certificate=certificate or None, ready=_ready, stop=stop)

    asyncio.run(until_stopped())
    click.echo("stopped; every step that was answered is kept")


def _ready(address: str) -> None:
    click.echo(f"the examination gives readings at {address}")


@exam.command("log")
@click.argument("learner")
@_home
@_attempt
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def log(learner: str, home: Path | None, attempt: int, as_json: bool) -> None:
    """Show what LEARNER did, step by step; a log that was edited is refused with the line.

    \b
    Example:
      twostroke exam log learner-01
    """
    place = _place(home)
    entries = place.log(learner, attempt).entries
    rows = [
        {
            "at": entry.at,
            "action": entry.body["step"]["action"],
            "words": entry.body["step"]["words"],
            "minutes": entry.body["step"]["time"],
            "missed": entry.body["step"]["cautions_missed"],
        }
        for entry in entries
        if entry.kind in ("step", "end")
    ]
    if as_json:
        click.echo(json.dumps(rows, ensure_ascii=False))
        return
    if not entries:
        click.echo(f"{learner}, attempt {attempt}: not opened yet")
    for row in rows:
        missed = f"  CAUTION MISSED: {', '.join(row['missed'])}" if row["missed"] else ""
        click.echo(f"{row['at']}  {row['minutes']:5.0f} min  {row['action']}: {row['words']}{missed}")
