"""Lab 04: what a flash in the lead proves, and what not."""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.page import Page, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task

_FLASH = Pick(
    "proves",
    "what it proves",
    (
        Option("tension", "The module made high tension at those turns.", True, "inline_flash_proves",
               Feedback("The module itself is not counted as proven.", "The flash was trusted too little.",
                        "Where does the current through the flash tester come from?")),
        Option("lead", "The lead is whole from the module to the flash tester.", True, "inline_flash_proves",
               Feedback("The first part of the lead is not counted as proven.",
                        "The flash was trusted too little.",
                        "Which way did the current take to the flash tester?")),
        Option("stop", "The stop circuit did not hold the module to ground at those turns.", True,
               "inline_flash_proves",
               Feedback("The stop circuit is not counted as open.", "The flash was trusted too little.",
                        "What would a grounded module give to the lead?")),
        Option("plug", "The plug sparks across its gap under compression.",
        misconception="inline_flash_proves",
               feedback=Feedback("The plug is called good.", "A flash was taken for a spark in the gap.",
                                 "Would it flash too if the current ran over wet soot beside the gap?")),
        Option("enough", "The voltage is high enough for starting.", misconception="inline_flash_proves",
               feedback=Feedback("The voltage is called high enough.", "A small current makes it flash.",
                                 "What does the flash tester need, and what does the plug under "
                                 "compression?")),
        Option("timing", "The spark comes at the right moment.", misconception="inline_flash_proves",
               feedback=Feedback("The timing is called right.", "When was mixed up with whether.",
                                 "Does a flash tell you where the piston was?")),
    ),
    several=True,
)  # fmt: skip


def _show(v: Variant) -> Page:
    lead = (
        f"An in-line flash tester on the {v['machine']} flashes at every turn of the pull, the plug screwed "
        "in. What does that prove? Write all letters that apply; a wrong one takes away what a right one "
        "gives."
    )
    return Page("", (Text(lead), _FLASH.options_block(v)))


TASK = Task(
    id="flash",
    title="A flash in the lead",
    outcome="say what an in-line flash proves and what it leaves open",
    kind="choice",
    points=3,
    competency="spark testing",
    items=(_FLASH,),
    show=_show,
)
