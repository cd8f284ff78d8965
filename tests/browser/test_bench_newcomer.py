"""A newcomer at the bench: the three plainest machines from the panel alone, then a machine of their own.

Everything is found by what stands on the screen: names of buttons, labels of fields, words of readings.
"""

from __future__ import annotations

import re
from io import BytesIO

import pytest
from pypdf import PdfReader

expect = pytest.importorskip("playwright.sync_api", reason="pip install playwright").expect

FIRST = "The hedge trimmer that was choked too long"
SECOND = "The earth auger that wants a very strong arm"
THIRD = "The brush cutter with one wire left over"


@pytest.fixture
def page(new_context, bench):
    """The page of `twostroke bench`, just opened for the first time."""
    made = new_context(1280, 900).new_page()
    made.goto(bench.url)
    made.get_by_role("heading", name="Bench", exact=True).wait_for()
    return made


def put_on_bench(page, title: str) -> None:
    form = page.get_by_role("form", name="A demo machine")
    form.get_by_label("Your name or number").fill("Nova")
    form.get_by_role("button", name=f"Put on the bench: {title}").click()
    page.get_by_role("heading", name=title).wait_for()


def pick(page, words: str) -> None:
    """Press a place by the word that stands beside it on the drawing."""
    page.locator(".bt-machinery").get_by_text(words, exact=True).click()
    expect(page.locator("[data-focus=work]")).to_be_focused()


def card(page, name: str) -> None:
    page.get_by_role("button", name=name).first.click()
    expect(page.locator("[data-focus=card]")).to_be_focused()


def do_it(page) -> str:
    """Tick every caution, do the step, and give back what the latest reading says."""
    for box in page.get_by_role("group", name="Cautions").get_by_role("checkbox").all():
        box.check()
    count = page.locator(".bt-log tbody tr").count()
    page.get_by_role("button", name=re.compile("^Do it")).click()
    page.locator(".bt-log tbody tr").nth(count).wait_for()
    heading = page.get_by_role("heading", name="Latest reading")
    expect(heading).to_be_focused()
    expect(heading).to_be_in_viewport()
    return page.locator(".bt-said").inner_text()


def hand_back(page, fault: str, sure: str) -> None:
    page.get_by_role("button", name="hand it back").click()
    wrong = page.get_by_label("What was wrong")
    expect(wrong).to_be_in_viewport()
    assert "not yet" not in page.locator(".bt-checks").inner_text()
    wrong.select_option(label=fault)
    page.get_by_label(re.compile("How sure")).fill(sure)
    page.get_by_role("button", name="Close the job").click()


def report_says(page, fault: str) -> None:
    verdict = page.locator(".bt-verdict", has_text=re.compile(r"Score \d+ of 100"))
    verdict.wait_for()
    assert "not passed" not in verdict.inner_text()
    told = page.locator(".bt-report").inner_text()
    assert f"What was wrong: {fault}." in told
    assert "cured and stays cured" in told


def verify(page) -> str:
    pick(page, "machine, rope")
    card(page, "Verify run")
    return do_it(page)


def first_machine(page) -> None:
    put_on_bench(page, FIRST)
    pick(page, "plug")
    card(page, "Look at the plug")
    assert do_it(page) == "Black, oil or soot."
    card(page, "Fit a known-good plug")
    page.get_by_label("First turns of screws and plug").select_option("by hand")
    do_it(page)
    assert "Starts at pull" in verify(page)
    hand_back(page, "plug fouled (oil or carbon)", "90")
    report_says(page, "plug fouled (oil or carbon)")


ORDER = [
    "Loosen both module screws", "Turn the flywheel until the magnet", "Put the shim", "Let the module go",
    "Tighten both screws", "Turn the flywheel and draw the shim out", "Measure the gap again",
    "Turn the flywheel once by hand", "Put the cover back on",
]  # fmt: skip


