"""After a wrong token one waits, and after each further one twice as long.

A token holds 128 random bits, so that guessing is hopeless without this as well; the wait keeps a
machine that tries all the same from filling the log and the processor.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass

FIRST_WAIT_S = 1.0
LONGEST_WAIT_S = 60.0
FORGOTTEN_AFTER_S = 900.0
MOST_PLACES = 1000


@dataclass(frozen=True, slots=True)
class _Tries:
    wrong: int
    last_s: float

    @property
    def wait_s(self) -> float:
        # The exponent is kept small: a float overflows at about a thousand doublings.
        return min(FIRST_WAIT_S * 2.0 ** min(self.wrong - 1, 30), LONGEST_WAIT_S)


class WrongTries:
    """How long each place from which wrong tokens came must wait.

    Parameters
    ----------
    clock : callable
        Seconds that only go forward, such as ``time.monotonic``.
    """

    def __init__(self, *, clock: Callable[[], float]) -> None:
        self._clock = clock
        self._tries: OrderedDict[str, _Tries] = OrderedDict()

    def wait_s(self, place: str) -> float:
        """Return the seconds until the next try from a place is looked at; 0 when it may come."""
        tries = self._tries.get(place)
        if tries is None:
            return 0.0
        return max(0.0, tries.last_s + tries.wait_s - self._clock())

    def wrong(self, place: str) -> None:
        """Note a wrong token."""
        now_s = self._clock()
        before = self._tries.pop(place, None)
        counts = before is not None and now_s - before.last_s < FORGOTTEN_AFTER_S
        self._tries[place] = _Tries(1 + (before.wrong if before and counts else 0), now_s)
        while len(self._tries) > MOST_PLACES:
            self._tries.popitem(last=False)

    def right(self, place: str) -> None:
        """Forget a place from which a good token came."""
        self._tries.pop(place, None)
