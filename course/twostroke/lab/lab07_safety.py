"""Lab 07, safety: before the probes of an ohmmeter touch a module.

Common practice, no source; the maker's manual comes first.
"""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.page import Caution, Page, Text
from twostroke.lab.pick import Option, Pick
from twostroke.lab.task import Task

CAUTION = Caution(
    "A magnet that passes a module gives hundreds of volts at the primary and thousands at the lead. "
    "The maker's manual, local codes and licensed practice come first."
)

_DO = Pick(
    "do",
    "what you do first",
    (
        Option("still", "Stop the engine, let it cool, take the lead off the plug, block the flywheel, then "
        "put "
               "the probes on.", True),
        Option("turning", "Put the probes on and turn the engine slowly, to see whether the reading moves.",
               misconception="meter_while_turning",
               feedback=Feedback("The flywheel turns with the probes on.",
                                 "An ohmmeter was thought to bear what the module makes.",
                                 "What comes out of the winding when the magnet passes, and where are your "
                                 "hands?")),
        Option("switch", "Set the stop switch to stop; that takes all voltage away.",
               misconception="switch_is_enough",
               feedback=Feedback("The stop switch is trusted.", "The switch was taken to cut the module off.",
                                 "What does the switch put in parallel with the winding that you measure?")),
        Option("hot", "Measure at once while it is hot, holding the module by hand.",
               misconception="hot_is_no_matter",
               feedback=Feedback("A hot engine is handled.", "Only the reading was thought of.",
                                 "How hot is the muffler beside the module, and what band is for which "
                                 "temperature?")),
    ),
)  # fmt: skip
_WHY = Pick(
    "why",
    "why",
    (
        Option("volts", "A pass of the magnet puts high voltage on winding, probes and hands, and spoils "
        "the meter.",
               True),
        Option("drain", "Turning drains the winding, so that it reads too low.",
            misconception="module_stores_charge",
               feedback=Feedback("The winding is thought to run empty.", "A winding was taken for a battery.",
                                 "Where does the voltage of a winding come from?")),
        Option("exact", "Only the reading suffers; there is no danger at such small machines.",
               misconception="shock_is_harmless",
               feedback=Feedback("The shock is thought harmless.",
                   "A small machine was taken for a small voltage.",
                                 "How many volts does it take to jump the plug?")),
        Option("polarity", "Otherwise the probes might be the wrong way round.",
            misconception="order_does_not_matter",
               feedback=Feedback("The way round of the probes is feared.", "Ohms and diodes were mixed up.",
                                 "Does a winding read differently with the probes changed over?")),
    ),
    needs="do",
)  # fmt: skip


def _show(v: Variant) -> Page:
    lead = f"You are about to measure the windings of the {v['machine']}, with the module still on the "
    "engine."
    blocks = (Text("What do you do first?"), _DO.options_block(v), Text("Why?"), _WHY.options_block(v))
    return Page("", (CAUTION, Text(lead), *blocks))


TASK = Task(
    id="safe",
    title="Before the probes touch the module",
    outcome="make a machine safe before its windings are measured, and give the reason",
    kind="choice",
    points=2,
    competency="safety",
    items=(_DO, _WHY),
    show=_show,
    safety=True,
)
