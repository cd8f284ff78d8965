"""A new lab to begin from: a module that loads, its text master, and an empty list of wrong answers."""

from __future__ import annotations

import importlib.util
from pathlib import Path

from twostroke.lab.catalogue import lab_ids
from twostroke.lab.cells import master_text
from twostroke.lab.draw import LabError, lab_number
from twostroke.lab.task import Lab

SKELETON = '''\
"""Lab {number}, {lower}: say here in one line what it asks."""

from __future__ import annotations

from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.slips import slip
from twostroke.lab.task import Lab, Task
from twostroke.lab.tolerance import tolerance


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's machine; whole numbers in the unit that the name says."""
    return {{"gap_hundredths_mm": d.integer("gap", 20, 60)}}


def show_lab(v: Variant) -> Page:
    """The machine of this learner."""
    return Page("Your machine", (Text("Invented for this lab. The maker's manual comes first."),))


def _show(v: Variant) -> Page:
    return Page("", (Table("Given", ("what", "reading"), [("gap",
        f"{{v['gap_hundredths_mm'] / 100:.2f}} mm")]),))


TASK = Task(
    id="first",
    title="First task",
    outcome="say what the learner can do after it",
    kind="value",
    points=1,
    competency="units and measuring",
    show=_show,
    items=(
        Number(
            "gap", "gap", "mm", lambda v, own: v["gap_hundredths_mm"] / 100,
            tolerance(0.01, reason="half a step of 0.01 mm"), 0, 100,
            (
                slip("prefix_dropped", lambda v, own: v["gap_hundredths_mm"] / 10,
                     "Ten times too wide.", "A decimal place has slipped.", "Count the places again."),
            ),
            Feedback("It is not the reading.", "Another row may have been read.", "Read it again."),
        ),
    ),
)  # fmt: skip

LAB = Lab(
    id="{number}",
    title="{title}",
    question="",
    minutes=0,
    aim="",
    usual_errors="",
    tasks=(TASK,),
    draw=draw,
    show=show_lab,
    rubric="",
    renewal="",
)
'''
_WRONG = """\
# Wrong answers of lab {number}, with what they must earn and what the learner must read.
# change: blanks that differ from the model answer; everything else is right.
learner: model answer
tasks: {{}}
"""


def load_file(path: Path) -> Lab:
    """Load the lab that a module file holds."""
    spec = importlib.util.spec_from_file_location(path.stem, path)
    if spec is None or spec.loader is None:
        raise LabError(f"{path}: this is no Python module")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    found: Lab = module.LAB
    return found


def new_lab(number: str | int, title: str, top: Path) -> list[Path]:
    """Begin a new lab.

    Parameters
    ----------
    number : str or int
        Its number, of a lesson that has no lab yet.
    title : str
        What it is called.
    top : Path
        Top of a clone.

    Returns
    -------
    list of Path
        Files written: module, text master, wrong answers. `check_lab` then says what is still missing.

    Raises
    ------
    LabError
        A number that is taken, no title, or a file that is already there: nothing is written over.
    """
    which = lab_number(number)
    name = title.strip()
    if which in lab_ids():
        raise LabError(f"lab {which} exists already; choose another number")
    if not name or '"' in name or "\\" in name:
        raise LabError("give the lab a title in plain words, without quotes")
    module = top / "course" / "twostroke" / "lab" / f"lab{which}.py"
    master = top / "course" / "text" / "labs" / f"lab{which}.py"
    wrong = top / "tests" / "labs" / "wrong" / f"lab{which}.yaml"
    for path in (module, master, wrong):
        if path.exists():
            raise LabError(f"{path} is already there; it is not written over")
        if not path.parent.is_dir():
            raise LabError(f"{path.parent} does not exist; begin a lab at the top of a clone")
    module.write_text(SKELETON.format(number=which, title=name, lower=name.lower()), encoding="utf-8")
    master.write_text(master_text(load_file(module)), encoding="utf-8")
    wrong.write_text(_WRONG.format(number=which), encoding="utf-8")
    return [module, master, wrong]
