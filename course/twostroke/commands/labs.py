"""``twostroke lab``: labs for those who write or hand them out."""

from __future__ import annotations

import json

import click


@click.group("lab")
def lab() -> None:
    """Look into labs: what there is, what a lab lacks, what one learner was given.

    \b
    Example:
      twostroke lab list
      twostroke lab check 01
      twostroke lab answers 01 "learner 7"
      twostroke lab notes 01
      twostroke lab new 16 "Title of the lab"
    """


@lab.command("list")
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def list_labs(as_json: bool) -> None:
    """List the labs with their points.

    \b
    Example:
      twostroke lab list
    """
    from twostroke import lab as labs

    found = [labs.load(number) for number in labs.lab_ids()]
    rows = [
        {"lab": one.id, "title": one.title, "points": sum(task.points for task in one.tasks)} for one in found
    ]
    if as_json:
        click.echo(json.dumps(rows, ensure_ascii=False))
        return
    for row in rows:
        click.echo(f"{row['lab']}  {row['title']} ({row['points']:g} points)")


@lab.command("check")
@click.argument("labs", nargs=-1, metavar="[LAB]...")
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def check_labs(labs: tuple[str, ...], as_json: bool) -> None:
    """Say what each LAB (default all) lacks by the rules of the course; exit code 1 when one lacks something.

    \b
    Example:
      twostroke lab check 01
    """
    from twostroke import lab as library

    found = {library.load(each).id: library.check_lab(each) for each in labs or library.lab_ids()}
    if as_json:
        click.echo(json.dumps(found, ensure_ascii=False))
    else:
        for number, missing in found.items():
            click.echo(f"lab {number}: {'complete' if not missing else f'missing: {len(missing)}'}")
            for each in missing:
                click.echo(f"  {each}")
    if any(found.values()):
        raise click.ClickException("not every lab is complete")


@lab.command("answers")
@click.argument("lab_id", metavar="LAB")
@click.argument("learner")
@click.option("--attempt", type=click.IntRange(1), default=1, show_default=True)
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def answers(lab_id: str, learner: str, attempt: int, as_json: bool) -> None:
    """Show the model answers on one learner's own numbers, for the instructor who is asked about them.

    \b
    Example:
      twostroke lab answers 01 "learner 7"
    """
    from twostroke import lab as library

    model = library.model_answers(lab_id, learner, attempt)
    if as_json:
        click.echo(json.dumps(model, ensure_ascii=False))
        return
    for task, given in model.items():
        said = (
            ", ".join(f"{key} = {value}" for key, value in given.items())
            if isinstance(given, dict)
            else given
        )
        click.echo(f"{task}: {said}")


@lab.command("notes")
@click.argument("lab_id", metavar="LAB")
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def notes(lab_id: str, as_json: bool) -> None:
    """Show the instructor's notes of a lab: aim, minutes, usual errors, rubric, new variants, its tasks.

    \b
    Example:
      twostroke lab notes 05
    """
    from twostroke import lab as library

    found = library.load(lab_id)
    words = {
        "aim": found.aim,
        "minutes": found.minutes,
        "usual errors": found.usual_errors,
        "rubric": found.rubric,
        "new variant or task": found.renewal,
    }
    tasks = [
        {"task": task.id, "points": task.points, "kind": task.kind, "competency": task.competency,
         "outcome": task.outcome}
        for task in found.tasks
    ]  # fmt: skip
    if as_json:
        click.echo(json.dumps({"lab": found.id, **words, "tasks": tasks}, ensure_ascii=False))
        return
    click.echo(f"Lab {found.id}: {found.title} ({found.points:g} points)")
    for name, text in words.items():
        click.echo(f"{name}: {text}")
    for task in tasks:
        click.echo(
            f"  {task['task']}: {task['points']:g} points, {task['kind']}, {task['competency']}; "
            f"{task['outcome']}"
        )


@lab.command("new")
@click.argument("number", metavar="NUMBER")
@click.argument("title")
def new(number: str, title: str) -> None:
    """Begin a new lab in a clone: a Python module, its text master, an empty list of wrong answers.

    \b
    Example:
      twostroke lab new 16 "Carburettor"
    """
    from twostroke import resources
    from twostroke.lab import template

    top = resources.clone()
    for path in template.new_lab(number, title, top):
        click.echo(f"written: {path.relative_to(top)}")
    click.echo(f"now: twostroke lab check {number} says what is missing")


@lab.command("cells")
@click.argument("lab_id", metavar="LAB")
@click.argument("task_id", metavar="TASK")
def cells(lab_id: str, task_id: str) -> None:
    """Print the cells of one task for a lab's text master, to paste in and to give its prose.

    \b
    Example:
      twostroke lab cells 05 legs
    """
    from twostroke import lab as library
    from twostroke.lab.cells import task_cells

    found = library.load(lab_id)
    task = found.task(task_id)
    click.echo(task_cells(found, found.tasks.index(task) + 1, task))


@lab.command("trial")
@click.argument("labs", nargs=-1, metavar="[LAB]...")
@click.option("--learners", type=click.IntRange(10, 2000), default=40, show_default=True)
@click.option("--seed", type=int, default=14, show_default=True, help="Another seed draws another class.")
@click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")
def trial(labs: tuple[str, ...], learners: int, seed: int, as_json: bool) -> None:
    """Try LABs (default all) on a simulated class: how hard each task is, and whether it tells learners
    apart.

    \b
    Example:
      twostroke lab trial 13
      twostroke lab trial --learners 200
    """
    import dataclasses

    from rich.console import Console
    from rich.progress import Progress
    from rich.table import Table

    from twostroke.grading.trial import SAID, Trial
    from twostroke.grading.trial import trial as hold

    with Progress(console=Console(stderr=True), transient=True) as shown:
        step = shown.add_task("learners", total=learners)
        found: Trial = hold(labs, learners, seed, lambda done, of: shown.update(step, completed=done))
    if as_json:
        click.echo(json.dumps({"said": SAID, **dataclasses.asdict(found)}))
        return
    table = Table("lab", "task", "kind", "share earned", "with its lab", "with all", title=SAID)
    for task in found.tasks:
        apart = [f"{each:.2f}" if each is not None else "–" for each in (task.in_lab, task.in_all)]
        weak = " (weak)" if task.weak else ""
        table.add_row(task.lab, task.task + weak, task.kind, f"{task.difficulty:.2f}", *apart)
    Console().print(table)
    for number, alpha in found.reliability.items():
        click.echo(f"lab {number}: alpha {alpha:.2f}" if alpha is not None else f"lab {number}: no alpha")
    if found.whole is not None:
        click.echo(f"all tasks: alpha {found.whole:.2f}; points with stated ability: r {found.ability:.2f}")
