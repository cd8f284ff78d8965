"""A scenario to start from: filled in for one fault, a word beside every line that an instructor edits."""

from __future__ import annotations

import re
from pathlib import Path

import yaml

from twostroke.bench.models import MODELS
from twostroke.table import Table, TableError, load_table, unknown

KINDS = {
    "A": "hedge trimmer",
    "B": "brush cutter",
    "C": "earth auger",
    "D": "cut-off saw",
    "E": "water pump",
    "F": "brush cutter",
}
_BY_SYSTEM = {
    "fuel": "fuel, air and exhaust",
    "air": "fuel, air and exhaust",
    "exhaust": "fuel, air and exhaust",
    "cooling": "fuel, air and exhaust",
    "compression": "compression and sealing",
    "ignition": "spark testing",
}

TEMPLATE = """\
# Invented machine, invented numbers: say so wherever it is shown. Lines with # are for you, the writer.
# Then: twostroke scenario check {name}.yaml
id: {name}                     # letters, digits and _; tell nothing of the fault
title: {title}
machine:
  kind: {kind}                 # hedge trimmer, brush cutter, cut-off saw, earth auger or water pump
  engine: demo engine {letter}           # A to F
  displacement: {size:.0f} cc
  features: {features}         # known: {known}
  ambient: 18 degC
complaint:
  kind: {complaint}            # known: {complaints}
  words: {words}
history:                       # what the owner tells when asked; at least one line
  - "ran well last season"
truth:                         # one fault, or two; severity from 0.2 (barely) to 1
  - {{fault: {fault}, severity: 1.0}}
aim: "What the learner can do afterwards, in one sentence."
competencies: {competencies}
bands:                         # maker's bands of this invented machine; a test without its band is left out
{bands}
seed: {{policy: learner, number: 1}}   # learner: everyone another machine; fixed: all the same
closing: "One question to think about when the job is done."
"""


def new(
    path: str | Path,
    *,
    fault: str = "plug_fouled",
    engine: str = "A",
    complaint: str | None = None,
    table: Table | None = None,
) -> Path:
    """Write a scenario to start from.

    Parameters
    ----------
    path : str or Path
        File to be made; its name becomes the scenario's.
    fault : str
        What is wrong; the owner's words come from the table's row, to be written anew.
    engine : str
        Letter of a demo engine.
    complaint : str, optional
        Kind of complaint; the likeliest for this fault when left out.
    table : Table, optional

    Returns
    -------
    Path

    Raises
    ------
    TableError
        Unknown fault, engine or complaint, a name that is none, or a file that is there already.

    Examples
    --------
    >>> import tempfile
    >>> from twostroke.table import load_scenario
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     load_scenario(new(f"{folder}/wet_shed.yaml", fault="stop_switch")).complaint.kind
    'no_start'
    """
    whole = load_table() if table is None else table
    place = Path(path)
    if not re.fullmatch(r"[a-z][a-z0-9_]*", place.stem) or place.suffix not in (".yaml", ".yml"):
        raise TableError(
            f"{place.name!r}: name the file like 'wet_shed.yaml', small letters, digits and _ only"
        )
    if place.exists():
        raise TableError(f"{place}: there is such a file already; choose another name")
    if fault not in whole.faults or fault == "other":
        raise unknown("fault", fault, [name for name in whole.faults if name != "other"])
    letter = engine.strip().upper()
    if letter not in MODELS:
        raise unknown("demo engine", engine, MODELS)
    if complaint is not None and complaint not in whole.complaints:
        raise unknown("complaint", complaint, whole.complaints)
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(_filled(place.stem, whole, fault, letter, complaint), encoding="utf-8")
    return place


def _filled(name: str, table: Table, fault: str, letter: str, complaint: str | None) -> str:
    model, row = MODELS[letter], table.faults[fault]
    words = table.complaint
    if complaint is None and words is not None:
        chances = words.hits.get(fault, words.base)
        complaint = words.results[max(range(len(chances)), key=lambda n: (chances[n], -n))]
    features = {"mixture_screws", "lead_separate"} | ({row.only_with} if row.only_with else set())
    features |= {"primer_bulb"} if model.primer_bulb else set()
    features |= {"decompression_valve"} if model.decompressor else set()
    skills = ["safety", "taking a complaint", _BY_SYSTEM.get(row.sys, "isolation logic"), "repair and verify"]
    return TEMPLATE.format(
        name=name, title=_quoted(f"The {KINDS[letter]} that …"), kind=KINDS[letter], letter=letter,
        size=model.displacement * 1e6, features=_list(sorted(features & set(table.features))),
        known=", ".join(table.features), complaint=complaint, complaints=", ".join(table.complaints),
        words=_quoted(f"(write it anew) {row.owner}"), fault=fault, competencies=_list(skills),
        bands="\n".join(f"  {quantity}: {band}" for quantity, band in model.bands.items()),
    )  # fmt: skip


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _list(items: list[str]) -> str:
    return yaml.safe_dump(items, default_flow_style=True, width=1000).strip()
