"""The lessons as a static site: it is built and read without any network, also from a file share.

Each lesson is run once (`nbclient`) with nothing kept, and turned into a page (`nbconvert`) inside the
site's own frame: every control leaves its still form, every figure its picture. Beside the lessons stand an
index with the map of the course, the words, the beliefs, and the bench cards.
"""

from __future__ import annotations

import os
import re
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import jinja2
from markupsafe import Markup

from twostroke import resources
from twostroke.build.parts import BuildError

MARK = ".two-stroke-site"
FIRST = "index.html"
_FILES = Path(__file__).parent / "site_files"
_TOP = ((FIRST, "Map of the course"), ("glossary.html", "Words"), ("beliefs.html", "Beliefs"))
_PRIORITY = ["text/html", "image/svg+xml", "image/png", "text/markdown", "text/plain"]
_NOTHING_KEPT = {"TWOSTROKE_PROGRESS": "off", "TWOSTROKE_BENCH_JOBS": "off"}
_ONLY_IN_A_NOTEBOOK = ("from twostroke import lesson", "page.map()", "page.all_words()")


@dataclass(frozen=True)
class Row:
    """One lesson on the index: its page and card are empty where the lesson is not written."""

    module: Any
    page: str
    card: str
    before: str


def default_folder() -> Path:
    """``two-stroke-site`` in the home folder."""
    return Path.home() / "two-stroke-site"


def site(folder: str | Path | None = None, say: Callable[[str], None] = lambda _: None) -> list[Path]:
    """Write the site.

    Parameters
    ----------
    folder : path, optional
        Made when missing, renewed when it holds a site already. Default: `default_folder`.
    say : callable
        Called with a sentence as each page begins.

    Returns
    -------
    list of Path
        Every file written, the index first.

    Raises
    ------
    BuildError
        The folder holds something else or lies in a clone, or a lesson does not run.
    """
    from twostroke.lesson import tables, write_cards
    from twostroke.lesson.box import DEFER

    place = _checked(Path(folder).expanduser() if folder is not None else default_folder())
    place.mkdir(parents=True, exist_ok=True)
    (place / MARK).write_text("pages here are written by `twostroke build --site`\n", encoding="utf-8")
    for old in place.glob("*.html"):
        old.unlink()
    notebooks = {path.name: path for path in sorted(resources.lessons().glob("*.ipynb"))}
    written = [one for one in tables.modules().values() if one.notebook in notebooks]
    pages = {one.number: f"{Path(one.notebook).stem}.html" for one in written}
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(_FILES), autoescape=True, undefined=jinja2.StrictUndefined
    )
    made: list[Path] = []

    def page(template: str, file: str, **what: Any) -> None:
        text = environment.get_template(template).render(here=file, top=_TOP, defer=DEFER, **what)
        (place / file).write_text(f"{text}\n", encoding="utf-8")
        made.append(place / file)

    known = {number: pages.get(number, "") for number in tables.modules()}
    rows = [
        Row(
            one,
            known[one.number],
            f"card_{one.number}_{one.slug}" if known[one.number] else "",
            _back(one.number) if known[one.number] else "",
        )
        for one in tables.modules().values()
    ]
    page("index.html", FIRST, title="Map of the course", modules=rows)
    page("glossary.html", "glossary.html", title="Words", words=list(tables.words().values()), pages=known)
    page(
        "beliefs.html",
        "beliefs.html",
        title="Beliefs",
        beliefs=list(tables.misconceptions().values()),
        pages=known,
    )
    names = [(pages[one.number], f"{one.number} {one.title}") for one in written]
    for row, one in enumerate(written):
        say(f"lesson {one.number} {one.title}")
        page(
            "lesson.html",
            pages[one.number],
            title=names[row][1],
            body=Markup(_only_what_is_here(_body(notebooks[one.notebook]), set(pages.values()))),
            before=names[row - 1] if row else None,
            after=names[row + 1] if row + 1 < len(names) else None,
        )
    say("bench cards")
    cards = write_cards(place / "cards")
    style = place / "site.css"
    style.write_bytes((_FILES / "site.css").read_bytes())
    return [*made, style, *cards]


def _checked(place: Path) -> Path:
    """A folder that may be written: new, empty, or a site of ours; never inside a clone."""
    whole = place.resolve()
    if whole.exists() and not whole.is_dir():
        raise BuildError(f"{place} is a file: give a folder for the site")
    if any(resources.is_clone(folder) for folder in (whole, *whole.parents)):
        raise BuildError(f"{place} lies inside the course itself: give a folder outside it")
    if whole.is_dir() and any(whole.iterdir()) and not (whole / MARK).is_file():
        raise BuildError(f"{place} holds something else: give a new folder, an empty one, or an older site")
    return whole


