"""The opening transient against ngspice on circuits drawn anew, not those on which anything was built."""

from __future__ import annotations

import random
import shutil
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import numpy as np
import pytest
from twostroke._opening import Opening
from twostroke._transient import Circuit

_spec = spec_from_file_location("ignition_reference", Path(__file__).parent / "ignition_reference.py")
reference = module_from_spec(_spec)
_spec.loader.exec_module(reference)

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(
        shutil.which("ngspice") is None,
        reason="ngspice is not on this machine: the opening transient is NOT checked against it; "
        "install the Debian package ngspice",
    ),
]


def fresh(seed):
    """A circuit within the usual ranges (common practice), its kind chosen by the seed."""
    draw = random.Random(f"opening {seed}")
    l1, ratio = draw.uniform(0.6e-3, 2.5e-3), draw.uniform(60, 110)
    c = reference.PUBLIC | {
        "l1": l1, "l2": l1 * ratio**2, "k": draw.uniform(0.91, 0.98), "r1": draw.uniform(0.4, 2.0),
        "r2": draw.uniform(2e3, 6e3), "c1": draw.uniform(0.5e-9, 3e-9), "c2a": draw.uniform(20e-12, 60e-12),
        "c2b": draw.uniform(10e-12, 40e-12), "r_loss": draw.uniform(0.5e6, 3e6),
        "r_lead": draw.uniform(1e3, 15e3),
    }  # fmt: skip
    kind = seed % 5
    if kind == 1:
        c["r_shunt"] = 10 ** draw.uniform(4.7, 6.5)
    if kind == 2:
        c["clamp"] = draw.uniform(300, 450)
    if kind == 3:
        turns = draw.uniform(0.003, 0.03)
        c |= {"l3": c["l2"] * turns**2, "r3": c["r2"] * turns + draw.uniform(0, 50), "k": 0.96, "k13": 0.95,
              "k23": 0.97}  # fmt: skip
    if kind == 4:
        c["r_stop"] = 10 ** draw.uniform(0.7, 3.0)
    return c, draw.uniform(2.0, 5.0)


@pytest.mark.parametrize("seed", range(15))
def test_does_ngspice_give_the_same_peak(seed):
    c, current = fresh(seed)
    mine = Opening(Circuit.of(1, **c), np.array([[current, 0.0, 0.0]])).run()
    peak, _ = reference.opening_by_ngspice(c, current, end=1.6 * float(mine.time[0]) + 10e-6)
    assert mine.peak[0] == pytest.approx(peak, rel=3e-3)
