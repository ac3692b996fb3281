"""A connection that never finishes its headers is closed.

The server itself waits without end for the first request, and again for each one of which a first
byte has come.
"""

from __future__ import annotations

import asyncio
from typing import Any

from uvicorn.protocols.http.h11_impl import H11Protocol

HEADERS_S = 10.0


class HeadersInTime(H11Protocol):
    """The server's own reader of HTTP/1.1, with a clock beside the headers."""

    headers_s = HEADERS_S
    _clock: asyncio.TimerHandle | None = None

    def connection_made(self, transport: Any) -> None:
        """Start the clock with the connection."""
        super().connection_made(transport)
        self._start()

    def data_received(self, data: bytes) -> None:
        """Stop the clock when a request has begun; start it with the first byte of a next one."""
        before = self.cycle
        super().data_received(data)
        if self.cycle is not before:
            self._stop()
        elif self._clock is None and not self._answering():
            self._start()

    def connection_lost(self, exc: Exception | None) -> None:
        """Stop the clock with the connection."""
        self._stop()
        super().connection_lost(exc)

    def _answering(self) -> bool:
        return self.cycle is not None and not self.cycle.response_complete

    def _start(self) -> None:
        self._clock = self.loop.call_later(self.headers_s, self._give_up)

    def _stop(self) -> None:
        if self._clock is not None:
            self._clock.cancel()
            self._clock = None

    def _give_up(self) -> None:
        self._clock = None
        self.transport.close()
