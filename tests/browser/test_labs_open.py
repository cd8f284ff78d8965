"""Each lab in JupyterLab: all cells run, words and drawings are there, nothing fails or goes outside."""

from __future__ import annotations

import pytest
from twostroke import lab

LABS = [each for each in lab.lab_ids() if each != "01"]


@pytest.mark.parametrize("lab_id", LABS)
def test_does_a_lab_run_from_top_to_bottom_with_a_name_in_it(new_tab, jupyter, lab_id, tmp_path):
    place = f"labs/lab{lab_id}/lab{lab_id}.ipynb"
    file = jupyter.workspace / place
    before = file.read_bytes()
    file.write_bytes(before.replace(b"your name or number", b"learner07", 1))
    try:
        tab = new_tab(height=2400)
        tab.open(place)
        tab.run_all()
        page = tab.page
        page.get_by_text("Form of your answers").first.wait_for()
        found = lab.load(lab_id)
        shown = page.evaluate(
            "() => window.jupyterapp.shell.currentWidget.content.model.sharedModel.toJSON()"
        )
        cells = {cell["metadata"].get("nbgrader", {}).get("grade_id"): cell for cell in shown["cells"]}
        for task in found.tasks:
            (output,) = cells[f"{task.id}_show"]["outputs"]
            html = "".join(output["data"]["text/html"])
            assert "What to write:" in html
            assert ("<svg" in html) == ('role="img"' in html)
        assert not [
            o for cell in shown["cells"] for o in cell.get("outputs", ()) if o["output_type"] == "error"
        ]
        assert page.locator(".jp-RenderedText[data-mime-type='application/vnd.jupyter.stderr']").count() == 0
        assert tab.strangers() == []
        page.screenshot(path=tmp_path / f"lab{lab_id}.png")
    finally:
        file.write_bytes(before)


def test_is_the_trace_of_lab_04_drawn_and_named_for_a_screen_reader(new_tab, jupyter):
    place = "labs/lab04/lab04.ipynb"
    file = jupyter.workspace / place
    before = file.read_bytes()
    file.write_bytes(before.replace(b"your name or number", b"learner07", 1))
    try:
        tab = new_tab(height=2400)
        tab.open(place)
        tab.run_all()
        figure = tab.page.get_by_role("img", name="Trace of one spark")
        figure.wait_for()
        box = figure.locator("svg").bounding_box()
        assert box["width"] > 400
        assert box["height"] > 150
        assert tab.page.get_by_role("rowheader", name="spark 1", exact=True).count() == 1
    finally:
        file.write_bytes(before)
