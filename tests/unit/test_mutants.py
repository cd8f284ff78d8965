"""Would the tests see a change of a formula? Mutants are made anew, and each that lives must have an answer.

    pytest tests/unit/test_mutants.py --long -k gap

A survivor is answered by a test that sees it or, where none can or need, by a row of
``tables/answered_mutants.csv`` with the reason.
"""

from __future__ import annotations

import csv
import json
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
# Those whose survivors were all read; another is added when it has been (all: `tables/mutant_tests.csv`).
MODULES = (
    "gap",
    "resistance",
    "verdict",
    "fuel",
    "geometry",
    "crankcase",
    "demand",
    "breakdown",
    "compression",
    "units",
    "starting",
    "cranking",
    "magneto",
    "coil",
    "burn",
    "_copper",
    "_air",
    "_leaks",
    "_slider_crank",
    "_cylinder",
    "_core",
    "ignition",
    "_network",
)
KEY = ("module", "function", "old", "new")


def answered():
    with open(HERE / "tables" / "answered_mutants.csv", encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_does_every_answer_give_its_reason_once():
    rows = answered()
    assert len({tuple(row[part] for part in KEY) for row in rows}) == len(rows)
    for row in rows:
        assert len(row["reason"]) > 10, row
        assert row["old"] in " ".join(
            line.strip() for line in _source(row["module"]).read_text(encoding="utf-8").splitlines()
        ), f"this line is no longer in {row['module']}.py; take the row out of the table: {row}"


def _source(module):
    return HERE.parents[1] / "course" / "twostroke" / f"{module}.py"


@pytest.mark.long
@pytest.mark.parametrize("module", MODULES)
def test_is_every_mutant_seen_or_answered(module, tmp_path, record_property):
    pytest.importorskip("cosmic_ray", reason="cosmic-ray makes the mutants: pip install -e '.[test]'")
    out = tmp_path / "survivors.json"
    words = [sys.executable, str(HERE / "mutants.py"), str(out), module]
    done = subprocess.run(words, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    found = json.loads(out.read_text(encoding="utf-8"))[module]
    record_property("mutants", {**found, "survivors": len(found["survivors"])})
    assert found["tried"] > 0
    known = {tuple(row[part] for part in KEY) for row in answered()}
    new = [
        one for one in found["survivors"] if (module, one["function"], one["old"], one["new"]) not in known
    ]
    assert not new, "write a test that sees these changes: " + json.dumps(new, indent=1, ensure_ascii=False)
