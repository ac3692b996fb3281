"""How far the work of a job may come out from what is usual, and what that is in money."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.job.hours.hours_said import HoursSaid


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """The middle 80 % of what all work of a job takes, as factors of what is usual.

    The work of one job shares its luck: a hard shell is hard for every hole. So these come from
    hours that were added with their shared factor, never from lines that vary each for itself.

    Attributes
    ----------
    quick, slow : Fraction
        One job in ten takes less than ``quick`` times the usual, one in ten more than ``slow``.
    """

    quick: Fraction = Fraction(1)
    slow: Fraction = Fraction(1)

    def __post_init__(self) -> None:
        if not 0 < self.quick <= 1 <= self.slow:
            raise BadInput(
                "quick is not below usual, or slow not above it",
                where="hours",
                given=f"{float(self.quick):.2f} to {float(self.slow):.2f} times the usual",
            )


def doubt_of(hours: HoursSaid) -> Doubt:
    """Return the doubt of a job's hours; none where no work is done.

    Examples
    --------
    >>> doubt_of(HoursSaid(quick_min=300, usual_min=400, slow_min=600, mean_min=420, lines=()))
    Doubt(quick=Fraction(3, 4), slow=Fraction(3, 2))
    """
    if hours.usual_min == 0.0:
        return Doubt()
    usual = Fraction(hours.usual_min)
    return Doubt(quick=Fraction(hours.quick_min) / usual, slow=Fraction(hours.slow_min) / usual)
