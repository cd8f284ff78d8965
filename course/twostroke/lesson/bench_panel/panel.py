"""The bench panel: one widget whose pages are written in Python and answered in Python."""

from __future__ import annotations

from html import escape
from itertools import count
from pathlib import Path
from typing import Any, Literal

import traitlets

from twostroke.errors import TwoStrokeError
from twostroke.lesson import control
from twostroke.lesson.bench_panel import arranging, closing, opening, store, views, working
from twostroke.lesson.bench_panel.job import BenchJob, Job, OwnJob
from twostroke.lesson.bench_panel.own_shop import OwnShop
from twostroke.lesson.feedback import plain

_STATIC = Path(__file__).parent / "static"
_NUMBERS = count(1)


class BenchPanel(control.Control):
    """The bench on screen.

    Parameters
    ----------
    job : BenchJob or OwnJob, optional
        The job to show; without it the panel begins with the choice of a machine.
    folder : Path, optional
        Where jobs are kept; None keeps them in memory only.
    learner : str
        Name that stands in the form of the first page.
    shop : OwnShop, optional
        A shop's own table and prices; the course's when left out.

    Attributes
    ----------
    regions : dict
        What stands on the screen, region by region, as HTML.
    picked : str
        Place that is picked on the drawing.
    chosen : str
        Step whose card is open.
    cards : str
        Address below which written job cards can be fetched; empty where there is no page for it.

    Notes
    -----
    `tell` does what a press in the browser does, so that the panel is tested without one.

    Examples
    --------
    >>> panel = BenchPanel(BenchJob("plug_fouled_trimmer", "Anna"))
    >>> panel.tell("choose", action="switch_check")
    >>> panel.tell("do")
    >>> panel.job.session.minutes
    1.0
    """

    _esm = (_STATIC / "bench.js").read_text(encoding="utf-8")
    _css = (_STATIC / "bench.css").read_text(encoding="utf-8")
    regions: traitlets.Dict[str, str] = traitlets.Dict().tag(sync=True)
    focus = traitlets.Unicode().tag(sync=True)

    def __init__(
        self,
        job: Job | None = None,
        folder: Path | None = None,
        learner: str = "",
        shop: OwnShop | None = None,
    ) -> None:
        super().__init__(name="Bench", look="bench")
        self.uid = f"bench{next(_NUMBERS)}"
        self.folder, self.learner = folder, learner
        self.shop = shop or OwnShop()
        self.job = job
        self.picked, self.chosen, self.message = "machine", "", ""
        self.show = ""
        self.cards = ""
        self.typed: dict[str, Any] = {}
        self.order: list[str] = []
        self.missing = ""
        self.handing: dict[str, Any] = {}
        self.last: views.Seen | None = None
        self._turn = 0
        if job is not None:
            self._enter()
        self.draw()

    # messages -------------------------------------------------------------------------------------

    def tell(self, press: str, **values: Any) -> None:
        """Press a button with values, as a reader does."""
        self.fill_all(values)
        self.press(press)

    def fill_all(self, values: dict[str, Any]) -> None:
        """Take what was typed in the form that a button belongs to."""
        self.values = dict(values)

    def press(self, button: str) -> None:
        """Answer a press; what went wrong is said in plain words."""
        self.message, self.missing = "", ""
        with self.hold_sync():
            super().press(button)

    def _note(self, html: str) -> None:
        self.message = f"{html[:3]}{html[3:4].upper()}{html[4:]}"  # after "<p>"
        self.draw()
        self.speak(plain(html))
        self.point("message")

    def point(self, name: str) -> None:
        """Have the browser put the focus on an element."""
        self._turn += 1
        self.focus = f"{name}#{self._turn}"

    # screens --------------------------------------------------------------------------------------

    @property
    def screen(self) -> str:
        """``start``, ``job``, ``own`` or ``report``."""
        if self.job is None:
            return "start"
        if self.job.closed:
            return "report"
        return self.job.kind if self.job.kind == "own" else "job"

    def draw(self) -> None:
        """Write the screen anew; the browser changes only regions that differ.

        What went wrong with a card is said on the card.
        """
        on_card = self.chosen and self.screen in ("job", "own")
        self.regions = {
            "screen": self.screen,
            "message": "" if on_card else views.note(self.message),
            **views.screen(self),
        }

    def _enter(self) -> None:
        job = self._here()
        self.last = views.last_seen(job)
        self.picked, self.chosen = "owner" if not job.session.route else "machine", ""
        self.typed, self.order, self.handing = {}, [], {}
        if job.news:
            self.message, job.news = f"<p>{escape(job.news)}</p>", ""

    def _here(self) -> Job:
        if self.job is None:
            raise TwoStrokeError("choose a machine first")
        return self.job

    def put(self, job: Job) -> None:
        """Show a job; it lies on the shelf from now on, so that a reload finds it."""
        self.job = job
        if job.file is not None and not job.file.exists():
            job.save()
        self._enter()
        self.draw()
        self.speak(f"On the bench: {job.title}.")
        self.point("ticket")

    def leave(self) -> None:
        """Back to the first page; the job stays as it is."""
        self.job, self.last = None, None
        self.draw()
        self.point("start")

    # the first page -------------------------------------------------------------------------------

    def on_show(self) -> None:
        """Machines of one kind only."""
        self.learner = str(self.values.get("learner", self.learner)).strip()
        self.show = str(self.values.get("show", ""))
        self.draw()

    def on_begin(self) -> None:
        """A scenario for a learner."""
        self.learner = str(self.values.get("learner", "")).strip()
        self.put(opening.begin(self.values, self.folder))

    def on_begin_own(self) -> None:
        """An own machine."""
        self.learner = str(self.values.get("learner", "")).strip()
        self.put(opening.begin_own(self.values, self.folder, self.shop.table))

    def on_resume(self) -> None:
        """A kept job."""
        self.put(opening.resume(str(self.values.get("value", "")), self.folder, self.shop.table))

    def on_leave(self) -> None:
        """Put the job down for now."""
        self.leave()

    def on_again(self) -> None:
        """The same machine once more."""
        job = self._here()
        job.begin_again()
        if isinstance(job, BenchJob):
            fresh: Job = BenchJob(job.session.scenario, job.learner, self.folder)
        else:
            assert isinstance(job, OwnJob)
            fresh = OwnJob(job.name, job.complaint_kind, job.learner, job.session.bands_text, job.features,
                           self.folder, self.shop.table)  # fmt: skip
        fresh.file = job.file
        self.put(fresh)

    # at work --------------------------------------------------------------------------------------

    def on_pick(self) -> None:
        """A place on the machine."""
        working.pick(self, str(self.values.get("value", "")))

    def on_choose(self) -> None:
        """A step to look at before it is done."""
        working.choose(self, str(self.values.get("action", "")))

    def on_back(self) -> None:
        """Put the card away."""
        working.back(self)

    def on_setting(self) -> None:
        """A setting that brings other cautions."""
        working.setting(self)

    def on_arrange(self) -> None:
        """A step of an order of work, put in, moved or taken out."""
        arranging.arrange(self)

    def on_do(self) -> None:
        """Do the step whose card is open."""
        working.do(self)

    def on_hint(self) -> None:
        """The next hint."""
        working.hint(self)

    def on_jump(self) -> None:
        """To the drawing, the hints or the hand-back form."""
        place = str(self.values.get("value", ""))
        if place in ("spotlist", "hints", "hand-back-form"):
            self.point(place)

    def on_comments(self) -> None:
        """Comments after each step, on or off."""
        working.comments(self)

    def on_bands(self) -> None:
        """Maker's bands of an own machine."""
        working.bands(self)

    # the end --------------------------------------------------------------------------------------

    def on_hand_back(self) -> None:
        """Close the job."""
        closing.hand_back(self)

    def on_card(self) -> None:
        """Write the job card."""
        closing.card(self)

    def on_score(self) -> None:
        """Work the score out; the page asks for it when it shows the report."""
        closing.score(self)

    def on_reflect(self) -> None:
        """Keep the answer to the question at the end."""
        closing.reflect(self)

    # without a kernel -----------------------------------------------------------------------------

    def still_html(self) -> str:
        """What a page without a kernel shows."""
        return views.still(self)


