"""What is still possible and why, what a reading excluded, what each open test would tell."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from twostroke.isolation.belief import Belief, Evidence
from twostroke.isolation.feedback import likeliest, listed, percent
from twostroke.isolation.planner import Advice, Planner
from twostroke.table import Table

if TYPE_CHECKING:
    from matplotlib.figure import Figure

STILL_POSSIBLE = 0.02
SPEAKS_FOR = 1.5
INK, PALE = "#1f3a5f", "#c9d3e0"


@dataclass(frozen=True)
class Possible:
    """One fault that is still possible: its chance, and the readings that speak for and against it."""

    fault: str
    name: str
    chance: float
    speaks_for: list[str]
    against: list[str]


@dataclass(frozen=True)
class OpenTest:
    """What one open test would tell and cost.

    `splits` holds, for each result, its words, its chance, and the likeliest fault if it comes.
    """

    test: str
    name: str
    minutes: float
    expected_cost: float
    bits: float
    splits: list[tuple[str, float, str]]


@dataclass(frozen=True)
class Explanation:
    """A belief in words and as a picture.

    Attributes
    ----------
    possible : list of Possible
        Likeliest first, down to a chance of 2 %.
    rest : float
        Chance of all faults that are not listed.
    excluded : list of str
        What the last reading as good as excluded.
    tests : list of OpenTest
        Best first.
    """

    possible: list[Possible]
    rest: float
    excluded: list[str]
    tests: list[OpenTest]
    two_faults: float
    title: str

    def words(self) -> list[str]:
        """The explanation as sentences."""
        out = [self.title]
        for row in self.possible:
            text = f"{row.name}: {percent(row.chance)}"
            if row.speaks_for:
                text += f"; for it: {listed(row.speaks_for)}"
            if row.against:
                text += f"; against it: {listed(row.against)}"
            out.append(text + ".")
        if self.rest >= 0.005:
            out.append(f"All other faults together: {percent(self.rest)}.")
        if self.two_faults >= 0.005:
            out.append(f"Two faults at once: {percent(self.two_faults)}.")
        if self.excluded:
            out.append(f"The last reading as good as excludes {listed(self.excluded)}.")
        for test in self.tests:
            told = "; ".join(
                f"{words} ({percent(chance)}): then {then}" for words, chance, then in test.splits
            )
            out.append(f"{test.name}, {test.minutes:g} min: {told}.")
        return out

    def figure(self) -> Figure:
        """Bars of what is still possible, and beside them what each open test would tell a minute."""
        from matplotlib.figure import Figure  # half a second that most users of the planner need not wait for

        figure = Figure(
            figsize=(9.0, 0.9 + 0.36 * max(len(self.possible) + 1, len(self.tests))), layout="constrained"
        )
        left, right = figure.subplots(1, 2, width_ratios=[3, 2])
        names = [row.name for row in self.possible] + ["all others"]
        chances = [100 * row.chance for row in self.possible] + [100 * self.rest]
        _bars(left, names, chances, "chance (%)", "Still possible", "{:.0f}")
        rate = [10 * test.bits / max(test.minutes, 1e-9) for test in self.tests]
        _bars(right, [test.name for test in self.tests], rate, "bits in ten minutes", "Open tests", "{:.1f}")
        return figure

    def alt(self) -> str:
        """One sentence that says what the picture shows."""
        if not self.possible:
            return "Bar chart: no single fault has a chance above 2 %."
        first = self.possible[0]
        text = f"Bar chart of what is still possible: {first.name} leads with {percent(first.chance)}"
        if len(self.possible) > 1:
            text += f", then {self.possible[1].name} with {percent(self.possible[1].chance)}"
        return text + "; beside it what each open test would tell a minute."


def _bars(axes, names: list[str], values: list[float], label: str, title: str, form: str) -> None:
    places = range(len(names))
    axes.barh(places, values, color=PALE, edgecolor=INK, hatch="//", linewidth=1.0)
    axes.set_yticks(places, [_wrap(name) for name in names], fontsize=8)
    axes.invert_yaxis()
    for place, value in zip(places, values, strict=True):
        axes.annotate(" " + form.format(value), (value, place), va="center", fontsize=8)
    axes.set_xlabel(label, fontsize=8)
    axes.set_title(title, fontsize=10, loc="left")
    axes.spines[["top", "right"]].set_visible(False)
    axes.margins(x=0.15)


def _wrap(text: str, width: int = 38) -> str:
    if len(text) <= width:
        return text
    cut = text.rfind(" ", 0, width)
    return f"{text[:cut]}\n{text[cut + 1 :]}" if cut > 0 else text


def explain(belief: Belief, tests: int = 6) -> Explanation:
    """Explain a belief.

    Parameters
    ----------
    belief : Belief
    tests : int
        How many open tests are shown, best first.

    Returns
    -------
    Explanation

    Examples
    --------
    >>> from twostroke.isolation import load_table
    >>> belief = Belief(load_table(), "no_start").update("known_good_plug", "none")
    >>> explanation = explain(belief, tests=1)
    >>> explanation.possible[0].name
    'ignition module open or dead'
    >>> len(explanation.words()) > 3
    True
    """
    table = belief.table
    shown = [
        (fault, chance) for fault, chance in likeliest(belief, len(table.faults)) if chance >= STILL_POSSIBLE
    ]
    readings = _readings(belief)
    possible = []
    for fault, chance in shown:
        number = belief.model.index[fault]
        pro = [words for words, ratios in readings if ratios[number] >= SPEAKS_FOR]
        contra = [words for words, ratios in readings if ratios[number] <= 1 / SPEAKS_FOR]
        possible.append(Possible(fault, table.faults[fault].name, chance, pro, contra))
    singles = belief.vector[: belief.model.size]
    hidden = [number for number, name in enumerate(belief.model.faults) if name not in dict(shown)]
    advice = [row for row in Planner(table).rank(belief) if row.kind == "test"][:tests]
    return Explanation(
        possible=possible,
        rest=float(singles[hidden].sum()),
        excluded=_excluded(belief),
        tests=[_open(belief, row) for row in advice],
        two_faults=belief.two_faults,
        title=_title(belief),
    )


def _title(belief: Belief) -> str:
    table, complaint = belief.table, belief.complaint
    said = "No complaint is known." if complaint is None else f"Complaint: {complaint.replace('_', ' ')}."
    if complaint is not None and table.complaint is not None:
        said = f"Complaint: {table.complaint.words.get(complaint, complaint.replace('_', ' '))}."
    count = sum(entry.kind == "test" for entry in belief.evidence)
    return f"{said} {count} reading{'' if count == 1 else 's'} so far."


def _spoken(table: Table, entry: Evidence) -> str:
    if entry.kind == "repair":
        return f"{table.repairs[entry.action].name or entry.action} done"
    if entry.kind == "verify":
        return "the verify run, passed" if entry.result == "runs" else "the verify run, not passed"
    test = table.tests[entry.action]
    return f"{test.say(str(entry.result))} ({test.name or entry.action.replace('_', ' ')})"


def _readings(belief: Belief) -> list[tuple[str, list[float]]]:
    """For the complaint and each reading: how much likelier it is with each single fault than before."""
    table, model = belief.table, belief.model
    out = []
    vector = model.prior
    if belief.complaint is not None and table.complaint is not None:
        chance = model.complaint(belief.complaint)
        words = table.complaint.words.get(belief.complaint, belief.complaint.replace("_", " "))
        out.append((f"“{words}”", (chance[: model.size] / (vector @ chance)).tolist()))
        vector = vector * chance / (vector @ chance)
    for entry in belief.evidence:
        after = belief.weigh(vector, entry)
        total = float(after.sum())
        if entry.kind == "test":
            column = model.column(entry.action, str(entry.result), str(entry.condition))
            out.append((_spoken(table, entry), (column[: model.size] / total).tolist()))
        vector = after / total
    return out


def _excluded(belief: Belief) -> list[str]:
    """Faults that the last reading took from 4 % or more to under 1 %."""
    if not belief.evidence:
        return []
    before = Belief(belief.table, belief.complaint, belief.model.pairs)
    before.replay(belief.evidence[:-1])
    was, now = before.probabilities(), belief.probabilities()
    gone = [fault for fault in now if was[fault] >= 0.04 and now[fault] < 0.01]
    return [belief.table.faults[fault].name for fault in sorted(gone, key=lambda f: -was[f])]


def _open(belief: Belief, advice: Advice) -> OpenTest:
    test = belief.table.tests[advice.action]
    splits = []
    for result, chance in belief.foretell(advice.action).items():
        if chance >= 0.005:
            then = likeliest(belief.copy().update(advice.action, result), 1)[0]
            words = f"{belief.table.faults[then[0]].name} {percent(then[1])}"
            splits.append((test.say(result), chance, words))
    name = test.name or advice.action.replace("_", " ")
    return OpenTest(advice.action, name, advice.minutes, advice.expected_cost, advice.information, splits)
