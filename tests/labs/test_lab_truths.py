"""Are the values that labs take for right what an independent calculation gives?"""

from __future__ import annotations

import itertools
import math
import re

import numpy as np
import pytest
from twostroke import lab
from twostroke.lab.task import Values

LEARNERS = [f"truth {number}" for number in range(12)]


def _right(lab_id: str, learner: str):
    found = lab.load(lab_id)
    given = lab.variant(lab_id, learner)
    return given, Values(found, given)


@pytest.mark.parametrize("learner", LEARNERS)
def test_does_the_cycle_follow_from_the_pin_of_a_crank_drawn_in_the_plane(learner):
    """Crank pin and piston pin as points in the plane; angles by search, not by the closed form."""
    v, right = _right("02", learner)
    bore, stroke, rod = v["bore_tenths_mm"] / 10, v["stroke_tenths_mm"] / 10, v["rod_tenths_mm"] / 10
    angle = np.linspace(0, np.pi, 400_001)
    pin = stroke / 2 * np.array([np.sin(angle), np.cos(angle)])
    depth = stroke / 2 + rod - (pin[1] + np.sqrt(rod**2 - pin[0] ** 2))

    def degrees_at(millimetres):
        return math.degrees(float(np.interp(millimetres, depth, angle)))

    swept = math.pi * (bore / 20) ** 2 * stroke / 10
    clearance = v["clearance_tenths_mL"] / 10
    assert right["displacement.swept"] == pytest.approx(swept, rel=1e-9)
    assert right["ratios.geometric"] == pytest.approx((swept + clearance) / clearance, rel=1e-9)
    closing = float(np.interp(math.radians(v["exhaust_deg"]), angle, depth))
    trapped = math.pi * (bore / 20) ** 2 * closing / 10
    assert right["ratios.trapped"] == pytest.approx(trapped, abs=0.06 * swept / stroke)
    assert right["ratios.trapped_ratio"] == pytest.approx(1 + trapped / clearance, abs=0.03)
    assert right["piston.depth"] == pytest.approx(
        float(np.interp(math.radians(v["angle_deg"]), angle, depth)), abs=1e-6
    )
    assert right["ports.exhaust"] == pytest.approx(v["exhaust_deg"], abs=0.25)
    assert right["ports.transfer"] == pytest.approx(v["transfer_deg"], abs=0.25)
    assert right["ports.duration"] == pytest.approx(360 - 2 * right["ports.exhaust"])
    assert right["advance.angle"] == pytest.approx(degrees_at(v["advance_hundredths_mm"] / 100), abs=1e-3)
    assert 6.5 < right["ratios.geometric"] < 9.6


def test_is_the_advance_that_of_the_worked_case_of_the_law_of_cosines():
    # stroke 30 mm, rod 55 mm, 2.00 mm before top: throw 15, s = 68, cos = (225 + 4624 - 3025)/2040 = 0.89412
    from twostroke.lab.draw import Variant
    from twostroke.lab.lab02_ports import ADVANCE

    given = Variant(
        "02", "x", 1, {"stroke_tenths_mm": 300, "rod_tenths_mm": 550, "advance_hundredths_mm": 200}
    )
    pin, angle = ADVANCE.items
    assert pin.truth(given, {}) == pytest.approx(68.0)
    assert angle.truth(given, {"advance.pin": 68.0}) == pytest.approx(math.degrees(math.acos(1824 / 2040)))


def _columns(page, place: int = 0):
    """Numbers of the first two columns of a printed table."""
    table = [block for block in page.blocks if type(block).__name__ == "Table"][place]
    numbers = [[float(re.match(r"-?[0-9.]+", cell).group()) for cell in row[:2]] for row in table.rows]
    return list(zip(*numbers, strict=True))


@pytest.mark.parametrize("learner", [f"reader {number}" for number in range(60)])
def test_does_a_learner_who_reads_the_printed_tables_of_lab_02_get_the_points(learner):
    given = lab.variant("02", learner)
    angles, depths = _columns(lab.load("02").task("piston").show(given))
    answers = {"piston": {"depth": f"{np.interp(given['angle_deg'], angles, depths):.1f} mm"}}
    page = lab.load("02").task("ports").show(given)
    opens = [float(row[1].split()[0]) for row in page.blocks[0].rows]
    angles, depths = _columns(page, 1)
    exhaust, transfer = (round(float(np.interp(each, depths, angles))) for each in opens)
    answers["ports"] = {
        "exhaust": f"{exhaust} deg",
        "duration": f"{360 - 2 * exhaust} deg",
        "transfer": f"{transfer} deg",
        "blowdown": f"{transfer - exhaust} deg",
    }
    marks = {mark.task: mark for mark in lab.mark_answers("02", learner, answers)}
    assert marks["piston"].state == "right", marks["piston"].message
    assert marks["ports"].state == "right", (marks["ports"].message, answers)


