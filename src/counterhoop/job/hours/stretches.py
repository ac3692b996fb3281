"""Work picked up and put down, summed to hands at work."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.quantities.day import say_day
from counterhoop.quantities.duration import print_minutes

LONGEST_MIN = 10 * 60.0
"""Nobody works longer than this without putting down (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """From picking work up to putting it down, by the workshop's own clock.

    Attributes
    ----------
    picked_up : datetime.datetime
        Without a zone: the night on which the clocks change is not the bench's concern.
    put_down : datetime.datetime or None
        None while the work is in hand, or when nobody said so.
    """

    picked_up: dt.datetime
    put_down: dt.datetime | None = None

    def __post_init__(self) -> None:
        if self.put_down is not None and self.put_down < self.picked_up:
            raise BadInput(
                "put down before it was picked up",
                where=_clock(self.picked_up),
                given=_clock(self.put_down),
                wanted="a later time",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Hands:
    """Hands at work, and what must be asked before the sum is right.

    Attributes
    ----------
    minutes : float
        In all stretches that were put down; what two of them share counts once.
    asks : tuple of str
        A question for each stretch that was never put down or went on longer than anyone works.
    """

    minutes: float
    asks: tuple[str, ...]


def worked_minutes(stretches: Sequence[Stretch]) -> Hands:
    """Sum stretches: one pair of hands, so that what overlaps counts once.

    Examples
    --------
    >>> up, down = dt.datetime(2026, 3, 4, 9, 0), dt.datetime(2026, 3, 4, 9, 50)
    >>> worked_minutes([Stretch(picked_up=up, put_down=down), Stretch(picked_up=down)])
    Hands(minutes=50.0, asks=('picked up on 4 March 2026 at 9:50: when was it put down?',))
    """
    in_order = sorted(stretches, key=lambda s: (s.picked_up, s.put_down or s.picked_up))
    minutes = 0.0
    until = dt.datetime.min
    asks = []
    for one in in_order:
        if one.put_down is None:
            asks.append(f"picked up on {_clock(one.picked_up)}: when was it put down?")
            continue
        long_min = (one.put_down - one.picked_up) / dt.timedelta(minutes=1)
        if long_min > LONGEST_MIN:
            asks.append(
                f"picked up on {_clock(one.picked_up)} and put down {print_minutes(long_min)}"
                " later: is that right?"
            )
        begins = max(one.picked_up, until)
        if one.put_down > begins:
            minutes += (one.put_down - begins) / dt.timedelta(minutes=1)
            until = one.put_down
    return Hands(minutes=minutes, asks=tuple(asks))


def _clock(at: dt.datetime) -> str:
    return f"{say_day(at.date())} at {at.hour}:{at.minute:02d}"
