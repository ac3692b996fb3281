"""What was in use from when to when: the records of the reference that dating rests on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean

UNLISTED = "none of these"
"""What is seen is in no row of the reference."""


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """A year that is known give or take some years (one standard deviation)."""

    year: float
    give: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line of drums that a family made; ``made`` is how many a year, against other lines."""

    family: str
    name: str
    begins: End
    ends: End | None
    made: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What is taken off and replaced as one, with every feature that is seen on it.

    Attributes
    ----------
    lost_in_fifty_years : float
        Of a hundred drums fifty years old, the share on which this part is not the first.
    from_a_donor : float
        Of the later ones, the share that came off another drum instead of new.
    """

    name: str
    lost_in_fifty_years: float
    from_a_donor: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Feature:
    """Something one can see: on which part, how to look, and how many minutes that takes.

    ``unlisted`` is how often what was fitted stands in no row, against one value in use.
    """

    name: str
    part: str
    look: str
    minutes: float
    unlisted: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """One form of a feature, in use from about a year to about a year.

    Attributes
    ----------
    begins, ends : End or None
        First and last year; None where nobody knows of one.
    follows : str
        The value that it took over from: it begins when that one ends, whenever that was;
        ``begins`` then says the year after.
    share : float
        How usual it was among those in use at one time.
    lines, diameters_mm : tuple
        To which it belongs; empty means all.
    """

    family: str
    feature: str
    name: str
    begins: End | None
    ends: End | None
    follows: str
    share: float
    lines: tuple[str, ...]
    diameters_mm: tuple[float, ...]
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SerialExample:
    """A serial number whose year is known by other means, give or take; it stands on a part."""

    family: str
    prefix: str
    number: int
    year: float
    give: float
    part: str
    written: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """All rows of one file, in its order."""

    lines: tuple[Line, ...] = ()
    parts: tuple[Part, ...] = ()
    features: tuple[Feature, ...] = ()
    values: tuple[Value, ...] = ()
    serials: tuple[SerialExample, ...] = ()

    @property
    def families(self) -> tuple[str, ...]:
        """Every family that a line belongs to."""
        return tuple(dict.fromkeys(line.family for line in self.lines))

    def part(self, name: str) -> Part:
        """Return a part by name."""
        return _named(name, self.parts, word="part")

    def feature(self, name: str) -> Feature:
        """Return a feature by name."""
        return _named(name, self.features, word="feature")

    def lines_of(self, family: str, *, line: str = "") -> tuple[Line, ...]:
        """Return the lines of a family, or the one that is named.

        Raises
        ------
        BadInput
            When the reference has no such family or line.
        """
        known = [one for one in self.lines if one.family == family]
        if not known:
            raise BadInput(
                "the reference has no such family", where="family", given=family,
                wanted="one of " + (", ".join(self.families) or "those that you add to it"),
                step=did_you_mean(family, self.families),
            )  # fmt: skip
        return tuple(known) if not line else (_named(line, known, word="line"),)

    def values_of(
        self, feature: str, *, family: str, line: str, diameter_mm: float | None = None
    ) -> tuple[Value, ...]:
        """Return the values of a feature that belong to a line and a shell's nominal diameter."""
        return tuple(
            value
            for value in self.values
            if (value.family, value.feature) == (family, feature)
            and (not value.lines or line in value.lines)
            and (
                diameter_mm is None
                or not value.diameters_mm
                or min(abs(diameter_mm - one) for one in value.diameters_mm) < SAME_SIZE_MM
            )
        )

    def over(self, beneath: Reference) -> Reference:
        """Return this reference laid over another: a row of the same name takes its place.

        Serial examples of a family that this one has any of take the place of all of them. What
        follows another value begins when that one ends in the whole.
        """
        mine = {(one.family, one.prefix) for one in self.serials}
        return Reference(
            lines=_laid_over(self.lines, beneath.lines),
            parts=_laid_over(self.parts, beneath.parts),
            features=_laid_over(self.features, beneath.features),
            values=_begun_again(_laid_over(self.values, beneath.values)),
            serials=self.serials
            + tuple(one for one in beneath.serials if (one.family, one.prefix) not in mine),
        )


SAME_SIZE_MM = 6.0
"""Nominal sizes nearer than this are one size. Common practice, no source."""


Row = TypeVar("Row", Line, Part, Feature, Value)
Named = TypeVar("Named", Line, Part, Feature)


def key_of(row: object) -> tuple[str, ...]:
    """Return what no two rows of one kind may share."""
    return tuple(str(getattr(row, word, "")) for word in ("family", "feature", "name"))


def _laid_over(mine: tuple[Row, ...], beneath: tuple[Row, ...]) -> tuple[Row, ...]:
    rows = {key_of(row): row for row in beneath} | {key_of(row): row for row in mine}
    return tuple(rows.values())


def _begun_again(values: tuple[Value, ...]) -> tuple[Value, ...]:
    ends = {key_of(value): value.ends for value in values}
    found = []
    for value in values:
        end = ends.get((value.family, value.feature, value.follows)) if value.follows else None
        found.append(replace(value, begins=after(end)) if end else value)
    return tuple(found)


def after(end: End) -> End:
    """Return the first year of what took over when something else ended.

    Examples
    --------
    >>> after(End(year=1949, give=1.5))
    End(year=1950.0, give=1.5)
    """
    return End(year=end.year + 1.0, give=end.give)


def _named(name: str, rows: Iterable[Named], *, word: str) -> Named:
    known = {row.name: row for row in rows}
    if name not in known:
        raise BadInput(
            f"the reference has no such {word}", where=word, given=name,
            wanted="one of " + ", ".join(known), step=did_you_mean(name, known),
        )  # fmt: skip
    return known[name]
