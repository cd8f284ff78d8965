"""Outside references for the ignition: the same circuits by scipy's solve_ivp and by ngspice.

Written from the equations; nothing here uses the package's own calculation.
"""

from __future__ import annotations

import re
import subprocess
import tempfile
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp

INF = float("inf")
PUBLIC = {
    "l1": 1.0e-3, "l2": 6.4, "k": 0.96, "r1": 1.0, "r2": 3000.0, "c1": 1e-9, "c2a": 35e-12, "c2b": 15e-12,
    "r_loss": 1e6, "r_lead": 5e3, "clamp": INF, "r_stop": INF, "r_shunt": INF, "l3": 1.0, "r3": 1.0,
    "k13": 0.0, "k23": 0.0, "gap_breakdown": 0.0,
}  # fmt: skip


def equations(c, emf=(0.0, 0.0, 0.0), clamped=False):
    """Right-hand side of the open circuit: [i1, i2, i3, v1, v2a, v2b]."""
    m12, m13, m23 = (
        c["k"] * np.sqrt(c["l1"] * c["l2"]),
        c["k13"] * np.sqrt(c["l1"] * c["l3"]),
        c["k23"] * np.sqrt(c["l2"] * c["l3"]),
    )
    inverse = np.linalg.inv(np.array([[c["l1"], m12, m13], [m12, c["l2"], m23], [m13, m23, c["l3"]]]))
    e1, e2, e3 = emf

    def slope(_, y):
        i1, i2, i3, v1, a, b = y
        currents = inverse @ np.array([e1 - c["r1"] * i1 - v1, e2 - c["r2"] * i2 - a, e3 - c["r3"] * i3])
        lead = (a - b) / c["r_lead"]
        dv1 = 0.0 if clamped else (i1 - v1 / c["r_stop"]) / c["c1"]
        return np.array([
            *currents, dv1, (i2 - a / c["r_loss"] - lead) / c["c2a"], (lead - b / c["r_shunt"]) / c["c2b"]
        ])  # fmt: skip

    return slope


def opening_by_solve_ivp(c, currents, emf=(0.0, 0.0, 0.0), end=45e-6, method="DOP853", rtol=1e-9):
    """Peak at the plug and its time, with the clamp entered and left at located events."""
    y, t, clamped = np.array([*currents, 0.0, 0.0, 0.0], float), 0.0, False
    best, when = 0.0, 0.0
    while t < end:
        slope = equations(c, emf, clamped)

        def leaves(_, y, clamped=clamped):
            return y[0] - c["clamp"] / c["r_stop"] if clamped else y[3] - c["clamp"]

        leaves.terminal = np.isfinite(c["clamp"])
        leaves.direction = -1.0 if clamped else 1.0
        done = solve_ivp(
            slope, (t, end), y, method=method, rtol=rtol, atol=[1e-9, 1e-12, 1e-9, 1e-5, 1e-4, 1e-4],
            max_step=2e-7, events=leaves if np.isfinite(c["clamp"]) else None,
        )  # fmt: skip
        top = int(np.abs(done.y[5]).argmax())
        if abs(done.y[5, top]) > best:
            best, when = abs(done.y[5, top]), done.t[top]
        t, y = done.t[-1], done.y[:, -1].copy()
        if done.status == 1:
            clamped = not clamped
            y[3] = c["clamp"] * (1.0 if clamped else 1 - 1e-9)
    return best, when


