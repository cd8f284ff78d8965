"""The bench in a browser: as a page of its own and in a notebook, by pointer, by keyboard, on a tablet."""

from __future__ import annotations

import json
import re
import urllib.error
import urllib.request

import pytest

expect = pytest.importorskip("playwright.sync_api", reason="pip install playwright").expect
TITLE = "The hedge trimmer that was choked too long"
PUT = f"Put on the bench: {TITLE}"


@pytest.fixture
def open_page(new_context, bench):
    """Opens the bench in a fresh browser; afterwards nothing may have left loopback or gone wrong."""
    asked, wrong = [], []

    def make(width=1024, height=900):
        context = new_context(width, height)
        context.on("request", lambda request: asked.append(request.url))
        page = context.new_page()
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
        page.goto(bench.url)
        page.get_by_role("heading", name="Bench", exact=True).wait_for()
        return page

    yield make
    assert [url for url in asked if not re.match(r"(https?|wss?)://127\.0\.0\.1[:/]|data:", url)] == []
    assert wrong == []


def begin(page, learner="Anna", button=PUT):
    page.get_by_role("form", name="A demo machine").get_by_label("Your name or number").fill(learner)
    page.get_by_role("button", name=button).click()
    page.get_by_role("button", name="spark plug", exact=True).wait_for()


def choose(page, place, name):
    """A place on the drawing and a step there; the list of the place gives way to the card of the step."""
    page.get_by_role("button", name=place, exact=True).click()
    page.locator("[data-focus=work]", has_text=re.compile(f"^{place}$", re.IGNORECASE)).wait_for()
    page.get_by_role("button", name=name).first.click()
    page.locator("[data-focus=card]").wait_for()


def step(page, place, name, choices=()):
    """One step by pointer: place on the drawing, step, settings, cautions, do it."""
    choose(page, place, name)
    for label, value in choices:
        page.get_by_label(label).select_option(value)
    for box in page.get_by_role("checkbox").all():
        box.check()
    count = page.locator(".bt-log tbody tr").count()
    page.get_by_role("button", name=re.compile("^Do it")).click()
    page.locator(".bt-log tbody tr").nth(count).wait_for()


def cure(page):
    step(page, "spark plug", "Look at the plug")
    step(page, "spark plug", "Fit a known-good plug", [("First turns of screws and plug", "by hand")])
    step(page, "whole machine and rope", "Verify run")


def test_can_a_machine_be_isolated_and_repaired_by_pointer(open_page):
    page = open_page()
    begin(page)
    cure(page)
    assert "plug" in page.locator(".bt-strip dd").nth(3).inner_text()
    page.get_by_label("What was wrong").select_option("plug_fouled")
    page.get_by_label(re.compile("How sure")).fill("85")
    page.get_by_role("button", name="Close the job").click()
    page.get_by_role("heading", name=f"After the job: {TITLE}").wait_for()
    axis = page.get_by_role("img", name="Routes on one time axis")
    assert "Best route" in axis.inner_html()
    page.locator(".bt-verdict", has_text=re.compile(r"Score \d+ of 100")).wait_for()
    page.get_by_label("What told you that the module was worth keeping?").fill(
        "A good spark on the spare plug."
    )
    page.get_by_role("button", name="Keep the answer").click()
    page.locator(".bt-page").get_by_text("Kept.", exact=True).first.wait_for()
    page.get_by_role("button", name="Job card").click()
    link = page.get_by_role("link", name="PDF, for printing")
    link.wait_for()
    reply = page.request.get(page.url.rstrip("/") + link.get_attribute("href"))
    assert reply.ok
    assert reply.body().startswith(b"%PDF")


def tab_to(page, attribute, value):
    """Press Tab until what has the focus is marked so."""
    for _ in range(140):
        page.keyboard.press("Tab")
        if page.evaluate("name => document.activeElement.getAttribute(name)", attribute) == value:
            return
    raise AssertionError(f"{value!r} is not reached with Tab")


def test_can_a_step_be_done_by_keyboard_alone(open_page):
    page = open_page()
    tab_to(page, "data-focus", "learner")
    page.keyboard.type("Anna")
    tab_to(page, "aria-label", PUT)
    page.keyboard.press("Enter")
    page.locator(".bt-spot").first.wait_for()
    for _ in range(30):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.classList.contains('bt-spot')"):
            break
    for _ in range(20):
        if page.evaluate("document.activeElement.getAttribute('aria-label')") == "spark plug":
            break
        page.keyboard.press("ArrowRight")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Spark plug").wait_for()
    expect(page.get_by_role("heading", name="Spark plug")).to_be_focused()
    page.keyboard.press("Tab")
    assert "Look at the plug" in page.evaluate("document.activeElement.textContent")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Look at the plug")).to_be_focused()
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.type") == "checkbox"
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")  # not confirmed yet: the focus goes to what is missing
    page.locator(".bt-page").get_by_text("Not done yet.").wait_for()
    expect(page.get_by_role("checkbox", name=re.compile("Fuel spray"))).to_be_focused()
    page.keyboard.press("Space")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Latest reading")).to_be_focused()
    assert page.locator(".bt-log tbody tr").count() == 1


