"""What a quote says of its drums in the client's words."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.bench.price.job_quote import DrumPriced
from counterhoop.papers.client_words import can_be_undone, cut_for_good, seen_afterwards
from counterhoop.papers.facts import Lengths, listed


def title_said(drums: Sequence[DrumPriced]) -> str:
    """Return what is proposed, for a title block."""
    if not drums:
        return "what is written below"
    return drums[0].scheme.title if len(drums) == 1 else f"work on {len(drums)} drums"


def story_said(drums: Sequence[DrumPriced], *, say: Lengths) -> tuple[str, ...]:
    """Return what it means: of one drum what is seen and can be undone, of several the schemes."""
    if len(drums) != 1:
        return tuple(f"The {one.kept.name}: {_small(one.scheme.title)}." for one in drums)
    scheme = drums[0].scheme
    return (f"Seen afterwards: {seen_afterwards(scheme, say=say)}.", *can_be_undone(scheme))


def for_good_said(drums: Sequence[DrumPriced], *, say: Lengths) -> tuple[str, ...]:
    """Return what cannot be undone: a phrase each for one drum, a line a drum for several."""
    phrases = [(one.kept.name, cut_for_good(one.scheme, say=say)) for one in drums]
    if len(drums) == 1:
        return tuple(phrases[0][1])
    return tuple(f"{name}: {listed(said)}" for name, said in phrases if said)


def _small(words: str) -> str:
    return f"{words[:1].lower()}{words[1:]}"
