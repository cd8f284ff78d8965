"""The static site: built from one lesson here (all of them in tests/browser), read as a parser reads it."""

from __future__ import annotations

import re
import shutil
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from click.testing import CliRunner
from twostroke import resources
from twostroke.build import BuildError
from twostroke.build.site import MARK, _for_the_site, default_folder, site
from twostroke.cli import group
from twostroke.lesson import content, tables

RESOURCES = {"src", "href", "srcset", "data", "poster", "action", "background", "xlink:href"}


class Read(HTMLParser):
    """Addresses, ids, headings, landmarks and pictures of a page."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.addresses: list[tuple[str, str]] = []
        self.ids: list[str] = []
        self.levels: list[int] = []
        self.tags: list[str] = []
        self.unnamed: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        named = dict(attrs)
        self.tags.append(tag)
        self.addresses += [(tag, value or "") for name, value in attrs if name in RESOURCES]
        if named.get("id"):
            self.ids.append(named["id"])
        if re.fullmatch("h[1-6]", tag):
            self.levels.append(int(tag[1]))
        if tag == "img" and not named.get("alt"):
            self.unnamed.append(str(named.get("src")))
        if tag == "iframe" and not named.get("title"):
            self.unnamed.append("iframe")


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    """The site of one lesson."""
    folder = tmp_path_factory.mktemp("one")
    lessons = folder / "lessons"
    lessons.mkdir()
    shutil.copy(resources.lessons() / "01_shop_units.ipynb", lessons)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(resources, "lessons", lambda: lessons)
        made = site(folder / "site")
    assert made[0].name == "index.html"
    assert all(path.is_file() for path in made)
    return folder / "site"


def pages(place: Path) -> list[Path]:
    return sorted(place.rglob("*.html"))


def test_does_every_address_lie_in_the_site(place):
    for page in pages(place):
        read = Read(page.read_text(encoding="utf-8"))
        for tag, address in read.addresses:
            if address.startswith(("#", "data:")):
                continue
            split = urlsplit(address)
            assert not split.scheme, f"{page.name}: {tag} asks {address}"
            assert not split.netloc, f"{page.name}: {tag} asks {address}"
            target = (page.parent / unquote(split.path)).resolve()
            assert target.is_file(), f"{page.name}: {address} is missing"
            assert place.resolve() in target.parents, f"{page.name}: {address} leaves the site"
            if split.fragment and target.suffix == ".html":
                assert f'id="{unquote(split.fragment)}"' in target.read_text(encoding="utf-8"), address


def test_does_no_page_run_or_fetch_anything(place):
    for file in place.rglob("*"):
        if file.suffix not in (".html", ".css"):
            continue
        text = file.read_text(encoding="utf-8")
        assert "<script" not in text, file.name
        assert "@import" not in text, file.name
        for asked in re.findall(r"url\(([^)]*)\)", text):
            assert asked.strip("'\"").startswith(("#", "data:")), f"{file.name}: {asked}"


def test_do_links_within_a_page_arrive(place):
    for page in place.glob("*.html"):
        read = Read(page.read_text(encoding="utf-8"))
        for tag, address in read.addresses:
            if tag == "a" and address.startswith("#"):
                assert unquote(address[1:]) in read.ids, f"{page.name}: {address}"


def test_is_each_page_in_order_for_a_screen_reader(place):
    for page in place.glob("*.html"):
        text = page.read_text(encoding="utf-8")
        read = Read(text)
        assert '<html lang="en-GB">' in text
        assert read.levels.count(1) == 1, page.name
        jumps = [
            (one, other) for one, other in zip(read.levels, read.levels[1:], strict=False) if other > one + 1
        ]
        assert jumps == [], f"{page.name}: headings jump {jumps}"
        assert len(read.ids) == len(set(read.ids)), f"{page.name}: an id comes twice"
        for landmark in ("header", "nav", "main", "footer"):
            assert landmark in read.tags, f"{page.name} without {landmark}"
        assert read.unnamed == [], page.name


def test_stands_everything_of_the_lesson_on_its_page(place):
    text = (place / "01_shop_units.html").read_text(encoding="utf-8")
    lesson = content.load("01")
    for figure in lesson.figures:
        words = re.search(r"<desc[^>]*>(.*?)</desc>", figure.still().svg, flags=re.S)
        assert words is not None
        assert words.group(1) in text, figure.id
    assert text.count("<details") >= len(lesson.questions), "answers are folded away"
    assert "Run All Cells" not in text, "nothing is said that only a notebook can do"
    assert 'href="index.html#map">map of the course' in text, "the map is a page of its own here"
    assert "kept in memory only" not in text
    assert "open_lesson" not in text, "no code"


def test_does_the_index_show_the_whole_course(place):
    text = (place / "index.html").read_text(encoding="utf-8")
    for one in tables.modules().values():
        assert one.title in text
    assert text.count("not written yet") == len(tables.modules()) - 1
    assert 'href="cards/card_01_shop_units.pdf"' in text
    assert 'href="cards/cards.pdf"' in text


def test_hold_the_tables_everything(place):
    words = (place / "glossary.html").read_text(encoding="utf-8")
    assert all(f'<dt id="{key}"' in words for key in tables.words())
    beliefs = (place / "beliefs.html").read_text(encoding="utf-8")
    assert all(f'<h2 id="{key}"' in beliefs for key in tables.misconceptions())


def test_is_an_older_site_renewed(place):
    (place / "99_gone.html").write_text("left over")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(resources, "lessons", lambda: place.parent / "nothing")
        site(place)
        assert not (place / "99_gone.html").exists()
        assert not (place / "01_shop_units.html").exists()
        patch.setattr(resources, "lessons", lambda: place.parent / "lessons")
        site(place)
    assert (place / "01_shop_units.html").is_file()


def test_is_a_folder_with_other_things_left_alone(tmp_path):
    (tmp_path / "letter.txt").write_text("mine")
    with pytest.raises(BuildError, match="holds something else"):
        site(tmp_path)
    assert [file.name for file in tmp_path.iterdir()] == ["letter.txt"]


def test_is_nothing_written_into_the_course_itself():
    with pytest.raises(BuildError, match="inside the course itself"):
        site(resources.clone() / "course" / "site")
    with pytest.raises(BuildError, match="is a file"):
        site(resources.clone() / "README.md")


def test_does_the_command_say_where_it_lies_and_what_it_cannot_do(tmp_path, monkeypatch):
    seen = []
    monkeypatch.setattr(
        "twostroke.build.site.site", lambda folder, say: seen.append(folder) or [Path("a/index.html")]
    )
    done = CliRunner().invoke(group, ["build", "--site", str(tmp_path)])
    assert done.exit_code == 0
    assert "begin with a/index.html" in done.output
    CliRunner().invoke(group, ["build", "--site"])
    assert seen == [str(tmp_path), None]
    assert default_folder().name == "two-stroke-site"
    assert CliRunner().invoke(group, ["build", "lessons", "--site", str(tmp_path)]).exit_code == 2


@pytest.mark.parametrize(
    ("html", "wanted", "why"),
    [
        ('<a href="01_shop_units.ipynb">x</a>', '<a href="01_shop_units.html">x</a>', "another lesson"),
        (
            '<a href="02_two_stroke_cycle.ipynb#Words">x</a>',
            '<a href="02_two_stroke_cycle.html#Words">x</a>',
            "a heading",
        ),
        ('<a href="../cards/card_01.pdf">x</a>', '<a href="cards/card_01.pdf">x</a>', "a card"),
        ('<a href="../labs/lab01/lab01.ipynb">lab</a>', "lab", "labs are notebooks: no page here"),
        (
            '<h2 id="a">A</h2><h2 id="a">A</h2>',
            '<h2 id="a">A</h2><h2 id="a-2">A</h2>',
            "two headings of the same words",
        ),
        ('<h2 id="a">A<a class="anchor-link" href="#a">¶</a></h2>', '<h2 id="a">A</h2>', "no stray mark"),
    ],
)
def test_where_does_a_link_lead_in_the_site(html, wanted, why):
    assert _for_the_site(html) == wanted, why


def test_do_two_pictures_keep_their_own_names():
    svg = '<svg aria-labelledby="t d"><title id="t">T</title><desc id="d">D</desc><g fill="url(#t)"/></svg>'
    html = _for_the_site(svg + svg)
    read = Read(html)
    assert len(set(read.ids)) == 4
    assert html.count('aria-labelledby="p1-t p1-d"') == 1
    assert 'fill="url(#p2-t)"' in html


def test_is_the_mark_of_a_site_kept(place):
    assert (place / MARK).is_file()
