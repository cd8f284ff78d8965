"""A guided job on the bench panel: the same bench, with a guide on top that watches what is done."""

from __future__ import annotations

from pathlib import Path

from twostroke.lesson import box
from twostroke.lesson.bench_panel import BenchJob, BenchPanel, store
from twostroke.lesson.bench_panel import cards as written
from twostroke.lesson.bench_panel.steps import title_of
from twostroke.lesson.control import plain
from twostroke.lesson.errors import LessonError
from twostroke.lesson.guide import CARD, CLOSE, GuidedJob, Stage
from twostroke.lesson.progress import Progress

FOLDER = "guided"


class Guided(BenchPanel):
    """The control for one `GuidedJob`.

    The guide never stops the reader: any step may be done at any time. A stage is over when the bench's own
    record holds one of its steps.

    Parameters
    ----------
    lesson : str
        Lesson number.
    task : GuidedJob
        Machine and stages.
    progress : Progress
        Where the stages done are kept.
    folder : Path, optional
        Where jobs are kept; in memory only when left out.
    """

    def __init__(self, lesson: str, task: GuidedJob, progress: Progress, folder: Path | None = None) -> None:
        self.lesson, self.task, self.progress = lesson, task, progress
        begun = progress.last(lesson, task.id, "job")
        super().__init__(None, folder / FOLDER if folder else None, str(begun["learner"]) if begun else "")
        self.name = f"Guided job: {task.title}"

    # where the job stands -------------------------------------------------------------------------

    def finished(self, stage: Stage) -> bool:
        """Whether a stage's step is on the bench's record."""
        if self.job is None:
            return False
        if stage.steps == (CLOSE,):
            return self.job.closed
        if stage.steps == (CARD,):
            return bool(self._card())
        return any(step.action in stage.steps for step in self.job.session.route)

    @property
    def done(self) -> list[Stage]:
        """Stages that are over."""
        return [stage for stage in self.task.stages if self.finished(stage)]

    @property
    def stage(self) -> Stage | None:
        """The stage to do next; None when none is left, or only stages that a closed job can no longer do."""
        left = [stage for stage in self.task.stages if not self.finished(stage)]
        if self.job is not None and self.job.closed:
            left = [stage for stage in left if stage.steps == (CARD,)]
        return left[0] if left else None

    def _card(self) -> Path | None:
        """The page of the written job card, when it is there."""
        if self.job is None or not self.job.closed or self.job.file is None:
            return None
        page = self.job.file.parent / written.FOLDER / f"{self.job.file.stem}.html"
        return page if page.is_file() else None

    # the screen -----------------------------------------------------------------------------------

    def draw(self) -> None:
        """The bench's own screen with the guide above the drawing."""
        super().draw()
        if self.job is None:
            start = box.fill(
                "guide_start", uid=self.uid, task=self.task, learner=self.learner, kept=bool(self._kept())
            )
            self.regions = {**self.regions, "start": start.html}
        else:
            self.regions = {**self.regions, "message": self._guide() + self.regions["message"]}

    def _guide(self) -> str:
        assert self.job is not None
        stage, done, route = self.stage, self.done, self.job.session.route
        last = route[-1].action if route else ""
        latest = next((one for one in reversed(done) if last in one.steps or one.steps == (CARD,)), None)
        known = {step for one in self.task.stages for step in one.steps}
        aside = bool(last) and last not in known and not self.job.closed
        skipped = (
            [one.title for one in self.task.stages if not self.finished(one) and one is not stage]
            if self.job.closed
            else []
        )
        page = self._card()
        place = bool(stage and stage.place)
        return box.fill(
            "guide",
            uid=self.uid,
            title=self.task.title,
            done=len(done),
            total=len(self.task.stages),
            number=self.task.stages.index(stage) + 1 if stage else 0,
            stage=stage,
            step=title_of(self.job, stage.steps[0]) if stage and place else "",
            told=latest.told if latest and not aside else "",
            read=self.last.words if self.last and not self.job.closed else "",
            remark=self.job.follower.remarks[-1] if aside else "",
            skipped=", ".join(skipped),
            file=f"{store.FOLDER}/{FOLDER}/{written.FOLDER}/{page.with_suffix('.pdf').name}" if page else "",
            card=page.read_text(encoding="utf-8") if page else "",
        ).html

    def _kept(self) -> Path | None:
        if self.folder is None or not self.learner:
            return None
        file = store.file_for(self.folder, str(self.task.scenario()["id"]), self.learner)
        return file if file is not None and file.is_file() else None

    # what the reader does -------------------------------------------------------------------------

    def press(self, button: str) -> None:
        """Answer a press, keep how far the job is, and say what comes next."""
        before = len(self.done)
        super().press(button)
        if self.job is None or len(self.done) <= before:
            return
        self.progress.add(
            self.lesson,
            self.task.id,
            "job",
            value=[stage.id for stage in self.done],
            learner=self.learner,
            right=len(self.done) == len(self.task.stages),
        )
        stage = self.stage
        after = (
            f"Guide, next: {stage.title}: {plain(stage.say)}" if stage else "Guide: the whole job is done."
        )
        self.speak(f"{self.say} {after}")
        self.point("guide")

    def on_begin(self) -> None:
        """The machine of the guided job for a learner."""
        self.learner = str(self.values.get("learner", "")).strip()
        if not self.learner:
            raise LessonError("type your name or number first: it stands on the job card")
        self.put(BenchJob(self.task.scenario(), self.learner, self.folder))

    def on_card(self) -> None:
        """Write the job card; the guide shows it, so that no list of files need be read."""
        super().on_card()
        if self._card():
            self.message = ""
            self.draw()

    def on_again(self) -> None:
        """The same machine once more; the card of the job before is put aside."""
        page = self._card()
        super().on_again()
        for ending in written.ENDINGS if page else ():
            old = page.with_suffix(f".{ending}") if page else Path()
            old.replace(old.with_name(f"{old.stem}.earlier.{ending}"))
        self.draw()

    def still_html(self) -> str:
        """The stages in order, for a page without a kernel."""
        rows = ""
        for stage in self.task.stages:
            told = f" <i>What it told:</i> {stage.told}" if stage.told else ""
            rows += f"<li><b>{stage.title}.</b> {stage.say}{told}</li>"
        return (
            f"<p><strong>Guided job.</strong> {self.task.title}. On the virtual bench you do each stage"
            f" yourself.</p><ol>{rows}</ol>"
        )
