"""What a shop puts in place of the course's own figures: its fault table, and its prices for job cards."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from twostroke.jobcard import Shop, load_shop
from twostroke.table import Table, load_table

_MANUAL = "The maker's manual for your machine, local codes and licensed practice come first."
ESTIMATE = f"The table behind this is a teaching estimate, not service data. {_MANUAL}"
_MOVED = 1.05
"""A rate that is this many times the course's own, or less than one over it, is shown as changed."""


@dataclass(frozen=True)
class OwnShop:
    """A shop's own figures; without any, the course's.

    Attributes
    ----------
    own_table : Table or None
        Used for own machines; demo machines keep the course's table.
    figures : Shop or None
        Labour, tax and supplies on job cards.
    """

    own_table: Table | None = None
    figures: Shop | None = None

    @classmethod
    def read(cls, table: Path | None = None, shop: Path | None = None) -> OwnShop:
        """From files.

        Parameters
        ----------
        table : Path, optional
            A fault table, such as ``twostroke shop priors --out`` writes it.
        shop : Path, optional
            The shop's figures, TOML.

        Raises
        ------
        TableError
            A file that cannot be read; the message names it.
        """
        return cls(None if table is None else load_table(table), None if shop is None else load_shop(shop))

    @property
    def table(self) -> Table:
        """The table for own machines."""
        return load_table() if self.own_table is None else self.own_table

    @property
    def ground(self) -> str:
        """What the chances on the screen rest on.

        Examples
        --------
        >>> OwnShop().ground.startswith("The table behind this is a teaching estimate")
        True
        """
        if self.own_table is None:
            return ESTIMATE
        meta = self.own_table.meta
        whose = " of ".join(
            ["the shop's own table", *([meta.shop] if meta.shop not in ("", "the shop") else [])]
        )
        told = ", ".join(part for part in (meta.day, meta.title) if part)
        return f"How often a fault is expected comes from {whose} ({told}). {_MANUAL}"

    def changes(self, most: int = 8) -> list[str]:
        """Rates that differ from the course's table, the largest change first, in words.

        Examples
        --------
        >>> OwnShop().changes()
        []
        """
        if self.own_table is None:
            return []
        course, found = load_table().faults, []
        for name, row in self.own_table.faults.items():
            before = course[name].rate if name in course else 0.0
            ratio = row.rate / before if before else float("inf")
            if not 1 / _MOVED < ratio < _MOVED:
                words = f"{row.name}: {before:.1f} → {row.rate:.1f} per 1 000 complaints"
                found.append((max(ratio, 1 / ratio if ratio else float("inf")), words))
        return [words for _, words in sorted(found, key=lambda row: -row[0])[:most]]
