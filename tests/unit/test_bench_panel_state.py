"""The bench panel without a browser: what its pages say, what its buttons do, what is kept."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest
from twostroke import TwoStrokeError
from twostroke.bench import Bench
from twostroke.lesson.bench_panel import (
    BenchJob,
    BenchPanel,
    open_bench,
    open_own,
)
from twostroke.lesson.bench_panel.displays import display
from twostroke.lesson.bench_panel.drawing import machine
from twostroke.lesson.bench_panel.fields import fields_of, settings_from
from twostroke.lesson.bench_panel.parts import SPOTS, actions_at, spot_of
from twostroke.lesson.bench_panel.steps import plan
from twostroke.table import load_table, scenario_paths

NAME = "plug_fouled_trimmer"


@pytest.fixture
def job(tmp_path):
    return BenchJob(NAME, "Anna", tmp_path)


@pytest.fixture
def panel(job, tmp_path):
    return BenchPanel(job, tmp_path)


def do(panel, action, **values):
    """A step as a reader does it: card, settings, all cautions ticked."""
    panel.tell("choose", action=action)
    cautions = [
        name
        for name, _, _ in plan(panel.job, action, {k: v for k, v in values.items() if k == "plug"}).cautions
    ]
    panel.tell("do", confirm=cautions, **values)


class _Checker(HTMLParser):
    """Every field has a label, every button a name."""

    def __init__(self) -> None:
        super().__init__()
        self.labels: set[str] = set()
        self.fields: set[str] = set()

    def handle_starttag(self, tag, attributes):
        given = dict(attributes)
        if tag == "label":
            self.labels.add(given["for"])
        if tag in ("input", "select", "textarea"):
            self.fields.add(given["id"])


def unlabelled(html):
    checker = _Checker()
    checker.feed(html)
    return checker.fields - checker.labels


# places and drawing --------------------------------------------------------------------------------


def test_has_every_action_of_every_scenario_a_place():
    table = load_table()
    for name in scenario_paths():
        bench = Bench(name, "x")
        found = actions_at(bench)
        listed = [action for groups in found.values() for rows in groups.values() for action in rows]
        assert len(listed) == len(set(listed))
        assert set(listed) >= set(bench.table.tests) | set(bench.table.repairs) | set(bench.table.access)
    strange = set(table.tests) | set(table.repairs) | set(table.access)
    known = {action for spot in SPOTS.values() for action in spot.actions}
    assert strange <= known, "new rows of the table want a place on the drawing"


def test_where_does_a_row_go_that_a_teacher_has_added():
    table = load_table()
    more = table.replaced(tests={**table.tests, "nose_look": table.tests["plug_look"]})
    assert spot_of(more, "nose_look") == "plug"
    assert spot_of(more, "smell_it") == "machine"


def test_is_each_place_a_named_button_and_one_of_them_the_way_in():
    svg = machine("saw", [], "plug", SPOTS)
    assert svg.count('role="button"') == len(SPOTS)
    assert svg.count('tabindex="0"') == 1
    assert all(f'aria-label="{spot.name}"' in svg for spot in SPOTS.values())
    assert 'aria-pressed="true" aria-label="spark plug"' in svg


def test_do_covers_come_off_in_the_drawing():
    on, off = machine("saw", [], "plug", SPOTS), machine("saw", ["top_cover", "muffler"], "plug", SPOTS)
    assert "Everything is fitted" in on
    assert "Lying on the bench: starter cover, muffler" in off
    assert on.count("stroke-dasharray") > off.count('stroke-dasharray="9 5"')


@pytest.mark.parametrize(
    ("action", "shown", "result", "seen"),
    [
        ("compression", {"compression": "8.5 bar"}, "good", "8.5 bar"),
        ("stop_ohm", {"stop circuit resistance": "OL (open, above 20 Mohm)"}, "open_in_run", "OL"),
        ("air_gap", {"leading leg": "0.30 mm", "trailing leg": "0.35 mm"}, "in_range", "0.35 mm"),
        ("spark_gap_cold", {}, "none", "nothing"),
        ("spark_inline_cold", {}, "flashes", "In-line flash tester"),
    ],
)
def test_does_each_instrument_show_its_reading(action, shown, result, seen):
    svg = display(load_table(), action, shown, result, "words")
    assert svg is not None
    assert seen in svg
    assert 'role="img"' in svg


def test_do_the_three_sparks_look_different_in_grey():
    faces = {
        r: display(load_table(), "spark_gap_cold", {}, r, "same words") for r in ("good", "weak", "none")
    }
    bare = {svg.replace("#1f4e79", "").replace("#9a3412", "") for svg in faces.values()}
    assert len(bare) == 3


# steps --------------------------------------------------------------------------------------------


def test_does_nothing_happen_before_the_cautions_are_confirmed(panel):
    panel.tell("choose", action="spark_gap_cold")
    panel.tell("do", pull="normal", gap="6 mm")
    assert panel.job.session.route == []
    assert "Not done yet" in panel.regions["work"], "said on the card"
    assert panel.focus.startswith("caution-spark_near_fuel")
    panel.tell("do", pull="normal", gap="6 mm", confirm=["spark_near_fuel"])
    assert panel.job.session.route == []
    assert "checked" in panel.regions["work"], "what was ticked stays ticked"
    panel.tell("do", pull="normal", gap="6 mm", confirm=["spark_near_fuel", "high_voltage"])
    step = panel.job.session.route[0]
    assert step.cautions_confirmed == ("spark_near_fuel", "high_voltage")
    assert not step.unsafe


def test_is_the_price_on_the_card_the_price_that_is_charged(panel):
    for action in ("plug_look", "compression", "key_look", "warm_up", "port_look", "fresh_fuel"):
        foreseen = plan(panel.job, action)
        before = panel.job.session.minutes
        do(panel, action)
        assert panel.job.session.minutes - before == pytest.approx(foreseen.minutes), action


def test_what_is_said_when_a_step_cannot_be_done(panel):
    panel.tell("pick", value="module")
    assert "starter or fan cover is still on" in panel.regions["work"]
    for code in ("prepare=", "confirm=", "do '", "(warm_up)"):
        assert code not in " ".join(panel.regions.values())


def test_must_a_choice_be_made_where_the_hand_matters(panel):
    panel.tell("choose", action="swap_plug")
    panel.tell("do", screws="", confirm=["fuel_spray"])
    assert panel.job.session.route == []
    assert "First turns of screws and plug” is still open" in panel.regions["work"]


def test_what_do_fields_make_of_what_is_typed(job):
    fields = fields_of(job.session, "set_air_gap")
    made = settings_from(
        fields, {"shim": "12 thou", "recheck": "yes", "terminal": "outward", "screws": "by hand"}
    )
    assert made == {"shim": "12 thou", "recheck": True, "terminal": "outward", "screws": "by hand"}
    with pytest.raises(TwoStrokeError, match="Shim between module and flywheel"):
        settings_from(fields, {"recheck": "yes", "terminal": "outward", "screws": "by hand"})


def test_does_a_wrong_setting_get_plain_words(panel):
    do(panel, "spark_gap_cold", gap="6")
    assert "mm" in panel.message
    assert panel.job.session.route == []


def test_is_each_new_reading_spoken_and_shown(panel):
    do(panel, "compression")
    assert "bar" in panel.say
    assert "Compression" in panel.regions["reading"]
    assert "<svg" in panel.regions["reading"]
    assert "Compression gauge" in panel.regions["log"]
    assert panel.focus.startswith("reading")


def test_is_a_trace_drawn(panel):
    do(panel, "top_cover")
    do(panel, "trace", signal="plug voltage", pull="normal")
    assert "<polyline" in panel.regions["reading"]


def test_are_hints_three_steps_and_counted(panel):
    for level in (1, 2, 3):
        panel.tell("hint")
        assert f"Hint {level} of 3" in panel.regions["help"]
    panel.tell("hint")
    assert len(panel.job.hints) == 3
    named = panel.job.hints[2].text
    assert any(
        panel.job.session.table.action(one.action).name[1:] in named
        for one in panel.job.follower.advice()[:1]
    )
    do(panel, "switch_check")
    assert "Hint 1: which system" in panel.regions["help"]
    panel.tell("hint")
    assert [one.level for one in panel.job.hints] == [1, 2, 3, 1]


def test_are_there_no_hints_where_reminders_are_off():
    panel = open_bench(NAME, "Anna", folder=False, reminders=False)
    assert "No hints" in panel.regions["help"]
    panel.tell("hint")
    assert panel.job.hints == []
    panel.tell("choose", action="spark_gap_cold")
    assert panel.regions["work"].count("checkbox") == len(panel.job.session.table.hazards)
    panel.tell("do", pull="normal", gap="6 mm", confirm=["cut"])
    assert panel.job.session.route[0].unsafe


def test_are_comments_given_only_when_asked_for(panel):
    do(panel, "switch_check")
    assert "What it told" not in panel.regions["reading"]
    panel.tell("comments")
    do(panel, "plug_look")
    assert "What it told" in panel.regions["reading"]


def test_has_every_field_a_label_on_every_screen(panel, tmp_path):
    seen = dict(BenchPanel(None, tmp_path).regions)
    for action in panel.job.session.actions():
        panel.tell("choose", action=action)
        assert unlabelled(" ".join(panel.regions.values())) == set(), action
    assert unlabelled(" ".join(seen.values())) == set()
    own = open_own("no_start", "Anna", folder=False)
    for action in own.job.session.actions():
        own.tell("choose", action=action)
        assert unlabelled(" ".join(own.regions.values())) == set(), action


def test_is_typed_text_never_taken_for_markup(tmp_path):
    panel = BenchPanel(None, tmp_path)
    panel.tell("begin_own", learner="<b>x</b>", name="<script>1</script>", complaint="no_start")
    assert "<script>" not in " ".join(panel.regions.values())
    panel.tell("choose", action="<img src=x>")
    assert "<img" not in panel.regions["message"]


def test_what_does_a_page_without_a_kernel_show(panel):
    do(panel, "switch_check")
    bundle = panel._repr_mimebundle_()
    data = bundle[0] if isinstance(bundle, tuple) else bundle
    assert "Work the stop switch" in data["text/plain"]
    assert "choked too long" in data["text/html"]
