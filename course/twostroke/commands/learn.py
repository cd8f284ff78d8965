"""``twostroke open``: the learner's folder and JupyterLab."""

from __future__ import annotations

import json
from pathlib import Path

import click

from twostroke import server, workspace


@click.command("open")
@click.argument("folder", required=False, type=click.Path(path_type=Path))
@click.option("--no-browser", is_flag=True, help="Print the address instead of opening a browser window.")
@click.option(
    "--port", type=click.IntRange(1, 65535), help="Port on this machine; default 8888 or the next free one."
)
@click.option("--no-server", is_flag=True, help="Lay out or renew the folder only.")
@click.option("--json", "as_json", is_flag=True, help="With --no-server: say what was laid out as JSON.")
def open_course(
    folder: Path | None, no_browser: bool, port: int | None, no_server: bool, as_json: bool
) -> None:
    """Lay out the course in FOLDER (default: two-stroke-course in your home folder) and open JupyterLab.

    What you have changed is never overwritten: a newer lesson or lab is laid beside yours.

    \b
    Example:
      twostroke open
      twostroke open ~/apprentices/two-stroke --no-browser
    """
    if as_json and not no_server:
        raise click.UsageError("--json needs --no-server")
    laid = workspace.lay_out(folder)
    if as_json:
        click.echo(
            json.dumps(
                {
                    "folder": str(laid.folder),
                    "new": laid.new,
                    "renewed": laid.renewed,
                    "beside": [{"yours": yours, "newer": newer} for yours, newer in laid.beside],
                    "unchanged": laid.unchanged,
                }
            )
        )
        return
    click.echo(f"Your workspace: {laid.folder}")
    for sentence in laid.sentences():
        click.echo(f"  {sentence}")
    if no_server:
        return
    click.echo("JupyterLab starts. Keep this window open while you work; Ctrl and C twice here stops it.")
    code = server.serve(laid.folder, browser=not no_browser, port=port)
    if code:
        raise click.ClickException(f"JupyterLab ended with code {code}; its last lines above say why")
