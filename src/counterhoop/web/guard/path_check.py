"""Addresses that two readers could read in two ways are not read at all."""

from __future__ import annotations

from starlette.types import ASGIApp, Receive, Scope, Send

from counterhoop.web.guard.answer import answer

LONGEST = 2000
# It turns one segment into two for whoever looks after it was decoded.
ENCODED_SLASH = b"%2f"


def reads_one_way(raw_path: bytes, path: str) -> bool:
    r"""Tell whether a path means the same to the guard, the router and a file system.

    Examples
    --------
    >>> reads_one_way(b"/jobs/12", "/jobs/12")
    True
    >>> reads_one_way(b"/static/%2e%2e/jobs", "/static/../jobs")
    False
    """
    if len(raw_path) > LONGEST or ENCODED_SLASH in raw_path.lower():
        return False
    segments = path.split("/")[1:]
    # An empty segment may only be the last one: "//jobs" is another host to some readers.
    if "" in segments[:-1] or any(segment in {".", ".."} for segment in segments):
        return False
    return path.startswith("/") and "\\" not in path and path.isprintable()


class PathCheck:
    """Refuse with 400 an address with dots, double slashes or control characters in it."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse or pass one request on."""
        if reads_one_way(scope["raw_path"], scope["path"]):
            await self.app(scope, receive, send)
        else:
            await answer(send, 400, says="There can be no page at such an address.\n")
