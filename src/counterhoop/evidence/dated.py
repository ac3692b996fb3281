"""A drum's evidence brought together: when it was made, what carries that, what is not its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.evidence.conflict import Conflict, conflict_of
from counterhoop.evidence.ground import Ground, ground_of
from counterhoop.evidence.in_use import Array
from counterhoop.evidence.next_feature import Carries, NextFeature, carried_by, next_features
from counterhoop.evidence.originality import PartOrigin, origins_of
from counterhoop.evidence.reference import Reference
from counterhoop.evidence.rows import read_number
from counterhoop.evidence.seen import Seen
from counterhoop.evidence.serial import SerialYear, serial_year
from counterhoop.evidence.span import Span, spans_of
from counterhoop.evidence.year import YearOdds, p_year

MISREAD = 0.02
"""How often a serial number is read or stamped wrong. Common practice, no source."""
SERIAL = "serial number"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dated:
    """What is seen of a drum comes to this.

    Attributes
    ----------
    spans : dict
        Shortest run of years for odds of 0.5, 0.8 and 0.95.
    odds : YearOdds
        Every year with its odds.
    lines : dict
        Lines it may be of, with their odds.
    carries : tuple of Carries
        What the years rest on, most first.
    origins : tuple of PartOrigin
        Of each part of which something was seen.
    conflict : Conflict or None
        Two parts of which only one can be of the drum's time.
    next_features : tuple of NextFeature
        What to look at next, the most telling a minute first.
    serial : SerialYear or None
        What the number says alone.
    unlisted : tuple of str
        Features seen that stand in no row.
    """

    spans: dict[float, Span]
    odds: YearOdds
    lines: dict[str, float]
    carries: tuple[Carries, ...]
    origins: tuple[PartOrigin, ...]
    conflict: Conflict | None
    next_features: tuple[NextFeature, ...]
    serial: SerialYear | None
    unlisted: tuple[str, ...]

    @property
    def later_parts(self) -> tuple[PartOrigin, ...]:
        """Parts that look later than the drum, the surest first."""
        later = [one for one in self.origins if one.word == "later"]
        return tuple(sorted(later, key=lambda one: -one.later))


def date_drum(
    seen: Sequence[Seen],
    reference: Reference,
    *,
    family: str,
    looked_at: int,
    line: str = "",
    diameter_mm: float | None = None,
    serial: str = "",
) -> Dated:
    """Return when a drum was made, as far as what was seen of it tells.

    Parameters
    ----------
    seen : sequence of Seen
        Each feature at most once.
    reference : Reference
        A workshop's own laid over the packaged one, checked.
    family, line : str
        As the drum says, or whoever brought it.
    looked_at : int
        The year of looking.
    diameter_mm : float, optional
        Nominal size, where it is known.
    serial : str
        As it stands on the drum, or nothing.

    Raises
    ------
    BadInput
        A name that the reference does not know, a feature told twice, a number that is none or
        of which too few are dated.
    """
    ground = ground_of(
        reference, family=family, looked_at=looked_at, line=line, diameter_mm=diameter_mm
    )
    return dated(seen, ground, serial=serial)


def dated(seen: Sequence[Seen], ground: Ground, *, serial: str = "") -> Dated:
    """Return the same of a reference that is already laid out."""
    number = serial_year(serial, ground.serials) if serial else None
    by_number = _by_number(number, ground) if number else {}
    odds = p_year(seen, ground, serial=by_number)
    features: dict[str, tuple[str, ...]] = {}
    for one in seen:
        part = ground.table(one.feature).part
        features[part] = (*features.get(part, ()), one.feature)
    for part in by_number:
        features[part] = (*features.get(part, ()), SERIAL)
    return Dated(
        spans=spans_of(odds.years, odds.p),
        odds=odds,
        lines=odds.lines,
        carries=carried_by(odds, features),
        origins=origins_of(odds, features),
        conflict=conflict_of(odds),
        next_features=next_features(odds, seen={one.feature for one in seen}),
        serial=number,
        unlisted=tuple(one.feature for one in seen if not one.listed),
    )


def _by_number(number: SerialYear, ground: Ground) -> dict[str, Array]:
    """Return how well the number goes with each year, by the part it stands on."""
    prefix, _ = read_number(number.written)
    part = next(one.part for one in ground.serials if one.prefix == prefix)
    odds = number.odds(ground.years)
    return {part: (1.0 - MISREAD) * odds + MISREAD / len(odds)}
