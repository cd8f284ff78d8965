"""Where jobs are kept: one JSON file each in the workspace, written whole or not at all."""

from __future__ import annotations

import json
import os
import re
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from twostroke import workspace
from twostroke.lesson.errors import LessonError
from twostroke.lesson.progress import _replace as replace_whole

FOLDER = "bench_jobs"
FORM = 1


@dataclass(frozen=True)
class Kept:
    """A job file in one line: where it lies and what a list of jobs needs to know."""

    file: Path
    kind: str
    title: str
    learner: str
    steps: int
    closed: bool


def place() -> Path | None:
    """Folder of the jobs: TWOSTROKE_BENCH_JOBS, else in the workspace, else below the current folder.

    Returns
    -------
    Path or None
        None when the variable says ``off``: jobs then live only as long as the program.
    """
    named = os.environ.get("TWOSTROKE_BENCH_JOBS")
    if named:
        return None if named == "off" else Path(named)
    return (workspace.find(Path.cwd()) or Path.cwd()) / FOLDER


def file_for(folder: Path | None, *words: str) -> Path | None:
    """File of a job, the same for the same machine and learner whatever the case and spaces.

    Examples
    --------
    >>> file_for(Path("jobs"), "plug_fouled_trimmer", " Anna  B ").name
    'plug_fouled_trimmer--anna-b.json'
    """
    if folder is None:
        return None
    parts = [re.sub(r"[^\w]+", "-", word.strip().casefold()).strip("-") or "nobody" for word in words]
    return folder / f"{'--'.join(parts)[:120]}.json"


def write(file: Path, content: dict[str, Any]) -> None:
    """Keep a job; a power cut leaves the old file or the new one."""
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        replace_whole(file, json.dumps({"form": FORM, **content}, ensure_ascii=False, indent=1))
    except OSError as error:
        raise LessonError(
            f"the job cannot be kept in {file}: {error.strerror or error}. "
            "Free some room or check the folder; what is on the screen is not lost as long as it stays open"
        ) from None


def read(file: Path) -> dict[str, Any]:
    """What was kept.

    Raises
    ------
    LessonError
        A file that is no kept job.
    """
    try:
        content = json.loads(file.read_text(encoding="utf-8"))
        if content["form"] != FORM or content["kind"] not in ("scenario", "own"):
            raise KeyError("form")
    except (OSError, ValueError, KeyError, TypeError):
        raise LessonError(f"{file.name} is no job that this bench has kept: begin the job again") from None
    return dict(content)


def put_aside(file: Path) -> Path:
    """Give a file that cannot be continued another name, so that nothing is lost."""
    for number in range(1000):
        mark = f"{datetime.now(UTC):%Y%m%d-%H%M%S}" + (f"-{number}" if number else "")
        aside = file.with_name(f"{file.stem}.aside-{mark}.json")
        if not aside.exists():
            os.replace(file, aside)
            return aside
    raise LessonError(f"{file.parent} holds a thousand jobs put aside in one second: clear it up")


def listed(folder: Path | None) -> list[Kept]:
    """Jobs in a folder, the latest first; what cannot be read is left out."""
    if folder is None or not folder.is_dir():
        return []
    found = []
    files = [file for file in folder.glob("*.json") if ".aside-" not in file.name]
    for file in sorted(files, key=lambda one: -one.stat().st_mtime):
        try:
            content = read(file)
            kept = Kept(
                file, content["kind"], str(content["title"]), str(content["learner"]),
                int(content["count"]), bool(content["closed"]),
            )  # fmt: skip
        except (LessonError, KeyError, TypeError, ValueError):
            continue
        found.append(kept)
    return found
