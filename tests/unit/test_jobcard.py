"""Job cards: golden files, what must hold together, sums, and one page whatever the job was."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader
from twostroke.bench import Bench, OwnMachine, order_of, to_json
from twostroke.commands.card import card as command
from twostroke.errors import TwoStrokeError
from twostroke.jobcard import JobCardError, Shop, check, job_card, load_shop, problems, read_card, sheet
from twostroke.jobcard.form import Work
from twostroke.jobcard.money import advise, estimate
from twostroke.jobcard.page import chosen
from twostroke.lesson.bench_panel import OwnJob, cards
from twostroke.scenarios import best_route
from twostroke.table import load_table

GOLDEN = Path(__file__).parent / "golden"
TABLE = load_table()
SHOP = Shop(
    name="Invented test shop", invented=True, labour_per_hour=48.0, least_minutes=10.0, tax_percent=19.0,
    supplies_percent=4.0, supplies_most=3.0,
)  # fmt: skip


def own(
    complaint: str, steps: list[tuple[str, dict]], diagnosis: str | None, sure: object = "90 %"
) -> OwnMachine:
    job = OwnMachine(complaint, "Cem", bands={"air_gap": "0.3-0.4 mm", "plug_gap": "0.6-0.7 mm"})
    for action, given_ in steps:
        job.do(action, confirm="all", **given_)
    job.hand_back(diagnosis, sure)
    return job


STOP = [
    ("known_good_plug", {"reading": "none"}),
    ("stop_lead_off", {"reading": "spark_returns"}),
    ("stop_ohm", {"reading": "0.4 ohm"}),
    ("replace_switch", {}),
    ("verify", {"reading": "runs"}),
]
GAP = [
    ("spark_slow_fast", {"reading": "only_fast"}),
    ("air_gap", {"reading": "35 thou"}),
    ("swap_plug", {}),
    ("verify", {"reading": "fails"}),
    ("set_air_gap", {}),
    ("verify", {"reading": "runs"}),
]
HEAT = [
    ("spark_gap_cold", {"reading": "good"}),
    ("spark_gap_hot", {"reading": "none", "condition": "hot"}),
    ("replace_module", {}),
    ("verify", {"reading": "runs", "condition": "hot"}),
]
JOBS = {
    "stop_switch": lambda: own("no_start", STOP, "stop_switch"),
    "air_gap": lambda: own("fast_pull", GAP, "airgap_wide", 0.95),
    "half_proven_module": lambda: own("dies_hot", HEAT, "module_heat", 0.8),
}


@pytest.mark.parametrize("name", sorted(JOBS))
def test_is_the_card_the_golden_one(name):
    card = job_card(JOBS[name](), shop=SHOP, machine="41 cm³ water pump, invented", value=200.0, date="4 May")
    assert json.loads(card.to_json()) == json.loads((GOLDEN / f"{name}.json").read_text(encoding="utf-8"))
    assert sheet(card).to_html() == (GOLDEN / f"{name}.html").read_text(encoding="utf-8")
    assert problems(card) == []


def test_does_a_card_of_a_real_machine_hold_what_the_owner_must_know():
    card = job_card(JOBS["air_gap"](), shop=SHOP, machine="pump", value=200.0)
    gap = next(read for read in card.readings if read.action == "air_gap")
    assert gap.shown == "35.0 thou (maker's band 0.3-0.4 mm)"
    assert gap.instrument == TABLE.instruments["feeler"]
    assert gap.state == "cold"
    assert gap.supports
    assert card.diagnosis.confidence == 0.95
    assert [work.returned for work in card.repairs] == [True, False]
    assert card.verification.passed
    assert card.cautions[0] == TABLE.faults["airgap_wide"].caution
    assert card.advice.rule
    assert card.advice.figures


def test_is_a_trial_part_that_changed_nothing_not_charged():
    card = job_card(JOBS["air_gap"](), shop=SHOP)
    assert not any(line.what == "plug" for line in card.estimate.lines)


def test_is_a_repair_that_could_not_take_no_repair_on_the_card():
    steps = [step for step in order_of("swap_plug").steps if step != "plug_out"]
    bench = Bench("plug_fouled_trimmer", "Dora")
    bench.do("swap_plug", prepare=True, confirm="all", order=steps)
    bench.hand_back("plug_fouled", 0.8)
    card = job_card(bench)
    assert card.repairs == []
    assert card.state == "found, not repaired"
    assert card.minutes.repair > 0
    assert not any("What was done" in line for line in card.owner)


@pytest.mark.parametrize(
    ("named", "said"),
    [
        ({"shop": "Mill Lane Demo", "day": "2026-11-02"}, "own table of Mill Lane Demo, 2026-11-02"),
        ({"shop": "Mill Lane Demo"}, "own table of Mill Lane Demo, no date given"),
        ({"title": "ours, edited by hand"}, "Fault table: ours, edited by hand, no date given"),
        ({}, "The fault table is a teaching estimate"),
    ],
)
def test_does_the_card_say_whose_table_was_used_and_of_what_date(named, said):
    table = load_table()
    own = table.replaced(meta=table.meta.model_copy(update=named))
    note = job_card(OwnMachine("no_start", "Ben", table=own)).note
    assert said in note
    assert ("teaching estimate" in note) == (not named)


def test_is_a_hot_complaint_proven_cold_only_not_called_fixed():
    cold = ("verify", {"reading": "runs", "condition": "cold"})
    card = job_card(own("dies_hot", [*HEAT[:-1], cold], "module_heat"))
    assert card.state == "repaired, not proven"
    assert "not proven" in card.owner[-1]


def test_does_proving_cold_and_hot_make_it_fixed():
    runs = [("verify", {"reading": "runs", "condition": condition}) for condition in ("cold", "hot")]
    steps = [*HEAT[:-1], *runs]
    card = check(job_card(own("dies_hot", steps, "module_heat")))
    assert card.state == "fixed"


# consistency ------------------------------------------------------------------------------------

GOOD = job_card(own("no_start", STOP, "stop_switch"), shop=SHOP)


def changed(**changes):
    return GOOD.model_copy(update=changes)


BAD = [
    ("no reading speaks for it", job_card(own("no_start", STOP[3:], "stop_switch")), "without a reading"),
    ("readings of another fault",
     job_card(own("no_start", [("fuel_sample", {"reading": "stale_or_water"}), *STOP[3:]], "stop_switch")),
     "without a reading"),
    ("fixed, never run", changed(verification=GOOD.verification.model_copy(update={"passed": False})),
     '"fixed" without proof'),
    ("fixed, nothing done", changed(repairs=[]), '"fixed" without a repair'),
    ("repair of something else",
     job_card(own("no_start", [*STOP[:3], ("fresh_fuel", {}), *STOP[4:]], "stop_switch")),
     "repair and diagnosis do not fit"),
    ("repair without a diagnosis", job_card(own("no_start", STOP, None)), "repair without a diagnosis"),
    ("still open", changed(state="open"), "still open"),
    ("sums changed by hand", changed(estimate=GOOD.estimate.model_copy(update={"total": 1.0})), "add up"),
    ("module condemned by ohms alone",
     job_card(own("no_start", [("primary_ohm", {"reading": "out_of_range"}), ("replace_module", {}), STOP[4]],
                  "module_dead")), "weak ground"),
    ("unknown fault", changed(diagnosis=GOOD.diagnosis.model_copy(update={"fault": "gremlin"})), "gremlin"),
]  # fmt: skip


@pytest.mark.parametrize(("why", "card", "said"), BAD, ids=[row[0] for row in BAD])
def test_is_a_card_refused_that_says_more_than_its_readings(why, card, said):
    assert any(said in text for text in problems(card)), problems(card)
    with pytest.raises(JobCardError, match="does not hold together"):
        check(card)


def test_is_a_good_card_let_through_and_read_back_the_same():
    assert check(GOOD) is GOOD
    assert read_card(GOOD.to_json()) == GOOD


@pytest.mark.parametrize("text", ["", "no json", "[]", "3", "{}", '{"form": 9}'])
def test_is_what_is_no_card_refused_in_plain_words(text):
    with pytest.raises(TwoStrokeError):
        read_card(text)


def test_does_a_part_on_trial_that_cured_count_as_a_reading():
    card = job_card(own("no_start", [("swap_plug", {}), ("verify", {"reading": "runs"})], "plug_internal"))
    assert problems(card) == []


# sums -------------------------------------------------------------------------------------------


@settings(max_examples=40, deadline=None)
@given(
    minutes=st.floats(0, 400), prices=st.lists(st.floats(0, 200), max_size=4), tax=st.floats(0, 30),
    supplies=st.floats(0, 20), hour=st.floats(0, 150),
)  # fmt: skip
def test_do_lines_add_up_and_never_fall_with_more_work(minutes, prices, tax, supplies, hour):
    shop = Shop(name="any", labour_per_hour=hour, tax_percent=tax, supplies_percent=supplies)
    work = [Work(action="x", what="x", part="x", price=price) for price in prices]
    bill = estimate(minutes, work, shop)
    assert bill.total == pytest.approx(sum(line.amount for line in bill.lines), abs=0.005)
    assert estimate(minutes + 10, work, shop).total >= bill.total
    back = [w.model_copy(update={"returned": True}) for w in work]
    assert estimate(minutes, back, shop).total <= bill.total


ADVICE = [
    (50.0, 200.0, "repair"), (100.0, 200.0, "repair"), (101.0, 200.0, "the owner decides"),
    (160.0, 200.0, "replace"), (500.0, 200.0, "replace"), (50.0, None, "not decided"),
    (50.0, 0.0, "not decided"),
]  # fmt: skip


@pytest.mark.parametrize(("total", "value", "verdict"), ADVICE)
def test_does_the_advice_follow_its_rule(total, value, verdict):
    said = advise(total, value, SHOP)
    assert said.verdict == verdict
    assert "50 %" in said.rule
    assert "80 %" in said.rule


BAD_SHOPS = [
    ("name = 3\nlabour_per_hour = 60", "name"),
    ('name = "x y"\nlabour_per_hour = -1', "labour_per_hour"),
    ('name = "x y"\nlabour_per_hour = 60\nrepair_up_to = 0.9\nreplace_from = 0.5', "repair_up_to"),
    ('name = "x y"\nlabour_per_hour = 60\ntax = 20', "tax"),
    ("name =", "TOML"),
]


@pytest.mark.parametrize(("text", "said"), BAD_SHOPS, ids=[row[1] for row in BAD_SHOPS])
def test_are_wrong_figures_of_a_shop_named(text, said, tmp_path):
    path = tmp_path / "shop.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(TwoStrokeError, match=said):
        load_shop(path)


def test_may_a_shop_write_whole_numbers(tmp_path):
    path = tmp_path / "shop.toml"
    path.write_text(
        'name = "Ours"\nlabour_per_hour = 55\ntax_percent = 7\n[value]\n"water pump" = 200\n', "utf-8"
    )
    shop = load_shop(path)
    assert shop.labour_per_hour == 55.0
    assert shop.value["water pump"] == 200.0


# print ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize("name", ["rain_pump", "nine_summers_pump"])
def test_is_the_card_of_a_bench_job_one_page(name, paper, tmp_path):
    card = job_card(best_route(name, "Berit").bench)
    path = sheet(card, paper=paper).pdf(tmp_path / "card.pdf")
    pages = PdfReader(path).pages
    assert len(pages) == 1
    text = pages[0].extract_text()
    for words in ("What to tell the owner", "Rule", "total", "Caution", "invented"):
        assert words in text


def test_is_the_longest_job_still_one_page():
    steps = [(name, {"reading": test.results[-1]}) for name, test in TABLE.tests.items()]
    steps += [(name, {}) for name in list(TABLE.repairs)[:9]]
    job = own("no_start", [*steps, ("verify", {"reading": "runs"})], "module_dead")
    card = job_card(job, machine="x" * 200).model_copy(update={"complaint": "word " * 400})
    assert sheet(card).pages() == 1


def test_do_the_readings_that_speak_stay_when_room_is_short():
    kept = chosen(GOOD.readings, 2)
    assert len(kept) == 2
    assert all(reading.supports for reading in kept)


def test_is_nothing_typed_read_as_markup():
    card = GOOD.model_copy(update={"complaint": "<script>alert(1)</script> **loud** #x $y"})
    page = sheet(card).to_html()
    assert "<script>alert" not in page
    assert "**loud**" in page


# the command ------------------------------------------------------------------------------------


def test_does_the_command_write_card_and_json(tmp_path):
    job = tmp_path / "job.json"
    job.write_text(to_json(best_route("rain_pump", "Berit").bench), encoding="utf-8")
    pdf = tmp_path / "card.pdf"
    done = CliRunner().invoke(command, [str(job), "--json", "--pdf", str(pdf)])
    assert done.exit_code == 0, done.output
    assert json.loads(done.output)["state"] == "fixed"
    assert pdf.read_bytes().startswith(b"%PDF")
    kept = tmp_path / "card.json"
    kept.write_text(done.output, encoding="utf-8")
    again = CliRunner().invoke(command, [str(kept)])
    assert again.exit_code == 0, again.output
    lost = CliRunner().invoke(command, [str(tmp_path / "lost.json")])
    assert "there is no such file" in str(lost.exception)
    assert "Errno" not in str(lost.exception)


def test_does_the_card_tell_nothing_that_the_bench_hides():
    bench = Bench("moody_auger", "Berit")
    bench.do("ask_fuel_age")
    text = job_card(bench).to_json()
    assert "module" not in text


def test_is_a_card_held_against_the_table_that_the_job_was_done_with(tmp_path):
    """A fault that only the shop's own table has is no slip of the pen on the card of its machine."""
    row = TABLE.faults["stop_switch"].model_copy(update={"name": "wedge on the switch (ours)"})
    repair = TABLE.repairs["replace_switch"].model_copy(update={"fixes": {"switch_wedged": 0.9}})
    sees = TABLE.tests["stop_ohm"]
    sees = sees.model_copy(update={"hits": {**sees.hits, "switch_wedged": [0.05, 0.95]}})
    ours = TABLE.replaced(
        faults={**TABLE.faults, "switch_wedged": row},
        repairs={**TABLE.repairs, "take_wedge_out": repair},
        tests={**TABLE.tests, "stop_ohm": sees},
    )
    job = OwnJob("saw", "no_start", "Ben", folder=tmp_path, table=ours)
    for action, seen in (
        ("stop_ohm", {"reading": "0.4 ohm"}), ("take_wedge_out", {}), ("verify", {"reading": "runs"}),
    ):  # fmt: skip
        job.do(action, confirm="all", **seen)
    job.hand_back("switch_wedged", 0.9)
    assert cards.make(job).state == "fixed"
    with pytest.raises(JobCardError, match="no fault of this table"):
        check(job_card(job.session))
