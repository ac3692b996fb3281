"""When a drum was made, as its page shows it: the face first, figures one step beneath."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from counterhoop.bench.evidence.dating import Dating, Look
from counterhoop.bench.evidence.drum_features import AskedFeature, years_of
from counterhoop.evidence.originality import PartOrigin
from counterhoop.evidence.reference import Reference
from counterhoop.evidence.words import because_words, origin_words, years_words
from counterhoop.papers.screen.play import to_screen
from counterhoop.papers.years_plot import draw_years

WIDE_MM, NARROW_MM = 150.0, 84.0
MOST_NEXT = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class NextShown:
    """What to look at next, ready to be answered."""

    asked: AskedFeature
    look: str
    minutes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PartShown:
    """One part: what was seen on it, what it looks like, the odds."""

    part: str
    seen: str
    word: str
    odds: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LookShown:
    """One look with its figures and where they come from."""

    feature: str
    seen: str
    years: str
    right: str
    telling: str
    source: str
    photograph: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DatingShown:
    """What the page shows.

    Attributes
    ----------
    family : str
        Family and line that it is held against.
    face : str
        The years.
    says : tuple of str
        What stands beneath them.
    next : tuple of NextShown
        What to look at next, the most telling a minute first.
    parts : tuple of PartShown
    looks : tuple of LookShown
    spans : tuple of (str, str)
        Odds and years.
    wide, narrow : Markup
        The odds of each year, drawn for a screen and for a phone held upright.
    drawn_says : str
        The drawing in words.
    left_out : tuple of str
    """

    family: str
    face: str
    says: tuple[str, ...]
    next: tuple[NextShown, ...]
    parts: tuple[PartShown, ...]
    looks: tuple[LookShown, ...]
    spans: tuple[tuple[str, str], ...]
    wide: Markup
    narrow: Markup
    drawn_says: str
    left_out: tuple[str, ...]


def shown_dating(dating: Dating) -> DatingShown:
    """Return a dating as its page shows it."""
    found, reference = dating.found, dating.found.odds.ground.reference
    asked = {one.feature.name: one for one in dating.asked}
    spans = {odds: (span.first, span.last) for odds, span in found.spans.items()}
    drawn = [
        draw_years(
            found.odds.years.tolist(), found.odds.p.tolist(), spans=spans, wide_mm=wide, name=name
        )
        for wide, name in ((WIDE_MM, "years"), (NARROW_MM, "years-narrow"))
    ]
    wide, narrow = (
        Markup(to_screen(one, ident=name))
        for one, name in zip(drawn, ("years", "years-narrow"), strict=True)
    )
    by_part = {one.part: one.bits for one in found.carries}
    return DatingShown(
        family=" ".join(filter(None, (dating.known.family, dating.known.line))),
        face=years_words(found), says=(*because_words(found, told=dating.told), *dating.remarks),
        next=tuple(
            NextShown(asked=asked[one.feature], look=one.look, minutes=_minutes(one.minutes))
            for one in found.next_features[:MOST_NEXT]
        ),
        parts=tuple(_part(one, dating) for one in found.origins),
        looks=tuple(_look(one, reference, by_part) for one in dating.looks),
        spans=tuple((f"{100 * odds:.0f} %", str(span)) for odds, span in found.spans.items()),
        wide=wide, narrow=narrow, drawn_says=drawn[0].says, left_out=dating.left_out,
    )  # fmt: skip


def _part(one: PartOrigin, dating: Dating) -> PartShown:
    seen = {look.asked.feature.name: look.value for look in dating.looks}
    serial = dating.found.serial
    said = [
        f"{feature}: {seen[feature]}" if feature in seen
        else f"{feature} {serial.written}" if serial else feature
        for feature in one.features
    ]  # fmt: skip
    return PartShown(
        part=one.part, seen="; ".join(said), word=dating.word_of(one), odds=origin_words(one)
    )


def _look(one: Look, reference: Reference, by_part: dict[str, float]) -> LookShown:
    feature = one.asked.feature
    value = next((form for form in one.asked.values if form.name == one.value), None)
    gives = [end.give for end in (value.begins, value.ends) if end] if value else []
    years = years_of(value) if value else "in no row"
    if any(gives):
        years += ", give or take " + " and ".join(f"{give:g}" for give in gives)
    part = reference.part(feature.part)
    return LookShown(
        feature=feature.name, seen=one.value, years=years,
        right=f"{100 * one.right:.0f} % ({one.sure or 'not said, so as told'})",
        telling=f"{by_part.get(part.name, 0.0):.1f} bits with all that is seen on the {part.name}",
        source=value.source if value else feature.source, photograph=one.photograph,
    )  # fmt: skip


def _minutes(minutes: float) -> str:
    return f"about {minutes:.0f} minute{'' if round(minutes) == 1 else 's'}"
