"""Donors on offer: the sheet they are written on, and what is said of the cheapest set."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from counterhoop.bench.folders.kinds import OFFERS
from counterhoop.bench.long_work.answers import Done, Failed, Working
from counterhoop.bench.parts.offers import (
    SURE,
    USABLE,
    OffersRead,
    ask_donors,
    on_offer,
    read_offers,
)
from counterhoop.bench.parts.wants_of_job import SortLacking
from counterhoop.bench.shelf.workshops_own import workshops_own
from counterhoop.bench.workshop import Workshop
from counterhoop.papers.facts import listed, say_money
from counterhoop.parts.places.donors import Bought
from counterhoop.web.parts_desk import PartsDesk
from counterhoop.web.plain_sheet import Lines, Question
from counterhoop.web.plain_write import Sheet

DONOR_S: Final = 0.08
NAMED: Final = 3
"""Up to so many sorts are named in a sentence."""
SURELY: Final = Question(
    name="sure", label="How sure it must be", kind="choice", choices=SURE,
    help="That it covers all that is to be found.",
)  # fmt: skip


def _offered(currency: str) -> Lines:
    return Lines(
        name="offers",
        label="What is on offer",
        one="offer",
        help="A drum for its parts, a bag of parts: bought whole or not at all.",
        of=(
            Question(name="name", label="What and where"),
            Question(
                name="price", label="Price with the carriage", kind="money", currency=currency,
                help=f'Such as "45"; without a currency it is {currency}.',
            ),
            Question(
                name="holds", label="What is in it", kind="note",
                help='A sort a line, as it is called above: "8 Corvane round lug".',
            ),
            Question(name="usable", label="How much of it is any good", kind="choice",
                     choices=USABLE),
        ),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Donors:
    """What is said of donors.

    Attributes
    ----------
    says : str
        The answer in a sentence; empty while there is none.
    proof : str
        How far it is proven.
    each : tuple of (str, str)
        The chance of each sort.
    left_out : tuple of str
    working : Working or None
    failed : Failed or None
    """

    says: str = ""
    proof: str = ""
    each: tuple[tuple[str, str], ...] = ()
    left_out: tuple[str, ...] = ()
    working: Working | None = None
    failed: Failed | None = None


def offers_of(shop: Workshop, job: str) -> Sheet:
    """Return the sheet of a job's offers."""
    back, parts = f"/jobs/{job}/parts", (_offered(workshops_own(shop).currency), SURELY)
    return Sheet(
        ident="offers", job=job, kind=OFFERS, parts=parts, action=f"{back}/offers",
        back=f"{back}#donors",
    )  # fmt: skip


def donors_for(desk: PartsDesk, found: Sequence[SortLacking]) -> Donors:
    """Return the cheapest donors for what is to be found, or how far that is."""
    table = desk.job.kept(OFFERS).table
    if table.get("offers") and desk.planned.working:
        # What a scheme adds is not known to be wanted yet.
        return Donors(left_out=("Looked through once the schemes are worked out.",))
    names = [one.sort.piece for one in found if one.to_find]
    read = read_offers(table, wanted=names, currency=workshops_own(desk.shop).currency)
    wants, beyond = on_offer(read, found)
    answer = ask_donors(desk.shop, desk.job.id, read, wants)
    if isinstance(answer, Working):
        answer = desk.shop.works.wait(answer.id, DONOR_S)
    if isinstance(answer, Done):
        return _said(answer.value, read, beyond=beyond)
    if read.offers and not wants:
        says = "No offer has enough of anything that is to be found."
        if not names:
            says = "Nothing is to be found, so no donor is needed."
        return Donors(says=says, left_out=read.says)
    return Donors(
        left_out=read.says,
        working=answer if isinstance(answer, Working) else None,
        failed=answer if isinstance(answer, Failed) else None,
    )


def _said(bought: Bought, read: OffersRead, *, beyond: tuple[str, ...]) -> Donors:
    wanted = _in_hundred(read.chance)
    lacking = f" Not enough is on offer of {'; '.join(beyond)}." if beyond else ""
    if bought.reached:
        price = say_money(bought.price_minor, currency=read.currency)
        names = listed([one.name for one in bought.taken])
        what = "what is to be found of " + _sorts(bought) if beyond else "all that is to be found"
        says = f"{names}: {price} in all. Covers {what} {_in_hundred(bought.chance)}."
        says += lacking
        proof = (
            f"Nothing cheaper does so {wanted}: proven."
            if bought.proven
            else "Whether something cheaper does so is not proven: the search was stopped."
        )
    else:
        says = f"All offers together do not reach {wanted}, only {_in_hundred(bought.chance)}."
        says += lacking
        proof = ""
    each = tuple((piece, _in_hundred(chance)) for piece, chance in bought.each)
    return Donors(says=says, proof=proof, each=each, left_out=read.says)


def _sorts(bought: Bought) -> str:
    pieces = [piece for piece, _ in bought.each]
    return listed(pieces) if len(pieces) <= NAMED else f"{len(pieces)} sorts"


def _in_hundred(chance: float) -> str:
    """Say a chance as one counts it; never as sure as nothing is.

    Examples
    --------
    >>> _in_hundred(0.934), _in_hundred(0.9999), _in_hundred(1.0), _in_hundred(0.0)
    ('93 times in 100', 'more than 99 times in 100', 'every time', 'never')
    """
    if chance >= 1.0:
        return "every time"
    if chance <= 0.0:
        return "never"
    if chance > 0.99:
        return "more than 99 times in 100"
    return f"{int(100 * chance)} times in 100" if chance >= 0.01 else "less than once in 100"
