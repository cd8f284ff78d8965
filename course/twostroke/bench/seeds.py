"""Random numbers that are the same on every machine: SHA-256 picks the stream, its raw bits make the numbers.

Library distributions may change from one release to the next; raw bits of a named bit generator do not.
"""

from __future__ import annotations

import hashlib

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri

Array = NDArray[np.float64]

_SEPARATOR = "\x1f"


def seed_int(*words: object) -> int:
    """Whole number of 128 bits that depends only on the words.

    Examples
    --------
    >>> seed_int("trimmer", "anna", 3) == seed_int("trimmer", "anna", "3")
    True
    >>> seed_int("a", "b") == seed_int("ab")
    False
    """
    text = _SEPARATOR.join(str(word) for word in words)
    return int.from_bytes(hashlib.sha256(text.encode("utf-8")).digest()[:16], "big")


def fold(learner: object) -> str:
    """Learner's identifier with case and spaces folded away.

    Examples
    --------
    >>> fold("  Anna  BERG ")
    'anna berg'
    """
    return " ".join(str(learner).casefold().split())


def unit_float(*words: object) -> float:
    """One number in (0, 1) that depends only on the words.

    Examples
    --------
    >>> 0.0 < unit_float("pull", 1) < 1.0
    True
    """
    return ((seed_int(*words) >> 76) + 0.5) / 2.0**52


class Draws:
    """A stream of random numbers named by words.

    Examples
    --------
    >>> Draws("demo", 1).normal(3).shape
    (3,)
    >>> bool((Draws("demo", 1).uniform(4) == Draws("demo", 1).uniform(4)).all())
    True
    """

    def __init__(self, *words: object) -> None:
        seed = seed_int(*words)
        key = np.array([seed & (2**64 - 1), seed >> 64], dtype=np.uint64)
        self._bits = np.random.Philox(key=key, counter=0)

    def uniform(self, n: int, low: float = 0.0, high: float = 1.0) -> Array:
        """`n` numbers evenly spread over (low, high)."""
        raw = np.asarray(self._bits.random_raw(n), dtype=np.uint64) >> np.uint64(12)
        return low + (high - low) * (raw.astype(np.float64) + 0.5) / 2.0**52

    def normal(self, n: int, mean: float = 0.0, spread: float = 1.0) -> Array:
        """`n` numbers of a normal distribution, cut off by the 52-bit grid only."""
        return mean + spread * ndtri(self.uniform(n))

    def lognormal(self, n: int, spread: float) -> Array:
        """`n` factors around 1 whose logarithm spreads by `spread`."""
        return np.exp(self.normal(n, 0.0, spread))
