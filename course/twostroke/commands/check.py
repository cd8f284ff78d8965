"""``twostroke check``: is everything in order?"""

from __future__ import annotations

import json
from dataclasses import asdict

import click

from twostroke import health


@click.command("check")
@click.option("--json", "as_json", is_flag=True, help="One JSON list of findings.")
def check(as_json: bool) -> None:
    """Look over the set-up and the course's own files; exit code 1 when something is at fault.

    \b
    Example:
      twostroke check
      twostroke check --json
    """
    found = []
    for finding in health.look_over():
        found.append(finding)
        if not as_json:
            click.echo(f"{finding.state:>5}  {finding.what}: {finding.seen}")
            if finding.advice:
                click.echo(f"{'':>5}  -> {finding.advice}")
    if as_json:
        click.echo(json.dumps([asdict(finding) for finding in found], ensure_ascii=False))
    faults = sum(finding.state == health.FAULT for finding in found)
    if faults:
        raise click.ClickException(f"faults found: {faults}; what to do stands beside each")
    if not as_json:
        click.echo("Everything a learner needs is in order.")
