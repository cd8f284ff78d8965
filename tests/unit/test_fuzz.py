"""Whatever is done to a file that people hand around, it is read as it stands or refused in plain words.

Each file is spoilt the way files are: pieces cut out, doubled, changed for another value or another kind of
value, bytes turned. Nothing may end in another error than the package's own.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from twostroke import TwoStrokeError, isolation, jobcard, lab, scenarios
from twostroke.bench import Bench, from_json, replay, to_json
from twostroke.isolation.route import read_route
from twostroke.table import load_scenario, load_table

DATA = Path(isolation.__file__).parent.parent / "data"
TABLE = load_table()
RARE = settings(
    max_examples=40,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
MANY = settings(RARE, max_examples=2000)
ODD = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-3, 10**6),
    st.sampled_from([float("nan"), float("inf"), -1e300, 1e-300, 2**70]),
    st.text(max_size=8),
    st.lists(st.integers(0, 3), max_size=3),
    st.dictionaries(st.text(max_size=4), st.integers(), max_size=2),
)


def places(content, here=()):
    """Every place of a nested value, as a path of keys."""
    yield here
    if isinstance(content, dict):
        for key, inner in content.items():
            yield from places(inner, (*here, key))
    elif isinstance(content, list):
        for number, inner in enumerate(content):
            yield from places(inner, (*here, number))


def changed(content, path, value, drop):
    """The value with one place changed or left out."""
    if not path:
        return value
    copy = dict(content) if isinstance(content, dict) else list(content)
    if len(path) == 1 and drop:
        del copy[path[0]]
    else:
        copy[path[0]] = changed(content[path[0]], path[1:], value, drop)
    return copy


@st.composite
def spoilt(draw, content):
    for _ in range(draw(st.integers(1, 3))):
        path = draw(st.sampled_from(list(places(content))[:4000]))
        content = changed(content, path, draw(ODD), draw(st.booleans()))
        if not isinstance(content, dict | list):
            break
    return content


@st.composite
def torn(draw, text):
    """Text with a stretch cut out, doubled, or overwritten."""
    start = draw(st.integers(0, len(text) - 1))
    end = min(len(text), start + draw(st.integers(0, 40)))
    piece = draw(
        st.sampled_from(["", text[start:end] * 2, "\t", "\x00", "{", "&a *a", "!!python/name:os", "é€"])
    )
    return text[:start] + piece + text[end:]


def kept():
    bench = Bench("plug_fouled_trimmer", "Anna")
    for action in ("switch_check", "plug_look"):
        if action in bench.table.tests:
            bench.do(action)
    return bench


TABLE_TEXT = (DATA / "faults.yaml").read_text(encoding="utf-8")
SCENARIO_TEXT = (DATA / "scenarios" / "plug_fouled_trimmer.yaml").read_text(encoding="utf-8")
BENCH = kept()
JOB = json.loads(to_json(BENCH))
ROUTE = JOB["steps"]
CARD = json.loads(jobcard.job_card(BENCH).model_dump_json())


def refused_plainly(call):
    """Run; the package's own error is an answer, and it says something."""
    said = None
    try:
        call()
    except TwoStrokeError as error:
        said = str(error)
    assert said is None or len(said) > 15, repr(said)


def check_table(text, folder):
    path = folder / "shop.yaml"
    path.write_text(text, encoding="utf-8")
    refused_plainly(lambda: load_table(path))


def check_scenario(text, folder):
    path = folder / "one.yaml"
    path.write_text(text, encoding="utf-8")
    refused_plainly(lambda: load_scenario(path, TABLE))


def check_job(text, _folder):
    refused_plainly(lambda: from_json(text))


def check_card(text, _folder):
    refused_plainly(lambda: jobcard.read_card(text))


def check_route(steps, _folder):
    refused_plainly(lambda: read_route(TABLE, steps))
    refused_plainly(lambda: isolation.score_route(TABLE, "no_start", steps))
    refused_plainly(lambda: replay(steps, "plug_fouled_trimmer", "Anna"))


KINDS = {
    "a table, torn": (torn(TABLE_TEXT), check_table),
    "a table, values changed": (
        spoilt(yaml.safe_load(TABLE_TEXT)).map(lambda found: yaml.safe_dump(found, allow_unicode=True)),
        check_table,
    ),
    "a scenario, torn": (torn(SCENARIO_TEXT), check_scenario),
    "a scenario, values changed": (
        spoilt(yaml.safe_load(SCENARIO_TEXT)).map(lambda found: yaml.safe_dump(found, allow_unicode=True)),
        check_scenario,
    ),
    "a kept job, torn": (torn(json.dumps(JOB)), check_job),
    "a kept job, values changed": (spoilt(JOB).map(json.dumps), check_job),
    "a route, values changed": (spoilt(ROUTE), check_route),
    "a job card, torn": (torn(json.dumps(CARD)), check_card),
    "a job card, values changed": (spoilt(CARD).map(json.dumps), check_card),
}


@pytest.mark.parametrize("kind", KINDS)
def test_is_a_spoilt_file_read_or_refused_in_plain_words(kind, tmp_path):
    strategy, check = KINDS[kind]

    @RARE
    @given(strategy)
    def run(found):
        check(found, tmp_path)

    run()


@pytest.mark.long
@pytest.mark.parametrize("kind", KINDS)
def test_does_no_spoilt_file_of_thousands_end_otherwise(kind, tmp_path):
    strategy, check = KINDS[kind]

    @MANY
    @given(strategy)
    def run(found):
        check(found, tmp_path)

    run()


ANSWERS = lab.model_answers("10", "learner-01")


@RARE
@given(spoilt(ANSWERS))
def test_are_spoilt_answers_marked_or_refused_in_plain_words(found):
    def run():
        marks = lab.mark_answers("10", "learner-01", found)
        assert all(0 <= one.points <= one.max_points for one in marks)

    refused_plainly(run)


def test_is_the_file_before_it_was_spoilt_read():
    assert load_table().faults
    assert scenarios is not None
    assert from_json(json.dumps(JOB)).route == BENCH.route
    assert len(read_route(TABLE, ROUTE)) == len(ROUTE)
    assert sum(one.points for one in lab.mark_answers("10", "learner-01", ANSWERS)) > 0
