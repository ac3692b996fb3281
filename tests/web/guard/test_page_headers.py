"""What every answer says about itself; the truth is rule 5 and what browsers document."""

from __future__ import annotations

import asyncio

import pytest

from counterhoop.web.guard.page_headers import PageHeaders
from counterhoop.web.guard.public import PUBLIC


def everywhere(door):
    """Yield an answer of each kind: a page, a refusal by each rule, a fault, a missing page."""
    paired = door.pair()
    yield door.ask("GET /", paired)
    yield door.ask("GET /")
    yield door.ask("GET /enter")
    yield door.ask("GET /", host="evil.example")
    yield door.ask("GET /", host=f"localhost:{door.port}")
    yield door.ask("GET //", paired)
    yield door.post("/notes", paired)
    yield door.ask("GET /broken/a", paired)
    yield door.ask("GET /none", paired)
    yield door.ask("POST /notes", paired, body=b"a" * 200_000)


def test_every_answer_carries_the_policy(door):
    codes = set()
    for said in everywhere(door):
        codes.add(said.status)
        policy = said.headers["content-security-policy"]
        assert "default-src 'self'" in policy
        assert "frame-ancestors 'none'" in policy
        assert "unsafe" not in policy
        assert said.headers["x-content-type-options"] == "nosniff"
        assert said.headers["x-frame-options"] == "DENY"
        assert said.headers["referrer-policy"] == "same-origin"
        assert said.headers["cross-origin-resource-policy"] == "same-origin"
        assert said.headers["cache-control"] == "no-store"
        assert "server" not in said.headers
    assert codes == {200, 307, 400, 401, 403, 404, 413, 421, 500}


def test_a_private_page_cannot_say_that_it_may_be_kept(door):
    """The first page asks for ten minutes; the guard has the last word, and one line of it."""
    said = door.ask("GET /", door.pair())
    assert [value for name, value in said.all_headers if name == "cache-control"] == ["no-store"]


def test_what_is_public_may_be_kept(door):
    said = door.ask("GET /static/paper.css")
    assert "no-store" not in said.headers.get("cache-control", "")
    assert said.headers["x-content-type-options"] == "nosniff"


def test_the_header_that_needs_a_trusted_origin_is_sent_only_there(open_door):
    """A browser writes a complaint into its console elsewhere (seen with Chromium 150)."""
    door = open_door(names=("bench.local",))
    name = "cross-origin-opener-policy"
    assert door.ask("GET /enter").headers[name] == "same-origin"
    assert name not in door.ask("GET /enter", host=f"bench.local:{door.port}").headers


@pytest.mark.parametrize("method", ["POST", "DELETE"])
def test_what_is_public_can_only_be_read(door, method):
    assert door.ask(f"{method} /static/paper.css", "Sec-Fetch-Site: same-origin").status == 401
    assert door.reached == []


@pytest.mark.parametrize(
    ("says", "status", "stays"),
    [
        ("private, no-cache", 200, True),
        ("private, no-cache", 304, True),
        # What is refused is never kept, and no other words pass.
        ("private, no-cache", 401, False),
        ("private, max-age=600", 200, False),
        ("no-cache", 200, False),
    ],
)
def test_a_private_answer_may_be_kept_only_to_be_asked_for_again(says, status, stays):
    """RFC 9111, 5.2.2: no-cache allows no use without asking, private keeps it off proxies."""

    async def app(scope, receive, send):
        headers = [(b"cache-control", says.encode())]
        await send({"type": "http.response.start", "status": status, "headers": headers})

    sent = []

    async def send(message):
        sent.append(message)

    scope = {"path": "/jobs/7", "scheme": "https", "headers": []}
    asyncio.run(PageHeaders(app, public=PUBLIC)(scope, None, send))
    kept = [value for name, value in sent[0]["headers"] if name == b"cache-control"]
    assert kept == [says.encode() if stays else b"no-store"]
