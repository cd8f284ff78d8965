"""Labs as a learner does them in JupyterLab: typing between the quotes, one lab of each kind, and the
feedback read."""

from __future__ import annotations

import asyncio
import threading

import pytest
from twostroke import lab

ACTIVE = ".jp-Notebook .jp-Cell.jp-mod-active"
GO_TO = """async (name) => {
    const book = window.jupyterapp.shell.currentWidget.content;
    const wanted = (cell) => (cell.model.getMetadata('nbgrader') || {}).grade_id === name;
    const place = book.widgets.findIndex(wanted);
    await book.scrollToItem(place, 'center');
    book.activeCellIndex = place;
    book.mode = 'edit';
    return place;
}"""
FOCUSED = f"() => document.activeElement.closest('{ACTIVE}') && document.activeElement.closest('.cm-content')"
OUTPUT = """(name) => {
    const book = window.jupyterapp.shell.currentWidget.content;
    const found = book.widgets.find((cell) => (cell.model.getMetadata('nbgrader') || {}).grade_id === name);
    return found.outputArea ? found.outputArea.node.innerText : '';
}"""
HOLDS = f"([name, words]) => words.every((each) => ({OUTPUT})(name).includes(each))"
LEARNER = "learner07"


class Sheet:
    """A lab in JupyterLab, with the hands of a learner."""

    def __init__(self, tab, number: str):
        self.page, self.number = tab.page, number
        self.place = f"labs/lab{number}/lab{number}.ipynb"
        tab.open(self.place)
        self.type("open", learner=LEARNER)
        self.run()
        self.wait("open", "Opened for learner07")

    def go(self, cell: str) -> None:
        assert self.page.evaluate(GO_TO, cell) >= 0
        self.page.wait_for_function(FOCUSED)

    def type(self, cell: str, **texts: str) -> None:
        """Click behind the opening quote of a line, take away what stands there, type."""
        for name, text in texts.items():
            self.go(cell)
            line = self.page.locator(f"{ACTIVE} .cm-line").filter(has_text=f"{name} ").filter(has_text='"')
            line.first.click()
            row = line.first.inner_text()
            self.page.keyboard.press("Home")
            for _ in range(row.index('"') + 1):
                self.page.keyboard.press("ArrowRight")
            for _ in range(row.index('"', row.index('"') + 1) - row.index('"') - 1):
                self.page.keyboard.press("Delete")
            self.page.keyboard.type(text)

    def line(self, cell: str, before: str, *lines: str) -> None:
        """Type new lines in front of one that is there."""
        self.go(cell)
        self.page.locator(f"{ACTIVE} .cm-line").filter(has_text=before).first.click()
        self.page.keyboard.press("Home")
        for text in lines:
            self.page.keyboard.insert_text(text)
            self.page.keyboard.press("Enter")

    def run(self, *cells: str) -> None:
        """Run the cell in which the cursor is, or cells by name."""
        for cell in cells or (None,):
            if cell is not None:
                self.go(cell)
            self.page.keyboard.press("Shift+Enter")

    def wait(self, cell: str, *words: str) -> str:
        """Wait until what a cell says holds the words; return all that it says."""
        try:
            self.page.wait_for_function(HOLDS, arg=[cell, list(words)])
        except Exception as error:
            said = self.page.evaluate(OUTPUT, cell)
            raise AssertionError(f"{cell}: {words} not in {said!r}") from error
        return self.page.evaluate(OUTPUT, cell)

    def answer(self, task: str, **texts: str) -> None:
        """Answer a task and ask for form and comparison, as its cells stand."""
        self.type(task, **texts)
        self.run(task)
        self.run(f"{task}_check", f"{task}_compare")


@pytest.fixture
def opened(new_tab, jupyter):
    """Opens labs; afterwards they are as they were laid out."""
    kept = {}

    def make(number: str) -> Sheet:
        file = jupyter.workspace / f"labs/lab{number}/lab{number}.ipynb"
        kept.setdefault(file, file.read_bytes())
        return Sheet(new_tab(height=1600), number)

    yield make
    for file, before in kept.items():
        file.write_bytes(before)
        (jupyter.workspace / ".two-stroke" / "tries" / f"{file.stem}.json").unlink(missing_ok=True)


