"""A recorded yes to permanent changes."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from counterhoop.quantities.day import say_day


@dataclass(frozen=True, slots=True, kw_only=True)
class Approval:
    """Who said yes, when, how, and to which permanent changes (by their code).

    Attributes
    ----------
    lines : tuple of str
        The lines that the code was drawn from, so that what differs later can be said; none in a
        yes that was written by hand.
    taken_back : datetime.date or None
        When it was taken back; it covers nothing since.
    taken_back_how : str
        By whom and how ("by telephone").
    """

    drum: str
    who: str
    when: dt.date
    how: str
    covers: str
    scheme: int | None = None
    lines: tuple[str, ...] = ()
    taken_back: dt.date | None = None
    taken_back_how: str = ""

    @property
    def words(self) -> str:
        """Who, when and how, as one says it.

        Examples
        --------
        >>> Approval(
        ...     drum="tom", who="A. Player", when=dt.date(2026, 3, 5), how="signed", covers="K"
        ... ).words
        'by A. Player on 5 March 2026, signed'
        """
        said = f"by {self.who} on {say_day(self.when)}"
        return f"{said}, {self.how}" if self.how else said