def opening_by_ngspice(c, current, end=60e-6, step=1e-9):
    """Peak at the plug and its time from a transient analysis of the same circuit."""
    lines = [
        "opening of an ignition coil",
        f"L1 p 0 {c['l1']:.9g} ic={-current:.9g}",
        f"L2 s0 0 {c['l2']:.9g} ic=0",
        f"K12 L1 L2 {c['k']:.9g}",
        f"R1 p sw {c['r1']:.9g}",
        f"C1 sw 0 {c['c1']:.9g} ic=0",
        f"R2 s0 a {c['r2']:.9g}",
        f"C2a a 0 {c['c2a']:.9g} ic=0",
        f"Rlead a b {c['r_lead']:.9g}",
        f"C2b b 0 {c['c2b']:.9g} ic=0",
    ]
    if np.isfinite(c["r_loss"]):
        lines.append(f"Rfe a 0 {c['r_loss']:.9g}")
    if np.isfinite(c["r_shunt"]):
        lines.append(f"Rsh b 0 {c['r_shunt']:.9g}")
    if np.isfinite(c["r_stop"]):
        lines.append(f"Rstop sw 0 {c['r_stop']:.9g}")
    if np.isfinite(c["clamp"]):
        lines += [f"Vclamp cl 0 {c['clamp']:.9g}", "Dclamp sw cl near_ideal",
                  ".model near_ideal D(is=1e-12 n=0.01 rs=1e-3)"]  # fmt: skip
    if c["k13"] or c["k23"]:
        lines += [f"L3 t 0 {c['l3']:.9g} ic=0", f"R3 t 0 {c['r3']:.9g}", f"K13 L1 L3 {c['k13']:.9g}",
                  f"K23 L2 L3 {c['k23']:.9g}"]  # fmt: skip
    lines += [
        ".options reltol=1e-6 abstol=1e-13 vntol=1e-6 method=trap",
        f".tran {step:.3g} {end:.3g} 0 {step:.3g} uic",
        ".control", "run", "meas tran peak MAX v(b)", "meas tran low MIN v(b)", "quit 0", ".endc", ".end",
    ]  # fmt: skip
    with tempfile.TemporaryDirectory() as folder:
        deck = Path(folder) / "opening.cir"
        deck.write_text("\n".join(lines), encoding="ascii")
        done = subprocess.run(
            ["ngspice", "-b", str(deck)], capture_output=True, text=True, timeout=300, check=False
        )
    found = dict(re.findall(r"^(peak|low)\s*=\s*(\S+)", done.stdout, flags=re.M))
    at = re.search(r"^peak\s*=\s*\S+\s+at=\s*(\S+)", done.stdout, flags=re.M)
    if "peak" not in found:
        raise RuntimeError(f"ngspice gave no peak:\n{done.stdout[-2000:]}\n{done.stderr[-2000:]}")
    peak, low = float(found["peak"]), float(found["low"])
    return max(abs(peak), abs(low)), float(at.group(1)) if at else float("nan")


def build_up_by_solve_ivp(flux, permeance, n1, r1, speed, start, drop, on, trip, end):
    """Primary current at opening, from functions of position; the switch acts by the rule."""

    def slope_of_flux(x, h=1e-7):
        return (flux(x + h) - flux(x - h)) / (2 * h)

    grid = np.linspace(start, end, 1601)
    volts = n1 * speed * np.array([slope_of_flux(x) for x in grid])
    top = int(volts.argmax())
    if volts[top] <= on:
        return 0.0, float("nan")
    below = np.flatnonzero(volts[: top + 1] <= on)
    first = grid[below[-1] + 1] if len(below) else grid[0]

    def slope(t, y):
        x = first + speed * t
        return [n1 * speed * slope_of_flux(x) - drop - r1 * y[0] / (n1**2 * permeance(x))]

    span = (end - first) / speed
    done = solve_ivp(slope, (0, span), [0.0], rtol=1e-9, atol=1e-12, max_step=span / 300)
    x = first + speed * done.t
    current = done.y[0] / (n1**2 * np.array([permeance(value) for value in x]))
    over = np.flatnonzero(current >= trip)
    if len(over):
        return trip, float(x[over[0]])
    fine = np.linspace(0.0, span, 20001)
    dense = np.interp(fine, done.t, current)
    return float(current.max()), first + speed * float(fine[dense.argmax()])


