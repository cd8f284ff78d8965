"""What an action came to, before it is charged."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from twostroke.bench.reading import Shown


@dataclass(frozen=True)
class Got:
    """What an action came to."""

    minutes: float
    words: str
    result: str | None = None
    shown: tuple[Shown, ...] = ()
    money: float = 0.0
    conditions: tuple[str, ...] = ("cold",)
    trace: Any = None
