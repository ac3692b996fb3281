"""How likely each year is, given all that was seen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.evidence.ground import FeatureTable, Ground
from counterhoop.evidence.in_use import Array
from counterhoop.evidence.reference import UNLISTED
from counterhoop.evidence.replaced import HANDS
from counterhoop.evidence.seen import SUREST, Seen
from counterhoop.quantities.nearest import did_you_mean

_SHARES = np.array([share for _, share in HANDS])


@dataclass(frozen=True, slots=True, kw_only=True)
class YearOdds:
    """Years of making with their odds, and what they rest on.

    Attributes
    ----------
    years, p : array, shape (n,)
        Whole years; odds that sum to one.
    joint : array, shape (lines, hands, n)
        The same by line and by how much the drum was worked on.
    fits : dict
        By part, array of shape (lines, n): how well what was seen on it goes with a part made in
        each year. Only parts of which something was seen.
    """

    ground: Ground
    joint: Array
    fits: Mapping[str, Array]

    @property
    def years(self) -> Array:
        """Whole years."""
        return self.ground.years

    @property
    def p(self) -> Array:
        """Odds of each year."""
        return np.asarray(self.joint.sum(axis=(0, 1)))

    @property
    def lines(self) -> dict[str, float]:
        """Odds of each line."""
        odds = self.joint.sum(axis=(1, 2)).tolist()
        return {line.name: one for line, one in zip(self.ground.lines, odds, strict=True)}


def p_year(
    seen: Sequence[Seen], ground: Ground, *, serial: Mapping[str, Array] | None = None
) -> YearOdds:
    """Return the odds of each year.

    For a drum of a line and a year, worked on more or less, each part is the first one or another,
    made in some year; what is seen on a part goes with the year in which that part was made.
    Parts are weighed one by one, features of one part together.

    Parameters
    ----------
    seen : sequence of Seen
        Each feature at most once.
    ground : Ground
        The reference laid out for the family.
    serial : mapping, optional
        By the part that a number stands on, array of shape (n,): odds of each year by it alone.

    Raises
    ------
    BadInput
        A feature or value that the reference does not know for this family, or a feature twice.
    """
    fits = dict(fits_of(seen, ground))
    for part, odds in (serial or {}).items():
        fits[part] = fits.get(part, np.ones_like(ground.prior)) * odds
    return YearOdds(ground=ground, joint=joint_of(fits, ground), fits=fits)


def fits_of(seen: Sequence[Seen], ground: Ground) -> dict[str, Array]:
    """Return how well what was seen goes with each year of making, by part."""
    fits: dict[str, Array] = {}
    told: set[str] = set()
    for one in seen:
        table = ground.table(one.feature)
        if one.feature in told:
            raise BadInput("said twice", where=one.feature, wanted="each feature once")
        told.add(one.feature)
        fit = eye(table, one.value, sure=one.sure)
        fits[table.part] = fits.get(table.part, np.ones_like(ground.prior)) * fit
    return fits


def eye(table: FeatureTable, value: str, *, sure: float) -> Array:
    """Chance that this value is reported, shape (lines, n); a wrong look takes any other."""
    if value not in (*table.names, UNLISTED):
        raise BadInput(
            "the reference has no such value", where="value", given=value,
            wanted="one of " + ", ".join(table.names), step=did_you_mean(value, table.names),
        )  # fmt: skip
    right = min(sure, SUREST)
    of_it = table.chances[:, -1 if value == UNLISTED else table.names.index(value)]
    return np.asarray(right * of_it + (1.0 - right) / len(table.names) * (1.0 - of_it))


def joint_of(fits: Mapping[str, Array], ground: Ground) -> Array:
    """Return the odds of line, hand and year, shape (lines, hands, n)."""
    joint = ground.prior[:, None, :] * _SHARES[None, :, None]
    for part, fit in fits.items():
        joint = joint * on_drum(part, fit, ground)
    return np.asarray(joint / joint.sum())


def on_drum(part: str, fit: Array, ground: Ground) -> Array:
    """Chance of what was seen on a part, by the drum's line, hand and year."""
    return np.stack([fit * made.kept + fit @ made.other.T for made in ground.made[part]], axis=1)
