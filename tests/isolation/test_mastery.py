"""Is knowledge tracing the two-state model that it is said to be?"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from twostroke import RangeError
from twostroke.isolation.mastery import Tracing


def test_is_it_the_published_two_state_filter():
    # Russell and Norvig, "Artificial Intelligence", umbrella example (from memory): transition .7/.3,
    # sensor .9/.2, two umbrellas, prior .5
    found = Tracing(start=0.5, learn=0.3, forget=0.3, slip=0.1, guess=0.2).after([True, True])
    assert found == pytest.approx([0.8182, 0.8834], abs=5e-5)


@given(st.lists(st.booleans(), min_size=1, max_size=12), st.integers(0, 11))
def test_does_a_pass_in_place_of_a_failure_never_lower_it(jobs, at):
    at %= len(jobs)
    better = Tracing().after([*jobs[:at], True, *jobs[at + 1 :]])[-1]
    worse = Tracing().after([*jobs[:at], False, *jobs[at + 1 :]])[-1]
    assert 0 <= worse <= better <= 1


@pytest.mark.parametrize(("figures", "words"), [({"slip": 1.2}, "slip 1.2"), ({"guess": 0.95}, "below 1")])
def test_is_nonsense_refused(figures, words):
    with pytest.raises(RangeError, match=words):
        Tracing(**figures)
