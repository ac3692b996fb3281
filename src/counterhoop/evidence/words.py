"""What a colleague would say of a dated drum, one sentence to an item."""

from __future__ import annotations

from collections.abc import Mapping

from counterhoop.evidence.dated import Dated
from counterhoop.evidence.originality import PartOrigin
from counterhoop.evidence.span import Span
from counterhoop.survey.thread_odds import ALMOST_SURE, odds_words

_CARRIES_BITS = 0.15
_WIDE_YEARS = 25
_ORIGINS = {
    "original": "original", "of the period": "of the period", "later": "later",
    "earlier": "off an older drum",
}  # fmt: skip


def dated_words(found: Dated) -> tuple[str, ...]:
    """Return the sentences for the face: years, what carries them, later parts, what to do next."""
    return (years_words(found), *because_words(found), next_words(found))


def because_words(found: Dated, *, told: Mapping[str, str] | None = None) -> tuple[str, ...]:
    """Return what stands beneath the years: what carries them, which parts differ, the number.

    Parameters
    ----------
    found : Dated
    told : mapping of str to str, optional
        Parts that the shop itself calls later, each with where it says so.
    """
    told = told or {}
    says = [carries_words(found)] if found.carries else []
    if found.conflict:
        says += found.conflict.says
    named = {*found.conflict.parts} if found.conflict else set()
    says += [f"The {part}: later, says the shop ({by})." for part, by in told.items()]
    named |= told.keys()
    says += [later_words(one) for one in found.later_parts if one.part not in named]
    says += [
        f"The {one.part}: can't tell whether the drum's own."
        for one in found.origins
        if one.word == "can't tell" and one.part not in named
    ]
    settled = {name for one in found.origins if one.part in told for name in one.features}
    unlisted = tuple(name for name in found.unlisted if name not in settled)
    if unlisted:
        says.append(
            f"In no row of the reference: the {_listed(unlisted)}. That speaks for a time of "
            "which it has none, or a later part; add a row if you know more."
        )
    says += found.serial.says if found.serial else ()
    return tuple(says)


def next_words(found: Dated) -> str:
    """Say what to look at next."""
    if not found.next_features:
        return "Nothing else in the reference would tell much more."
    best = found.next_features[0]
    return f"Next, the {best.feature}: {best.look}."


def years_words(found: Dated) -> str:
    """Say the years; one that is given as sure as the reference can make it is still a span."""
    likely, wide = found.spans[0.8], found.spans[0.95]
    if likely.wide > _WIDE_YEARS:
        return f"This does not date it: somewhere in {likely}."
    return (
        f"Most likely made {_years(likely)} (4 in 5); hardly before {wide.first} or after "
        f"{wide.last} (1 in 20)."
    )


def carries_words(found: Dated) -> str:
    """Say what the years rest on."""
    telling = [" and ".join(one.features) for one in found.carries if one.bits >= _CARRIES_BITS]
    if not telling:
        return "No one part carries this: what was seen would fit most years."
    rest = f", then on the {telling[1]}" if telling[1:] else " alone"
    return f"This rests on the {telling[0]}{rest}."


def later_words(one: PartOrigin) -> str:
    """Say that a part looks later than the drum."""
    sure = "almost surely" if one.later >= ALMOST_SURE else odds_words(one.later)
    return f"The {one.part}: {sure} later than the drum."


def origin_words(one: PartOrigin) -> str:
    """Say what a part is and how likely, each word once; what is under half in a hundred is not."""
    odds = {
        "original": one.original, "of the period": one.of_the_period, "later": one.later,
        "earlier": one.earlier,
    }  # fmt: skip
    said = ", ".join(
        f"{_ORIGINS[word]} {100 * odds[word]:.0f} %"
        for word in sorted(odds, key=lambda word: -odds[word])
        if odds[word] >= 0.005
    )
    return f"can't tell ({said})" if one.word == "can't tell" else said


def _years(span: Span) -> str:
    return f"about {span}" if span.wide == 1 else str(span)


def _listed(names: tuple[str, ...]) -> str:
    return " and the ".join(names)
