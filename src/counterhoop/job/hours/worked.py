"""One working as it is written down: what was done, how often, how long."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from counterhoop.errors import BadInput

LEAST_MIN, MOST_MIN = 1e-9, 1e7
"""What can be reckoned with, far beyond all work: twenty years, for what was never put down."""
MOST_COUNT = 100_000
"""Nobody does more of anything in one working."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """One line of the work log.

    Attributes
    ----------
    operation : str
        Name in the operations book.
    count : int
        How many were done: holes, lugs, edges.
    minutes : float
        Hands at work on all of them together.
    when : datetime.date
        The day it was finished.
    job, drum : str
        For whom and on which.
    note : str
        What differed, in the bench's words.
    answered : bool
        A time out of all proportion was asked about, and stands as it is.
    typed : bool
        Somebody wrote how long it took; no clock was pressed for it.

    Raises
    ------
    BadInput
        When nothing was done or no time went by, or more than anyone does in one working.
    """

    operation: str
    count: int
    minutes: float
    when: dt.date
    job: str = ""
    drum: str = ""
    note: str = ""
    answered: bool = False
    typed: bool = False

    def __post_init__(self) -> None:
        if not 1 <= self.count <= MOST_COUNT:
            raise BadInput(
                "nothing was done" if self.count < 1 else "more than one working",
                where=self.operation,
                given=self.count,
                wanted=f"how many were done, 1 to {MOST_COUNT}",
            )
        if not LEAST_MIN <= self.minutes <= MOST_MIN:
            raise BadInput(
                "no time that work can take",
                where=self.operation,
                given=self.minutes,
                wanted="minutes above zero, at most twenty years",
            )

    @property
    def each_min(self) -> float:
        """Minutes for one."""
        return self.minutes / self.count
