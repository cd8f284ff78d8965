"""Lab 13: five machines on the virtual bench, each with its own kind of complaint.

The machines are invented. On each of them, with each fault and number listed, the adviser's own route
earns full points; a test holds that.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from twostroke.lab.bench_job import HINT_COST, HINTS_AT_MOST, Scenario, Terms, bench_route
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.page import Caution, Lines, Page, Text
from twostroke.lab.task import Task

TERMS = Terms(full=50.0, pairs=True, hints=True)
_BANDS = {
    "plug_gap": "0.60-0.70 mm",
    "air_gap": "0.25-0.35 mm",
    "lead_resistance": "3-7 kohm",
    "compression": "6.5-10 bar",
}
_TURNS = {"mixture_turns": "0.75-1.25 turns"}


@dataclass(frozen=True)
class Made:
    """A machine with its complaint and what can be wrong with it.

    Parameters
    ----------
    name, title : str
    machine : str
        Kind of machine.
    letter, size : str
        Demo engine; displacement.
    features : tuple of str
    bands : dict
        The maker's bands of this invented machine.
    kind : str
        Kind of complaint.
    words : tuple of str
        What the owner may say.
    history : tuple of str
        What is known of it.
    numbers : dict
        Fault -> numbers of the machines that have it.
    """

    name: str
    title: str
    machine: str
    letter: str
    size: str
    features: tuple[str, ...]
    bands: dict[str, str]
    kind: str
    words: tuple[str, ...]
    history: tuple[str, ...]
    numbers: dict[str, tuple[int, ...]]

    @property
    def machines(self) -> tuple[tuple[str, int], ...]:
        """Fault and number of each machine."""
        return tuple((fault, number) for fault, numbers in self.numbers.items() for number in numbers)

    def scenario(self, fault: str, number: int, words: str = "") -> Scenario:
        """Return the content of the scenario of one machine."""
        return {
            "id": f"lab13_{self.name}",
            "title": self.title,
            "machine": {
                "kind": self.machine,
                "engine": f"demo engine {self.letter}",
                "displacement": self.size,
                "features": list(self.features),
            },
            "complaint": {"kind": self.kind, "words": words or self.words[0]},
            "history": list(self.history),
            "truth": [{"fault": fault, "severity": 0.9}],
            "aim": "Find one fault with few minutes, prove it, repair it, prove the repair.",
            "competencies": ["isolation logic", "repair and verify"],
            "bands": self.bands,
            "seed": {"policy": "fixed", "number": number},
        }


def _numbers(text: str) -> dict[str, tuple[int, ...]]:
    """Read "fault:124 fault:3": a digit for each machine."""
    pairs = (each.split(":") for each in text.split())
    return {fault: tuple(int(digit) for digit in digits) for fault, digits in pairs}


BENCHES: dict[str, Made] = {
    "trimmer": Made(
        "trimmer", "The hedge trimmer that will not start", "hedge trimmer", "A", "25 cc",
        ("primer_bulb", "mixture_screws"), _BANDS | _TURNS, "no_start",
        ("It hung in the shed since the last hedge. Now nothing, hot or cold, however long I pull.",
         "On Saturday it ran, on Sunday it did not start, and it has not started since."),
        ("two summers old", "bought with an empty tank and a can of mixture"),
        _numbers(
            "plug_fouled:1 flooded:3 module_dead:3 needle_shut:4 stop_switch:1 diaphragm:4 "
            "fuel_line:3 key_sheared:3 boot_loose:1 fuel_off:2 primer:3 module_intermittent:4 "
            "fuel_filter:1 plug_gap_wide:3 plug_internal:4 module_shorted:1 screen:2 lead_open:2"
        ),
    ),
    "auger": Made(
        "auger", "The earth auger that starts badly when cold", "earth auger", "C", "52 cc",
        ("primer_bulb", "lead_separate"), _BANDS, "hard_cold",
        ("The first start takes an age. Warm, it starts at the second pull.",
         "Every morning the same: thirty, forty pulls. Later in the day it is a lamb."),
        ("used for fence posts, by two people in turn", "stands in the open under a sheet"),
        _numbers(
            "stale_fuel:1 plug_fouled:2 diaphragm:2 plug_gap_wide:4 primer:1 needle_shut:3 "
            "fuel_line:3 air_filter:3 choke:4 rings:2 fuel_filter:3 screen:4 flooded:4 airgap_wide:2 "
            "boot_loose:4 plug_cracked:4 module_shorted:1"
        ),
    ),
    "cutter": Made(
        "cutter", "The brush cutter that cuts out when its wires move", "brush cutter", "F", "45 cc",
        ("primer_bulb", "mixture_screws", "lead_separate"), _BANDS | _TURNS, "after_lead_moved",
        ("It cuts out when I swing it. When I push the wires about it comes back, or it does not.",
         "Since I moved the lead out of the way of the strap it goes and stops as it likes."),
        ("four seasons old", "carried on the same strap every day"),
        _numbers(
            "boot_loose:12 stop_lead:24 module_intermittent:2 lead_open:23 lead_leak:23 "
            "plug_fouled:23 lead_pinched:12 ground_open:14 plug_cracked:12 stop_switch:23"
        ),
    ),
    "pump": Made(
        "pump", "The water pump that runs and then dies", "water pump", "E", "33 cc",
        ("mixture_screws",), _BANDS | _TURNS, "runs_then_dies",
        ("It starts well, pumps for some minutes, and fades. After a rest it does the same again.",
         "Ten minutes at most, then it dies away as if somebody had shut a tap."),
        ("stands in a cellar", "filled from a can that is older than it should be"),
        _numbers(
            "fuel_filter:24 tank_vent:23 fuel_line:34 diaphragm:14 needle_shut:24 plug_fouled:14 "
            "fuel_off:34 module_intermittent:14 module_heat:23"
        ),
    ),
    "saw": Made(
        "saw", "The cut-off saw that has no strength", "cut-off saw", "D", "71 cc",
        ("decompression_valve", "mixture_screws"), _BANDS | _TURNS, "weak_run",
        ("It starts, but in the cut it falls away. It used to pull through anything.",
         "No strength at full throttle. At half it just about goes."),
        ("used for paving, in dust", "serviced by the owner, by eye"),
        _numbers(
            "air_filter:1 stale_fuel:3 mixture_altered:3 plug_fouled:4 diaphragm:1 fuel_filter:3 "
            "fuel_line:1 rings:4 needle_shut:3 plug_gap_wide:1 boot_loose:2 plug_cracked:4 "
            "plug_loose:3"
        ),
    ),
}  # fmt: skip


def draw(d: Draw) -> dict[str, Any]:
    """Draw a machine and the owner's words for each bench."""
    given: dict[str, Any] = {}
    for name, made in BENCHES.items():
        given[f"{name}_machine"] = d.integer(f"{name} machine", 0, len(made.machines) - 1)
        given[f"{name}_words"] = d.integer(f"{name} words", 0, len(made.words) - 1)
    return given


