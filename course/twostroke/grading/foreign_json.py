"""JSON that somebody else wrote: read so that everything in it can be written to a file again."""

from __future__ import annotations

import json
import re
from typing import Any

_HALF = re.compile(r"\\u[dD][89a-fA-F]")


def read_json(text: str) -> Any:
    r"""Return the content; half characters, which JSON may spell and no file can hold, become question marks.

    Raises
    ------
    ValueError
        When it is no JSON.

    Examples
    --------
    >>> read_json(r'["gap \ud800", "\ud83d\ude00"]') == ["gap ?", "\N{GRINNING FACE}"]
    True
    """
    found = json.loads(text)
    if _HALF.search(text) is None:
        return found
    return json.loads(json.dumps(found, ensure_ascii=False).encode("utf-8", "replace"))
