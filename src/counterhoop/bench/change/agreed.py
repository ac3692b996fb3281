"""What clients agreed to on the way, for the invoice."""

from __future__ import annotations

import re
from typing import Final

from counterhoop.bench.change.found import Answer, FoundOnDrum, found_on
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.price.kept_quote import Offer, kept_quote
from counterhoop.job.bill.done import ChangeCharged, SaidYes
from counterhoop.job.price.line import Kind
from counterhoop.quantities.day import say_day
from counterhoop.quantities.money import Money

SENTENCE_ENDS: Final = re.compile(r"\.\s+(?=[A-Z])")
"""Not the full stop of an inch."""


def agreed_changes(job: KeptJob) -> tuple[ChangeCharged, ...]:
    """Return the changes of a job that its client said yes to, as its invoice has them.

    Only those of the offer that stands accepted: a later offer has in its price what was found
    before it.
    """
    accepted = kept_quote(job).accepted
    if accepted is None:
        return ()
    return tuple(
        one for drum in _every(job) for one in charged_on(drum, offer=accepted.offer.number)
    )


def charged_on(drum: KeptDrum, *, offer: int) -> tuple[ChangeCharged, ...]:
    """Return the same of one drum."""
    return tuple(
        one for said in _said_yes(drum) if said.offer == offer for one in _charges(drum, said)
    )


def names_agreed(job: KeptJob) -> tuple[str, ...]:
    """Return a name of each change that was agreed so far, whatever offer it came on top of.

    An offer that is made now has all of them in its price.
    """
    return tuple(_name(drum, said) for drum in _every(job) for said in _said_yes(drum))


def left_out(job: KeptJob, made: Offer) -> tuple[ChangeCharged, ...]:
    """Return what was agreed on the way and would be on no bill once an offer is accepted.

    A change is in the price of every offer that was made after its yes, and comes on top of the
    one that stood accepted then. On top of another, made before the yes, nobody agreed to it.
    """
    return tuple(
        one
        for drum in _every(job)
        for said in _said_yes(drum)
        if said.offer != made.number and _name(drum, said) not in made.agreed
        for one in _charges(drum, said)
    )


def _every(job: KeptJob) -> tuple[KeptDrum, ...]:
    return (*job.drums, *job.hidden_drums)


def _said_yes(drum: KeptDrum) -> tuple[Answer, ...]:
    return tuple(said for said in found_on(drum).answers if said.yes)


def _name(drum: KeptDrum, said: Answer) -> str:
    return f"{drum.id}/{said.number}"


def _charges(drum: KeptDrum, said: Answer) -> tuple[ChangeCharged, ...]:
    found = found_on(drum)
    return tuple(
        ChangeCharged(
            key=f"{_name(drum, said)}/{charge.kind}",
            says=_says(drum, found, said, charge.kind),
            amount=Money(minor=charge.minor, currency=charge.currency),
            kind=Kind(charge.kind),
            yes=SaidYes(who=said.who, when=said.when, how=said.how),
        )
        for charge in said.charges
    )


def _says(drum: KeptDrum, found: FoundOnDrum, said: Answer, kind: str) -> str:
    """Return the words of the line on the bill."""
    # What was found, and not what follows from it: that is said on the note.
    about = [
        SENTENCE_ENDS.split(one.says)[0].rstrip(".")
        for n in said.things
        if (one := found.thing(n)) is not None
    ]
    what = about[0] if len(about) == 1 else "what was found on the way"
    return (
        f"{drum.name}: {what[:1].lower()}{what[1:]}"
        f"{'' if kind == Kind.WORK else f', {kind}'}, agreed on {say_day(said.when)}"
    )
