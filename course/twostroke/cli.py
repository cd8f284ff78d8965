"""The command ``twostroke``: one group, each subcommand loaded only when it is called.

An error of this package is printed in plain words and ends with exit code 1; a wrong way of calling ends
with 2. Only a fault of the program itself shows where in the code it happened.
"""

from __future__ import annotations

import importlib
import sys

import click

from twostroke import __version__
from twostroke.errors import TwoStrokeError

_COMMANDS = {
    "open": ("twostroke.commands.learn:open_course", "Lay out your workspace and open JupyterLab."),
    "bench": (
        "twostroke.commands.bench:bench",
        "Put a machine on the virtual bench: a page, or the terminal.",
    ),
    "release": ("twostroke.commands.teach:release", "Hand labs out to a class."),
    "grade": ("twostroke.commands.teach:grade", "Grade a class; --demo shows it on an invented one."),
    "mark": ("twostroke.commands.marking:mark", "Mark written answers by hand, with the rubric beside them."),
    "report": ("twostroke.commands.teach:report", "Write the class report of a lab."),
    "gradebook": (
        "twostroke.commands.books:gradebook",
        "Move a gradebook to a server, or lay a backup back.",
    ),
    "record": (
        "twostroke.commands.record:record",
        "Training record of a person: page, signatures, plan, verify, erase.",
    ),
    "hub": (
        "twostroke.commands.hub:hub",
        "A class under JupyterHub: lay a lab out, collect, lay feedback back.",
    ),
    "lab": ("twostroke.commands.labs:lab", "Look into labs: list, check, one learner's answers."),
    "exam": (
        "twostroke.commands.exam:exam",
        "Hold the examination of lab 14: tickets, readings, what was done.",
    ),
    "scenario": ("twostroke.commands.scenarios:scenario", "Scenarios: list, new from a template, check."),
    "card": ("twostroke.commands.card:card", "Make the job card of a kept job: PDF, web page, JSON."),
    "shop": (
        "twostroke.commands.shop:shop",
        "A shop's people and their competencies; its closed jobs counted.",
    ),
    "table": ("twostroke.commands.table:table", "The fault table: check, wall charts, work it out anew."),
    "check": ("twostroke.commands.check:check", "Look over the set-up and the course's own files."),
    "build": ("twostroke.commands.make:build", "Make derived notebooks again from their masters."),
}


class _Lazy(click.Group):
    """Lists commands without importing them, and says errors of ours in plain words."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name not in _COMMANDS:
            return None
        module, _, attribute = _COMMANDS[name][0].partition(":")
        command: click.Command = getattr(importlib.import_module(module), attribute)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, words) for name, (_, words) in _COMMANDS.items()])

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        try:
            return super().resolve_command(ctx, args)
        except click.UsageError:
            raise click.UsageError(
                f"there is no command {args[0]!r}; choose from {', '.join(_COMMANDS)}", ctx
            ) from None


@click.group(cls=_Lazy, context_settings={"help_option_names": ["-h", "--help"]}, no_args_is_help=True)
@click.version_option(__version__, prog_name="twostroke")
def group() -> None:
    """Two-stroke fault isolation: lessons, labs, virtual bench, grading.

    \b
    Example:
      twostroke open          lay out the course and begin
      twostroke check         is everything in order?
    """


def main(arguments: list[str] | None = None) -> None:
    """Run the command and leave with its exit code.

    Parameters
    ----------
    arguments : list of str, optional
        Default: what was typed.
    """
    try:
        code = group.main(args=arguments, prog_name="twostroke", standalone_mode=False)
        sys.exit(code if isinstance(code, int) else 0)
    except click.ClickException as error:
        error.show()
        sys.exit(error.exit_code)
    except click.exceptions.Abort:
        click.echo("stopped", err=True)
        sys.exit(130)
    except TwoStrokeError as error:
        click.echo(f"twostroke: {error}", err=True)
        sys.exit(1)
    except ModuleNotFoundError as error:
        from twostroke import resources

        known = resources.without(error)
        if known is None:
            raise
        click.echo(f"twostroke: {known}", err=True)
        sys.exit(1)