@pytest.mark.parametrize("learner", LEARNERS)
def test_is_the_key_angle_the_part_of_the_circumference(learner):
    v, right = _right("05", learner)
    turn = v["offset_hundredths_mm"] / 100 / (math.pi * v["shaft_tenths_mm"] / 10)
    assert right["key.angle"] == pytest.approx(360 * turn, rel=1e-9)
    moved = right["key.timing"] - v["maker_deg"]
    assert moved == pytest.approx(-360 * turn if v["late"] else 360 * turn)


@pytest.mark.parametrize("learner", LEARNERS)
def test_is_no_stack_of_the_set_better_than_the_one_called_best(learner):
    v, right = _right("05", learner)
    low, high = v["low_hundredths_mm"], v["high_hundredths_mm"]
    every = [
        stack
        for count in range(1, 8)
        for stack in itertools.combinations(v["leaves_hundredths_mm"], count)
        if low <= sum(stack) <= high
    ]
    best = min((abs(2 * sum(stack) - low - high), len(stack)) for stack in every)
    found = right["shims.leaves"]
    assert (abs(2 * sum(found) - low - high), len(found)) == best
    assert best[1] > 1, "a stack is asked, so no leaf may do alone"


@pytest.mark.parametrize("learner", LEARNERS[:4])
def test_does_the_table_of_starting_speeds_hold_between_its_rows(learner):
    """The straight line between rows against the model itself at that gap, and a plain search."""
    from twostroke.ignition import Ignition, available, minimum_speed

    v, right = _right("05", learner)
    metres = v["wide_hundredths_mm"] * 1e-5
    module = Ignition(magnet_factor=v["magnet_percent"] / 100, gap_1=metres, gap_2=metres)
    exact = float(minimum_speed(module, v["demand_kV"] * 1e3)[0])
    close = lab.load("05").task("speed").items[0].tolerance_for(v).value
    assert abs(right["speed.wide"] - exact) < close
    speeds = np.arange(300.0, 1100.0, 4.0)
    reached = speeds[available(module, speeds).voltage[0] >= v["demand_kV"] * 1e3]
    assert exact == pytest.approx(reached[0], abs=5)


@pytest.mark.parametrize("learner", [f"reader {number}" for number in range(16)])
def test_does_a_learner_who_reads_trace_and_tables_of_lab_04_get_the_points(learner):
    """Everything from what is printed, by rules of thumb, ruler and calculator."""
    tasks = {task.id: task for task in lab.load("04").tasks}
    given = lab.variant("04", learner)
    page = tasks["trace"].show(given)
    sparks, rows = (block for block in page.blocks if type(block).__name__ == "Table")
    times = [float(row[1].split()[0]) for row in sparks.rows]
    speed = round(60_000 / min(b - a for a, b in itertools.pairwise(times)))
    points = [tuple(float(cell.split()[0]) for cell in row) for row in rows.rows]
    peak_time, peak = max(points, key=lambda point: point[1])
    later = [point for point in points if point[0] > peak_time]
    flat = [point[0] for point in itertools.takewhile(lambda point: abs(point[1] - 0.4) < 0.006, later)]
    answers = {
        "trace": {
            "speed": f"{speed} rpm",
            "peak": f"{peak} kV",
            "burn": f"{flat[-1] - peak_time:.2f} ms",
        }
    }
    read = {row[0]: float(row[1].split()[0]) for row in tasks["demand"].show(given).blocks[0].rows}
    gap, air, gauge, heat = read.values()

    def kilovolts(bar):
        return 6.72 * math.sqrt(bar * gap / 10) + 24.36 * bar * gap / 10

    dense = round((gauge + air) * 293 / (273 + heat), 2)
    demand = round(kilovolts(dense), 1)
    answers["demand"] = {
        "open": f"{kilovolts(air):.1f} kV",
        "dense": f"{dense} bar",
        "kilovolts": f"{demand} kV",
    }
    speeds, gives = _columns(tasks["margin"].show(given))
    available = round(float(np.interp(speed, speeds, gives)), 1)
    margin = round(available - demand, 1)
    verdict = "cannot_say" if abs(margin) <= 0.3 * demand else "fires" if margin > 0 else "fails"
    letters = {option.id: key for key, option in tasks["margin"].items[2].lettered(given).items()}
    answers["margin"] = {
        "available": f"{available} kV",
        "kilovolts": f"{margin} kV",
        "verdict": letters[verdict],
    }
    gaps, needs = _columns(tasks["tester"].show(given))
    spacing = round(2 * float(np.interp(demand, needs, gaps))) / 2
    answers["tester"] = {
        "gap": f"{spacing} mm",
        "proof": "a" if given["jumps_tenths_mm"] / 10 >= spacing else "b",
    }
    for mark in lab.mark_answers("04", learner, answers):
        if mark.task in answers:
            assert mark.state == "right", (mark.message, answers[mark.task])


