"""A record on paper: one page for each person, from sealed data and nothing else."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from twostroke.grading.classlist import fold
from twostroke.grading.record.seal import canonical, fingerprint
from twostroke.lab.task import COMPETENCIES
from twostroke.sheet import Sheet, literal

ENCLOSED = "record.json"
"""Name under which the sealed data travel inside PDF and web page."""
_SHOWN = (8, 5, 3, 0)
"""Steps of the plan shown as a table, the rest in one line: as many as keep a person to one page."""
_FIXED = "\u00a0"
"""A space at which no line ends."""


def sheet(sealed: dict[str, Any]) -> Sheet:
    """Return the page of a sealed record, with the sealed data enclosed.

    Parameters
    ----------
    sealed : dict
        As made by `twostroke.grading.record.seal.seal`.

    Returns
    -------
    Sheet
        One page, as long as there is room for the evidence itself.
    """
    made = [_sheet(sealed, shown) for shown in _SHOWN]
    return next((each for each in made if each.pages() == 1), made[-1])


def _sheet(sealed: dict[str, Any], shown: int) -> Sheet:
    content = sealed["content"]
    person = content["person"]
    alike = fold(person["name"]) == fold(person["id"])
    who = person["name"] if alike else f"{person['name']} ({person['id']})"
    made = Sheet(
        f"Training record: {who}",
        subtitle=f"{content['course']}. Issued {day(content['issued'][:10])}, number {content['serial']}",
        note=content["note"] or None,
        compact=True,
    )
    graded, signed = content["graded"], content["hands on"]
    made.table(
        ["competency", "graded work: lab, points", "graded", "hands-on: signed by", "date", "initials"],
        [_row(name, graded[name], signed[name]) for name in _in_order(graded)],
        widths=(42, 46, 17, 38, 24, 17),
    )
    _labs(made, content["labs"])
    passed, least = (_percent(content["limits"][name]) for name in ("passed from share", "marked at least"))
    made.text(
        f"**Graded** speaks of marked work alone: *proven* from {passed} of the points on, when at least "
        f"{least} of the course's points for it are marked; in safety each lab must reach it. (h) marked by "
        "hand. **Hands-on** is what a supervisor saw at the bench and signed; neither is worked out from the "
        "other."
    )
    _open(made, content["open"])
    _plan(made, content["plan"], shown)
    made.text(
        f"Sealed with key {fingerprint(sealed['seal']['key'])}; whether this file is as issued says "
        "`twostroke record --verify`. A signature written on paper counts when it is entered."
    )
    made.lines(["Issued by (name, date, initials)"])
    made.enclose(ENCLOSED, canonical(sealed), f"training record {content['serial']}, sealed")
    return made


def _in_order(names: Iterable[str]) -> list[str]:
    """Competencies in the order of the training record, whatever the order in the file."""
    known = {name: place for place, name in enumerate(COMPETENCIES)}
    return sorted(names, key=lambda name: (known.get(name, len(known)), name))


def day(iso: str) -> str:
    """Return a date as people write it.

    Examples
    --------
    >>> day("2026-03-07")
    '7 Mar 2026'
    """
    try:
        when = date.fromisoformat(iso)
    except ValueError:
        return iso
    return f"{when.day} {when:%b} {when.year}"


def _percent(share: float) -> str:
    return f"{100 * share:.0f}{_FIXED}%"


def _row(name: str, graded: dict[str, Any], signed: dict[str, Any]) -> list[str]:
    labs = ", ".join(_lab(lab, each) for lab, each in sorted(graded["labs"].items()))
    state = graded["state"]
    lines = list(signed.values())
    newest = max(lines, key=lambda each: (each["date"], each["by"]), default=None)
    if newest is None:
        return [name, labs, state, "", "", ""]
    by = newest["by"] or "(signed)"
    more = f" and {len(lines) - 1} earlier" if len(lines) > 1 else ""
    return [name, labs, state, f"{by}{more}", day(newest["date"]), newest["initials"]]


def _lab(lab: str, each: dict[str, Any]) -> str:
    by_hand = ["(h)"] if each["by hand"] else []
    return _FIXED.join([lab.removeprefix("lab "), _points(each), *by_hand])


def _points(each: dict[str, Any]) -> str:
    return "waits" if each["points"] is None else f"{each['points']:.4g}/{each['of']:.4g}"


def _labs(made: Sheet, labs: dict[str, Any]) -> None:
    """The day and the points of each lab as a whole: one line for what stands above by competency."""
    said = []
    for lab, each in sorted(labs.items()):
        when = day(each["date"]).replace(" ", _FIXED) or "(no date)"
        said.append(_FIXED.join([f"{lab.removeprefix('lab ')}:", _points(each), when]))
    if said:
        how = " or ".join(sorted({each["date is"] for each in labs.values()} - {""})) or "no date known"
        made.text(f"**Labs, points and day ({how}):** {literal('; '.join(said))}.")


def _open(made: Sheet, still: dict[str, Any]) -> None:
    lines = []
    for title, key in (("By graded work", "graded work"), ("By signature", "signature")):
        names = still[key]
        lines.append(f"**{title} ({len(names)}):** {literal('; '.join(names)) if names else 'nothing'}.")
    if still["waits for a person"]:
        lines.append(f"**Waits for a person:** {literal('; '.join(still['waits for a person']))}.")
    made.box("Still open", lines)


def _plan(made: Sheet, plan: dict[str, Any], shown: int) -> None:
    steps = plan["steps"]
    if not steps:
        made.text("**Next:** every lesson and lab is done.")
        return
    aims = f" towards {', '.join(plan['aims'])}" if plan["aims"] else ""
    count = f"{len(steps)} lesson{'s' if len(steps) > 1 else ''}"
    made.heading(f"Next, in this order{aims}: {count}, {hours(plan['minutes'])}")
    rows = [
        [number, f"{step['module']} {step['title']}", _minutes(step), step["why"]]
        for number, step in enumerate(steps[:shown], start=1)
    ]
    if rows:
        made.table(["", "lesson", "time", "why"], rows, widths=(4, 44, 34, 42))
    rest = "; ".join(f"{step['module']} {literal(step['title'])}" for step in steps[shown:])
    if rest:
        made.text(f"{'**Then:** ' if rows else ''}{rest}.")
    if plan["practise"]:
        made.text(f"**Worth practising again:** {literal('; '.join(plan['practise']))}.")


def _minutes(step: dict[str, Any]) -> str:
    if not step["lab minutes"]:
        return f"{step['lesson minutes']} min"
    return f"{step['lesson minutes']} min, lab {step['lab']} {step['lab minutes']} min"


def hours(minutes: int) -> str:
    """Return minutes as hours and minutes.

    Examples
    --------
    >>> hours(95), hours(40)
    ('1 h 35 min', '40 min')
    """
    whole, rest = divmod(minutes, 60)
    return f"{whole} h {rest:02d} min" if whole else f"{rest} min"
