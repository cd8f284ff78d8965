"""Lab 10: a whole job on the virtual bench, from complaint to hand-back."""

from __future__ import annotations

from typing import Any

from twostroke.lab.bench_job import Scenario, bench_route
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.page import Caution, Lines, Page, Text
from twostroke.lab.task import Task

_NUMBERS = {
    "plug_fouled": (1, 2, 3, 4, 5),
    "stop_switch": (1, 2, 3, 4, 5),
    "module_dead": (1, 3, 4, 5),
    "boot_loose": (1,),
    "fuel_filter": (1, 2, 3, 4, 5),
    "fuel_line": (1, 3, 4, 5),
    "fuel_off": (1, 2, 3, 4, 5),
    "flooded": (1, 2, 3, 4, 5),
    "stale_fuel": (1, 2, 3, 4, 5),
    "choke": (1, 2),
    "screen": (1, 2),
    "air_filter": (1, 2),
}
MACHINES = tuple((fault, number) for fault, numbers in _NUMBERS.items() for number in numbers)
"""Fault and number of the machine. On each of them the adviser's own route earns full points."""

TESTS = (
    "ask_fuel_age", "ask_last_work", "look_over", "switch_check", "tank_look", "fuel_sample", "prime_look",
    "spark_gap_cold", "known_good_plug", "plug_look", "plug_gap", "boot_check", "stop_lead_off", "stop_ohm",
    "air_gap", "key_look", "compression", "screen_look", "air_filter_look", "choke_look", "fuel_filter_flow",
    "dose_start",
)  # fmt: skip
WORDS = (
    "It went well last time. Since then it has stood, and now it will not start, whatever I do.",
    "I pulled until my arm was tired. Nothing. It was all right when I put it away.",
    "It stopped while I was working and it has not started again, cold or otherwise.",
)


def scenario(fault: str, number: int, words: str = WORDS[0]) -> Scenario:
    """Return the content of the scenario of one machine."""
    return {
        "id": "lab10",
        "title": "The brush cutter that will not start",
        "machine": {
            "kind": "brush cutter",
            "engine": "demo engine B",
            "displacement": "30 cc",
            "features": ["primer_bulb", "mixture_screws"],
        },
        "complaint": {"kind": "no_start", "words": words},
        "history": ["three seasons old, used at weekends"],
        "truth": [{"fault": fault, "severity": 0.9}],
        "aim": "Find one fault with few minutes, prove it, repair it, prove the repair.",
        "competencies": ["isolation logic", "repair and verify"],
        "tests": list(TESTS),
        "bands": {
            "plug_gap": "0.60-0.70 mm",
            "air_gap": "0.25-0.35 mm",
            "lead_resistance": "3-7 kohm",
            "compression": "6.5-9.5 bar",
            "mixture_turns": "0.75-1.25 turns",
        },
        "seed": {"policy": "fixed", "number": number},
    }


def draw(d: Draw) -> dict[str, Any]:
    """Draw a machine and the owner's words."""
    return {
        "bench_machine": d.integer("machine", 0, len(MACHINES) - 1),
        "bench_words": d.pick("words", WORDS),
    }


def _scenario(v: Variant) -> Scenario:
    fault, number = MACHINES[v["bench_machine"]]
    return scenario(fault, number, v["bench_words"])


def _show(v: Variant) -> Page:
    calls = (
        ("machine", "what the owner says"),
        ("machine.actions()", "all tests, repairs and covers, by name"),
        ('machine.do("look_over")', "one step; the bench says what stands in the way"),
        ('machine.do("plug_look", prepare=True, confirm="all")', "covers opened with it, cautions kept"),
        ('machine.do("verify", confirm="all")', "start, run, stop, restart"),
        ("machine.faults()", "the faults that can be named"),
        ('machine.hand_back("fault", "80 %")', "give it back: the fault, and how sure you are"),
    )
    return Page(
        "",
        (
            Caution("Read what the bench asks before a step and confirm only what you would do. With a "
            "caution missed "
                    "the job counts for nothing."),
            Text("One machine, one fault. Find it with few minutes and no guess, repair it, prove it in "
            "the condition "
                 "of the complaint, hand it back."),
            Lines(calls),
        ),
    )  # fmt: skip


TASK = Task(
    id="bench",
    title="A job on the bench",
    outcome="isolate, repair and prove one fault on the virtual bench",
    kind="route",
    points=6,
    competency="isolation logic",
    show=_show,
    items=(bench_route("route", "record of the job", _scenario),),
)
