"""What was worked out lately, by what it was worked out from."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from typing import Any

MOST_KEPT = 64


class Remembered:
    """The last answers, by what they were worked out from."""

    def __init__(self, most: int = MOST_KEPT) -> None:
        self._most = most
        self._kept: OrderedDict[Hashable, Any] = OrderedDict()
        self._lock = threading.Lock()

    def get(self, key: Hashable, make: Callable[[], Any]) -> Any:
        """Return the answer for a key, made anew when it is not remembered."""
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
                return self._kept[key]
        made = make()
        self.keep(key, made)
        return made

    def find(self, key: Hashable) -> Any:
        """Return the answer for a key, or None where none is remembered."""
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
            return self._kept.get(key)

    def keep(self, key: Hashable, made: Any) -> None:
        """Remember an answer; the one that was longest not asked for gives way."""
        with self._lock:
            self._kept[key] = made
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
