"""A log that helps to find a fault and tells nothing about a client.

One line for each request: method, the pattern of the page and not its address, the code, the time
taken. A fault adds its kind and the lines of our code that led to it, but not its message: in that
stand names, prices and what was typed.
"""

from __future__ import annotations

import logging
import time
import traceback

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from counterhoop.web.guard.answer import answer

LOG = logging.getLogger("counterhoop.web")
KNOWN = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"})


def page_of(scope: Scope) -> str:
    """Return the pattern of the page that answered, or a dash."""
    return str(getattr(scope.get("route"), "path", "-"))


def fault_lines(fault: BaseException, *, verbose: bool) -> list[str]:
    """Return what is said about a fault, innermost line last."""
    said = type(fault).__name__ + (f": {fault}" if verbose else "")
    frames = [
        frame
        for frame in traceback.extract_tb(fault.__traceback__)
        if verbose or "site-packages" not in frame.filename
    ]
    return [said, *(f"  {frame.filename}:{frame.lineno} in {frame.name}" for frame in frames)]


class QuietLog:
    """Write the line of each request; answer 500 where the pages failed.

    Parameters
    ----------
    app : ASGIApp
        What is guarded.
    verbose : bool
        Also write addresses and the messages of faults, for whoever hunts one. Queries never.
    """

    def __init__(self, app: ASGIApp, *, verbose: bool) -> None:
        self.app = app
        self.verbose = verbose

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Run one request and write its line."""
        began_s = time.perf_counter()
        status = 0

        async def noted(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
            await send(message)

        try:
            await self.app(scope, receive, noted)
        except Exception as fault:
            LOG.error("%s", "\n".join(fault_lines(fault, verbose=self.verbose)))
            if not status:
                await answer(noted, 500, says="Something is broken in the program itself.\n")
        # A made-up method is a text that somebody chose; a verbose line shows it escaped.
        method = scope["method"] if scope["method"] in KNOWN else "OTHER"
        page = repr(scope["path"]) if self.verbose else page_of(scope)
        taken_ms = (time.perf_counter() - began_s) * 1000
        LOG.info("%s %s %d %.0f ms", method, page, status, taken_ms)
