"""The learner's side of the examination: the calls of the bench, answered by the service."""

from __future__ import annotations

import json
import urllib.error
import urllib.request
from typing import Any

from twostroke.lab.draw import fold
from twostroke.lab.exam.place import ExamError, read_ticket

SECONDS = 120
_LARGEST = 1_000_000


class ExamDesk:
    """The bench of the examination as a notebook shows it: each step prints what is seen, nothing is raised.

    Parameters
    ----------
    ticket : str
        Line that the instructor gave out; empty before it is written in.
    learner : str or None
        As typed at the top of the notebook.
    attempt : int
        As typed at the top of the notebook.
    deaf : bool
        True in grading, where nothing is asked: the service's log is what counts.

    Attributes
    ----------
    receipt : str
        Printed when the machine is handed back.

    Notes
    -----
    The machine, its fault and the secret are in another process. Steps are numbered from the top of the
    cell; a step that was done before is answered again from the service's log and costs nothing.
    """

    def __init__(self, ticket: str, learner: str | None, attempt: int, deaf: bool = False):
        self._deaf = deaf
        self._next = 0
        self._opening: dict[str, Any] = {}
        self.receipt = ""
        self._why_not = "" if deaf else self._begin(ticket, learner, attempt)

    def __repr__(self) -> str:
        if self._deaf:
            return "Done on the examination's service."
        if self._why_not:
            return self._why_not
        told = [
            self._opening["title"],
            f"The owner says: {self._opening['complaint']}",
            *self._opening["history"],
        ]
        done = len(self._opening["kept"])
        return "\n".join(
            [*told, f"Steps on the log so far: {done}." if done else "Nothing has been done yet."]
        )

    def do(self, action: str, **settings: Any) -> None:
        """Do one step and print what it shows, with the minutes on the clock."""
        told = self._ask("do", {"place": self._next, "action": action, "settings": settings}, action)
        if told is None:
            return
        reading = f"{told['reading']}. " if told.get("reading") else ""
        print(f"{told['minutes']:5.0f} min  {action}: {reading}{told['words']}")
        self._next += bool(told["done"])

    def hand_back(self, diagnosis: str, confidence: float | str) -> None:
        """Give the machine back with a diagnosis and how sure you are; the receipt is printed."""
        body = {"place": self._next, "diagnosis": diagnosis, "confidence": confidence}
        told = self._ask("hand_back", body, "hand_back")
        if told is None:
            return
        self.receipt = told["receipt"]
        self._next += 1
        print(f"{told['minutes']:5.0f} min  {told['words']}")
        print(f"Receipt: {self.receipt}")

    def actions(self) -> None:
        """Print everything that can be done, by name."""
        self._list("actions")

    def faults(self) -> None:
        """Print the faults that can be named at hand-back."""
        self._list("faults")

    def cautions(self) -> None:
        """Print the cautions that can be kept, by name."""
        self._list("cautions")

    def _list(self, what: str) -> None:
        if self._why_not:
            print(self._why_not)
        elif not self._deaf:
            print("\n".join(f"{name}: {words}" for name, words in self._opening[what].items()))

    def _begin(self, ticket: str, learner: str | None, attempt: int) -> str:
        """Open the sitting, or go on with it; return why it cannot be done, or nothing."""
        if learner is None:
            return "First write your name or number in the cell at the top, and run it."
        if not str(ticket).strip():
            return "First write your ticket between the quotes: the line that your instructor gave you."
        try:
            address, named, number, self._token = read_ticket(ticket)
            if fold(named) != fold(learner) or number != attempt:
                return (
                    f"This ticket is for {named}, attempt {number}; at the top stands {learner}, attempt "
                    f"{attempt}. "
                    "Write both as they stand in the ticket."
                )
            self._address, self._sitting = address, {"learner": named, "attempt": number}
            self._opening = self._call("open", {})
        except ExamError as error:
            return str(error)
        return ""

    def _ask(self, call: str, body: dict[str, Any], what: str) -> dict[str, Any] | None:
        if self._deaf:
            return None
        if self._why_not:
            print(self._why_not)
            return None
        try:
            return self._call(call, body)
        except ExamError as error:
            print(f"{what}: {error}")
            return None

    def _call(self, call: str, body: dict[str, Any]) -> dict[str, Any]:
        try:
            data = json.dumps({**self._sitting, **body}, allow_nan=False).encode()
        except (TypeError, ValueError):
            raise ExamError("write settings as text, numbers, True or False, or a list of names") from None
        request = urllib.request.Request(
            f"{self._address}/v1/{call}",
            data,
            {"Content-Type": "application/json", "Authorization": f"Bearer {self._token}"},
        )
        try:
            with urllib.request.urlopen(request, timeout=SECONDS) as answer:
                found: dict[str, Any] = json.loads(answer.read(_LARGEST))
                return found
        except urllib.error.HTTPError as error:
            raise ExamError(_said(error)) from None
        except (OSError, ValueError):
            raise ExamError(
                f"the examination's service at {self._address} does not answer; nothing that was done is "
                f"lost. Tell the "
                "instructor, then run the cell again from its top"
            ) from None


def _said(error: urllib.error.HTTPError) -> str:
    try:
        return str(json.loads(error.read(_LARGEST))["said"])
    except (OSError, ValueError, KeyError, TypeError):
        return f"the service refused it ({error.code})"
