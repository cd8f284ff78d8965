"""Explanations and wall charts: are the words true of the belief, and are the pictures there?"""

from __future__ import annotations

import io

import pytest
from click.testing import CliRunner
from twostroke import cli
from twostroke.isolation import Belief, Planner, explain, lower_bound, route_chart
from twostroke.table import TableError


@pytest.fixture
def belief(own):
    return Belief(own, "no_start").update("known_good_plug", "none").update("plug_look", "wet")


def test_does_an_explanation_add_up(belief):
    told = explain(belief)
    singles = belief.vector[: belief.model.size].sum()
    assert told.possible[0].chance == max(belief.probabilities().values())
    assert told.rest <= singles
    for row in told.possible:
        assert row.chance == belief.probability(row.fault)
    for test in told.tests:
        assert sum(chance for _, chance, _ in test.splits) == pytest.approx(1.0, abs=0.03)
    best = [row.action for row in Planner(belief.table).rank(belief) if row.kind == "test"][:6]
    assert [test.test for test in told.tests] == best


def test_is_it_said_which_reading_speaks_for_what(belief):
    rows = {row.fault: row for row in explain(belief).possible}
    assert any("no spark" in reading for reading in rows["module_dead"].speaks_for)
    flooded = Belief(belief.table, "no_start").update("known_good_plug", "good").update("plug_look", "wet")
    assert any(
        "wet" in reading for reading in {r.fault: r for r in explain(flooded).possible}["flooded"].speaks_for
    )


def test_is_it_said_what_the_last_reading_excluded(own):
    belief = Belief(own, "no_start").update("known_good_plug", "none")
    gone = explain(belief).excluded
    assert own.faults["plug_fouled"].name not in gone or belief.probability("plug_fouled") < 0.01
    belief = Belief(own, "no_start").update("known_good_plug", "good")
    assert own.faults["module_dead"].name in explain(belief).excluded
    assert any("excludes" in sentence for sentence in explain(belief).words())


def test_has_the_picture_labels_and_a_sentence(belief):
    told = explain(belief)
    figure = told.figure()
    assert [axes.get_xlabel() for axes in figure.axes] == ["chance (%)", "bits in ten minutes"]
    labels = [text.get_text().replace("\n", " ") for text in figure.axes[0].get_yticklabels()]
    assert labels[0] == told.possible[0].name
    assert told.possible[0].name in told.alt()
    out = io.BytesIO()
    figure.savefig(out, format="svg")
    assert len(out.getvalue()) > 2000


def test_is_the_chart_the_planners_own_way(own):
    chart = route_chart(own, "no_start", depth=2)
    belief = Belief(own, "no_start")
    node = chart.root
    assert node.action == Planner(own).rank(belief)[0].action
    words, chance, below = max(node.branches, key=lambda branch: branch[1])
    result = next(r for r in own.tests[node.action].results if own.tests[node.action].say(r) == words)
    assert chance == pytest.approx(belief.foretell(node.action)[result])
    ranked = Planner(own).rank(belief.update(node.action, result))
    assert below.action == ranked[0].action
    assert sum(branch[1] for branch in node.branches) == pytest.approx(1.0)


def test_is_the_chart_bounded_and_printable(own):
    chart = route_chart(own, "fast_pull", depth=2)

    def deepest(node):
        return (node.kind == "test") + max([deepest(c) for _, _, c in node.branches if c] or [0])

    assert deepest(chart.root) <= 2
    text = chart.text()
    assert text.startswith("Shortest route: it only fires when the rope is pulled very fast")
    assert "REPAIR" in text
    assert "heart pacemaker" in text
    assert "not from service data" in text
    assert max(len(line) for line in text.splitlines()) < 200
    out = io.BytesIO()
    chart.figure().savefig(out, format="pdf")
    assert out.getvalue().startswith(b"%PDF")
    assert chart.root.name in chart.alt()


def test_does_the_picture_carry_the_cautions_of_its_steps(own):
    words = " ".join(text.get_text() for text in route_chart(own, "no_start", depth=1).figure().axes[0].texts)
    assert "Cautions" in words
    assert " ".join(own.hazards["high_voltage"].caution.split()) in " ".join(words.split())


@pytest.mark.parametrize("depth", [0, 8, 2.5])
def test_is_a_depth_refused_that_gives_no_chart(own, depth):
    with pytest.raises(TableError, match="deep"):
        route_chart(own, "no_start", depth=depth)


def test_is_the_bound_tighter_than_knowing_the_fault(own):
    """How near the adviser is to the best plan: the gap to a proven bound on the whole table."""
    bound = lower_bound(own, "no_start", depth=1)
    assert bound.clairvoyant < bound.grouped < bound.ahead
    assert bound.ahead > 1.1 * bound.clairvoyant
    assert sorted(name for group in bound.groups for name in group) == sorted(own.faults)


def test_does_the_command_print_and_draw_the_chart(tmp_path):
    run = CliRunner().invoke
    printed = run(cli.group, ["table", "chart", "fast_pull", "--depth", "1"])
    assert printed.exit_code == 0
    assert printed.output.startswith("Shortest route")
    target = tmp_path / "chart.pdf"
    assert (
        run(cli.group, ["table", "chart", "fast_pull", "--depth", "1", "--out", str(target)]).exit_code == 0
    )
    assert target.read_bytes().startswith(b"%PDF")
    assert (
        run(cli.group, ["table", "chart", "fast_pull", "--out", str(tmp_path / "chart.doc")]).exit_code == 2
    )
    counted = run(cli.group, ["table", "check"])
    assert "54 tests" in counted.output
