"""Every error that this package raises on purpose."""

from __future__ import annotations


class TwoStrokeError(ValueError):
    """Base of all errors of this package; its text is meant for the reader of the screen.

    The message names the value, what is allowed, and what to do.

    Examples
    --------
    >>> raise TwoStrokeError("air gap -0.1 mm: must be zero or more; measure it again")
    Traceback (most recent call last):
        ...
    twostroke.errors.TwoStrokeError: air gap -0.1 mm: must be zero or more; measure it again
    """


class UnitError(TwoStrokeError):
    """A value came without its unit, with an unknown unit, or with one of the wrong kind."""


class RangeError(TwoStrokeError):
    """A value is readable but outside what is physically or practically possible."""
