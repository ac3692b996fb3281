"""What a drum is and how sure that is, and what could not be known of it."""

from __future__ import annotations

from typing import Any, Final

from counterhoop.bench.evidence.dating import Dating, dating_of
from counterhoop.bench.evidence.drum_features import CANNOT_TELL, KEPT_AS, SERIAL
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import FACTS
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.papers.facts import Fact, holes_said, listed
from counterhoop.shell.drum import Drum
from counterhoop.shell.hole import Origin

CANT_TELL: Final = "can't tell"
HOW: Final = {"seen": "seen on it", "told": "told to us", "guessed": "our guess"}
MARKS: Final = (
    ("maker", "Made by"),
    (SERIAL, "Serial number"),
    (KEPT_AS["stamp"], "Stamps and labels"),
    ("history", "Its history"),
)
NAMES: Final = {kept: name for name, kept in KEPT_AS.items()}


def dated(shop: Workshop, job: KeptJob, drum: KeptDrum) -> Dating | None:
    """Return when a drum was made; nothing where its facts and the reference do not tell."""
    try:
        return dating_of(shop, job, drum)
    except BadInput:
        # Said on the drum's own page.
        return None


def sure_of(drum: KeptDrum, dating: Dating | None) -> tuple[Fact, ...]:
    """Return what it is, a line each, with how sure that is."""
    facts = drum.kept(FACTS).table
    said = [
        (f"{called}: {says}", sure) for key, called in MARKS for says, sure in _fact(facts, key)
    ]
    if dating is None:
        return tuple(said)
    span = dating.found.spans[0.8]
    years = (f"Made {'in' if span.wide == 1 else 'between'} {_between(str(span))}", "4 in 5")
    words: dict[str, list[str]] = {}
    for one in dating.found.origins:
        if (word := dating.word_of(one)) != CANT_TELL:
            words.setdefault(word, []).append(one.part)
    parts = [(f"The {listed(names)}", word) for word, names in words.items()]
    return (*said[:1], years, *said[1:], *parts)


def not_known(drum: KeptDrum, dating: Dating | None, found: Drum | None) -> tuple[str, ...]:
    """Return what nobody could tell of a drum, a sentence each."""
    said = []
    if dating is None:
        said.append("When it was made.")
    else:
        parts = [one.part for one in dating.found.origins if dating.word_of(one) == CANT_TELL]
        said += [f"Whether the {part} is its own." for part in parts]
    for key, held in drum.kept(FACTS).table.items():
        if isinstance(held, dict) and held.get("value") == CANNOT_TELL:
            said.append(f"The {NAMES.get(key, key).replace('_', ' ')}: looked at, and not told.")
    unsure = (
        [hole.number for hole in found.holes if hole.origin is Origin.NOT_SURE] if found else []
    )
    if unsure:
        said.append(f"Who made {holes_said(unsure)}.")
    return tuple(said)


def _fact(facts: dict[str, Any], key: str) -> list[Fact]:
    held = facts.get(key)
    told = held if isinstance(held, dict) else {}
    says, sure, who = (
        text.strip() if isinstance(text := told.get(word), str) else ""
        for word in ("says", "sure", "who")
    )
    if not says:
        return []
    how = HOW.get(sure, sure)
    return [(says, f"{how}: {who}" if how and who else how or who)]


def _between(span: str) -> str:
    return span.replace(" to ", " and ")
