"""``twostroke table``: the fault table looked over, its wall charts, and what is worked out from it."""

from __future__ import annotations

import json
from pathlib import Path

import click


@click.group("table")
def table() -> None:
    """The fault table: check one, print a wall chart, work out anew what depends on it.

    \b
    Example:
      twostroke table check our_table.yaml
      twostroke table chart no_start --out no_start.pdf
    """


@table.command("check")
@click.argument("file", required=False, type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def check(file: Path | None, as_json: bool) -> None:
    """Read a fault table strictly and say what is in it; each row that is wrong is named with its cure.

    \b
    Example:
      twostroke table check our_table.yaml
    """
    from twostroke.table import load_table

    found = load_table(file)
    counts = {name: len(getattr(found, name)) for name in ("faults", "tests", "repairs", "complaints")}
    if as_json:
        click.echo(json.dumps({"version": found.meta.version, **counts}))
        return
    click.echo(f"version {found.meta.version:g}: " + ", ".join(f"{n} {name}" for name, n in counts.items()))


@table.command("chart")
@click.argument("complaint")
@click.option("--depth", default=3, show_default=True, help="Most tests one after the other, 1 to 7.")
@click.option("--table", "table_file", type=click.Path(path_type=Path), help="Another fault table.")
@click.option(
    "--out", type=click.Path(path_type=Path), help="PDF, SVG or PNG; printed as text when left out."
)
def chart(complaint: str, depth: int, table_file: Path | None, out: Path | None) -> None:
    """Make the shortest-route chart for a COMPLAINT, to hang on the wall.

    \b
    Example:
      twostroke table chart dies_hot
      twostroke table chart no_start --depth 4 --out no_start.pdf
    """
    from twostroke.isolation import route_chart
    from twostroke.table import load_table

    made = route_chart(load_table(table_file), complaint, depth)
    if out is None:
        click.echo(made.text())
        return
    if out.suffix.lower() not in (".pdf", ".svg", ".png"):
        raise click.UsageError(f"{out.name}: a chart is written as .pdf, .svg or .png")
    made.figure().savefig(out)
    click.echo(f"written: {out}")


@table.command("renew")
@click.option("--machines", default=600, show_default=True, help="Machines drawn for each test and fault.")
@click.option("--jobs", default=100, show_default=True, help="Simulated jobs for each reference cost.")
@click.option("--only", type=click.Choice(["counts", "references", "difficulty"]), help="One of the three.")
def renew(machines: int, jobs: int, only: str | None) -> None:
    """Count instrument tests anew on the virtual engine, then the scores' reference costs, then difficulties.

    A few minutes for the counts, about half an hour for the references of all scenarios, half a minute for
    their difficulties. For those who have changed the engine, the table or a scenario; what is written
    belongs into the repository.

    \b
    Example:
      twostroke table renew
      twostroke table renew --only references
    """
    from twostroke import resources, scenarios
    from twostroke.isolation import likelihoods, references

    resources.clone()  # what is written would be lost in an installed package
    if only in (None, "counts"):
        likelihoods.renew(machines=machines, progress=lambda fault: click.echo(f"counting {fault}"))
    if only in (None, "references"):
        done = references.renew(jobs=jobs, progress=lambda row: click.echo(f"reference {row}"))
        click.echo(f"{len(done)} new reference costs")
    if only in (None, "difficulty"):
        hard = scenarios.renew(progress=lambda name: click.echo(f"difficulty of {name}"))
        click.echo(f"{len(hard)} new difficulties")
