"""From an instrument's number to the table's word for it."""

from __future__ import annotations

from twostroke.table.model import Test
from twostroke.table.reader import TableError


def result_for(test: Test, value: float, band: tuple[float, float] | None = None) -> str:
    """The result of `test` that stands for a reading.

    Parameters
    ----------
    test : Test
        A test with a `reading`.
    value : float
        The reading, in ``test.reading.unit``.
    band : (float, float), optional
        The maker's band of this machine in the same unit; needed where the ladder refers to it.

    Returns
    -------
    str
        Identifier of the result.

    Raises
    ------
    TableError
        The test has no reading, or its band is needed and was not given.

    Examples
    --------
    >>> from twostroke.table import load_table
    >>> air_gap = load_table().tests["air_gap"]
    >>> result_for(air_gap, 0.62, band=(0.20, 0.40))
    'wide'
    >>> result_for(air_gap, 0.0, band=(0.20, 0.40))
    'touching'
    """
    name = test.name or "this test"
    if test.reading is None:
        raise TableError(f"{name} has no instrument reading; its result is what is seen or felt")
    for rung in test.reading.ladder:
        if rung.below is None:
            return rung.result
        if rung.of == "fixed":
            limit = rung.below
        elif band is None:
            raise TableError(f"{name} is judged by the maker's band in {test.reading.unit}; give the band")
        else:
            limit = rung.below * band[0 if rung.of == "low" else 1]
        if value < limit:
            return rung.result
    raise AssertionError("a ladder's last rung takes every reading")
