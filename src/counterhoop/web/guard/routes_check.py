"""Before the door opens: every route is one that cannot look and write at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from fastapi import FastAPI
from fastapi.dependencies.utils import get_dependant
from starlette.routing import BaseRoute, Mount
from starlette.staticfiles import StaticFiles

from counterhoop.web.guard.pen import LookingWrites, PageRoute, depends_on, take_pen


def asks_for_pen(called: Callable[..., object] | None) -> bool:
    """Tell whether a function is the one that gives the pen, or depends on it, however deep."""
    if called is None or called is take_pen:
        return called is take_pen
    return take_pen in depends_on(get_dependant(path="", call=called))


def _unchecked(routes: Iterable[BaseRoute]) -> Iterator[str]:
    for route in routes:
        included = getattr(route, "original_router", None)
        if included is not None:
            # FastAPI gives no type to what a router that was included keeps.
            given = vars(route)["include_context"].dependencies
            if any(asks_for_pen(wanted.dependency) for wanted in given):
                yield "a router is included with the pen for all of its pages"
            yield from _unchecked(included.routes)
        elif not isinstance(route, PageRoute) and not (
            isinstance(route, Mount) and isinstance(route.app, StaticFiles)
        ):
            yield str(getattr(route, "path", route))


def check_routes(app: FastAPI) -> None:
    """Refuse an app with a route that was not held to the rule.

    Raises
    ------
    LookingWrites
        Names the routes; ``FastAPI(docs_url=None, redoc_url=None, openapi_url=None)`` and
        ``APIRouter(route_class=PageRoute)`` are what is wanted.
    """
    found = list(_unchecked(app.routes))
    if found:
        raise LookingWrites(f"not held to the rule that looking never writes: {', '.join(found)}")
