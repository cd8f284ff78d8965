"""Slider-crank in SI floats: ``functions`` is :mod:`math` for one value, numpy for arrays."""

from __future__ import annotations

import math
from typing import Any


def piston_depth(angle: Any, stroke: Any, rod: Any, functions: Any = math) -> Any:
    """Depth of the piston below top dead centre [m] at a crank angle from it [rad]."""
    throw = stroke / 2
    side = throw * functions.sin(angle)
    return throw * (1 - functions.cos(angle)) + side * side / (rod + functions.sqrt(rod * rod - side * side))


def crank_angle(depth: float, stroke: float, rod: float) -> float:
    """Crank angle from top dead centre [rad] at a depth below it [m], 0 to pi: law of cosines, half angle."""
    throw = stroke / 2
    reach = throw + rod - depth
    sine_squared = (rod * rod - (reach - throw) ** 2) / (4 * throw * reach)
    return 2 * math.asin(math.sqrt(min(1.0, max(0.0, sine_squared))))
