"""Still pictures of the lessons' figures, for pages that run nothing."""

from __future__ import annotations

from pathlib import Path


def figures(top: Path) -> dict[str, bytes]:
    """Every figure of the lessons that a clone has masters for, at its starting values.

    Parameters
    ----------
    top : Path
        Top of the clone.

    Returns
    -------
    dict
        ``figure_NN_id.svg`` -> bytes.
    """
    from twostroke.lesson import content

    numbers = sorted(path.name[:2] for path in (top / "course" / "text" / "lessons").glob("*.py"))
    return {
        f"figure_{number}_{figure.id}.svg": f"{figure.still().svg}\n".encode()
        for number in numbers
        for figure in content.load(number).figures
    }
