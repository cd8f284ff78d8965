"""From what a run and the marking gave to one outcome: points by one rule, states with reasons."""

from __future__ import annotations

import math
from typing import Any

from nbformat.notebooknode import NotebookNode, from_dict
from nbgrader import utils

from twostroke.grading.about import competency_of
from twostroke.grading.intake import Received
from twostroke.grading.normalise import Normalised
from twostroke.grading.routes import RoutePair
from twostroke.grading.skeleton import Skeleton, Slot
from twostroke.grading.states import Outcome, Reason, State, Step, TaskResult

_STOPPED = Step(
    seen="The notebook stopped before this task.",
    check="Run all cells from the top, mend the one that stops.",
)
_ENDED = {
    "exit": (Reason.CRASHED, "its process left by itself"),
    "signal": (Reason.CRASHED, "its process was ended by a fault"),
    "memory": (Reason.CRASHED, "it used more memory than allowed"),
    "flood": (Reason.CRASHED, "it sent more output than allowed"),
    "time": (Reason.OUT_OF_TIME, "it could not be interrupted"),
}


def points(value: Any, possible: float) -> float:
    """Return points between zero and what the cell is worth; anything that is no number earns nothing.

    Examples
    --------
    >>> points(1.5, 2), points(-1, 2), points(float("nan"), 2), points(100, 2), points("2", 2)
    (1.5, 0.0, 0.0, 2, 0.0)
    """
    if type(value) not in (int, float) or not math.isfinite(value):
        return 0.0
    return max(0.0, min(value, possible))


def shown_points(earned: float) -> NotebookNode:
    """Return the output of a check cell that shows these points, from which nbgrader reads them."""
    return from_dict(
        {
            "output_type": "execute_result",
            "data": {"text/plain": repr(float(earned))},
            "metadata": {},
            "execution_count": None,
        }
    )


def judge(
    skeleton: Skeleton, received: Received, work: Normalised, result: dict[str, Any]
) -> tuple[Outcome, NotebookNode]:
    """Put outputs and trusted points into the notebook, and say what state the submission is in.

    Parameters
    ----------
    skeleton : Skeleton
    received : Received
    work : Normalised
        Its notebook is filled in.
    result : dict
        Of the run, with ``marking`` of the clean interpreter.

    Returns
    -------
    (Outcome, NotebookNode)
        The marked notebook holds, in each check cell of ours, the trusted points and nothing else.
    """
    outcome = Outcome(
        learner=received.learner,
        lab=skeleton.lab,
        state=State.GRADED,
        digest=received.digest,
        release=skeleton.digest,
        received=received.place,
        notes=[*received.notes, *work.notes],
        handed_in=received.handed_in,
    )
    for cause in [*received.causes, *work.causes]:
        outcome.add(cause.reason, cause.detail)
    if "engine" in result:
        return _engine_failure(outcome, result["engine"], work)
    marking = result["marking"]
    outcome.answers, outcome.typed = marking["answers"], marking["typed"]
    outcome.worked_as, outcome.variant = marking["worked_as"] or "", marking["attempt"]
    outcome.routes = {task: RoutePair.model_validate(pair) for task, pair in marking["routes"].items()}
    marks = {mark["task"]: mark for mark in marking["marks"]}
    reached = _put_outputs(work, result)
    for index, slot in enumerate(work.slots):
        if slot is not None and slot.graded:
            cell = work.notebook.cells[index]
            in_time = reached is None or index < reached
            outcome.tasks.append(
                _task(cell, slot, marks, marking, outcome) if in_time else _unreached(slot, skeleton.lab)
            )
    _say_difference(outcome, marking)
    _say_ended(outcome, work, result, reached)
    _say_marking(outcome, result, marking)
    if reached is not None and not outcome.marked:
        outcome.state = State.NOT_GRADED
    return outcome, work.notebook


def _engine_failure(outcome: Outcome, said: str, work: Normalised) -> tuple[Outcome, NotebookNode]:
    outcome.add(Reason.ENGINE, f"{said}; nothing was marked, run the command again")
    outcome.state = State.NOT_GRADED
    return outcome, work.notebook


