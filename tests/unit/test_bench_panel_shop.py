"""A shop's own figures on the bench: closed jobs counted into the rates, prices on the job card."""

from __future__ import annotations

import json
import re
from datetime import date

import pytest
from click.testing import CliRunner
from twostroke.cli import group
from twostroke.lesson.bench_panel import BenchPanel, OwnJob, OwnShop, open_own, terminal
from twostroke.lesson.bench_panel.steps import plan
from twostroke.table import TableError, load_table

SHOP = """
name = "Harbour workshop (invented)"
invented = true
currency = "CHF"
labour_per_hour = 90
tax_percent = 8
"""


@pytest.fixture
def own_table(tmp_path):
    """A table into which the shop has counted 60 closed jobs, 50 of them a chafed stop lead."""
    jobs = tmp_path / "closed.csv"
    jobs.write_text("fault,complaint\n" + "stop_lead,no_start\n" * 50 + "plug_fouled,no_start\n" * 10)
    out = tmp_path / "our_table.yaml"
    done = CliRunner().invoke(
        group, ["shop", "priors", str(jobs), "--weight", "100", "--name", "Mill Lane Demo", "--out", str(out)]
    )
    assert done.exit_code == 0, done.output
    assert "60 closed jobs, the table counted as 100 jobs" in done.output
    assert "stop lead chafed, touching metal" in done.output.splitlines()[1], (
        "the largest change is said first"
    )
    return out


@pytest.fixture
def shop(own_table, tmp_path):
    figures = tmp_path / "shop.toml"
    figures.write_text(SHOP)
    return OwnShop.read(own_table, figures)


def test_do_the_shops_jobs_move_what_is_likely(shop):
    course = open_own("no_start", "Ben", folder=False)
    own = open_own("no_start", "Ben", folder=False, shop=shop)
    before, after = (panel.job.follower.belief.probability("stop_lead") for panel in (course, own))
    assert after > 3 * before
    assert "stop lead chafed" in own.regions["possible"].partition("bt-bars")[2].split("</li>")[0]


def test_is_the_change_shown_where_the_chances_stand(shop):
    course = open_own("no_start", "Ben", folder=False)
    assert "own jobs have changed" not in course.regions["possible"]
    assert "teaching estimate" in course.regions["possible"]
    own = open_own("no_start", "Ben", folder=False, shop=shop).regions["possible"]
    changed = own.partition("own jobs have changed")[2].partition("</details>")[0]
    assert re.search(r"Stop lead chafed, touching metal: \d+\.\d → \d+\.\d per 1 000", changed)
    assert "60 closed jobs of the shop counted in" in own
    assert f"own table of Mill Lane Demo ({date.today().isoformat()}, " in own
    assert "maker" in own
    assert "teaching estimate, not service data" not in own


def test_does_a_job_go_on_with_the_shops_table(shop, tmp_path):
    panel = open_own("no_start", "Ben", folder=tmp_path / "jobs", shop=shop)
    panel.tell("choose", action="switch_check")
    panel.tell(
        "do",
        word="works",
        condition="cold",
        confirm=[n for n, *_ in plan(panel.job, "switch_check").cautions],
    )
    again = BenchPanel(None, tmp_path / "jobs", shop=shop)
    again.tell("resume", value=panel.job.file.name)
    chance = again.job.follower.belief.probability("stop_lead")
    assert chance == pytest.approx(panel.job.follower.belief.probability("stop_lead"), abs=1e-12)
    assert again.job.session.route == panel.job.session.route


def test_do_demo_machines_keep_the_courses_table(shop):
    panel = BenchPanel(None, None, shop=shop)
    panel.tell("begin", scenario="plug_fouled_trimmer", learner="Ben")
    assert panel.job.session.table.faults["stop_lead"].rate == load_table().faults["stop_lead"].rate


def test_has_the_job_card_the_shops_prices(shop, tmp_path):
    panel = open_own("no_start", "Ben", folder=tmp_path / "jobs", shop=shop)
    for action, given in (("plug_look", {"word": "wet"}), ("swap_plug", {}), ("verify", {"word": "runs"})):
        panel.tell("choose", action=action)
        panel.tell("do", condition="cold", confirm=[n for n, *_ in plan(panel.job, action).cautions], **given)
    panel.tell("hand_back", diagnosis="plug_fouled", confidence="80", way="back")
    panel.tell("card")
    card = json.loads(next((tmp_path / "jobs" / "cards").glob("*.json")).read_text())
    assert card["estimate"]["currency"] == "CHF"
    assert card["shop"] == "Harbour workshop (invented)"
    lines = {line["what"].partition(",")[0]: line for line in card["estimate"]["lines"]}
    assert lines["labour"]["amount"] == pytest.approx(90 / 60 * sum(card["minutes"].values()), abs=0.01)
    assert lines["tax"]["what"] == "tax, 8 %"


def test_does_the_terminal_say_what_the_shop_has_changed(shop, tmp_path):
    import io

    from rich.console import Console

    answers = iter(["3", "6"])
    out = io.StringIO()
    job = OwnJob("saw", "no_start", "Ben", None, None, tmp_path / "jobs", shop.table)
    terminal.run(None, job=job, shop=shop, ask=lambda _: next(answers), console=Console(file=out, width=140))
    assert "the shop's own jobs changed: stop lead chafed" in out.getvalue()


def test_is_a_table_that_cannot_be_read_named(tmp_path):
    with pytest.raises(TableError, match=r"gone\.yaml"):
        OwnShop.read(tmp_path / "gone.yaml")
    done = CliRunner().invoke(group, ["bench", "--table", str(tmp_path / "gone.yaml"), "--no-browser"])
    assert done.exit_code != 0
