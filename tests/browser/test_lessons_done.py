"""Every lesson in JupyterLab, done from start to end as a learner does: errors first, then right."""

from __future__ import annotations

import json
import os
import re
from pathlib import Path
from typing import Any

import networkx as nx
import pytest
from twostroke import resources, units
from twostroke.lesson import content, tables
from twostroke.lesson.control import plain
from twostroke.lesson.outline import Figure, Lesson
from twostroke.lesson.tasks import Blank, Example, Ordering, Prediction, Question

LESSONS = content.numbers()
_CALL = re.compile(r'^page\.(\w+)\((?:"(\w+)")?', re.M)
DO = re.compile("^(Do|Note) it")


class Learner:
    """One lesson under the hands of a learner.

    Parameters
    ----------
    page : playwright page
        With the lesson open and all its cells run.
    lesson : Lesson
        What it asks, for the right answers.
    pictures : Path, optional
        Folder for a picture of every control after it was used.
    """

    def __init__(self, page: Any, lesson: Lesson, pictures: Path | None = None) -> None:
        self.page, self.lesson, self.pictures = page, lesson, pictures
        self._taken = 0

    def part(self, kind: str, text: str) -> Any:
        """A control by its kind and the beginning of its name."""
        found = self.page.get_by_role("region", name=re.compile(f"^{kind}.*{re.escape(plain(text)[:40])}"))
        found.scroll_into_view_if_needed()
        return found

    def _look(self, box: Any) -> None:
        if self.pictures is not None:
            self._taken += 1
            box.screenshot(path=self.pictures / f"lesson_{self.lesson.number}_{self._taken:02d}.png")

    def predict(self, task: Prediction) -> None:
        """Commit the first guess that comes to mind."""
        box = self.part("Prediction", task.ask)
        if task.options:
            box.get_by_role("radio").first.check()
            box.get_by_role("button").first.click()
        else:
            entry = box.get_by_role("textbox")
            entry.fill(f"1 {task.unit}")
            entry.press("Enter")
        box.get_by_text("You predicted").first.wait_for()

    def figure(self, task: Figure) -> None:
        """Move every slider by key; the words below the drawing must follow."""
        box = self.part("Figure", task.title)
        box.locator("svg[role=img]").first.wait_for()
        words = box.locator(".tsb-words").first
        self._look(box)
        for parameter in task.parameters:
            slider = box.get_by_role("slider", name=parameter.label, exact=True)
            before = words.inner_text()
            slider.focus()
            way = "ArrowRight" if parameter.start < parameter.high else "ArrowLeft"
            for _ in range(3):
                slider.press(way)
            self.page.wait_for_function(
                "([words, before]) => words.textContent !== before", arg=[words.element_handle(), before]
            )
        self._look(box)

    def question(self, task: Question) -> None:
        """Choose a tempting answer, read what it says, then the right one."""
        box = self.part("Question", task.ask)
        for option in (next(one for one in task.options if not one.right), task.right):
            box.get_by_role("radio").nth(task.shown.index(option)).check()
            box.get_by_role("button", name="Check my answer").click()
            tone = ".tsb-right" if option.right else ".tsb-look"
            box.locator(tone, has_text=plain(option.say)[:40]).first.wait_for()
            if not option.right:
                self._look(box)

    def example(self, task: Example) -> None:
        """Fill every gap with what the course takes for right."""
        box = self.part("Example", task.title)
        for blank in task.blanks:
            self._fill(box, blank)
        box.get_by_text("Every gap is right").first.wait_for()
        self._look(box)

    def _fill(self, box: Any, blank: Blank) -> None:
        label = plain(blank.label)
        if blank.options:
            box.get_by_role("combobox", name=label).select_option(str(blank.answer))
        else:
            assert callable(blank.answer)
            value = blank.answer()
            text = f"{value:.6g}" if isinstance(value, int | float) else units.show(value.to(blank.unit))
            entry = box.get_by_role("textbox", name=label)
            entry.fill(text)
            entry.press("Tab")
        box.locator(".tsb-right", has_text=plain(blank.say)[:25]).first.wait_for()

    def order(self, task: Ordering) -> None:
        """Move the steps into a sound order with the buttons."""
        box = self.part("Order of work", task.ask)
        box.get_by_role("button", name="Check my order").click()
        box.locator(".tsb-look", has_text="Look at this pair").first.wait_for()
        self._look(box)
        graph = nx.DiGraph([(rule.first, rule.then) for rule in task.rules])
        graph.add_nodes_from(task.steps)
        now = list(task.steps)
        for place, name in enumerate(nx.lexicographical_topological_sort(graph)):
            button = box.get_by_role("button", name=f"Move up: {plain(task.steps[name])}", exact=True)
            for _ in range(now.index(name) - place):
                button.focus()
                self.page.keyboard.press("Enter")
            now.remove(name)
            now.insert(place, name)
        box.get_by_role("button", name="Check my order").press("Enter")
        box.locator(".tsb-right", has_text="A sound order").wait_for()
        self._look(box)

    def exit_check(self) -> None:
        """Answer all five."""
        box = self.part("Exit check", f"of lesson {self.lesson.number}")
        groups = box.get_by_role("group")
        for row, task in enumerate(self.lesson.exit_check):
            groups.nth(row).get_by_role("radio").nth(task.shown.index(task.right)).check()
        box.get_by_role("button", name="Check all five").click()
        box.get_by_text("5 of 5 right").first.wait_for()
        self._look(box)

    def whole(self, calls: list[tuple[str, str]]) -> None:
        """Do everything in the order in which the page asks for it.

        Parameters
        ----------
        calls : list of (method, id)
            As they stand in the lesson's text.
        """
        kinds = {
            "predict": "predictions",
            "figure": "figures",
            "question": "questions",
            "example": "examples",
            "order": "orderings",
        }
        for method, key in calls:
            if method in kinds:
                getattr(self, method)(self.lesson.find(kinds[method], key))
            elif method == "exit_check":
                self.exit_check()


