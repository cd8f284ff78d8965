"""Marking from the examination's own log, on the instructor's side."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from twostroke.errors import TwoStrokeError
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import EMPTY, FORM, OTHER, PERSON, Feedback, Form, Judged
from twostroke.lab.route import Route

if TYPE_CHECKING:
    from twostroke.bench import Bench
    from twostroke.lab.exam.place import Place

_folder: ContextVar[Path | None] = ContextVar("examination", default=None)
_RECEIPT = 64


@dataclass(frozen=True)
class Facts:
    """What a job came to, as far as the learner saw it.

    Parameters
    ----------
    minutes : float
        On the clock at the end.
    finding, proving : float
        Minutes before the first repair; minutes of the last verify run.
    parts : float
        Money for parts that stayed in.
    """

    minutes: float
    finding: float
    proving: float
    parts: float


@contextmanager
def using(folder: str | Path) -> Iterator[None]:
    """Mark with the examination of this folder inside the block; a learner's process has none.

    Parameters
    ----------
    folder : path
        As `Place` takes it.
    """
    token = _folder.set(Path(folder))
    try:
        yield
    finally:
        _folder.reset(token)


def in_use() -> bool:
    """Say whether there is an examination to mark with."""
    return _folder.get() is not None


def _place() -> Place:
    from twostroke.lab.exam.place import Place

    folder = _folder.get()
    assert folder is not None
    return Place(folder)


def _records(v: Variant) -> list[dict[str, Any]]:
    entries = _place().log(v.owner, v.attempt).entries
    return [entry.body for entry in entries if entry.kind in ("step", "end")]


def facts(v: Variant) -> Facts | None:
    """Return what the job of this learner came to.

    Returns
    -------
    Facts or None
        None where there is no examination, no job, or one that is still open.
    """
    try:
        records = _records(v) if in_use() else []
    except TwoStrokeError:
        return None
    steps: Route = [record["step"] for record in records]
    if not steps or steps[-1]["action"] != "hand_back":
        return None
    verify = [step["minutes"] for step in steps if step["action"] == "verify"]
    first = next((n for n, step in enumerate(steps) if _is_repair(step)), len(steps))
    return Facts(
        minutes=float(steps[-1]["time"]),
        finding=float(sum(step["minutes"] for step in steps[:first])),
        proving=float(verify[-1]) if verify else 0.0,
        parts=float(records[-1]["parts"]),
    )


def _is_repair(step: dict[str, Any]) -> bool:
    from twostroke.table import load_table

    return step["action"] in load_table().repairs


def closed_job(v: Variant) -> tuple[Bench, Bench] | None:
    """Return the machine as this learner has handed it back, and as the adviser would have.

    Returns
    -------
    (Bench, Bench) or None
        None where there is no examination, no job, one that is still open, or a log that was edited.
    """
    from twostroke.bench import replay
    from twostroke.lab.bench_job import model_route
    from twostroke.lab.exam.cases import TERMS, draw
    from twostroke.lab.exam.sitting import reopen

    if facts(v) is None:
        return None
    scenario = draw(_place().draws, v.owner, v.attempt)
    try:
        done = reopen(scenario, _records(v))
        return done, replay(model_route(scenario, TERMS.pairs), scenario, "lab")
    except TwoStrokeError:
        return None


def judge(v: Variant, receipt: str) -> Judged:
    """Mark the job of this learner from the log of the examination.

    Parameters
    ----------
    v : Variant
        Its owner and attempt say whose log.
    receipt : str
        As handed in; may be empty.

    Returns
    -------
    Judged
        With the share of the points and whether it is passed.
    """
    if not in_use():
        return Judged(0.0, PERSON if receipt else EMPTY, _NO_EXAM)
    try:
        return _judge(v, receipt.strip())
    except TwoStrokeError as error:
        seen = Feedback(f"The kept log cannot be marked: {str(error)[:160]}.", "It may have been edited.",
                        "A person looks at it.")  # fmt: skip
        return Judged(0.0, PERSON, seen, "log_edited")


def _judge(v: Variant, receipt: str) -> Judged:
    from twostroke.isolation import score_route
    from twostroke.lab.bench_job import judged, table_of
    from twostroke.lab.exam.cases import TERMS, draw
    from twostroke.lab.exam.sitting import reopen

    place = _place()
    log = place.log(v.owner, v.attempt)
    records = [entry.body for entry in log.entries if entry.kind in ("step", "end")]
    if receipt:
        lines, last = place.issued(v.owner, v.attempt, receipt), len(log.entries) - 1
        if lines is not None and lines > last:
            return Judged(0.0, PERSON, _SHORT, "log_short")
        if lines is None or receipt != place.receipt(v.owner, v.attempt, last, log.head):
            return Judged(0.0, PERSON if records else OTHER, _FOREIGN, "receipt_of_another")
    if not records:
        return Judged(0.0, EMPTY, Feedback("No step of yours is on the log of the examination."))
    if records[-1]["step"]["action"] != "hand_back":
        return Judged(0.0, OTHER, _OPEN, "job_open")
    scenario = draw(place.draws, v.owner, v.attempt)
    bench = reopen(scenario, records)
    route = [record["step"] for record in records]
    truth = [each["fault"] for each in scenario["truth"]]
    kind = scenario["complaint"]["kind"]
    scored = score_route(table_of(scenario), kind, route, truth=truth, pairs=TERMS.pairs)
    assert bench.outcome is not None
    passed = scored.passed and bench.outcome.safe and bench.outcome.fixed
    found = judged(scored, bench, truth, TERMS.full)
    said = "Passed. " if passed else "Not passed. "
    told = found.feedback
    return Judged(
        found.fraction, found.state,
        Feedback(said + told.seen.removeprefix("Right: "), told.suggests, told.check), found.slip,
    )  # fmt: skip


_NO_EXAM = Feedback(
    "This job is marked from the log of the examination's service.",
    "That log is not at hand here.",
    "The instructor grades it with: twostroke grade 14.",
)
_OPEN = Feedback(
    "The machine was not handed back.",
    "The job is still open on the log.",
    "Verify, then machine.hand_back(fault, how sure), before you hand the notebook in.",
)
_SHORT = Feedback(
    "The receipt speaks of more steps than the kept log holds.",
    "Lines are missing at the end of the log.",
    "A person looks at it.",
)
_FOREIGN = Feedback(
    "The receipt does not belong to this log.",
    "It was mistyped, or it is another learner's or another attempt's.",
    "Copy the receipt that the service printed when you handed the machine back.",
)


@dataclass(frozen=True)
class Examined:
    """The job of the examination: marked from the service's log; the answer is the receipt alone.

    Parameters
    ----------
    id, label : str
        Name in calls; name for the reader.
    share : float
        Share of the task's points.
    needs : str, optional
        Unused; kept for the common interface of all steps.
    """

    id: str
    label: str
    share: float = 1.0
    needs: str | None = None
    by_service: bool = True

    def ask(self, variant: Variant) -> str:
        """How the answer is made."""
        return (
            "the receipt that is printed when you hand the machine back; the service's own log is what counts"
        )

    def form(self, answer: Any, variant: Variant) -> Form:
        """Form check: a receipt is a short line of text; none is a matter of form too, for the log counts."""
        if answer is None or answer == "":
            return Form(False, "No receipt yet: it is printed when you hand the machine back.", "", "")
        if type(answer) is not str or len(answer) > _RECEIPT or not answer.replace("-", "").strip().isalnum():
            return Form(False, "A receipt is text such as 7-ABCD: copy it as it was printed.", given=answer)
        return Form(True, "A receipt: it is compared with the service's log.", answer.strip(), answer)

    def truth(self, variant: Variant, values: Any) -> str:
        """Nothing: what is right stands on the log only."""
        return ""

    def judge(self, form: Form, variant: Variant, values: Any) -> Judged:
        """Mark from the log."""
        if not isinstance(form.value, str):
            return Judged(0.0, FORM, Feedback(form.message))
        return judge(variant, form.value)

    def model(self, variant: Variant, values: Any) -> str:
        """Nothing: the job is done on the service, not written."""
        return ""
