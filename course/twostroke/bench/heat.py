"""How warm engine and module are: two first-order lags towards running or resting temperature."""

from __future__ import annotations

import math
from dataclasses import dataclass

ENGINE_RUN = 115.0
MODULE_RUN = 88.0
ENGINE_LAG = 2.6
MODULE_LAG = 3.2
ENGINE_COOLING = 7.5
MODULE_COOLING = 9.0
COLD_BELOW = 45.0
HOT_FROM = 70.0


@dataclass
class Heat:
    """Temperatures in °C; minutes go in, temperatures come out. The lags are invented.

    Examples
    --------
    >>> heat = Heat(20.0)
    >>> heat.run(8.0)
    >>> heat.state
    'hot'
    >>> heat.rest(20.0)
    >>> heat.state
    'cold'
    """

    ambient: float = 20.0
    engine: float = math.nan
    module: float = math.nan

    def __post_init__(self) -> None:
        self.engine = self.ambient if math.isnan(self.engine) else self.engine
        self.module = self.ambient if math.isnan(self.module) else self.module

    def run(self, minutes: float, overheat: float = 0.0) -> None:
        """Run, or warm by other means, for some minutes; `overheat` in kelvin is added by packed fins."""
        rise = self.ambient - 20.0 + overheat
        self.engine = _towards(self.engine, ENGINE_RUN + rise, minutes / ENGINE_LAG)
        self.module = _towards(self.module, MODULE_RUN + rise, minutes / MODULE_LAG)

    def warm_module(self, minutes: float) -> None:
        """Warm the module alone, off the machine."""
        self.module = _towards(self.module, MODULE_RUN + self.ambient - 20.0, minutes / MODULE_LAG)

    def rest(self, minutes: float) -> None:
        """Stand still for some minutes."""
        self.engine = _towards(self.engine, self.ambient, minutes / ENGINE_COOLING)
        self.module = _towards(self.module, self.ambient, minutes / MODULE_COOLING)

    @property
    def state(self) -> str:
        """``cold``, ``warm`` or ``hot``."""
        if self.engine < COLD_BELOW + max(self.ambient - 20.0, 0.0):
            return "cold"
        return "hot" if self.engine >= HOT_FROM else "warm"

    @property
    def condition(self) -> str:
        """The table's word: ``cold`` or ``hot``, whichever is nearer."""
        middle = (COLD_BELOW + HOT_FROM) / 2.0
        return "hot" if self.engine >= middle else "cold"


def _towards(now: float, then: float, lags: float) -> float:
    return then + (now - then) * math.exp(-lags)
