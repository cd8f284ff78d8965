"""Is a learner's variant the same everywhere, their own, solvable and inside what can occur?"""

from __future__ import annotations

import csv
import hashlib
import json
import os
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest
from twostroke import lab
from twostroke.lab.draw import Draw, LabError, fold
from twostroke.lab.number import Number
from twostroke.lab.rules import troubles
from twostroke.lab.task import Values

LABS = lab.lab_ids()
QUICK = [f"learner {number}" for number in range(120)]
ALL = [f"s{number:06d}" for number in range(10_000)]

PINNED = {
    "machine": "27 cm³ brush cutter, demo engine A",
    "gap_thou": 15,
    "compression_psi": 164,
    "torque_lbf_in": 30,
    "storage_degF": 97,
    "plug_gap_hundredths_mm": 80,
    "crankcase_hundredths_bar": 45,
    "tank_mL": 620,
    "can_tenths_US_gal": 30,
    "ratio": 50,
    "altitude_m": 1750,
    "gauge_tenths_bar": 104,
    "sheet": [12, 143, 19, 66, 186, 72],
    "sheet_wrong": 3,
}


def test_does_a_learner_get_the_numbers_that_were_handed_out_before():
    assert lab.variant("01", "Learner 07") == PINNED


def test_does_a_draw_follow_from_sha256_alone():
    text = "two-stroke lab\x1f01\x1flearner07\x1f1\x1fgap"
    expected = 8 + int(hashlib.sha256(text.encode()).hexdigest(), 16) % 9
    assert Draw("01", "learner07", 1).integer("gap", 8, 16) == expected == PINNED["gap_thou"]


def test_is_the_variant_the_same_in_another_process_with_another_hash_seed():
    code = "import json; from twostroke import lab; print(json.dumps(lab.variant('01', 'Learner 07')))"
    environment = {**os.environ, "PYTHONHASHSEED": "12345"}
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=environment
    )
    assert json.loads(done.stdout) == PINNED


@pytest.mark.parametrize(
    "spelling",
    [
        pytest.param("learner07", id="small letters, no space"),
        pytest.param("LEARNER 07", id="capitals"),
        pytest.param("  Learner\t07\n", id="blanks of other kinds"),
        pytest.param("Learner\u00a007", id="a space that does not break"),
        pytest.param("Learner\u200b07", id="an invisible character from copying"),
        pytest.param("Ｌｅａｒｎｅｒ０７", id="wide letters of another keyboard"),
    ],
)
def test_do_case_and_spaces_matter(spelling):
    assert lab.variant("lab01", spelling) == PINNED


def test_do_another_learner_another_attempt_and_another_lab_name_draw_other_numbers():
    first = lab.variant("01", "learner07")
    assert lab.variant("01", "learner08") != first
    assert lab.variant("01", "learner07", attempt=2) != first
    assert Draw("02", "learner07").number("gap") != Draw("01", "learner07").number("gap")


def test_does_a_new_draw_leave_the_older_ones_alone():
    one, other = Draw("01", "x"), Draw("01", "x")
    other.integer("something new", 1, 100)
    assert one.integer("gap", 8, 16) == other.integer("gap", 8, 16)


@pytest.mark.parametrize("name", ["1", "01", "lab01", "Lab 1", "lab_01", 1])
def test_are_the_usual_ways_to_write_a_lab_understood(name):
    assert lab.variant(name, "learner07").lab == "01"


@pytest.mark.parametrize(
    ("number", "learner", "attempt", "says"),
    [
        ("77", "x", 1, "there are"),
        ("first", "x", 1, "write its number"),
        ("01", "", 1, "name or number"),
        ("01", " \u200b ", 1, "name or number"),
        ("01", "x" * 201, 1, "200 at most"),
        ("01", None, 1, "name or number"),
        ("01", "x", 0, "whole number"),
        ("01", "x", 1.0, "whole number"),
        ("01", "x", True, "whole number"),
    ],
)
def test_is_what_cannot_be_used_said_in_words(number, learner, attempt, says):
    with pytest.raises(LabError, match=says):
        lab.variant(number, learner, attempt)


def test_is_an_integer_learner_the_same_as_its_text():
    assert lab.variant("01", 42) == lab.variant("01", "42")
    assert fold(42) == "42"


