"""Plain words for the two slips of the keyboard that Python would answer with a traceback."""

from __future__ import annotations

import sys
from typing import Any

from twostroke.errors import TwoStrokeError


def plain(kind: type[BaseException], error: BaseException) -> str:
    """Return what a learner should read instead of a traceback.

    Parameters
    ----------
    kind : type
        SyntaxError, NameError or TwoStrokeError.
    error : BaseException
        The error.

    Returns
    -------
    str
        What is seen, what it suggests, what to check.

    Examples
    --------
    >>> print(plain(NameError, NameError("name 'mm' is not defined", name="mm")))
    Seen: the word mm outside quotes.
    It suggests: an answer without its quotes, or a cell above that was not run.
    Check: put the answer between two quotes, run the cells from the top.
    """
    if issubclass(kind, TwoStrokeError):
        return str(error)
    if issubclass(kind, SyntaxError):
        line = getattr(error, "lineno", None)
        where = f" in line {line} of this cell" if line else ""
        return (
            f"Seen: Python cannot read what stands{where}.\nIt suggests: a quote or bracket is missing.\n"
            'Check: an answer stands between two quotes, like "0.25 mm".'
        )
    name = getattr(error, "name", None) or "a word"
    return (
        f"Seen: the word {name} outside quotes.\nIt suggests: an answer without its quotes, or a cell above "
        "that was not run.\nCheck: put the answer between two quotes, run the cells from the top."
    )


def install() -> None:
    """Show plain words in this notebook for a missing quote, an unknown word, or an error of this course."""
    ipython = sys.modules.get("IPython")
    shell = ipython.get_ipython() if ipython is not None else None
    if shell is None:
        return

    def tell(
        shell: Any, kind: type[BaseException], error: BaseException, trace: Any, tb_offset: Any = None
    ) -> None:
        print(plain(kind, error))

    shell.set_custom_exc((SyntaxError, NameError, TwoStrokeError), tell)
