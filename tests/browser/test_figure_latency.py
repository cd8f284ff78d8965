"""How long from a moved slider to the new drawing, for every interactive figure of the course; by hand.

    python3 course test --long tests/browser/test_figure_latency.py -s

prints the table: in the browser (kernel, physics and redraw included), and of that the physics and drawing in
Python alone. The figures are reported, not judged: the machine may be busy.
"""

from __future__ import annotations

import re
import statistics
import time

import pytest
from twostroke.lesson import content, tables
from twostroke.lesson.outline import Figure

pytestmark = pytest.mark.long
COUNT = 24

# From the moved slider to the new drawing in the document, milliseconds.
_STEPS = """async ([root, slider, values]) => {
    const place = root.querySelector('.tsb-picture');
    const step = (value) => new Promise((done) => {
        const begun = performance.now();
        const watch = new MutationObserver(() => { watch.disconnect(); done(performance.now() - begun); });
        watch.observe(place, {childList: true, subtree: true});
        slider.value = value;
        slider.dispatchEvent(new Event('input', {bubbles: true}));
    });
    const times = [];
    for (const value of values) {
        times.push(await step(value));
        await new Promise((done) => setTimeout(done, 40));
    }
    return times;
}"""


def _values(figure: Figure, name: str) -> list[float]:
    """Neighbouring places of a slider, turned back at its ends, so that each step changes the drawing."""
    one = next(parameter for parameter in figure.parameters if parameter.name == name)
    span = round((one.high - one.low) / one.step)
    at = round((one.start - one.low) / one.step)
    places = [span - abs((at + row) % (2 * span) - span) for row in range(1, COUNT + 1)]
    return [min(round(one.low + one.step * place, 9), one.high) for place in places]


def _in_python(figure: Figure, name: str) -> float:
    """Median of the physics and the drawing alone [ms], processor time."""
    start = {parameter.name: parameter.start for parameter in figure.parameters}
    spent = []
    for value in _values(figure, name):
        begun = time.process_time()
        figure.picture({**start, name: value})
        spent.append(1e3 * (time.process_time() - begun))
    return statistics.median(spent)


def _commit(page, lesson, figure):
    task = lesson.find("predictions", figure.prediction)
    box = page.get_by_role("region", name=re.compile("^Prediction: " + re.escape(task.ask[:30])))
    box.scroll_into_view_if_needed()
    if task.options:
        box.get_by_role("radio").first.check()
        box.get_by_role("button").first.click()
    else:
        entry = box.get_by_role("textbox")
        entry.fill(f"1 {task.unit}")
        entry.press("Enter")
    box.get_by_text("You predicted").first.wait_for()


@pytest.mark.parametrize("number", content.numbers())
def test_how_fast_does_every_figure_of_a_lesson_follow(number, new_tab, fresh, record_property):
    tab = new_tab()
    tab.open(f"lessons/{tables.module(number).notebook}")
    tab.run_all()
    page, lesson = tab.page, content.load(number)
    for figure in lesson.figures:
        _commit(page, lesson, figure)
        box = page.get_by_role("region", name=f"Figure: {figure.title}")
        box.locator("svg[role=img]").first.wait_for()
        for parameter in figure.parameters:
            slider = box.get_by_role("slider", name=parameter.label, exact=True)
            values = _values(figure, parameter.name)
            times = page.evaluate(_STEPS, [box.element_handle(), slider.element_handle(), values])
            assert len(times) == COUNT, "every step reached the drawing"
            median, alone = statistics.median(times), _in_python(figure, parameter.name)
            record_property(f"{figure.id}_{parameter.name}_ms", round(median, 1))
            print(
                f"\n{number} {figure.id:12s} {parameter.name:12s} in the browser {median:5.0f} ms"
                f" (slowest {max(times):4.0f}), in Python alone {alone:5.1f} ms",
                end="",
            )
