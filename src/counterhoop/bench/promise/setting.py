"""What a plan of the bench begins with: its first day, its first minute, what the shop has."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from counterhoop.bench.promise.hours_open import OpenHours
from counterhoop.job.open_hours.minutes import minute_of

LOOKS_AHEAD_DAYS = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """The moment from which all work is planned.

    Attributes
    ----------
    now : datetime.datetime
        On the workshop's clock.
    hours : OpenHours
    """

    now: dt.datetime
    hours: OpenHours

    @property
    def start(self) -> dt.date:
        """The day with whose midnight the plan begins."""
        return self.now.date()

    @property
    def since(self) -> int:
        """The minute from which hands are free: the full hour, so that a plan holds for one."""
        return self.now.hour * 60

    def minute(self, when: dt.datetime) -> int:
        """Return the minute of the plan at a time, 0 for what is past."""
        return max(0, minute_of(when, start=self.start))

    def midnight(self, day: dt.date) -> int:
        """Return the minute of the plan with which a day begins."""
        return self.minute(dt.datetime.combine(day, dt.time()))

    def after_days(self, days: int) -> dt.date:
        """Return the first day on which the shop is open, so many days from now or later."""
        for more in range(days, days + LOOKS_AHEAD_DAYS):
            day = self.start + dt.timedelta(days=more)
            if self.hours.week.hours_of(day):
                return day
        return self.start + dt.timedelta(days=days)
