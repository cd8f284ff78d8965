"""What must be true of a job card before it goes to the owner."""

from __future__ import annotations

import json
from typing import Any

from twostroke.errors import TwoStrokeError
from twostroke.jobcard.form import JobCard
from twostroke.jobcard.support import only_weak, what_speaks_for
from twostroke.table import Table, load_table
from twostroke.table.reader import build


class JobCardError(TwoStrokeError):
    """A job card says more than its readings."""


def problems(card: JobCard, table: Table | None = None) -> list[str]:
    """Everything on a card that does not hold together, each with what to do.

    Parameters
    ----------
    card : JobCard
    table : Table, optional
        The course's own when left out.

    Returns
    -------
    list of str
        Empty for a card that holds.

    Notes
    -----
    No diagnosis without a reading that speaks for it (a part on trial that stayed in and was proven counts),
    no "fixed" without a passed verify run in the complaint's own condition, no repair that cannot cure what
    was found, no module condemned by its winding's ohms alone, and sums that add up.

    Examples
    --------
    >>> from twostroke.bench import OwnMachine
    >>> from twostroke.jobcard.card import job_card
    >>> own = OwnMachine("no_start", "Anna")
    >>> _ = own.hand_back("module_dead", 0.9)
    >>> problems(job_card(own))[0]
    'diagnosis without a reading: nothing on the card speaks for "ignition module open or dead"; make
    one of: spark at the plug in open air, cold; spark at the plug in open air, hot; in-line flash tester,
    cold … and note it'
    """
    table = load_table() if table is None else table
    out = []
    if card.state == "open":
        out.append("the job is still open: hand the machine back, or hand the job on, then make the card")
    out += _diagnosis(card, table)
    out += _fixed(card)
    lines = sum(line.amount for line in card.estimate.lines)
    if abs(lines - card.estimate.total) > 0.005:
        out.append(
            f"estimate: the lines add up to {lines:.2f}, and the total says {card.estimate.total:.2f}; "
            "make the card again from the job"
        )
    return out


def _diagnosis(card: JobCard, table: Table) -> list[str]:
    stated = card.diagnosis
    if stated is None:
        if card.state in ("fixed", "repaired, not proven"):
            return ["repair without a diagnosis: say at hand-back what was found"]
        return []
    if stated.fault not in table.faults:
        return [f"diagnosis: {stated.fault!r} is no fault of this table; correct the name"]
    if stated.fault == "other":
        return []
    kept = [work for work in card.repairs if not work.returned]
    cures = [w for w in kept if w.action in table.repairs and stated.fault in table.repairs[w.action].fixes]
    by_trial = card.verification.passed and any(table.repairs[work.action].trial for work in cures)
    speaking = [reading.action for reading in card.readings if reading.supports]
    out = []
    if not speaking and not by_trial:
        able = what_speaks_for(table, stated.fault)
        more = " …" if len(able) > 3 else ""
        out.append(
            f'diagnosis without a reading: nothing on the card speaks for "{stated.name}"; '
            f"make one of: {'; '.join(able[:3])}{more} and note it"
        )
    elif only_weak(table, speaking) and not by_trial:
        out.append(
            f'diagnosis on weak ground: "{stated.name}" rests on the winding\'s ohms alone, which change '
            "with meter and polarity; add a spark test with the stop lead off"
        )
    if kept and not cures:
        out.append(
            f'repair and diagnosis do not fit: none of the repairs cures "{stated.name}"; '
            "correct one of the two"
        )
    return out


def _fixed(card: JobCard) -> list[str]:
    if card.state == "fixed" and not card.verification.passed:
        asked = ", ".join(card.verification.asked) or "as it stands"
        return [
            f'"fixed" without proof: no verify run passed after the last repair in the condition of the '
            f"complaint ({asked}); run it, or write 'repaired, not proven'"
        ]
    if card.state == "fixed" and not any(not work.returned for work in card.repairs):
        return ['"fixed" without a repair: nothing was changed on the machine; say what was done']
    return []


def check(card: JobCard, table: Table | None = None) -> JobCard:
    """The card itself, when it holds together.

    Raises
    ------
    JobCardError
        Naming everything that does not, each with what to do.
    """
    found = problems(card, table)
    if found:
        raise JobCardError("the job card does not hold together: " + "; ".join(found))
    return card


def read_card(text: str | dict[str, Any], table: Table | None = None) -> JobCard:
    """A card from its JSON, checked.

    Raises
    ------
    TwoStrokeError
        No JSON, another form, or a card that does not hold together.

    Examples
    --------
    >>> read_card("[]")
    Traceback (most recent call last):
        ...
    twostroke.jobcard.consistency.JobCardError: this is no job card: a card is a set of named fields
    """
    if isinstance(text, str):
        try:
            content = json.loads(text)
        except ValueError as error:
            raise JobCardError(f"this is no job card: it is not readable JSON ({error})") from None
    else:
        content = text
    if not isinstance(content, dict):
        raise JobCardError("this is no job card: a card is a set of named fields")
    return check(build(JobCard, content, {}, "job card"), table)
