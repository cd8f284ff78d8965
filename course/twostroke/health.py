"""Is the set-up in order, and is the course whole? Each look returns one finding in plain words."""

from __future__ import annotations

import importlib.metadata
import importlib.util
import json
import shutil
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from twostroke import resources, workspace
from twostroke.errors import TwoStrokeError

GOOD, NOTE, FAULT = "good", "note", "fault"
_ROOM = 300 * 1024**2
_TOOLS = {
    "bwrap": "isolation when grading a class (Debian package bubblewrap)",
    "chromium": "browser tests (Debian package chromium)",
    "ngspice": "reference runs of the coil tests (Debian package ngspice)",
}


@dataclass(frozen=True)
class Finding:
    """What was looked at, how it stands (good, note or fault), what was seen, and what to do."""

    what: str
    state: str
    seen: str
    advice: str = ""


def look_over() -> Iterator[Finding]:
    """All looks, one after another; a look that itself fails is a fault with its reason.

    Yields
    ------
    Finding
    """
    looks: list[tuple[str, Callable[[], Finding]]] = [
        ("Python", _python),
        ("libraries", _libraries),
        ("notebook kernel", _kernel),
        ("lessons", _lessons),
        ("labs", _labs),
        ("units", _units),
        ("printing", _printing),
        ("workspace", _folder),
        ("derived files", _derived),
        ("outside programs", _programs),
    ]
    for what, look in looks:
        try:
            yield look()
        except TwoStrokeError as error:
            yield Finding(what, FAULT, str(error))
        except Exception as error:
            seen = f"{type(error).__name__}: {error}"
            yield Finding(
                what, FAULT, seen, "run `python3 course` in the clone, or install the package again"
            )


def _python() -> Finding:
    version = ".".join(map(str, sys.version_info[:3]))
    return Finding("Python", GOOD, f"{version} in {sys.prefix}")


def _libraries() -> Finding:
    from packaging.requirements import Requirement

    wanted = [Requirement(text) for text in importlib.metadata.requires("twostroke") or []]
    wrong = []
    needed = [need for need in wanted if need.marker is None or need.marker.evaluate({"extra": ""})]
    for need in needed:
        try:
            version = importlib.metadata.version(need.name)
        except importlib.metadata.PackageNotFoundError:
            wrong.append(f"{need.name} is missing")
            continue
        if not need.specifier.contains(version, prereleases=True):
            wrong.append(f"{need.name} is {version}, wanted {need.specifier}")
    if wrong:
        return Finding("libraries", FAULT, "; ".join(wrong), f"run `{resources.how_to_add()}`")
    return Finding("libraries", GOOD, f"all {len(needed)} found")


def _kernel() -> Finding:
    from jupyter_client.kernelspec import KernelSpecManager, NoSuchKernel

    try:
        spec = KernelSpecManager().get_kernel_spec("python3")
    except NoSuchKernel:
        return Finding(
            "notebook kernel", FAULT, "no kernel python3", "install ipykernel into this environment"
        )
    return Finding("notebook kernel", GOOD, f"{spec.display_name}")


def _lessons() -> Finding:
    found = sorted(resources.lessons().glob("*.ipynb"))
    for path in found:
        _readable(path)
    if not any(path.name == workspace.START.rpartition("/")[2] for path in found):
        return Finding("lessons", FAULT, "lesson 00 is missing", "fetch a new clone or install again")
    return Finding("lessons", GOOD, f"notebooks: {len(found)}")


def _labs() -> Finding:
    from twostroke.build.leaks import leaks

    found = sorted(resources.release().glob("*/*.ipynb"))
    for path in found:
        wrong = leaks(_readable(path))
        if wrong:
            return Finding("labs", FAULT, f"{path.name}: {wrong[0]}", "run `python3 course build release`")
    if not found:
        return Finding("labs", FAULT, "no released lab", "run `python3 course build release`")
    return Finding("labs", GOOD, f"{len(found)} there, none with solutions")


def _readable(path: Path) -> Any:
    import nbformat

    try:
        notebook = nbformat.reads(path.read_text(encoding="utf-8"), as_version=4)
        nbformat.validate(notebook)
    except (OSError, json.JSONDecodeError, nbformat.ValidationError, nbformat.reader.NotJSONError) as error:
        raise resources.ResourceError(
            f"{path} cannot be read as a notebook ({type(error).__name__}): get a new clone or install again"
        ) from error
    return notebook


def _units() -> Finding:
    from twostroke import units

    read = units.read("10 thou").to("mm").magnitude
    if abs(read - 0.254) > 1e-12:
        return Finding("units", FAULT, f"10 thou was read as {read} mm", "install pint again")
    return Finding("units", GOOD, "10 thou is 0.254 mm")


def _printing() -> Finding:
    from twostroke.sheet import Sheet

    sheet = Sheet("check", note="0.30 mm, 7.5 kΩ, 20 °C")
    return Finding("printing", GOOD, f"a page of PDF is {len(sheet.to_pdf()) // 1024 + 1} kB")


def _folder() -> Finding:
    place = workspace.find() or workspace.default_folder()
    if not place.exists():
        return Finding("workspace", NOTE, f"{place} is not there yet", "`twostroke open` lays it out")
    free = shutil.disk_usage(place).free
    if free < _ROOM:
        return Finding("workspace", FAULT, f"{free // 1024**2} MB free at {place}", "make some room")
    return Finding("workspace", GOOD, f"{place}, {free // 1024**3} GB free")


def _derived() -> Finding:
    if resources.repository() is None:
        return Finding("derived files", GOOD, "installed from a wheel: nothing to build")
    if not all(importlib.util.find_spec(name) for name in ("jupytext", "nbgrader")):
        advice = "`python3 course build --check`"
        return Finding("derived files", NOTE, "not compared: that takes the teach extra", advice)
    from twostroke.build import build

    differences = build(check=True)
    if differences:
        first = differences[0]
        return Finding(
            "derived files",
            FAULT,
            f"{len(differences)} not fresh, first {first.path}",
            "run `python3 course build`",
        )
    return Finding("derived files", GOOD, "fresh")


def _programs() -> Finding:
    missing = [f"{name}: {use}" for name, use in _TOOLS.items() if not shutil.which(name)]
    if missing:
        return Finding(
            "outside programs", NOTE, f"not found, and no learner needs them: {'; '.join(missing)}"
        )
    return Finding("outside programs", GOOD, "all found")