def both_windings_by_solve_ivp(flux, permeance, n, r, k, r_stop, drop, on, trip, speed, start, end):
    """Primary and shorted current and position at opening: both windings closed, the switch by its rule.

    ``flux`` and ``permeance`` are splines of the position; before the switch conducts, the stop path closes
    the primary.
    """
    turns = np.array([n[0], max(n[1], 1.0)])
    shape = np.array([[1.0, k], [k, 1.0]]) * np.outer(turns, turns)
    inverse = np.linalg.inv(shape)
    seen = np.array([n[0], n[1]])

    def current(x, psi):
        return inverse @ psi / permeance(x)

    def slope_with(ohms, less):
        def slope(t, psi):
            x = place + speed * t
            push = seen * (float(flux(x, 1)) * speed)
            return push - ohms * current(x, psi) - np.array([less, 0.0])

        return slope

    place = start
    whole = (end - start) / speed
    options = {"method": "LSODA", "rtol": 1e-8, "atol": 1e-14, "max_step": whole / 400, "dense_output": True}
    before = solve_ivp(slope_with(np.array([r[0] + r_stop, r[1]]), 0.0), (0, whole), [0.0, 0.0], **options)
    t = np.linspace(0, whole, 8001)
    psi = before.sol(t)
    at = start + speed * t
    volts = r_stop * (inverse @ psi / permeance(at))[0]
    top = int(volts.argmax())
    if volts[top] <= on:
        return 0.0, 0.0, float("nan")
    last = int(np.flatnonzero(volts[: top + 1] <= on)[-1])
    closes = t[last] + (on - volts[last]) / (volts[last + 1] - volts[last]) * (t[1] - t[0])
    place = start + speed * closes
    rest = whole - closes

    def trips(t, psi):
        return current(place + speed * t, psi)[0] - trip

    trips.terminal, trips.direction = True, 1.0
    after = solve_ivp(slope_with(np.array(r), drop), (0, rest), before.sol(closes), events=trips, **options)
    t = np.linspace(0, after.t[-1], 8001)
    both = inverse @ after.sol(t) / permeance(place + speed * t)
    top = len(t) - 1 if after.status == 1 else int(both[0].argmax())
    return both[0, top], both[1, top], place + speed * t[top]


def burn_by_solve_ivp(c, currents, emf, demand, volts, least, swing=0.0):
    """When the plug breaks down, how long it burns, and the energy at the gap while it does."""

    def slope(t, y):
        return equations(c, np.asarray(emf) * np.cos(swing * t))(t, y)

    def breaks(_, y):
        return y[5] - demand

    breaks.terminal, breaks.direction = True, 1.0
    tight = {"method": "LSODA", "rtol": 1e-9, "atol": 1e-11}
    rise = solve_ivp(slope, (0, 80e-6), [*currents, 0.0, 0.0, 0.0], events=breaks, max_step=2e-7, **tight)
    start, lights = rise.y[:, -1].copy(), rise.t[-1]
    start[5] = volts

    def through(y):
        return (y[4] - y[5]) / c["r_lead"] - y[5] / c["r_shunt"]

    def lit(t, y):
        out = slope(t, y[:6])
        return [*out[:5], 0.0, through(y) * volts]

    def goes_out(_, y):
        return through(y) - least

    goes_out.terminal, goes_out.direction = True, -1.0
    burn = solve_ivp(
        lit, (lights, lights + 6e-3), [*start, 0.0], events=goes_out, method="LSODA", rtol=1e-7, atol=1e-9
    )
    return lights, burn.t[-1] - lights, burn.y[6, -1]


def opening_behind_a_gap_by_solve_ivp(c, currents, end=60e-6):
    """Peak at the plug and its time where the lead has a gap that must break down first."""

    def apart(t, y):
        return equations(c | {"r_lead": INF})(t, y)

    def jumps(_, y):
        return y[4] - c["gap_breakdown"]

    jumps.terminal, jumps.direction = True, 1.0
    tight = {"method": "DOP853", "rtol": 1e-9, "atol": 1e-10, "max_step": 2e-7}
    first = solve_ivp(apart, (0, end), [*currents, 0.0, 0.0, 0.0], events=jumps, **tight)
    second = solve_ivp(equations(c), (first.t[-1], end), first.y[:, -1], **tight)
    top = int(second.y[5].argmax())
    return second.y[5, top], second.t[top]


def trace_by_solve_ivp(c, currents, end):
    """Times, voltage at the plug and voltage at the switch, through the clamp."""
    y, t, clamped, parts = np.array([*currents, 0.0, 0.0, 0.0], float), 0.0, False, []
    while t < end:

        def leaves(_, y, clamped=clamped):
            return y[0] - c["clamp"] / c["r_stop"] if clamped else y[3] - c["clamp"]

        leaves.terminal, leaves.direction = True, -1.0 if clamped else 1.0
        done = solve_ivp(
            equations(c, clamped=clamped), (t, end), y, method="DOP853", rtol=1e-9, atol=1e-10, max_step=5e-8,
            events=leaves,
        )  # fmt: skip
        parts.append((done.t, done.y[5], done.y[3]))
        t, y = done.t[-1], done.y[:, -1].copy()
        if done.status == 1:
            clamped = not clamped
            y[3] = c["clamp"] * (1.0 if clamped else 1 - 1e-9)
    return tuple(np.concatenate(one) for one in zip(*parts, strict=True))