@pytest.mark.parametrize("number", LESSONS)
def test_can_a_lesson_be_done_from_start_to_end(number, new_tab, fresh):
    module = tables.module(number)
    tab = new_tab(1100, 1000)
    tab.open(f"lessons/{module.notebook}")
    tab.run_all()
    folder = os.environ.get("TWOSTROKE_SCREENSHOTS")
    learner = Learner(tab.page, content.load(number), Path(folder) if folder else None)
    master = resources.clone() / "course" / "text" / "lessons" / module.notebook.replace(".ipynb", ".py")
    learner.whole(_CALL.findall(master.read_text(encoding="utf-8")))
    assert tab.page.locator(".jp-RenderedText[data-mime-type='application/vnd.jupyter.stderr']").count() == 0
    kept = json.loads(fresh.progress.read_text(encoding="utf-8"))["entries"]
    assert {entry["task"] for entry in kept if entry["kind"] == "prediction"} == {
        task.id for task in content.load(number).predictions
    }
    assert [entry["score"] for entry in kept if entry["kind"] == "exit"] == [5]


def _bench(tab, number, place=0):
    tab.open(f"lessons/{tables.module(number).notebook}")
    tab.run_all()
    box = tab.page.get_by_role("region", name="Bench", exact=True).nth(place)
    box.scroll_into_view_if_needed()
    return box


def _step(box, place, name, ticks=None):
    """One step on the bench: place, step, cautions (all, or those named), do it."""
    box.get_by_label("Place, as a list").select_option(label=place)
    box.get_by_role("button", name=name).first.click()
    box.get_by_role("button", name=DO).wait_for()
    leads = box.get_by_label("Meter's leads shorted first")
    if leads.count():
        leads.select_option("yes")
    for tick in box.get_by_role("checkbox").all():
        said = tick.evaluate("(one) => one.labels[0].innerText")
        if ticks is None or any(said.startswith(word) for word in ticks):
            tick.check()
    count = box.locator(".bt-log tbody tr").count()
    box.get_by_role("button", name=DO).click()
    box.locator(".bt-log tbody tr").nth(count).wait_for()