@pytest.mark.parametrize("learner", LEARNERS[:4])
def test_does_the_trace_of_lab_04_agree_with_the_spark_computed_without_a_picture(learner):
    from twostroke.burn import spark
    from twostroke.ignition import Ignition

    v, right = _right("04", learner)
    seen = spark(Ignition(), float(v["trace_rpm"]), v["trace_hundredths_kV"] * 10.0, 400.0)
    assert right["trace.peak"] == pytest.approx(float(seen.peak[0, 0]) / 1e3, abs=0.11)
    assert right["trace.burn"] == pytest.approx(float(seen.duration[0, 0]) * 1e3, abs=0.03)


def test_does_the_trace_end_in_ringing_and_its_drawing_hold_no_reading():
    for learner in LEARNERS[:4]:
        figure = next(
            block
            for block in lab.load("04").task("trace").show(lab.variant("04", learner)).blocks
            if type(block).__name__ == "Figure"
        )
        model = lab.model_answers("04", learner)["trace"]
        assert "voltage (kV)" in figure.svg
        assert "time after the module opened (ms)" in figure.svg
        words = re.sub(r"[\d.,]+[ ,][\d.,]+", "", figure.svg)
        assert f">{model['peak'].split()[0]}<" not in words
        assert not re.search(r"[0-9]", figure.description)


@pytest.mark.parametrize("lab_id", [each for each in lab.lab_ids() if each in ("04", "10", "12", "14")])
def test_does_the_marking_guide_hold_the_rubric_of_each_written_answer(lab_id):
    from twostroke import resources
    from twostroke.lab.written import Written

    found = lab.load(lab_id)
    for task, item in found.items():
        if isinstance(item, Written):
            path = resources.clone() / "autograde" / "rubrics" / f"lab{lab_id}_{task.id}.md"
            text = path.read_text(encoding="utf-8")
            whole = sum(share for _, share in item.rubric)
            for looked_for, share in item.rubric:
                assert f"| {looked_for} | {share / whole * task.points:g} |" in text


@pytest.mark.parametrize("learner", LEARNERS)
def test_do_readings_of_lab_07_follow_from_copper_meter_and_two_paths_by_hand(learner):
    """IEC 60028 (0.00393 for a degree, at 20 °C), JCGM 100 (half-width over root three), JCGM 106 (1.645)."""
    v, right = _right("07", learner)
    winding = v["primary_hundredths_ohm"] / 100
    assert right["correct.winding"] == pytest.approx(winding)
    at_20 = winding / (1 + 0.00393 * (v["winding_degC"] - 20))
    assert right["correct.at_20"] == pytest.approx(at_20, rel=1e-6)
    verdicts = []
    for name, reading in zip("abc", v["readings_ohm"], strict=True):
        u = (v["percent_tenths"] / 1000 * reading + v["digits"] * 10) / math.sqrt(3)
        low, high = v["low_ohm"], v["high_ohm"]
        inside = low + 1.645 * u <= reading <= high - 1.645 * u
        outside = reading <= low - 1.645 * u or reading >= high + 1.645 * u
        verdicts.append("in" if inside else "out" if outside else "undecided")
        assert right[f"judge.module_{name}"] == (verdicts[-1],)
        if name == "a":
            assert right["judge.uncertainty"] == pytest.approx(u)
            assert right["judge.guard"] == pytest.approx(1.645 * u)
    assert sorted(verdicts) == ["in", "out", "undecided"]
    one, other = v["path_winding_tenths_ohm"] / 10, v["path_leak_tenths_ohm"] / 10
    assert right["paths.both"] == pytest.approx(1 / (1 / one + 1 / other))


@pytest.mark.parametrize("learner", LEARNERS)
def test_does_the_partly_shorted_module_of_lab_07_lack_its_share_of_wire(learner):
    """Length over conductivity and area, as if wound from the spool; the shorted part is left out."""
    v, right = _right("07", learner)
    length = v["secondary_turns"] * 46.5e-3
    whole = length / (58e6 * math.pi / 4 * 0.071e-3**2)
    assert right["find.missing"] == pytest.approx(whole * v["shorted_percent"] / 100, abs=10.1)
    page = lab.load("07").task("find").show(v)
    rows = {row[0]: row for row in page.blocks[1].rows}
    for place, fault in enumerate(v["faults"]):
        _, primary, secondary, core = rows[f"module {place + 1}"]
        assert ("no reading" in secondary) == (fault == "open")
        assert ("no reading" in core) == (fault != "ground")
        assert primary.endswith("Ω")
        assert right[f"find.module_{place + 1}"] == (fault,)


def test_are_all_places_of_a_stop_circuit_fault_and_several_rows_drawn():
    drawn = [_right("07", f"place {number}") for number in range(80)]
    assert {v["case"] for v, _ in drawn} == {"lead", "switch", "ground", "module"}
    assert len({right["paths.row"] for _, right in drawn}) >= 3
    for v, right in drawn:
        assert right["stop.where"] == right["stop.next"] == (v["case"],)
