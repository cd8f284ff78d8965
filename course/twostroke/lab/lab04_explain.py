"""Lab 04: why a spark in open air is no proof, in the learner's own words, for a person to mark."""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Task
from twostroke.lab.written import Written

EXPLAIN = Written(
    "words",
    "your answer to the owner",
    (
        ("says that denser air in the cylinder asks for several times the voltage", 0.3),
        ("uses own figures: open air, under compression, and what the module gives", 0.3),
        ("names a test that does prove it, with its setting", 0.2),
        ("words an owner can follow, and nothing claimed that was not measured", 0.2),
    ),
    "Your plug sparks in open air because there it needs only about three kilovolts. With the piston "
    "nearly at the "
    "top the air between the electrodes is some four times as dense, and the same gap asks for about ten "
    "kilovolts. "
    "At the speed of your pull this module gives about eleven by calculation, so it may just do or just "
    "fail: "
    "the spark you saw cannot tell us. I will set a tester to about eight millimetres, ground it well "
    "away from "
    "the tank, and pull. If it jumps at every turn, the ignition gives what the plug needs and I look at "
    "fuel and "
    "air; if not, I go on with plug, lead, stop circuit, air gap and module.",
    fewest=50,
    most=200,
)


def _show(v: Variant) -> Page:
    owner = (
        f"The owner of the {v['machine']} says: I laid the plug on the cylinder and saw a fine spark, so it "
        "cannot be the ignition. Answer in words that the owner can follow, with your own figures of this "
        "lab, "
        "and say what you will do next."
    )
    return Page("", (Text(owner), Text("A person reads this one. There is no comparison for it.")))


TASK = Task(
    id="explain",
    title="The spark that the owner saw",
    outcome="explain to an owner why a spark in open air is no proof",
    kind="written",
    points=4,
    competency="spark testing",
    items=(EXPLAIN,),
    show=_show,
)
