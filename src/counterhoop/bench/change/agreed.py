"""What clients agreed to on the way, for the invoice."""

from __future__ import annotations

import re
from typing import Final

from counterhoop.bench.change.found import Answer, FoundOnDrum, found_on
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.price.kept_quote import kept_quote
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
        one
        for drum in (*job.drums, *job.hidden_drums)
        for one in charged_on(drum, offer=accepted.offer.number)
    )


def charged_on(drum: KeptDrum, *, offer: int) -> tuple[ChangeCharged, ...]:
    """Return the same of one drum."""
    found = found_on(drum)
    return tuple(
        ChangeCharged(
            key=f"{drum.id}/{said.number}/{charge.kind}",
            says=_says(drum, found, said, charge.kind),
            amount=Money(minor=charge.minor, currency=charge.currency),
            kind=Kind(charge.kind),
            yes=SaidYes(who=said.who, when=said.when, how=said.how),
        )
        for said in found.answers
        if said.yes and said.offer == offer
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
