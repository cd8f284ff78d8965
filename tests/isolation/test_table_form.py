"""Reading a table: what is accepted, and that every error names file, row, line and cure."""

from __future__ import annotations

import pytest
from twostroke import TwoStrokeError
from twostroke.table import TableError, for_machine, load_table, result_for


@pytest.fixture
def spoil(form_path, tmp_path):
    """The form 0.1 table with one text replaced, read again."""

    def read(old, new):
        text = form_path.read_text(encoding="utf-8")
        assert old in text
        path = tmp_path / "shop.yaml"
        path.write_text(text.replace(old, new, 1), encoding="utf-8")
        return load_table(path)

    return read


def test_is_the_form_0_1_read_whole(form):
    assert (len(form.faults), len(form.tests), len(form.repairs)) == (36, 39, 27)
    assert (len(form.complaints), len(form.access), len(form.hazards)) == (7, 6, 5)
    assert form.tests["spark_cold"].hazards == ["spark_near_fuel"]
    assert form.hazards["high_voltage"].caution


SPOILT = [
    ("row that does not add up", "[0.93, 0.06, 0.01]", "[0.93, 0.06, 0.02]", ["lead_ohm", "adds up to 1.01"]),
    ("row too short", "base: [0.97, 0.03]", "base: [1.0]", ["too_short|at least 2|least", "lead_mist"]),
    ("text for a number", "rate: 120", 'rate: "120"', ["plug_fouled", "rate", "without quotes"]),
    ("rate below nothing", "rate: 120", "rate: -3", ["plug_fouled", "-3", "correct the number"]),
    ("rate of a thousand", "rate: 120", "rate: 1000", ["plug_fouled", "not below 1000"]),
    ("unknown key", "minutes: 3, temp: cold", "minuts: 3, temp: cold", ["did you mean 'minutes'"]),
    ("unknown fault in a row", "rings: [0.3, 0.68, 0.02]", "ring: [0.3, 0.68, 0.02]", ["'ring' is no fault"]),
    ("fault without repair", "fixes: {primer: 0.97}", "fixes: {choke: 0.97}", ["no repair cures it"]),
    ("unknown cover", "access: [muffler], results", "access: [mufler], results", ["'mufler' is no cover"]),
    ("cover that needs itself", "air_cover: {minutes: 1, needs: []}",
     "air_cover: {minutes: 1, needs: [carb_off]}", ["can never be reached", "carb_off"]),
    ("unknown hazard", "hazard: high_voltage", "hazard: high_volts", ["'high_volts' is no hazard"]),
    ("pair with itself", "pair: [flooded, plug_fouled]", "pair: [flooded, flooded]", ["two different"]),
    ("temperature of another kind", "temp: hot, hazard", "temp: tepid, hazard", ["tepid", "spark_hot"]),
    ("cure of the unlisted", "fixes: {choke: 0.95}", "fixes: {choke: 0.95, other: 0.5}", ["'other'"]),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "words"), [row[1:] for row in SPOILT], ids=[row[0] for row in SPOILT])
def test_does_an_error_name_file_row_and_cure(spoil, old, new, words):
    with pytest.raises(TableError) as caught:
        spoil(old, new)
    text = str(caught.value)
    assert "shop.yaml" in text
    for word in words:
        assert any(option in text for option in word.split("|")), text


def test_is_a_key_given_twice_refused(spoil):
    with pytest.raises(TableError, match="given twice"):
        spoil("  choke_look:", "  reed_look:")


def test_are_all_rows_named_at_once(form_path, tmp_path):
    text = (
        form_path.read_text(encoding="utf-8")
        .replace("rate: 120", "rate: -1")
        .replace("rate: 18,", "rate: x,")
    )
    path = tmp_path / "two.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(TableError) as caught:
        load_table(path)
    assert "plug_fouled" in str(caught.value)
    assert "plug_cracked" in str(caught.value)


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (None, "no such file"),
        ("", "empty"),
        ("- a\n- b\n", "key: value"),
        ("meta: {version: 1", "not readable YAML"),
        ("faults: &a [*a]\n", "refers to the row|should|missing|list"),
        ("\x00", "not readable YAML"),
    ],
    ids=["missing", "empty", "a list", "open bracket", "alias to itself", "not text"],
)
def test_does_a_file_that_is_no_table_get_a_plain_word(tmp_path, content, words):
    path = tmp_path / "odd.yaml"
    if content is not None:
        path.write_text(content, encoding="utf-8")
    with pytest.raises(TwoStrokeError) as caught:
        load_table(path)
    assert "odd.yaml" in str(caught.value)
    assert any(word in str(caught.value) for word in words.split("|"))


def test_is_every_fault_of_the_course_told_whole(own):
    for name, fault in own.faults.items():
        for part in ("owner", "why", "proof", "repair", "caution"):
            assert len(getattr(fault, part)) > 10, f"{name} lacks {part}"


