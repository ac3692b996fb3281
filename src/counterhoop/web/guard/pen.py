"""Looking never writes: only a request that may change something is given the pen.

Whatever writes on behalf of a page asks for a ``Pen``. A page for GET or HEAD cannot be registered
when it, or anything it depends on, asks for one; and one made by hand while such a request runs is
refused as well.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextvars import ContextVar
from typing import Annotated, Any

from fastapi import Depends
from fastapi.dependencies.models import Dependant
from fastapi.routing import APIRoute
from starlette.types import ASGIApp, Receive, Scope, Send

from counterhoop.web.guard.safe_methods import SAFE, is_safe

_may_write: ContextVar[bool] = ContextVar("may_write", default=False)


class LookingWrites(RuntimeError):
    """A page that only looks asks for the pen: a mistake of ours, never of a person's."""


class Pen:
    """Leave to write, for as long as one request runs."""

    __slots__ = ()

    def __init__(self) -> None:
        if not _may_write.get():
            raise LookingWrites("a request that only looks has no pen")


def take_pen() -> Pen:
    """Return the pen of the request that is running."""
    return Pen()


GivenPen = Annotated[Pen, Depends(take_pen)]


class WhoMayWrite:
    """Note for each request whether there is a pen for it."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass one request on."""
        # The server runs each request in a context of its own, so that nothing is left behind.
        _may_write.set(not is_safe(scope["method"]))
        await self.app(scope, receive, send)


def depends_on(dependant: Dependant) -> Iterator[object]:
    """Yield everything that a page calls before it runs, however deep."""
    for inner in dependant.dependencies:
        yield inner.call
        yield from depends_on(inner)


class PageRoute(APIRoute):
    """A route that refuses to exist when it looks and writes at once."""

    def __init__(self, path: str, endpoint: Any, **settings: Any) -> None:
        super().__init__(path, endpoint, **settings)
        looks = sorted(set(self.methods or SAFE) & SAFE)
        if looks and take_pen in depends_on(self.dependant):
            raise LookingWrites(f"{looks[0]} {path} asks for the pen")
