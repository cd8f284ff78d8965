"""Lab 14: one unseen machine, on the examination's service."""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.exam.marking import Examined
from twostroke.lab.page import Caution, Lines, Page, Text
from twostroke.lab.task import Task

_CALLS = (
    ("machine", "what the owner says, and how many steps are on the log"),
    ("machine.actions()", "all tests, repairs and covers, by name"),
    ("machine.cautions()", "the cautions that can be kept, by name"),
    ('machine.do("look_over", confirm=["moving_parts"])', "one step; the cautions that you keep, by name"),
    ('machine.do("plug_look", prepare=True, confirm=[…])', "covers opened with it"),
    ('machine.do("verify", confirm=[…])', "start, run, stop, restart, in the state of the complaint"),
    ("machine.faults()", "the faults that can be named"),
    (
        'machine.hand_back("fault", "80 %")',
        "give it back: the fault, and how sure you are; the receipt is printed",
    ),
)


def _show(v: Variant) -> Page:
    return Page(
        "",
        (
            Caution(
                "The bench does not remind you beforehand. A caution that a step asks for and that you "
                "did not "
                "name is a caution missed; it is said afterwards, and then the examination is not passed."
            ),
            Text(
                "One machine, one fault, no hints. Find it with few minutes and no guess, repair it, "
                "prove it in the "
                "state of the complaint, hand it back."
            ),
            Text(
                "What is done stays done: each line counts once, in the order of the cell. You may run "
                "the cell again, "
                "stop for the day, or start the computer anew: the machine waits as you left it."
            ),
            Text(
                "Passed: every safety step kept, the repair verified, and a score of at least 70 of 100, "
                "luck taken "
                "out. What became of the machine is told when it has been marked."
            ),
            Lines(_CALLS),
        ),
    )


TASK = Task(
    id="bench",
    title="An unseen machine",
    outcome="isolate, repair and prove one fault of an unseen machine, alone",
    kind="route",
    points=14,
    competency="isolation logic",
    show=_show,
    items=(Examined("receipt", "receipt of the job"),),
)
