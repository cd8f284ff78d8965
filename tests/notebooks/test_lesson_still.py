"""A lesson read without a kernel: run once, exported as a page, every figure a picture and every question
there."""

from __future__ import annotations

import re
from html import unescape

import nbformat
import pytest
from nbclient import NotebookClient
from nbconvert import HTMLExporter
from traitlets.config import Config
from twostroke import resources
from twostroke.lesson import content
from twostroke.lesson.control import plain

LESSONS = sorted((resources.clone() / "course" / "lessons").glob("*.ipynb"))
PRIORITY = ["text/html", "image/svg+xml", "image/png", "text/markdown", "text/plain"]


def _marked(path):
    quick = path.stem.startswith("01")
    return pytest.param(path, id=path.stem, marks=[] if quick else [pytest.mark.slow])


@pytest.mark.parametrize("path", [_marked(path) for path in LESSONS])
def test_does_a_page_without_a_kernel_show_pictures_questions_and_cautions(path, tmp_path, monkeypatch):
    monkeypatch.setenv("TWOSTROKE_PROGRESS", str(tmp_path / "progress.json"))
    notebook = nbformat.read(path, as_version=4)
    NotebookClient(notebook, timeout=600, resources={"metadata": {"path": str(tmp_path)}}).execute()
    config = Config()
    config.NbConvertBase.display_data_priority = PRIORITY
    html, _ = HTMLExporter(config=config).from_notebook_node(notebook)
    body = html[html.index("<body") :]
    assert "Error displaying widget" not in body
    assert "application/vnd.jupyter.widget-view" not in body
    lesson = content.load(path.stem[:2])
    for figure in lesson.figures:
        drawn = figure.still().svg
        said = drawn[drawn.index("<title") : drawn.index("</desc>")]
        # The exporter writes the same characters with other entities (an apostrophe as itself).
        assert unescape(said) in unescape(body), figure.id
    assert body.count("<svg") >= len(lesson.figures)
    read = plain(re.sub(r"<(style|script).*?</\1>", "", body, flags=re.S))
    for question in (*lesson.questions, *lesson.exit_check):
        assert plain(question.ask) in read, question.id
    for prediction in lesson.predictions:
        assert plain(prediction.ask) in read
    assert "⚠ Caution" in read
    assert not (tmp_path / "progress.json").exists(), "running a lesson writes nothing; only the reader does"
