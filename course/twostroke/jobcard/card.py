"""From a job on the bench, or on a real machine, to its card."""

from __future__ import annotations

from collections.abc import Sequence

from twostroke.bench import Bench, OwnMachine, Step
from twostroke.jobcard import money
from twostroke.jobcard.form import Diagnosis, JobCard, Minutes, Read, State, Verification, Work
from twostroke.jobcard.shop import Shop, load_shop
from twostroke.jobcard.support import speaks_for
from twostroke.table import UNDONE, Table, Test, load_table

_STATES = {"cold": "cold", "hot": "hot", "shake": "while lead and wires are moved"}
_ENDS = ("hand_back", "hand_on")
_HOW = ("shim", "terminal", "routing")


def job_card(
    job: Bench | OwnMachine,
    *,
    shop: Shop | None = None,
    machine: str | None = None,
    value: float | None = None,
    technician: str | None = None,
    date: str = "",
) -> JobCard:
    """The card of a job as it stands.

    Parameters
    ----------
    job : Bench or OwnMachine
        What is hidden in a bench is not used: the card knows what the route shows.
    shop : Shop, optional
        The invented shop of the course when left out.
    machine : str, optional
        What the machine is; a bench knows its own.
    value : float, optional
        What a like machine with the same life left costs; by kind from the shop's list when left out.
    technician : str, optional
        The learner when left out.
    date : str
        As it should stand on the card.

    Returns
    -------
    JobCard
        Not yet checked: see :func:`twostroke.jobcard.check`.

    Examples
    --------
    >>> bench = Bench("plug_fouled_trimmer", "Anna")
    >>> _ = bench.do("plug_look", prepare=True, confirm="all")
    >>> job_card(bench).state
    'open'
    """
    shop = load_shop() if shop is None else shop
    table, route = job.table, list(job.route)
    end = route[-1] if route and route[-1].action in _ENDS else None
    stated = end.diagnosis if end is not None else None
    asked = table.verify_conditions(_kind(job))
    proof = verification(table, route, asked)
    repairs = _repairs(table, route)
    minutes = _minutes(table, route)
    sums = money.estimate(minutes.total, repairs, shop)
    if value is None and isinstance(job, Bench):
        value = shop.value.get(job.scenario.machine.kind)
    diagnosis = None
    if end is not None and stated is not None:
        diagnosis = Diagnosis(
            fault=stated, name=table.faults[stated].name, confidence=float(end.confidence or 0.0)
        )
    state = _state(end, repairs, proof)
    return JobCard(
        shop=shop.name, note=_note(job, shop), date=date,
        technician=job.learner if technician is None else technician,
        machine=_machine(job) if machine is None else machine, complaint=_complaint(job),
        history=list(job.scenario.history) if isinstance(job, Bench) else [],
        readings=_readings(job, stated), diagnosis=diagnosis, repairs=repairs, verification=proof,
        state=state,
        minutes=minutes, estimate=sums, advice=money.advise(sums.total, value, shop),
        owner=_tell(table, diagnosis, state, repairs, proof), cautions=_cautions(table, route, stated),
    )  # fmt: skip


def _kind(job: Bench | OwnMachine) -> str:
    return job.scenario.complaint.kind if isinstance(job, Bench) else job.complaint


def _complaint(job: Bench | OwnMachine) -> str:
    if isinstance(job, Bench):
        return job.complaint
    words = job.table.complaint
    return words.words.get(job.complaint, job.complaint) if words else job.complaint


def _machine(job: Bench | OwnMachine) -> str:
    if isinstance(job, OwnMachine):
        return "own machine"
    made = job.scenario.machine
    return f"{made.displacement.replace('cc', 'cm³')} {made.kind}, {made.engine}"


def _note(job: Bench | OwnMachine, shop: Shop) -> str:
    said = []
    if isinstance(job, Bench):
        said.append("Machine, owner and readings are invented for teaching.")
    if shop.invented:
        said.append("The shop and its prices are invented.")
    said.append(f"{_whose(job.table)}; the maker's manual comes first.")
    return " ".join(said)


def _whose(table: Table) -> str:
    """Where the chances come from that stand behind the advice."""
    meta = table.meta
    if meta.shop:
        return f"Fault table: own table of {meta.shop}, {meta.day or 'no date given'}"
    if meta.title == load_table().meta.title:
        return "The fault table is a teaching estimate"
    return f"Fault table: {meta.title}, {meta.day or 'no date given'}"


def _state(end: Step | None, repairs: list[Work], proof: Verification) -> State:
    if end is None:
        return "open"
    if end.action == "hand_on":
        return "handed on"
    if not any(not work.returned for work in repairs):
        return "found, not repaired"
    return "fixed" if proof.passed else "repaired, not proven"


