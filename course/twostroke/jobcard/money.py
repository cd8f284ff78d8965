"""Estimate, and repair or replace."""

from __future__ import annotations

from twostroke.jobcard.form import Advice, Estimate, Line, Verdict, Work
from twostroke.jobcard.shop import Shop


def estimate(minutes: float, repairs: list[Work], shop: Shop) -> Estimate:
    """Labour, parts, shop supplies and tax.

    Parameters
    ----------
    minutes : float
    repairs : list of Work
        Parts that went back in the drawer are not charged.
    shop : Shop

    Returns
    -------
    Estimate
        Every line rounded to cents; the total is their sum.

    Examples
    --------
    >>> shop = Shop(name="mine", labour_per_hour=60.0, tax_percent=10.0, supplies_percent=5.0)
    >>> bill = estimate(30.0, [Work(action="swap_plug", what="plug", part="plug", price=5.0)], shop)
    >>> [line.amount for line in bill.lines], bill.total
    ([30.0, 5.0, 1.5, 3.65], 40.15)
    """
    charged = max(minutes, shop.least_minutes)
    labour = round(charged * shop.labour_per_hour / 60.0, 2)
    parts = [
        Line(what=work.part, amount=round(work.price, 2))
        for work in repairs
        if work.price and not work.returned
    ]
    supplies = round(min(labour * shop.supplies_percent / 100.0, shop.supplies_most), 2)
    least = " (least charge)" if charged > minutes else ""
    lines = [Line(what=f"labour, {charged:g} min{least}", amount=labour), *parts]
    if supplies:
        lines.append(Line(what="shop supplies", amount=supplies))
    before = sum(line.amount for line in lines)
    tax = round(before * shop.tax_percent / 100.0, 2)
    if tax:
        lines.append(Line(what=f"tax, {shop.tax_percent:g} %", amount=tax))
    return Estimate(currency=shop.currency, lines=lines, total=round(before + tax, 2))


def advise(total: float, value: float | None, shop: Shop) -> Advice:
    """Repair or replace, by the shop's rule.

    Parameters
    ----------
    total : float
        Of the estimate.
    value : float or None
        What a like machine with the same life left costs.
    shop : Shop

    Returns
    -------
    Advice

    Notes
    -----
    The rule is common practice, no source; the two shares are the shop's own.

    Examples
    --------
    >>> advise(90.0, 160.0, Shop(name="mine", labour_per_hour=60.0)).verdict
    'the owner decides'
    """
    low, high = shop.repair_up_to, shop.replace_from
    rule = (
        f"repair up to {100 * low:.0f} % of the price of a like machine with the same life left, "
        f"replace from {100 * high:.0f} %, between them the owner decides "
        "(common practice, no source; the shares are the shop's)"
    )
    if not value:
        return Advice(verdict="not decided", rule=rule, figures="the price of a like machine is not known")
    share = total / value
    verdict: Verdict = "repair" if share <= low else "the owner decides" if share < high else "replace"
    figures = f"{total:.2f} of {value:.2f} {shop.currency} = {100 * share:.0f} %"
    return Advice(verdict=verdict, rule=rule, figures=figures)
