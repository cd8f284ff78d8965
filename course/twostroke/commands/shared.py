"""Options and doors that several subcommands share."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from twostroke.grading import Course

home_option = click.option(
    "--home",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder of this class; default autograde in the course's folder.",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Answer with JSON, for programs.")


def course_at(home: Path | None) -> Course:
    """The class whose folder was named, or the one of the clone."""
    from twostroke.grading import Course

    return Course.at(home)
