"""The reference of the public names, made from their docstrings: a folder of pages that needs no network."""

from __future__ import annotations

import contextlib
import importlib
import inspect
import io
import tempfile
from pathlib import Path
from types import ModuleType

from twostroke import __version__
from twostroke.build.parts import BuildError

CALCULATIONS = [
    "units",
    "geometry",
    "gap",
    "resistance",
    "compression",
    "crankcase",
    "breakdown",
    "fuel",
    "verdict",
    "coil",
    "magneto",
    "ignition",
    "burn",
    "demand",
    "cranking",
    "starting",
]
ROOMS = [
    "table",
    "bench",
    "isolation",
    "isolation.priors",
    "isolation.mastery",
    "scenarios",
    "jobcard",
    "lab",
    "lesson",
    "grading",
    "sheet",
    "workspace",
    "sources",
    "errors",
]
_SETTINGS = {
    "project": "Two-stroke course",
    "release": __version__,
    "extensions": ["sphinx.ext.autodoc", "numpydoc"],
    "html_theme": "alabaster",
    "html_copy_source": False,
    "html_show_sourcelink": False,
    "numpydoc_show_class_members": False,
    "autodoc_typehints": "none",
    "autodoc_member_order": "bysource",
    "language": "en_GB",
}


def reference(folder: str | Path) -> Path:
    """Write the reference as web pages.

    Parameters
    ----------
    folder : str or Path
        Where to; made if it does not exist.

    Returns
    -------
    Path
        The first page.

    Raises
    ------
    BuildError
        The libraries that read docstrings are not installed, or a docstring cannot be set.

    Examples
    --------
    >>> reference("public/reference")                       # doctest: +SKIP
    PosixPath('public/reference/index.html')
    """
    try:
        from sphinx.application import Sphinx

        importlib.import_module("numpydoc")
    except ModuleNotFoundError as error:
        raise BuildError(
            f"the reference needs the library {error.name}: `python3 course test --version` installs it"
        ) from None
    target = Path(folder)
    said, warned = io.StringIO(), io.StringIO()
    with tempfile.TemporaryDirectory(prefix="twostroke-reference-") as work:
        source = Path(work) / "source"
        source.mkdir()
        (source / "conf.py").write_text("", encoding="utf-8")
        for name, text in _pages().items():
            (source / f"{name}.rst").write_text(text, encoding="utf-8")
        with contextlib.redirect_stdout(said):
            app = Sphinx(
                source, source, target, Path(work) / "trees", "html", _SETTINGS, status=None, warning=warned
            )
            app.build()
    if app.statuscode or warned.getvalue().strip():
        raise BuildError(f"the reference has faults:\n{warned.getvalue().strip()}")
    return target / "index.html"


def _pages() -> dict[str, str]:
    listed = "\n".join(f"   {name}" for name in (*CALCULATIONS, *ROOMS))
    index = (
        "Reference of the public names\n=============================\n\n"
        'Made from the docstrings. Physical quantities go in as text with a unit (``"0.30 mm"``) or as pint'
        " quantities and come out as quantities.\n\n.. toctree::\n   :maxdepth: 1\n\n" + listed + "\n"
    )
    return {"index": index} | {name: _page(name) for name in (*CALCULATIONS, *ROOMS)}


def _page(name: str) -> str:
    module = importlib.import_module(f"twostroke.{name}")
    heading = module.__name__
    top = f"{heading}\n{'=' * len(heading)}\n\n.. automodule:: {heading}\n"
    public = getattr(module, "__all__", None)
    if public is None:
        return f"{top}   :members:\n"
    return top + "".join(_entry(module, one) for one in public if not _lives_elsewhere(module, one))


def _entry(module: ModuleType, name: str) -> str:
    thing = getattr(module, name)
    kind, more = "data", "   :no-value:\n"
    if inspect.isclass(thing):
        kind, more = "class", "   :members:\n"
    elif callable(thing):
        kind, more = "function", ""
    return f"\n.. auto{kind}:: {module.__name__}.{name}\n{more}"


def _lives_elsewhere(module: ModuleType, name: str) -> bool:
    """Whether a name is only handed on and stands on another page."""
    thing = getattr(module, name)
    home = thing.__module__ if inspect.isclass(thing) or inspect.isroutine(thing) else module.__name__
    pages = {f"twostroke.{page}" for page in (*CALCULATIONS, *ROOMS)} - {module.__name__}
    return any(
        (home == page or home.startswith(f"{page}.")) and not module.__name__.startswith(f"{page}.")
        for page in pages
    )
