"""``twostroke scenario``: machines for the virtual bench, for those who write them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from twostroke.scenarios import Report


@click.group("scenario")
def scenario() -> None:
    """Look into scenarios: what there is, a new one from a template, and whether one is sound and how hard.

    \b
    Example:
      twostroke scenario list
      twostroke scenario new wet_shed.yaml --fault stop_switch
      twostroke scenario check my_scenario.yaml
    """


@scenario.command("list")
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def list_scenarios(as_json: bool) -> None:
    """List the course's scenarios, the plainest first, with machine and complaint; what is true stays hidden.

    Difficulty goes from 1 (plain) to 5 (dearer than most people would go on with). It is worked out from what
    the recommended plan is expected to cost on the machine.

    \b
    Example:
      twostroke scenario list
    """
    from twostroke import scenarios

    rows = [
        {
            "id": one.id, "title": one.title, "machine": one.machine.kind, "complaint": one.complaint.words,
            "difficulty": scenarios.level(one),
        }
        for one in scenarios.by_difficulty()
    ]  # fmt: skip
    if as_json:
        click.echo(json.dumps(rows, ensure_ascii=False))
        return
    for row in rows:
        hard = f"difficulty {row['difficulty']} of 5" if row["difficulty"] else "difficulty not worked out"
        click.echo(f"{row['id']}: {row['title']} ({row['machine']}, {hard})")
        click.echo(f"    {row['complaint']}")


@scenario.command("new")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--fault", default="plug_fouled", show_default=True, help="What is wrong with the machine.")
@click.option("--engine", default="A", show_default=True, help="Letter of a demo engine, A to F.")
@click.option("--complaint", help="Kind of complaint; the likeliest for the fault when left out.")
def new_scenario(file: Path, fault: str, engine: str, complaint: str | None) -> None:
    """Write a scenario FILE to start from, filled in for one fault; then edit it and check it.

    \b
    Example:
      twostroke scenario new wet_shed.yaml --fault stop_switch --engine E
    """
    from twostroke.scenarios import new

    place = new(file, fault=fault, engine=engine, complaint=complaint)
    click.echo(f"{place}: written. Edit title, words, history, aim and closing, then:")
    click.echo(f"  twostroke scenario check {place}")


@scenario.command("check")
@click.argument("files", nargs=-1, type=click.Path(path_type=Path))
@click.option("--learners", default=6, show_default=True, type=click.IntRange(1, 500), help="How many.")
@click.option("--form-only", is_flag=True, help="Read strictly, play nothing: quick.")
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def check_scenarios(files: tuple[Path, ...], learners: int, form_only: bool, as_json: bool) -> None:
    """Read scenario FILES strictly, then play each on several machines: solvable, how hard, consistent?

    Without FILES the course's own are checked. Exit code 1 when something must be mended.

    \b
    Example:
      twostroke scenario check my_scenario.yaml
      twostroke scenario check --learners 20 my_scenario.yaml
    """
    from twostroke import table
    from twostroke.scenarios import check

    paths = list(files) or list(table.scenario_paths().values())
    reports = []
    for path in paths:
        found = table.load_scenario(path)
        if form_only:
            click.echo(f"{path}: form in order; {found.machine.kind}")
            continue
        report = check(found, learners=learners)
        reports.append(report)
        if not as_json:
            click.echo(_spoken(path, report))
    if as_json:
        click.echo(json.dumps([report.to_dict() for report in reports], ensure_ascii=False))
    if not all(report.sound for report in reports):
        raise SystemExit(1)


def _spoken(path: Path, report: Report) -> str:
    head = "sound" if report.sound else "to be mended"
    lines = [f"{path}: {head}; {report.difficulty}"]
    if report.learners:
        lines.append(
            f"    on {report.learners} machines: complaint met {100 * report.shows:.0f} %, "
            f"a test tells {100 * report.told:.0f} %, "
            f"right repair proven {100 * report.cured:.0f} %, "
            f"recommended plan solves {100 * report.solved:.0f} % at a mean cost of {report.mean_cost:.0f}"
        )
    lines += [f"    mend: {fault}" for fault in report.faults]
    lines += [f"    look: {remark}" for remark in report.remarks]
    return "\n".join(lines)
