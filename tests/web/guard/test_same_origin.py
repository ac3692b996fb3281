"""Who may change something: the truth is rule 3, tried line by line over a raw socket."""

from __future__ import annotations

import pytest

SAME = "Sec-Fetch-Site: same-origin"


def tried(door, *headers, cookie=True):
    """Post a note with these headers; return the code and whether it was kept."""
    said = door.post("/notes", *headers, *([door.pair()] if cookie else []))
    kept, door.notes[:] = list(door.notes), []
    return said.status, bool(kept)


@pytest.mark.parametrize(
    "headers",
    [
        (),
        ("Origin: null",),
        ("Origin: {wrong_port}",),
        ("Origin: https://{host}",),
        ("Origin: http://localhost:{port}",),
        ("Origin: http://evil.example",),
        ("Origin: {origin}.evil.example",),
        ("Origin: {origin}/",),
        ("Origin: {origin}", "Origin: http://evil.example"),
        ("Referer: {origin}/",),
        ("Sec-Fetch-Site: cross-site",),
        ("Sec-Fetch-Site: same-site",),
        ("Sec-Fetch-Site: none",),
        ("Sec-Fetch-Site: Same-Origin",),
        ("Sec-Fetch-Site:",),
        ("Sec-Fetch-Site: cross-site", "Origin: {origin}"),
        ("Sec-Fetch-Site: same-site", "Origin: {origin}"),
        (SAME, "Sec-Fetch-Site: cross-site"),
        (SAME, SAME),
    ],
)
def test_a_foreign_page_changes_nothing(door, headers):
    filled = [
        header.format(
            host=door.host,
            port=door.port,
            origin=door.origin,
            wrong_port=f"http://127.0.0.1:{door.port + 1}",
        )
        for header in headers
    ]
    assert tried(door, *filled) == (403, False)
    assert door.reached == []


def test_our_own_page_changes_something(door):
    assert tried(door, SAME) == (303, True)
    assert tried(door, f"Origin: {door.origin}") == (303, True)
    # A form of ours under a strict referrer policy: the browser vouches, its Origin says nothing.
    assert tried(door, SAME, "Origin: null") == (303, True)


def test_on_a_name_of_the_network_the_origin_is_that_name(open_door):
    door = open_door(names=("bench.local",))
    host = f"bench.local:{door.port}"
    assert door.post("/notes", f"Origin: http://{host}", door.pair(), host=host).status == 303
    # Loopback's own page is another origin there.
    assert door.post("/notes", f"Origin: {door.origin}", door.pair(), host=host).status == 403


def test_a_program_with_a_token_and_no_cookie_changes_something(door):
    assert tried(door, door.pair(kind="program"), cookie=False) == (303, True)


def test_a_token_with_any_cookie_beside_it_counts_for_nothing(door):
    token = door.pair(kind="program")
    assert tried(door, token, cookie=True) == (403, False)
    assert tried(door, token, "Cookie: other=1", cookie=False) == (403, False)


def test_a_browsers_secret_is_no_token_and_a_token_no_cookie(door):
    cookie, token = door.pair(), door.pair(kind="program")
    name, secret = cookie.removeprefix("Cookie: ").split("=", 1)
    assert tried(door, f"Authorization: Bearer {secret}", cookie=False) == (401, False)
    door.clock.s += 60
    as_cookie = f"Cookie: {name}={token.removeprefix('Authorization: Bearer ')}"
    assert door.ask("GET /", as_cookie).status == 401


@pytest.mark.parametrize(
    "method", ["PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "PROPFIND", "get"]
)
def test_every_other_method_is_held_to_the_same_rule(door, method):
    assert door.ask(f"{method} /notes", door.pair()).status == 403
    assert door.ask(f"{method} /notes", SAME, door.pair()).status == 405


def test_a_question_before_a_foreign_request_gets_no_leave(door):
    said = door.ask(
        "OPTIONS /notes",
        "Origin: http://evil.example",
        "Access-Control-Request-Method: POST",
        "Access-Control-Request-Headers: authorization",
    )
    assert said.status == 403
    assert not [name for name in said.headers if name.startswith("access-control")]


def test_a_get_that_says_it_is_a_post_stays_a_get(door):
    said = door.ask("GET /notes", "X-HTTP-Method-Override: POST", SAME, door.pair())
    assert said.status == 405
    assert door.notes == []
