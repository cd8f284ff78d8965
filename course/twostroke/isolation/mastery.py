"""How far a competency is mastered, after each job that could show it: knowledge tracing.

The four figures are a choice for teaching, not a finding about anyone. One update a competency and job: the
steps inside a job hang together and must not be counted one by one.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from twostroke.errors import RangeError
from twostroke.sources import formula


@dataclass(frozen=True)
class Tracing:
    """Knowledge tracing of one competency: a chance that moves with each job.

    Parameters
    ----------
    start : float
        Chance (0 to 1) that it was mastered before the first job.
    learn : float
        Chance of coming to master it from one job to the next.
    forget : float
        Chance of losing it from one job to the next.
    slip : float
        Chance that one who has mastered it fails the job all the same.
    guess : float
        Chance that one who has not passes the job all the same.

    Raises
    ------
    RangeError
        A chance outside 0 to 1, or a pass that would not speak for mastery.

    References
    ----------
    Corbett and Anderson (1995), "Knowledge tracing", User Modeling and User-Adapted Interaction 4 (from
    memory). Without forgetting it is a hidden Markov model of two states.

    Examples
    --------
    >>> [round(chance, 3) for chance in Tracing().after([True, True, False])]
    [0.659, 0.91, 0.587]
    """

    start: float = 0.3
    learn: float = 0.1
    forget: float = 0.0
    slip: float = 0.1
    guess: float = 0.2

    def __post_init__(self) -> None:
        for name in ("start", "learn", "forget", "slip", "guess"):
            value = getattr(self, name)
            if not 0 <= value <= 1:
                raise RangeError(f"{name} {value}: a chance lies from 0 to 1")
        if self.guess >= 1 - self.slip:
            raise RangeError(
                f"guess {self.guess} with slip {self.slip}: a pass would not speak for mastery; "
                "guess and slip together must be below 1"
            )

    @formula("P = P(m) P(pass | m) / P(pass), then P + (1 - P) learn - P forget", "knowledge_tracing")
    def after(self, passed: Iterable[bool]) -> list[float]:
        """Chance of mastery after each job, oldest first.

        Parameters
        ----------
        passed : iterable of bool
            Whether each job was passed.

        Returns
        -------
        list of float
            One chance (0 to 1) a job.

        Examples
        --------
        >>> Tracing(start=1.0, slip=0.0).after([True])
        [1.0]
        """
        chance, out = self.start, []
        for number, good in enumerate(passed):
            before = chance if number == 0 else chance * (1 - self.forget) + (1 - chance) * self.learn
            known = before * ((1 - self.slip) if good else self.slip)
            unknown = (1 - before) * (self.guess if good else (1 - self.guess))
            chance = known / (known + unknown) if known + unknown else before
            out.append(chance)
        return out
