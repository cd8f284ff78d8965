"""Figures of lesson 07: a meter on any two points of a stop circuit, and what a leak to ground costs."""

from __future__ import annotations

import math
from functools import cache
from typing import TYPE_CHECKING

import networkx as nx
import numpy as np

from twostroke import ignition, units
from twostroke.lesson.drawing import BLUE, GUIDE, INK, PAPER, RUST, Canvas, DrawingError, Frame, Picture

if TYPE_CHECKING:
    from pint import Quantity

POINTS = ("stop terminal", "lead's end", "switch", "engine metal", "module's core")
MACHINES = ("sound", "lead chafed through", "switch closed at run", "lead broken", "module without ground")
_WINDING, _CLIP, _LEAD, _CHAFED, _CLOSED, _SEAT = 0.9, 0.02, 0.2, 2.0, 0.3, 0.1  # ohm, invented
_TERMINAL, _END, _SWITCH, _METAL, _CORE = range(1, 6)
_RPM = 700.0
_PLACES = {1: (250, 118), 2: (340, 118), 3: (560, 118), 4: (560, 286), 5: (120, 232)}


def _circuit(machine: int, stop: bool, on: bool, *, winding: bool = True) -> nx.Graph:
    """The circuit as resistors [ohm] between the five points."""
    graph = nx.Graph()
    graph.add_nodes_from(range(1, 6))
    edges = {
        (_TERMINAL, _CORE): _WINDING if winding else None,
        (_TERMINAL, _END): _CLIP if on else None,
        (_END, _SWITCH): None if machine == 4 else _LEAD,
        (_SWITCH, _METAL): _CLOSED if stop or machine == 3 else None,
        (_END, _METAL): _CHAFED if machine == 2 else None,
        (_METAL, _CORE): None if machine == 5 else _SEAT,
    }
    graph.add_edges_from((*pair, {"ohm": ohms}) for pair, ohms in edges.items() if ohms is not None)
    return graph


@cache
def _between(machine: int, stop: bool, on: bool, red: int, black: int, winding: bool = True) -> float:
    """Resistance between two points [ohm]; infinite where there is no path."""
    graph = _circuit(machine, stop, on, winding=winding)
    if red == black:
        return 0.0
    if not nx.has_path(graph, red, black):
        return math.inf
    part = graph.subgraph(nx.node_connected_component(graph, red))
    return float(nx.resistance_distance(part, red, black, weight="ohm", invert_weight=True))


@cache
def _kilovolts(path: float) -> float:
    """What the plug could get with a path from stop terminal to ground [kV]."""
    found = ignition.available(ignition.Ignition(stop_path=path), _RPM)
    return float(found.voltage[0, 0]) / 1e3