def open_bench(
    scenario: str | None = None,
    learner: str = "",
    *,
    folder: Path | Literal[False] | None = None,
    **options: Any,
) -> BenchPanel:
    """The bench panel for a notebook.

    Parameters
    ----------
    scenario : str, optional
        Name of a scenario; without it the panel begins with the choice of a machine.
    learner : str
        Case and spaces do not matter.
    folder : Path or False, optional
        Where jobs are kept; the workspace when left out, in memory only when False.
    **options
        ``secret`` and ``reminders`` of :class:`twostroke.bench.Bench`.
    """
    where = store.place() if folder is None else folder or None
    if scenario is None:
        return BenchPanel(None, where, learner)
    return BenchPanel(BenchJob(scenario, learner, where, **options), where, learner)


def open_own(
    complaint: str,
    learner: str,
    bands: dict[str, str] | None = None,
    *,
    name: str = "own machine",
    features: list[str] | None = None,
    folder: Path | Literal[False] | None = None,
    shop: OwnShop | None = None,
) -> BenchPanel:
    """The same panel for your own machine.

    Parameters
    ----------
    complaint : str
        Complaint kind of the table, such as ``"no_start"``.
    learner : str
    bands : dict, optional
        From the maker's manual, such as ``{"air_gap": "0.3-0.5 mm"}``.
    name : str
        What the machine is called on the job card.
    features, folder
        As for `OwnJob`.
    shop : OwnShop, optional
        A shop's own table and prices.
    """
    where = store.place() if folder is None else folder or None
    own = shop or OwnShop()
    return BenchPanel(
        OwnJob(name, complaint, learner, bands, features, where, own.table), where, learner, own
    )
