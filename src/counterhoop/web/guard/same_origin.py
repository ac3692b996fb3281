"""Only our own pages, and programs that hold a token, may change anything.

Browsers say in Sec-Fetch-Site where a request comes from, but over plain http only on loopback:
on a name of the local network they leave it out, and there the Origin line decides.
"""

from __future__ import annotations

from starlette.types import ASGIApp, Receive, Scope, Send

from counterhoop.web.guard.answer import answer
from counterhoop.web.guard.one_header import header_lines, one_header
from counterhoop.web.guard.safe_methods import is_safe
from counterhoop.web.guard.visitor import visitor_of


def comes_from_us(scope: Scope) -> bool:
    """Tell whether the browser vouches that one of our own pages sent this request."""
    sites = header_lines(scope, b"sec-fetch-site")
    if sites:
        return sites == ["same-origin"]
    origin, host = one_header(scope, b"origin"), one_header(scope, b"host")
    return origin is not None and host is not None and origin == f"{scope['scheme']}://{host}"


def is_program(scope: Scope) -> bool:
    """Tell whether a proven token came, which is only looked at without any cookie beside it."""
    visitor = visitor_of(scope)
    return visitor is not None and visitor.by == "bearer"


class SameOrigin:
    """Refuse with 403 every request that could change something and is not vouched for."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse or pass one request on."""
        if is_safe(scope["method"]) or comes_from_us(scope) or is_program(scope):
            await self.app(scope, receive, send)
            return
        await answer(
            send,
            403,
            says="Nothing was changed: this did not come from a page of this program. "
            "Open the page again and repeat the step there.\n",
        )
