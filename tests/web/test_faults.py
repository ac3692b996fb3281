"""What a person is told when a page cannot be had: the same words as page, part and JSON."""

from __future__ import annotations

import logging
from typing import Annotated

import httpx
import pytest
from fastapi import APIRouter, Form

from counterhoop.errors import BadInput, CannotDo, DoesNotAnswer
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import GivenPen, PageRoute

SLIP = BadInput(
    "no unit", where="depth", given="<b>200</b>", wanted='a length such as "200 mm"', step="Measure"
)
PARTS = {"what", "where", "given", "wanted", "step"}


@pytest.fixture
def ask(anyio_run):
    """Ask an app that fails in every way, without a guard before it."""
    pages = APIRouter(route_class=PageRoute)

    @pages.get("/planted/{number}")
    def job(number: int):
        raise BadInput("there is no such job", where="job", given=number)

    @pages.post("/depth")
    def depth(pen: GivenPen, text: Annotated[str, Form()]):
        raise SLIP

    @pages.get("/full")
    def full():
        raise CannotDo("There is no room left on the disk.")

    @pages.get("/away")
    def away():
        raise DoesNotAnswer("The database does not answer.")

    @pages.get("/broken")
    def broken():
        raise ValueError("no lug fits the drum of Quennick")

    app = make_app(None)
    app.include_router(pages)

    def answer(method, path, *, data=None, **headers):
        named = {name.replace("_", "-"): value for name, value in headers.items()}

        async def once():
            inside = httpx.ASGITransport(app=app, raise_app_exceptions=False)
            async with httpx.AsyncClient(transport=inside, base_url="http://bench") as browser:
                # The guard notes who may write; here nothing stands before the app.
                return await browser.request(method, path, data=data, headers=named)

        return anyio_run(once())

    return answer


@pytest.fixture
def anyio_run():
    import asyncio

    return asyncio.run


@pytest.fixture(autouse=True)
def with_pen():
    """Stand in for the guard, which says of each request whether it may write."""
    from counterhoop.web.guard import pen

    token = pen._may_write.set(True)
    yield
    pen._may_write.reset(token)


@pytest.mark.parametrize(
    ("method", "path", "data", "status", "says"),
    [
        ("GET", "/none", None, 404, "no page at this address"),
        ("GET", "/planted/12", None, 404, "no such job"),
        ("GET", "/planted/twelve", None, 404, "number"),
        ("GET", "/depth", None, 405, "cannot be asked in that way"),
        ("POST", "/depth", {"text": "200"}, 422, "no unit"),
        ("POST", "/depth", {}, 422, "nothing was sent for it"),
        ("GET", "/full", None, 409, "no room left"),
        ("GET", "/away", None, 503, "does not answer"),
        ("GET", "/broken", None, 500, "broken in the program itself"),
    ],
)
def test_each_fault_has_its_code_and_the_same_words_three_times(
    method, path, data, status, says, ask
):
    whole = ask(method, path, data=data)
    part = ask(method, path, data=data, HX_Request="true")
    json = ask(method, path, data=data, Accept="application/json")
    assert [whole.status_code, part.status_code, json.status_code] == [status] * 3
    assert says.lower() in whole.text.lower()
    assert whole.text.count("<h1") == 1
    assert says.lower() in part.text.lower()
    assert "<html" not in part.text
    assert json.json().keys() == PARTS
    assert says.lower() in " ".join(json.json().values()).lower()


def test_what_was_typed_is_shown_as_text(ask):
    shown = ask("POST", "/depth", data={"text": "200"}).text
    assert "&lt;b&gt;200&lt;/b&gt;" in shown
    assert "<b>200" not in shown
    assert "a length such as &#34;200 mm&#34;" in shown


def test_a_mistake_of_ours_says_nothing_of_a_client(ask, caplog):
    with caplog.at_level(logging.DEBUG):
        assert "Quennick" not in ask("GET", "/broken").text


def test_a_wrong_method_names_the_right_one(ask):
    assert ask("GET", "/depth").headers["allow"] == "POST"
