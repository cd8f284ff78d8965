"""Outside cases of flux, build-up and opening transient, and the trends of the fault conditions."""

from __future__ import annotations

import csv
import json
import math
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import numpy as np
import pytest
from twostroke import _build_up, coil, ignition, magneto
from twostroke._opening import Opening
from twostroke._transient import Circuit
from twostroke.errors import RangeError, UnitError

HERE = Path(__file__).parent
_spec = spec_from_file_location("ignition_reference", HERE / "ignition_reference.py")
reference = module_from_spec(_spec)
_spec.loader.exec_module(reference)


def rows(name):
    with (HERE / "tables" / name).open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def opened(change, current):
    circuit = Circuit.of(1, **{**reference.PUBLIC, **change})
    return Opening(circuit, np.array([[current, 0.0, 0.0]])).run()


def as_coil(change):
    c = {**reference.PUBLIC, **change}
    parts = {
        "primary_inductance": f"{c['l1']} H", "secondary_inductance": f"{c['l2']} H", "coupling": c["k"],
        "primary_resistance": f"{c['r1']} ohm", "secondary_resistance": f"{c['r2']} ohm",
        "primary_capacitance": f"{c['c1'] * 1e9} nF", "secondary_capacitance": f"{c['c2a'] * 1e12} pF",
        "loss_resistance": None if math.isinf(c["r_loss"]) else f"{c['r_loss']} ohm",
        "lead_resistance": f"{c['r_lead']} ohm", "plug_capacitance": f"{c['c2b'] * 1e12} pF",
    }  # fmt: skip
    if math.isfinite(c["clamp"]):
        parts["clamp_voltage"] = f"{c['clamp']} V"
    if c["k13"]:
        parts |= {"shorted_inductance": f"{c['l3']} H", "shorted_resistance": f"{c['r3']} ohm",
                  "shorted_coupling_primary": c["k13"], "shorted_coupling_secondary": c["k23"]}  # fmt: skip
    shunt = {"plug_shunt": f"{c['r_shunt']} ohm"} if math.isfinite(c["r_shunt"]) else {}
    return coil.Coil(**parts), shunt


@pytest.mark.parametrize("row", rows("ignition_cases.csv"), ids=lambda row: row["id"])
def test_does_the_coil_give_the_outside_peak(row):
    change = json.loads(row["change"])
    made, shunt = as_coil(change)
    peak = made.opening_peak(f"{row['current']} A", **shunt)
    assert peak.voltage.to("V").magnitude == pytest.approx(float(row["peak"]), rel=float(row["tolerance"]))
    assert peak.time.to("us").magnitude == pytest.approx(
        float(row["time_us"]), abs=float(row["time_tolerance_us"])
    )


CORE = {
    "shoe_width": "10 mm", "leg_width": "8 mm", "pitch": "24 mm", "depth": "12 mm", "magnet_width": "14 mm",
    "magnet_thickness": "8 mm", "remanence": "1.00 T", "recoil_permeability": 1.07, "leg_height": "24 mm",
    "yoke": "8 mm", "iron_permeability": 2000,
}  # fmt: skip


@pytest.mark.parametrize("row", rows("flux_cases.csv"), ids=lambda row: row["id"])
def test_does_the_flux_follow_the_field_solution(row):
    core = magneto.Core(**CORE)
    flux = core.flux("0 mm", f"{row['gap_mm']} mm")
    if row["quantity"] == "uWb":
        got = flux.to("uWb").magnitude
    else:
        got = (flux / core.flux("0 mm", "0.3 mm")).to("").magnitude
    assert got == pytest.approx(float(row["expected"]), rel=float(row["tolerance"]))


@pytest.mark.parametrize("row", rows("ignition_trends.csv"), ids=lambda row: row["case"])
def test_does_each_condition_cost_what_it_should(row):
    healthy = ignition.Ignition()
    changed = healthy.changed(**json.loads(row["change"]))
    both = ignition.Ignition.stack([healthy, changed])
    tolerance = float(row["tolerance"])
    volts = ignition.available(both, [800.0]).voltage[:, 0]
    assert volts[1] / volts[0] == pytest.approx(float(row["kv_ratio"]), abs=tolerance)
    speeds = ignition.minimum_speed(both, 8e3)
    if row["speed_8kv_ratio"] == "inf":
        assert np.isinf(speeds[1])
    else:
        assert speeds[1] / speeds[0] == pytest.approx(float(row["speed_8kv_ratio"]), rel=max(tolerance, 0.05))


