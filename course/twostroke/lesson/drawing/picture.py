"""What a figure function hands back: the drawing, the same in words, and the numbers that it shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True)
class Picture:
    """One drawn state of a figure.

    Parameters
    ----------
    svg : str
        The drawing, a whole ``<svg>`` element.
    words : str
        What the drawing shows now, for those who cannot see it and for the line below the figure.
    shown : mapping
        Quantities (or plain floats, where dimensionless) that the drawing shows, by name. Tests read these.

    Examples
    --------
    >>> Picture("<svg/>", "A leaf.", {}).words
    'A leaf.'
    """

    svg: str
    words: str
    shown: Mapping[str, Any] = field(default_factory=dict)

    def _repr_mimebundle_(self, **_: Any) -> dict[str, str]:
        return {"image/svg+xml": self.svg, "text/plain": self.words}
