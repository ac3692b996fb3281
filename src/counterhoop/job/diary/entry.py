"""One line of the diary."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from counterhoop.errors import BadInput


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """Something that stands in the diary for whole days, or for a time of one day.

    Attributes
    ----------
    key : str
        What it is by, once in the diary and the same whenever the diary is written again.
    says : str
        In one line.
    begins, ends : datetime.date or datetime.datetime
        Days for whole days, else times on the workshop's own clock, without a zone. The end is
        no longer part of it: one whole day ends with the next. Equal times are a moment.
    more : str
        What else there is to say; may run over several lines.
    busy : bool
        The person at the bench has no hands free.

    Raises
    ------
    BadInput
        No key or nothing to say, a zone, a day that ends as a time, or an end before the
        beginning.
    """

    key: str
    says: str
    begins: dt.date
    ends: dt.date
    more: str = ""
    busy: bool = False

    def __post_init__(self) -> None:
        if not self.key or not self.says.strip():
            raise BadInput("an entry has a key and says something", where=self.key or "diary")
        times = [isinstance(one, dt.datetime) for one in (self.begins, self.ends)]
        if times[0] != times[1]:
            raise BadInput(
                "begins and ends are both days or both times", where=self.key,
                given=(self.begins, self.ends),
            )  # fmt: skip
        for one in (self.begins, self.ends):
            if isinstance(one, dt.datetime) and one.tzinfo is not None:
                raise BadInput(
                    "the diary keeps the workshop's own clock", where=self.key, given=str(one),
                    wanted="a time without a zone",
                )  # fmt: skip
        if self.ends < self.begins or (self.whole_days and self.ends == self.begins):
            raise BadInput(
                "ends before it begins", where=self.key, given=str(self.ends),
                wanted="the day after the last" if self.whole_days else f"{self.begins} or later",
            )  # fmt: skip

    @property
    def whole_days(self) -> bool:
        """Whether it stands for days without a time."""
        return not isinstance(self.begins, dt.datetime)
