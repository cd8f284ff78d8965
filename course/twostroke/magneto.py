"""Flywheel magnet and ignition module: flux, available voltage, lowest speed that sparks.

The flux through the core comes from a network of permeances fitted to finite-element solutions; the primary
current from the flux passing at the speed of the pull; the voltage at the plug from the opening transient
(``coil``). Fit for teaching order and margin: flux trend with the gap about 3 %, inductance about 20 %,
kilovolts of a real machine not at all unless its coil was measured. The rule by which the module opens (at
the current's peak, or at a set current) is common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from inspect import signature
from typing import TYPE_CHECKING, Any

import numpy as np

from twostroke import ignition
from twostroke._core import Core, Gap, gaps, values_of
from twostroke.coil import Coil, optional_ohms
from twostroke.errors import RangeError, UnitError
from twostroke.sources import formula
from twostroke.units import from_si, number, si

if TYPE_CHECKING:
    from pint import Quantity

__all__ = ["Core", "Magneto", "Opening"]


@dataclass(frozen=True)
class Opening:
    """What a module gives at one speed (or at each of an array of speeds).

    Attributes
    ----------
    voltage : Quantity
        Peak at the plug when the plug does not fire. [kV]
    energy : Quantity
        In the primary at opening. [mJ]
    current : Quantity
        In the primary at opening. [A]
    time : Quantity
        From opening to the peak. [us]
    angle : Quantity
        How far the magnet's middle is before the core's middle when the primary opens. [deg]
    """

    voltage: Quantity
    energy: Quantity
    current: Quantity
    time: Quantity
    angle: Quantity


class Magneto:
    """A flywheel magnet passing a module.

    Parameters
    ----------
    core : Core
        Iron and magnet.
    coil : Coil
        Windings, lead and plug. Its inductances hold with the magnet aligned at ``reference_gap``; the
        network gives how they change with position and gap.
    flywheel_radius : str or Quantity
        At the shoes. [mm]
    primary_turns, secondary_turns : float
        Numbers of turns.
    switch_drop, switch_on : str or Quantity, optional
        Voltage across the closed switch; voltage above which it closes. [V]
    trip_current : str or Quantity, optional
        Current at which the module opens at the latest. [A]
    reference_gap : str or Quantity, optional
        Gap at which the coil's inductances were given. [mm]
    reversed_module : bool, optional
        Module mounted back to front.

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind, or something else in place of core or coil.
    RangeError
        A value outside physical sense.

    Examples
    --------
    >>> core = Core("10 mm", "8 mm", "24 mm", "12 mm", "14 mm", "8 mm", "1.00 T", 1.07, "24 mm", "8 mm", 2000)
    >>> windings = ("0.96 mH", "6.14 H", 0.96, "0.90 ohm", "2.6 kohm")
    >>> coil = Coil(*windings, "1 nF", "35 pF", "1 Mohm", "5 kohm", "15 pF", "380 V")
    >>> magneto = Magneto(core, coil, "42 mm", 160, 12800)
    >>> print(f"{magneto.available_voltage('800 rpm', '0.30 mm'):.1f}")
    13.7 kV
    >>> round(magneto.minimum_spark_speed("8 kV", "0.30 mm").to("rpm").magnitude, -1)
    460.0
    >>> print(magneto.minimum_spark_speed("8 kV", "0.30 mm", plug_shunt="200 kohm"))
    None
    """

    def __init__(
        self,
        core: Core,
        coil: Coil,
        flywheel_radius: str | Quantity,
        primary_turns: float,
        secondary_turns: float,
        switch_drop: str | Quantity = "0.9 V",
        switch_on: str | Quantity = "1.2 V",
        trip_current: str | Quantity = "5 A",
        reference_gap: str | Quantity = "0.30 mm",
        reversed_module: bool = False,
    ) -> None:
        if not isinstance(core, Core):
            raise UnitError(f"core: {type(core).__name__} is not a Core; make one with magneto.Core")
        if not isinstance(coil, Coil):
            raise UnitError(f"coil: {type(coil).__name__} is not a Coil; make one with coil.Coil")
        self.core, self.coil = core, coil
        n1 = number(primary_turns, "primary turns", above=0)
        n2 = number(secondary_turns, "secondary turns", above=0)
        self._radius = si(flywheel_radius, "mm", "flywheel radius", above=0)
        gap = si(reference_gap, "mm", "reference gap", above=0, maximum=10)
        network = n1**2 * float(core.solve(0.0, gap, gap)[1])
        n3 = n1 * (coil.l3 / coil.l1) ** 0.5 if coil.has_short else 0.0
        # The coil's own secondary excludes its shorted turns; the system counts them in.
        self.system = ignition.Ignition(
            **core.values,
            flywheel_radius=self._radius,
            primary_turns=n1,
            secondary_turns=n2 + n3,
            shorted_fraction=n3 / (n2 + n3),
            short_own_resistance=coil.r3 if coil.has_short else float("nan"),
            short_coupling=coil.k23 if coil.has_short else 0.97,
            short_coupling_other=coil.k13 if coil.has_short else 0.95,
            primary_resistance=max(coil.r1, 1e-6),
            secondary_resistance=max(coil.r2, 1e-6) * (n2 + n3) / n2,
            coupling=coil.k,
            inductance_factor=coil.l1 / network,
            secondary_inductance_factor=coil.l2 / coil.l1 * (n1 / n2) ** 2,
            primary_capacitance=coil.c1,
            winding_capacitance=coil.c2a,
            plug_capacitance=coil.c2b,
            loss_resistance=coil.r_loss,
            lead_resistance=coil.r_lead,
            clamp=coil.clamp,
            switch_drop=si(switch_drop, "V", "switch drop", minimum=0),
            switch_on=si(switch_on, "V", "switch-on voltage", above=0),
            trip_current=si(trip_current, "A", "trip current", above=0),
            reversed_module=bool(reversed_module),
        )

    def flux(self, angle: str | Quantity, air_gap: Gap) -> Quantity:
        """Flux through the core.

        Parameters
        ----------
        angle : str or Quantity
            Of the flywheel past the position in which magnet and core are aligned; one value or an array.
            [deg]
        air_gap : str or Quantity, or a pair of them
            Between shoe and leg; a pair gives each leg its own. [mm]

        Returns
        -------
        Quantity
            [uWb]

        Raises
        ------
        UnitError, RangeError
            As for :meth:`Core.flux`.
        """
        turned, many = values_of(angle, "deg", "angle")
        around = np.remainder(turned + np.pi, 2 * np.pi) - np.pi
        flux = self.core.solve(around * self._radius, *gaps(air_gap))[0]
        return from_si(flux if many else float(flux[0]), "uWb")

    def system_for(
        self,
        air_gap: Gap,
        plug_shunt: str | Quantity | None = None,
        stop_path: str | Quantity | None = None,
        winding_temperature: str | Quantity = "20 degC",
        magnet_temperature: str | Quantity = "20 degC",
        magnet_factor: float = 1.0,
        shorted_secondary: float = 0.0,
        shorted_primary: float = 0.0,
        short_resistance: str | Quantity = "0 ohm",
        series_gap: str | Quantity | None = None,
        lead_resistance: str | Quantity | None = None,
        plug_capacitance: str | Quantity | None = None,
        run_out: str | Quantity = "0 mm",
        run_out_angle: str | Quantity = "0 deg",
    ) -> ignition.Ignition:
        """The magneto under these conditions in SI floats, as pictures and the virtual engine take it.

        Parameters
        ----------
        air_gap, others
            As for :meth:`available_voltage`.

        Returns
        -------
        ignition.Ignition

        Raises
        ------
        UnitError, RangeError
            As for :meth:`available_voltage`.
        """
        first, second = gaps(air_gap)
        kelvin = {"above": -200.0, "maximum": 300.0}
        change: dict[str, Any] = {
            "gap_1": first,
            "gap_2": second,
            "plug_shunt": max(optional_ohms(plug_shunt, "plug shunt"), 1.0),
            "stop_path": optional_ohms(stop_path, "stop path"),
            "winding_temperature": si(winding_temperature, "degC", "winding temperature", **kelvin),  # type: ignore[arg-type]
            "magnet_temperature": si(magnet_temperature, "degC", "magnet temperature", **kelvin),  # type: ignore[arg-type]
            "magnet_factor": number(magnet_factor, "magnet factor", minimum=0, maximum=1.5),
            "run_out": si(run_out, "mm", "run-out", minimum=0, maximum=5),
            "run_out_angle": si(run_out_angle, "deg", "run-out angle"),
        }
        parts = (("shorted_fraction", shorted_secondary), ("shorted_primary_fraction", shorted_primary))
        for name, given in parts:
            part = number(given, "shorted part of a winding", minimum=0, maximum=0.9)
            if part:
                change[name] = part
                change["short_own_resistance"] = float("nan")
                change["short_resistance"] = si(short_resistance, "ohm", "resistance of the short", minimum=0)
        if series_gap is not None:
            change["series_gap"] = si(series_gap, "kV", "breakdown voltage of the gap in the lead", minimum=0)
        if lead_resistance is not None:
            change["lead_resistance"] = si(lead_resistance, "ohm", "lead resistance", minimum=0)
        if plug_capacitance is not None:
            change["plug_capacitance"] = si(plug_capacitance, "pF", "plug capacitance", minimum=0)
        return self.system.changed(**change)

    def opening(self, speed: str | Quantity, air_gap: Gap, **conditions: Any) -> Opening:
        """Everything about the opening at a speed; parameters as for :meth:`available_voltage`.

        Returns
        -------
        Opening
            Voltage, energy, current, time to the peak, and magnet angle; arrays where speed is an array.
        """
        rate, many = values_of(speed, "rpm", "speed", above=0, maximum=30000)
        system = self.system_for(air_gap, **_known(conditions))
        out = ignition.available(system, rate * 30 / np.pi)
        ahead = out.spark_btdc - system.aligned_btdc

        def give(values: Any, unit: str) -> Quantity:
            return from_si(values[0] if many else float(values[0, 0]), unit)

        return Opening(
            give(out.voltage, "kV"), give(out.energy, "mJ"), give(out.current, "A"), give(out.time, "us"),
            give(ahead, "deg"),
        )  # fmt: skip

    @formula(
        "build-up of the primary current, then the opening transient", "coupled_circuits", module="magneto"
    )
    def available_voltage(self, speed: str | Quantity, air_gap: Gap, **conditions: Any) -> Quantity:
        """Peak voltage that the module can give at the plug: what it reaches when the plug does not fire.

        Parameters
        ----------
        speed : str or Quantity
            Of the flywheel, one value or an array. [rpm]
        air_gap : str or Quantity, or a pair of them
            Between shoe and leg; a pair gives each leg its own. [mm]
        **conditions
            Any of ``plug_shunt``, ``stop_path``, ``lead_resistance``, ``short_resistance`` [ohm],
            ``winding_temperature``, ``magnet_temperature`` [degC], ``magnet_factor`` (1 = new),
            ``shorted_secondary``, ``shorted_primary`` (part of the turns, 0 to 0.9), ``series_gap``
            (voltage at which a gap in the lead jumps) [kV], ``plug_capacitance`` [pF], ``run_out`` [mm],
            ``run_out_angle`` [deg].

        Returns
        -------
        Quantity
            0 where the module never switches. [kV]

        Raises
        ------
        UnitError
            A value without a unit or of the wrong kind.
        RangeError
            A value outside physical sense.
        """
        return self.opening(speed, air_gap, **conditions).voltage

    def minimum_spark_speed(self, demand: str | Quantity, air_gap: Gap, **conditions: Any) -> Quantity | None:
        """Lowest speed at which the available voltage reaches what the plug demands.

        Parameters
        ----------
        demand : str or Quantity
            Voltage that the plug needs; under compression good to about 30 %. [kV]
        air_gap, **conditions
            As for :meth:`available_voltage`.

        Returns
        -------
        Quantity or None
            None when it never sparks below 3000 rpm. [rpm]

        Raises
        ------
        UnitError, RangeError
            As for :meth:`available_voltage`; or a demand that is not above 0.
        """
        volts = si(demand, "kV", "demand", above=0)
        found = float(ignition.minimum_speed(self.system_for(air_gap, **_known(conditions)), volts)[0])
        return None if np.isinf(found) else from_si(found * np.pi / 30, "rpm")


CONDITIONS = tuple(signature(Magneto.system_for).parameters)[2:]


def _known(conditions: dict[str, Any]) -> dict[str, Any]:
    """Refuse a condition that does not exist, so that a slip of the pen is not a silent default."""
    for name in conditions:
        if name not in CONDITIONS:
            raise RangeError(f"condition {name!r} is not known; there are {', '.join(CONDITIONS)}")
    return conditions