def _answers(lab_id: str, learner: str) -> tuple[str, ...]:
    found = lab.load(lab_id)
    given = lab.variant(lab_id, learner)
    right = Values(found, given)
    return tuple(str(item.model(given, right)) for _, item in found.items() if isinstance(item, Number))


@pytest.mark.parametrize("lab_id", LABS)
def test_is_each_of_a_sample_of_learners_served(lab_id):
    found = lab.load(lab_id)
    assert [trouble for learner in QUICK for trouble in troubles(found, learner)] == []


@pytest.mark.parametrize("lab_id", LABS)
def test_do_learners_of_a_class_have_their_own_answers(lab_id):
    assert len({_answers(lab_id, learner) for learner in QUICK}) >= 0.95 * len(QUICK)


def test_are_all_options_of_a_draw_used_about_equally():
    drawn = Counter(lab.variant("01", learner)["gap_thou"] for learner in ALL[:1800])
    assert set(drawn) == set(range(8, 17))
    assert max(abs(count - 200) for count in drawn.values()) < 5 * 200**0.5


@pytest.mark.parametrize(
    "class_size", [pytest.param(1000, marks=pytest.mark.slow), pytest.param(len(ALL), marks=pytest.mark.long)]
)
@pytest.mark.parametrize("lab_id", LABS)
def test_are_very_many_learners_served_each_with_their_own_answers(lab_id, class_size):
    found, learners = lab.load(lab_id), ALL[:class_size]
    assert next((trouble for learner in learners for trouble in troubles(found, learner)), None) is None
    assert len({_answers(lab_id, learner) for learner in learners}) >= 0.95 * class_size


# Common practice for small two-strokes, no source: what a shop would call possible.
BANDS = Path(__file__).parent / "tables" / "physical_bands.csv"
UNITS = {
    "mm",
    "um",
    "thou",
    "psi",
    "bar",
    "ohm",
    "kohm",
    "kV",
    "degC",
    "degF",
    "mL",
    "m",
    "rpm",
    "gal",
    "s",
    "ms",
    "deg",
}


def bands(name):
    with open(BANDS, encoding="utf-8", newline="") as file:
        return {row["name"]: row for row in csv.DictReader(file) if row["lab"] == name}


@pytest.mark.parametrize("name", [name for name in LABS if bands(name)])
def test_does_a_drawn_figure_lie_in_the_band_of_real_machines(name):
    drawn = [lab.variant(name, learner) for learner in ALL[:600]]
    for figure, row in bands(name).items():
        low, high = float(row["low"]), float(row["high"])
        found = [one[figure] for one in drawn]
        flat = [value for one in found for value in (one if isinstance(one, list) else [one])]
        assert len(flat) >= len(drawn)
        assert all(low <= value <= high for value in flat), (
            f"{figure} ({row['what']}) runs from {min(flat)} to {max(flat)}, not {low} to {high}"
        )


@pytest.mark.parametrize("name", LABS)
def test_has_every_drawn_figure_with_a_unit_its_band(name):
    drawn = {figure for figure in lab.variant(name, "learner 1") if figure.rpartition("_")[2] in UNITS}
    assert drawn <= set(bands(name)), f"no row in {BANDS.name}: {sorted(drawn - set(bands(name)))}"


def test_does_the_table_of_air_pressure_agree_with_the_standard_atmosphere():
    # ISO 2533:1975 as held by ambiance, an outside library
    from twostroke import compression
    from twostroke.lab.lab01 import AIR

    for altitude, pressure in AIR.items():
        exact = compression.standard_atmosphere(f"{altitude} m").pressure.to("hPa").magnitude
        assert pressure == round(float(exact))


def test_does_loading_every_lab_leave_the_heavy_libraries_alone():
    """Pint brings numpy in by itself; what computes sparks and pictures comes only when it is asked for."""
    heavy = ["matplotlib", "scipy.linalg", "scipy.sparse", "pandas", "ipywidgets", "twostroke.ignition"]
    code = (
        "import sys; from twostroke import lab; [lab.load(each) for each in lab.lab_ids()];"
        f"print([name for name in {heavy} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