def test_is_the_healthy_demo_engine_where_it_should_be():
    """kV and minimum speeds of the healthy case: independent computation, another flux model."""
    healthy = ignition.Ignition()
    assert ignition.available(healthy, [800.0]).voltage[0, 0] == pytest.approx(12.8e3, rel=0.09)
    found = [ignition.minimum_speed(healthy, demand)[0] for demand in (6e3, 8e3, 10e3)]
    assert found == pytest.approx([335.0, 463.0, 588.0], rel=0.09)


@pytest.mark.parametrize(
    "change",
    [
        {}, {"clamp": 300.0}, {"clamp": 380.0, "r_stop": 300.0}, {"r_shunt": 300e3, "k": 0.93},
        {"l3": 0.9e-3, "r3": 26.0, "k13": 0.95, "k23": 0.97, "clamp": 380.0}, {"r_lead": 1e6},
        {"c1": 0.4e-9, "c2a": 55e-12, "clamp": 420.0},
    ],
    ids=str,
)  # fmt: skip
@pytest.mark.parametrize("emf", [(0.0, 0.0, 0.0), (6.0, 480.0, 5.7)], ids=["still", "turning"])
def test_does_the_transient_agree_with_solve_ivp(change, emf):
    c = {**reference.PUBLIC, **change}
    emf = np.array(emf) * np.array([1.0, 1.0, 1.0 if c["k13"] else 0.0])
    circuit = Circuit.of(1, **c)
    mine = Opening(circuit, np.array([[4.2, 0.0, 0.0]]), emf[None, :]).run()
    peak, time = reference.opening_by_solve_ivp(c, (4.2, 0.0, 0.0), emf)
    assert mine.peak[0] == pytest.approx(peak, rel=5e-4)
    assert mine.time[0] == pytest.approx(time, abs=0.3e-6)


@pytest.mark.parametrize(
    ("rpm", "gap"), [(300.0, 0.2e-3), (800.0, 0.3e-3), (1500.0, 0.8e-3), (3000.0, 0.3e-3)]
)
def test_does_the_build_up_agree_with_solve_ivp(rpm, gap):
    system = ignition.Ignition(gap_1=gap, gap_2=gap)
    e = system.columns()
    core = magneto.Core(**CORE)
    speed = rpm * 2 * np.pi / 60 * e["flywheel_radius"][0]
    current, position = reference.build_up_by_solve_ivp(
        lambda x: float(core.solve(x, gap, gap)[0]), lambda x: float(core.solve(x, gap, gap)[1]),
        160.0, e["primary_resistance"][0], speed, -1.3 * 24e-3, 0.9, 1.2, 5.0, 24e-3,
    )  # fmt: skip
    out = ignition.available(system, [rpm])
    assert out.current[0, 0] == pytest.approx(current, rel=3e-3)
    opens = (e["aligned_btdc"][0] - out.spark_btdc[0, 0]) * e["flywheel_radius"][0]
    assert opens == pytest.approx(position, abs=0.4e-3)


def test_does_the_closed_circuit_build_up_as_r_and_l_say():
    """A-P7: 5 V on 0.9 ohm and 0.9 mH for 1.5 ms gives E/R (1 - exp(-t R/L)) = 4.316 A (closed form)."""
    count = 201
    one = np.ones((count, 1))
    nodes = np.linspace(0.0, 1.5e-3, count)[:, None]
    windings = _build_up.Windings(*(np.array([v]) for v in (1.0, 0.0, 0.9, 1.0, 0.0, 1.0, 1.0)))
    found = _build_up.build_up(
        windings, nodes, 5.0 * nodes, 0.9e-3 * one, np.array([1.0]), np.array([np.inf]), np.array([0.0]),
        np.array([1e-9]), np.array([99.0]), record=True,
    )  # fmt: skip
    assert found.current[-1, 0] == pytest.approx(5 / 0.9 * (1 - math.exp(-1.5e-3 * 0.9 / 0.9e-3)), rel=1e-3)
    assert 5 / 0.9 * (1 - math.exp(-1.5)) == pytest.approx(4.316, rel=1e-3)


