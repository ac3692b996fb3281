"""What the page of a job's price shows, as its template takes it."""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace
from typing import Any

from counterhoop.bench.change.agreed_so_far import agreed_so_far, asks_more
from counterhoop.bench.folders.history import before
from counterhoop.bench.price.job_quote import JobQuote
from counterhoop.bench.price.kept_quote import KeptQuote, Offer
from counterhoop.bench.price.offers import accepted_says
from counterhoop.bench.price.since import Since, since_accepted
from counterhoop.job.price.quote import Quote
from counterhoop.job.price.tax import TaxSort
from counterhoop.job.yes.differences import together
from counterhoop.papers.cautions import DEFER
from counterhoop.papers.facts import holes_said
from counterhoop.quantities.duration import print_minutes
from counterhoop.web.folder_index import drum_address, folder_index, job_address
from counterhoop.web.look.say import capfirst
from counterhoop.web.price_desk import PriceDesk
from counterhoop.web.price_drums import agreed_of, ways_of
from counterhoop.web.price_lines import lines_by_drum, open_lines, priced_so_far, sums_says
from counterhoop.web.price_typed import NOTHING, Typed
from counterhoop.web.price_words import (
    KINDS,
    NOTHING_ASKED,
    anew_says,
    ceiling_says,
    covers_says,
    handed_says,
    hours_says,
    no_price_says,
    stands_says,
    terms_says,
    wanting_says,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class OfferShown:
    """An offer: a sentence, whether it is the last, the yes to it."""

    offer: Offer
    says: str
    last: bool
    yes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumSince:
    """What differs on one drum since the yes to the price, and where the note on it is."""

    name: str
    says: tuple[str, ...]
    href: str


def price_data(desk: PriceDesk, *, typed: Typed = NOTHING) -> dict[str, Any]:
    """Return everything that the page shows, also while there is no plan."""
    planned, kept, now = desk.planned, desk.kept, desk.quote
    data: dict[str, Any] = {
        "job": desk.job,
        "address": desk.address,
        "job_address": job_address(desk.job),
        "index": folder_index(desk.job, here=desk.address),
        "working": planned.working,
        "failed": planned.failed,
        "unread": _unread(desk),
        "typed": typed,
        "document": desk.document,
        "undo_to": before(desk.document, desk.shop, nothing_first=True),
        "today": desk.shop.now().astimezone().date().isoformat(),
        "client": str(desk.job.job.get("client") or ""),
        "kinds": KINDS,
        "kept": kept,
        "offers": _offers(kept),
        "now": now,
    }
    return data | _of_quote(desk, now) if now is not None else data


def _of_quote(desk: PriceDesk, now: JobQuote) -> dict[str, Any]:
    terms, quote = now.terms, now.quote
    if quote is not None and not any(line.counts for line in quote.lines):
        # Nothing at all is no price of nothing.
        quote = None
    held_up, groups = open_lines(now), lines_by_drum(now)
    return {
        "quote": quote,
        **_face(desk, now, quote),
        "covers": covers_says(now),
        "wanting": wanting_says(now),
        "open_lines": held_up,
        "held_up": no_price_says(len(held_up)) if held_up else "",
        "so_far": priced_so_far(now) if held_up else "",
        # A line without a price is said by the lines themselves, each with its way out.
        "fault": "" if held_up or now.fault is None else capfirst(str(now.fault)),
        "without": now.without,
        "beneath": [capfirst(line) for line in now.beneath],
        "hours": hours_says(now),
        "hours_of": _hours(now),
        "terms": terms_says(terms),
        "sums": sums_says(quote) if quote else [],
        "tax_foot": quote.sums.says if quote else (),
        "lines": groups,
        "news": [one for group in groups for one in group.lines if one.news],
        "on_margin": terms.tax is TaxSort.MARGIN or bool(now.kept.bought_for),
        "discount": now.kept.discount or {},
        "several_ways": any(len(drum.plan.ranked.shown) > 1 for drum in now.drums),
        "other_ways": [
            found for drum in now.drums if quote and (found := ways_of(desk, now, drum))
        ],
        "agreed": [agreed_of(desk, drum) for drum in now.drums],
        "defer": DEFER,
        **_since(desk, now),
    }


def _face(desk: PriceDesk, now: JobQuote, quote: Quote | None) -> dict[str, Any]:
    """Return what stands large: once there is a yes, what was agreed, and not the price anew."""
    agreed = agreed_so_far(desk.job)
    offers_at = str(quote.price) if quote else ""
    if agreed is not None:
        return {
            "face": str(agreed.price),
            "beside": ceiling_says(agreed.ceiling),
            "offers_at": offers_at,
            "agreed_says": agreed.says,
            "stands": stands_says(now.kept, quote, asks=asks_more(desk.job, now)),
        }
    return {
        "face": offers_at or "No price yet",
        "beside": ceiling_says(quote.ceiling.gross) if quote else "" if now.fault else (
            NOTHING_ASKED
        ),
        "offers_at": offers_at,
        "agreed_says": "",
        "stands": stands_says(now.kept, quote),
    }  # fmt: skip


def _offers(kept: KeptQuote) -> list[OfferShown]:
    accepted = kept.accepted
    return [
        OfferShown(
            offer=made,
            says=handed_says(made),
            last=made is kept.offers[-1],
            yes=accepted_says(accepted.yes, made)
            if accepted and accepted.offer.number == made.number
            else "",
        )
        for made in reversed(kept.offers)
    ]


def _since(desk: PriceDesk, now: JobQuote) -> dict[str, Any]:
    if now.kept.accepted is None:
        return {"since": Since(), "drums_since": ()}
    found, agreed = Since(), agreed_so_far(desk.job)
    if agreed is not None:
        found = since_accepted(now, say=desk.say, agreed=agreed.price)
        if agreed.later and not asks_more(desk.job, now):
            # What is other than the offer had it was agreed after it, line for line.
            found = replace(found, price=(), learned=anew_says(now, agreed.price))
    drums = []
    for drum_id, apart in found.drums:
        drum = desk.job.drum(drum_id)
        said = tuple(
            f"{capfirst(holes_said(holes))}: {does}." if holes else f"{does}."
            for does, holes in together(apart)
        )
        href = f"{drum_address(desk.job, drum)}/found"
        drums.append(DrumSince(name=drum.name, says=said, href=href))
    return {"since": found, "drums_since": tuple(drums)}


def _hours(now: JobQuote) -> list[tuple[str, list[tuple[str, str]]]]:
    """Return the hours of each operation, drum by drum: what is done, how long and who says so."""
    every = iter(now.work.hours.lines)
    said = []
    for drum, lines in zip(now.drums, now.work.lines, strict=True):
        found = []
        for line in itertools.islice(every, len(lines)):
            times = f"{line.count} × " if line.count > 1 else ""
            quick, usual, slow = map(print_minutes, (line.quick_min, line.usual_min, line.slow_min))
            takes = f"{usual} as a rule, {quick} quick, {slow} slow; {line.whose}"
            found.append((capfirst(f"{times}{line.operation}"), takes))
        said.append((drum.kept.name, found))
    return said


def _unread(desk: PriceDesk) -> list[tuple[str, str]]:
    """Return the drums that keep themselves out of the plan, and where that is put right."""
    return [
        (drum.name, f"{drum_address(desk.job, drum)}/shell#adds-up")
        for drum in desk.job.drums
        if drum.id in desk.planned.faults
    ]
