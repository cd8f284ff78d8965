"""Spark tests: what is seen at a plug, in a flash tester, across the points of an adjustable tester."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from twostroke.bench import sparks
from twostroke.bench.engine import Array
from twostroke.bench.seen import Seen, spark_rules
from twostroke.bench.view import View

SECONDARY_CAPACITANCE = 50e-12
"""Winding and plug together, farad: what the spark first draws on, and its brightness with it."""


@dataclass(frozen=True)
class Turns:
    """Turns of a pull: which fired, how strong."""

    share: Array
    energy: Array
    fires: Array


def _turns(
    view: View, out: sparks.Output, demand: Array | float, rules: dict[str, float], effort: str
) -> Turns:
    """Fired or not, turn by turn, in one pull of the rope."""
    rpm = view.speeds(effort)
    n, count = rpm.shape
    fired = np.zeros((n, count), dtype=bool)
    joules = np.zeros((n, count))
    for turn in range(count):
        volts, _, _ = out.at(rpm[:, turn], view.draws.normal(n))
        volts = volts * view.contact
        needed = np.asarray(demand) * rules["spare"] * view.draws.lognormal(n, rules["turns_seen"])
        fired[:, turn] = volts >= needed
        whole = out.before_breaking_over(rpm[:, turn]) * view.contact
        joules[:, turn] = np.where(fired[:, turn], 0.5 * SECONDARY_CAPACITANCE * whole**2, 0.0)
    return Turns(fired[:, 1:].mean(axis=1), np.sort(joules, axis=1)[:, -2], fired)


def _grade(view: View, turns: Turns, rules: dict[str, float], names: tuple[str, str, str]) -> Seen:
    """Good, weak or none out of turns and brightness."""
    bright = turns.energy * 1e3 * np.exp(view.lasting.normal(view.n, 0.0, rules["eye"]))
    good = (turns.share >= rules["share"]) & (bright >= rules["energy"])
    some = turns.fires.any(axis=1)
    return Seen(np.where(good, names[0], np.where(some, names[1], names[2])))


WORDS = ("good", "weak", "none")


def at_plug(view: View) -> Seen:
    """The machine's own plug in open air, clamped to metal."""
    rules = spark_rules()["plug"]
    demand = np.where(view.machine.plug.bridged > 0.5, np.inf, sparks.plug_demand(view.machine))
    return _grade(view, _turns(view, view.volts("wiped"), demand, rules, view.effort), rules, WORDS)


def at_spare(view: View) -> Seen:
    """A known-good plug in open air."""
    rules = spark_rules()["plug"]
    turns = _turns(view, view.volts("tester"), sparks.spare_demand(view.n), rules, view.effort)
    return _grade(view, turns, rules, WORDS)


def at_points(view: View) -> Seen:
    """Adjustable-gap tester."""
    rules = spark_rules()["tester"]
    turns = _turns(view, view.volts("tester"), sparks.tester_demand(view.gap_mm), rules, view.effort)
    return _grade(view, turns, rules, WORDS)


def slow_fast(view: View) -> Seen:
    """Adjustable tester at a slow and at a fast pull."""
    rules = spark_rules()["tester"]
    demand = sparks.tester_demand(view.gap_mm)
    slow = _turns(view, view.volts("tester"), demand, rules, "normal").share >= rules["share"]
    fast = _turns(view, view.volts("tester"), demand, rules, "fast").share >= rules["share"]
    return Seen(np.where(slow & fast, "good_both", np.where(fast | slow, "only_fast", "none")))


def flash(view: View) -> Seen:
    """In-line flash tester between lead and plug: it shows that a pulse passes, not that the plug fires.

    The lamp strikes on the voltage, and burns on the current that flows on: through the gap where it breaks
    down, over soot, wet fuel or a short inside the plug where it does not.
    """
    rules = spark_rules()["inline"]
    rpm = view.speeds()
    out = view.volts("tester")
    seen = np.zeros(rpm.shape, dtype=bool)
    bright = np.zeros(rpm.shape)
    for turn in range(rpm.shape[1]):
        volts, _, _ = out.at(rpm[:, turn], view.draws.normal(view.n))
        volts = volts * view.contact
        seen[:, turn] = volts >= rules["volts"] * view.draws.lognormal(view.n, 0.1)
        bright[:, turn] = volts
    judged = np.sort(bright, axis=1)[:, -3] * np.exp(view.lasting.normal(view.n, 0.0, rules["eye"]))
    flashes = (seen[:, 1:].mean(axis=1) >= rules["share"]) & (judged >= rules["bright_volts"])
    return Seen(np.where(flashes, "flashes", np.where(seen.any(axis=1), "dim", "no_flash")))


def shaken(view: View) -> Seen:
    """Adjustable tester while lead and wires are moved (the machine is in its moved state)."""
    seen = at_points(view)
    names = {"good": "steady", "weak": "weak", "none": "cuts_out"}
    return Seen(np.array([names[word] for word in seen.result]))


def stop_lead_off(view: View) -> Seen:
    """Spark with the stop lead off at the module, against the spark before."""
    rules = spark_rules()["tester"]
    demand = sparks.tester_demand(view.gap_mm)
    before = _turns(view, view.volts("tester", True), demand, rules, view.effort).share
    after = _turns(view, view.volts("tester", False), demand, rules, view.effort).share
    returns = (after >= rules["share"]) & (before < rules["share"])
    return Seen(np.where(returns, "spark_returns", "no_change"))


def after_warming(view: View) -> Seen:
    """Spark once the module has been warmed off the machine and refitted."""
    rules = spark_rules()["tester"]
    demand = sparks.tester_demand(view.gap_mm)
    share = _turns(view, view.volts("tester"), demand, rules, view.effort).share
    return Seen(np.where(share >= rules["share"], "spark_stays", "spark_lost"))


SPARK_TESTS: dict[str, Callable[[View], Seen]] = {
    "spark_plug_cold": at_plug,
    "spark_plug_hot": at_plug,
    "spark_inline_cold": flash,
    "spark_inline_hot": flash,
    "spark_gap_cold": at_points,
    "spark_gap_hot": at_points,
    "known_good_plug": at_spare,
    "spark_shake": shaken,
    "spark_slow_fast": slow_fast,
    "stop_lead_off": stop_lead_off,
    "heat_module": after_warming,
}