def stop_circuit(machine: float, red: float, black: float, switch: float, lead: float) -> Picture:
    """An ohmmeter on two points of a stop circuit, on a sound machine or one with a fault.

    Parameters
    ----------
    machine : float
        1 sound, 2 lead chafed through to metal, 3 switch closed at run, 4 lead broken, 5 module without
        ground.
    red, black : float
        Points that the probes touch: 1 stop terminal, 2 the stop lead's end beside it, 3 switch, 4 engine
        metal, 5 the module's core.
    switch : float
        0 run, 1 stop.
    lead : float
        0 stop lead off the module, 1 on.

    Returns
    -------
    Picture
        ``shown`` holds ``reading`` [ohm] (infinite: over range) and ``voltage`` that the plug could get (0
        where the module has no ground).

    Raises
    ------
    DrawingError
        A point, machine or position that is not drawn.

    Notes
    -----
    Resistors solved as a network; the meter's leads are taken off. Values invented. Voltage at 700 rpm.

    Examples
    --------
    >>> round(stop_circuit(1, 2, 4, 1, 0).shown["reading"].magnitude, 2)
    0.5
    >>> stop_circuit(1, 2, 4, 0, 0).shown["reading"].magnitude
    inf
    """
    values = (machine, red, black, switch, lead)
    limits = ((1, 5), (1, 5), (1, 5), (0, 1), (0, 1))
    if not all(low <= value <= high for value, (low, high) in zip(values, limits, strict=True)):
        raise DrawingError(f"{values}: machine and points are 1 to 5, switch and lead 0 or 1")
    which, one, other, stop, on = (round(value) for value in values)
    reading = _between(which, bool(stop), bool(on), one, other)
    path = _between(which, bool(stop), bool(on), _TERMINAL, _CORE, winding=False)
    volts = 0.0 if which == 5 else _kilovolts(path)
    display = "over range" if math.isinf(reading) else f"{reading:.2f} Ω"
    outcome = "no way back for the spark" if which == 5 else f"the plug could get {volts:.1f} kV"
    words = (
        f"Machine {which}: {MACHINES[which - 1]}. Switch at {'stop' if stop else 'run'}, stop lead"
        f" {'on' if on else 'off'}. Red probe on {POINTS[one - 1]}, black on {POINTS[other - 1]}: the meter"
        f" shows {display}. At {_RPM:.0f} rpm {outcome}."
    )
    canvas = Canvas(720, 400, "A meter on a stop circuit", words)
    _draw(canvas, which, bool(stop), bool(on))
    for point, name, colour in ((one, "red", RUST), (other, "black", INK)):
        x, y = _PLACES[point]
        up = -1 if name == "red" else 1
        canvas.arrow(x + 26 * up, y - 44, x + 3 * up, y - 8, weight="bold", colour=colour)
        canvas.label(x + 30 * up, y - 48, name, size=15, anchor="middle", colour=colour, strong=True)
    canvas.label(20, 350, f"meter: {display}", size=26, strong=True, colour=BLUE)
    canvas.label(20, 384, f"machine {which}, {MACHINES[which - 1]}: {outcome}", size=17, strong=True)
    shown = {
        "reading": units.ureg.Quantity(reading, "ohm"),
        "voltage": units.ureg.Quantity(volts, "kV"),
    }
    return Picture(canvas.svg(), words, shown)


def _draw(canvas: Canvas, machine: int, stop: bool, on: bool) -> None:
    """Module, stop lead, switch and engine metal, with the machine's fault."""
    canvas.rect(60, 96, 150, 176, fill=canvas.hatch)
    canvas.rect(92, 128, 86, 80, fill=PAPER, weight="bold")
    for row in range(6):
        canvas.line(94, 138 + row * 12, 176, 138 + row * 12, weight="thin")
    canvas.label(135, 84, "module", size=17, anchor="middle", strong=True)
    canvas.path([(178, 150), (230, 150), (250, 118)])
    canvas.rect(20, 286, 660, 26, fill=canvas.dots, weight="bold")
    canvas.label(350, 305, "engine metal", size=16, anchor="middle")
    dirty = machine == 5
    canvas.line(
        90, 272, 90, 286, weight="bold", dash="dot" if dirty else "solid", colour=RUST if dirty else INK
    )
    canvas.label(104, 284, "no contact" if dirty else "seat", size=15, colour=RUST if dirty else INK)
    canvas.line(250, 118, 340, 118 if on else 84, weight="bold", dash="solid" if on else "dot",
                colour=INK if on else GUIDE)  # fmt: skip
    if machine == 4:
        canvas.line(340, 118, 430, 118, weight="bold")
        canvas.line(470, 118, 560, 118, weight="bold")
        canvas.label(450, 106, "broken", size=16, anchor="middle", colour=RUST)
    else:
        canvas.line(340, 118, 560, 118, weight="bold")
        canvas.label(450, 106, "stop lead", size=16, anchor="middle")
    if machine == 2:
        canvas.path([(420, 118), (408, 170), (432, 220), (420, 286)], dash="dash", colour=RUST)
        canvas.label(434, 190, "chafed", size=16, colour=RUST)
    closed = stop or machine == 3
    canvas.line(560, 118, 560, 160)
    canvas.line(560, 160, 560 if closed else 596, 220, weight="bold", colour=RUST if machine == 3 else INK)
    canvas.line(560, 220, 560, 286)
    canvas.label(604, 186, f"at {'stop' if stop else 'run'}", size=16)
    for point, (x, y) in _PLACES.items():
        canvas.circle(x, y, 13, fill=PAPER)
        canvas.label(x, y + 6, f"{point}", size=16, anchor="middle", strong=True)


