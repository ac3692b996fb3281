"""After an answer that came before the body was read, the connection is closed, but gently.

Closing at once while bytes still come in makes the system send a reset, and the browser then shows
"connection lost" in place of our sentence. So what is on its way is taken and thrown off first,
for a short while; without a limit somebody could go on sending for ever.
"""

from __future__ import annotations

import asyncio

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from counterhoop.web.guard.one_header import header_lines

DRAIN_BYTES = 64_000_000
DRAIN_S = 5.0
SILENCE_S = 1.0


def brings_body(scope: Scope) -> bool:
    """Tell whether the headers announce a body."""
    lengths = header_lines(scope, b"content-length")
    return bool(header_lines(scope, b"transfer-encoding")) or any(line != "0" for line in lengths)


async def drain(receive: Receive) -> None:
    """Take in and throw off the rest of a body, within the limits above."""
    taken = 0
    try:
        async with asyncio.timeout(DRAIN_S):
            while taken < DRAIN_BYTES:
                async with asyncio.timeout(SILENCE_S):
                    message = await receive()
                taken += len(message.get("body", b""))
                if not message.get("more_body", False):
                    return
    except TimeoutError:
        return


class UnreadBody:
    """Close the connection after an answer to a request that was not read to its end."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass one request on and mind the end of its answer."""
        if not brings_body(scope):
            await self.app(scope, receive, send)
            return
        whole = False
        # A client that asks first sends nothing until the body is wanted, or never.
        waiting = bool(header_lines(scope, b"expect"))

        async def watched() -> Message:
            nonlocal waiting, whole
            waiting = False
            message = await receive()
            whole = whole or not message.get("more_body", False)
            return message

        async def closing(message: Message) -> None:
            if whole:
                await send(message)
            elif message["type"] == "http.response.start":
                headers = [*message.get("headers", []), (b"connection", b"close")]
                await send({**message, "headers": headers})
            elif message.get("more_body", False) or waiting:
                await send(message)
            else:
                await send({**message, "more_body": True})
                await drain(watched)
                await send({"type": "http.response.body", "body": b"", "more_body": False})

        await self.app(scope, watched, closing)
