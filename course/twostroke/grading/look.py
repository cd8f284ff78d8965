"""What is known of submissions without running anything: refused, missing, done before, over the limit."""

from __future__ import annotations

import json

from twostroke.grading import feedback
from twostroke.grading.attempts import AttemptStore
from twostroke.grading.intake import Received
from twostroke.grading.journal import Journal
from twostroke.grading.normalise import Refused, normalise
from twostroke.grading.place import Course
from twostroke.grading.skeleton import Skeleton
from twostroke.grading.states import Cause, Outcome, Reason, State


def blank(received: Received, trusted: Skeleton, causes: list[Cause]) -> Outcome:
    """Return the outcome of a submission that is not run."""
    return Outcome(
        learner=received.learner,
        lab=trusted.lab,
        state=State.NOT_GRADED,
        causes=causes,
        notes=received.notes,
        digest=received.digest,
        release=trusted.digest,
        received=received.place,
        handed_in=received.handed_in,
    )


class Look:
    """What the journal and the files say before anything is run.

    Parameters
    ----------
    course : Course
    trusted : Skeleton
    journal : Journal
    """

    def __init__(self, course: Course, trusted: Skeleton, journal: Journal):
        self.course, self.trusted, self.journal = course, trusted, journal
        self.store = AttemptStore(course, trusted.lab)
        self.others = self._other_labs()

    def done(self, received: Received) -> bool:
        """Whether this very file was marked before, and everything made from it is still there."""
        before = self.journal.get(received.learner)
        if before is None or before.engine_failed:
            return False
        if before.digest != received.digest or before.release != self.trusted.digest:
            return False
        made = [feedback.path(self.course, before)]
        if before.marked:
            made.append(self.course.marked_notebook(before.learner, self.trusted.lab))
        return all(path.is_file() and path.stat().st_size for path in made)

    def too_many(self, received: Received) -> Cause | None:
        """Return the cause where a learner has handed in more often than the course allows."""
        most = self.course.classlist.policy.attempts
        before = self.journal.get(received.learner)
        if not most or before is None:
            return None
        found = self.store.load(received.learner)
        known = [each.digest for each in found.attempts] if found else [before.digest] * before.marked
        if received.digest in known or len(known) < most:
            return None
        detail = f"{len(known) + 1} came, {most} are marked; the marks of the earlier ones stand"
        return Cause(reason=Reason.TOO_MANY, detail=detail)

    def dry(self, received: Received) -> Outcome:
        """Return the state as far as it is known without running anything, and what a run would do."""
        if not received.usable:
            return blank(received, self.trusted, received.causes)
        before = self.journal.get(received.learner)
        if self.done(received) and before is not None:
            notes = [*before.notes, "unchanged since it was marked; would be passed over"]
            open_still = [cause for cause in before.causes if cause.reason is not Reason.WRITTEN]
            return before.model_copy(update={"notes": notes, "causes": open_still})
        over = self.too_many(received)
        if over is not None:
            return blank(received, self.trusted, [*received.causes, over])
        try:
            work = normalise(received.data, self.trusted, self.others)
        except Refused as refused:
            return blank(received, self.trusted, [*received.causes, refused.cause])
        outcome = blank(received, self.trusted, [*received.causes, *work.causes])
        would = "would be run and marked" + ("; marks given by hand would stay" if before else "")
        outcome.notes = [*received.notes, *work.notes, would]
        return outcome

    def missing(self, received: list[Received]) -> list[Outcome]:
        """Return those on the class list who handed nothing in, now or before."""
        seen = {each.learner for each in received}
        cause = Cause(reason=Reason.MISSING)
        return [
            Outcome(learner=each.id, lab=self.trusted.lab, causes=[cause], release=self.trusted.digest)
            for each in self.course.classlist.learner
            if each.id not in seen and self.journal.get(each.id) is None
        ]

    def _other_labs(self) -> dict[str, set[str]]:
        """Grade ids of the other labs, by which their notebooks are known."""
        found: dict[str, set[str]] = {}
        for name in self.course.labs():
            if name != self.trusted.lab:
                cells = json.loads(self.course.source_notebook(name).read_text(encoding="utf-8"))["cells"]
                ids = {cell["metadata"].get("nbgrader", {}).get("grade_id") for cell in cells}
                found[name] = {each for each in ids if each} - set(self.trusted.by_id())
        return found
