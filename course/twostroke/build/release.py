"""What learners get: source/ through nbgrader's own generate_assignment, in a throw-away course.

Nothing is written but the result: no gradebook, no log. What comes out is scanned, and a release that still
holds a solution or a hidden test is refused.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from twostroke.build.leaks import leaks
from twostroke.build.notebooks import notebook_bytes
from twostroke.build.notebooks import source as make_source
from twostroke.build.parts import BuildError


def release(top: Path) -> dict[str, bytes]:
    """All released labs of a clone, made from its masters.

    Parameters
    ----------
    top : Path
        Top of the clone.

    Returns
    -------
    dict
        Names below release/ and their bytes.

    Raises
    ------
    TwoStrokeError
        When nbgrader is missing or refuses a lab, or a solution would leak.
    """
    made = make_source(top)
    return generate(made) if made else {}


def generate(source: dict[str, bytes]) -> dict[str, bytes]:
    """Released notebooks from source notebooks (names like ``lab01/lab01.ipynb``)."""
    import nbformat

    from twostroke.grading import Course, plain_release

    released = {}
    with tempfile.TemporaryDirectory(prefix="twostroke-release-") as folder:
        course = Course.at(*(Path(folder) / part for part in ("autograde", "source", "release")))
        for name, content in source.items():
            target = course.source / name
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(content)
        for lab, path in plain_release(course).items():
            name = f"{lab}/{path.name}"
            notebook = nbformat.reads(path.read_text(encoding="utf-8"), as_version=4)
            original = nbformat.reads(source[name].decode("utf-8"), as_version=4)
            found = leaks(notebook, original)
            if found:
                raise BuildError(f"{name}: the release would hand out what it must not: {found[0]}")
            released[name] = notebook_bytes(notebook)
    return released