def test_does_a_learner_type_choice_value_order_formula_text_and_a_job_in_lab_10(opened):
    sheet = opened("10")
    model = lab.model_answers("10", LEARNER)
    wrong = next(letter for letter in "abcde" if letter != model["complaint"]["kind"])
    sheet.answer("complaint", **{**model["complaint"], "kind": wrong})
    said = sheet.wait(
        "complaint_compare", "3 of 4 points (part right)", "Seen:", "It suggests:", "Check:", "Try 1."
    )
    assert "Traceback" not in said
    sheet.type("complaint", kind=model["complaint"]["kind"])
    sheet.run("complaint")
    sheet.run("complaint_check", "complaint_compare")
    sheet.wait("complaint_compare", "4 of 4 points (right)", "Try 2.")

    sheet.answer("count", **model["count"])
    sheet.wait("count_compare", "5 of 5 points (right)")
    sheet.answer("order", **model["order"])
    sheet.wait("order_compare", "5 of 5 points (right)")

    names = {"share": "share_line", "two": "two_line", "worth": "worth_line"}
    sheet.answer("formulas", **{names[item]: text for item, text in model["formulas"].items()})
    sheet.wait("formulas_compare", "3 of 3 points (right)")

    sheet.answer("explain", words=model["explain"]["words"])
    sheet.wait("explain_compare", "once a person has read it")

    sheet.line("bench", "work.answer", 'machine.do("plug_look", prepare=True)')
    sheet.run("bench")
    sheet.wait("bench", "Before this", "Fuel spray from the plug hole")
    sheet.run("bench_check", "bench_compare")


def test_does_a_learner_take_a_hint_and_do_a_job_in_lab_13(opened, tmp_path):
    sheet = opened("13")
    model = lab.model_answers("13", LEARNER)
    sheet.answer("whole", **model["whole"])
    sheet.wait("whole_compare", "4 of 4 points (right)")
    sheet.answer("read", **model["read"])
    sheet.wait("read_compare", "6 of 6 points (right)")
    sheet.line("auger", "work.answer", "machine.hint()", "machine.hint()")
    sheet.run("auger")
    sheet.wait(
        "auger", "Hint 1 of 3, which system:", "Hint 2 of 3, what kind of step:", "(2 taken on this machine)"
    )
    sheet.run("auger_check", "auger_compare")
    sheet.wait("auger_compare", "The record ends before the machine is handed back.")
    steps = [
        f'machine.hand_back("{step["diagnosis"]}", "90 %")'
        if step["action"] == "hand_back"
        else f'machine.do("{step["action"]}", prepare=True, confirm="all")'
        for step in model["auger"]["route"]
    ]
    sheet.line("auger", "work.answer", *steps)
    sheet.run("auger")
    sheet.wait("auger", "handed back as:")
    sheet.run("auger_check", "auger_compare")
    said = sheet.wait("auger_compare", "5.4 of 6 points (part right)", "Hints taken: 2.", "Try 2.")
    assert "Score" in said
    sheet.page.screenshot(path=tmp_path / "lab13.png")


@pytest.fixture
def service(tmp_path):
    """An examination in a thread of this test; the notebook's kernel is another process."""
    from twostroke.lab.exam import Place
    from twostroke.lab.exam.service import serve

    place, ready, loop = Place.make(tmp_path / "examination"), threading.Event(), asyncio.new_event_loop()
    stop, told = asyncio.Event(), []

    def run():
        asyncio.set_event_loop(loop)
        loop.run_until_complete(
            serve(
                place, port=0, tick=0.05, stop=stop, ready=lambda address: (told.append(address), ready.set())
            )
        )

    thread = threading.Thread(target=run, daemon=True)
    thread.start()
    assert ready.wait(120)
    yield place, told[0]
    loop.call_soon_threadsafe(stop.set)
    thread.join(120)


def test_does_a_learner_work_on_the_examination_with_a_ticket_in_lab_14(opened, service, tmp_path):
    place, address = service
    sheet = opened("14")
    sheet.run("bench_show")
    sheet.wait("bench_show", "The bench does not remind you beforehand.")
    sheet.type("bench", ticket=f"{address} {LEARNER} 1 {place.token(LEARNER)}")
    sheet.line(
        "bench", "receipt = ", "print(machine)", 'machine.do("look_over", prepare=True, confirm=["cut"])'
    )
    sheet.run("bench")
    said = sheet.wait("bench", "The owner says:", " min  look_over:")
    assert "Traceback" not in said
    sheet.run("bench")
    sheet.wait("bench", "Steps on the log so far: 1.")
    sheet.page.screenshot(path=tmp_path / "lab14.png")
    assert len(place.log(LEARNER).entries) == 2
    model = lab.model_answers("14", LEARNER)
    sheet.type("safe", **model["safe"])
    sheet.run("safe")
    sheet.run("safe_check")
    said = sheet.wait("safe_check", "Form: right", "The value is checked when you hand it in.")
    assert "points" not in said