def test_is_a_new_reading_told_to_a_screen_reader(open_page):
    page = open_page()
    begin(page)
    step(page, "cylinder", "Compression gauge")
    live = page.get_by_role("status")
    expect(live).to_contain_text("bar")
    expect(live).to_contain_text("min on the clock")
    page.get_by_role("img", name="Gauge: compression").wait_for()
    page.get_by_role("table").get_by_role("rowheader", name="Compression gauge").wait_for()


@pytest.mark.parametrize(("width", "height"), [(768, 1024), (820, 1180), (1180, 820)])
def test_does_it_fit_a_tablet(open_page, width, height):
    page = open_page(width, height)
    begin(page)
    choose(page, "ignition module", "Set the air gap, both legs")
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    small = page.evaluate(
        """() => [...document.querySelectorAll('.bt button, .bt select, .bt input[type=text]')]
        .filter((one) => one.offsetHeight && one.offsetHeight < 43).map((one) => one.outerHTML)"""
    )
    assert small == []
    tight = page.evaluate(
        """() => [...document.querySelectorAll('.bt-spot .bt-hit')].map((one) => one.getBoundingClientRect())
        .filter((box) => Math.min(box.width, box.height) < 24).length"""
    )
    assert tight <= 1, "the starter cover's name is low, and its outline is the larger target"


def test_is_nothing_lost_by_a_reload_in_the_middle(open_page):
    page = open_page()
    begin(page)
    step(page, "spark plug", "Look at the plug")
    seen = page.locator(".bt-log").inner_text()
    page.reload()
    page.locator(".bt-log tbody tr").first.wait_for()
    assert page.locator(".bt-log").inner_text() == seen
    step(page, "whole machine and rope", "Look the machine over")
    other = open_page()
    other.get_by_role("button", name=f"Go on with {TITLE}, Anna").click()
    other.locator(".bt-log tbody tr").nth(1).wait_for()


def test_do_two_sessions_at_once_stay_apart(open_page, bench):
    one, two = open_page(), open_page()
    begin(one, "Anna")
    begin(two, "Ben")
    step(one, "spark plug", "Look at the plug")
    step(two, "whole machine and rope", "Pull the rope slowly")
    assert one.locator(".bt-log tbody tr").count() == 1
    assert "Pull the rope slowly" not in one.locator(".bt-log").inner_text()
    kept = {json.loads(file.read_text())["learner"] for file in bench.folder.glob("*.json")}
    assert kept == {"Anna", "Ben"}


def test_do_two_windows_with_one_job_follow_each_other(open_page):
    one, two = open_page(), open_page()
    begin(one)
    begin(two)
    step(one, "spark plug", "Look at the plug")
    choose(two, "whole machine and rope", "Pull the rope slowly")
    two.get_by_role("button", name=re.compile("^Do it")).click()
    two.locator(".bt-log tbody tr").nth(1).wait_for()
    assert "Look at the plug" in two.locator(".bt-log").inner_text()


@pytest.mark.parametrize("path", ["", "bench.js", "line", "card/x.pdf"])
def test_is_a_stranger_without_the_token_turned_away(bench, path):
    with pytest.raises(urllib.error.HTTPError) as refused:
        urllib.request.urlopen(bench.root + path)
    assert refused.value.code == 403


def test_are_hints_counted_on_the_page(open_page):
    page = open_page()
    begin(page)
    for number in (1, 2, 3):
        page.get_by_role("button", name=f"Hint {number}:").click()
        page.locator(".bt-page").get_by_text(f"Hint {number} of 3").wait_for()
    page.locator(".bt-page").get_by_text("Hints taken on this job: 3.").wait_for()


def begin_own(page):
    page.locator(".bt-page").get_by_text("Your own machine").click()
    form = page.get_by_role("form", name="Your own machine")
    form.get_by_label("Your name or number").fill("Ben")
    form.get_by_label("What is it?").fill("45 cm³ saw")
    form.get_by_label("Nearest to what the owner says").select_option("fast_pull")
    form.get_by_label("Air gap").fill("8-16 thou")
    form.get_by_role("button", name="Put it on the bench").click()


def note(page, place, name, reading):
    """A reading of an own machine."""
    choose(page, place, name)
    page.get_by_label("Reading, with its unit").fill(reading)
    for box in page.get_by_role("checkbox").all():
        box.check()
    page.get_by_role("button", name=re.compile("^Note it")).click()


def test_does_an_own_machine_take_readings_on_the_page(open_page):
    page = open_page(820, 1180)
    begin_own(page)
    note(page, "ignition module", "Measure the air gap", "0.75 mm")
    page.locator(".bt-possible li").first.get_by_text(
        "air gap between module and flywheel too wide"
    ).wait_for()
    assert "teaching estimate" in page.locator(".bt-possible").inner_text()


def _serious(page):
    from axe_playwright_python.sync_playwright import Axe

    found = Axe().run(page).response["violations"]
    return [
        (one["id"], one["impact"], [node["html"][:160] for node in one["nodes"][:3]])
        for one in found
        if one["impact"] in ("serious", "critical")
    ]


