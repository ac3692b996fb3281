"""Ears against lugs, and what to make a row fit would cost against another hoop."""

from __future__ import annotations

from counterhoop.errors import Finding, Grade
from counterhoop.fittings.entry import Fitting
from counterhoop.quantities.duration import print_minutes
from counterhoop.quantities.money import Money, print_money
from counterhoop.scheme.ears import agreeing, refit, right_hoop
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.wording import both, counted, first_up
from counterhoop.scheme.heads import HeadPlan


def check_ears(after: Afterwards, tally: Tally, head: HeadPlan) -> bool:
    """Say when the hoop has another number of ears than the row has lugs; True when it has."""
    hoop = head.hoop
    if hoop is None or hoop.ears is None or hoop.ears == len(head.lugs):
        return False
    along = [lug.place.along_deg for lug in head.lugs]
    agree = agreeing(along, ears=hoop.ears, surface=after.surface, within_mm=after.rules.keep_mm)
    work = refit(agree, lugs=[lug.fitting for lug in head.lugs], figures=after.figures)
    where = both(head.lugs[i].label for i in agree.kept) or "none"
    verb = "agrees" if len(agree.kept) == 1 else "agree"
    tally.say(
        Finding(
            code="ears-against-lugs",
            grade=Grade.STOP,
            says=(
                f"{first_up(counted(len(head.lugs), f'{head.head} lug'))} want as many ears and"
                f" {hoop.name} has {hoop.ears}: {where} {verb}, and to make the row fit means"
                f" {counted(len(agree.kept), 'lug')} kept, {agree.lugs_off} taken off and"
                f" {agree.lugs_new} put on: {counted(work.plugs, 'plug')} and"
                f" {counted(work.holes, 'new hole')}{_cost(after, work.minutes, work.money_minor)}."
            ),
            where=f"{head.head} hoop",
            measured=float(hoop.ears),
            limit=float(len(head.lugs)),
            unit="",
            rule="as many ears as lugs",
            remedy=_remedy(after, hoop, len(head.lugs)),
        )
    )
    return True


def _cost(after: Afterwards, minutes: float, money_minor: int | None) -> str:
    """Say what work comes to, as far as the workshop's figures are at hand."""
    if after.figures is None:
        return ""
    if money_minor is None:
        return f", {print_minutes(minutes)} and lugs whose price is not known"
    money = print_money(Money(minor=money_minor, currency=after.figures.currency))
    return f", {print_minutes(minutes)} and {money} in all"


def _remedy(after: Afterwards, hoop: Fitting, ears: int) -> str:
    """Name the hoop that fits, with its price where the book has both."""
    plainly = f"Find a hoop with {ears} ears: it costs less than the work."
    right = right_hoop(after.book, hoop, ears=ears)
    if right is None:
        return plainly
    own = {} if after.figures is None else dict(after.figures.prices_minor)
    price = own.get(right.name, right.price_minor)
    if price is None:
        return f"Take a hoop with {ears} ears: {right.name} is in the book, its price is not."
    currency = after.figures.currency if after.figures and right.name in own else right.currency
    return f"Take {right.name} at {print_money(Money(minor=price, currency=currency))} instead."