def second_machine(page) -> None:
    put_on_bench(page, SECOND)
    pick(page, "lead and boot")
    card(page, "Adjustable-gap tester, slow pull then fast pull")
    assert do_it(page) == "Spark at the fast pull only."
    pick(page, "module")
    card(page, "Measure the air gap")
    assert do_it(page) == "Wider than the band."
    card(page, "Set the air gap, both legs")
    assert "Maker's band: 0.20-0.40 mm." in page.locator(".bt-card").inner_text()
    page.get_by_label("Order of work").select_option("I put the steps in order")
    steps = page.get_by_role("group", name=re.compile("^Order of work"))
    for number, words in enumerate(ORDER, start=1):
        steps.locator("ul").get_by_role("button", name=words).click()
        expect(steps.locator("ol > li")).to_have_count(number)
    page.get_by_label("Shim between module and flywheel").fill("12 thou")
    page.get_by_label("Stop terminal points").select_option("outward")
    page.get_by_label("First turns of screws and plug").select_option("by hand")
    assert "Gap after tightening" in do_it(page)
    assert "Starts at pull" in verify(page)
    hand_back(page, "air gap between module and flywheel too wide", "95")
    report_says(page, "air gap between module and flywheel too wide")


def third_machine(page) -> None:
    put_on_bench(page, THIRD)
    page.get_by_role("button", name="Stuck?").click()
    for number in (1, 2, 3):
        page.get_by_role("button", name=f"Hint {number}:").click()
        page.locator(".bt-page").get_by_text(f"Hint {number} of 3").wait_for()
    page.get_by_role("button", name="Open this step").click()
    page.get_by_role("button", name=re.compile("^Do it")).wait_for()
    assert do_it(page) == "No spark."
    pick(page, "module")
    card(page, "Measure the module's ground path")
    page.get_by_label(re.compile("Meter's leads shorted")).select_option("yes")
    assert do_it(page) == "No connection."
    card(page, "Fit the ground lead")
    do_it(page)
    assert "Starts at pull" in verify(page)
    hand_back(page, "ground lead not refitted", "95")
    report_says(page, "ground lead not refitted")
    assert "Hints taken: 3." in page.locator(".bt-report").inner_text()


def note(page, place: str, step: str, seen: str = "") -> None:
    """A step on an own machine: what was seen is noted."""
    pick(page, place)
    page.get_by_role("button", name=step).first.click()
    expect(page.locator("[data-focus=card]")).to_be_focused()
    do = page.get_by_role("button", name=re.compile("^Note it"))
    if seen:
        page.get_by_label(re.compile("hat was seen")).select_option(label=seen)
    for box in page.get_by_role("group", name="Cautions").get_by_role("checkbox").all():
        box.check()
    count = page.locator(".bt-log tbody tr").count()
    do.click()
    page.locator(".bt-log tbody tr").nth(count).wait_for()


def likeliest(page) -> str:
    return page.locator(".bt-possible .bt-bars li").first.inner_text()


def own_machine(page) -> None:
    """From the owner's words to a job card, by readings that the screen asks for."""
    page.locator(".bt-page").get_by_text("Your own machine").click()
    form = page.get_by_role("form", name="Your own machine")
    form.get_by_label("Your name or number").fill("Nova")
    form.get_by_label("What is it?").fill("45 cm³ saw")
    form.get_by_label("Nearest to what the owner says").select_option("it does not start at all")
    form.get_by_role("button", name="Put it on the bench").click()
    page.get_by_role("heading", name="45 cm³ saw").wait_for()
    assert "teaching estimate" in page.locator(".bt-possible").inner_text()
    first = page.locator(".bt-next button").first
    assert "Known-good plug on the lead" in first.inner_text()
    note(page, "lead and boot", "Known-good plug on the lead", "no spark")
    assert "ignition module open or dead" in likeliest(page)
    note(page, "stop switch", "Stop lead off", "the spark is back")
    assert "stop switch stuck or shorted" in likeliest(page)
    note(page, "stop switch", "Replace the stop switch")
    note(page, "machine, rope", "Verify run", "it runs as it should")
    hand_back(page, "stop switch stuck or shorted", "90")
    page.get_by_role("heading", name="After the job: 45 cm³ saw").wait_for()
    assert "Proven by a verify run" in page.locator(".bt-report").inner_text()
    page.get_by_role("button", name="Job card").click()
    link = page.get_by_role("link", name="PDF, for printing")
    link.wait_for()
    pdf = PdfReader(BytesIO(page.request.get(page.url.rstrip("/") + link.get_attribute("href")).body()))
    assert len(pdf.pages) == 1
    printed = pdf.pages[0].extract_text()
    assert "45 cm³ saw" in printed
    assert "stop switch stuck or shorted" in printed


