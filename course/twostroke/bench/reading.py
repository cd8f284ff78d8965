"""What an action gives back, and the record of a step on the route."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass, field
from typing import TYPE_CHECKING, Any

from twostroke import units

if TYPE_CHECKING:
    from pint import Quantity

    from twostroke.bench.instruments import Trace


@dataclass(frozen=True)
class Shown:
    """One number on an instrument.

    Attributes
    ----------
    name : str
        What it is.
    value : float
        In `unit`; infinite where the display shows no number.
    unit : str
    text : str
        As the instrument shows it.
    limit : float
        Half-width of the instrument's error limits, in `unit`.
    instrument : str
    """

    name: str
    value: float
    unit: str
    text: str
    limit: float = 0.0
    instrument: str = ""

    @property
    def quantity(self) -> Quantity:
        """The number with its unit."""
        return units.ureg.Quantity(self.value, self.unit)


@dataclass(frozen=True)
class Reading:
    """Answer of the bench to one action.

    Attributes
    ----------
    action : str
        Identifier of the action.
    done : bool
        False where the bench only answered why it cannot be done now; then nothing is charged.
    words : str
        What is seen, felt or shown, in plain words.
    result : str or None
        The table's word for it.
    shown : tuple of Shown
        Numbers on instruments.
    minutes, money : float
        Charged for this step; money is for parts.
    condition : str
        ``cold``, ``hot`` or ``shake``.
    cautions : tuple of str
        Cautions that wait to be confirmed (of an action not done), or that were missed (of one done).
    trace : Trace or None
        Waveform, where the instrument keeps one.
    """

    action: str
    done: bool
    words: str
    result: str | None = None
    shown: tuple[Shown, ...] = ()
    minutes: float = 0.0
    money: float = 0.0
    condition: str = "cold"
    cautions: tuple[str, ...] = ()
    trace: Trace | None = field(default=None, compare=False)

    @property
    def value(self) -> Quantity | None:
        """First number with its unit, or None where nothing was measured."""
        return self.shown[0].quantity if self.shown else None

    @property
    def text(self) -> str:
        """Numbers as the instruments show them, or nothing."""
        return "; ".join(f"{item.name} {item.text}" for item in self.shown)

    def __str__(self) -> str:
        head = f"{self.text}. " if self.shown else ""
        return f"{head}{self.words}"


@dataclass(frozen=True)
class Step(Mapping[str, Any]):
    """One step of the route: what was done, what it showed, what it cost. Reads like a dict too.

    Examples
    --------
    >>> step = Step(action="plug_look", settings={}, reading={}, words="wet", result="wet", minutes=1.0,
    ...             money=0.0, time=3.0, conditions=("cold",))
    >>> step["result"], step.minutes
    ('wet', 1.0)
    """

    action: str
    settings: dict[str, Any]
    reading: dict[str, str]
    words: str
    result: str | None
    minutes: float
    money: float
    time: float
    conditions: tuple[str, ...] = ()
    opened: tuple[str, ...] = ()
    cautions_confirmed: tuple[str, ...] = ()
    cautions_missed: tuple[str, ...] = ()
    unsafe: bool = False
    diagnosis: str | None = None
    confidence: float | None = None

    def to_dict(self) -> dict[str, Any]:
        """Plain values that JSON can hold."""
        plain = asdict(self)
        for key in ("conditions", "opened", "cautions_confirmed", "cautions_missed"):
            plain[key] = list(plain[key])
        return plain

    def __getitem__(self, key: str) -> Any:
        if key not in self.__dataclass_fields__:
            raise KeyError(key)
        return getattr(self, key)

    def __iter__(self) -> Iterator[str]:
        return iter(self.__dataclass_fields__)

    def __len__(self) -> int:
        return len(self.__dataclass_fields__)
