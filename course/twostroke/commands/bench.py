"""``twostroke bench``: the virtual bench as a page of its own, or in the terminal."""

from __future__ import annotations

from pathlib import Path

import click


@click.command("bench")
@click.argument("scenario", required=False)
@click.option("--learner", default="", help="Your name or number; asked for when left out.")
@click.option("--terminal", is_flag=True, help="Work in this terminal instead of a browser page.")
@click.option(
    "--own", "complaint", metavar="COMPLAINT", help="Your own machine, with --terminal: no_start, dies_hot …"
)
@click.option(
    "--band", "bands", multiple=True, metavar="NAME=BAND", help="Maker's band: air_gap='8 to 16 thou'."
)
@click.option(
    "--folder",
    type=click.Path(path_type=Path),
    help="Where jobs are kept; default: bench_jobs in your workspace.",
)
@click.option(
    "--table",
    "table_file",
    type=click.Path(path_type=Path),
    help="The shop's own fault table, for own machines (see `twostroke shop priors`).",
)
@click.option(
    "--shop", "shop_file", type=click.Path(path_type=Path), help="The shop's figures for job cards, TOML."
)
@click.option("--port", type=click.IntRange(1, 65535), help="Port of the page; default a free one.")
@click.option(
    "--address",
    default="127.0.0.1",
    show_default=True,
    help="Where the page listens. Another address lets other machines of the network in that have the token.",
)
@click.option("--no-browser", is_flag=True, help="Print the page's address instead of opening a browser.")
def bench(
    scenario: str | None,
    learner: str,
    terminal: bool,
    complaint: str | None,
    bands: tuple[str, ...],
    folder: Path | None,
    table_file: Path | None,
    shop_file: Path | None,
    port: int | None,
    address: str,
    no_browser: bool,
) -> None:
    """Put a machine on the bench: SCENARIO by name (see `twostroke scenario list`), or choose one there.

    The page is for one machine of the workshop; its address carries a token. Jobs are kept after each
    step and go on where they were left, in page, terminal and notebook alike.

    \b
    Example:
      twostroke bench
      twostroke bench --table our_table.yaml --shop our_shop.toml
      twostroke bench --terminal
      twostroke bench plug_fouled_trimmer --terminal --learner Anna
      twostroke bench --terminal --own no_start --band air_gap="8 to 16 thou"
    """
    from twostroke.lesson.bench_panel import OwnJob, OwnShop, serve, store
    from twostroke.lesson.bench_panel import terminal as plain

    where = folder or store.place()
    shop = OwnShop.read(table_file, shop_file)
    if not terminal:
        if scenario or complaint or bands or learner:
            raise click.UsageError("on the page the machine is chosen there; these words go with --terminal")
        serve.serve(where, port=port, address=address, browser=not no_browser, say=click.echo, shop=shop)
        return
    job = None
    if complaint:
        pairs = [band.partition("=") for band in bands]
        given = {name.strip(): text.strip() for name, _, text in pairs}
        job = OwnJob(
            "own machine",
            complaint,
            learner or click.prompt("Your name or number"),
            given,
            None,
            where,
            shop.table,
        )
    plain.run(where, scenario=scenario, learner=learner, job=job, shop=shop)
