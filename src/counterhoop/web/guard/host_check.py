"""Only our own names are answered, before anything else looks at the request.

A page on another site can make its own name resolve to this machine; its requests then carry a
matching Origin. What it cannot change is the Host line, which still holds its own name.
"""

from __future__ import annotations

from starlette.types import ASGIApp, Receive, Scope, Send

from counterhoop.web.guard.answer import answer
from counterhoop.web.guard.door import Door
from counterhoop.web.guard.one_header import one_header
from counterhoop.web.guard.safe_methods import is_safe


class HostCheck:
    """Refuse with 421 what asks for another host; send other loopback names to the one we use."""

    def __init__(self, app: ASGIApp, *, door: Door) -> None:
        self.app = app
        self.door = door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, redirect or pass one request on."""
        # No line and two lines are alike refused: a proxy and we might believe different ones.
        host = one_header(scope, b"host")
        target: bytes = scope["raw_path"]
        if host is not None and target.startswith(b"/"):
            if self.door.knows(host):
                await self.app(scope, receive, send)
                return
            if self.door.redirects(host) and is_safe(scope["method"]):
                await self._redirect(scope, send)
                return
        await answer(
            send,
            421,
            says="This program does not answer under that name. Open the address that it printed "
            f"when it was started, {self.door.address()}/ on the same machine.\n",
        )

    async def _redirect(self, scope: Scope, send: Send) -> None:
        query: bytes = scope["query_string"]
        place = self.door.address().encode() + scope["raw_path"] + (b"?" + query if query else b"")
        says = f"This page is at {self.door.address()}/.\n"
        # Not a permanent one: browsers would keep it for another program on the same port.
        await answer(send, 307, says=says, headers=[(b"location", place)])
