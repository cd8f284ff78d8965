"""A job at the bench with everything that a screen needs: session, belief, hints, and the file it is kept in.

The notebook panel, the page and the terminal all work on this one object.
"""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import Any

from twostroke.bench import Bench, OwnMachine, Reading, from_json, to_json
from twostroke.errors import TwoStrokeError
from twostroke.isolation.follow import Follower
from twostroke.isolation.hints import Hint, hint
from twostroke.lesson.bench_panel import store
from twostroke.lesson.errors import LessonError
from twostroke.table import Scenario, Table, load_table

OWN_TITLE = "own machine"


class Job:
    """What a demo machine and an own machine have in common.

    Parameters
    ----------
    session : Bench or OwnMachine
    file : Path or None
        Where the job is kept after each step; None keeps it in memory only.

    Attributes
    ----------
    hints : list of Hint
        Taken so far.
    comments : bool
        Whether the screen says after each step what it told.
    reflection : str
        Answer to the question at the end.
    news : str
        Something to be told once, such as that the job was continued elsewhere.
    """

    kind = ""

    def __init__(self, session: Bench | OwnMachine, file: Path | None) -> None:
        self.session: Any = session
        self.file = file
        self.hints: list[Hint] = []
        self.comments = False
        self.reflection = ""
        self.scored: dict[str, Any] | None = None
        self.best: Any = None
        self.news = ""
        self.trouble = ""
        self._stamp = 0
        self.follower = self._follow()

    # what it is -----------------------------------------------------------------------------------

    @property
    def title(self) -> str:
        """Name of the job in a list."""
        raise NotImplementedError

    @property
    def complaint_kind(self) -> str:
        """The complaint as the table calls it."""
        raise NotImplementedError

    @property
    def closed(self) -> bool:
        """Whether the machine was handed back or handed on."""
        return self.session.outcome is not None

    @property
    def learner(self) -> str:
        """Who works on it."""
        return str(self.session.learner)

    def _follow(self) -> Follower:
        return Follower(self.session.table, self.complaint_kind, self.session.route)

    # doing ----------------------------------------------------------------------------------------

    def do(self, action: str, **settings: Any) -> Reading:
        """Do something, learn from it, keep the job."""
        self.refresh()
        reading: Reading = self.session.do(action, **settings)
        if reading.done:
            self.follower.take(self.session.route[-1])
            self.save()
        return reading

    def hint(self) -> Hint:
        """The next hint for the step to come; three for each step, all of them counted."""
        if self.closed:
            raise LessonError("the job is closed: the best route stands beside yours")
        if not getattr(self.session, "reminders", True):
            raise LessonError("there are no hints in this job")
        after = len(self.session.route)
        level = min(1 + sum(one.after == after for one in self.hints), 3)
        given = hint(self.follower, after, level)
        if given not in self.hints:
            self.hints.append(given)
            self.save()
        return given

    def hand_back(self, diagnosis: str | None, confidence: float | str, *, hand_on: bool = False) -> Any:
        """Close the job."""
        self.refresh()
        outcome = self.session.hand_back(diagnosis or None, confidence, hand_on=hand_on)
        self.follower.take(self.session.route[-1])
        self.save()
        return outcome

    # keeping --------------------------------------------------------------------------------------

    def content(self) -> dict[str, Any]:
        """Everything to be kept, as plain data."""
        return {
            "kind": self.kind,
            "title": self.title,
            "learner": self.learner,
            "count": len(self.session.route),
            "closed": self.closed,
            "hints": [asdict(one) for one in self.hints],
            "comments": self.comments,
            "reflection": self.reflection,
            "scored": self.scored,
        }

    def save(self) -> None:
        """Write the job to its file; trouble is noted and does not stop the work."""
        if self.file is None:
            return
        try:
            store.write(self.file, self.content())
            self._stamp = self.file.stat().st_mtime_ns
            self.trouble = ""
        except (LessonError, OSError) as error:
            self.trouble = str(error)

    def take_notes(self, content: dict[str, Any]) -> None:
        """Take over from a kept job what does not belong to the session."""
        self.hints = [Hint(**one) for one in content.get("hints", [])]
        self.comments = bool(content.get("comments", False))
        self.reflection = str(content.get("reflection", ""))
        self.scored = content.get("scored")

    def restored(self, content: dict[str, Any]) -> Any:
        """The session of a kept job."""
        raise NotImplementedError

    def refresh(self) -> None:
        """Take over what another page or terminal has done on this job meanwhile."""
        if self.file is None or not self.file.exists() or self.file.stat().st_mtime_ns == self._stamp:
            return
        content = store.read(self.file)
        if content["count"] > len(self.session.route) or content["closed"] != self.closed:
            self.session = self.restored(content)
            self.follower = self._follow()
            self.news = "This job was continued in another window; it stands here as it stands there."
        self.take_notes(content)
        self._stamp = self.file.stat().st_mtime_ns

    def resume(self) -> None:
        """Continue from the file where there is one; what cannot be continued is put aside."""
        if self.file is None or not self.file.exists():
            return
        try:
            content = store.read(self.file)
            self.session = self.restored(content)
            self.follower = self._follow()
            self.take_notes(content)
            self._stamp = self.file.stat().st_mtime_ns
            self.news = "Continued where you left it."
        except (TwoStrokeError, KeyError, TypeError) as error:
            aside = store.put_aside(self.file)
            self.news = f"The kept job could not be continued ({error}). It lies aside as {aside.name}."

    def begin_again(self) -> None:
        """Start the same job from the beginning; the finished one is put aside."""
        if self.file is not None and self.file.exists():
            store.put_aside(self.file)


