"""The parts of a drum as a buyer is told of them: its own, later, changed by us, missing."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from counterhoop.bench.evidence.dating import Dating
from counterhoop.bench.record.parts_done import ADDED_OFF, OFF
from counterhoop.job.trade.facts import CHANGED, PartFact, PartState
from counterhoop.papers.facts import labels
from counterhoop.papers.handover_record import PartDone
from counterhoop.shell.drum import Drum, PlacedFitting
from counterhoop.shell.hole import Origin

BY_WORD: dict[str, tuple[PartState, str]] = {
    "original": ("original", ""),
    "of the period": ("of the period", ""),
    "later": ("later", ""),
    "earlier": ("altered", "off an older drum"),
    "can't tell": ("not sure", ""),
}
BY_DONE: dict[str, tuple[PartState, str]] = {
    "replaced": ("later", "replaced by us"),
    "added": ("later", "put on by us"),
    "new": ("later", "new"),
    "moved": ("altered", "moved by us"),
    "mended": ("altered", "mended by us"),
    "put back": ("original", "put back"),
    OFF: ("missing", "taken off by us"),
    "no use again": ("missing", "no use again"),
    "missing as it came": ("missing", ""),
}
"""What the record says was done to a part, as a buyer reads it."""


def parts_told(
    drum: Drum | None, dating: Dating | None, done: Sequence[PartDone]
) -> tuple[PartFact, ...]:
    """Return the parts of a drum, what was done to them last before how they were found.

    Parameters
    ----------
    drum : Drum or None
        As found.
    done : sequence of PartDone
        By the record.
    """
    hung = [*_hung(drum)]
    gone = {one.says for one in hung if one.state == "missing"}
    # What was added and came off again is no part of it any more, and is not missed.
    off = {one.part.casefold() for one in done if one.done == ADDED_OFF}
    by_us = [
        fact
        for one in done
        if one.done != ADDED_OFF and (fact := _done(one)).name.partition(" x ")[2] not in gone
    ]
    by_name: dict[str, PartFact] = {}
    for one in (*by_us, *_by_evidence(dating), *hung):
        if one.name.casefold() not in off:
            by_name.setdefault(one.name.casefold(), one)
    told = tuple(by_name.values())
    changed = [one for one in told if one.state in CHANGED]
    return tuple(
        one
        for one in told
        if one.state in CHANGED or not _named_in(one, (*changed, *_longer(one, told)))
    )


def _done(one: PartDone) -> PartFact:
    state, says = BY_DONE.get(one.done, ("altered", one.done))
    more = "" if one.says == "in the bag, yours" else one.says
    bag = "in the bag that goes with it" if one.says == "in the bag, yours" else ""
    return PartFact(name=one.part, state=state, says=": ".join(filter(None, (says, more or bag))))


def _by_evidence(dating: Dating | None) -> Iterable[PartFact]:
    for one in dating.found.origins if dating else ():
        if one.part == "shell":
            continue
        if dating and one.part in dating.told:
            yield PartFact(name=one.part, state="later", says=dating.told[one.part])
            continue
        state, says = BY_WORD[one.word]
        yield PartFact(name=one.part, state=state, says=says)


def _hung(drum: Drum | None) -> Iterable[PartFact]:
    """Yield what the survey says of the fittings that hang on the drum, or are gone."""
    if drum is None:
        return
    placed = [*drum.fittings, *(lug for row in drum.rows for lug in row.lugs)]
    gone = [one for one in placed if one.missing]
    later = [one for one in placed if not one.missing and one.origin is Origin.EXTRA]
    factory = [one for one in placed if not one.missing and one.origin is Origin.FACTORY]
    yield from _grouped("missing", gone)
    yield from _grouped("later", later)
    yield from _grouped("original", factory)


def _grouped(state: PartState, held: Sequence[PlacedFitting]) -> Iterable[PartFact]:
    for fitting in dict.fromkeys(one.fitting for one in held):
        names = [one.label for one in held if one.fitting == fitting]
        says = fitting if state == "missing" else ""
        yield PartFact(name=labels(names), state=state, says=says)


def _longer(one: PartFact, told: Iterable[PartFact]) -> Iterable[PartFact]:
    """Return parts of the same state whose names are longer: "strainer and butt" has the butt."""
    return (its for its in told if its.state == one.state and len(its.name) > len(one.name) + 1)


def _named_in(one: PartFact, changed: Iterable[PartFact]) -> bool:
    """Tell whether a change is about this part, or one of these: then nothing else is claimed."""
    name = re.escape(one.name.casefold().removesuffix("s"))
    return any(re.search(rf"\b{name}s?\b", other.name.casefold()) for other in changed)
