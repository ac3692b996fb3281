"""What a person is told when a page cannot be had: a page, a part of one, or JSON."""

from __future__ import annotations

from typing import Any

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from counterhoop.errors import BadInput, CannotDo, CounterhoopError, DoesNotAnswer
from counterhoop.web.guard.safe_methods import is_safe
from counterhoop.web.guard.visitor import visitor_of
from counterhoop.web.render import is_part, page

NO_PAGE = BadInput(
    "there is no page at this address",
    step="Go back to the page before, or begin on the first one",
)
WRONG_WAY = BadInput(
    "this page cannot be asked in that way", step="Go back to the page before and use its form"
)
NO_BODY = BadInput("what was sent cannot be read", step="Send it again from the page's own form")
NOT_TAKEN_IN = CannotDo(
    "The disk did not take what was sent (there may be no room left on it), so nothing of this was "
    "kept; what was saved before is safe. Make room and send it again."
)
BROKEN = BadInput(
    "something is broken in the program itself",
    step="What was saved before is safe. Go back and try once more; if it happens again, the "
    "window in which Counterhoop was started shows where it broke, without a client's data",
)
HEADINGS = {
    404: "That is not here",
    405: "Not this way",
    409: "That cannot be done now",
    422: "That cannot be read",
    500: "Our mistake",
    503: "Not just now",
}


def for_programs(request: Request) -> bool:
    """Tell whether the address is one of those for programs."""
    return request.url.path.startswith("/api/")


def wants_json(request: Request) -> bool:
    """Tell whether a program asks, by the address, its token or what it accepts."""
    if for_programs(request):
        return True
    visitor = visitor_of(request.scope)
    accepts = request.headers.get("accept", "")
    return (visitor is not None and visitor.by == "bearer") or "application/json" in accepts


def told(
    request: Request, fault: CounterhoopError, *, status: int, heading: str = "",
    back: tuple[str, str] = ("", ""),
) -> Response:  # fmt: skip
    """Return an answer that says what, where, what was given, what was wanted, and the step.

    Parameters
    ----------
    heading : str
        Over the page; what is usual for the status where it is empty.
    back : tuple of str
        Address and words of the way back.
    """
    parts = {name: getattr(fault, name, "") or "" for name in ("what", "where", "wanted", "step")}
    parts["what"] = parts["what"] or str(fault)
    given = getattr(fault, "given", None)
    parts["given"] = "" if given is None else str(given)
    if wants_json(request):
        return JSONResponse(parts, status_code=status)
    heading = heading or HEADINGS.get(status, "That did not work")
    name = "fault_part.html" if is_part(request) else "fault.html"
    return page(request, name, status=status, heading=heading, fault=parts, way_back=back)


def no_paper(request: Request, fault: BadInput, *, back: tuple[str, str]) -> Response:
    """Say why a paper cannot be made, and lead back to where that is put right."""
    return told(request, fault, status=422, heading="This paper cannot be made yet", back=back)


def on_purpose(request: Request, fault: Exception) -> Response:
    """Answer what this package raised for a person.

    On a page that is only looked at, the address named something that is not there.
    """
    if isinstance(fault, DoesNotAnswer):
        return told(request, fault, status=503)
    if isinstance(fault, CannotDo):
        return told(request, fault, status=409)
    assert isinstance(fault, CounterhoopError)
    return told(request, fault, status=404 if is_safe(request.method) else 422)


def by_the_framework(request: Request, fault: Exception) -> Response:
    """Answer a missing page and a wrong method."""
    assert isinstance(fault, HTTPException)
    if isinstance(fault.__cause__, OSError):
        # A large file that comes in lies on the disk until all of it is there.
        return told(request, NOT_TAKEN_IN, status=409)
    said = {404: NO_PAGE, 405: WRONG_WAY, 400: NO_BODY}.get(fault.status_code)
    # A body that is no JSON at all is one more thing that cannot be read.
    status = 422 if fault.status_code == 400 and for_programs(request) else fault.status_code
    answer = told(request, said or BadInput(str(fault.detail)), status=status)
    answer.headers.update(fault.headers or {})
    return answer


def by_the_model(request: Request, fault: Exception) -> Response:
    """Answer a form or an address that lacks something or holds the wrong kind of thing."""
    assert isinstance(fault, RequestValidationError)
    wrong = first_wrong(fault.errors()[0])
    if for_programs(request):
        return told(request, wrong, status=422)
    return on_purpose(request, wrong)


def first_wrong(error: dict[str, Any]) -> BadInput:
    """Return one error of a model in our words.

    Examples
    --------
    >>> print(first_wrong({"type": "missing", "loc": ("body", "name"), "msg": "Field required"}))
    name: nothing was sent for it
    """
    where = ".".join(str(part) for part in error["loc"][1:])
    if error["type"] == "missing":
        return BadInput("nothing was sent for it", where=where)
    given = error.get("input")
    return BadInput(str(error["msg"]).lower(), where=where, given=given)


def unexpected(request: Request, fault: Exception) -> Response:
    """Answer a mistake of ours; the guard's log says where it was, and nothing of a client."""
    return told(request, BROKEN, status=500)


def answer_faults(app: FastAPI) -> None:
    """Let an app answer every kind of fault in these words."""
    app.add_exception_handler(CounterhoopError, on_purpose)
    app.add_exception_handler(HTTPException, by_the_framework)
    app.add_exception_handler(RequestValidationError, by_the_model)
    app.add_exception_handler(Exception, unexpected)
