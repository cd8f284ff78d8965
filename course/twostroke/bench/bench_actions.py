"""The bench's own actions: warming, waiting, priming, pulling, verifying, measuring."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from twostroke.bench import running, tools
from twostroke.bench.asking import CHOKE
from twostroke.bench.got import Got
from twostroke.bench.mixture import press_primer
from twostroke.bench.settings import number_of

if TYPE_CHECKING:
    from twostroke.bench.doing import Work

_SPOKEN = {"cold": "Cold", "hot": "Hot", "shake": "While lead and wires are moved"}


def warm_up(work: Work, given: dict[str, Any], count: int) -> Got:
    """Run it, or warm it with air, until it is hot."""
    minutes = work.bring_to("hot")
    heat = work.situation.heat
    return Got(minutes, f"Engine {heat.engine:.0f} °C, module {heat.module:.0f} °C.", conditions=work.now())


def cool_down(work: Work, given: dict[str, Any], count: int) -> Got:
    """Let it stand until it is cold."""
    minutes = work.bring_to("cold")
    return Got(minutes, f"Engine {work.situation.heat.engine:.0f} °C.", conditions=work.now())


def wait(work: Work, given: dict[str, Any], count: int) -> Got:
    """Let time pass; fuel in the cylinder dries."""
    minutes = number_of(given.get("minutes", 5), "minutes", 0.1, 600.0)
    work.situation.heat.rest(minutes)
    work.situation.fuel.puddle[:] *= 0.5 ** (minutes / 30.0)
    work.situation.epoch += 1
    return Got(
        minutes,
        f"{minutes:g} min gone. Engine {work.situation.heat.engine:.0f} °C.",
        conditions=work.now(),
    )


def prime(work: Work, given: dict[str, Any], count: int) -> Got:
    """Press the primer bulb and watch the fuel."""
    presses = given.get("presses", 6)
    machine = work.situation.machine(work.table)
    full = float(press_primer(machine, work.situation.fuel, presses)[0])
    work.situation.epoch += 1
    seen = (
        "fuel fills the bulb"
        if full > 0.95
        else "some fuel comes, with air"
        if full > 0.3
        else "next to no fuel comes"
    )
    return Got(0.5, f"{presses} presses: {seen}.", conditions=work.now())


def pull(work: Work, given: dict[str, Any], count: int) -> Got:
    """Pull the rope."""
    pulls = given.get("pulls", 1)
    effort = given.get("pull", "normal")
    choke = CHOKE[given.get("choke", "open")]
    out = given.get("plug", "in") == "out"
    tried = running.pulls(work.situation, work.table, pulls, effort, choke, out, work.draws("pull", count))
    _after(work, tried)
    result = "runs" if tried.runs else "fires" if tried.fired else "nothing"
    return Got(round(0.25 * tried.pulls + 0.25, 2), tried.words, result, conditions=work.now())


def verify(work: Work, given: dict[str, Any], count: int) -> Got:
    """Verify run, in one condition or in all that the complaint asks for."""
    wanted = given.get("condition")
    conditions = conditions_to_verify(work) if wanted is None else [wanted]
    minutes, said, passed = 0.0, [], True
    for number, condition in enumerate(conditions):
        if condition != "shake":
            minutes += work.bring_to(condition)
        minutes += work.table.meta.verify_minutes
        tried = running.verify(
            work.situation, work.table, condition, work.draws("verify", 10 * count + number)
        )
        _after(work, tried)
        if condition == "cold" and tried.runs:
            work.situation.heat.run(running.SHORT_RUN)
        if condition == "shake":
            work.move()
        said.append(f"{_SPOKEN[condition]}: {tried.words}")
        passed = passed and tried.runs
        if not tried.runs:
            break
        work.situation.passed.add(condition)
    if not passed:
        work.situation.passed.clear()
    return Got(minutes, " ".join(said), "runs" if passed else "fails", conditions=tuple(conditions))


def conditions_to_verify(work: Work) -> list[str]:
    """Conditions that the complaint asks for, the present temperature first."""
    asked = work.table.verify_conditions(work.situation.complaint) or [work.situation.heat.condition]
    return sorted(asked, key=lambda c: (c == "shake", c != work.situation.heat.condition))


def _after(work: Work, tried: running.Tried) -> None:
    work.situation.epoch += 1
    work.situation.fired_lately = tried.runs or (work.situation.fired_lately and tried.fired)
    if not tried.runs:
        work.situation.wetness = work.situation.fuel.puddle.copy()


def stop_lead(work: Work, given: dict[str, Any], count: int) -> Got:
    """Stop lead off the module, or back on."""
    off = given.get("state", "off") == "off"
    work.situation.stop_lead_on = not off
    work.move()
    text = (
        "Stop lead off the module: the switch does not stop the engine now."
        if off
        else "Stop lead back on the module."
    )
    return Got(1.0, text, conditions=work.now())


def measure(work: Work, given: dict[str, Any], count: int) -> Got:
    """Thermometer, tachometer, calliper, scale."""
    name = given.get("what", "engine temperature")
    reading = work.reading(f"measure {name} {given.get('pull', '')}")
    minutes, shown = tools.measure(
        name, work.situation, work.view(f"measure {name}", given, reading), work.table
    )
    return Got(
        minutes,
        shown.instrument[:1].upper() + shown.instrument[1:] + ".",
        None,
        (shown,),
        conditions=work.now(),
    )


def trace(work: Work, given: dict[str, Any], count: int) -> Got:
    """Storage trace of one turn."""
    signal = given.get("signal", "plug voltage")
    trace, text = tools.trace(signal, work.view("trace", given, count))
    return Got(3.0, text, conditions=work.now(), trace=trace)


ACTIONS: dict[str, Callable[[Any, dict[str, Any], int], Got]] = {
    "warm_up": warm_up,
    "cool_down": cool_down,
    "wait": wait,
    "prime": prime,
    "pull": pull,
    "verify": verify,
    "stop_lead": stop_lead,
    "measure": measure,
    "trace": trace,
}
