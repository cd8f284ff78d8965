"""The parts of the build, and the one function that writes or compares them."""

from __future__ import annotations

import importlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from twostroke import resources
from twostroke.errors import TwoStrokeError


class BuildError(TwoStrokeError):
    """A master cannot be built; the message names the master and the cell."""


@dataclass(frozen=True)
class Part:
    """One kind of derived file: where it lies, which files are its own, and what makes them."""

    folder: str
    pattern: str
    maker: str

    def make(self, top: Path) -> dict[str, bytes]:
        """Names (relative to the folder) and bytes of all files of this part."""
        module, _, name = self.maker.partition(":")
        function: Callable[[Path], dict[str, bytes]] = getattr(importlib.import_module(module), name)
        return function(top)


PARTS: dict[str, Part] = {
    "lessons": Part("course/lessons", "*.ipynb", "twostroke.build.notebooks:lessons"),
    "source": Part("source", "*/*", "twostroke.build.notebooks:source"),
    "release": Part("release", "*/*", "twostroke.build.release:release"),
    "figures": Part("assets/figures", "figure_*.svg", "twostroke.build.figures:figures"),
    "cards": Part("assets/cards", "*", "twostroke.build.cards:cards"),
    "guide": Part(".", "DEVELOPERS.md", "twostroke.build.guide:guide"),
    "sources": Part("assets/sources", "*", "twostroke.build.sources_page:sources_page"),
}


@dataclass(frozen=True)
class Difference:
    """A derived file that is not what its master gives: new, changed, or left over (no master)."""

    path: str
    state: str


def build(
    parts: Iterable[str] = (),
    *,
    check: bool = False,
    top: Path | None = None,
    say: Callable[[str], None] = lambda _: None,
) -> list[Difference]:
    """Make derived files again, or compare them with their masters.

    Parameters
    ----------
    parts : iterable of str
        Names from `PARTS`; default all, in order.
    check : bool
        Compare only; nothing is written.
    top : Path, optional
        Top of a clone; default the one this package runs from.
    say : callable
        Called with a sentence as each part begins.

    Returns
    -------
    list of Difference
        Files that were (with ``check``: would be) written or removed.

    Raises
    ------
    BuildError
        When a part is unknown or a master cannot be built.
    """
    chosen = list(parts) or list(PARTS)
    for name in chosen:
        if name not in PARTS:
            raise BuildError(f"part {name!r} is unknown: choose from {', '.join(PARTS)}")
    place = top or resources.clone()
    differences: list[Difference] = []
    for name in chosen:
        say(f"{name}: {PARTS[name].folder}")
        differences += _bring_up_to_date(place, PARTS[name], check)
    return differences


def _alike(name: str, held: bytes, made: bytes) -> bool:
    """The same bytes, or two PDFs of the same sheet from two versions of the printing library."""
    if name.endswith(".pdf"):
        from twostroke.sheet import digest_of

        return digest_of(held) == digest_of(made) is not None
    return held == made


def _bring_up_to_date(top: Path, part: Part, check: bool) -> list[Difference]:
    folder = top / part.folder
    made = part.make(top)
    held = {path.relative_to(folder).as_posix(): path for path in folder.glob(part.pattern) if path.is_file()}
    found = []
    for name, content in sorted(made.items()):
        target = folder / name
        if target.is_file() and _alike(name, target.read_bytes(), content):
            continue
        found.append(
            Difference(f"{part.folder}/{name}".removeprefix("./"), "changed" if target.is_file() else "new")
        )
        if not check:
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(content)
    for name, path in sorted(held.items()):
        if name not in made:
            found.append(Difference(f"{part.folder}/{name}", "left over"))
            if not check:
                path.unlink()
    return found
