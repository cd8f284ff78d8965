"""Does a shop owner get from a new hire on Monday to a signed, sealed page, by commands alone?"""

from __future__ import annotations

import csv
import json
import re
import subprocess
import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest
from click.testing import CliRunner

pytest.importorskip("nbgrader", reason="grading needs the teach extra")
pytest.importorskip("cryptography", reason="records need the teach extra")

from pypdf import PdfReader
from twostroke import cli
from twostroke.errors import TwoStrokeError
from twostroke.lab.task import COMPETENCIES

_spec = spec_from_file_location("invented_shop", Path(__file__).parent / "invented_shop.py")
invented_shop = module_from_spec(_spec)
_spec.loader.exec_module(invented_shop)
SAM = ("--by", "Sam Super", "--initials", "SS")


class Shop:
    """Commands typed in one shop's folder."""

    def __init__(self, home: Path):
        self.home = home

    def ask(self, *words: str, typed: str = "", code: int = 0):
        done = CliRunner().invoke(cli.group, [*words, "--home", str(self.home)], input=typed)
        assert done.exit_code == code, done.output
        return done

    def told(self, *words: str) -> object:
        return json.loads(self.ask(*words, "--json").stdout)

    def refused(self, *words: str) -> str:
        done = CliRunner().invoke(cli.group, [*words, "--home", str(self.home)])
        assert isinstance(done.exception, TwoStrokeError), done.output
        return str(done.exception)


@pytest.fixture(scope="module")
def graded(tmp_path_factory):
    return invented_shop.make(tmp_path_factory.mktemp("shop"))


@pytest.fixture
def shop(graded, tmp_path):
    return Shop(invented_shop.copy(graded, tmp_path).home)


def test_the_first_week_of_a_new_hire(tmp_path):
    """Monday: entered, planned. Friday: one competency seen at the bench, the page issued and checked."""
    shop = Shop(tmp_path / "shop")
    assert "nobody yet" in shop.ask("shop", "people").output
    said = shop.ask("record", "new", "Robin Demo").output
    assert "twostroke record plan Robin-Demo" in said

    plan = shop.ask("record", "plan", "Robin Demo", "--aim", "compression", "--day", "90").output
    assert plan.splitlines()[0].startswith(
        "Robin Demo towards compression and sealing: 4 lessons left, 4 h 55 min"
    )
    places = [plan.index(f" {number} ") for number in ("00", "01", "02", "08")]
    assert places == sorted(places)
    assert "day 1: 00 Start here" in plan
    assert "builds on 02" in plan
    whole = shop.told("record", "plan", "Robin Demo")
    assert [step["module"] for step in whole["steps"]] == [f"{number:02d}" for number in range(16)]
    assert whole["minutes"] == sum(step["minutes"] for step in whole["steps"])

    seen = ("--date", "2026-03-06", "--note", "demo engine A")
    assert (
        "signature 1, safety, Sam Super (SS)"
        in shop.ask("record", "sign", "robin demo", "safety", *SAM, *seen).output
    )
    said = shop.ask(
        "record", "Robin Demo", "--to", str(tmp_path / "out"), "--note", "Invented demo data"
    ).output
    assert f"still open by graded work ({len(COMPETENCIES)})" in said
    assert f"by signature ({len(COMPETENCIES) - 1})" in said
    for ending in ("pdf", "html", "json"):
        file = tmp_path / "out" / f"Robin-Demo_training_record.{ending}"
        said = shop.ask("record", "--verify", str(file)).output
        assert "of Robin Demo: as issued" in said
    (page,) = PdfReader(tmp_path / "out" / "Robin-Demo_training_record.pdf").pages
    words = " ".join(page.extract_text().split())
    expected_words = (
        "Training record: Robin Demo",
        "Sam Super 6 Mar 2026 SS",
        "Still open",
        "Next, in this order",
        "Issued by (name, date, initials)",
        "Invented demo data",
    )
    for expected in expected_words:
        assert expected in words
    people = shop.ask("shop", "people").output
    assert f"{len(COMPETENCIES)} competencies" in people
    assert re.search(r"Robin Demo +0 +1 ", people), people


def test_who_can_do_what_this_morning(shop, tmp_path):
    """Proven and to be signed, on the screen, on paper and as a table."""
    shop.ask("record", "sign", "learner-01", "spark testing", *SAM)
    out = {name: tmp_path / f"people.{name}" for name in ("pdf", "html", "csv")}
    files = [word for name, path in out.items() for word in (f"--{name}", str(path))]
    said = shop.ask("shop", "people", *files).output
    ann = said[said.index("Ann Demo") : said.index("Bo Demo")]
    assert re.search(r"Ann Demo +[1-9]\d* +1 ", ann), ann
    assert "spark testing" not in ann, "proven and signed: nothing to do"
    table = list(csv.DictReader(out["csv"].read_text(encoding="utf-8").splitlines()))
    spark = {
        row["name"]: (row["graded"], row["signed"]) for row in table if row["competency"] == "spark testing"
    }
    assert spark == {"Ann Demo": ("proven", "yes"), "Bo Demo": ("open", "no"), "Cy Demo": ("open", "no")}
    assert "proven, signed" in " ".join(PdfReader(out["pdf"]).pages[0].extract_text().split())
    assert "Who can do what" in out["html"].read_text(encoding="utf-8")
    rows = shop.told("shop", "people", "Bo Demo", "s1003")
    assert [row["name"] for row in rows] == ["Bo Demo", "Cy Demo"]
    hidden = shop.ask("shop", "people", "--pseudonyms").output
    assert "Demo" not in hidden
    assert hidden.count("p-") == 3
    name = next(word for word in hidden.split() if word.startswith("p-"))
    assert shop.told("record", "who", name)["name"] in ("Ann Demo", "Bo Demo", "Cy Demo")
    assert "nobody of this class" in shop.refused("record", "who", "p-aaaaaaaaaaaa")


