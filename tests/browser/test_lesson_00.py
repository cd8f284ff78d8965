"""Start here in JupyterLab: the practice finds out by itself, and the map shows what was done."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest
from twostroke.lesson import content

expect = pytest.importorskip("playwright.sync_api", reason="pip install playwright").expect

LESSON = "lessons/00_start_here.ipynb"


def _part(tab, name):
    found = tab.page.get_by_role("region", name=name)
    found.scroll_into_view_if_needed()
    return found


def test_are_save_restart_and_hand_in_found_out_and_the_map_moves(new_tab, fresh):
    tab = new_tab()
    tab.open(LESSON)
    tab.run_all()
    page = tab.page
    practice = _part(tab, "Practice: save, restart, hand in")
    word = practice.get_by_role("textbox", name="A word of your own")
    word.fill("rusty trimmer")
    word.press("Enter")
    practice.locator(".tsb-parts").get_by_text("Kept: rusty trimmer").wait_for()
    practice.get_by_role("button", name="Is it saved?").press("Enter")
    practice.locator(".tsb-parts").get_by_text("Press Ctrl and S and ask again").wait_for()
    practice.get_by_role("button", name="Is it saved?").press("Control+s")
    page.wait_for_function("() => !window.jupyterapp.shell.currentWidget.context.model.dirty")
    practice.get_by_role("button", name="Is it saved?").press("Enter")
    practice.locator(".tsb-parts").get_by_text("The file on disk is up to date").wait_for()
    practice.get_by_role("button", name="Did my word stay?").press("Enter")
    practice.locator(".tsb-parts").get_by_text("still the one in which you kept your word").wait_for()
    practice.get_by_role("button", name="Pack a copy").press("Enter")
    practice.locator(".tsb-parts").get_by_text("A copy lies in to_hand_in/00_start_here.ipynb").wait_for()
    assert (fresh.workspace / "to_hand_in" / "00_start_here.ipynb").is_file()

    page.evaluate("() => window.jupyterapp.shell.currentWidget.sessionContext.restartKernel()")
    tab.run_all()
    practice = _part(tab, "Practice: save, restart, hand in")
    expect(practice.get_by_role("textbox", name="A word of your own")).to_have_value("rusty trimmer")
    practice.get_by_role("button", name="Did my word stay?").press("Enter")
    practice.locator(".tsb-parts").get_by_text("your word is still here: rusty trimmer").wait_for()
    course = page.get_by_role("navigation", name="Map of the course")
    expect(course).to_contain_text(re.compile(r"00\s+Start here\s+under way"))
    expect(course.get_by_role("link", name="01 Shop units")).to_have_count(1)


def test_does_a_saved_lesson_show_its_controls_before_anything_is_run(new_tab, fresh):
    tab = new_tab()
    tab.open(LESSON)
    tab.run_all()
    tab.page.evaluate("() => window.jupyterapp.commands.execute('docmanager:save')")
    tab.page.evaluate("() => window.jupyterapp.shell.currentWidget.sessionContext.shutdown()")
    tab.open(LESSON)
    question = _part(tab, "Question: A hedge trimmer will not start")
    expect(question.get_by_role("radio")).to_have_count(3)
    assert tab.page.get_by_text("model not found").count() == 0


def test_is_the_first_job_done_from_complaint_to_job_card(new_tab, fresh):
    """As the guide says; the bench's own record decides when a stage is over."""
    tab = new_tab(1280, 1000)
    tab.open(LESSON)
    tab.run_all()
    bench = _part(tab, "Guided job: A whole job, from complaint to job card")
    bench.get_by_role("textbox", name="Your name or number").fill("Anna")
    bench.get_by_role("button", name="Put the machine on the bench").click()
    (task,) = content.load("00").jobs
    folder = os.environ.get("TWOSTROKE_SCREENSHOTS")
    steps = {"repair": ("spark plug", "Fit a known-good plug")}
    for number, stage in enumerate(task.stages[:-2], start=1):
        bench.get_by_role("heading", name=f"Guide, stage {number} of 8: {stage.title}").wait_for()
        if folder:
            tab.page.wait_for_timeout(300)
            tab.page.screenshot(path=Path(folder) / f"first_job_{number}.png")
        place, name = steps.get(stage.id) or bench.locator(".tsb-guide p").last.locator("b").all_inner_texts()
        bench.get_by_label("Place, as a list").select_option(place)
        bench.get_by_role("button", name=name).first.click()
        bench.get_by_role("button", name=re.compile("^Do it")).wait_for()
        for choice in bench.get_by_label("First turns of screws and plug").all():
            choice.select_option("by hand")
        for box in bench.get_by_role("checkbox").all():
            box.check()
        count = bench.locator(".bt-log tbody tr").count()
        bench.get_by_role("button", name=re.compile("^Do it")).click()
        bench.locator(".bt-log tbody tr").nth(count).wait_for()
    bench.get_by_role("heading", name="Guide, stage 7 of 8").wait_for()
    bench.get_by_label("What was wrong").select_option("plug_fouled")
    bench.get_by_label("How sure, per cent").fill("90")
    bench.get_by_role("button", name="Close the job").click()
    bench.get_by_role("heading", name="Guide, stage 8 of 8").wait_for()
    bench.locator(".bt-verdict", has_text=re.compile(r"Score \d+ of 100, passed")).wait_for()
    bench.get_by_role("button", name="Job card").click()
    bench.get_by_role("heading", name="The whole job is done").wait_for()
    if folder:
        tab.page.wait_for_timeout(300)
        tab.page.screenshot(path=Path(folder) / "first_job_card.png")
    card = bench.frame_locator("iframe[title='Job card']")
    expect(card.locator("body")).to_contain_text("Anna")
    assert (fresh.workspace / "bench_jobs" / "guided" / "cards" / "first_job--anna.pdf").is_file()
    course = tab.page.get_by_role("navigation", name="Map of the course")
    course.get_by_text("guided job 8 of 8 stages").first.wait_for()
