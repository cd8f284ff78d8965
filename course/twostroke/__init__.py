"""Calculations, virtual engine, fault isolation, lessons and labs for small two-stroke engines.

Submodules load when first used, so that importing the package stays quick.
"""

from __future__ import annotations

import importlib
from types import ModuleType

from twostroke.errors import RangeError, TwoStrokeError, UnitError

__version__ = "0.1.0"
__all__ = ["RangeError", "TwoStrokeError", "UnitError", "__version__"]


def __getattr__(name: str) -> ModuleType:
    """Load a submodule on first use: ``twostroke.gap`` without a separate import."""
    if name.startswith("_"):
        raise AttributeError(name)
    try:
        return importlib.import_module(f"{__name__}.{name}")
    except ModuleNotFoundError as error:
        if error.name != f"{__name__}.{name}":
            raise
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}") from None
