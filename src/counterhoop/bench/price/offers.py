"""Offers: a quote as it was handed out, the yes to its price, and what differs from it since."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.bench.change.agreed import left_out, names_agreed
from counterhoop.bench.folders.days import need_day
from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.folders.kinds import FOUND, QUOTE
from counterhoop.bench.folders.unmoved import has_moved
from counterhoop.bench.folders.write_down import Change, write_change, write_down
from counterhoop.bench.price.job_quote import JobQuote
from counterhoop.bench.price.kept_quote import (
    ACCEPTED,
    OFFERS,
    DrumOffered,
    Offer,
    kept_quote,
    offer_written,
)
from counterhoop.bench.price.words import for_good_said, story_said, title_said
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.bill.done import SaidYes
from counterhoop.job.yes.changes import lines_of
from counterhoop.papers.facts import Lengths
from counterhoop.quantities.day import say_day
from counterhoop.store.body import Json
from counterhoop.store.save import Conflict, Saved

LONGEST = 120


def offer(
    shop: Workshop, job: KeptJob, now: JobQuote, *, seen: str, day: str, to: str, say: Lengths,
    ready: str = "", by: str,
) -> Saved | Conflict:  # fmt: skip
    """Keep a quote as it is handed to a client; nothing changes it afterwards.

    Parameters
    ----------
    now : JobQuote
        As it stands.
    seen : str
        The price that the person saw, as it was printed.
    day : str
        From which it holds, year-month-day.
    to : str
        To whom it is handed.
    say : Lengths
        Prints lengths in the client's units.
    ready : str
        When it would be ready, and on which terms, as the paper says it.

    Raises
    ------
    BadInput
        Where the quote cannot be made yet, comes to something else than was seen, or something is
        not filled in.
    """
    price = str(now.need().price)
    if seen != price:
        raise BadInput(
            "the price has changed since that page was opened", where="price", given=seen,
            wanted=price, step="Look at it again, then hand it out",
        )  # fmt: skip
    made = replace(
        offer_now(shop, now, day=day, to=to, say=say, ready=ready, by=by),
        agreed=names_agreed(job),
    )
    before = job.kept(QUOTE)
    offers: list[Json] = [*before.table.get(OFFERS, []), offer_written(made)]
    change = Change(kind=QUOTE, value={**before.table, OFFERS: offers}, based_on=now.kept.number)
    return write_down(shop, job.id, change, by=by)


def offer_now(
    shop: Workshop, shown: JobQuote, *, day: str, to: str, say: Lengths, ready: str = "", by: str
) -> Offer:
    """Return the offer that a quote makes today, without keeping it."""
    given = need_day(day, where="day", today=shop.now().date())
    return Offer(
        number=len(shown.kept.offers) + 1,
        day=given,
        to=_words(to, where="to", wanted="to whom it is handed"),
        by=by,
        quote=shown.need(),
        drums=tuple(
            DrumOffered(
                id=one.kept.id,
                name=one.kept.name,
                scheme=f"{one.scheme.number}, {one.scheme.title}",
                code=one.scheme.code if one.scheme.permanent else "",
                permanent=lines_of(one.scheme),
            )
            for one in shown.drums
        ),
        title=title_said(shown.drums),
        story=story_said(shown.drums, say=say),
        permanent=for_good_said(shown.drums, say=say),
        ready=ready,
    )


def accept(
    shop: Workshop, job: KeptJob, number: int, *, who: str, when: str, how: str, based_on: int,
    by: str,
) -> Saved | Conflict:  # fmt: skip
    """Record a client's yes to the price of an offer.

    That is no yes to the drill: what cannot be undone is agreed drum by drum (``decide.approve``).
    A later yes to a newer offer takes the place of an earlier one, which stays in the history.

    Raises
    ------
    BadInput
        For no such offer, one that no longer holds or did not yet, one without what was agreed on
        the way since it was made, or something not filled in.
    """
    made = kept_quote(job).offer(number)
    day = need_day(when, where="when", today=shop.now().date())
    if not made.day <= day <= made.last_day:
        raise BadInput(
            "the offer does not hold on that day", where="when", given=say_day(day),
            wanted=f"{say_day(made.day)} to {say_day(made.last_day)}",
            step="Make the offer anew if it still stands.",
        )  # fmt: skip
    if lost := left_out(job, made):
        raise BadInput(
            "what was agreed on the way since this offer was made is not in it", where="offer",
            given="; ".join(one.says for one in lost),
            step="Make the offer anew: what was agreed is in its price then.",
        )  # fmt: skip
    said: Json = {
        "offer": number,
        "who": _words(who, where="who", wanted="who said yes"),
        "when": day.isoformat(),
        "how": _words(how, where="how", wanted='how, such as "by letter"'),
    }
    change = Change(kind=QUOTE, value={**job.kept(QUOTE).table, ACCEPTED: said}, based_on=based_on)
    stamp = shop.stamp(by)
    with shop.store.writing() as connection:
        if has_moved(connection, job, kinds=(FOUND,)):
            raise BadInput(
                "somebody wrote down what was found on the way at the same time", where="offer",
                step="Look at it again, then write the yes down",
            )  # fmt: skip
        return write_change(connection, job.id, change, stamp=stamp)


def accepted_says(yes: SaidYes, made: Offer) -> str:
    """Return the yes in words."""
    price = made.quote.price
    return f"{yes.who} said yes to {price} on {say_day(yes.when)}, {yes.how} (offer {made.number})."


def _words(typed: str, *, where: str, wanted: str) -> str:
    words = " ".join(typed.split())
    if not words or len(words) > LONGEST:
        raise BadInput("a few words belong here", where=where, given=typed or None, wanted=wanted)
    return words
