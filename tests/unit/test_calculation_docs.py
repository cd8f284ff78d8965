"""Every public function of the calculations is documented in full, and junk never gets past its door."""

from __future__ import annotations

import ast
import importlib
import inspect
import math
import subprocess
import sys
from pathlib import Path

import pytest
from numpydoc.docscrape import FunctionDoc
from numpydoc.validate import validate
from twostroke import TwoStrokeError, compression, sources, units

PACKAGE = Path(units.__file__).parent
MODULES = ("units", "gap", "geometry", "resistance", "compression", "breakdown", "fuel", "verdict", "sources")
ENGINE = compression.Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg")
VALID = {
    "units.as_quantity": (1.0, "mm"),
    "units.from_si": (0.001, "mm"),
    "units.number": (0.5, "share"),
    "units.read": ("10 thou",),
    "units.read_band": ("0.3-0.5 mm",),
    "units.read_ratio": ("50:1",),
    "units.show": (units.read("1 mm"),),
    "units.si": ("1 mm", "mm", "gap"),
    "units.si_list": (["1 mm"], "mm", "gap"),
    "gap.shim_stack": (["0.1 mm"], ["0.01 mm"]),
    "gap.choose_shims": (["0.1 mm", "0.2 mm"], "0.2 mm", "0.4 mm"),
    "gap.two_legs": ("0.2 mm", "0.3 mm"),
    "gap.run_out": ("0.3 mm", "0.1 mm"),
    "gap.judge": ("0.3 mm", "0.2 mm", "0.4 mm", "0.01 mm"),
    "geometry.displacement": ("40 mm", "30 mm"),
    "geometry.piston_depth": ("20 deg", "30 mm", "55 mm"),
    "geometry.crank_angle": ("2 mm", "30 mm", "55 mm"),
    "geometry.key_offset_angle": ("1 mm", "18 mm"),
    "geometry.port_duration": ("105 deg",),
    "geometry.stroke_and_rod": ("30 mm", "55 mm"),
    "resistance.at_temperature": ("1 ohm", "20 degC", "75 degC"),
    "resistance.corrected": ("1 ohm", "0.1 ohm", "20 degC", "1 K", "75 degC", "0.1 ohm", "0.05 ohm"),
    "resistance.judge": ("1 ohm", "0.8 ohm", "1.2 ohm", "0.1 ohm"),
    "resistance.meter_uncertainty": ("1 ohm", 0.8, 3, "0.1 ohm"),
    "resistance.parallel": ("1 ohm", "2 ohm"),
    "resistance.probability_inside": ("1 ohm", "0.1 ohm", "0.8 ohm", "1.2 ohm"),
    "resistance.wire_diameter": (36,),
    "resistance.wire_resistance": ("0.2 mm", "1 m", "20 degC", "58 MS/m"),
    "compression.absolute_pressure": ("1 bar", "0 m"),
    "compression.charge_at": (ENGINE, "25 deg", 1.25, "0 m", "20 degC"),
    "compression.gauge_pressure": ("2 bar", "0 m"),
    "compression.gauge_readings": (ENGINE, 2, "800 rpm", "6 mL", 1.25, "0 mm^2", "0 m", "20 degC"),
    "compression.judge": ("8 bar", "7 bar", "10 bar", "0.1 bar"),
    "compression.leak_down": ("100 psi", 1.0),
    "compression.leak_rate": ("200 mL", "0.7 bar", "0.5 bar", "60 s"),
    "compression.reading_at_altitude": ("8 bar", "1500 m"),
    "compression.standard_atmosphere": ("1500 m",),
    "compression.Cylinder": ("40 mm", "30 mm", "55 mm", 9, "105 deg"),
    "breakdown.needle_gap_for": ("10 kV",),
    "breakdown.needle_gap_voltage": ("8 mm",),
    "breakdown.sharpness_factor": ("0.6 mm", "4 bar", "20 degC", "0.05 mm"),
    "breakdown.townsend_voltage": ("0.6 mm", "1 bar", "20 degC"),
    "breakdown.voltage": ("0.6 mm", "1 bar", "20 degC", "0.05 mm"),
    "fuel.mixture": ("100 mL", "5 L"),
    "fuel.oil_for": ("5 L", "50:1"),
    "fuel.oil_share_of_fuel": ("50:1",),
    "fuel.oil_share_of_mix": ("50:1",),
    "fuel.vapour_pressure": ("20 degC", "n-pentane"),
    "verdict.chance_within": (0.3, 5),
    "verdict.clean_trials": (0.3, 0.95),
    "verdict.judge": ("1 mm", "0.5 mm", "2 mm", "0.1 mm"),
    "verdict.probability_inside": ("1 mm", "0.1 mm", "0.5 mm", "2 mm"),
}
JUNK = [
    None,
    True,
    [],
    {},
    (),
    "junk",
    "",
    b"5 mm",
    object(),
    math.nan,
    math.inf,
    -1e308,
    10**400,
    "9" * 5000,
    "-1e300 mm",
    "5 mol",
    "\x00",
    "½",
    "1/0 mm",
    units.ureg.Quantity(5, "candela"),
    units.ureg.Quantity(math.nan, "mm"),
    units.ureg.Quantity([1.0, 2.0], "mm"),
    units.ureg.Quantity(-500.0, "degC"),
    ["junk"],
    [None],
    "-0.1 mm",
    {"a": 1},
]
# Values handed over by our own code, not by a person: names, labels, ready-made quantities.
INTERNAL = {
    ("units.as_quantity", 0),
    ("units.from_si", 0),
    ("units.from_si", 1),
    ("units.number", 1),
    ("units.si", 2),
    ("units.si_list", 2),
    ("units.show", 0),
}