def verification(table: Table, route: Sequence[Step], asked: Sequence[str]) -> Verification:
    """Verify runs after the last repair, and whether they cover what the complaint asks for."""
    made: list[str] = []
    words, ran = "", False
    for step in route:
        if step.action in table.repairs and step.result != UNDONE:
            made, words, ran = [], "", False
        elif step.action == "verify":
            words, ran = step.words, step.result == "runs"
            made = [*made, *(c for c in step.conditions if c not in made)] if ran else []
    return Verification(passed=ran and set(asked) <= set(made), asked=list(asked), made=made, words=words)


def _readings(job: Bench | OwnMachine, fault: str | None) -> list[Read]:
    table, out = job.table, []
    ambient = job.scenario.machine.ambient.replace("degC", "°C") if isinstance(job, Bench) else ""
    for step in job.route:
        test = table.tests.get(step.action)
        if test is None and step.action != "measure":
            continue
        state = ", ".join(_STATES[c] for c in step.conditions if c in _STATES)
        if state == "cold" and ambient:
            state = f"cold ({ambient})"
        instrument = table.instruments.get(test.instrument or "", "") if test else step.words.rstrip(".")
        said = test.say(step.result) if test and step.result else ""
        out.append(
            Read(
                action=step.action, what=(test.name or step.action) if test else "measured",
                shown=_shown(step) + (_band(job, test) if step.reading else ""),
                result=said, instrument=instrument, state=state,
                supports=bool(fault and test and step.result and speaks_for(test, step.result, fault)),
            )
        )  # fmt: skip
    return out


def _band(job: Bench | OwnMachine, test: Test | None) -> str:
    """The maker's band that a reading was judged by, where there is one."""
    bands = job.scenario.bands if isinstance(job, Bench) else job.bands_text
    quantity = test.reading.band if test is not None and test.reading is not None else None
    return f" (maker's band {bands[quantity]})" if quantity in bands else ""


def _shown(step: Step) -> str:
    if len(step.reading) == 1:
        return next(iter(step.reading.values()))
    return "; ".join(f"{name} {text}" for name, text in step.reading.items())


def _repairs(table: Table, route: Sequence[Step]) -> list[Work]:
    out = []
    for number, step in enumerate(route):
        row = table.repairs.get(step.action)
        if row is None or step.result == UNDONE:
            continue
        later = (s for s in route[number + 1 :] if s.action == "verify" or s.action in table.repairs)
        then = next(later, None)
        failed = then is not None and then.action == "verify" and then.result == "fails"
        how = ", ".join(f"{name} {value}" for name, value in step.settings.items() if name in _HOW)
        part = row.part_name if step.money else ""
        out.append(
            Work(
                action=step.action, what=row.name or step.action, how=how, part=part, price=step.money,
                returned=row.trial and failed,
            )
        )  # fmt: skip
    return out


def _minutes(table: Table, route: Sequence[Step]) -> Minutes:
    sums = {"finding": 0.0, "repair": 0.0, "proving": 0.0}
    for step in route:
        proving = "proving" if step.action == "verify" else "finding"
        kind = "repair" if step.action in table.repairs else proving
        sums[kind] += step.minutes
    return Minutes(**{kind: round(total, 2) for kind, total in sums.items()})


def _tell(
    table: Table, diagnosis: Diagnosis | None, state: State, repairs: list[Work], proof: Verification
) -> list[str]:
    """What to say to the owner, in plain words."""
    said = []
    if diagnosis is not None:
        said.append(f"What was wrong: {diagnosis.name}. {table.faults[diagnosis.fault].why}")
    kept = list(dict.fromkeys(work.what for work in repairs if not work.returned))
    if kept:
        said.append(f"What was done: {'; '.join(kept)}.")
    if state == "fixed":
        runs = ", ".join(_STATES[c] for c in proof.made) or "as it stood"
        said.append(f"How we know: it was started, run, stopped and started again ({runs}).")
    elif state == "handed on":
        said.append("We could not finish it: it goes on to someone who can, with these readings.")
    else:
        said.append("It is not proven yet: it may do the same again. Bring it back at once if it does.")
    return said


def _cautions(table: Table, route: Sequence[Step], fault: str | None) -> list[str]:
    """Cautions of the fault, then those that the work itself asked for."""
    names = [name for step in route for name in (*step.cautions_confirmed, *step.cautions_missed)]
    said = [table.faults[fault].caution] if fault and table.faults[fault].caution else []
    said += [table.hazards[name].caution for name in dict.fromkeys(names)]
    return list(dict.fromkeys(said))
