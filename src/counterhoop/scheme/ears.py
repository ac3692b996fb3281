"""A hoop's ears against the lugs of a row: where they agree, and what the rest costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from counterhoop.development.surface import Surface
from counterhoop.fittings.book import Book
from counterhoop.fittings.choose import hoop_for
from counterhoop.fittings.entry import Fitting
from counterhoop.quantities.money import Money
from counterhoop.scheme.price import price_of
from counterhoop.shell.shop_rules import ShopFigures


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreeing:
    """What a hoop with another number of ears leaves of a row.

    Attributes
    ----------
    kept : tuple of int
        Indices of the lugs that stand under an ear.
    lugs_off, lugs_new : int
        Lugs to take off and plug, and lugs to put under ears that have none.
    """

    kept: tuple[int, ...]
    lugs_off: int
    lugs_new: int


def agreeing(
    along_deg: Sequence[float], *, ears: int, surface: Surface, within_mm: float
) -> Agreeing:
    """Turn an evenly eared hoop so that as many lugs as can be stand under an ear.

    An ear serves one lug. Turned so that a lug stands exactly under an ear, for each lug in turn:
    with evenly spaced lugs the number that agree is the greatest common divisor of both counts.
    Lugs off their spacing by less than ``within_mm`` are still found, unless the best turn lies
    between two lugs.

    Parameters
    ----------
    along_deg : sequence of float
        Where the lugs stand.
    ears : int
        Ears of the hoop.
    within_mm : float
        How far, along the skin, still counts as under the ear.

    Examples
    --------
    Ten lugs under eight ears agree at two places, half way round from each other:

    >>> from counterhoop.development.surface import Skin
    >>> skin = Surface(skin=Skin.OLD, circumference_mm=1110.0)
    >>> found = agreeing([36.0 * k for k in range(10)], ears=8, surface=skin, within_mm=0.8)
    >>> found.kept, found.lugs_off, found.lugs_new
    ((0, 5), 8, 6)
    """
    step = 360.0 / ears
    best: tuple[int, ...] = ()
    for start in along_deg:
        taken: set[int] = set()
        kept = []
        for index, at in enumerate(along_deg):
            ear = round((at - start) / step) % ears
            off = surface.apart_mm(start + ear * step, at)
            if abs(off) <= within_mm and ear not in taken:
                taken.add(ear)
                kept.append(index)
        if len(kept) > len(best):
            best = tuple(kept)
    return Agreeing(kept=best, lugs_off=len(along_deg) - len(best), lugs_new=ears - len(best))


@dataclass(frozen=True, slots=True, kw_only=True)
class Refit:
    """What it takes to make a row fit a hoop's ears.

    Attributes
    ----------
    plugs, holes : int
        Old holes closed and new ones drilled.
    minutes : float
        At the bench; zero where no figures are at hand.
    money_minor : int or None
        Bench time and new lugs, in minor units; None where a price is not known.
    """

    plugs: int
    holes: int
    minutes: float
    money_minor: int | None


def refit(agree: Agreeing, *, lugs: Sequence[Fitting], figures: ShopFigures | None) -> Refit:
    """Reckon what it takes to make a row fit, with lugs like those that are there.

    Lugs that come off are put on again under another ear; only what is wanted beyond them is
    bought. Every hole that serves no longer is plugged.

    Parameters
    ----------
    agree : Agreeing
        Which lugs stay.
    lugs : sequence of Fitting
        The row's lugs.
    figures : ShopFigures or None
        Minutes, the price of an hour and of parts.
    """
    each = max((len(lug.holes) for lug in lugs), default=0)
    plugs, holes = agree.lugs_off * each, agree.lugs_new * each
    if figures is None:
        return Refit(plugs=plugs, holes=holes, minutes=0.0, money_minor=None)
    takes = dict(figures.minutes)
    minutes = sum(
        (
            Fraction(times) * Fraction(takes.get(operation, 0.0))
            for operation, times in (
                ("plug a hole", plugs),
                ("drill a hole", holes),
                ("fit a lug", agree.lugs_new),
                ("lay out a row", 1),
            )
        ),
        start=Fraction(0),
    )
    hour = Money(minor=figures.hour_minor, currency=figures.currency)
    bought = max(0, agree.lugs_new - agree.lugs_off)
    price = price_of(lugs[0], figures=figures) if lugs else 0
    money = hour.times(minutes / 60).minor + bought * (price or 0)
    return Refit(
        plugs=plugs,
        holes=holes,
        minutes=float(minutes),
        money_minor=None if bought and price is None else money,
    )


def right_hoop(book: Book | None, hoop: Fitting, *, ears: int) -> Fitting | None:
    """Return the book's hoop of this size with so many ears, of the same kind where it can."""
    if book is None or hoop.nominal_mm is None:
        return None
    like = hoop_for(book, nominal_mm=hoop.nominal_mm, ears=ears, kind=hoop.hoop_kind)
    found = (like, hoop_for(book, nominal_mm=hoop.nominal_mm, ears=ears))
    return next((other for other in found if other is not None and other.ears == ears), None)
