"""Pseudonyms for exports and reports: the same within a course, and nothing without the key file.

A pseudonym is a keyed hash of the identifier (HMAC, RFC 2104, with SHA-256). The key is made once for each
course, lies beside the gradebook as ``pseudonym.key``, and belongs into no export: who holds it can tell who
is who, who does not cannot, not even with the class list in hand. Text that came from outside (file names,
names typed inside, reasons that quote them) is left out whole and not searched for names.
"""

from __future__ import annotations

import base64
import hashlib
import hmac
import re
import secrets
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path

from twostroke.grading.classlist import ClassList
from twostroke.grading.files import write_once
from twostroke.grading.place import Course
from twostroke.grading.standing import Standing
from twostroke.grading.states import Cause, GradingError, Outcome, TaskResult

KEY_FILE = "pseudonym.key"
_KEY_BYTES = 32
_LETTERS = 12


class Pseudonyms:
    """Pseudonyms of one course.

    Parameters
    ----------
    key : bytes
        The secret, 32 bytes.
    classlist : ClassList, optional
        So that a learner has one pseudonym under all their names.

    Examples
    --------
    >>> names = Pseudonyms(bytes(32))
    >>> names("learner-01") == names("learner-01"), names("learner-01") == names("learner-02")
    (True, False)
    >>> Pseudonyms(bytes([1] * 32))("learner-01") == names("learner-01")
    False
    """

    def __init__(self, key: bytes, classlist: ClassList | None = None):
        if len(key) != _KEY_BYTES:
            raise GradingError(f"key of {len(key)} bytes: a pseudonym key has {_KEY_BYTES}")
        self._key, self._classlist = key, classlist or ClassList()

    @classmethod
    def of(cls, course: Course) -> Pseudonyms:
        """Return the pseudonyms of a course; its key is made at the first call.

        Raises
        ------
        GradingError
            When the key file is damaged.
        """
        return cls(_key(course.home / KEY_FILE), course.classlist)

    def __call__(self, learner: str) -> str:
        """Return the pseudonym of a learner, such as "p-k3q7xw2mzt5a"; safe as a file name.

        Parameters
        ----------
        learner : str
            Identifier, or any other name that the class list knows.
        """
        listed = self._classlist.find(learner)
        name = listed.id if listed is not None else learner
        digest = hmac.new(self._key, name.encode("utf-8"), hashlib.sha256).digest()
        return "p-" + base64.b32encode(digest).decode("ascii")[:_LETTERS].lower()

    def who(self, pseudonym: str, learners: Iterable[str]) -> str | None:
        """Return the learner behind a pseudonym, or None; only with the key, and by trying each.

        Examples
        --------
        >>> names = Pseudonyms(bytes(32))
        >>> names.who(names("b"), ["a", "b", "c"])
        'b'
        """
        wanted = pseudonym.strip().lower()
        return next((each for each in learners if self(each) == wanted), None)

    def standings(self, found: Sequence[Standing]) -> list[Standing]:
        """Return standings for an export under pseudonyms, in the order of the pseudonyms.

        Parameters
        ----------
        found : sequence of Standing

        Returns
        -------
        list of Standing
            Marks, states and kinds of reason as they were. The file's name, the name typed inside, notes, the
            details of reasons and texts that a person marks are left out, for they may name somebody; the
            order is another, for the order of a class list tells too.
        """
        return sorted((self._standing(each) for each in found), key=lambda each: each.learner)

    def _standing(self, standing: Standing) -> Standing:
        outcome = standing.outcome
        written = {task.task for task in outcome.tasks if task.marked == "by hand"}
        hidden = Outcome(  # built anew, so that what is added to an outcome later does not slip through
            learner=self(outcome.learner),
            lab=outcome.lab,
            state=outcome.state,
            causes=[Cause(reason=cause.reason) for cause in outcome.causes],
            tasks=_silent(outcome.tasks),
            release=outcome.release,
            answers={task: given for task, given in outcome.answers.items() if task not in written},
            handed_in=outcome.handed_in,
        )
        open_causes = dict.fromkeys(Cause(reason=cause.reason) for cause in standing.causes)
        tasks = tuple(_silent(standing.tasks))
        return replace(standing, outcome=hidden, causes=tuple(open_causes), tasks=tasks, comments={})


def _silent(tasks: Iterable[TaskResult]) -> list[TaskResult]:
    """Marks without what was said of each step, which may quote an answer."""
    return [task.model_copy(update={"steps": ()}) for task in tasks]


def _key(file: Path) -> bytes:
    """Read the key, or make it: whole at once, readable to its owner only, never a second one."""
    if not file.exists():
        write_once(file, f"{secrets.token_hex(_KEY_BYTES)}\n".encode("ascii"))
    text = file.read_text(encoding="ascii", errors="replace").strip()
    if re.fullmatch(r"[0-9a-f]{64}", text) is None:
        raise GradingError(
            f"{file}: no pseudonym key (64 digits 0-9 a-f on one line); put back a copy of it, or "
            "take it away for new pseudonyms that match no earlier export"
        )
    return bytes.fromhex(text)
