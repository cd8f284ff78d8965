"""Flux and winding permeance of a flywheel magnet passing a two-legged core: a network of four nodes.

Two pole shoes with the magnet between them pass two legs joined by a yoke. The rotor is unrolled: ``x`` is
how far the magnet's middle lies past the core's middle. Each shoe sees each leg through a permeance that
depends on their overlap, their distance and that leg's gap; two gaps in series, and unequal legs, follow
from the network. SI floats, broadcast over engines and positions.

The four constants below were fitted to 180 two-dimensional finite-element solutions: pitch 20 to 28 mm, gap
0.2 to 1.2 mm, magnet aligned to 38 mm away, winding round one leg. They are fit constants, not physical
lengths. Left over: 1.7 % of peak (rms) in flux, 1.4 % in aligned flux, 6.5 % in winding permeance while the
magnet is within 16 mm. Two dimensions leave out the leakage at the ends, so the flux is an upper figure.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from twostroke.sources import constant

Array = NDArray[np.float64]

MU_0 = 4e-7 * np.pi  # H/m, to 1e-9 of the value of the SI since 2019

FRINGE = float(constant("fringe permeance between shoe and leg", 1.339, "", "network_fit"))
FRINGE_LENGTH = 1e-3 * float(
    constant("length of the fringe between shoe and leg", 14.77, "mm", "network_fit")
)
OUTER_PERMEANCE = float(
    constant("part of shoes and magnet that the winding on one leg sees", 0.4035, "", "network_fit")
)
WINDOW_PERMEANCE = float(
    constant("permeance across the window, in window heights over width", 0.9905, "", "network_fit")
)
EDGE = 0.3  # the corner of the overlap is rounded over this many gaps; chosen, not fitted


def permeance(distance: Array, gap: Array, shoe: Array, leg: Array, depth: Array) -> Array:
    """Permeance between a shoe and a leg whose middles lie ``distance`` apart (H)."""
    soft = EDGE * gap

    def ramp(z: Array) -> Array:
        return 0.5 * (z + np.sqrt(z * z + soft * soft))

    reach = 0.5 * (shoe + leg) - np.abs(distance)
    overlap = ramp(reach) - ramp(reach - np.minimum(shoe, leg))
    apart = ramp(-reach)
    near = 0.25 * (np.pi * FRINGE_LENGTH) ** 2 / (gap * gap + apart * apart)
    fringe = FRINGE * (2 / np.pi) * np.log1p(near)
    return MU_0 * depth * (overlap / gap + fringe)


def solve(core: dict[str, Array], x: Array, gap_1: Array, gap_2: Array) -> tuple[Array, Array]:
    """Core flux (Wb) and winding permeance (H per turn squared) at position ``x``.

    Parameters
    ----------
    core : dict
        The lengths, remanence and permeabilities of ``magneto.Core`` by name, and ``saturation``, the flux
        density (T) that the legs do not pass (``inf`` leaves the iron linear).
    x, gap_1, gap_2 : array
        Position, gap under leg 1 (at ``-pitch/2``) and under leg 2; anything that broadcasts.
    """
    shoe, leg, pitch, depth = core["shoe_width"], core["leg_width"], core["pitch"], core["depth"]
    a = permeance(x, gap_1, shoe, leg, depth)
    b = permeance(x - pitch, gap_2, shoe, leg, depth)
    c = permeance(x + pitch, gap_1, shoe, leg, depth)
    d = a if np.array_equal(gap_1, gap_2) else permeance(x, gap_2, shoe, leg, depth)
    total = a + b + c + d
    across_magnet = (a + b) * (c + d) / total
    across_core = (a + c) * (b + d) / total
    transfer = (a * d - b * c) / total
    mu_recoil = MU_0 * core["recoil_permeability"]
    magnet = mu_recoil * core["magnet_thickness"] * depth / core["magnet_width"]
    drive = core["remanence"] * core["magnet_thickness"] * depth  # the magnet's short-circuit flux
    iron = MU_0 * core["iron_permeability"] * depth / (2 * core["leg_height"] / leg + pitch / core["yoke"])
    flux = iron * transfer * drive / ((iron + across_core) * (magnet + across_magnet) - transfer**2)
    seen = across_core - transfer**2 / (magnet + across_magnet)
    window = MU_0 * depth * core["leg_height"] / (pitch - leg)
    outside = OUTER_PERMEANCE * seen + WINDOW_PERMEANCE * window
    winding = iron * outside / (iron + outside)
    limit = core["saturation"] * leg * depth
    if np.any(np.isfinite(limit)):
        flux = flux / (1 + np.abs(flux / limit) ** 8) ** 0.125
    return flux, winding
