"""``twostroke card``: the job card of a kept job."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from twostroke.jobcard import JobCard


@click.command("card")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--shop", "shop_file", type=click.Path(path_type=Path), help="The shop's figures, TOML.")
@click.option(
    "--table",
    "table_file",
    type=click.Path(path_type=Path),
    help="The shop's own fault table, for own machines.",
)
@click.option("--value", type=click.FloatRange(min=0), help="What a like machine costs.")
@click.option("--date", default="", help="Date as it should stand on the card.")
@click.option("--pdf", type=click.Path(path_type=Path), help="Write the card as PDF here.")
@click.option("--html", type=click.Path(path_type=Path), help="Write the card as a web page here.")
@click.option("--json", "as_json", is_flag=True, help="Answer with the card as JSON, for programs.")
def card(
    job: Path, shop_file: Path | None, table_file: Path | None, value: float | None, date: str,
    pdf: Path | None, html: Path | None, as_json: bool,
) -> None:  # fmt: skip
    """Make the job card of a JOB that the bench has kept, demo or own machine, or check a card kept as JSON.

    Jobs lie in the folder bench_jobs of the course folder, one file each.

    \b
    Example:
      twostroke card bench_jobs/own--45-cm-saw--ben.json --pdf card.pdf
      twostroke card my_job.json --shop our_shop.toml --value 180 --json
    """
    from twostroke import jobcard

    made = _card(job, table_file, {"shop": jobcard.load_shop(shop_file), "value": value, "date": date})
    sheet = jobcard.sheet(made)
    if pdf is not None:
        sheet.pdf(pdf)
    if html is not None:
        sheet.html(html)
    if as_json:
        click.echo(made.to_json())
        return
    found = made.diagnosis.name if made.diagnosis else "nothing stated"
    click.echo(f"{made.machine}: {made.state}; {found}")
    money = f"{made.estimate.total:.2f} {made.estimate.currency}"
    click.echo(f"{made.minutes.total:g} min, {money}; {made.advice.verdict}")
    for path in (pdf, html):
        if path is not None:
            click.echo(f"written: {path}")


def _card(file: Path, table_file: Path | None, options: dict[str, Any]) -> JobCard:
    """The card of a job file of panel, page or terminal, of a bare bench job, or a card itself."""
    from twostroke import jobcard
    from twostroke.bench import from_json
    from twostroke.errors import TwoStrokeError

    try:
        text = file.read_text(encoding="utf-8")
        content = json.loads(text)
    except FileNotFoundError:
        raise TwoStrokeError(f"{file}: there is no such file; jobs lie in the folder bench_jobs") from None
    except (OSError, ValueError) as error:
        raise TwoStrokeError(f"{file}: cannot be read as a kept job ({error}); check the name") from None
    if isinstance(content, dict) and "estimate" in content:
        return jobcard.read_card(content)
    if isinstance(content, dict) and "kind" in content:
        from twostroke.lesson.bench_panel import cards
        from twostroke.lesson.bench_panel.job import read_kept
        from twostroke.table import load_table

        return cards.make(read_kept(file, load_table(table_file)), **options)
    return jobcard.check(jobcard.job_card(from_json(text), **options))
