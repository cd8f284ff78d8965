"""What the panel does while a job is open: places, cards, steps, hints."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING, Any

from twostroke.errors import TwoStrokeError
from twostroke.isolation.hints import LEVELS
from twostroke.lesson.bench_panel import views
from twostroke.lesson.bench_panel.arranging import SELF, handed_in
from twostroke.lesson.bench_panel.fields import number, settings_from
from twostroke.lesson.bench_panel.job import OwnJob
from twostroke.lesson.bench_panel.parts import SPOTS, spot_of
from twostroke.lesson.bench_panel.steps import clean, plan
from twostroke.lesson.errors import LessonError

if TYPE_CHECKING:
    from twostroke.lesson.bench_panel.panel import BenchPanel


def pick(panel: BenchPanel, key: str) -> None:
    """Pick a place; its steps are listed."""
    if key not in SPOTS:
        raise LessonError(f"there is no place {key!r} on this machine")
    panel.picked, panel.chosen = key, ""
    panel.draw()
    panel.speak(f"{SPOTS[key].name} picked.")
    panel.point("work")


def choose(panel: BenchPanel, action: str) -> None:
    """Open the card of a step."""
    job = panel._here()
    if action not in job.session.actions():
        raise LessonError(f"there is no step {action!r} on this machine")
    panel.picked = spot_of(job.session.table, action)
    panel.chosen, panel.typed, panel.order = action, {}, []
    panel.draw()
    panel.point("card")


def back(panel: BenchPanel) -> None:
    """Put the card away."""
    panel.chosen = ""
    panel.draw()
    panel.point("work")


def setting(panel: BenchPanel) -> None:
    """A setting was changed that may bring other cautions."""
    if panel.chosen:
        panel.typed = dict(panel.values)
        panel.draw()


def do(panel: BenchPanel) -> None:
    """Do the step whose card is open."""
    job = panel._here()
    if not panel.chosen:
        raise LessonError("choose a step first")
    panel.typed = dict(panel.values)
    settings, cautions, kept = _given(panel)
    missing = [name for name, _, _ in cautions if name not in kept]
    if missing and not (job.kind == "scenario" and not job.session.reminders):
        names = [title for name, title, _ in cautions if name in missing]
        panel.message = (
            f"<p><b>Not done yet.</b> Confirm first: {escape(', '.join(names))}. "
            "Read each one, see to it on the machine, then tick it.</p>"
        )
        panel.draw()
        panel.speak(f"Not done yet. Confirm first: {', '.join(names)}.")
        panel.point(f"caution-{missing[0]}")
        return
    if job.kind == "scenario":
        settings = {**settings, "prepare": True}
    try:
        reading = job.do(panel.chosen, **settings, confirm=kept)
    except TwoStrokeError as error:
        raise LessonError(str(error).removeprefix(f"{panel.chosen}: ")) from None
    if not reading.done:
        raise TwoStrokeError(clean(reading.words))
    panel.last = views.Seen.of(job, reading)
    panel.chosen, panel.typed, panel.order = "", {}, []
    panel.message = f"<p>{escape(job.news)}</p>" if job.news else ""
    job.news = ""
    panel.draw()
    panel.speak(panel.last.spoken)
    panel.point("reading")


def _given(panel: BenchPanel) -> tuple[dict[str, Any], list[tuple[str, str, str]], list[str]]:
    """Settings, cautions and confirmed cautions of the card as it was sent."""
    job = panel._here()
    ticked = panel.values.get("confirm", [])
    ticked = [ticked] if isinstance(ticked, str) else list(ticked)
    if isinstance(job, OwnJob):
        settings = own_settings(job, panel.chosen, panel.values)
        return settings, plan(job, panel.chosen).cautions, ticked
    way = str(panel.values.get("order_way", ""))
    settings = settings_from(plan(job, panel.chosen, {"order_way": way}).fields, panel.values)
    if way == SELF:
        settings["order"] = handed_in(panel)
    cautions = plan(job, panel.chosen, settings).cautions
    known = [name for name, _, _ in cautions]
    return settings, cautions, [name for name in ticked if name in known]


def own_settings(job: OwnJob, action: str, values: dict[str, Any]) -> dict[str, Any]:
    """Settings of a step on an own machine: reading, state, minutes.

    Raises
    ------
    LessonError
        Nothing was filled in where something was to be seen.
    """
    typed = str(values.get("number", "")).strip()
    reading = typed or str(values.get("word", "")).strip()
    settings: dict[str, Any] = {
        "condition": str(values.get("condition", "") or job.session.usual_condition(action))
    }
    test = job.session.table.tests.get(action)
    if reading:
        settings["reading"] = reading
    elif test is not None or action == "verify":
        with_number = test is not None and test.reading is not None
        or_number = "fill in the reading with its unit, or " if with_number else ""
        raise LessonError(f"{or_number}choose what was seen")
    minutes = str(values.get("minutes", "")).strip()
    if minutes:
        settings["minutes"] = number(minutes)
    return settings


def hint(panel: BenchPanel) -> None:
    """Give the next hint and count it."""
    given = panel._here().hint()
    panel.draw()
    panel.speak(f"Hint {given.level} of 3, {LEVELS[given.level - 1]}: {given.text}")
    panel.point("hint")


def comments(panel: BenchPanel) -> None:
    """Switch the comments after each step on or off."""
    job = panel._here()
    job.comments = not job.comments
    job.save()
    panel.draw()
    panel.speak("Comments on." if job.comments else "Comments off.")


def bands(panel: BenchPanel) -> None:
    """Put in the maker's bands."""
    job = panel._here()
    if not isinstance(job, OwnJob):
        return
    job.set_bands({name[5:]: str(text) for name, text in panel.values.items() if name.startswith("band-")})
    panel.last = views.last_seen(job)
    panel.draw()
    panel.speak("Bands kept. Readings that were taken are judged by them now.")
