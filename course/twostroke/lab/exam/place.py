"""The folder of an examination: the cohort's secret, tickets made from it, one log a sitting.

It lies on the instructor's machine, outside the repository's files, and no learner's process can read it.
"""

from __future__ import annotations

import base64
import contextlib
import hashlib
import hmac
import os
import re
import secrets
from collections.abc import Iterator
from pathlib import Path

from twostroke.errors import TwoStrokeError
from twostroke.lab.draw import attempt_number, fold
from twostroke.lab.exam.log import Log

LAB = "14"
SECRET, LOGS, LOCK = "secret", "logs", "lock"
TOKEN_BYTES = 20
_TOKEN = re.compile(r"[A-Z2-7]{32}")


class ExamError(TwoStrokeError):
    """The examination cannot go on as it was asked; the text says what to do."""


class Place:
    """An examination's folder.

    Parameters
    ----------
    folder : Path
        With the file ``secret``.

    Raises
    ------
    ExamError
        When there is no secret in it, or one that is too short.
    """

    def __init__(self, folder: str | Path):
        self.folder = Path(folder)
        try:
            self._secret = bytes.fromhex((self.folder / SECRET).read_text(encoding="ascii").strip())
        except (OSError, ValueError):
            raise ExamError(
                f"{self.folder}: there is no examination here; the instructor makes one with: twostroke "
                f"exam tickets"
            ) from None
        if len(self._secret) < 32:
            raise ExamError(f"{self.folder}: the secret is too short; make a new examination folder")

    @classmethod
    def make(cls, folder: str | Path) -> Place:
        """Return the examination of a folder; where there is none yet, draw its secret.

        Raises
        ------
        ExamError
            When the folder cannot be written.
        """
        place = Path(folder)
        try:
            (place / LOGS).mkdir(parents=True, exist_ok=True, mode=0o700)
            place.chmod(0o700)
            with contextlib.suppress(FileExistsError):
                handle = os.open(place / SECRET, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
                with open(handle, "w", encoding="ascii") as file:
                    file.write(secrets.token_hex(32) + "\n")
        except OSError as error:
            raise ExamError(f"{place}: cannot be written ({error.strerror}); give another folder") from None
        return cls(place)

    @property
    def draws(self) -> bytes:
        """The secret from which machines are drawn."""
        return self._for("machines")

    def _for(self, use: str, *words: object) -> bytes:
        """A key of its own for each use."""
        text = "\x1f".join(["two-stroke examination", use, *(str(word) for word in words)])
        return hmac.new(self._secret, text.encode(), hashlib.sha256).digest()

    def token(self, learner: str, attempt: int = 1) -> str:
        """Return the token of one learner's sitting: 160 bits, 32 letters and digits.

        Parameters
        ----------
        learner : str
            As in the class list; case and spaces do not matter.
        attempt : int
        """
        key = self._for("token", fold(learner), attempt_number(attempt))
        return base64.b32encode(key[:TOKEN_BYTES]).decode()

    def admits(self, learner: str, attempt: int, token: str) -> bool:
        """Say whether a token belongs to this learner and attempt; it takes as long for a wrong one."""
        sound = type(token) is str and _TOKEN.fullmatch(token) is not None
        right = self.token(learner, attempt)
        return hmac.compare_digest(right, token if sound else "A" * len(right)) and sound

    def log(self, learner: str, attempt: int = 1) -> Log:
        """Return the log of one sitting, empty where there is none yet.

        Raises
        ------
        LogError
            When it was edited.
        """
        name = f"{fold(learner)}\x1f{attempt_number(attempt)}"
        file = f"{hashlib.sha256(name.encode()).hexdigest()[:32]}.jsonl"
        return Log(self.folder / LOGS / file, self._for("log"), name)

    def receipt(self, learner: str, attempt: int, steps: int, head: str) -> str:
        """Return the receipt of a sitting: number of the last line of its log, whose it is, and that
        line's seal.

        Parameters
        ----------
        learner : str
        attempt : int
        steps : int
            Number of the last line.
        head : str
            Signature of the last line.
        """
        seal = self._code("seal", fold(learner), attempt, steps, head)
        return f"{self._whose(learner, attempt, steps)}-{seal}"

    def issued(self, learner: str, attempt: int, receipt: str) -> int | None:
        """Return the number of lines that a receipt of this sitting speaks of, None where it is none of
        it."""
        steps, _, rest = receipt.partition("-")
        if not (steps.isascii() and steps.isdecimal() and len(steps) < 5):
            return None
        whose = self._whose(learner, attempt, int(steps))
        given = f"{steps}-{rest.partition('-')[0]}"
        return int(steps) if given.isascii() and hmac.compare_digest(whose, given) else None

    def _whose(self, learner: str, attempt: int, steps: int) -> str:
        return f"{steps}-{self._code('whose', fold(learner), attempt, steps)}"

    def _code(self, *words: object) -> str:
        """Ten letters and digits: 50 bits."""
        return base64.b32encode(self._for("receipt", *words)[:10]).decode()[:10]

    @contextlib.contextmanager
    def alone(self) -> Iterator[None]:
        """Keep the folder to one service at a time.

        Raises
        ------
        ExamError
            When another one has it.
        """
        try:
            import fcntl
        except ModuleNotFoundError:
            raise ExamError(
                "the examination is held on Linux or macOS (on Windows, in the Windows Subsystem for Linux); "
                "the learners' machines may be of any kind"
            ) from None
        with open(self.folder / LOCK, "w", encoding="ascii") as file:
            try:
                fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except OSError:
                raise ExamError(
                    f"{self.folder}: another service works on this examination; stop that one first"
                ) from None
            yield


def read_ticket(ticket: object) -> tuple[str, str, int, str]:
    """Return address, learner, attempt and token of a ticket.

    Raises
    ------
    ExamError
        When the text is no ticket.

    Examples
    --------
    >>> read_ticket("http://127.0.0.1:8614 learner-01 1 " + "A" * 32)[1:3]
    ('learner-01', 1)
    """
    parts = ticket.split() if type(ticket) is str else []
    good = len(parts) >= 4 and re.match(r"https?://[^/\s]+/?$", parts[0]) and _TOKEN.fullmatch(parts[-1])
    if not good or not re.fullmatch("[1-9][0-9]?", parts[-2]):
        raise ExamError(
            "this is no ticket: copy the whole line that your instructor gave you between the quotes "
            "(address, name, number of the attempt, 32 letters and digits)"
        )
    return parts[0].rstrip("/"), " ".join(parts[1:-2]), int(parts[-2]), parts[-1]