@pytest.mark.slow
def test_can_a_self_learner_solve_the_three_plainest_machines_and_then_their_own(page):
    shelf = page.locator(".bt-shelf b").all_inner_texts()
    assert shelf[:3] == [FIRST, SECOND, THIRD], "the plainest stand first"
    for machine in (first_machine, second_machine, third_machine):
        machine(page)
        page.get_by_role("button", name="Another machine").click()
        page.get_by_role("heading", name="Bench", exact=True).wait_for()
    assert page.get_by_role("button", name=re.compile("^Read the report of")).count() == 3
    own_machine(page)


@pytest.mark.slow
@pytest.mark.parametrize(("width", "height"), [(820, 1180), (1180, 820)], ids=["upright", "lying"])
def test_can_it_be_done_on_a_tablet(page, width, height):
    page.set_viewport_size({"width": width, "height": height})
    first_machine(page)
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")


# by keyboard alone --------------------------------------------------------------------------------

NAME = """() => {
    const one = document.activeElement;
    const label = one.id && document.querySelector(`label[for="${one.id}"]`);
    return one.getAttribute('aria-label') || (label ? label.textContent : one.textContent) || '';
}"""


def tab_to(page, words: str) -> None:
    """Press Tab until what has the focus is called so."""
    for _ in range(140):
        page.keyboard.press("Tab")
        if page.evaluate(NAME).strip().startswith(words):
            return
    raise AssertionError(f"{words!r} is not reached with Tab")


def walk_to(page, place: str) -> None:
    """To a place of the drawing: Tab to the drawing, arrow keys in it."""
    for _ in range(80):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.classList.contains('bt-spot')"):
            break
    for _ in range(20):
        if page.evaluate(NAME) == place:
            page.keyboard.press("Enter")
            expect(page.get_by_role("heading", name=place, exact=False).first).to_be_focused()
            return
        page.keyboard.press("ArrowRight")
    raise AssertionError(f"{place!r} is not on the drawing")


def do_by_keyboard(page, step: str) -> None:
    tab_to(page, step)
    page.keyboard.press("Enter")
    page.get_by_role("button", name=re.compile("^Do it")).wait_for()
    for _ in range(20):
        page.keyboard.press("Tab")
        kind = page.evaluate("document.activeElement.type")
        if kind == "checkbox":
            page.keyboard.press("Space")
        elif kind == "select-one" and page.evaluate("document.activeElement.value") == "":
            if page.evaluate("document.activeElement.name") == "screws":
                page.keyboard.type("by h")
        elif kind == "submit":
            break
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Latest reading")).to_be_focused()


@pytest.mark.slow
def test_can_a_machine_be_isolated_and_repaired_by_keyboard_alone(page):
    tab_to(page, "Your name or number")
    page.keyboard.type("Nova")
    tab_to(page, f"Put on the bench: {FIRST}")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name=FIRST).wait_for()
    expect(page.get_by_role("heading", name=FIRST)).to_be_focused()
    walk_to(page, "spark plug")
    do_by_keyboard(page, "Look at the plug")
    walk_back(page, "spark plug")
    do_by_keyboard(page, "Fit a known-good plug")
    walk_back(page, "whole machine and rope")
    do_by_keyboard(page, "Verify run")
    tab_to(page, "Everything on the list is done")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Hand the machine back")).to_be_focused()
    tab_to(page, "What was wrong")
    page.keyboard.type("plug fouled")
    tab_to(page, "How sure")
    page.keyboard.type("90")
    tab_to(page, "Close the job")
    page.keyboard.press("Enter")
    report_says(page, "plug fouled (oil or carbon)")


def walk_back(page, place: str) -> None:
    """From the reading back to the drawing, which stands before it."""
    for _ in range(80):
        page.keyboard.press("Shift+Tab")
        if page.evaluate("document.activeElement.classList.contains('bt-spot')"):
            break
    page.keyboard.press("Shift+Tab")
    walk_to(page, place)
