"""A body that trickles in does not hold a place for ever."""

from __future__ import annotations

import asyncio
from dataclasses import dataclass

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from counterhoop.web.guard.cut_short import CutShort, run_unless_cut

TOO_SLOW = "The connection was too slow and nothing was kept. Come nearer and send it again.\n"


@dataclass(frozen=True, slots=True, kw_only=True)
class Patience:
    """How long a body may take.

    Attributes
    ----------
    silence_s : float
        Longest wait for the next piece.
    grace_s : float
        Time that every body has, however short.
    bytes_per_s : float
        Further time for what has come in so far: a photograph over a weak radio link passes.
    """

    silence_s: float = 10.0
    grace_s: float = 20.0
    bytes_per_s: float = 5_000.0


class SlowBody:
    """Answer 408 to a body that stops or creeps."""

    def __init__(self, app: ASGIApp, *, patience: Patience | None = None) -> None:
        self.app = app
        self.patience = patience or Patience()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass one request on, with a clock beside its body."""
        clock = asyncio.get_running_loop().time
        started = clock()
        counted = 0
        whole = False

        async def timed() -> Message:
            nonlocal counted, whole
            # After the body a page that streams waits here for as long as its reader stays.
            if whole:
                return await receive()
            allowed = self.patience.grace_s + counted / self.patience.bytes_per_s
            left = started + allowed - clock()
            try:
                async with asyncio.timeout(min(max(left, 0.0), self.patience.silence_s)):
                    message = await receive()
            except TimeoutError:
                raise CutShort(408, says=TOO_SLOW) from None
            counted += len(message.get("body", b""))
            whole = not message.get("more_body", False)
            return message

        await run_unless_cut(self.app, scope, timed, send)
