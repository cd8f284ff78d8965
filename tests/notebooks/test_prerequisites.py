"""Are the prerequisites of the lessons right: complete, without a circle, and true to what lessons use?"""

from __future__ import annotations

import re
from collections import Counter

import networkx as nx
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from twostroke import lab as labs
from twostroke import resources
from twostroke.lesson import prerequisites, tables
from twostroke.lesson.errors import LessonError

TEXTS = resources.clone() / "course" / "text"
FEWEST = 4  # so many uses of words explained in another lesson make it a prerequisite
MANY_SENSES = {  # words that also mean something else, so that a use proves nothing
    "cell", "kernel", "verdict", "band", "module", "open", "ground", "key", "port", "peak", "core", "stack",
    "job card", "bar", "stroke", "doubt (standard uncertainty)", "charge", "leg",
}  # fmt: skip
_numbers = st.sampled_from(list(tables.modules()))


def masters():
    return sorted([*(TEXTS / "lessons").glob("*.py"), *(TEXTS / "labs").glob("*.py")])


def closes(lab: str) -> set[str]:
    """The lessons that a lab closes: its own, and those since the lab before."""
    numbers = list(tables.modules())
    earlier = [number for number in numbers if tables.module(number).lab and number < lab]
    return {number for number in numbers if (earlier[-1] if earlier else "00") < number <= lab}


def uses(text: str) -> Counter[str]:
    """How often a text uses words that another lesson explains first."""
    found: Counter[str] = Counter()
    for word in tables.words().values():
        if word.word.lower() not in MANY_SENSES:
            found[word.module] += len(re.findall(rf"\b{re.escape(word.word.lower())}s?\b", text.lower()))
    return found


@pytest.mark.parametrize("path", masters(), ids=lambda path: path.stem)
def test_comes_a_lesson_after_those_whose_words_it_uses(path):
    number = re.search(r"\d\d", path.stem).group()
    own = closes(number) | {number} if path.parent.name == "labs" else {number}
    before = set().union(*(prerequisites.needed(each) for each in own)) | own
    missing = {
        module: count
        for module, count in uses(path.read_text(encoding="utf-8")).items()
        if count >= FEWEST and module not in before and module < number
    }
    assert not missing, f"{path.name} uses words of lessons that it does not need in modules.yaml: {missing}"


def test_does_a_course_that_forgot_a_prerequisite_show():
    """The check above can fail: lesson 05 without its electrical lessons would use 14 words of lesson 03."""
    text = (TEXTS / "lessons" / "05_air_gap_key_timing.py").read_text(encoding="utf-8")
    assert uses(text)["03"] >= FEWEST
    assert "03" not in prerequisites.needed("02")


def test_is_every_arrow_told_once_and_forward():
    graph = prerequisites.graph()
    assert set(graph) == {f"{number:02d}" for number in range(16)}
    assert all(before < after for before, after in graph.edges)
    assert nx.transitive_reduction(graph).edges == graph.edges, "what a prerequisite needs is not repeated"
    assert [number for number in graph if graph.in_degree(number) == 0] == ["00"]


def test_needs_the_final_bench_every_lesson_with_a_lab():
    with_lab = {number for number, module in tables.modules().items() if module.lab}
    assert prerequisites.needed("14") | {"14"} >= with_lab


def test_does_logic_come_after_every_system_that_it_decides_between():
    """Whole job, steps 3 and 4: spark, fuel, air, compression, exhaust are told apart, so each is known."""
    tested = {competency for number in labs.lab_ids() if number in prerequisites.needed("10")
              for competency in (task.competency for task in labs.load(number).tasks)}  # fmt: skip
    assert tested >= {
        "spark testing", "air gap", "stop circuit and ground", "module and windings",
        "compression and sealing", "fuel, air and exhaust", "units and measuring",
    }  # fmt: skip


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.sets(_numbers), st.sets(_numbers, min_size=1), st.sets(_numbers))
def test_comes_nothing_before_what_it_builds_on(done, aims, first):
    graph = prerequisites.graph()
    found = prerequisites.order(done, aims, first)
    assert len(set(found)) == len(found)
    assert not set(found) & done
    place = {number: index for index, number in enumerate(found)}
    for before, after in graph.edges:
        if before in place and after in place:
            assert place[before] < place[after]
    assert set(aims) - done <= set(found)
    for number in found:
        assert number in aims or any(nx.has_path(graph, number, aim) for aim in aims)


def test_is_the_whole_course_done_in_the_order_of_its_numbers():
    assert prerequisites.order() == [f"{number:02d}" for number in range(16)]


def test_is_a_circle_refused(monkeypatch):
    rows = dict(tables.modules())
    rows["01"] = tables.Module("01", "shop_units", "Shop units", "?", 35, "01", ("02",))
    monkeypatch.setattr(tables, "modules", lambda: rows)
    with pytest.raises(LessonError, match="circle"):
        prerequisites.graph.__wrapped__()


def test_is_a_lesson_that_does_not_exist_named():
    with pytest.raises(LessonError, match="99"):
        prerequisites.order(aims=["99"])
