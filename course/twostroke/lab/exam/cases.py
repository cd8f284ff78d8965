"""The machines of the examination, and which of them with which fault a learner gets, by the secret."""

from __future__ import annotations

import hashlib
import hmac
import json
from bisect import bisect_right
from functools import lru_cache
from itertools import accumulate
from typing import Any

from twostroke.errors import TwoStrokeError
from twostroke.lab.bench_job import Scenario, Terms, judge, model_route, table_of
from twostroke.lab.draw import fold
from twostroke.lab.lab13_bench import BENCHES, Made

TERMS = Terms(full=70.0, pairs=True)
"""All points from the pass mark on; two faults at once are considered, as a technician must."""
MOST_TRIES = 200

WORDS: dict[str, tuple[str, ...]] = {
    "trimmer": (
        "It ran when I hung it up. Now I can pull as long as I like, cold or after a rest, and not a cough.",
        "My neighbour borrowed it. Since it came back it does not start at all, in the morning or at noon.",
    ),
    "auger": (
        "In the morning it takes me forty pulls. Once it has run, it starts again like always.",
        "First start of the day is a misery. After that, no trouble. It has become worse since autumn.",
    ),
    "cutter": (
        "It cut out as I swung round, and when I pushed the wires about it went, and then it did not.",
        "Since the cover was off for cleaning it goes and stops as it likes when the cables are touched.",
    ),
    "pump": (
        "It starts, it pumps, and after a while it fades away. If I leave it alone, it goes once more.",
        "A few minutes and it dies down by itself. I wait, I pull, it runs, and it dies down again.",
    ),
    "saw": (
        "It has lost its strength. It starts as ever, but in the cut it falls away under my hands.",
        "Starts, idles, and then no power to speak of. It was not so last year.",
    ),
}


class Stream:
    """Numbers that only who holds the secret can foretell: HMAC with SHA-256 of a name.

    Parameters
    ----------
    secret : bytes
    *words : object
        What the stream is for.

    References
    ----------
    RFC 2104, FIPS 198-1 (HMAC).
    """

    def __init__(self, secret: bytes, *words: object):
        self._key, self._words = secret, [str(word) for word in words]

    def number(self, name: str) -> int:
        """A whole number of 128 bits."""
        text = json.dumps([*self._words, name]).encode()
        return int.from_bytes(hmac.new(self._key, text, hashlib.sha256).digest()[:16], "big")

    def share(self, name: str) -> float:
        """A number from 0 to below 1."""
        return (self.number(name) >> 75) / 2.0**53


def weights(made: Made) -> dict[str, float]:
    """Return how likely each fault is on a machine with its complaint, as the table has it.

    Parameters
    ----------
    made : Made

    Returns
    -------
    dict
        Fault -> chance; those that a bench can have.
    """
    table = table_of(made.scenario(next(iter(made.numbers)), 1))
    complaint = table.complaint
    assert complaint is not None
    column = complaint.results.index(made.kind)
    found = {
        name: row.rate * complaint.hits.get(name, complaint.base)[column]
        for name, row in table.faults.items()
        if name in made.numbers
    }
    total = sum(found.values())
    return {name: value / total for name, value in found.items()}


def draw(secret: bytes, learner: str, attempt: int = 1) -> Scenario:
    """Return the machine of one learner's sitting, its fault included.

    Parameters
    ----------
    secret : bytes
        The cohort's.
    learner : str
    attempt : int
        Another attempt has another machine with another fault.

    Returns
    -------
    dict
        Content of a scenario.

    Notes
    -----
    The fault is drawn by rate and complaint, so that the table's chances are the honest ones. A draw is
    kept only when the adviser's own route passes on it, so that no learner gets a machine on which nobody
    could pass.
    """
    found: Scenario = json.loads(_draw(secret, fold(learner), attempt))
    return found


@lru_cache(maxsize=1024)
def _draw(secret: bytes, learner: str, attempt: int) -> str:
    earlier = [json.loads(_draw(secret, learner, number)) for number in range(1, attempt)]
    last = earlier[-1] if earlier else None
    faults = {each["truth"][0]["fault"] for each in earlier[-3:]}
    stream = Stream(secret, "draw", learner, attempt)
    for number in range(MOST_TRIES):
        found = _one(stream, number)
        if last is not None and found["machine"] == last["machine"]:
            continue
        if found["truth"][0]["fault"] not in faults and passes(found):
            return json.dumps(found, sort_keys=True)
    raise TwoStrokeError(f"none of {MOST_TRIES} machines can be passed: mend the list of machines and faults")


def _one(stream: Stream, number: int) -> Scenario:
    name = list(BENCHES)[stream.number(f"bench {number}") % len(BENCHES)]
    made = BENCHES[name]
    chances = weights(made)
    steps = list(accumulate(chances.values()))
    fault = list(chances)[min(bisect_right(steps, stream.share(f"fault {number}")), len(steps) - 1)]
    words = WORDS[name]
    content: dict[str, Any] = made.scenario(
        fault, stream.number(f"engine {number}"), words[stream.number(f"words {number}") % len(words)]
    )
    content["truth"][0]["severity"] = round(0.75 + 0.25 * stream.share(f"severity {number}"), 4)
    return content | {"id": f"exam_{name}"}


def passes(scenario: Scenario) -> bool:
    """Say whether the adviser's own route passes on a machine."""
    return judge(scenario, model_route(scenario, TERMS.pairs), TERMS).fraction == 1.0
