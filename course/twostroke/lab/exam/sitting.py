"""One learner's sitting: the machine on the instructor's side, driven step by step, kept in the log."""

from __future__ import annotations

import threading
from typing import Any

from twostroke.bench import Bench, RouteError, replay
from twostroke.lab.bench_job import Scenario
from twostroke.lab.exam.cases import draw
from twostroke.lab.exam.place import ExamError, Place

MOST_STEPS = 120
_BUILT_IN = "hand_back"


class Sitting:
    """A machine, its log, and what may be told of it.

    Parameters
    ----------
    place : Place
    learner : str
    attempt : int

    Raises
    ------
    LogError
        The kept log was edited.
    ExamError
        The attempt before this one has not been handed back.

    Notes
    -----
    Steps are numbered. A step that is on the log already is answered from the log, the same again: a
    notebook that is run from its top, or that never got an answer, costs nothing. Another step under that
    number is refused.
    """

    def __init__(self, place: Place, learner: str, attempt: int):
        self.place, self.learner, self.attempt = place, learner, attempt
        self.lock = threading.Lock()
        self.log = place.log(learner, attempt)
        if attempt > 1 and not _closed(place, learner, attempt - 1):
            raise ExamError(f"attempt {attempt} opens when attempt {attempt - 1} has been handed back")
        self._scenario = draw(place.draws, learner, attempt)
        if not self.log.entries:
            self.log.add("open", {"learner": learner, "attempt": attempt, "case": self._scenario["id"]})
        self.bench = reopen(self._scenario, self.steps)

    @property
    def steps(self) -> list[dict[str, Any]]:
        """Records of the steps on the log."""
        return [entry.body for entry in self.log.entries if entry.kind in ("step", "end")]

    @property
    def closed(self) -> bool:
        """Whether the machine has been handed back."""
        return self.log.entries[-1].kind == "end"

    def opening(self) -> dict[str, Any]:
        """What the learner is told when the sitting is opened or gone on with."""
        bench = self.bench
        return {
            "title": bench.scenario.title,
            "complaint": bench.complaint,
            "history": list(bench.scenario.history),
            "actions": bench.actions(),
            "faults": {name: row.name for name, row in bench.table.faults.items()},
            "cautions": {name: f"{row.name}: {row.caution}" for name, row in bench.table.hazards.items()},
            "price": bench.price,
            "kept": [self._told(number) for number in range(len(self.steps))],
        }

    def do(self, number: int, action: str, settings: dict[str, Any]) -> dict[str, Any]:
        """Do a step, or give the kept answer of one that was done.

        Parameters
        ----------
        number : int
            Place of the step in the job, from 0.
        action : str
        settings : dict

        Returns
        -------
        dict
            What may be told of it; ``done`` false where the bench only said why not, and then nothing is
            kept.
        """
        asked = {"action": action, "settings": settings}
        kept = self._kept(number, asked)
        if kept is not None:
            return kept
        if action in (_BUILT_IN, "hand_on"):
            raise ExamError("hand the machine back with machine.hand_back(fault, how sure)")
        if settings.get("confirm") == "all" or settings.get("confirm") == ["all"]:
            raise ExamError(
                "name the cautions that you keep, in a list; machine.cautions() prints their names"
            )
        if "anyway" in settings:
            raise ExamError("'anyway' is not known in the examination: a caution is kept or it is not")
        known = self.bench.settings(action)
        for name in settings:
            if name not in known:
                raise ExamError(f"{action} takes no {name!r}: it takes {', '.join(known)}")
        reading = self.bench.do(action, **settings)
        if not reading.done:
            return {"done": False, "words": reading.words, "minutes": self.bench.minutes}
        self.log.add("step", {"asked": asked, "step": self.bench.route[-1].to_dict()})
        return self._told(number)

    def hand_back(self, number: int, diagnosis: str, confidence: float | str) -> dict[str, Any]:
        """Close the job; what became of the machine is kept and not told."""
        asked = {"action": _BUILT_IN, "settings": {"diagnosis": diagnosis, "confidence": confidence}}
        kept = self._kept(number, asked)
        if kept is not None:
            return kept
        self.bench.hand_back(diagnosis, confidence)
        body = {"asked": asked, "step": self.bench.route[-1].to_dict(), "parts": self.bench.parts_money}
        self.log.add("end", body)
        return self._told(number)

    def _kept(self, number: int, asked: dict[str, Any]) -> dict[str, Any] | None:
        steps = self.steps
        if number < len(steps):
            if steps[number]["asked"] == asked:
                return self._told(number)
            was = steps[number]["asked"]["action"]
            raise ExamError(
                f"step {number + 1} has been done already, and it was {was} with its settings as they "
                f"stood then; "
                "what is done stays done: leave its line as it was and write the next one below"
            )
        if number > len(steps):
            raise ExamError(
                f"step {number + 1} is asked for, and only {len(steps)} were done: run the cell from its top"
            )
        if self.closed:
            raise ExamError("the machine has been handed back: the examination is closed")
        if number >= MOST_STEPS - 1 and asked["action"] != _BUILT_IN:
            raise ExamError(f"{MOST_STEPS} steps are the most: hand the machine back")
        return None

    def _told(self, number: int) -> dict[str, Any]:
        """What a learner may know of a kept step: never what was wrong."""
        record = self.steps[number]
        step, asked = record["step"], record["asked"]
        told = {"done": True, "number": number, "action": asked["action"], "minutes": step["time"]}
        if asked["action"] == _BUILT_IN:
            last = self.log.entries[-1]
            receipt = self.place.receipt(self.learner, self.attempt, last.number, last.seal)
            words = f"handed back as: {step['diagnosis']}; parts that stayed in: {record['parts']:g}"
            return told | {"words": words, "receipt": receipt}
        reading = "; ".join(f"{name} {text}" for name, text in step["reading"].items())
        return told | {"words": step["words"], "reading": reading, "money": step["money"]}


def _closed(place: Place, learner: str, attempt: int) -> bool:
    entries = place.log(learner, attempt).entries
    return bool(entries) and entries[-1].kind == "end"


def reopen(scenario: Scenario, records: list[dict[str, Any]]) -> Bench:
    """Return the machine as it stands after the steps on a log.

    Raises
    ------
    ExamError
        When the machine does not give what the log says.
    """
    try:
        return replay([record["step"] for record in records], scenario, "lab", reminders=False)
    except (RouteError, KeyError, TypeError) as error:
        raise ExamError(
            f"the kept log is not what this machine gives ({error}): was the course renewed between? A "
            f"person must look"
        ) from None