def scenario_of(name: str, v: Variant) -> Scenario:
    """Return the scenario of one bench in a variant."""
    made = BENCHES[name]
    fault, number = made.machines[v[f"{name}_machine"]]
    return made.scenario(fault, number, made.words[v[f"{name}_words"]])


_FIRST_CALLS = (
    ("machine", "what the owner says"),
    ("machine.actions()", "all tests, repairs and covers, by name"),
    ('machine.do("plug_look", prepare=True, confirm="all")', "covers opened with it, cautions kept"),
    (
        "machine.hint()",
        "one of three hints for the step to come: which system, what kind of step, which step",
    ),
    ('machine.do("verify", confirm="all")', "start, run, stop, restart, in the state of the complaint"),
    ("machine.faults()", "the faults that can be named"),
    ('machine.hand_back("fault", "80 %")', "give it back: the fault, and how sure you are"),
)


def _show(name: str) -> Any:
    def show(v: Variant) -> Page:
        made = BENCHES[name]
        told = Text(f"{made.title}. The owner says: {made.words[v[f'{name}_words']]}")
        known = Text("Known: " + "; ".join(made.history) + ".")
        rule = Text(
            f"Each hint that stands in your lines takes {100 * HINT_COST:.0f} % of the points, "
            f"{100 * HINTS_AT_MOST:.0f} % at most."
        )
        caution = Caution(
            "Read what the bench asks before a step and confirm only what you would do. With a caution "
            "missed the "
            "job counts for nothing."
        )
        calls = (Lines(_FIRST_CALLS),) if name == next(iter(BENCHES)) else ()
        return Page("", (caution, told, known, *calls, rule))

    return show


def _task(name: str) -> Task:
    made = BENCHES[name]
    return Task(
        id=name,
        title=made.title,
        outcome=_OUTCOMES[name],
        kind="route",
        points=6,
        competency=_COMPETENCIES[name],
        show=_show(name),
        items=(bench_route("route", "record of the job", lambda v: scenario_of(name, v), terms=TERMS),),
    )


_OUTCOMES = {
    "trimmer": "isolate, repair and prove one fault of a machine that will not start",
    "auger": "isolate, repair and prove one fault of a machine that starts badly when cold",
    "cutter": "isolate, repair and prove a fault that shows only when wires are moved",
    "pump": "isolate, repair and prove one fault of a machine that runs and then dies",
    "saw": "isolate, repair and prove one fault of a machine without strength",
}
_COMPETENCIES = {
    "trimmer": "isolation logic",
    "auger": "isolation logic",
    "cutter": "intermittent faults",
    "pump": "fuel, air and exhaust",
    "saw": "repair and verify",
}
TASKS = tuple(_task(name) for name in BENCHES)