def test_what_does_the_turning_magnet_add_during_opening():
    """About 2 % at 800 rpm and 11 % at 3000 rpm: order of magnitude known from an independent estimate."""
    system = ignition.Ignition()
    for rpm, low, high in ((800.0, 0.01, 0.05), (3000.0, 0.03, 0.25)):
        opened_at, flat, with_emf = ignition.transient(system, [rpm])
        circuit = ignition._circuit(flat, opened_at.permeance)
        still = Opening(circuit, np.array([[opened_at.i1[0], 0.0, 0.0]])).run()
        assert low < with_emf.peak[0] / still.peak[0] - 1 < high


def test_does_a_gap_in_the_lead_help_a_fouled_plug_and_then_hinder():
    fouled = ignition.Ignition(plug_shunt=150e3)
    gaps = [0.0, 10e3, 12e3, 30e3]
    batch = ignition.Ignition.stack([fouled.changed(series_gap=gap) for gap in gaps])
    volts = ignition.available(batch, [800.0]).voltage
    assert volts[1, 0] > 1.2 * volts[0, 0]
    assert volts[2, 0] > volts[1, 0]
    assert volts[3, 0] == 0.0


def test_does_the_charge_share_when_the_gap_in_the_lead_breaks_down():
    """With no resistance in the lead, V C2a/(C2a + C2b) the moment after; charge is kept (closed form)."""
    c = Circuit.of(1, **{**reference.PUBLIC, "gap_breakdown": 6e3, "r_lead": 50.0, "r_loss": 1e12})
    seen = Opening(c, np.array([[4.0, 0.0, 0.0]])).run(record=True)
    time = np.concatenate([t for _, t, _ in seen.trace])
    plug = np.concatenate([x[4] for _, _, x in seen.trace]) / np.sqrt(15e-12)
    end = np.concatenate([x[3] for _, _, x in seen.trace]) / np.sqrt(35e-12)
    k = int(np.flatnonzero(plug > 0)[0])
    assert end[k - 1] == pytest.approx(6e3, rel=0.02)
    assert plug[k] == pytest.approx(6e3 * 35 / 50, rel=0.1)
    assert time[k] > 0


def test_does_a_reversed_module_spark_late_and_nearly_as_well():
    normal, reversed_ = (
        ignition.available(ignition.Ignition(reversed_module=flag), [800.0]) for flag in (False, True)
    )
    late = np.degrees(normal.spark_btdc - reversed_.spark_btdc)[0, 0]
    assert 20 < late < 45
    assert reversed_.voltage[0, 0] == pytest.approx(normal.voltage[0, 0], rel=0.2)


def test_do_ohmmeter_and_spark_agree_about_shorted_turns():
    whole, shorted = ignition.Ignition(), ignition.Ignition(shorted_fraction=0.01)
    ohms = [ignition.winding_ohms(system)[1][0] for system in (whole, shorted)]
    volts = [ignition.available(system, [800.0]).voltage[0, 0] for system in (whole, shorted)]
    assert ohms[1] / ohms[0] == pytest.approx(0.99, abs=1e-9)
    assert volts[1] / volts[0] < 0.7
    assert coil.winding_resistance(12800, "0.071 mm", "46.5 mm").to("ohm").magnitude == pytest.approx(
        ohms[0], rel=1e-9
    )


@pytest.mark.parametrize(
    ("legs", "same"), [(("0.25 mm", "0.35 mm"), "0.30 mm"), (("0.2 mm", "0.6 mm"), "0.4 mm")]
)
def test_do_unequal_legs_count_as_their_sum(legs, same):
    core = magneto.Core(**CORE)
    assert (core.flux("0 mm", legs) / core.flux("0 mm", same)).to("").magnitude == pytest.approx(
        1.0, abs=0.02
    )