def public():
    for module in MODULES:
        loaded = importlib.import_module(f"twostroke.{module}")
        for name in loaded.__all__:
            thing = getattr(loaded, name, None)
            if inspect.isfunction(thing) or inspect.isclass(thing):
                yield f"{module}.{name}", thing


PUBLIC = dict(public())
FUNCTIONS = {name: thing for name, thing in PUBLIC.items() if inspect.isfunction(thing)}
METHODS = {
    f"{name}.{attribute}": value
    for name, thing in PUBLIC.items()
    if inspect.isclass(thing)
    for attribute, value in vars(thing).items()
    if inspect.isfunction(value) and not attribute.startswith("_")
}
REFUSED = {
    "GL01",
    "GL02",
    "GL03",
    "GL05",
    "GL06",
    "GL07",
    "GL08",
    "GL10",
    "SS01",
    "SS02",
    "SS03",
    "SS04",
    "PR01",
    "PR02",
    "PR03",
    "PR04",
    "PR06",
    "PR07",
    "PR08",
    "RT01",
    "RT03",
    "EX01",
}


@pytest.mark.parametrize("name", [*PUBLIC, *METHODS])
def test_is_the_docstring_complete(name):
    found = validate(f"twostroke.{name}")
    faults = [fault for fault in found["errors"] if fault[0] in REFUSED - ({"GL01", "GL02", "GL03"})]
    assert faults == []
    assert ">>>" in found["docstring"]


@pytest.mark.parametrize("name", [*FUNCTIONS, *METHODS])
def test_does_the_docstring_say_what_is_given_back_and_raised(name):
    document = FunctionDoc({**FUNCTIONS, **METHODS}[name])
    assert document["Returns"]
    documented = {part.strip() for entry in document["Parameters"] for part in entry.name.split(",")}
    parameters = inspect.signature({**FUNCTIONS, **METHODS}[name]).parameters
    assert documented == {
        str(p).split(":")[0] if p.kind in (2, 4) else p.name for p in parameters.values()
    } - {"self"}
    own = name.split(".")[0] not in ("sources",) and name not in ("units.from_si", "units.show")
    if own and not name.endswith("pumping_sizes"):
        assert {entry.type or entry.name for entry in document["Raises"]} <= {"UnitError", "RangeError"}
        assert document["Raises"]


@pytest.mark.parametrize("name", [n for n in PUBLIC if n.split(".")[0] != "sources"])
def test_is_every_public_call_tried_with_junk(name):
    thing = PUBLIC[name]
    if inspect.isclass(thing) and name != "compression.Cylinder":
        assert not name.startswith("units.")
        return
    arguments = VALID[name]
    thing(*arguments)
    for place in range(len(arguments)):
        if (name, place) in INTERNAL:
            continue
        for junk in JUNK:
            tried = [*arguments[:place], junk, *arguments[place + 1 :]]
            try:
                thing(*tried)
            except TwoStrokeError as error:
                message = str(error)
                assert "Traceback" not in message, (place, junk)
                assert len(message) < 500, (place, junk)


def test_is_every_source_in_use_and_marked():
    for module in ("geometry", "gap", "resistance", "compression", "breakdown", "fuel", "verdict"):
        importlib.import_module(f"twostroke.{module}")
    for entry in sources.sources().values():
        assert entry.mark in sources.MARKS
        assert entry.title
        assert entry.where
    for found in sources.constants().values():
        assert found.source.key in sources.sources()
        units.ureg.Quantity(1.0, found.unit)


@pytest.mark.parametrize("key", ["nothing", None, 5, []])
def test_is_an_unknown_source_refused(key):
    with pytest.raises(TwoStrokeError, match="no source"):
        sources.source(key)


def test_is_a_wrong_mark_refused():
    with pytest.raises(TwoStrokeError, match="common practice"):
        sources.Source("x", "title", "where", "certain")


CALCULATIONS = [
    "units",
    "sources",
    "verdict",
    "geometry",
    "gap",
    "resistance",
    "compression",
    "breakdown",
    "fuel",
    "_air",
    "_copper",
    "_cylinder",
    "_leaks",
    "_number_text",
    "_pumping",
    "_reading",
    "_registry",
    "_slider_crank",
    "_unit_words",
]


@pytest.mark.parametrize("module", CALCULATIONS)
def test_do_the_calculations_load_without_numpy_and_keep_their_size(module):
    text = (PACKAGE / f"{module}.py").read_text(encoding="utf-8")
    assert len(text.splitlines()) <= 400
    for node in ast.parse(text).body:
        names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
        assert not {name.split(".")[0] for name in names} & {
            "numpy",
            "scipy",
            "pint",
            "fluids",
            "uncertainties",
        }


def test_does_loading_all_calculations_load_neither_numpy_nor_pint():
    names = ", ".join(name for name in CALCULATIONS if not name.startswith("_"))
    look = "print(*sorted({'numpy', 'scipy', 'pint'} & set(sys.modules)))"
    code = f"import sys; from twostroke import {names}; {look}"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == ""
