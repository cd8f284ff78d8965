"""The card on paper: one page, whatever the job was."""

from __future__ import annotations

from twostroke.jobcard.form import JobCard, Read
from twostroke.sheet import Sheet, literal

MOST_READINGS = 12
LONGEST = 300


def sheet(card: JobCard, *, paper: str = "a4") -> Sheet:
    """The card as a sheet of one page: ``.pdf(path)`` and ``.html(path)`` write it.

    Parameters
    ----------
    card : JobCard
    paper : {"a4", "us-letter"}

    Returns
    -------
    Sheet
        Where a job has more readings than a page holds, those that speak for the diagnosis stay.
    """
    for most, cautions in ((MOST_READINGS, 5), (8, 4), (5, 3), (3, 2), (1, 1)):
        made = _laid_out(card, paper, most, cautions)
        if made.pages() == 1:
            return made
    return _laid_out(card, paper, 0, 1)


def chosen(readings: list[Read], most: int) -> list[Read]:
    """At most so many readings, in the order of the job: speaking ones first, then numbers, then the last."""
    order = sorted(range(len(readings)), key=lambda n: (not readings[n].supports, not readings[n].shown, -n))
    return [readings[n] for n in sorted(order[:most])]


def _laid_out(card: JobCard, paper: str, most: int, cautions: int) -> Sheet:
    subtitle = " · ".join(part for part in (card.machine, card.technician, card.date) if part)
    out = Sheet(f"Job card – {card.shop}", subtitle=subtitle, note=card.note, paper=paper, compact=True)
    told = literal(_cut(card.complaint))
    if card.history:
        told += "\n\n*Asked:* " + literal(_cut("; ".join(card.history)))
    out.text(f"**Complaint:** {told}")
    shown = chosen(card.readings, most)
    if shown:
        rows = [
            [row.what, "; ".join(p for p in (row.shown, row.result) if p), row.instrument,
             row.state.replace(" °C", "\N{NO-BREAK SPACE}°C"), "yes" if row.supports else ""]
            for row in shown
        ]  # fmt: skip
        headers = ["reading", "shown", "instrument", "machine", "speaks for it"]
        out.table(headers, rows, widths=[5, 5, 3, 2.4, 1.6])
    left = len(card.readings) - len(shown)
    if left:
        out.text(f"*{left} more reading{'s' if left > 1 else ''} in the record.*")
    out.text(_found(card))
    rows = [
        [_said(work.what, work.how), work.part, _back(work.price, work.returned)] for work in card.repairs
    ]
    if rows:
        out.table(["repair", "part", card.estimate.currency], rows, align="llr", widths=[6, 3, 2])
    bill = [[line.what, f"{line.amount:.2f}"] for line in card.estimate.lines]
    bill.append(["total", f"{card.estimate.total:.2f}"])
    out.table(["estimate", card.estimate.currency], bill, align="lr", widths=[6, 2])
    out.text(
        f"**Time:** finding {card.minutes.finding:g} min, repair {card.minutes.repair:g} min, "
        f"proving {card.minutes.proving:g} min. **Repair or replace:** {card.advice.verdict} "
        f"({literal(card.advice.figures)}). *Rule: {literal(card.advice.rule)}.*"
    )
    out.box("What to tell the owner", [literal(_cut(line)) for line in card.owner])
    if card.cautions:
        out.caution("\n".join(f"- {literal(_cut(line))}" for line in card.cautions[:cautions]))
    out.lines(["signature", "handed back on"])
    return out


def _found(card: JobCard) -> str:
    found = "none stated"
    if card.diagnosis is not None:
        found = f"{literal(card.diagnosis.name)}, {100 * card.diagnosis.confidence:.0f} % sure"
    proof = literal(_cut(card.verification.words)) or "no verify run"
    asked = ", ".join(card.verification.asked) or "as it stands"
    passed = "passed" if card.verification.passed else "not passed"
    return (
        f"**Found:** {found}. **State:** {card.state}. **Verification** (asked: {asked}): {passed}. {proof}"
    )


def _said(what: str, how: str) -> str:
    return f"{what} ({how})" if how else what


def _back(price: float, returned: bool) -> str:
    return "back in the drawer" if returned else f"{price:.2f}" if price else ""


def _cut(text: str) -> str:
    return text if len(text) <= LONGEST else text[: LONGEST - 1].rstrip() + "…"
