"""The crankcase as a pump: pressure below the piston round one turn, from port timing and volume."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from twostroke._air import air_at
from twostroke._cylinder import Cylinder, check_cylinder
from twostroke.compression import CRANKING_EXPONENT
from twostroke.errors import RangeError
from twostroke.sources import formula
from twostroke.units import from_si, number, si

if TYPE_CHECKING:
    from pint import Quantity

__all__ = ["Crankcase"]


@dataclass(frozen=True)
class Crankcase:
    """A sealed crankcase below a piston that opens transfer and intake ports.

    Parameters
    ----------
    cylinder : Cylinder
        The engine above it.
    transfer_opening : str or Quantity
        Crank angle after top dead centre at which the transfer ports open. [deg]
    intake_opening : str or Quantity
        Crank angle before top dead centre at which the piston's skirt opens the intake. [deg]
    primary_ratio : float
        Crankcase volume at top dead centre over that at bottom dead centre, more than 1.

    Raises
    ------
    UnitError
        A value without a unit of angle, or something else in place of the cylinder.
    RangeError
        A ratio of 1 or less, or an intake that would still be open when the transfer ports open.

    Examples
    --------
    >>> engine = Cylinder("34 mm", "28 mm", "48 mm", 9, "103 deg")
    >>> case = Crankcase(engine, "118 deg", "65 deg", 1.4)
    >>> print(f"{case.pressure('117 deg'):.2f}, {case.pressure('180 deg'):.2f}")
    1.22 bar, 1.01 bar
    """

    cylinder: Cylinder
    transfer_opening: str | Quantity
    intake_opening: str | Quantity
    primary_ratio: float

    def __post_init__(self) -> None:
        check_cylinder(self.cylinder)
        number(self.primary_ratio, "primary compression ratio", above=1)
        intake = si(self.intake_opening, "deg", "intake opening", above=0, maximum=180)
        if si(self.transfer_opening, "deg", "transfer opening", above=0, maximum=180) <= intake:
            raise RangeError(
                f"intake open to {self.intake_opening} after top dead centre, transfer from"
                f" {self.transfer_opening}: both would be open at once; check the port heights"
            )

    def volume(self, crank_angle: str | Quantity) -> Quantity:
        """Volume below the piston.

        Parameters
        ----------
        crank_angle : str or Quantity
            From top dead centre, either side. [deg]

        Returns
        -------
        Quantity
            [cm^3]

        Raises
        ------
        UnitError
            A value without a unit of angle.
        """
        swept = self.cylinder.displacement
        above = self.cylinder.volume(crank_angle) - self.cylinder.clearance_volume
        return swept * (self.primary_ratio / (self.primary_ratio - 1)) - above

    @formula("p = p0 (V0/V)^n while transfer and intake ports are shut, p0 while one is open", "gas_dynamics")
    def pressure(
        self,
        crank_angle: str | Quantity,
        polytropic: float = float(CRANKING_EXPONENT),
        altitude: str | Quantity = "0 m",
    ) -> Quantity:
        """Absolute pressure below the piston of an engine that is turned and does not fire.

        Parameters
        ----------
        crank_angle : str or Quantity
            After top dead centre, 0 to 360 degrees. [deg]
        polytropic : float, optional
            Exponent, 1 to 1.7.
        altitude : str or Quantity, optional
            Height above sea level, standard atmosphere. [m]

        Returns
        -------
        Quantity
            Absolute pressure. [bar]

        Raises
        ------
        UnitError
            A value without a unit.
        RangeError
            An angle outside one turn, or an exponent outside its limits.

        Notes
        -----
        An open port is taken to level the pressure at once. A running engine is less tidy: ports take time
        to fill and empty, and pipes swing.
        """
        n = number(polytropic, "polytropic exponent", minimum=1, maximum=1.7)
        si(crank_angle, "deg", "crank angle after top dead centre", minimum=0, maximum=360)
        angle = si(crank_angle, "deg", "crank angle")
        intake = si(self.intake_opening, "deg", "intake opening")
        transfer = si(self.transfer_opening, "deg", "transfer opening")
        air = air_at(altitude)[0]
        turn = si("360 deg", "deg", "turn")
        if angle <= intake or angle >= turn - intake or transfer <= angle <= turn - transfer:
            return from_si(air, "bar")
        shut_at = self.intake_opening if angle < transfer else self.transfer_opening
        squeezed = float((self.volume(shut_at) / self.volume(crank_angle)).to("").magnitude)
        return from_si(air * squeezed**n, "bar")
