"""What a learner wrote, as it may be shown: words behind letters, misleading signs marked, cut to a length.

Own answers only: nothing here knows a right one.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from twostroke.grading.about import task_of
from twostroke.grading.attempts import AttemptStore
from twostroke.grading.place import Course
from twostroke.grading.skeleton import Skeleton
from twostroke.grading.standing import Standing
from twostroke.grading.states import Outcome, TaskResult

if TYPE_CHECKING:
    from twostroke.lab.draw import Variant

LONGEST_LINE, LONGEST_TEXT, MOST_LINES = 200, 2000, 40
_FEW_WORDS = 12
_SIGNS = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2028\u2029\u2066-\u2069\ufeff\ufffe\uffff]"
)
_MARK = "\N{REPLACEMENT CHARACTER}"


@dataclass(frozen=True)
class Wrote:
    """An answer to one step, ready to be shown.

    Parameters
    ----------
    lines : tuple of str
        One for each option or step of work that was named by a letter; else one.
    note : str
        Said beside it where it was cut.
    """

    lines: tuple[str, ...]
    note: str = ""

    @property
    def flat(self) -> str:
        """All of it in one line."""
        return " ".join("; ".join(self.lines).split())


def legible(text: object) -> str:
    """Return text in which every sign can be seen: control signs and those that turn the direction of writing
    are marked, line ends are alike.

    Examples
    --------
    >>> legible("0.30\\x00 mm")
    '0.30� mm'
    """
    whole = str(text).encode("utf-8", "replace").decode("utf-8").replace("\r\n", "\n").replace("\r", "\n")
    return _SIGNS.sub(_MARK, whole)


def plain(answer: Any) -> Wrote | None:
    """Return an answer as it was typed; None where nothing was.

    Examples
    --------
    >>> plain("0.30 mm").lines, plain([]), plain(["a", "c"]).lines
    (('0.30 mm',), None, ('a c',))
    """
    if answer is None or answer in ("", [], {}):
        return None
    if isinstance(answer, list) and all(isinstance(each, dict) for each in answer):
        return Wrote((f"a record of {len(answer)} steps",))
    if isinstance(answer, list) and all(type(each) is str for each in answer):
        answer = " ".join(answer)
    text = answer if isinstance(answer, str) else json.dumps(answer, ensure_ascii=False)
    return Wrote(*_cut(legible(text).strip()))


def _cut(text: str) -> tuple[tuple[str], str]:
    most = LONGEST_TEXT if len(text.split()) > _FEW_WORDS else LONGEST_LINE
    kept = "\n".join(text[:most].split("\n")[:MOST_LINES]).rstrip()
    if kept == text:
        return (text,), ""
    note = f"Cut here: {len(kept)} of {len(text)} characters are shown, your notebook holds all of them."
    return (f"{kept} …",), note


def by_step(outcome: Outcome, task: str) -> dict[str, Wrote]:
    """Return what was written to each step of a task, by the id of the step; "" where the task has no steps.

    Parameters
    ----------
    outcome : Outcome
    task : str

    Returns
    -------
    dict of str to Wrote
        Without steps to which nothing was written, and without a job on the bench that is drawn as a route.
    """
    answer = outcome.answers.get(task)
    found = task_of(outcome.lab, task)
    if found is None:
        whole = plain(answer)
        return {} if whole is None else {"": whole}
    drawn = task in outcome.routes
    shown = {}
    for item, given in ((item, found.split(answer)[item.id]) for item in found.items):
        said = _in_words(outcome, item, given) or plain(given)
        if said is not None and not (drawn and len(found.items) == 1):
            shown[item.id] = said
    return shown


def _in_words(outcome: Outcome, item: Any, given: Any) -> Wrote | None:
    """Letters with the words that stood beside them for this learner; None where it is no such answer."""
    if not hasattr(item, "lettered") or not given:
        return None
    try:
        mine = _sheet(outcome.lab, outcome.worked_as or outcome.learner, outcome.variant)
        form = item.form(given, mine)
        named = {each.id: (letter, each) for letter, each in item.lettered(mine).items()}
        keys = [named[key] for key in form.value] if form.ok else []
    except Exception:  # a page must not stop a class; the letters alone are shown then
        return None
    return (
        Wrote(tuple(f"{letter}: {getattr(each, 'text', each.id)}" for letter, each in keys)) if keys else None
    )


@lru_cache(maxsize=4)
def _sheet(lab: str, learner: str, attempt: int) -> Variant:
    """What this learner was given."""
    from twostroke import lab as labs

    return labs.variant(lab, learner, attempt)


def told(outcome: Outcome, task: str) -> str:
    """Return a whole answer as lines of text, with the name of each step; a job on the bench as its route."""
    pair = outcome.routes.get(task)
    lines = [f"{number}. {leg.title}: {leg.words}" for number, leg in enumerate(pair.mine, 1)] if pair else []
    found = task_of(outcome.lab, task)
    labels = {item.id: item.label for item in found.items} if found else {}
    for item, said in by_step(outcome, task).items():
        label = labels.get(item, "")
        lines.append(f"{label}: {said.flat}" if label else said.flat)
    return "\n".join(lines)


def from_notebook(path: Path, grade_id: str | None) -> str:
    """Return the text of one cell of a marked notebook; nothing where there is no such file or cell."""
    if not path.is_file():
        return ""
    for cell in json.loads(path.read_text(encoding="utf-8"))["cells"]:
        if cell["metadata"].get("nbgrader", {}).get("grade_id") == grade_id:
            return cell["source"] if isinstance(cell["source"], str) else "".join(cell["source"])
    return ""


def in_cell(course: Course, standing: Standing, trusted: Skeleton, task: TaskResult) -> Wrote | None:
    """Return the answer cell of a task of another form, whose answer is the cell itself and was not recorded.

    None where the cell is as it was handed out.
    """
    outcome = standing.outcome
    if task.task in outcome.answers or task_of(outcome.lab, task.task) is not None:
        return None
    slot = trusted.by_id().get(trusted.comment_cell(task.grade_id) or "")
    if slot is None:
        return None
    aside = bool(standing.hand_ins) and not standing.hand_ins[-1].counts
    kept = AttemptStore(course, outcome.lab).notebook(outcome)
    path = kept if aside else course.marked_notebook(outcome.learner, outcome.lab)
    source = from_notebook(path, slot.grade_id)
    return plain(source) if source.strip() != slot.released.strip() else None
