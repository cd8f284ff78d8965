"""Is a name found however it is written, and nobody else taken for the person?"""

from __future__ import annotations

import json
import unicodedata
from urllib.parse import quote

import pytest

pytest.importorskip("nbgrader", reason="grading needs the teach extra")
pytest.importorskip("cryptography", reason="records need the teach extra")

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from twostroke.grading.erase import Spellings


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(st.text(alphabet="abcdefghijklmnopéüß", min_size=4, max_size=9), min_size=2, max_size=2),
    st.sampled_from(["{0} {1}", "{1}, {0}", "{0}_{1}", "{0}.{1}@x", "{0}{1}", "{0}  {1}", "{1}-{0}"]),
    st.sampled_from([str, str.upper, str.title, lambda t: quote(t), lambda t: json.dumps(t)[1:-1],
                     lambda t: unicodedata.normalize("NFD", t)]),
    st.text(alphabet=" .,;()/\n", max_size=3),
)  # fmt: skip
def test_is_a_name_found_however_it_is_written(parts, form, written, around):
    who = Spellings([" ".join(parts)])
    text = f"x{around or ' '}{written(form.format(*parts))}{around}"
    assert who.within(text), text
    assert not who.within(who.blank(text))


@pytest.mark.parametrize(
    ("name", "text"),
    [("learner-01", "learner-011 learner-0 xlearner-01"), ("Ann Demo", "Joann Demo; Ann Demos; Ann; Demo"),
     ("Al", "also Al Bundle, all"), ("Ann Demo", '{"Ann": "Demo"}')],
)  # fmt: skip
def test_is_nobody_else_taken_for_them(name, text):
    who = Spellings([name])
    assert who.found(text) == []
    assert who.blank(text) == text


def test_is_a_short_name_looked_for_as_a_whole_value():
    who = Spellings(["Al"])
    assert who.short == ("Al",)
    assert who.blank('{"who": "al", "text": "al and all"}') == '{"who": "erased", "text": "al and all"}'
    assert who.named("al.ipynb")
    assert not who.named("all.ipynb")
