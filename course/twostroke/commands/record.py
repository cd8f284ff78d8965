"""``twostroke record``: a person's training record, the plan, hands-on signatures, and erasing a person."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path
from typing import Any

import click

from twostroke.commands.forget import erase, who
from twostroke.commands.shared import course_at, home_option, json_option

_pseudonyms = click.option(
    "--pseudonyms", is_flag=True, help="Names replaced; the key file tells who is who."
)
_aims = click.option(
    "--aim", "aims", multiple=True, metavar="COMPETENCY", help="Plan what leads there first; may be repeated."
)


class _Record(click.Group):
    """A name in place of a subcommand is a person: `record NAME` is `record show NAME`."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        if "--verify" in args:
            args = ["verify", *(word for word in args if word != "--verify")]
        elif args and args[0] not in self.commands and args[0] not in ("-h", "--help"):
            args = ["show", *args]
        return super().parse_args(ctx, args)


@click.group(
    "record",
    cls=_Record,
    subcommand_metavar="LEARNER | --verify FILE | COMMAND [ARGS]...",
    no_args_is_help=True,
)
def record() -> None:
    """The training record of LEARNER: graded evidence, hands-on signatures, what is open, what to do next.

    One page for each person, as PDF and web page, sealed so that a change is noticed.

    \b
    Example:
      twostroke record "Ann Demo"
      twostroke record --verify learner-01_training_record.pdf
      twostroke record new "Robin Demo"
      twostroke record sign "Robin Demo" "air gap" --by "Sam Super" --initials SS
      twostroke record plan "Robin Demo" --aim "spark testing"
      twostroke record erase learner-01
    """


@record.command("show")
@click.argument("learner")
@home_option
@click.option("--to", type=click.Path(path_type=Path, file_okay=False), help="Folder for the files.")
@_aims
@_pseudonyms
@click.option("--note", default="", help="A line for the foot of the page.")
@json_option
def show(
    learner: str,
    home: Path | None,
    to: Path | None,
    aims: tuple[str, ...],
    pseudonyms: bool,
    note: str,
    as_json: bool,
) -> None:
    """Write the record of LEARNER: one page as PDF and web page, and the same as data.

    \b
    Example:
      twostroke record show learner-01 --to ~/records
    """
    from twostroke.grading import record as records

    named = [records.competency_named(aim) for aim in aims]
    made = records.write(learner, course=course_at(home), to=to, aims=named, pseudonyms=pseudonyms, note=note)
    if as_json:
        files = {"pdf": str(made.pdf), "html": str(made.html), "data": str(made.data)}
        click.echo(json.dumps({"files": files, "key": made.fingerprint, **made.content}, ensure_ascii=False))
        return
    still = made.content["open"]
    click.echo(f"{made.content['person']['name']}: record {made.content['serial']}")
    for title, key in (("still open by graded work", "graded work"), ("by signature", "signature")):
        click.echo(f"{title} ({len(still[key])}): {'; '.join(still[key]) or 'nothing'}")
    for path in (made.pdf, made.html, made.data):
        click.echo(f"written: {path}")
    click.echo(
        f"sealed with key {made.fingerprint}; look later with: twostroke record --verify {made.pdf.name}"
    )


@record.command("verify")
@click.argument("file", type=click.Path(path_type=Path))
@home_option
@click.option(
    "--key", default="", help="Fingerprint of the issuing shop's key, where another shop issued it."
)
@json_option
def verify(file: Path, home: Path | None, key: str, as_json: bool) -> None:
    """Say whether FILE (PDF, web page or data of a record) is as issued, and name what was changed.

    Exit code 1 when it is not.

    \b
    Example:
      twostroke record --verify learner-01_training_record.pdf
      twostroke record --verify theirs.pdf --key 2b915165-cef94c1e-c93a0cc1
    """
    from twostroke import resources
    from twostroke.grading import record as records

    course = course_at(home) if home is not None or resources.repository() is not None else None
    found = records.verify(file, course=course, key=key)
    if as_json:
        answer = {"file": str(file), "record": found.serial, "person": found.who, "as issued": found.whole,
                  "changes": list(found.changes), "key": found.sealed_by}  # fmt: skip
        click.echo(json.dumps(answer, ensure_ascii=False))
    else:
        what = f"record {found.serial or 'without number'}" + (f" of {found.who}" if found.who else "")
        click.echo(f"{file.name}, {what}: {'as issued' if found.whole else 'NOT as issued'}")
        for change in found.changes:
            click.echo(f"  {change}")
    if not found.whole:
        raise click.ClickException(f"{file.name} is not as issued ({len(found.changes)} changed, see above)")


