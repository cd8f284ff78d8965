"""Which of several hand-ins stands in the gradebook: the best or the last, as the course has agreed."""

from __future__ import annotations

import json

from nbformat.notebooknode import from_dict

from twostroke.grading import feedback
from twostroke.grading.attempts import Attempt, Attempts, AttemptStore
from twostroke.grading.files import write_bytes
from twostroke.grading.gradebook import Recorder
from twostroke.grading.rows import LearnerRows, rows_of
from twostroke.grading.skeleton import Skeleton
from twostroke.grading.standing import stand_newest
from twostroke.grading.states import Outcome


class Settler:
    """Brings the hand-in that counts into the gradebook.

    Parameters
    ----------
    recorder : Recorder
        The gradebook, held open.
    trusted : Skeleton
    """

    def __init__(self, recorder: Recorder, trusted: Skeleton):
        self.recorder, self.trusted = recorder, trusted
        self.course, self.lab = recorder.course, trusted.lab
        self.store = AttemptStore(self.course, self.lab)

    def all(self) -> None:
        """Settle every learner who has handed in more than once."""
        for learner in self.store.learners():
            self.one(learner)

    def one(self, learner: str) -> None:
        """Settle one learner; nothing happens where there was one hand-in only."""
        found = self.store.load(learner)
        if found is None or not found.attempts:
            return
        if found.under_way:
            if found.counted is None:
                return  # never entered; the next run enters it
            self._put(found, found.counted)
        found.keep(self._rows(learner))
        wanted = found.best() if self.course.classlist.policy.counts == "best" else found.attempts[-1]
        if wanted.digest != found.counts:
            if found.counted is not None:
                self.store.keep_notebook(found.counted.outcome)
            found.counts, found.under_way = wanted.digest, True
            self.store.save(learner, found)
            self._put(found, wanted)
        self._page(found)

    def _rows(self, learner: str) -> LearnerRows:
        return rows_of(self.recorder.book.db, self.lab, learner).get(learner, LearnerRows())

    def _put(self, found: Attempts, wanted: Attempt) -> None:
        """Enter a hand-in that was kept, with what a person gave to it."""
        outcome, rows = wanted.outcome, wanted.rows or LearnerRows()
        data = self.store.notebook(outcome).read_bytes()
        never, by_hand = ungraded(outcome)
        with self.recorder.together():
            self.recorder.record(
                from_dict(json.loads(data)), outcome.learner, never, by_hand, outcome.handed_in
            )
            self.recorder.set_by_hand(outcome.learner, rows)
        path = self.course.marked_notebook(outcome.learner, self.lab)
        write_bytes(path, data, lasting=False)
        found.under_way = False
        self.store.save(outcome.learner, found)

    def _page(self, found: Attempts) -> None:
        """The learner's page shows the newest hand-in, and which one counts."""
        rows = self._rows(found.attempts[-1].outcome.learner)
        feedback.write(self.course, stand_newest(found, rows), self.trusted)


def ungraded(outcome: Outcome) -> tuple[set[str], set[str]]:
    """Return the grade ids that the run never reached, and those whose points a person gives."""
    never = {each.grade_id for each in outcome.tasks if each.marked == "not at all"}
    return never, {each.grade_id for each in outcome.tasks if each.waits}