def _back(number: str) -> str:
    """Earlier lessons that the questions of a lesson come back to."""
    from twostroke.lesson import content

    lesson = content.find(number)
    return ", ".join(sorted({one.about for one in lesson.questions if one.about < number})) if lesson else ""


def _body(notebook: Path) -> str:
    """One lesson, run with nothing kept, as HTML without anything that only a notebook can do."""
    import nbformat
    from nbclient import NotebookClient
    from nbclient.exceptions import CellExecutionError
    from nbconvert import HTMLExporter
    from traitlets.config import Config

    read = nbformat.read(notebook, as_version=4)
    with tempfile.TemporaryDirectory(prefix="twostroke-site-") as work, _variables(_NOTHING_KEPT):
        try:
            NotebookClient(
                read,
                timeout=300,
                store_widget_state=False,
                resources={"metadata": {"path": work}},
                extra_arguments=["--log-level=40"],
            ).execute()
        except CellExecutionError as error:
            raise BuildError(f"{notebook.name} does not run: {error}") from error
    read.cells = [cell for cell in read.cells if not cell.source.startswith(_ONLY_IN_A_NOTEBOOK)]
    config = Config()
    config.NbConvertBase.display_data_priority = _PRIORITY
    config.HTMLExporter.exclude_input = True
    config.HTMLExporter.exclude_output_prompt = True
    html, _ = HTMLExporter(config=config, template_name="basic").from_notebook_node(read)
    return _for_the_site(html)


@contextmanager
def _variables(wanted: dict[str, str]) -> Iterator[None]:
    """Environment variables for a while; kernels started meanwhile inherit them."""
    before = {name: os.environ.get(name) for name in wanted}
    os.environ.update(wanted)
    try:
        yield
    finally:
        for name, value in before.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value


def _for_the_site(html: str) -> str:
    """Links to pages instead of notebooks; pictures and tables that can be moved sideways; ids once each."""
    html = re.sub(r'<a class="anchor-link".*?</a>', "", html, flags=re.S)
    html = re.sub(r"<p><strong>Choose Run.*?</p>", "", html, flags=re.S)
    html = re.sub(r'href="(?:\./)?(\d\d_[a-z0-9_]+)\.ipynb', r'href="\1.html', html)
    html = re.sub(r'href="[^"]*">map of the course<', f'href="{FIRST}#map">map of the course<', html)
    html = html.replace('href="../cards/', 'href="cards/')
    html = re.sub(r'<a [^>]*href="\.\./labs/[^"]*"[^>]*>(.*?)</a>', r"\1", html, flags=re.S)
    html = re.sub(r' id="cell-id=[^"]*"', "", html)
    html = _headings_apart(html)
    count = iter(range(1, 1000))
    html = re.sub(r"<svg\b.*?</svg>", lambda found: _picture(found[0], next(count)), html, flags=re.S)
    return re.sub(
        r"<table\b.*?</table>",
        lambda found: f'<div class="wide" tabindex="0" role="group" aria-label="Table">{found[0]}</div>',
        html,
        flags=re.S,
    )


def _only_what_is_here(html: str, pages: set[str]) -> str:
    """A link to a lesson without a page becomes plain text."""
    return re.sub(
        r'<a [^>]*href="(\d\d_[a-z0-9_]+\.html)[^"]*"[^>]*>(.*?)</a>',
        lambda found: found[0] if found[1] in pages else found[2],
        html,
        flags=re.S,
    )


def _headings_apart(html: str) -> str:
    """Headings of the same words get ids that differ; the first keeps its own, to which links lead."""
    seen: dict[str, int] = {}

    def own(found: re.Match[str]) -> str:
        name = found[2]
        seen[name] = seen.get(name, 0) + 1
        return found[0] if seen[name] == 1 else f'{found[1]}id="{name}-{seen[name]}"'

    return re.sub(r'(<h[1-6][^>]*\b)id="([^"]+)"', own, html)


def _picture(svg: str, number: int) -> str:
    """A drawing whose ids are its own, in a frame that can be moved sideways on a phone."""
    named = set(re.findall(r'\bid="([^"]+)"', svg))

    def own(name: str) -> str:
        return f"p{number}-{name}" if name in named else name

    svg = re.sub(r'\bid="([^"]+)"', lambda found: f'id="{own(found[1])}"', svg)
    svg = re.sub(r'(url\(|href=")#([^)"]+)', lambda found: f"{found[1]}#{own(found[2])}", svg)
    svg = re.sub(
        r'(aria-(?:labelledby|describedby)=")([^"]*)',
        lambda found: found[1] + " ".join(own(name) for name in found[2].split()),
        svg,
    )
    return f'<div class="picture" tabindex="0" role="group" aria-label="Picture">{svg}</div>'
