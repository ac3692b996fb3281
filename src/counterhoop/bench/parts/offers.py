"""Donors on offer for what a job still lacks: what is written of them, and the cheapest set."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from counterhoop.bench.long_work.answers import Answer
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.donor_task import cheapest
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.parts.wants_of_job import SortLacking
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.fittings.book import name_key
from counterhoop.parts.places.donors import CHANCE, Bought, Offer
from counterhoop.quantities.money import parse_money
from counterhoop.quantities.nearest import did_you_mean

MOST_OFFERS: Final = 60
SURE: Final = (
    ("0.5", "even odds"),
    ("0.75", "3 in 4"),
    ("", "9 in 10"),
    ("0.95", "19 in 20"),
    ("0.99", "99 in 100"),
)
"""How sure one may want to be; the empty one is ``CHANCE``."""
USABLE: Final = (
    ("", "all of it"),
    ("0.9", "9 pieces in 10"),
    ("0.75", "3 in 4"),
    ("0.5", "every other one"),
    ("0.25", "1 in 4"),
    ("0.1", "1 in 10"),
)
_MANY = re.compile(r"(?<=[a-z]{2})s\b")
_LINE = re.compile(r"\s*(\d{1,5})\s+(?:x\s+)?(\S.*?)\s*")


@dataclass(frozen=True, slots=True, kw_only=True)
class OffersRead:
    """What is written of donors, as far as it can be read.

    Attributes
    ----------
    offers : tuple of Offer
        Each with what it holds of the sorts that are looked for, by the piece's name.
    chance : float
        How sure it must be that all is covered.
    currency : str
        Of all prices.
    says : tuple of str
        What is left out, a sentence each.
    """

    offers: tuple[Offer, ...]
    chance: float = CHANCE
    currency: str = ""
    says: tuple[str, ...] = ()


def read_offers(
    table: Mapping[str, Any], *, wanted: Iterable[str], currency: str = ""
) -> OffersRead:
    """Read the offers of a job.

    Parameters
    ----------
    table : mapping
        The document, which may hold anything.
    wanted : iterable of str
        Names of the sorts that are looked for.
    currency : str
        The shop's, of prices that are written without one.
    """
    wanted = tuple(wanted)
    names = {_one_of(name): name for name in wanted} | {name_key(name): name for name in wanted}
    rows = table.get("offers")
    offers: list[Offer] = []
    says: list[str] = []
    shops, currency = currency, ""
    for number, row in enumerate(rows[:MOST_OFFERS] if isinstance(rows, list) else [], 1):
        if not isinstance(row, dict):
            continue
        name = _text(row, "name") or f"offer {number}"
        if name in [one.name for one in offers]:
            says.append(f'Two offers are called "{name}": the second is left out.')
            continue
        try:
            price = parse_money(_text(row, "price"), otherwise=shops)
        except BadInput as fault:
            why = f"{fault.what}: {fault.given}" if _text(row, "price") else "no price"
            says.append(f"{name} is left out: {why}.")
            continue
        currency = currency or price.currency
        if price.currency != currency:
            says.append(f"{name}: its price is not in {currency}, so it is left out.")
            continue
        holds, more = _holds(_text(row, "holds"), name=name, names=names)
        says += more
        offers.append(
            Offer(
                name=name, price_minor=price.minor, holds=holds,
                chance=_share(row.get("usable"), USABLE, otherwise=1.0),
            )
        )  # fmt: skip
    chance = _share(table.get("sure"), SURE, otherwise=CHANCE)
    return OffersRead(offers=tuple(offers), chance=chance, currency=currency, says=tuple(says))


def _holds(text: str, *, name: str, names: Mapping[str, str]) -> tuple[dict[str, int], list[str]]:
    """Read "8 Corvane round lug" line by line; what is not looked for counts for nothing."""
    holds: dict[str, int] = {}
    says = []
    for line in filter(None, (one.strip() for one in text.splitlines())):
        read = _LINE.fullmatch(line)
        if read is None:
            says.append(f'{name}: "{line}" says no count; write it as "8 Corvane round lug".')
            continue
        piece = names.get(name_key(read[2])) or names.get(_one_of(read[2]))
        if piece is None:
            near = did_you_mean(read[2], sorted({*names.values()}))
            says.append(f'{name}: no "{read[2]}" is looked for. {near}'.strip())
            continue
        holds[piece] = holds.get(piece, 0) + int(read[1])
    return holds, says


def _one_of(name: str) -> str:
    """Return a name's key as if there were one piece of it.

    Examples
    --------
    >>> _one_of("Corvane round lugs"), _one_of("flanged hoops 14 in, 8 ears")
    ('corvane round lug', 'flanged hoop 14 in, 8 ear')
    """
    return _MANY.sub("", name_key(name))


def _share(value: object, choices: Sequence[tuple[str, str]], *, otherwise: float) -> float:
    known = isinstance(value, str) and value and value in dict(choices)
    return float(str(value)) if known else otherwise


def _text(row: Mapping[str, Any], name: str) -> str:
    value = row.get(name)
    return value.strip() if isinstance(value, str) else ""


def on_offer(
    read: OffersRead, found: Iterable[SortLacking]
) -> tuple[tuple[tuple[str, int], ...], tuple[str, ...]]:
    """Part what is to be found: what all offers together hold enough of, and what they do not.

    Returns
    -------
    tuple of (str, int)
        Sorts that can be covered, and how many of each.
    tuple of str
        The others, with how many are offered: "flanged hoop 13 in (none of 1)".
    """
    wants: list[tuple[str, int]] = []
    beyond: list[str] = []
    for one in found:
        if not one.to_find:
            continue
        held = sum(offer.holds.get(one.sort.piece, 0) for offer in read.offers)
        if held >= one.to_find:
            wants.append((one.sort.piece, one.to_find))
        else:
            beyond.append(f"{one.sort.piece} ({held or 'none'} of {one.to_find})")
    return tuple(wants), tuple(beyond)


def ask_donors(
    shop: Workshop, job_id: str, read: OffersRead, wants: tuple[tuple[str, int], ...]
) -> Answer[Bought] | None:
    """Have the cheapest set worked out beside the pages; nothing where nothing can be covered."""
    if not wants or not read.offers:
        return None
    offers = tuple(
        (one.name, one.price_minor, tuple(sorted(one.holds.items())), one.chance)
        for one in read.offers
    )
    source = JobSource(tables_json=b"", folder=job_id)
    return shop.works.ask(
        Asked(line="parts", task=cheapest, source=source, arguments=(wants, offers, read.chance))
    )