@cache
def _curve() -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Powers of ten of the path [ohm] and what the plug could get [kV]."""
    powers = tuple(round(float(each), 3) for each in np.linspace(0, 4, 33))
    batch = ignition.Ignition.stack([ignition.Ignition(stop_path=10**power) for power in powers])
    volts = ignition.available(batch, _RPM).voltage[:, 0]
    return powers, tuple(float(each) / 1e3 for each in volts)


def leak_to_ground(power: float, demand: str | Quantity) -> Picture:
    """What the plug could get when a leak leads from the stop terminal to ground.

    Parameters
    ----------
    power : float
        The leak's resistance as a power of ten in ohm, 0 (1 ohm) to 4 (10 000 ohm).
    demand : quantity or text
        What the plug asks for under compression, 4 to 12 kV. [kV]

    Returns
    -------
    Picture
        ``shown`` holds ``path`` [ohm], ``voltage`` [kV] and ``fires`` (1.0 or 0.0).

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Examples
    --------
    >>> leak_to_ground(4, "8 kV").shown["fires"], leak_to_ground(1, "8 kV").shown["fires"]
    (1.0, 0.0)
    """
    need = float(units.read(demand, expect="kV").to("kV").magnitude)
    if not 0 <= power <= 4 or not 4 <= need <= 12:
        raise DrawingError(f"power {power:g}, {need:g} kV: the figure shows 0 to 4 and 4 to 12 kV")
    powers, curve = _curve()
    at = round(power / powers[1])
    path, volts = 10 ** powers[at], curve[at]
    fires = volts >= need
    said = "it still sparks" if fires else "no spark under compression"
    named = f"{path:.0f} Ω" if path < 1000 else f"{path / 1000:.1f} kΩ"
    words = (
        f"With {named} from stop terminal to ground the plug could get {volts:.1f} kV at {_RPM:.0f} rpm. It"
        f" asks for {need:.1f} kV: {said}."
    )
    canvas = Canvas(720, 400, "What a leak to ground costs", words)
    frame = Frame(84, 24, 600, 270, (0, 4), (0, 14))
    frame.axes(
        canvas, "leak from stop terminal to ground", "at the plug, kV", x_ticks=[], y_ticks=[0, 4, 8, 12]
    )
    for tenth, text in enumerate(("1 Ω", "10 Ω", "100 Ω", "1 kΩ", "10 kΩ")):
        canvas.line(frame.x(tenth), 24, frame.x(tenth), 294, weight="hair", dash="dot", colour=GUIDE)
        canvas.label(frame.x(tenth), 314, text, size=15, anchor="middle")
    frame.curve(canvas, powers, curve, weight="bold", colour=BLUE)
    y = frame.y(need)
    canvas.line(84, y, 684, y, weight="thin", dash="dash", colour=RUST)
    canvas.label(94, y - 8, f"the plug asks for {need:.1f} kV", size=16, colour=RUST)
    canvas.marker(frame.x(powers[at]), frame.y(volts), size=8)
    canvas.label(20, 382, f"{named}: {volts:.1f} kV, {said}", size=20, strong=True)
    shown = {
        "path": units.ureg.Quantity(path, "ohm"),
        "voltage": units.ureg.Quantity(volts, "kV"),
        "fires": 1.0 if fires else 0.0,
    }
    return Picture(canvas.svg(), words, shown)
