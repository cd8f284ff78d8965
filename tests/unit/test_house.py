"""The house rules that a machine can see: top level, order of imports, cycles, length, clean notebooks."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

import grimp
import networkx as nx
import pytest

ROOT = Path(__file__).resolve().parents[2]
TOP = {
    "README.md", "DEVELOPERS.md", "pyproject.toml",
    "course", "source", "release", "autograde", "tests", "assets",
}  # fmt: skip
LONGEST = 400
# From the bottom up: a room imports only from its own shelf (among the calculations) and from lower ones.
SHELVES = [
    {"errors"},
    {"units", "sources", "resources"},
    {
        "geometry", "gap", "resistance", "compression", "crankcase", "breakdown", "fuel", "verdict",
        "coil", "magneto", "ignition", "burn", "demand", "cranking", "starting",
    },
    {"table", "sheet", "workspace", "pictures"},
    {"bench"},
    {"isolation"},
    {"scenarios"},
    {"jobcard"},
    {"lab", "lesson"},
    {"grading"},
    {"build"},
    {"health", "server"},
    {"commands"},
    {"cli"},
    {"__main__"},
]  # fmt: skip


@pytest.fixture(scope="module")
def graph():
    return grimp.build_graph("twostroke", exclude_type_checking_imports=True, cache_dir=None)


def tracked(*patterns: str) -> list[Path]:
    listed = subprocess.run(
        ["git", "ls-files", "-z", *patterns], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout
    return [ROOT / name for name in listed.split("\0") if name and (ROOT / name).exists()]


def test_does_the_top_level_hold_only_what_the_design_names():
    names = {path.relative_to(ROOT).parts[0] for path in tracked()}
    assert {name for name in names if not name.startswith(".")} <= TOP


def shelf(room: str) -> int:
    if room.startswith("_") and room != "__main__":
        return -1
    found = [number for number, rooms in enumerate(SHELVES) if room in rooms]
    assert found, f"{room} has no shelf: give it one in this test and in DEVELOPERS.md"
    return found[0]


def test_do_imports_run_one_way(graph):
    against = []
    for module in graph.modules:
        for imported in graph.find_modules_directly_imported_by(module):
            if "." not in module or "." not in imported:
                continue
            here, there = module.split(".")[1], imported.split(".")[1]
            if here != there and min(shelf(here), shelf(there)) >= 0 and shelf(there) > shelf(here):
                against.append(f"{module} imports {imported}")
    assert against == []


def test_are_there_no_cycles(graph):
    arrows = nx.DiGraph()
    for module in graph.modules:
        arrows.add_edges_from((module, there) for there in graph.find_modules_directly_imported_by(module))
    assert [sorted(knot) for knot in nx.strongly_connected_components(arrows) if len(knot) > 1] == []


def test_do_only_lessons_touch_widgets_and_only_grading_nbgrader():
    outside = grimp.build_graph("twostroke", include_external_packages=True, cache_dir=None)
    users = {
        library: {module.split(".")[1] for module in outside.find_modules_that_directly_import(library)}
        for library in ("nbgrader", "anywidget", "ipywidgets")
        if library in outside.modules
    }
    assert users["nbgrader"] == {"grading"}
    assert users["anywidget"] | users.get("ipywidgets", set()) == {"lesson"}


def test_is_no_file_longer_than_one_can_hold_in_mind():
    long = {
        str(path.relative_to(ROOT)): lines
        for path in tracked("*.py")
        if (lines := len(path.read_text(encoding="utf-8").splitlines())) > LONGEST
    }
    assert long == {}


def test_do_committed_notebooks_carry_no_outputs():
    found = []
    for path in tracked("*.ipynb"):
        if "tests" in path.relative_to(ROOT).parts:
            continue
        cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
        if any(cell.get("outputs") or cell.get("execution_count") for cell in cells):
            found.append(path.name)
    assert found == []


def test_does_the_guide_show_the_rooms_as_they_are(tmp_path):
    from twostroke.build import BuildError, guide

    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert guide.graph() in text, "run `twostroke build guide`"
    drawn = nx.DiGraph(line.strip().split(" --> ") for line in guide.graph().splitlines() if "-->" in line)
    rooms = guide.room_graph()
    assert nx.is_directed_acyclic_graph(rooms)
    assert {(a, b) for a in drawn for b in nx.descendants(drawn, a)} == {
        (a, b) for a in rooms for b in nx.descendants(rooms, a)
    }
    (tmp_path / "DEVELOPERS.md").write_text("# no graph", encoding="utf-8")
    with pytest.raises(BuildError, match="put both lines back"):
        guide.guide(tmp_path)
