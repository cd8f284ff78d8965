"""``twostroke release``, ``grade``, ``report``: the instructor's round, over `twostroke.grading`."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from rich.console import Console

    from twostroke.grading import Course, Summary

_home = click.option(
    "--home",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder of this class: class list, gradebook, feedback, reports;"
    " default autograde in the course's folder.",
)
_gradebook = click.option(
    "--gradebook",
    metavar="URL",
    help="Address of the gradebook, such as postgresql://grader@localhost/gradebook; default class.toml's, "
    "or a file in the folder of the class.",
)
_json = click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")


def _course(home: Path | None, gradebook: str | None = None) -> Course:
    from twostroke.grading import Course

    return Course.at(home, gradebook=gradebook)


@click.command("release")
@click.argument("labs", nargs=-1, metavar="[LAB]...")
@_home
@_gradebook
@_json
def release(labs: tuple[str, ...], home: Path | None, gradebook: str | None, as_json: bool) -> None:
    """Hand labs out: make the learners' version of each LAB (default all) and enter it in the gradebook.

    \b
    Example:
      twostroke release 01
      twostroke release --home ~/class-a
    """
    from twostroke import grading

    course = _course(home, gradebook)
    made = grading.release(*labs, course=course)
    for one in made:
        _warn_of_changed_master(course, one.lab)
    if as_json:
        click.echo(
            json.dumps(
                [
                    {"lab": one.lab, "notebook": str(one.notebook), "points": one.points, "tasks": one.tasks}
                    for one in made
                ]
            )
        )
        return
    for one in made:
        click.echo(f"{one.lab}: {one.tasks} graded tasks, {one.points:g} points -> {one.notebook}")
    if not (course.home / "class.toml").is_file():
        click.echo(
            f"No class list yet: copy {course.source.parent / 'autograde' / 'class.example.toml'} to "
            f"{course.home / 'class.toml'} and write in your class."
        )
    if made:
        click.echo(f"What comes back: {course.command('grade', made[0].lab, 'FOLDER_OR_ZIP')}")


def _warn_of_changed_master(course: Course, lab: str) -> None:
    """Say so where the text of a lab was changed and the notebook that was handed out was not made again."""
    from twostroke.build.notebooks import notebook_bytes, read_master

    master = course.source.parent / "course" / "text" / "labs" / f"{lab}.py"
    if not master.is_file():
        return
    made = course.source_notebook(lab).read_bytes().replace(b"\r\n", b"\n")
    if notebook_bytes(read_master(master)) != made:
        click.echo(
            f"{lab}: its text {master} says something else than the notebook in "
            f"{course.source / lab}, which was handed out. To hand out the text: "
            f"twostroke build source, then twostroke release {lab[3:]}",
            err=True,
        )


@click.command("grade")
@click.argument("lab", required=False)
@click.argument("submissions", required=False, type=click.Path(path_type=Path))
@_home
@_gradebook
@click.option("--learner", help="Only this learner.")
@click.option("--task", help="Mark only this task again, from the answers recorded before.")
@click.option("--force", is_flag=True, help="Mark again what is already marked; marks given by hand stay.")
@click.option("--dry-run", is_flag=True, help="Only look: what came in, and in which state.")
@click.option(
    "--workers", type=click.IntRange(1, 64), help="Processes that mark side by side; default one a core."
)
@click.option(
    "--cluster", metavar="ADDRESS", help="Run submissions on a dask cluster: the address of its scheduler."
)
@click.option("--pdf", is_flag=True, help="Print each learner's feedback as PDF too, beside the page.")
@click.option("--trust", is_flag=True, help="Run learners' code even where this machine cannot wall it off.")
@click.option("--demo", is_flag=True, help="Grade an invented class and write its report: try this first.")
@click.option(
    "--into", type=click.Path(path_type=Path, file_okay=False), help="With --demo: a new or empty folder."
)
@_json
def grade(
    lab: str | None,
    submissions: Path | None,
    home: Path | None,
    gradebook: str | None,
    learner: str | None,
    task: str | None,
    force: bool,
    dry_run: bool,
    workers: int | None,
    pdf: bool,
    cluster: str | None,
    trust: bool,
    demo: bool,
    into: Path | None,
    as_json: bool,
) -> None:
    """Grade a class: SUBMISSIONS (a folder or a zip as the school's platform gives it) of LAB.

    Every submission gets a state with a reason: graded, needs a person, or not graded. One bad file never
    stops the class, and a run that was cut off goes on where it stopped.

    JSON has lab, done, skipped, seconds and outcomes: for each learner asked for the state, causes (reason,
    detail), notes, answers, tasks (task, points, max_points, state, slips, and what was said of each step).
    With --task it is a list of learner, before and after.

    \b
    Example:
      twostroke grade --demo
      twostroke grade 01 ~/Downloads/lab01.zip
      twostroke grade 01 --learner "a. smith" --force
      twostroke grade 01 --task gap --dry-run
    """
    if demo and (submissions or home or gradebook or learner or force or dry_run or cluster):
        raise click.UsageError(
            "--demo makes its own class: give only LAB, --into, --workers, --trust, --json"
        )
    if into and not demo:
        raise click.UsageError("--into belongs to --demo; for a class of your own give --home")
    if task and (submissions or force):
        raise click.UsageError("--task marks recorded answers again: leave SUBMISSIONS and --force out")
    if not lab and not demo:
        raise click.UsageError(
            "which lab? For example: twostroke grade 01 FOLDER, or --demo for an invented class"
        )
    from rich.console import Console

    console = Console(stderr=as_json)
    if not as_json:
        console.print("making ready: a few seconds")  # what is needed for grading is loaded only now

    from twostroke import grading
    from twostroke.grading import screen

    if demo or not lab:
        shown = grading.demo(into, lab=lab or "01", trust=trust, workers=workers, console=console)
        _finish(shown.summary, as_json)
        return
    course = _course(home, gradebook)
    if task:
        _again(lab, task, course, learner, dry_run, as_json)
        return
    with screen.live(console, lab) as progress:
        summary = grading.grade(
            lab,
            submissions,
            course=course,
            learner=learner,
            force=force,
            trust=trust,
            workers=workers,
            cluster=cluster,
            dry_run=dry_run,
            progress=progress,
        )
    if not as_json:
        _show(console, summary, learner, dry_run)
    if pdf and not dry_run:
        from twostroke.grading.feedback_print import write_all

        made = write_all(course, summary.lab, learner)
        said = f"{screen.count(len(made), 'print')} of feedback made beside the pages"
        console.print(said, highlight=False, markup=False)
    _finish(summary, as_json)


def _again(lab: str, task: str, course: Course, learner: str | None, dry_run: bool, as_json: bool) -> None:
    """One task marked again: whose points changed."""
    from dataclasses import asdict

    from twostroke.grading import mark_again

    changes = mark_again(lab, task, course=course, learner=learner, dry_run=dry_run)
    if as_json:
        click.echo(json.dumps([asdict(change) for change in changes]))
        return
    for each in changes:
        click.echo(f"{each.learner}: {each.before:g} -> {each.after:g} points")
    would = "would change" if dry_run else "changed"
    click.echo(f"{task}: {len(changes)} {would}; marks given by hand stay")


def _show(console: Console, summary: Summary, learner: str | None, dry_run: bool) -> None:
    """States as a table, and where to go from here."""
    from twostroke.grading import screen
    from twostroke.grading.standing import standings

    if dry_run:
        console.print(screen.looked(summary))
        return
    everybody = standings(summary.course, summary.lab)
    found = [each for each in everybody if summary.course.classlist.asked(each.learner, learner)]
    console.print(screen.states(found, summary.lab))
    for line in screen.closing(summary, found):
        console.print(line, highlight=False, markup=False, soft_wrap=True)


def _finish(summary: Summary, as_json: bool) -> None:
    if as_json:
        click.echo(
            json.dumps(
                {
                    "lab": summary.lab,
                    "done": summary.done,
                    "skipped": summary.skipped,
                    "seconds": round(summary.seconds, 2),
                    "outcomes": [outcome.model_dump(mode="json") for outcome in summary.outcomes],
                }
            )
        )
    if summary.engine_failures:
        from twostroke.grading import screen

        raise click.ClickException(
            f"the grader failed on {screen.count(summary.engine_failures, 'submission')} and gave no mark: "
            "run it again"
        )


def _report_all(settings: dict[str, Any], as_json: bool) -> None:
    """The report of every lab, and all marks in one table."""
    from twostroke.grading import report_course

    made = report_course(**settings)
    if as_json:
        files = {"table": str(made.table), "labs": {each.lab: str(each.html) for each in made.labs}}
        click.echo(json.dumps({**files, **({"results": str(made.results)} if made.results else {})}))
        return
    for each in made.labs:
        click.echo(f"{each.lab}: {each.html}")
    click.echo(f"all marks as a table: {made.table}")
    if made.results:
        click.echo(f"for a school's own system (OneRoster 1.1): {made.results}")


@click.command("report")
@click.argument("lab", required=False)
@_home
@_gradebook
@click.option("--to", type=click.Path(path_type=Path, file_okay=False), help="Folder for page and table.")
@click.option("--columns", help="Columns of the table, with commas, COLUMN=HEADING to rename; default all.")
@click.option("--no-tasks", is_flag=True, help="Leave the points of each task out of the table.")
@click.option("--pdf", is_flag=True, help="Print the report as PDF too.")
@click.option("--oneroster", is_flag=True, help="Results as an archive of OneRoster 1.1 CSV files too.")
@click.option("--pseudonyms", is_flag=True, help="Pseudonyms in place of learners in all of it.")
@_json
def report(
    lab: str | None,
    home: Path | None,
    gradebook: str | None,
    to: Path | None,
    columns: str | None,
    no_tasks: bool,
    pdf: bool,
    oneroster: bool,
    pseudonyms: bool,
    as_json: bool,
) -> None:
    """Write the class report of LAB: a page to read and print, and a table for other programs.

    Without LAB: the report of every lab graded so far, and one table of all marks, a line a learner.

    \b
    Example:
      twostroke report 01
      twostroke report 01 --to ~/reports --columns "learner=Student ID,percent=Grade" --no-tasks
      twostroke report 01 --pdf --oneroster --pseudonyms
    """
    from twostroke import grading
    from twostroke.grading.reporting import COLUMNS

    wanted = [name.strip() for name in columns.split(",")] if columns else COLUMNS
    settings: dict[str, Any] = {"course": _course(home, gradebook), "to": to, "columns": wanted}
    settings |= {"with_tasks": not no_tasks, "pdf": pdf, "oneroster": oneroster, "pseudonyms": pseudonyms}
    if lab is None:
        _report_all(settings, as_json)
        return
    made = grading.report(lab, **settings)
    files = {"page": made.html, "table": made.table, "print": made.pdf, "results": made.results}
    if as_json:
        click.echo(json.dumps({"lab": made.lab, **{name: str(path) for name, path in files.items() if path}}))
        return
    words = {
        "page": "class report", "table": "marks as a table", "print": "for printing",
        "results": "for a school's own system (OneRoster 1.1)",
    }  # fmt: skip
    for name, path in files.items():
        if path:
            click.echo(f"{words[name]}: {path}")