def test_does_run_out_move_the_gap_by_half_its_reading():
    at_spot = ignition.Ignition(run_out=0.2e-3, run_out_angle=0.0)
    opposite = ignition.Ignition(run_out=0.2e-3, run_out_angle=np.pi)
    volts = [ignition.available(s, [800.0]).voltage[0, 0] for s in (at_spot, ignition.Ignition(), opposite)]
    assert volts[0] < volts[1] < volts[2]


def magneto_of(**extra):
    windings = ("0.88 mH", "5.632 H", 0.96, "0.90 ohm", "2600 ohm")
    made = coil.Coil(*windings, "1 nF", "35 pF", "1 Mohm", "5 kohm", "15 pF", "380 V", **extra)
    return magneto.Magneto(magneto.Core(**CORE), made, "42 mm", 160, 12800)


def test_does_the_magneto_answer_in_quantities_and_none():
    made = magneto_of()
    volts = made.available_voltage("800 rpm", "0.30 mm")
    assert volts.to("kV").magnitude == pytest.approx(12.8, rel=0.1)
    many = made.available_voltage(
        speed=made.minimum_spark_speed("8 kV", "0.3 mm") * np.array([1.0, 2.0]), air_gap="0.3 mm"
    )
    assert many.to("kV").magnitude[0] == pytest.approx(8.0, rel=2e-3)
    assert made.minimum_spark_speed("8 kV", "0.30 mm", stop_path="1 ohm") is None
    assert made.available_voltage("800 rpm", "0.3 mm", stop_path="0.1 ohm").magnitude == 0.0
    assert made.flux("0 deg", ("0.3 mm", "0.3 mm")).to("uWb").magnitude == pytest.approx(86.8, rel=0.05)


def test_are_shorted_turns_of_the_coil_those_of_the_system():
    given = magneto_of(
        shorted_inductance=f"{0.88 * (128 / 160) ** 2} mH", shorted_resistance="26 ohm",
        shorted_coupling_primary=0.95, shorted_coupling_secondary=0.97,
    )  # fmt: skip
    told = magneto_of().available_voltage("800 rpm", "0.3 mm", shorted_secondary=0.01)
    assert given.available_voltage("800 rpm", "0.3 mm").magnitude == pytest.approx(told.magnitude, rel=0.03)


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [
        (lambda: magneto_of().available_voltage(800, "0.3 mm"), UnitError, "rpm"),
        (lambda: magneto_of().available_voltage("800 rpm", "-0.1 mm"), RangeError, "air gap"),
        (lambda: magneto_of().available_voltage("0 rpm", "0.3 mm"), RangeError, "speed"),
        (lambda: magneto_of().minimum_spark_speed("0 kV", "0.3 mm"), RangeError, "demand"),
        (lambda: magneto_of().flux("0 deg", ("0.3 mm", "0.3 mm", "0.3 mm")), RangeError, "pair"),
        (lambda: magneto.Magneto("core", None, "42 mm", 1, 1), UnitError, "core"),
        (lambda: coil.Coil("1 mH", "6 H", 1.2, "1 ohm", "1 ohm", "1 nF", "1 pF", "1 Mohm", "0 ohm", "1 pF"),
         RangeError, "coupling"),
        (lambda: magneto_of(shorted_inductance="1 mH"), RangeError, "all four or none"),
        (lambda: magneto_of(shorted_inductance="1 mH", shorted_resistance="1 ohm",
                            shorted_coupling_primary=0.1, shorted_coupling_secondary=0.99),
         RangeError, "cannot go together"),
        (lambda: magneto.Core(**{**CORE, "pitch": "6 mm"}), RangeError, "pitch"),
        (lambda: ignition.available(ignition.Ignition(gap_1=-1.0), [800.0]), RangeError, "gap"),
        (lambda: ignition.available(ignition.Ignition(), [-5.0]), RangeError, "speed"),
        (lambda: ignition.minimum_speed(ignition.Ignition(), 0.0), RangeError, "demand"),
        (lambda: ignition.check(ignition.Ignition(shorted_fraction=0.95)), RangeError, "shorted"),
        (lambda: ignition.available(ignition.Ignition(primary_wire=0.0), [800.0]), RangeError, "primary"),
    ],
)  # fmt: skip
def test_is_bad_input_named_plainly(call, error, words):
    with pytest.raises(error, match=words):
        call()
