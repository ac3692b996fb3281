"""Looking never writes: a page that looks and asks for the pen cannot be registered."""

from __future__ import annotations

from functools import partial
from typing import Annotated

import pytest
from fastapi import APIRouter, Depends, FastAPI
from fastapi.staticfiles import StaticFiles

from counterhoop.web.guard.pen import GivenPen, LookingWrites, PageRoute, Pen, take_pen
from counterhoop.web.guard.routes_check import check_routes


def writes(pen: GivenPen):
    return pen


def writes_deep(writer: Annotated[Pen, Depends(writes)]):
    return writer


def looks():
    return "looked"


def pages():
    return APIRouter(route_class=PageRoute)


def app_of(*routers, **settings):
    app = FastAPI(docs_url=None, redoc_url=None, openapi_url=None, **settings)
    for router in routers:
        app.include_router(router)
    return app


@pytest.mark.parametrize("endpoint", [writes, writes_deep, partial(writes)])
@pytest.mark.parametrize("methods", [["GET"], ["HEAD"], ["GET", "POST"], None])
def test_a_page_that_looks_and_writes_cannot_be_registered(endpoint, methods):
    with pytest.raises(LookingWrites, match="/x asks for the pen"):
        pages().add_api_route("/x", endpoint, methods=methods)


def test_nor_with_the_pen_beside_the_page():
    with pytest.raises(LookingWrites):
        pages().add_api_route("/x", looks, methods=["GET"], dependencies=[Depends(writes_deep)])
    with pytest.raises(LookingWrites):
        APIRouter(route_class=PageRoute, dependencies=[Depends(take_pen)]).get("/x")(looks)


def test_a_page_that_writes_and_one_that_looks_can():
    router = pages()
    router.add_api_route("/x", writes, methods=["POST"])
    router.add_api_route("/x", looks, methods=["GET"])
    check_routes(app_of(router))


def plain_route():
    router = APIRouter()
    router.get("/x")(writes)
    return app_of(router)


def nested_plain_route():
    inner, outer = APIRouter(), pages()
    inner.get("/x")(writes)
    outer.include_router(inner)
    return app_of(outer)


def route_of_the_app():
    app = app_of()
    app.get("/x")(looks)
    return app


def pen_at_inclusion(dependency):
    router = pages()
    router.get("/x")(looks)
    app = app_of()
    app.include_router(router, dependencies=[Depends(dependency)])
    return app


def mounted():
    app = app_of()
    app.mount("/x", FastAPI())
    return app


@pytest.mark.parametrize(
    "make",
    [
        plain_route,
        nested_plain_route,
        route_of_the_app,
        partial(pen_at_inclusion, take_pen),
        partial(pen_at_inclusion, writes_deep),
        mounted,
        FastAPI,
    ],
)
def test_an_app_with_a_route_past_the_rule_is_not_served(make):
    with pytest.raises(LookingWrites):
        check_routes(make())


def test_files_of_ours_may_be_served(tmp_path):
    app = app_of()
    app.mount("/static", StaticFiles(directory=tmp_path))
    check_routes(app)


def test_a_pen_made_by_hand_while_looking_is_refused(door):
    assert door.ask("GET /sly", door.pair()).status == 500
    assert door.notes == []


def test_no_pen_outside_a_request():
    with pytest.raises(LookingWrites):
        Pen()


def test_after_a_request_that_wrote_the_next_one_has_no_pen(door):
    """Both on one connection, where a leaked note would show."""
    same = "Sec-Fetch-Site: same-origin"
    form = "Content-Type: application/x-www-form-urlencoded"
    first = f"POST /notes HTTP/1.1\r\nHost: {door.host}\r\n{door.pair()}\r\n{same}\r\n{form}\r\n"
    second = f"GET /sly HTTP/1.1\r\nHost: {door.host}\r\n{door.pair()}\r\nConnection: close\r\n\r\n"
    with door.connect() as talk:
        talk.sendall(f"{first}Content-Length: 6\r\n\r\ntext=a{second}".encode())
        everything = b""
        while piece := talk.recv(65536):
            everything += piece
    assert everything.count(b"HTTP/1.1 303") == 1
    assert everything.count(b"HTTP/1.1 500") == 1
    assert door.notes == ["a"]