class BenchJob(Job):
    """A demo machine: a scenario for a learner.

    Parameters
    ----------
    scenario : str, Path, dict or Scenario
    learner : str
    folder : Path, optional
        Folder of the jobs; kept in memory only when left out.
    secret, reminders
        As for :class:`twostroke.bench.Bench`.

    Examples
    --------
    >>> job = BenchJob("plug_fouled_trimmer", "Anna")
    >>> job.do("switch_check").minutes
    1.0
    >>> job.hint().text
    'Think of spark: magnet, module, lead, plug, stop circuit.'
    >>> job.hint().level, len(job.hints)
    (2, 2)
    """

    kind = "scenario"

    def __init__(
        self,
        scenario: str | Path | dict[str, Any] | Scenario,
        learner: str,
        folder: Path | None = None,
        *,
        secret: str | None = None,
        reminders: bool = True,
    ) -> None:
        self._secret = secret
        bench = Bench(scenario, learner, secret=secret, reminders=reminders)
        super().__init__(bench, store.file_for(folder, bench.scenario.id, learner))
        self.resume()

    @property
    def title(self) -> str:
        """Title of the scenario."""
        return str(self.session.scenario.title)

    @property
    def complaint_kind(self) -> str:
        """The complaint as the table calls it."""
        return str(self.session.scenario.complaint.kind)

    def content(self) -> dict[str, Any]:
        """Everything to be kept, as plain data; what is wrong with the machine is not in it."""
        return {**super().content(), "bench": json.loads(to_json(self.session))}

    def restored(self, content: dict[str, Any]) -> Bench:
        """The session of a kept job, done again step by step on the same machine."""
        text = json.dumps(content["bench"])
        return from_json(text, scenario=self.session.scenario, secret=self._secret)

    def fresh(self) -> Bench:
        """The same machine before anything was done."""
        return Bench(
            self.session.scenario, self.learner, secret=self._secret, reminders=self.session.reminders
        )


