"""Links that let one device in, once, and for a short while."""

from __future__ import annotations

import secrets
import threading
from datetime import datetime, timedelta

from counterhoop.web.guard.pairing import digest_of, same_digest

GOOD_FOR = timedelta(minutes=15)


class OneTimeLinks:
    """The tokens that were printed and not yet used; kept in memory, gone with the program."""

    def __init__(self, *, good_for: timedelta = GOOD_FOR) -> None:
        self._good_for = good_for
        self._ends: dict[bytes, datetime] = {}
        self._lock = threading.Lock()

    def make(self, *, now: datetime) -> str:
        """Return a new token."""
        token = secrets.token_urlsafe(16)
        with self._lock:
            self._forget_old(now)
            self._ends[digest_of(token)] = now + self._good_for
        return token

    def take(self, token: str, *, now: datetime) -> bool:
        """Use a token up and tell whether it was good; a second time it never is."""
        with self._lock:
            known = list(self._ends)
            place = same_digest(digest_of(token), known)
            end = None if place is None else self._ends.pop(known[place])
            self._forget_old(now)
        return end is not None and end > now

    def _forget_old(self, now: datetime) -> None:
        self._ends = {digest: ends for digest, ends in self._ends.items() if ends > now}
