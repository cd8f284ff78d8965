"""How long the doors and the pumping model take (run with --benchmark-only)."""

from __future__ import annotations

import math

from twostroke import _pumping, compression, units

ENGINE = compression.Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg")


def pump(count, numpy):
    return _pumping.gauge_pressures(
        **ENGINE.pumping_sizes(),
        pulls=6,
        speed=800 * math.pi / 30,
        gauge_volume=numpy.linspace(2e-6, 15e-6, count),
        polytropic=1.25,
        leak_area=3e-7,
        atmosphere=101325.0,
        air_temperature=293.15,
    )


def test_text_to_si(benchmark):
    assert benchmark(units.si, "10 thou", "mm", "air gap") > 0


def test_gauge_of_one_engine_with_a_leak(benchmark):
    import numpy

    assert benchmark(pump, 1, numpy).shape == (6, 1)


def test_gauge_of_a_thousand_engines_with_a_leak(benchmark):
    import numpy

    assert benchmark(pump, 1000, numpy).shape == (6, 1000)