class OwnJob(Job):
    """An own machine: readings typed in, bands from the maker's manual.

    Parameters
    ----------
    name : str
        What the machine is called on the job card.
    complaint : str
        Complaint kind of the table.
    learner : str
    bands : dict, optional
    features : list of str, optional
        When left out: everything that a machine may have, but no tank over the module.
    folder : Path, optional
    table : Table, optional
        The shop's own fault table; the course's when left out.

    Examples
    --------
    >>> job = OwnJob("saw", "no_start", "Anna", {"air_gap": "8-16 thou"})
    >>> job.do("air_gap", reading="0.9 mm").result
    'wide'
    >>> job.follower.likeliest(1)[0][0]
    'airgap_wide'
    """

    kind = "own"

    def __init__(
        self,
        name: str,
        complaint: str,
        learner: str,
        bands: dict[str, str] | None = None,
        features: list[str] | None = None,
        folder: Path | None = None,
        table: Table | None = None,
    ) -> None:
        self.name = name.strip() or OWN_TITLE
        self._table = load_table() if table is None else table
        everything = [key for key in self._table.features if key != "tank_over_module"]
        self.features = everything if features is None else features
        self._bands = dict(bands or {})
        session = OwnMachine(complaint, learner, self._bands, features=self.features, table=self._table)
        super().__init__(session, store.file_for(folder, "own", self.name, learner))
        self.resume()

    @property
    def title(self) -> str:
        """Name on the job card."""
        return self.name

    @property
    def complaint_kind(self) -> str:
        """The complaint as the table calls it."""
        return str(self.session.complaint)

    def set_bands(self, bands: dict[str, str]) -> None:
        """Put in the maker's bands; readings taken before are judged again."""
        content = {**self.content(), "bands": {name: text for name, text in bands.items() if text.strip()}}
        self.session = self.restored(content)
        self.follower = self._follow()
        self.save()

    def content(self) -> dict[str, Any]:
        """Everything to be kept, as plain data."""
        own = self.session
        return {
            **super().content(),
            "complaint": own.complaint,
            "bands": own.bands_text,
            "features": self.features,
            "steps": [step.to_dict() for step in own.route],
        }

    def restored(self, content: dict[str, Any]) -> OwnMachine:
        """The session of a kept job."""
        own = OwnMachine(
            content["complaint"], content["learner"], content["bands"], features=content["features"],
            table=self._table,
        )  # fmt: skip
        for step in content["steps"]:
            if step["action"] in ("hand_back", "hand_on"):
                own.hand_back(step["diagnosis"], step["confidence"], hand_on=step["action"] == "hand_on")
            else:
                own.do(step["action"], **step["settings"], confirm=step["cautions_confirmed"])
        return own


def open_kept(file: Path, table: Table | None = None) -> Job:
    """Open a job from its file, to go on with it.

    Parameters
    ----------
    file : Path
    table : Table, optional
        The shop's own, for an own machine.

    Raises
    ------
    LessonError
        A file that is no kept job, or whose scenario is not at hand.
    """
    job = _empty(store.read(file), table)
    job.file = file
    job.resume()
    return job


def read_kept(file: Path, table: Table | None = None) -> Job:
    """A job as its file has it, to look at; the file stays as it is and is not written again.

    Parameters
    ----------
    file : Path
    table : Table, optional
        The shop's own, for an own machine.

    Raises
    ------
    TwoStrokeError
        A file that is no kept job, whose scenario is not at hand, or whose steps are not what this machine
        gives.
    """
    content = store.read(file)
    job = _empty(content, table)
    job.session = job.restored(content)
    job.take_notes(content)
    return job


def _empty(content: dict[str, Any], table: Table | None) -> Job:
    """The job of a file before its steps are done again."""
    if content["kind"] == "own":
        return OwnJob(
            content["title"], content["complaint"], content["learner"], content["bands"],
            content["features"], table=table,
        )  # fmt: skip
    kept = content["bench"]
    return BenchJob(kept["scenario"], kept["learner"], reminders=kept["reminders"])
