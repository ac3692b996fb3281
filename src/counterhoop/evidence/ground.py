"""What the reference comes to for one family, size and day of looking: tables by the year."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.evidence.in_use import Array, begun, not_yet_over, value_chances
from counterhoop.evidence.reference import Line, Part, Reference, SerialExample
from counterhoop.evidence.replaced import HANDS, PartMade, part_made
from counterhoop.quantities.nearest import did_you_mean

_GIVES = 4.0
_LONGEST_YEARS = 1000
"""More than from the earliest year that a row may name to the latest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FeatureTable:
    """One feature by the year.

    Attributes
    ----------
    names : tuple of str, length k
        Its values, of whichever line.
    chances : array, shape (lines, k + 1, years)
        On something new; the last is what stands in no row.
    """

    part: str
    names: tuple[str, ...]
    chances: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """Everything that is looked up while one drum is dated.

    Attributes
    ----------
    years : array, shape (n,)
        Whole years, from before the first line to the year of looking.
    prior : array, shape (lines, n)
        Drums made, before anything is seen; sums to one.
    features : dict
        Those that belong to the family and the size.
    made : dict
        By part, for each of ``HANDS``: when the part on a drum of a year was made.
    """

    reference: Reference
    family: str
    looked_at: int
    years: Array
    lines: tuple[Line, ...]
    prior: Array
    features: dict[str, FeatureTable]
    parts: dict[str, Part]
    made: dict[str, tuple[PartMade, ...]]
    serials: tuple[SerialExample, ...]

    def table(self, feature: str) -> FeatureTable:
        """Return the table of a feature.

        Raises
        ------
        BadInput
            When the reference says nothing of it for this family and size.
        """
        if feature not in self.features:
            raise BadInput(
                f"no dated values of this feature for {self.family}", where="feature",
                given=feature, wanted="one of " + ", ".join(self.features),
                step=did_you_mean(feature, self.features),
            )  # fmt: skip
        return self.features[feature]


def ground_of(
    reference: Reference,
    *,
    family: str,
    looked_at: int,
    line: str = "",
    diameter_mm: float | None = None,
) -> Ground:
    """Lay out the reference for drums of one family.

    Parameters
    ----------
    reference : Reference
        Checked.
    family, line : str
        As the badge says, or whoever brought it; without a line all of the family's are weighed.
    looked_at : int
        The year in which the drum is looked at.
    diameter_mm : float, optional
        Nominal, where it is known.

    Raises
    ------
    BadInput
        No such family or line; looked at before anything was made.
    """
    lines = reference.lines_of(family, line=line)
    first = min(int(one.begins.year - _GIVES * one.begins.give) - 1 for one in lines)
    if not first < looked_at <= first + _LONGEST_YEARS:
        raise BadInput(
            "the year of looking does not go with the lines", where="looked at", given=looked_at,
            wanted=f"a year from {first + 1} to {first + _LONGEST_YEARS}",
        )  # fmt: skip
    years = np.arange(first, looked_at + 1, dtype=np.float64)
    made = np.array(
        [one.made * begun(one.begins, years) * not_yet_over(one.ends, years) for one in lines]
    )
    prior = made / made.sum()
    features = {}
    for feature in reference.features:
        by_line = [
            reference.values_of(feature.name, family=family, line=one.name, diameter_mm=diameter_mm)
            for one in lines
        ]
        names = tuple(dict.fromkeys(value.name for values in by_line for value in values))
        if not names:
            continue
        # A line of which nothing is said stays flat: nothing follows from it.
        chances = np.full((len(lines), len(names) + 1, len(years)), 1.0 / (len(names) + 1))
        for at, values in enumerate(by_line):
            if values:
                rows = [names.index(value.name) for value in values] + [len(names)]
                chances[at] = 0.0
                chances[at, rows] = value_chances(values, years, unlisted=feature.unlisted)
        features[feature.name] = FeatureTable(part=feature.part, names=names, chances=chances)
    serials = tuple(one for one in reference.serials if one.family == family)
    parts = {
        name: reference.part(name)
        for name in dict.fromkeys(
            [*(table.part for table in features.values()), *(one.part for one in serials)]
        )
    }
    return Ground(
        reference=reference, family=family, looked_at=looked_at, years=years, lines=lines,
        prior=prior, features=features, parts=parts, serials=serials,
        made={
            name: tuple(
                part_made(part, years, drums=made.sum(axis=0), hand=factor) for factor, _ in HANDS
            )
            for name, part in parts.items()
        },
    )  # fmt: skip
