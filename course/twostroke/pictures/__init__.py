"""Pictures of the physics: each a figure and a sentence that says in words what it shows.

Axes carry units. Lines differ in dash and marker as well as in colour, and colours in lightness, so that a
print in grey and a reader who is blind to red or green lose nothing. Figures are made without a window or
global state.
"""

from twostroke.pictures._style import Picture
from twostroke.pictures.circuit import magnetic_circuit
from twostroke.pictures.curves import compression_pump_up, voltage_against_speed
from twostroke.pictures.trace import waveform

__all__ = ["Picture", "compression_pump_up", "magnetic_circuit", "voltage_against_speed", "waveform"]
