"""Lab 12: the job explained to a new hire in five sentences, marked by a person."""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Task
from twostroke.lab.written import Written

RUBRIC = (
    ("why it failed, as cause and effect, not only what was replaced", 0.25),
    ("the reading that proved it, with its condition", 0.25),
    ("why the gap is set with a shim and measured again after tightening", 0.25),
    ("how the repair was proven, and one danger with what guards against it", 0.25),
)
EXAMPLE = (
    "When the module grows hot a joint inside it opens, so the voltage is lost and the engine stops as if "
    "switched "
    "off, and when it cools the joint closes again. We proved it with the tester at 8 mm, well away from "
    "the fuel: it "
    "flashed cold and stayed dark at the moment the engine had died, with the stop lead off as well. The "
    "new module is "
    "pressed on a shim because the magnet would pull it to the flywheel, and we measure again after "
    "tightening because "
    "the screws move it as they pull down. It is proven when it has run hot for longer than it used to "
    "live, restarts "
    "at once and stops by its switch. Before your hand goes to the flywheel the boot is off the plug and "
    "tied away, "
    "for a machine that did not start may start the moment it is mended."
)


def _show(v: Variant) -> Page:
    lead = "Explain this job to a new hire who starts on Monday, in five sentences: why, not only what."
    return Page("", (Text(lead),))


TASK = Task(
    id="explain",
    title="Five sentences for the next person",
    outcome="explain a job to a new hire so that the reasons stay",
    kind="written",
    points=4,
    competency="passing on",
    show=_show,
    items=(Written("words", "your five sentences", RUBRIC, EXAMPLE, fewest=50, most=220),),
)
