"""``twostroke build``: derived files from their masters."""

from __future__ import annotations

import json

import click

from twostroke import build as building


@click.command("build")
@click.argument("parts", nargs=-1)
@click.option(
    "--check",
    is_flag=True,
    help="Compare only; exit code 1 when a committed file is not what its master gives.",
)
@click.option(
    "--reference",
    "reference_folder",
    type=click.Path(file_okay=False),
    help="Write the reference of all public names there instead.",
)
@click.option(
    "--site",
    is_flag=False,
    flag_value="",
    metavar="[FOLDER]",
    help="Write the lessons as pages that need no network, also from a file share; "
    "default two-stroke-site in your home folder.",
)
@click.option("--json", "as_json", is_flag=True, help="Say which files differ as JSON.")
def build(
    parts: tuple[str, ...], check: bool, reference_folder: str | None, site: str | None, as_json: bool
) -> None:
    """Make derived files again; PARTS chooses some of them, default all.

    \b
    Example:
      twostroke build                  all parts
      twostroke build lessons          lesson notebooks only
      twostroke build --check          are the committed files fresh?
      twostroke build --reference public/reference
      twostroke build --site /media/share/course
    """
    if site is not None:
        _site(site or None, parts)
        return
    if reference_folder:
        from twostroke.build.reference import reference

        click.echo(f"reference: {reference(reference_folder)}")
        return
    say = (lambda _: None) if as_json else click.echo
    differences = building.build(parts, check=check, say=say)
    if as_json:
        click.echo(json.dumps([{"path": found.path, "state": found.state} for found in differences]))
    else:
        for found in differences:
            click.echo(f"  {found.state}: {found.path}")
        click.echo(f"files that {'differ' if check else 'were written or removed'}: {len(differences)}")
    if check and differences:
        raise click.ClickException(
            "derived files are not fresh: run `python3 course build` and commit what it writes"
        )


def _site(folder: str | None, parts: tuple[str, ...]) -> None:
    from twostroke.build import site as pages

    if parts:
        raise click.UsageError(
            f"--site stands alone; say what {' '.join(parts)!r} is meant for in a run of its own"
        )
    made = pages.site(folder, say=click.echo)
    click.echo(f"{len(made)} files written; begin with {made[0]}")