def _put_outputs(work: Normalised, result: dict[str, Any]) -> int | None:
    """Fill in outputs; return the cell in which the run stopped, or None when it went through."""
    frames = result["frames"]
    for index, cell in enumerate(work.notebook.cells):
        if cell.cell_type == "code" and str(index) in frames:
            cell.outputs = [
                from_dict(output) for output in map(_sound_output, frames[str(index)]["outputs"]) if output
            ]
    if result["ended"] == "end":
        return None
    if result["at"] is not None:
        return int(result["at"])
    return max((int(place) for place in frames), default=-1) + 1


def _sound_output(output: Any) -> dict[str, Any] | None:
    """An output as nbformat wants it; the learner's process may have sent anything."""
    if not isinstance(output, dict):
        return None
    kind = output.get("output_type")
    if (
        kind == "stream"
        and output.get("name") in ("stdout", "stderr")
        and isinstance(output.get("text"), str)
    ):
        return {"output_type": "stream", "name": output["name"], "text": output["text"]}
    data = output.get("data")
    if kind in ("execute_result", "display_data") and isinstance(data, dict):
        kept = {str(mime): value for mime, value in data.items() if isinstance(value, str)}
        extra = {"execution_count": None} if kind == "execute_result" else {}
        return {"output_type": kind, "data": kept, "metadata": {}, **extra}
    if kind == "error":
        lines = output.get("traceback")
        lines = [line for line in lines if isinstance(line, str)] if isinstance(lines, list) else []
        return {
            "output_type": "error",
            "ename": str(output.get("ename"))[:200],
            "evalue": str(output.get("evalue"))[:2000],
            "traceback": lines,
        }
    return None


def _unreached(slot: Slot, lab: str) -> TaskResult:
    name = slot.grade_id or ""
    return TaskResult(
        grade_id=name,
        task=slot.mark or name,
        points=None,
        max_points=slot.points,
        competency=competency_of(lab, slot.mark or name),
        state="not reached",
        steps=(_STOPPED,),
        marked="not at all",
    )


def _task(
    cell: NotebookNode, slot: Slot, marks: dict[str, Any], marking: dict[str, Any], outcome: Outcome
) -> TaskResult:
    name = slot.grade_id or ""
    if slot.mark is not None:
        return _marked_twice(cell, slot, slot.mark, marks, marking, outcome)
    if slot.kind == "check" and cell.cell_type == "code":
        return _marked_once(cell, slot, outcome)
    earned, possible = utils.determine_grade(cell) if not utils.is_task(cell) else (None, slot.points)
    if earned is None:
        outcome.add(Reason.WRITTEN, name)
    return TaskResult(
        grade_id=name,
        task=name,
        points=earned,
        max_points=possible,
        state="needs a person" if earned is None else "empty",
        steps=(
            Step(
                seen="Kept for a person to read and mark."
                if earned is None
                else "Nothing is written here yet."
            ),
        ),
        competency=competency_of(outcome.lab, name),
        marked="by hand",
    )


def _shown(cell: NotebookNode) -> float | None:
    """Points that the learner's own process showed in a check cell."""
    for output in cell.outputs:
        if output.output_type == "execute_result":
            try:
                return float(output.data.get("text/plain", ""))
            except ValueError:
                return math.inf
    return None


def _marked_twice(
    cell: NotebookNode,
    slot: Slot,
    task: str,
    marks: dict[str, Any],
    marking: dict[str, Any],
    outcome: Outcome,
) -> TaskResult:
    """A check cell of ours: the marking of the recorded answer decides, whatever the notebook showed."""
    claimed = _shown(cell)
    failed = any(output.output_type == "error" for output in cell.outputs)
    recorded = task in marking["marked"]
    mark = marks.get(task) if recorded else None
    earned = points(mark["points"], slot.points) if mark else 0.0
    waits = mark is not None and mark["state"] == "needs a person"
    if waits:
        outcome.add(Reason.WRITTEN, slot.grade_id or task)
    cell.outputs = [shown_points(earned)]
    shown = mark or {"state": "empty" if not failed else "could not run", "steps": [], "slips": []}
    return TaskResult(
        grade_id=slot.grade_id or task,
        task=task,
        points=None if waits else earned,
        max_points=slot.points,
        state=shown["state"],
        steps=tuple(map(Step.model_validate, shown["steps"])) or (_no_answer(failed),),
        slips=tuple(shown["slips"]),
        competency=competency_of(outcome.lab, task),
        claimed=claimed,
        marked="by hand" if waits else "twice",
    )


