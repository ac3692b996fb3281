"""What is known of a drum beside its survey, as its identity sheet says it."""

from __future__ import annotations

from typing import Any

from counterhoop.bench.evidence.dating import Dating, dating_of
from counterhoop.bench.evidence.drum_features import KEPT_AS, SERIAL, years_of
from counterhoop.bench.folders.album import photographs_of
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import FACTS
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.evidence.originality import PartOrigin
from counterhoop.evidence.words import because_words, years_words
from counterhoop.papers.identity_sheet import Identity, PartSaid

MARKS = (
    ("maker", "said to be by"),
    (SERIAL, "serial number"),
    (KEPT_AS["stamp"], "stamps and labels"),
    ("history", "its history"),
)
"""Facts by which a drum can be known again, and what each is called on the sheet."""


def identity_of(shop: Workshop, job: KeptJob, drum: KeptDrum) -> Identity:
    """Return what is known of a drum: marks, when it was made, part by part, photographs."""
    facts = drum.kept(FACTS).table
    try:
        dating = dating_of(shop, job, drum)
    except BadInput:
        # Said on the drum's page; the sheet goes without years.
        dating = None
    marks = [(called, _said(facts.get(key))) for key, called in MARKS]
    shown = [
        one.says or one.shows
        for one in photographs_of(shop, job)
        if one.drum is not None and one.drum.id == drum.id
    ]
    return Identity(
        marks=tuple((called, says) for called, says in marks if says),
        dated=_dated(dating) if dating else (),
        parts=tuple(_part(one, dating) for one in dating.found.origins) if dating else (),
        photographs=tuple(shown),
    )


def _dated(dating: Dating) -> tuple[str, ...]:
    found = dating.found
    return (years_words(found), *because_words(found, told=dating.told), *dating.remarks)


def _said(held: Any) -> str:
    """Return a fact with who says so and how sure."""
    told = held if isinstance(held, dict) else {}
    says, *beside = (
        text.strip() if isinstance(text := told.get(word), str) else ""
        for word in ("says", "sure", "who")
    )
    if not says:
        return ""
    more = ", ".join(filter(None, beside))
    return f"{says} ({more})" if more else says


def _part(one: PartOrigin, dating: Dating) -> PartSaid:
    looks = {look.asked.feature.name: look for look in dating.looks}
    seen, why = [], []
    for feature in one.features:
        look = looks.get(feature)
        if look is None:
            number = dating.found.serial
            seen.append(f"{feature} {number.written}" if number else feature)
            why += [f"by the number alone {number.spans[0.8]}"] if number else []
            continue
        seen.append(f"{feature}: {look.value}")
        form = next((form for form in look.asked.values if form.name == look.value), None)
        why.append(f"in use {years_of(form)}" if form else "in no row of the dated features")
    if by := dating.told.get(one.part):
        why = [by, f"by its looks alone: {one.word}"]
    return PartSaid(
        part=one.part, seen="; ".join(seen), word=dating.word_of(one), why="; ".join(why)
    )
