"""Every published source once, with its mark, and the constants and formulas that rest on it.

The list itself is ``data/sources.toml``; to add a source, append a block there. A module declares a constant
with :func:`constant` and names the formula of a function with the decorator :func:`formula`, so that one page
can list all numbers and what each rests on.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, TypeVar

from twostroke.errors import TwoStrokeError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pint import Quantity

__all__ = [
    "MARKS",
    "Constant",
    "Formula",
    "Source",
    "constant",
    "constants",
    "formula",
    "formulas",
    "source",
    "sources",
]

MARKS = MappingProxyType(
    {
        "seen": "published source that was read",
        "from memory": "published source, value from memory: to be verified by someone with the document",
        "common practice": "common practice, no source",
        "computed by library": "computed by an outside library",
        "derived": "follows from geometry, arithmetic or a definition",
        "invented for the demo": "invented for the demonstration",
    }
)
"""What a mark means, in the words that are printed beside a value."""

_DATA = Path(__file__).parent / "data" / "sources.toml"
_constants: dict[str, Constant] = {}
_formulas: dict[str, Formula] = {}
_Function = TypeVar("_Function", bound=Callable[..., object])


@dataclass(frozen=True)
class Source:
    """One source.

    Parameters
    ----------
    key : str
        Short name used in the code.
    title : str
        What it is.
    where : str
        Where in it, or why there is nothing to look up.
    mark : str
        One of :data:`MARKS`.

    Examples
    --------
    >>> print(source("iec60028"))
    IEC 60028, International standard of resistance for copper (from memory)
    """

    key: str
    title: str
    where: str
    mark: str

    def __post_init__(self) -> None:
        if self.mark not in MARKS:
            allowed = ", ".join(MARKS)
            raise TwoStrokeError(f"source {self.key}: mark {self.mark!r} is not one of {allowed}")

    def __str__(self) -> str:
        return f"{self.title} ({self.mark})"


@dataclass(frozen=True)
class Constant:
    """A number with its unit and the source it rests on; ``float(constant)`` is the number.

    Parameters
    ----------
    name : str
        What it is, in words.
    value : float
        The number, in ``unit``.
    unit : str
        A unit of the shared registry, empty for a plain number.
    source : Source
        What it rests on.
    note : str
        What a reader should know.

    Examples
    --------
    >>> Constant("demo constant", 2.0, "mm", source("definition")).quantity.magnitude
    2.0
    """

    name: str
    value: float
    unit: str
    source: Source
    note: str = ""

    def __float__(self) -> float:
        return self.value

    @property
    def quantity(self) -> Quantity:
        """The constant as a quantity of the shared registry."""
        from twostroke import units

        return units.ureg.Quantity(self.value, self.unit)


@dataclass(frozen=True)
class Formula:
    """A formula, the function that computes it, and its sources.

    Parameters
    ----------
    call : str
        Module and function, such as ``gap.shim_stack``.
    text : str
        The formula in one line.
    sources : tuple of Source
        What it rests on.

    Examples
    --------
    >>> Formula("demo.double", "y = 2 x", (source("definition"),)).call
    'demo.double'
    """

    call: str
    text: str
    sources: tuple[Source, ...]


@lru_cache(maxsize=1)
def sources() -> Mapping[str, Source]:
    """All sources by key.

    Returns
    -------
    mapping of str to Source
        In the order of the list.

    Raises
    ------
    TwoStrokeError
        An entry is incomplete or bears an unknown mark.

    Examples
    --------
    >>> "iec60028" in sources()
    True
    """
    entries = tomllib.loads(_DATA.read_text(encoding="utf-8"))
    found = {}
    for key, entry in entries.items():
        missing = {"title", "where", "mark"} - set(entry)
        if missing:
            raise TwoStrokeError(f"source {key} in {_DATA.name} lacks {', '.join(sorted(missing))}")
        found[key] = Source(key, entry["title"], entry["where"], entry["mark"])
    return MappingProxyType(found)


def source(key: str) -> Source:
    """One source by its key.

    Parameters
    ----------
    key : str
        As in ``data/sources.toml``.

    Returns
    -------
    Source
        The entry.

    Raises
    ------
    TwoStrokeError
        There is no such entry.

    Examples
    --------
    >>> source("jcgm106").mark
    'seen'
    """
    try:
        return sources()[key]
    except (KeyError, TypeError):
        raise TwoStrokeError(f"no source {key!r}; add it to {_DATA.name} or use one of it") from None


def constant(name: str, value: float, unit: str, key: str, note: str = "") -> Constant:
    """Declare a constant that names its source.

    Parameters
    ----------
    name : str
        What it is, in words; unique in the package.
    value : float
        The number.
    unit : str
        Its unit, empty for a plain number.
    key : str
        Key of the source.
    note : str, optional
        What a reader should know.

    Returns
    -------
    Constant
        Also kept in :func:`constants`.

    Raises
    ------
    TwoStrokeError
        The source does not exist.

    Examples
    --------
    >>> float(constant("inch (example)", 25.4, "mm", "definition"))
    25.4
    """
    made = Constant(name, float(value), unit, source(key), note)
    _constants[name] = made
    return made


def formula(text: str, *keys: str, module: str | None = None) -> Callable[[_Function], _Function]:
    """Mark a function with the formula it computes and the sources of that formula.

    Parameters
    ----------
    text : str
        The formula in one line.
    *keys : str
        Keys of its sources.
    module : str, optional
        Public module to name it under, where the function lives in a private one.

    Returns
    -------
    callable
        A decorator that hands the function back unchanged.

    Raises
    ------
    TwoStrokeError
        A source does not exist.

    Examples
    --------
    >>> @formula("y = 2 x", "definition")
    ... def double(x):
    ...     return 2 * x
    >>> double(3)
    6
    """
    entries = tuple(source(key) for key in keys)

    def keep(function: _Function) -> _Function:
        home = module or function.__module__.removeprefix("twostroke.")
        call = f"{home}.{function.__qualname__}"
        _formulas[call] = Formula(call, text, entries)
        return function

    return keep


def constants() -> Mapping[str, Constant]:
    """All constants of the modules that were imported so far, by name.

    Returns
    -------
    mapping of str to Constant
        A read-only view.

    Examples
    --------
    >>> from twostroke import resistance
    >>> constants()["temperature coefficient of copper"].source.key
    'iec60028'
    """
    return MappingProxyType(_constants)


def formulas() -> Mapping[str, Formula]:
    """All formulas of the modules that were imported so far, by function.

    Returns
    -------
    mapping of str to Formula
        A read-only view.

    Examples
    --------
    >>> from twostroke import gap
    >>> formulas()["gap.shim_stack"].text
    't = sum t_i; worst case sum |u_i|; root sum of squares sqrt(sum u_i^2)'
    """
    return MappingProxyType(_formulas)