def _say_difference(outcome: Outcome, marking: dict[str, Any]) -> None:
    """While it only records, a check cell of ours shows 0.0; anything else is the learner's own doing."""
    found = []
    for task in outcome.tasks:
        silent = task.claimed is None and task.task not in marking["marked"] and task.state != "could not run"
        ours = task.marked == "twice" or task.claimed is not None
        if ours and (silent or task.claimed not in (None, 0.0)):
            said = (
                "nothing"
                if task.claimed is None
                else "no number"
                if math.isinf(task.claimed)
                else f"{task.claimed:g}"
            )
            found.append(f"{task.grade_id} {said} and {task.points or 0:g}")
    if found:
        outcome.add(
            Reason.DIFFERENCE,
            "inside the notebook and from the recorded answers: " + ", ".join(found) + "; the second counts. "
            "Look at what its cells do",
        )


def _no_answer(failed: bool) -> Step:
    if failed:
        return Step(
            seen="This task could not be marked, because a cell above it stopped with an error.",
            suggests="A cell was changed or left out.",
            check="Restart, run all cells from the top, mend the first that stops.",
        )
    return Step(
        seen="No answer was recorded for this task.",
        check="Run the answer cell, then save and hand in.",
    )


def _marked_once(cell: NotebookNode, slot: Slot, outcome: Outcome) -> TaskResult:
    """A check cell of another form counts as with nbgrader; text on stderr is ignored, points are clamped."""
    cell.outputs = [o for o in cell.outputs if not (o.output_type == "stream" and o.name == "stderr")]
    for output in cell.outputs:
        if output.output_type == "execute_result":
            try:
                value = float(output.data.get("text/plain", ""))
            except ValueError:
                continue
            held = points(value, slot.points)
            if held != value:
                outcome.add(Reason.OUT_OF_RANGE, f"{slot.grade_id}: {value:g}; {held:g} was entered")
                output.data["text/plain"] = repr(float(held))
    earned, possible = utils.determine_grade(cell)
    state = "right" if earned == possible else "not right" if not earned else "part right"
    name = slot.grade_id or ""
    return TaskResult(grade_id=name, task=name, points=earned, max_points=possible, state=state)


def _task_at(work: Normalised, index: int) -> str:
    """The task in which a cell stands: the next graded cell from there on."""
    for slot in work.slots[index:]:
        if slot is not None and slot.graded:
            return slot.mark or slot.grade_id or "?"
    return "the end"


def _say_ended(outcome: Outcome, work: Normalised, result: dict[str, Any], reached: int | None) -> None:
    for place, frame in result["frames"].items():
        if frame["status"] == "timeout":
            outcome.notes.append(
                f"a cell of task {_task_at(work, int(place))} ran out of time and was stopped"
            )
    if reached is None:
        return
    reason, how = _ENDED[result["ended"]]
    done = sum(task.points is not None for task in outcome.tasks)
    at = _task_at(work, reached)
    rest = f"the {done} tasks before it are marked" if done else "nothing before it could be marked"
    outcome.add(reason, f"at task {at}: {how}; {rest}, nothing after it")


def _say_marking(outcome: Outcome, result: dict[str, Any], marking: dict[str, Any]) -> None:
    if outcome.typed is not None:
        outcome.add(
            Reason.OTHER_LEARNER,
            f"{outcome.typed[:60]!r} is typed inside; marked on the numbers that were worked on. "
            "Look whether the work was copied, or only the name mistyped",
        )
    if marking.get("refused"):
        outcome.add(Reason.DIFFERENCE, f"the recorded answers could not be marked: {marking['refused']}")
    if result["garbled"] or marking["garbled"]:
        outcome.add(Reason.TAMPERED, "lines arrived that no lab writes; look at what its cells do")
    if marking["attempt"] != 1:
        outcome.notes.append(f"worked on attempt {marking['attempt']}")
