"""One way from a template to an answer, for whole pages and for parts of them."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import HTMLResponse

from counterhoop.web.guard.safe_methods import is_safe
from counterhoop.web.look.jinja import templates
from counterhoop.web.look.mine import mine_of
from counterhoop.web.who import bench_of


def page(request: Request, name: str, *, status: int = 200, **data: object) -> HTMLResponse:
    """Return a template filled in.

    Parameters
    ----------
    request : Request
        Who asks: it decides units, light and the bench's name.
    name : str
        The template, a whole page or a part for htmx.
    status : int
        The code of the answer.
    **data
        What the template names.
    """
    text = templates().get_template(name).render(known_everywhere(request) | data)
    return HTMLResponse(text, status_code=status)


def known_everywhere(request: Request) -> dict[str, object]:
    """Return what every template may name, besides the globals of ``look.jinja``."""
    query = f"?{request.url.query}" if request.url.query else ""
    return {
        "mine": mine_of(request),
        "bench": bench_of(request),
        "here": request.url.path,
        # What answers a form has no address of its own to come back to.
        "back": request.url.path + query if is_safe(request.method) else "",
    }


def is_part(request: Request) -> bool:
    """Tell whether a script of ours asks for a part of the page that it stands on."""
    return request.headers.get("hx-request") == "true"
