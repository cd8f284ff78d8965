"""The module graph in the contributor guide: rooms of the package and the arrows between them."""

from __future__ import annotations

import importlib.util
from pathlib import Path

from twostroke.build.parts import BuildError

_BEGIN = "<!-- module graph: made by `twostroke build guide` -->"
_END = "<!-- end of the module graph -->"
_CALCULATIONS = "calculations"


def guide(top: Path) -> dict[str, bytes]:
    """The contributor guide with its graph drawn anew.

    Parameters
    ----------
    top : Path
        Top of the clone.

    Returns
    -------
    dict
        DEVELOPERS.md and its bytes; as it is where the tests' library of import graphs is not installed.

    Raises
    ------
    BuildError
        The guide has lost the two comments between which the graph stands.
    """
    path = top / "DEVELOPERS.md"
    if not path.is_file():
        return {}
    text = path.read_text(encoding="utf-8")
    if importlib.util.find_spec("grimp") is None:
        return {path.name: text.encode("utf-8")}
    before, begin, rest = text.partition(_BEGIN)
    _, end, after = rest.partition(_END)
    if not (begin and end):
        raise BuildError(
            f"{path.name}: the graph stands between {_BEGIN!r} and {_END!r}; put both lines back"
        )
    return {path.name: f"{before}{_BEGIN}\n\n{graph()}\n\n{_END}{after}".encode()}


def graph() -> str:
    """Rooms and arrows as Mermaid text, without the arrows that follow from others."""
    import networkx as nx

    rooms = room_graph()
    arrows = sorted(nx.transitive_reduction(rooms).edges)
    lines = [f"    {importer} --> {imported}" for importer, imported in arrows]
    return "\n".join(["```mermaid", "flowchart TD", *lines, "```"])


def room_graph():
    """A directed graph (networkx): which room of the package imports from which.

    The calculation modules count as one room, and what every room uses is left out.
    """
    import grimp
    import networkx as nx

    found = grimp.build_graph("twostroke", exclude_type_checking_imports=True, cache_dir=None)
    packages = {name.split(".")[1] for name in found.modules if name.count(".") >= 2}
    alone = {"cli", "workspace", "server", "health"}
    everywhere = {"errors", "units", "sources", "resources", "__main__"}

    def room(module: str) -> str | None:
        name = module.split(".")[1] if "." in module else ""
        if not name or name in everywhere:
            return None
        return name if name in packages | alone else _CALCULATIONS

    arrows = nx.DiGraph()
    for module in found.modules:
        for imported in found.find_modules_directly_imported_by(module):
            here, there = room(module), room(imported)
            if here and there and here != there:
                arrows.add_edge(here, there)
    return arrows
