"""What is still possible, and how likely: an exact Bayes update over single faults, pairs and "other"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from twostroke.isolation.model import Array, Place, model_of
from twostroke.sources import formula
from twostroke.table import CONDITIONS, Table, TableError, unknown

_SPOKEN = {"shaken": "shake", "warm": "hot"}
IMPOSSIBLE = 1e-290


class ContradictionError(TableError):
    """Readings that cannot all be true under any fault of the table.

    Attributes
    ----------
    readings : list of str
        The fewest readings that already exclude each other.
    """

    def __init__(self, message: str, readings: list[str]) -> None:
        super().__init__(message)
        self.readings = readings


@dataclass(frozen=True)
class Evidence:
    """One thing learned: a test with its result, a repair done, or a verify run with its outcome."""

    action: str
    result: str | None = None
    condition: str | None = None
    kind: str = "test"
    conditions: tuple[str, ...] = ()
    at_last: bool = True


class Belief:
    """Chances of all faults, given the complaint and what was read so far.

    Parameters
    ----------
    table : Table
        From :func:`twostroke.table.load_table`.
    complaint : str, optional
        Kind of complaint; its words are evidence too.
    pairs : bool
        Whether two faults at once are considered.

    Raises
    ------
    TableError
        Unknown complaint.

    Notes
    -----
    The prior, intermittent faults, noisy-MAX for two faults and the repeat rule are described in
    :mod:`twostroke.isolation.model`. The belief also keeps which covers are off, how warm the machine is and
    what has been read, because they decide what the next test can tell and costs.

    Examples
    --------
    >>> from twostroke.isolation import load_table
    >>> belief = Belief(load_table(), "no_start")
    >>> _ = belief.update("known_good_plug", "none").update("stop_lead_off", "spark_returns")
    >>> max(belief.probabilities(), key=belief.probability)
    'stop_switch'
    """

    def __init__(self, table: Table, complaint: str | None = None, pairs: bool = True) -> None:
        self.table = table
        self.complaint = complaint
        self.model = model_of(table, pairs)
        self._columns = self.model.columns
        self._start()
        self.evidence: list[Evidence] = []

    def _start(self) -> None:
        self.vector: Array = self.model.start(self.complaint)
        self.place = Place()
        self._last: dict[tuple[str, str], int] = {}

    def copy(self) -> Belief:
        """An independent copy."""
        twin = Belief.__new__(Belief)
        twin.__dict__.update(self.__dict__)
        twin.evidence = list(self.evidence)
        twin._last = dict(self._last)
        return twin

    # reading --------------------------------------------------------------------------------------

    def probabilities(self) -> dict[str, float]:
        """Chance of each fault, alone or as one of two.

        Returns
        -------
        dict
            Fault to chance. With pairs the chances add up to more than 1, after a repair to less.
        """
        return dict(zip(self.model.faults, self.model.marginal(self.vector).tolist(), strict=True))

    def probability(self, fault: str) -> float:
        """Chance of one fault, alone or as one of two."""
        if fault not in self.model.index:
            raise unknown("fault", fault, self.model.faults)
        return float(self.model.marginal(self.vector)[self.model.index[fault]])

    @property
    def two_faults(self) -> float:
        """Chance that there are two faults."""
        return float(self.vector[self.model.size : self.model.fixed].sum())

    @property
    def cured(self) -> float:
        """Chance that nothing is wrong any more."""
        return float(self.vector[self.model.fixed])

    @property
    def proven(self) -> bool:
        """Whether a verify run was passed since the last repair."""
        for entry in reversed(self.evidence):
            if entry.kind != "test":
                return entry.kind == "verify" and entry.result == "runs"
        return False

    def posterior(self, readings: Sequence[tuple[str, str]], condition: str = "cold") -> Array:
        """Chances of all hypotheses if these tests gave these results now; the belief stays as it is.

        Parameters
        ----------
        readings : sequence of (test, result)
            Tests not made before under this condition.
        condition : str

        Returns
        -------
        array
            In the order of the model's hypotheses.
        """
        vector = self.vector
        for test, result in readings:
            column = self._columns.get((test, result, condition))
            if column is None:
                column = self.model.column(test, result, condition)
            vector = vector * column
        total = vector.sum()
        if total < IMPOSSIBLE:
            raise TableError(f"{readings} cannot all be true under any fault of this table")
        return vector / total

    def foretell(self, test: str, condition: str | None = None) -> dict[str, float]:
        """Chance of each result of a test, before it is made.

        Examples
        --------
        >>> from twostroke.isolation import load_table
        >>> chances = Belief(load_table(), "no_start").foretell("plug_tight")
        >>> round(chances["tight"], 2)
        0.97
        """
        likelihood = self.likelihood(test, self._condition(test, condition))
        return dict(zip(self.table.tests[test].results, (self.vector @ likelihood).tolist(), strict=True))

    def likelihood(self, test: str, condition: str) -> Array:
        """P(result | hypothesis) for the next run of a test; a repeat mostly repeats its own result."""
        fresh = self.model.likelihood(test, condition)
        last = self._last.get((test, condition))
        if last is None:
            return fresh
        rho = self.table.meta.repeat_corr
        out = (1 - rho) * fresh
        out[:, last] += rho
        return out

    @property
    def repeated(self) -> dict[tuple[str, str], int]:
        """Tests already made on the machine as it is, with their condition and the number of their result."""
        return self._last

    # learning -------------------------------------------------------------------------------------

    @formula(
        "P(fault | readings) is P(fault) times the chance of each reading given it, over their sum",
        "bayes",
        module="isolation",
    )
    def update(self, test: str, result: str, condition: str | None = None) -> Belief:
        """Learn the result of a test.

        Parameters
        ----------
        test, result : str
            Names of the table.
        condition : str, optional
            ``cold``, ``hot`` or ``shake``; without it the condition that the test brings with it, else the
            machine's present state.

        Returns
        -------
        Belief
            The same object, so that calls can be chained.

        Raises
        ------
        TableError
            Unknown test, result or condition.
        ContradictionError
            The readings cannot all be true; the belief stays as it was.
        """
        run = self._condition(test, condition)
        key = (test, result, run)
        column = self._columns.get(key)
        if column is None:
            column = self.model.column(test, result, run)
        number = self.model.result_number(test, result)
        last = self._last.get((test, run))
        if last is not None:
            rho = self.table.meta.repeat_corr
            column = (1 - rho) * column + (rho if last == number else 0.0)
        vector = self.vector * column
        total = vector.sum()
        if total < IMPOSSIBLE:
            raise self._contradiction(Evidence(test, result, run))
        vector /= total
        self.vector = vector
        self._last[(test, run)] = number
        self.place = self.model.place_after(test, self.place, run)
        self.evidence.append(Evidence(test, result, run))
        return self

    def repair(self, repair: str) -> Belief:
        """Take note of a repair that was done; nothing is seen of its effect yet."""
        self.vector = self.model.after_repair(self.vector, repair)
        self.place = self.model.repair_step(repair, self.place)[1]
        self._last.clear()
        self.evidence.append(Evidence(repair, kind="repair"))
        return self

    def verify(self, passed: bool, conditions: Sequence[str] | None = None) -> Belief:
        """Learn the outcome of a verify run.

        Parameters
        ----------
        passed : bool
            Whether the machine started, ran and restarted.
        conditions : sequence of str, optional
            In which it was run, in order; when it did not pass, the last is the one in which it failed.
            Without it, the runs that this complaint asks for.
        """
        asked = [run.condition for run in self.model.verify_runs(self.complaint, self.place)]
        run = [self._known(condition) for condition in conditions] if conditions else asked
        at_last = bool(conditions) or len(run) == 1
        vector = self.vector * self.model.outcome(run, passed, at_last)
        total = vector.sum()
        word = "runs" if passed else "fails"
        entry = Evidence("verify", word, kind="verify", conditions=tuple(run), at_last=at_last)
        if total < IMPOSSIBLE:
            raise self._contradiction(entry)
        self.vector = vector / total
        self.place = self.model.runs_in(run, self.place)[-1].place
        self._last.clear()
        self.evidence.append(entry)
        return self

    def set_aside(self, action: str) -> Belief:
        """Leave the last reading of a test out of account, as if it had not been made.

        Raises
        ------
        TableError
            There is no such reading.
        """
        for number in range(len(self.evidence) - 1, -1, -1):
            if self.evidence[number].action == action:
                return self.replay(self.evidence[:number] + self.evidence[number + 1 :])
        raise unknown("reading so far", action, [entry.action for entry in self.evidence])

    def replay(self, entries: Sequence[Evidence]) -> Belief:
        """Begin again with the complaint alone and learn these entries, in order."""
        entries = list(entries)
        self.evidence = []
        self._start()
        for entry in entries:
            self._learn(entry)
        return self

    def _learn(self, entry: Evidence) -> None:
        if entry.kind == "test":
            self.update(entry.action, str(entry.result), entry.condition)
        elif entry.kind == "repair":
            self.repair(entry.action)
        else:
            self.verify(entry.result == "runs", entry.conditions if entry.at_last else None)

    # conditions and contradictions ----------------------------------------------------------------

    @staticmethod
    def _known(condition: str) -> str:
        spoken = _SPOKEN.get(condition, condition)
        if spoken not in CONDITIONS:
            raise unknown("condition", condition, CONDITIONS)
        return spoken

    def _condition(self, test: str, condition: str | None) -> str:
        if condition is not None:
            return self._known(condition)
        row = self.table.tests.get(test)
        if row is None:
            raise unknown("test", test, self.table.tests)
        return row.condition(self.place.temperature)

    def _contradiction(self, new: Evidence) -> ContradictionError:
        """The fewest entries which, with the new one, cannot all be true."""
        kept = [*self.evidence]
        for entry in [*self.evidence]:
            without = [other for other in kept if other is not entry]
            if not self._possible([*without, new]):
                kept = without
        clash = [_spoken(self.table, entry) for entry in [*kept, new]]
        if len(clash) == 1:
            message = (
                f"{clash[0]}: no fault of this table can give that result, and neither can a sound machine"
            )
            return ContradictionError(message + "; read it again, or correct the row of the table", clash)
        listed = "; ".join(clash)
        return ContradictionError(
            f"these readings cannot all be true: {listed}. Make one of them again, or set one aside "
            f"(set_aside('{kept[-1].action}') takes the earlier one out)",
            clash,
        )

    def _possible(self, entries: list[Evidence]) -> bool:
        vector = self.model.start(self.complaint)
        for entry in entries:
            vector = self.weigh(vector, entry)
        return bool(vector.sum() >= IMPOSSIBLE)

    def weigh(self, vector: Array, entry: Evidence) -> Array:
        """Shares of all hypotheses that are left by one more entry, repeats taken as independent."""
        if entry.kind == "test":
            return vector * self.model.column(entry.action, str(entry.result), str(entry.condition))
        if entry.kind == "repair":
            return self.model.after_repair(vector, entry.action)
        return vector * self.model.outcome(entry.conditions, entry.result == "runs", entry.at_last)


def _spoken(table: Table, entry: Evidence) -> str:
    if entry.kind == "repair":
        return f"{table.repairs[entry.action].name or entry.action} done"
    if entry.kind == "verify":
        return f"verify run ({', '.join(entry.conditions)}): {entry.result}"
    test = table.tests[entry.action]
    return f"{test.name or entry.action} ({entry.condition}): {test.say(str(entry.result))}"
