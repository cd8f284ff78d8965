"""Bench cards as files: each lesson's page, and the whole set for the workshop wall."""

from __future__ import annotations

import tempfile
from pathlib import Path


def cards(top: Path) -> dict[str, bytes]:
    """Every bench card of the lessons that a clone has masters for.

    Parameters
    ----------
    top : Path
        Top of the clone.

    Returns
    -------
    dict
        Names below assets/cards and their bytes; nothing where the clone has no lessons.
    """
    from twostroke.lesson import card

    if not any((top / "course" / "text" / "lessons").glob("*.py")):
        return {}
    with tempfile.TemporaryDirectory(prefix="twostroke-cards-") as folder:
        return {path.name: path.read_bytes() for path in card.write(folder)}
