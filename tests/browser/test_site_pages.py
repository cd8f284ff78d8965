"""The static site in a browser, opened from files: no network, a phone's width, a screen reader."""

from __future__ import annotations

import os
import re
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from twostroke.build.site import site
from twostroke.lesson import content

PHONE = 360


@pytest.fixture(scope="module")
def place(tmp_path_factory) -> Path:
    """The whole site in a folder with a blank in its name, as on a share."""
    folder = tmp_path_factory.mktemp("share") / "course pages"
    site(folder)
    return folder


@pytest.fixture
def browse(new_context, place):
    """Opens a file of the site; afterwards every request was for a file of the site that is there."""
    asked, pages = [], {}

    def make(file: str, width: int = 1000, height: int = 900):
        if (width, height) not in pages:
            context = new_context(width, height, offline=True)
            context.on("request", lambda request: asked.append(request.url))
            pages[width, height] = context.new_page()
        page = pages[width, height]
        page.goto((place / file).as_uri())
        return page

    yield make
    for address in asked:
        if address.startswith("data:"):
            continue
        assert address.startswith("file://"), f"asked for {address}"
        path = Path(unquote(urlsplit(address).path))
        assert place in path.parents, f"asked for {path}, outside the site"
        assert path.is_file(), f"{path.name} is missing"
    assert asked


def html_pages(place: Path) -> list[str]:
    return sorted(path.relative_to(place).as_posix() for path in place.rglob("*.html"))


def test_is_every_page_there_and_asks_for_nothing_else(place, browse):
    names = html_pages(place)
    assert len([name for name in names if re.match(r"\d\d_", name)]) >= 9
    for name in names:
        page = browse(name)
        assert page.title()
        fetched = page.evaluate("() => performance.getEntriesByType('resource').map((one) => one.name)")
        assert [one for one in fetched if not one.startswith(("file:", "data:"))] == [], name
        assert page.evaluate("() => document.scripts.length") == 0, name


def test_does_every_page_fit_a_phone(place, browse):
    """No page moves sideways; labels in pictures stay readable because only the picture moves."""
    folder = os.environ.get("TWOSTROKE_SCREENSHOTS")
    for name in sorted(path.name for path in place.glob("*.html")):
        page = browse(name, PHONE, 740)
        wide = page.evaluate(
            """() => [...document.querySelectorAll('body *')].filter((one) => {
                if (one.closest('.picture, .wide, .skip')) return false;
                return one.getBoundingClientRect().right > window.innerWidth + 1;
            }).slice(0, 3).map((one) => one.outerHTML.slice(0, 120))"""
        )
        assert wide == [], f"{name}: {wide}"
        assert page.evaluate("() => document.documentElement.scrollWidth") <= PHONE, name
        small = page.evaluate(
            """() => [...document.querySelectorAll('.picture svg')].filter((one) => {
                const scale = one.getBoundingClientRect().width / one.viewBox.baseVal.width;
                return 15 * scale < 10.5;
            }).length"""
        )
        assert small == 0, f"{name}: {small} pictures with labels too small to read"
        if folder:
            page.screenshot(path=Path(folder) / f"site_phone_{Path(name).stem}.png", full_page=True)


def test_does_the_reader_come_from_the_map_to_a_card_and_back(browse):
    page = browse("index.html")
    page.get_by_role("link", name="01 Shop units").click()
    assert page.get_by_role("heading", level=1).inner_text() == "01 Shop units"
    page.get_by_role("link", name="02 The two-stroke cycle →").click()
    page.get_by_role("link", name="← 01 Shop units").click()
    page.get_by_role("navigation", name="Site").get_by_role("link", name="Map of the course").click()
    page.get_by_role("link", name="Bench card 01 as a page").click()
    assert "Shop units" in page.locator("body").inner_text()


def test_is_an_answer_folded_until_it_is_asked_for(browse):
    page = browse("01_shop_units.html")
    question = content.load("01").questions[0]
    box = page.get_by_role("region", name=re.compile("^Question: " + re.escape(question.ask[:30])))
    said = box.get_by_text(next(option.say for option in question.options if option.right)[:40])
    assert not said.is_visible()
    box.locator("summary").press("Enter")
    assert said.is_visible()


def test_does_axe_find_nothing_serious_on_any_page(place, browse):
    axe = pytest.importorskip(
        "axe_playwright_python.sync_playwright", reason="pip install axe-playwright-python"
    )
    found = {}
    for name in sorted(path.name for path in place.glob("*.html")):
        results = axe.Axe().run(browse(name)).response["violations"]
        bad = [
            (one["id"], one["nodes"][0]["html"][:160])
            for one in results
            if one["impact"] in ("serious", "critical")
        ]
        if bad:
            found[name] = bad
    assert found == {}
