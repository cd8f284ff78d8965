"""``twostroke shop``: a shop's own closed jobs and the fault table."""

from __future__ import annotations

import json
from dataclasses import asdict
from datetime import date
from pathlib import Path

import click

from twostroke.commands.shared import course_at


@click.group("shop")
def shop() -> None:
    """A shop's own data: what its people can do, and closed jobs counted into the fault table.

    \b
    Example:
      twostroke shop people
      twostroke shop priors closed_jobs.csv
    """


@shop.command("people")
@click.argument("learners", nargs=-1, metavar="[LEARNER]...")
@click.option("--home", type=click.Path(path_type=Path, file_okay=False), help="Folder of the class.")
@click.option("--pdf", type=click.Path(path_type=Path), help="Write the overview as PDF here.")
@click.option("--html", type=click.Path(path_type=Path), help="Write it as a web page here.")
@click.option("--csv", "table_file", type=click.Path(path_type=Path), help="Write it as a table here.")
@click.option("--pseudonyms", is_flag=True, help="Names replaced; the key file tells who is who.")
@click.option("--note", default="", help="A line for the foot of the page.")
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def people(
    learners: tuple[str, ...],
    home: Path | None,
    pdf: Path | None,
    html: Path | None,
    table_file: Path | None,
    pseudonyms: bool,
    note: str,
    as_json: bool,
) -> None:
    """Say which competencies people have proven and which still need a signature; default everybody.

    \b
    Example:
      twostroke shop people
      twostroke shop people "Ann Demo" "Bo Demo" --pdf who_can_do_what.pdf
    """
    from rich.console import Console

    from twostroke.grading.files import write_text
    from twostroke.grading.record import overview

    course = course_at(home)
    rows = overview.overview(course, learners, pseudonyms)
    sheet = overview.sheet(rows, course.classlist.course, note)
    if pdf is not None:
        sheet.pdf(pdf)
    if html is not None:
        sheet.html(html)
    if table_file is not None:
        write_text(table_file, overview.table(rows))
    if as_json:
        click.echo(json.dumps([asdict(row) for row in rows], ensure_ascii=False))
        return
    if rows:
        Console().print(overview.on_screen(rows))
    else:
        click.echo("nobody yet: a new hire is entered by `twostroke record new NAME`")
    for path in (pdf, html, table_file):
        if path is not None:
            click.echo(f"written: {path}")


@shop.command("priors")
@click.argument("jobs", type=click.Path(path_type=Path))
@click.option("--weight", default=200.0, show_default=True, help="How many jobs the table counts for.")
@click.option("--table", "table_file", type=click.Path(path_type=Path), help="The shop's own fault table.")
@click.option("--out", type=click.Path(path_type=Path), help="Write the table with the new rates here.")
@click.option("--name", default="", help="Whose table it is, as job cards should say it.")
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def priors(
    jobs: Path, weight: float, table_file: Path | None, out: Path | None, name: str, as_json: bool
) -> None:
    """Count the closed JOBS (a CSV file with a column fault) into the table's rates and show the change.

    The table is a teaching estimate; what the shop has counted moves it. With --out the new table is written,
    to be used in place of the course's own; job cards name the shop and today's date beside it.

    \b
    Example:
      twostroke shop priors closed_jobs.csv --weight 100 --name "Mill Lane Demo Repairs" --out our_table.yaml
    """
    from twostroke.isolation.priors import read_jobs, update
    from twostroke.table import load_table, save_table

    table = load_table(table_file)
    today = date.today().isoformat()
    done = update(table, read_jobs(jobs, table), weight, shop=name, day=today)
    if out is not None:
        save_table(done.table, out)
    if as_json:
        click.echo(
            json.dumps({"jobs": done.jobs, "weight": done.weight, "changes": [vars(c) for c in done.changes]})
        )
        return
    click.echo(str(done))
    if out is not None:
        click.echo(f"written: {out}")