def _hand_back(box, fault, sure):
    box.get_by_label("What was wrong").select_option(fault)
    box.get_by_label(re.compile("How sure")).fill(sure)
    box.get_by_role("button", name="Close the job").click()
    box.locator(".bt-verdict").first.wait_for()


def test_can_machine_four_be_done_in_its_lesson(new_tab, fresh):
    box = _bench(new_tab(1100, 1600), "13")
    _step(box, "high-tension lead and boot", re.compile("^Known-good plug"))
    _step(box, "ignition module", re.compile("ground path"))
    _step(box, "ignition module", re.compile("^Fit the ground lead"))
    _step(box, "whole machine and rope", "Verify run")
    _hand_back(box, "ground_missing", "95")
    box.get_by_text(re.compile(r"Score \d+ of 100")).first.wait_for()
    (kept,) = (fresh.workspace / "bench_jobs").glob("spare_wire_cutter*.json")
    assert json.loads(kept.read_text(encoding="utf-8"))["closed"] is True


def test_is_the_rehearsal_without_hints_and_with_every_caution_to_choose_from(new_tab, fresh):
    box = _bench(new_tab(1100, 1600), "14")
    box.locator(".bt-page").get_by_text("No hints and no reminders in this job.").wait_for()
    box.get_by_label("Place, as a list").select_option(label="high-tension lead and boot")
    box.get_by_role("button", name=re.compile("while lead and wires are moved")).first.click()
    box.get_by_role("button", name=DO).wait_for()
    assert box.get_by_role("checkbox").count() >= 10
    box.get_by_role("button", name="Leave it").click()
    _step(box, "high-tension lead and boot", re.compile("^Measure through lead"), ["High tension", "Hot"])


def test_does_a_machine_of_ones_own_give_the_next_test_and_a_job_card(new_tab, fresh):
    """The case that the lesson offers to those who have no machine at hand."""
    box = _bench(new_tab(1100, 1800), "15")
    box.locator(".bt-page").get_by_text(re.compile("^Your own machine")).click()
    form = box.get_by_role("form", name="Your own machine")
    form.get_by_label("Your name or number").fill("Anna")
    form.get_by_label("What is it?").fill("32 cm³ pump")
    form.get_by_label("Nearest to what the owner says").select_option("no_start")
    form.get_by_role("button", name="Put it on the bench").click()
    box.get_by_label("Place, as a list").wait_for()

    def read(place, name, word):
        box.get_by_label("Place, as a list").select_option(label=place)
        box.get_by_role("button", name=name).first.click()
        box.locator("select[name=word]").select_option(word)
        for tick in box.get_by_role("checkbox").all():
            tick.check()
        count = box.locator(".bt-log tbody tr").count()
        box.get_by_role("button", name=DO).click()
        box.locator(".bt-log tbody tr").nth(count).wait_for()

    read("high-tension lead and boot", re.compile("^Known-good plug"), "none")
    read("spark plug", re.compile("^Look at the plug"), "wet")
    read("stop switch and stop lead", re.compile("^Measure the stop circuit"), "short_in_run")
    box.get_by_text(re.compile(r"^\d+ % stop switch stuck or shorted")).first.wait_for()
    _step(box, "stop switch and stop lead", re.compile("^Replace the stop switch"))
    read("whole machine and rope", re.compile("^Verify run"), "runs")
    folder = os.environ.get("TWOSTROKE_SCREENSHOTS")
    if folder:
        box.screenshot(path=Path(folder) / "lesson_15_own.png")
    box.get_by_label("What was wrong").select_option("stop_switch")
    box.get_by_label(re.compile("How sure")).fill("90")
    box.get_by_role("button", name="Close the job").click()
    box.get_by_role("button", name="Job card").click()
    box.get_by_role("link", name=re.compile("PDF")).or_(
        box.get_by_text(re.compile(r"\.pdf"))
    ).first.wait_for()