def test_a_plan_leaves_out_what_is_proven_and_begins_with_what_was_not_passed(shop):
    bo = shop.told("record", "plan", "Bo Demo")
    assert bo["done"] == ["00", "01"]
    assert bo["steps"][0]["module"] == "02"
    cy = shop.told("record", "plan", "Cy Demo")
    assert cy["steps"][0]["module"] == "01"
    assert "again: lab 01 reached" in cy["steps"][0]["why"]
    ann = shop.told("record", "plan", "Ann Demo")
    assert {"03", "04"} <= set(ann["done"])
    assert shop.told("record", "plan", "Ann Demo", "--aim", "spark testing")["steps"] == []


def test_a_forged_page_is_found_out_on_the_spot(shop, tmp_path):
    shop.ask("record", "Cy Demo", "--to", str(tmp_path))
    page = tmp_path / "learner-03_training_record.html"
    text = page.read_text(encoding="utf-8")
    assert '<td class="l">open</td>' in text
    page.write_text(text.replace('<td class="l">open</td>', '<td class="l">proven</td>', 1), encoding="utf-8")
    done = shop.ask("record", "--verify", str(page), code=1)
    assert "NOT as issued" in done.output
    assert 'issued as "open", now shows "proven"' in done.output
    told = json.loads(shop.ask("record", "verify", str(page), "--json", code=1).stdout.splitlines()[0])
    assert told["as issued"] is False
    assert told["person"] == "Cy Demo"


def test_a_signature_on_the_wrong_person_is_taken_back(shop):
    shop.ask("record", "sign", "Bo Demo", "air gap", *SAM)
    said = shop.ask("record", "withdraw", "Bo Demo", "1", *SAM, "--note", "wrong person").output
    assert "signature 1 taken back, air gap" in said
    assert shop.told("record", "Bo Demo")["hands on"]["air gap"] == {}


def test_somebody_leaves_and_asks_to_be_forgotten(shop, tmp_path):
    shop.ask("record", "Ann Demo")
    looked = shop.ask("record", "erase", "Ann Demo", "--dry-run").output
    assert "dry run: nothing was changed" in looked
    assert "gradebook.db" in looked
    stopped = shop.ask("record", "erase", "Ann Demo", typed="no\n", code=1).output
    assert "nothing was changed" in stopped
    assert shop.told("record", "plan", "Ann Demo")["person"] == "learner-01"
    done = shop.ask("record", "erase", "Ann Demo", typed="learner-01\n").output
    assert "no copy is kept" in done
    assert "nothing left" in done
    assert "nobody of that name" in shop.refused("record", "Ann Demo")
    assert [row["name"] for row in shop.told("shop", "people")] == ["Bo Demo", "Cy Demo"]
    told = shop.told("record", "erase", "Bo Demo", "--yes")
    assert told["left"] == []
    assert told["searched"]["databases"] >= 1


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("record", "Nobody Known"), "nobody of that name"),
        (("record", "plan", "Ann Demmo"), "did you mean Ann Demo"),
        (("record", "sign", "Ann Demo", "welding", *SAM), "choose one of"),
        (("record", "plan", "Ann Demo", "--aim", "welding"), "choose one of"),
        (("record", "new", "ann demo"), "known already"),
        (("record", "--verify", "/no/such/file.pdf"), "cannot be read"),
        (("record", "erase", "Nobody Known"), "nobody of that name"),
        (("shop", "people", "Nobody Known"), "nobody of that name"),
        (("record", "who", "p-aaaaaaaaaaaa"), "no pseudonym.key here"),
    ],
)
def test_a_slip_is_answered_with_what_to_do(shop, words, says):
    assert says in shop.refused(*words)


def test_help_shows_how_a_person_is_named():
    said = CliRunner().invoke(cli.group, ["record", "--help"]).output
    assert "LEARNER | --verify FILE" in said
    for command in ("show", "verify", "new", "sign", "withdraw", "plan", "erase", "who"):
        told = CliRunner().invoke(cli.group, ["record", command, "--help"])
        assert told.exit_code == 0
        assert "Example:" in told.output


@pytest.mark.parametrize("words", [["record", "learner-01"], ["shop", "people"]], ids=" ".join)
@pytest.mark.parametrize("missing", ["cryptography", "nbgrader"])
def test_is_a_learners_set_up_told_what_records_need(missing, words):
    program = f"import sys; sys.modules[{missing!r}] = None\nfrom twostroke.cli import main\nmain({words!r})"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert f"{missing} is not installed" in done.stderr
    assert "Traceback" not in done.stderr
