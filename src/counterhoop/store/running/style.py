"""How a workshop writes its running numbers."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from counterhoop.errors import BadInput

MOST_DIGITS = 9


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberStyle:
    """How numbers of a series are written.

    Attributes
    ----------
    by_year : bool
        The year stands before it, and each year begins at one.
    digits : int
        Filled up to so many with noughts.

    Raises
    ------
    BadInput
        For no digits, or more than anyone writes.

    Examples
    --------
    >>> NumberStyle(by_year=True, digits=4).write(1, day=dt.date(2026, 3, 4))
    '2026-0001'
    >>> NumberStyle().write(12, day=dt.date(2026, 3, 4))
    '12'
    """

    by_year: bool = False
    digits: int = 1

    def __post_init__(self) -> None:
        if not 1 <= self.digits <= MOST_DIGITS:
            raise BadInput(
                "cannot be the digits of a number",
                where="running numbers",
                given=self.digits,
                wanted=f"1 to {MOST_DIGITS}",
            )

    def year_of(self, day: dt.date) -> int:
        """Return the year that a number counts in; 0 where the series runs on."""
        return day.year if self.by_year else 0

    def write(self, number: int, *, day: dt.date) -> str:
        """Return a number as it is printed."""
        front = f"{day.year:04}-" if self.by_year else ""
        return f"{front}{number:0{self.digits}}"
