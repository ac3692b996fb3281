"""Show the scheme that the kit's choice takes, and say why it is not the drum's own first."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from counterhoop.scheme.phrases import listed
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.rank import Ranked


def shown_with_chosen(
    chosen: Scheme,
    *,
    ranked: Mapping[str, Ranked],
    match: Sequence[Sequence[str]],
    by_hand: bool = False,
) -> Ranked:
    """Return a drum's schemes with the chosen one among those shown.

    On its own drum the chosen one may have been set aside; a client who is to sign it must see
    it, with the reason why the drum does not get its own first.
    """
    own = ranked[chosen.drum]
    if chosen.moved or not own.shown or own.shown[0].number == chosen.number:
        return own
    aside = next((a for a in own.set_aside if a.scheme.number == chosen.number), None)
    says = aside.says if aside else chosen.why
    why = f"Taken by hand. {says}" if by_hand else _why(chosen, own, says, ranked, match)
    told = replace(chosen, why=why)
    if aside is None:
        shown = tuple(told if s.number == chosen.number else s for s in own.shown)
        return replace(own, shown=shown)
    rest = tuple(a for a in own.set_aside if a is not aside)
    return replace(own, shown=(*own.shown, told), set_aside=rest)


def kit_whys(
    chosen: Mapping[str, Scheme], *, ranked: Mapping[str, Ranked], match: Sequence[Sequence[str]]
) -> tuple[str, ...]:
    """Say of each drum that does not get its own first what it would have had, and why not.

    ``ranked`` is as the drums were ranked on their own.
    """
    says = []
    for key, scheme in chosen.items():
        first = ranked[key].shown[0]
        if first.number == scheme.number:
            continue
        says.append(
            f"On its own the {key} would take {first.title[:1].lower()}{first.title[1:]};"
            f" {_reason(scheme, first, ranked, match)}."
        )
    return tuple(says)


def _reason(
    chosen: Scheme,
    first: Scheme,
    ranked: Mapping[str, Ranked],
    match: Sequence[Sequence[str]],
) -> str:
    partners = _partners(chosen.drum, ranked, match)
    barred = [f"the {key}" for key in partners if _stopped(ranked[key], first.pattern)]
    if barred:
        return f"that is stopped on {listed(barred)}, which it must match"
    if partners:
        return f"it must match {listed([f'the {key}' for key in partners])}"
    return "the kit goes by the price of all its drums together"


def _why(
    chosen: Scheme,
    own: Ranked,
    says: str,
    ranked: Mapping[str, Ranked],
    match: Sequence[Sequence[str]],
) -> str:
    partners = _partners(chosen.drum, ranked, match)
    if not partners:
        return f"Taken for the kit, which goes by the price of all its drums together. {says}"
    first = own.shown[0]
    barred = [key for key in partners if _stopped(ranked[key], first.pattern)]
    names = listed([f"the {key}" for key in partners])
    because = (
        f", where scheme {first.number}'s pattern, {first.pattern}, is stopped" if barred else ""
    )
    return f"Taken for the kit: it must match {names}{because}. {says}"


def _partners(drum: str, ranked: Mapping[str, Ranked], match: Sequence[Sequence[str]]) -> list[str]:
    keys = (key for group in match if drum in group for key in group)
    return [key for key in dict.fromkeys(keys) if key != drum and key in ranked]


def _stopped(ranked: Ranked, pattern: str) -> bool:
    """Whether every scheme of a pattern is stopped on a drum that has some."""
    tried = [s for s in ranked.shown if s.pattern == pattern]
    tried += [a.scheme for a in ranked.set_aside if a.scheme.pattern == pattern]
    return bool(tried) and all(scheme.stopped for scheme in tried)