def test_does_axe_find_nothing_serious(open_page):
    pytest.importorskip("axe_playwright_python", reason="pip install axe-playwright-python")
    page = open_page()
    page.locator(".bt-page").get_by_text("Your own machine").click()
    assert _serious(page) == []
    begin(page)
    page.locator(".bt-page").get_by_text("What is known of it").click()
    page.locator(".bt-page").get_by_text("Maker's bands").click()
    assert _serious(page) == []
    page.get_by_label("Place, as a list").select_option("high-tension lead and boot")
    expect(page.locator("[data-focus=work]")).to_be_focused()
    page.get_by_role("button", name="Adjustable-gap tester, cold").click()
    page.get_by_role("button", name=re.compile("^Do it")).click()
    page.locator(".bt-page").get_by_text("Not done yet.").wait_for()
    assert _serious(page) == []
    cure(page)
    assert _serious(page) == []
    page.get_by_label("What was wrong").select_option("plug_fouled")
    page.get_by_label(re.compile("How sure")).fill("85")
    page.get_by_role("button", name="Close the job").click()
    page.locator(".bt-verdict", has_text=re.compile(r"Score \d+ of 100")).wait_for()
    assert _serious(page) == []


def test_does_axe_find_nothing_serious_on_an_own_machine(open_page):
    pytest.importorskip("axe_playwright_python", reason="pip install axe-playwright-python")
    page = open_page()
    begin_own(page)
    page.locator(".bt-page").get_by_text("Maker's bands").click()
    assert _serious(page) == []
    choose(page, "ignition module", "Measure the air gap")
    page.get_by_label("Reading, with its unit").fill("0.75")
    for box in page.get_by_role("checkbox").all():
        box.check()
    page.get_by_role("button", name=re.compile("^Note it")).click()
    page.locator(".bt-page").get_by_text("the unit is missing").wait_for()
    assert _serious(page) == []
    note(page, "ignition module", "Measure the air gap", "0.75 mm")
    page.locator(".bt-log tbody tr").first.wait_for()
    assert _serious(page) == []
    page.get_by_label("What was wrong").select_option("airgap_wide")
    page.get_by_label(re.compile("How sure")).fill("70")
    page.get_by_role("button", name="Close the job").click()
    page.get_by_role("heading", name="After the job: 45 cm³ saw").wait_for()
    assert _serious(page) == []


def test_is_an_order_of_work_put_together_by_keyboard_alone(open_page):
    """Steps of a repair are put in, moved and taken out with Tab, Enter and nothing else."""
    page = open_page()
    begin(page, button="Put on the bench: The earth auger that wants a very strong arm")
    page.get_by_label("Place, as a list").select_option("ignition module")
    page.get_by_role("button", name="Set the air gap, both legs").click()
    page.get_by_label("Order of work").select_option("I put the steps in order")
    order = page.get_by_role("group", name=re.compile("^Order of work"))
    order.get_by_role("button", name="Loosen both module screws").focus()
    page.keyboard.press("Enter")
    taken = order.get_by_role("listitem")
    expect(order.locator("ol li")).to_have_count(1)
    following = page.evaluate("document.activeElement.textContent")
    assert following in order.locator("ul").inner_text(), "the next step has the focus"
    page.keyboard.press("Enter")
    expect(order.locator("ol li")).to_have_count(2)
    order.get_by_role("button", name=re.compile(f"^Earlier: {following}", re.IGNORECASE)).focus()
    page.keyboard.press("Enter")
    expect(taken.first).to_contain_text(following, ignore_case=True)
    expect(page.get_by_role("status")).to_contain_text("Step 1 of 2")
    name = page.evaluate("document.activeElement.getAttribute('aria-label')")
    assert name.lower() == f"earlier: {following.lower()}", "the focus stays with the step"
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")  # taken out again
    expect(order.locator("ol li")).to_have_count(1)
    assert page.get_by_label("Shim between module and flywheel").is_visible()


NOTEBOOK = {
    "cells": [
        {
            "cell_type": "code", "id": "bench", "metadata": {}, "outputs": [], "execution_count": None,
            "source": "from twostroke.lesson.bench_panel import open_bench\n"
            "open_bench('plug_fouled_trimmer', 'Anna')",
        }
    ],
    "metadata": {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}},
    "nbformat": 4,
    "nbformat_minor": 5,
}  # fmt: skip


def test_does_the_panel_work_in_a_notebook_and_go_on_after_a_reload(new_tab, fresh):
    notebook = fresh.workspace / "bench_try.ipynb"
    notebook.write_text(json.dumps(NOTEBOOK))
    tab = new_tab()
    tab.open("bench_try.ipynb")
    tab.run_all()
    page = tab.page
    page.get_by_role("button", name="spark plug", exact=True).wait_for()
    step(page, "spark plug", "Look at the plug")
    assert list((fresh.workspace / "bench_jobs").glob("*.json"))
    again = new_tab()
    again.open("bench_try.ipynb")
    again.run_all()
    again.page.locator(".bt-page").get_by_text("Continued where you left it.").wait_for()
    assert again.page.locator(".bt-log tbody tr").count() == 1
