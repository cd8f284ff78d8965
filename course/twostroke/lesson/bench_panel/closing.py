"""The end of a job on the panel: hand-back, score, reflection."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from twostroke.bench.outcome import certainty
from twostroke.errors import TwoStrokeError
from twostroke.lesson.bench_panel import report

if TYPE_CHECKING:
    from twostroke.lesson.bench_panel.panel import BenchPanel


def hand_back(panel: BenchPanel) -> None:
    """Close the job with a diagnosis and a confidence."""
    job, values = panel._here(), panel.values
    hand_on = values.get("way") == "on"
    diagnosis = str(values.get("diagnosis", "")).strip()
    share = str(values.get("confidence", "")).strip().rstrip("% ")
    if not diagnosis and not hand_on:
        _ask(panel, "diagnosis", "Say first what was wrong, by all that you have seen.")
        return
    if not share:
        _ask(panel, "confidence", "Say how sure you are, from 0 (a guess) to 100 (certain).")
        return
    try:
        certainty(f"{share} %")
    except TwoStrokeError:
        _ask(panel, "confidence", "How sure you are is a number from 0 (a guess) to 100 (certain).")
        return
    job.hand_back(diagnosis or None, f"{share} %", hand_on=hand_on)
    panel.chosen = ""
    panel.draw()
    panel.speak("The job is closed. The report follows.")
    panel.point("report")


def _ask(panel: BenchPanel, field: str, words: str) -> None:
    """Say in the form what is still open in it; what was filled in stays."""
    panel.missing, panel.handing = words, dict(panel.values)
    panel.draw()
    panel.speak(words)
    panel.point(field)


def score(panel: BenchPanel) -> None:
    """Work the score out and show it."""
    job = panel._here()
    if not job.closed or job.scored is not None:
        return
    report.score(job)
    panel.draw()
    said = report.verdict(job)
    panel.speak(said)


def reflect(panel: BenchPanel) -> None:
    """Keep the answer to the question at the end."""
    job = panel._here()
    job.reflection = str(panel.values.get("reflection", "")).strip()
    job.save()
    panel.draw()
    panel.speak("Kept.")


def card(panel: BenchPanel) -> None:
    """Write the job card and say where it lies."""
    from twostroke.lesson.bench_panel import cards  # the printer is slow to import

    files = cards.write(panel._here(), panel.shop.figures)
    names = {"pdf": "PDF, for printing", "html": "web page", "json": "data (JSON)"}
    if panel.cards:
        links = ", ".join(
            f'<a href="{escape(panel.cards + files[end].name, quote=True)}" target="_blank">{names[end]}</a>'
            for end in files
        )
        panel.message = f"<p><b>Job card written:</b> {links}.</p>"
    else:
        listed = ", ".join(escape(str(file)) for file in files.values())
        panel.message = f"<p><b>Job card written:</b> {listed}.</p>"
    panel.draw()
    panel.speak("Job card written.")
    panel.point("message")
