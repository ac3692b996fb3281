"""An answer that goes on for long ends when its device is struck off.

A stream of server-sent events is asked for once and then stays open for hours; the check at its
beginning says nothing about what is sent later. So the list is looked at again and again while it
runs, also while nothing is sent.
"""

from __future__ import annotations

import asyncio

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from counterhoop.errors import CounterhoopError
from counterhoop.web.guard.pairing import Device, Paired
from counterhoop.web.guard.visitor import visitor_of

LOOK_S = 0.5


class StillLetIn:
    """Break off the answer to a device that is no longer on the list."""

    def __init__(self, app: ASGIApp, *, paired: Paired) -> None:
        self.app = app
        self.paired = paired

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass one request on and watch over its answer."""
        visitor = visitor_of(scope)
        if visitor is None:
            await self.app(scope, receive, send)
        else:
            await self._watched(scope, receive, send, device=visitor.device)

    def _is_out(self, device: Device) -> bool:
        try:
            return device not in self.paired.listed()
        except CounterhoopError:
            # A list that cannot be read lets nobody in.
            return True

    async def _watched(self, scope: Scope, receive: Receive, send: Send, *, device: Device) -> None:
        loop = asyncio.get_running_loop()
        next_look: asyncio.TimerHandle | None = None
        broken_off = ended = has_length = False

        def look() -> None:
            nonlocal next_look, broken_off
            if self._is_out(device):
                broken_off = True
                limit.reschedule(loop.time())
            else:
                next_look = loop.call_later(LOOK_S, look)

        async def noted(message: Message) -> None:
            nonlocal next_look, ended, has_length
            if message["type"] == "http.response.start":
                names = {name.lower() for name, _ in message.get("headers", [])}
                has_length = b"content-length" in names
            elif not message.get("more_body", False):
                ended = True
            elif next_look is None:
                next_look = loop.call_later(LOOK_S, look)
            await send(message)

        try:
            # Without a limit of its own: ``look`` sets one when the device is out.
            async with asyncio.timeout(None) as limit:
                await self.app(scope, receive, noted)
        except TimeoutError:
            if not broken_off:
                raise
        finally:
            if next_look is not None:
                next_look.cancel()
        # Half of a file is left unfinished: the server then drops the connection.
        if broken_off and not ended and not has_length:
            await send({"type": "http.response.body", "body": b"", "more_body": False})
