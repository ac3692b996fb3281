"""Who is writing: the name that a person gave to this browser when it was let in."""

from __future__ import annotations

from starlette.requests import Request

from counterhoop.web.guard.visitor import visitor_of

THIS_BENCH = "this bench"


def bench_of(request: Request) -> str:
    """Return the name under which this browser's saves are kept."""
    visitor = visitor_of(request.scope)
    return visitor.device.name if visitor else THIS_BENCH
