"""The shop's own figures: labour, tax, supplies, and when a repair is worth it."""

from __future__ import annotations

import tomllib
from importlib.resources import files
from pathlib import Path
from typing import Annotated, Any, Self

from pydantic import Field, model_validator

from twostroke.table import TableError
from twostroke.table.model import Part
from twostroke.table.reader import build

Amount = Annotated[float, Field(ge=0.0, le=1e6)]
Percent = Annotated[float, Field(ge=0.0, le=100.0)]
Share = Annotated[float, Field(gt=0.0, le=5.0)]


class Shop(Part):
    """What a shop charges, and its rule for repair or replace.

    Attributes
    ----------
    labour_per_hour, least_minutes : float
        Price of an hour, and the shortest time that is charged.
    tax_percent : float
        On labour, parts and supplies.
    supplies_percent, supplies_most : float
        Shop supplies as a share of labour, and their upper end.
    repair_up_to, replace_from : float
        Shares of the price of a like machine.
    value : dict
        Price of a like machine by kind.
    """

    name: Annotated[str, Field(min_length=2)]
    invented: bool = False
    currency: Annotated[str, Field(min_length=1, max_length=8)] = "EUR"
    labour_per_hour: Amount
    least_minutes: Amount = 0.0
    tax_percent: Percent = 0.0
    supplies_percent: Percent = 0.0
    supplies_most: Amount = 1e6
    repair_up_to: Share = 0.5
    replace_from: Share = 0.8
    value: dict[str, Amount] = Field(default_factory=dict)

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.repair_up_to > self.replace_from:
            raise ValueError(
                f"repair_up_to {self.repair_up_to:g} is above replace_from {self.replace_from:g}; "
                "give the smaller share to repair_up_to"
            )
        return self


def load_shop(path: str | Path | None = None) -> Shop:
    """A shop's figures from a TOML file; the course's invented shop when left out.

    Parameters
    ----------
    path : str or Path, optional

    Returns
    -------
    Shop

    Raises
    ------
    TableError
        No such file, no TOML, or a figure that is none; the message names it.

    Examples
    --------
    >>> load_shop().invented
    True
    """
    place = Path(str(files("twostroke") / "data" / "shop.toml")) if path is None else Path(path)
    try:
        content = tomllib.loads(place.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise TableError(f"{place}: there is no such file; check the folder and the name") from None
    except (OSError, UnicodeDecodeError) as error:
        raise TableError(f"{place}: cannot be read ({error}); save it as a UTF-8 text file") from None
    except tomllib.TOMLDecodeError as error:
        raise TableError(f"{place.name}: this is not readable TOML ({error})") from None
    return build(Shop, _floats(content), {}, place.name)


def _floats(content: dict[str, Any]) -> dict[str, Any]:
    """Whole numbers of a TOML file as the decimals that the form asks for."""
    out: dict[str, Any] = {}
    for key, value in content.items():
        if isinstance(value, dict):
            out[key] = _floats(value)
        else:
            out[key] = float(value) if type(value) is int else value
    return out
