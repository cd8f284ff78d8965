"""Is the reliability of a class that of a published test, and of an outside library?"""

from __future__ import annotations

import numpy as np
import pingouin
import pytest
from twostroke.grading.item_figures import alpha, discrimination

# Law School Admission Test, section 6: 1000 people, five items, counts of the 32 patterns in binary order
# (Bock and Lieberman 1970, Psychometrika 35:179; counts from memory, checked by the published item means).
COUNTS = [
    3, 6, 2, 11, 1, 1, 3, 4, 1, 8, 0, 16, 0, 3, 2, 15,
    10, 29, 14, 81, 3, 28, 15, 80, 16, 56, 21, 173, 11, 61, 28, 298,
]  # fmt: skip
MEANS = [0.924, 0.709, 0.553, 0.763, 0.870]


@pytest.fixture(scope="module")
def people():
    patterns = [[int(digit) for digit in f"{number:05b}"] for number in range(32)]
    return np.repeat(np.array(patterns, dtype=float), COUNTS, axis=0)


def test_are_the_counts_those_of_the_published_item_means(people):
    assert len(people) == 1000
    np.testing.assert_allclose(people.mean(axis=0), MEANS, atol=5e-4)


def test_is_alpha_that_of_the_published_test_and_of_the_library(people):
    import pandas

    assert alpha(people) == pytest.approx(0.2950, abs=5e-5)
    assert alpha(people) == pytest.approx(pingouin.cronbach_alpha(pandas.DataFrame(people))[0], abs=1e-9)


def test_is_discrimination_that_of_the_library(people):
    """Each item against the total of the others, by pandas."""
    import pandas

    table = pandas.DataFrame(people)
    found = discrimination(people)
    for item in table:
        assert found[item] == pytest.approx(table[item].corr(table.drop(columns=item).sum(axis=1)), abs=1e-9)
