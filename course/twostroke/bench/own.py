"""A real machine on the same bench: readings are typed in, bands come from the maker's manual."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from twostroke.bench import asking
from twostroke.bench.asking import SESSION_ACTIONS
from twostroke.bench.guard import confirmed
from twostroke.bench.maker import band
from twostroke.bench.outcome import certainty
from twostroke.bench.reading import Reading, Shown, Step
from twostroke.bench.settings import number_of
from twostroke.errors import TwoStrokeError
from twostroke.table import Repair, Table, Test, for_machine, load_table, result_for, unknown
from twostroke.units import read, show

SETTINGS = {
    "reading": "what was seen: a number with its unit, or the table's word for it",
    "condition": "'cold', 'hot' or 'shake'; when left out, as the test is made, else as the machine is",
    "minutes": "how long it took; the table's minutes when left out",
    "money": "what the part cost; the table's price when left out",
    "confirm": "cautions that are kept: their names, or 'all'",
}
_RUNS = ("runs", "fails")
_BRINGS = {"warm_up": "hot", "cool_down": "cold"}
_UNIT_WORDS = {"turns": "turns"}


class OwnMachine:
    """Your own machine: the same calls as :class:`Bench`, with readings typed in.

    Parameters
    ----------
    complaint : str
        Complaint kind of the table, such as ``"no_start"``.
    learner : str
    bands : dict, optional
        From the maker's manual: quantity to text such as ``{"air_gap": "0.3-0.5 mm"}``.
        The bench has none of its own.
    features : iterable of str, optional
        What the machine has out of the table's features; everything when left out.
    table : Table, optional
        The course's own when left out.

    Examples
    --------
    >>> own = OwnMachine("no_start", "Anna", bands={"air_gap": "0.3-0.5 mm"})
    >>> own.do("air_gap", reading="35 thou").result
    'wide'
    >>> own.do("plug_look", reading="wet").words
    'Wet with fuel.'
    """

    def __init__(
        self,
        complaint: str,
        learner: str,
        bands: Mapping[str, str] | None = None,
        *,
        features: Iterable[str] | None = None,
        table: Table | None = None,
    ) -> None:
        whole = load_table() if table is None else table
        if complaint not in whole.complaints:
            raise unknown("complaint", complaint, whole.complaints)
        self.complaint = complaint
        self.learner = str(learner)
        self.bands_text = dict(bands or {})
        self.bands = {name: band(name, text) for name, text in self.bands_text.items()}
        has = whole.features if features is None else features
        self.table = for_machine(whole, has, None)
        self.route: list[Step] = []
        self.minutes = 0.0
        self.parts_money = 0.0
        self.opened: tuple[str, ...] = ()
        self.outcome: dict[str, Any] | None = None

    @property
    def cost(self) -> float:
        """Money so far: labour and parts."""
        return self.minutes * self.table.meta.money_per_minute + self.parts_money

    @property
    def temperature(self) -> str:
        """``cold`` or ``hot``, as the last step left the machine; cold as it came in."""
        for step in reversed(self.route):
            row = self.table.tests.get(step.action)
            left = _BRINGS.get(step.action) or (row.leaves if row is not None else None)
            known = [left] if left else [c for c in step.conditions if c != "shake"]
            if known:
                return str(known[-1])
        return "cold"

    def usual_condition(self, action: str) -> str:
        """State in which an action is done when none is said: a test's own, else as the machine is."""
        row = self.table.tests.get(action)
        return self.temperature if row is None else row.condition(self.temperature)

    def actions(self) -> dict[str, str]:
        """Everything that can be recorded, with what it is called."""
        names = {name: row.name or name for name, row in self.table.tests.items()}
        names |= {name: row.name or name for name, row in self.table.repairs.items()}
        names |= {name: row.name or name for name, row in self.table.access.items()}
        return names | {name: SESSION_ACTIONS[name] for name in ("warm_up", "cool_down", "wait", "verify")}

    def settings(self, action: str) -> dict[str, str]:
        """Settings that an action takes."""
        self._known(action)
        return dict(SETTINGS)

    def offer(self, action: str) -> tuple[str | None, list[str]]:
        """Nothing stands in the way of your own machine; the cautions that belong to an action."""
        self._known(action)
        return None, self._cautions(action)

    def do(self, action: str, **settings: Any) -> Reading:
        """Record what you did and what you saw.

        Parameters
        ----------
        action : str
            A test, repair or cover of the table, or ``verify``, ``warm_up``, ``cool_down``, ``wait``.
        **settings
            ``reading`` and others, see ``settings(action)``.

        Returns
        -------
        Reading
            ``result`` is the table's word; None where a number cannot be judged for want of a band.

        Raises
        ------
        TwoStrokeError
            Unknown action or setting, a reading without its unit or of the wrong kind.
        """
        self._known(action)
        for name in settings:
            if name not in SETTINGS:
                raise TwoStrokeError(f"{action} takes no {name!r}: it takes {', '.join(SETTINGS)}")
        if self.outcome is not None:
            return Reading(action, False, "The machine has been handed back: the job is closed.")
        cautions = self._cautions(action)
        kept = confirmed(settings.get("confirm"), cautions, self.table)
        condition = settings.get("condition") or self.usual_condition(action)
        if condition not in ("cold", "hot", "shake"):
            raise TwoStrokeError(f"condition={condition!r}: say 'cold', 'hot' or 'shake'")
        opening = self._opening(action)
        result, words, shown = self._seen(action, settings.get("reading"))
        minutes, money = self._charge(action, settings, opening)
        self.opened = (*self.opened, *opening)
        self.minutes = round(self.minutes + minutes, 4)
        self.parts_money = round(self.parts_money + money, 4)
        self.route.append(
            Step(
                action, {k: v for k, v in settings.items() if k != "confirm"},
                {s.name: s.text for s in shown}, words,
                result, minutes, money, self.minutes, (condition,), opening, tuple(kept),
            )
        )  # fmt: skip
        return Reading(action, True, words, result, shown, minutes, money, condition)

    def hand_back(
        self, diagnosis: str | None, confidence: float | str, *, hand_on: bool = False
    ) -> dict[str, Any]:
        """Close the job; what becomes of the machine only its owner will know.

        Returns
        -------
        dict
            Diagnosis, confidence, whether a verify run passed after the last repair in every condition that
            the complaint asks for, minutes and cost.
        """
        if self.outcome is not None:
            raise TwoStrokeError("the machine has been handed back already: begin a new job for it")
        if diagnosis is not None and diagnosis not in self.table.faults:
            raise unknown("fault", diagnosis, self.table.faults)
        sure = certainty(confidence)
        verified = self.verified()
        words = (
            "Proven by a verify run."
            if verified
            else "Not proven: no verify run in the complaint's own condition."
        )
        action = "hand_on" if hand_on else "hand_back"
        self.route.append(
            Step(action, {}, {}, words, None, 0.0, 0.0, self.minutes, diagnosis=diagnosis, confidence=sure)
        )
        self.outcome = {
            "diagnosis": diagnosis, "confidence": sure, "verified": verified, "handed_on": hand_on,
            "minutes": self.minutes, "parts_money": self.parts_money, "cost": self.cost, "words": words,
        }  # fmt: skip
        return self.outcome

    def verified(self) -> bool:
        """Whether a verify run passed, after the last repair, in all conditions of the complaint."""
        passed: set[str] = set()
        ran = False
        for step in self.route:
            if step.action in self.table.repairs or (step.action == "verify" and step.result == "fails"):
                passed.clear()
                ran = False
            elif step.action == "verify":
                passed.update(step.conditions)
                ran = True
        return ran and set(self.table.verify_conditions(self.complaint)) <= passed

    # how ------------------------------------------------------------------------------------------

    def _known(self, action: str) -> None:
        if action not in self.actions():
            raise unknown("test, repair, cover or bench action", action, list(self.actions()))

    def _row(self, action: str) -> Test | Repair | None:
        return self.table.tests.get(action) or self.table.repairs.get(action)

    def _opening(self, action: str) -> tuple[str, ...]:
        row = self._row(action)
        wanted = [action] if action in self.table.access else list(row.access) if row is not None else []
        return tuple(self.table.opening(wanted, set(self.opened)))

    def _cautions(self, action: str) -> list[str]:
        row = self._row(action)
        hazards = list(row.hazards) if row is not None else asking.hazards(self.table, action, {})
        if isinstance(row, Test) and row.temp == "hot" and self.temperature != "hot":
            hazards += self.table.meta.verify_hazards  # it is run until it is hot
        for name in self._opening(action):
            hazards += self.table.access[name].hazards
        return [name for name in self.table.hazards if name in hazards]

    def _charge(self, action: str, settings: dict[str, Any], opening: tuple[str, ...]) -> tuple[float, float]:
        row, meta = self._row(action), self.table.meta
        usual = {
            "verify": meta.verify_minutes, "warm_up": meta.cool_to_hot_minutes,
            "cool_down": meta.hot_to_cool_minutes,
            "wait": 5.0,
        }  # fmt: skip
        minutes = (row.minutes if row is not None else usual.get(action, 0.0)) + sum(
            self.table.access[name].minutes for name in opening
        )
        money = row.part if isinstance(row, Repair) else 0.0
        if "minutes" in settings:
            minutes = number_of(settings["minutes"], "minutes", 0.0, 10_000.0)
        if "money" in settings:
            money = settings["money"]
            if isinstance(money, bool) or not isinstance(money, int | float) or money < 0:
                raise TwoStrokeError(f"money={money!r}: give an amount of 0 or more")
        return minutes, float(money)

    def _seen(self, action: str, reading: object) -> tuple[str | None, str, tuple[Shown, ...]]:
        test = self.table.tests.get(action)
        if test is None:
            if action == "verify":
                if reading not in _RUNS:
                    raise TwoStrokeError(f"verify: reading={reading!r}; say 'runs' or 'fails'")
                return (
                    str(reading),
                    "It runs as it should." if reading == "runs" else "It still does what was complained of.",
                    (),
                )
            return None, "Noted.", ()
        if reading is None:
            raise TwoStrokeError(
                f"{action}: what was seen? Give reading= one of {', '.join(test.results)}{_or_number(test)}"
            )
        text = str(reading).strip()
        word = text.lower().replace(" ", "_").replace("-", "_")
        if word in test.results:
            said = test.say(word)
            return word, f"{said[:1].upper()}{said[1:]}.", ()
        if test.reading is None:
            raise TwoStrokeError(
                f"{action}: {text!r} is none of {', '.join(test.results)}; choose the nearest"
            )
        return self._judged(action, test, text)

    def _judged(self, action: str, test: Test, text: str) -> tuple[str | None, str, tuple[Shown, ...]]:
        reading = test.reading
        assert reading is not None
        value, display = _number(action, reading.unit, text)
        shown = (
            Shown(
                reading.quantity.replace("_", " "), value, reading.unit, display, 0.0, test.instrument or ""
            ),
        )
        limits = self.bands.get(reading.band or "")
        if reading.band and limits is None:
            what = reading.band.replace("_", " ")
            return None, f"Read as {display}. No band is known: type in the maker's for the {what}.", shown
        result = result_for(test, value, limits)
        against = f" (maker's band {self.bands_text[reading.band]})" if reading.band else ""
        return result, f"Read as {display}{against}: {test.say(result)}.", shown


def _number(action: str, unit: str, text: str) -> tuple[float, str]:
    """A typed reading in the unit of the table's ladder; an open circuit is very large."""
    if unit in ("ohm", "kohm") and text.upper().rstrip(".") in ("OL", "OPEN", "O.L", "INFINITE", "1."):
        return 1e9, "OL (open)"
    if unit in _UNIT_WORDS:
        bare = text.lower().removesuffix("turns").removesuffix("turn").strip().replace(",", ".")
        try:
            return float(bare), f"{float(bare):g} {unit}"
        except ValueError:
            raise TwoStrokeError(
                f"{action}: {text!r} is no number of turns; write it like '1.25 turns'"
            ) from None
    typed = read(text, unit, name=action)
    return float(typed.to(unit).magnitude), show(typed)


def _or_number(test: Test) -> str:
    return f", or a number in {test.reading.unit}" if test.reading else ""