def test_has_the_course_table_what_a_technician_asked_for(own):
    """Corrections to the first table, read on as a technician; common practice, no source."""
    typed = load_table(counted=False)
    assert typed.faults["module_intermittent"].rate == 30
    assert typed.tests["compression"].hits["flooded"] == [0.70, 0.27, 0.03]
    assert typed.tests["dose_start"].base == [0.55, 0.35, 0.10]
    assert typed.tests["dose_start"].hits["needle_leak"] == [0.05, 0.15, 0.80]
    for fault in (
        "module_dead",
        "stop_lead",
        "ground_missing",
        "lead_open",
        "module_reversed",
        "plug_internal",
    ):
        assert typed.tests["plug_look"].hits[fault] == [0.15, 0.05, 0.70, 0.09, 0.01]
    assert typed.tests["primary_ohm"].hits["module_dead"] == [0.80, 0.20]
    assert typed.tests["secondary_ohm"].hits["module_dead"] == [0.70, 0.30]
    assert {typed.tests[name].not_alone for name in ("primary_ohm", "secondary_ohm")} == {True}
    assert set(own.tests["pressure_hold"].access) == {"muffler", "carb_off"}
    assert own.tests["vent_listen"].minutes >= 20
    assert own.access["tank_off"].minutes == 5
    assert own.repairs["replace_lead"].only_with == "lead_separate"
    assert any(set(row.pair) == {"oil_wrong", "scored"} for row in own.common_cause_pairs)


def test_has_every_row_its_caution(own):
    """Spark tests, fuel work, pressure, starts: the precaution stands at the row (common practice)."""
    for name, test in own.tests.items():
        if test.instrument in ("gap_tester", "spare_plug") or name.startswith("spark_plug"):
            assert {"high_voltage"} <= set(test.hazards), name
        if test.instrument == "hand_pump":
            assert "pressure" in test.hazards, name
    for name in ("pop_off", "line_pressure", "fuel_sample", "dose_start", "carb_look"):
        assert "fuel_vapour" in own.tests[name].hazards
    for name in ("clear_flood", "fresh_fuel", "carb_kit", "new_fuel_line"):
        assert "fuel_vapour" in own.repairs[name].hazards
    assert "hot_surface" in own.tests["port_look"].hazards
    assert "spark_near_fuel" in own.tests["lead_mist"].hazards
    assert "no_stop" in own.tests["stop_lead_off"].hazards
    assert {"moving_parts", "exhaust_gas", "start_away"} <= set(own.meta.verify_hazards)
    assert "pacemaker" in own.hazards["high_voltage"].caution
    for name, row in {**own.tests, **own.repairs}.items():
        if "exhaust_gas" in row.hazards:  # the engine runs, or can start
            assert {"moving_parts", "no_stop", "start_away"} <= set(row.hazards), name
    for name in ("vent_listen", "dose_start", "reset_mixture", "spark_inline_cold", "spark_inline_hot"):
        assert "exhaust_gas" in own.action(name).hazards, name


def test_is_a_machine_spared_what_it_has_not_got(own):
    bare = for_machine(own, features=[])
    assert "reed" not in bare.faults
    assert "reed_look" not in bare.tests
    assert "replace_lead" not in bare.repairs
    assert "tank_off" not in bare.access
    tank = for_machine(own, features=["tank_over_module"])
    assert tank.opening(["top_cover"]) == ["tank_off", "top_cover"]
    assert "primary_ohm" not in for_machine(own, bands=["air_gap"]).tests
    with pytest.raises(TableError, match="reed_valve"):
        for_machine(own, features=["red_valve"])


@pytest.mark.parametrize(
    ("test", "value", "band", "result"),
    [
        ("air_gap", 0.62, (0.2, 0.4), "wide"),
        ("air_gap", 0.30, (0.2, 0.4), "in_range"),
        ("air_gap", 0.05, (0.2, 0.4), "touching"),
        ("compression", 3.0, (6.0, 9.0), "very_low"),
        ("compression", 5.0, (6.0, 9.0), "low"),
        ("compression", 7.0, (6.0, 9.0), "good"),
        ("primary_ohm", 0.5, (0.7, 1.1), "out_of_range"),
        ("primary_ohm", 0.9, (0.7, 1.1), "in_range"),
        ("primary_ohm", 1.3, (0.7, 1.1), "out_of_range"),
        ("ground_ohm", 0.2, None, "low"),
        ("stop_ohm", 500.0, None, "open_in_run"),
    ],
)
def test_which_word_has_the_table_for_a_reading(own, test, value, band, result):
    assert result_for(own.tests[test], value, band) == result


def test_are_readings_refused_that_cannot_be_judged(own):
    with pytest.raises(TableError, match="give the band"):
        result_for(own.tests["air_gap"], 0.3)
    with pytest.raises(TableError, match="no instrument reading"):
        result_for(own.tests["plug_look"], 1.0)
