"""One working as it is written down: what was done, how often, how long."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass

from counterhoop.errors import BadInput


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

    Raises
    ------
    BadInput
        When nothing was done or no time went by.
    """

    operation: str
    count: int
    minutes: float
    when: dt.date
    job: str = ""
    drum: str = ""
    note: str = ""
    answered: bool = False

    def __post_init__(self) -> None:
        if self.count < 1:
            raise BadInput(
                "nothing was done",
                where=self.operation,
                given=self.count,
                wanted="how many were done, 1 or more",
            )
        if not (math.isfinite(self.minutes) and self.minutes > 0.0):
            raise BadInput(
                "no time that work can take",
                where=self.operation,
                given=self.minutes,
                wanted="minutes above zero",
            )

    @property
    def each_min(self) -> float:
        """Minutes for one."""
        return self.minutes / self.count
