"""Where the course's files lie: in a clone of the repository, or inside an installed wheel.

In a clone everything is at hand. An installed wheel carries what a learner gets (lessons, release, assets
and the package's own data) and neither the text masters nor source/ with its model answers.
"""

from __future__ import annotations

import sys
from pathlib import Path

from twostroke.errors import TwoStrokeError

_PACKAGE = Path(__file__).resolve().parent
_CARRIED = _PACKAGE / "_course"
_BROUGHT_BY = {
    "teach": ("nbgrader", "sqlalchemy", "jupytext", "textual", "cryptography", "pypdf"),
    "school": ("distributed", "dask", "jupyterhub", "hashauthenticator", "psycopg2"),
}


class ResourceError(TwoStrokeError):
    """A file of the course is not where it should be."""


def is_clone(folder: Path) -> bool:
    """Whether a folder is the top of a clone of this course."""
    return (folder / "pyproject.toml").is_file() and (
        folder / "course" / "twostroke" / "resources.py"
    ).is_file()


def repository() -> Path | None:
    """Top of the clone that this package runs from, or None when it is installed from a wheel."""
    top = _PACKAGE.parents[1]
    return top if is_clone(top) else None


def clone() -> Path:
    """Top of the clone, for work that needs one.

    Raises
    ------
    ResourceError
        When the package is installed from a wheel.
    """
    top = repository()
    if top is None:
        raise ResourceError(
            f"twostroke is installed in {_PACKAGE} without the masters of lessons and labs: this work needs "
            "a clone of the course; clone it and run the same there as `python3 course …`"
        )
    return top


def how_to_add(extra: str = "") -> str:
    """The command that installs this package again where it is, with an extra.

    Parameters
    ----------
    extra : str
        "teach", "school", "test", or nothing for the package alone.

    Returns
    -------
    str
        Names this very Python and, for a clone, its folder, so that it can be run from anywhere.

    Examples
    --------
    >>> how_to_add("teach").endswith('[teach]"')
    True
    """
    top = repository()
    python = f'"{sys.executable}"' if " " in sys.executable else sys.executable
    what = f'-e "{top}' if top else '"twostroke'
    return f'{python} -m pip install {what}{f"[{extra}]" if extra else ""}"'


def without(error: ModuleNotFoundError) -> ResourceError | None:
    """What to say where a library is missing that only an extra brings.

    Parameters
    ----------
    error : ModuleNotFoundError
        As the import raised it.

    Returns
    -------
    ResourceError or None
        None where the library belongs to no extra: then the package itself is broken.

    Examples
    --------
    >>> print(str(without(ModuleNotFoundError(name="nbgrader.api"))).partition(";")[0])
    nbgrader is not installed: this needs the teach extra
    """
    library = (error.name or "").partition(".")[0]
    for extra, libraries in _BROUGHT_BY.items():
        if library in libraries:
            return ResourceError(
                f"{library} is not installed: this needs the {extra} extra; run {how_to_add(extra)}"
            )
    return None


def _shipped(in_clone: str, in_wheel: str) -> Path:
    top = repository()
    place = top / in_clone if top else _CARRIED / in_wheel
    if not place.is_dir():
        raise ResourceError(f"the folder {place} is missing: install the course again, or fetch a new clone")
    return place


def lessons() -> Path:
    """Folder of lesson notebooks.

    Examples
    --------
    >>> lessons().name
    'lessons'
    """
    return _shipped("course/lessons", "lessons")


def release() -> Path:
    """Folder of released labs, one folder a lab."""
    return _shipped("release", "release")


def assets() -> Path:
    """Folder of figures, cards and licences."""
    return _shipped("assets", "assets")


def data(name: str) -> Path:
    """A file of the package's own data.

    Parameters
    ----------
    name : str
        Path inside ``twostroke/data``.

    Raises
    ------
    ResourceError
        When there is none of that name.
    """
    place = _PACKAGE / "data" / name
    if not place.exists():
        raise ResourceError(f"data file {name!r} is not part of the package: install the course again")
    return place