@record.command("new")
@click.argument("name")
@click.option("--id", "identifier", default="", help="Identifier; default made from the name.")
@home_option
@json_option
def new(name: str, identifier: str, home: Path | None, as_json: bool) -> None:
    """Enter NAME, a new hire of whom nothing has been graded yet.

    Where work is graded with a class list, add the identifier there too.

    \b
    Example:
      twostroke record new "Robin Demo"
    """
    from twostroke.grading import record as records

    made = records.enter(course_at(home), name, identifier)
    if as_json:
        click.echo(json.dumps({"id": made.id, "name": made.name}, ensure_ascii=False))
        return
    click.echo(f"{made.name} entered as {made.id}; next: twostroke record plan {made.id}")


@record.command("sign")
@click.argument("learner")
@click.argument("competency")
@click.option("--by", required=True, help="Name of the supervisor who saw it.")
@click.option("--initials", required=True, help="The supervisor's initials.")
@click.option("--date", "day", type=click.DateTime(["%Y-%m-%d"]), help="When it was seen; default today.")
@click.option("--note", default="", help="On which machine, for example.")
@home_option
@json_option
def sign(
    learner: str,
    competency: str,
    by: str,
    initials: str,
    day: datetime | None,
    note: str,
    home: Path | None,
    as_json: bool,
) -> None:
    """Enter that a supervisor has seen LEARNER do COMPETENCY at the bench. Marks stay as they are.

    \b
    Example:
      twostroke record sign learner-01 "spark testing" --by "Sam Super" --initials SS --date 2026-03-02
    """
    from twostroke.grading import record as records

    line = records.sign(
        course_at(home), learner, competency,
        by=by, initials=initials, day=day.date() if day else None, note=note,
    )  # fmt: skip
    _told(line, learner, as_json)


@record.command("withdraw")
@click.argument("learner")
@click.argument("number", type=click.IntRange(1))
@click.option("--by", required=True, help="Who takes it back.")
@click.option("--initials", required=True, help="Their initials.")
@click.option("--note", required=True, help="Why.")
@home_option
@json_option
def withdraw(
    learner: str, number: int, by: str, initials: str, note: str, home: Path | None, as_json: bool
) -> None:
    """Take signature NUMBER of LEARNER back; the line and the reason stay in the file.

    \b
    Example:
      twostroke record withdraw learner-01 2 --by "Sam Super" --initials SS --note "wrong person"
    """
    from twostroke.grading import record as records

    _told(
        records.withdraw(course_at(home), learner, number, by=by, initials=initials, note=note),
        learner,
        as_json,
    )


def _told(line: Any, learner: str, as_json: bool) -> None:
    if as_json:
        click.echo(line.model_dump_json())
        return
    did = f"signature {line.withdraws} taken back" if line.withdraws else f"signature {line.number}"
    click.echo(f"{learner}: {did}, {line.competency}, {line.by} ({line.initials}), {line.day}")


@record.command("plan")
@click.argument("learner")
@_aims
@click.option("--day", "a_day", type=click.IntRange(20), help="Minutes a working day; shares the steps out.")
@home_option
@json_option
def plan(learner: str, aims: tuple[str, ...], a_day: int | None, home: Path | None, as_json: bool) -> None:
    """Say which lessons and labs LEARNER should do next, in what order and how long they take.

    What is proven by graded work is left out; a lab that was not passed comes first.

    \b
    Example:
      twostroke record plan learner-01
      twostroke record plan "Robin Demo" --aim "compression and sealing" --day 90
    """
    from twostroke.grading import record as records
    from twostroke.grading.record.page import hours

    course = course_at(home)
    person = records.find(course, learner)
    named = [records.competency_named(aim) for aim in aims]
    made = records.plan(records.gather(course).get(person.id, []), named, a_day or 0)
    if as_json:
        steps = [{**vars(step), "minutes": step.minutes} for step in made.steps]
        click.echo(json.dumps({"person": person.id, **vars(made), "steps": steps, "minutes": made.minutes}))
        return
    aim = f" towards {', '.join(named)}" if named else ""
    count = f"{len(made.steps)} lesson{'' if len(made.steps) == 1 else 's'}"
    click.echo(f"{person.name}{aim}: {count} left, {hours(made.minutes)}")
    for step in made.steps:
        when = f"day {step.day}: " if step.day else ""
        lab = f" and lab {step.lab}" if step.lab else ""
        after = f"; builds on {', '.join(step.after)}" if step.after else ""
        click.echo(f"  {when}{step.module} {step.title}{lab}, {step.minutes} min, {step.why}{after}")
    for title, items in (("done", made.done), ("waits for a person's mark", made.waits),
                         ("worth practising again", made.practise)):  # fmt: skip
        if items:
            click.echo(f"{title}: {'; '.join(items)}")


record.add_command(erase)
record.add_command(who)
