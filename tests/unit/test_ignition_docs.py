"""Every public function of the ignition is documented in full, and junk never gets past its door."""

from __future__ import annotations

import importlib
import inspect
import math

import pytest
from numpydoc.docscrape import FunctionDoc
from numpydoc.validate import validate
from twostroke import (
    TwoStrokeError,
    coil,
    compression,
    cranking,
    demand,
    ignition,
    magneto,
    pictures,
    starting,
)
from twostroke.units import ureg

MODULES = ("coil", "magneto", "ignition", "burn", "cranking", "starting", "demand", "pictures")
# Records of values: their fields are described, and they are made by the functions, not by a person.
REFUSED = {
    "GL05",
    "GL06",
    "GL07",
    "GL08",
    "GL10",
    "SS01",
    "SS02",
    "SS03",
    "PR01",
    "PR02",
    "PR06",
    "PR07",
    "RT01",
    "RT03",
}
ENGINE = compression.Cylinder("34 mm", "28 mm", "48 mm", 9, "103 deg")
NEED = demand.plug_demand(ENGINE)
WINDINGS = ("0.96 mH", "6.14 H", 0.96, "0.90 ohm", "2.6 kohm")
COIL = (*WINDINGS, "1 nF", "35 pF", "1 Mohm", "5 kohm", "15 pF", "380 V", "16 uH", "26 ohm", 0.95, 0.97)
CORE = ("10 mm", "8 mm", "24 mm", "12 mm", "14 mm", "8 mm", "1.00 T", 1.07, "24 mm", "8 mm", 2000, "1.8 T")
MAGNETO = (magneto.Core(*CORE), coil.Coil(*COIL[:11]), "42 mm", 160, 12800, "0.9 V", "1.2 V", "5 A", "0.3 mm")
MADE = magneto.Magneto(*MAGNETO)
HEALTHY = ignition.Ignition()

CALLS = {
    "Coil": (coil.Coil, COIL),
    "opening_peak": (coil.Coil(*COIL).opening_peak, ("4 A", "1 Mohm", "1 kohm")),
    "winding_resistance": (coil.winding_resistance, (160, "0.375 mm", "36 mm", "20 degC")),
    "Core": (magneto.Core, CORE),
    "Core.flux": (magneto.Core(*CORE).flux, ("0 mm", ("0.3 mm", "0.4 mm"))),
    "Magneto": (magneto.Magneto, MAGNETO),
    "Magneto.flux": (MADE.flux, ("5 deg", "0.3 mm")),
    "available_voltage": (MADE.available_voltage, ("800 rpm", "0.3 mm")),
    "minimum_spark_speed": (MADE.minimum_spark_speed, ("8 kV", "0.3 mm")),
    "rope_pull": (
        cranking.rope_pull, (ENGINE, "normal", "27 deg", 3, "0.1 mm^2", 1.25, "0 m", "20 degC", 6e-4),
    ),
    "plug_demand": (demand.plug_demand, (ENGINE, "0.6 mm", "25 deg", "0.1 mm", 1.25, "0 m", "20 degC")),
    "margin": (demand.margin, ("9 kV", NEED)),
    "firing_chance": (
        starting.firing_chance, ("12 kV", "9 kV", "5 mJ", 1.0, "9 bar", "25 deg", 0.1),
    ),
    "waveform": (pictures.waveform, (HEALTHY, "800 rpm", "9 kV", "400 V")),
    "magnetic_circuit": (pictures.magnetic_circuit, (MAGNETO[0], "0.3 mm", "2 mm")),
    "pump_up": (pictures.compression_pump_up, (ENGINE, {"sound": {}}, 3, "800 rpm", "6 mL", "7-9 bar")),
    "voltage": (pictures.voltage_against_speed, ({"healthy": HEALTHY}, "9 kV", "800 rpm", "2000 rpm", 12)),
}  # fmt: skip
CONDITIONS = {
    "plug_shunt": "1 Mohm", "stop_path": "1 kohm", "winding_temperature": "60 degC",
    "magnet_temperature": "60 degC", "magnet_factor": 0.9, "shorted_secondary": 0.01, "shorted_primary": 0.02,
    "short_resistance": "5 ohm", "series_gap": "3 kV", "lead_resistance": "10 kohm",
    "plug_capacitance": "30 pF", "run_out": "0.1 mm", "run_out_angle": "20 deg",
}  # fmt: skip
JUNK = [
    None, True, [], {}, (), "junk", "", b"5 mm", object(), math.nan, math.inf, -1e308, "-1e300 mm", "5 mol",
    "½", ureg.Quantity(5, "candela"), ureg.Quantity(math.nan, "mm"), ["junk"], [None], "-0.1 mm", {"a": 1},
]  # fmt: skip


def answers_plainly(call, *arguments, **named):
    """Run it; only an error of our own may come out, and with words in it."""
    try:
        call(*arguments, **named)
    except TwoStrokeError as error:
        told = str(error)
    else:
        told = "taken as it is"
    assert len(told) > 10


def public():
    for module in MODULES:
        loaded = importlib.import_module(f"twostroke.{module}")
        for name in loaded.__all__:
            thing = getattr(loaded, name)
            if inspect.isfunction(thing) or (inspect.isclass(thing) and "__post_init__" not in vars(thing)):
                yield f"{module}.{name}", thing


PUBLIC = dict(public())


@pytest.mark.parametrize("name", PUBLIC)
def test_is_the_docstring_of_the_ignition_complete(name):
    found = validate(f"twostroke.{name}")
    plain = PUBLIC[name]
    record = inspect.isclass(plain) and hasattr(plain, "__dataclass_fields__")
    faults = [fault for fault in found["errors"] if fault[0] in REFUSED - ({"PR01"} if record else set())]
    assert faults == []
    if inspect.isfunction(plain):
        assert ">>>" in found["docstring"]


@pytest.mark.parametrize("name", [n for n, thing in PUBLIC.items() if inspect.isfunction(thing)])
def test_are_all_parameters_of_the_ignition_described(name):
    document = FunctionDoc(PUBLIC[name])
    described = {part.strip(" *") for entry in document["Parameters"] for part in entry.name.split(",")}
    assert set(inspect.signature(PUBLIC[name]).parameters) == described
    assert document["Returns"]


@pytest.mark.parametrize("name", CALLS)
def test_does_junk_get_a_plain_answer_at_the_doors_of_the_ignition(name):
    call, arguments = CALLS[name]
    call(*arguments)
    for place in range(len(arguments)):
        for junk in JUNK:
            answers_plainly(call, *arguments[:place], junk, *arguments[place + 1 :])


@pytest.mark.parametrize("name", CONDITIONS)
def test_does_junk_in_a_condition_get_a_plain_answer(name):
    extra = {"shorted_secondary": 0.01} if name == "short_resistance" else {}
    assert MADE.available_voltage("800 rpm", "0.3 mm", **extra, **{name: CONDITIONS[name]}).magnitude > 0
    for junk in JUNK:
        answers_plainly(MADE.available_voltage, "800 rpm", "0.3 mm", **extra, **{name: junk})


def test_is_a_condition_that_does_not_exist_named():
    with pytest.raises(TwoStrokeError, match="plug_shnt"):
        MADE.available_voltage("800 rpm", "0.3 mm", plug_shnt="1 Mohm")
