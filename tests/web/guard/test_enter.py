"""From the printed link to the cookie, and out again."""

from __future__ import annotations

import re
import threading

import pytest

from counterhoop.web.guard.cookie import cookie_line
from counterhoop.web.guard.door import Door

SAME = "Sec-Fetch-Site: same-origin"


def token_of(door):
    return door.settings.links.make(now=door.clock.now())


def enter(door, token, name="phone", *headers):
    return door.post("/enter", SAME, *headers, body=f"token={token}&name={name}".encode())


def cookie_from(said):
    return "Cookie: " + said.headers["set-cookie"].split(";")[0]


def test_a_stranger_sees_nothing_whether_there_is_a_page_or_not(door):
    paths = ("/", "/jobs/a", "/no-such-page", "/photographs/" + "0" * 64)
    answers = {(said.status, said.body) for said in (door.ask(f"GET {path}") for path in paths)}
    assert len(answers) == 1
    assert answers.pop()[0] == 401
    assert door.reached == []


def test_the_link_shows_a_page_and_one_press_lets_the_browser_in(door):
    token = token_of(door)
    page = door.ask(f"GET /enter?token={token}")
    assert page.status == 200
    assert re.search(r'name="token" value="([^"]*)"', page.body).group(1) == token
    said = enter(door, token, "bench%20phone")
    assert (said.status, said.headers["location"]) == (303, "/")
    assert door.ask("GET /", cookie_from(said)).body == "the first page"
    assert door.ask("GET /devices", cookie_from(said)).body == "1 bench phone"


def test_the_cookie_is_closed_to_scripts_and_foreign_pages_and_named_by_the_port(door):
    line = enter(door, token_of(door)).headers["set-cookie"]
    first, *rest = line.split("; ")
    assert first.startswith(f"counterhoop-{door.port}=")
    assert len(first.split("=")[1]) >= 43  # 256 bits in base64
    assert {"HttpOnly", "SameSite=Strict", "Path=/"} <= set(rest)
    assert not [part for part in rest if part.startswith("Domain")]


def test_over_https_the_cookie_stays_with_this_host_and_never_goes_unsealed():
    line = cookie_line(Door(port=8377, scheme="https"), secret="s").decode()
    assert line.startswith("__Host-counterhoop-8377=s; Path=/;")
    assert line.endswith("; Secure")


def test_looking_at_the_link_does_not_use_it_up(door):
    token = token_of(door)
    for _ in range(3):
        assert "set-cookie" not in door.ask(f"GET /enter?token={token}").headers
    assert door.ask(f"HEAD /enter?token={token}").status == 200
    assert enter(door, token).status == 303


def test_a_token_is_good_once(door):
    token = token_of(door)
    assert enter(door, token).status == 303
    again = enter(door, token)
    assert again.status == 403
    assert "set-cookie" not in again.headers
    assert len(door.settings.paired.listed()) == 1


def test_of_many_at_once_a_token_lets_one_in(door):
    token = token_of(door)
    codes = []
    many = [
        threading.Thread(target=lambda: codes.append(enter(door, token).status)) for _ in range(8)
    ]
    for one in many:
        one.start()
    for one in many:
        one.join()
    assert codes.count(303) == 1
    assert len(door.settings.paired.listed()) == 1


def test_an_old_token_is_not_good(door):
    token = token_of(door)
    door.clock.s += 15 * 60
    assert enter(door, token).status == 403
    fresh = token_of(door)
    door.clock.s += 15 * 60 - 1
    assert enter(door, fresh).status == 303


def test_a_foreign_page_cannot_press_the_button(door):
    token = token_of(door)
    said = door.post("/enter", "Sec-Fetch-Site: cross-site", body=f"token={token}".encode())
    assert said.status == 403
    assert enter(door, token).status == 303


def test_what_stands_in_the_link_is_shown_as_text(door):
    said = door.ask("GET /enter?token=%22%3E%3Cscript%3Ealert(1)%3C/script%3E")
    assert "<script" not in said.body
    assert "&lt;script&gt;" in said.body


def test_a_name_is_shown_in_one_line_without_hidden_characters(door):
    said = enter(door, token_of(door), "a%0D%0A9%20b%E2%80%AE%00")
    assert door.ask("GET /devices", cookie_from(said)).body == "1 a 9 b"


def test_one_that_is_struck_off_is_out_at_once(door):
    phone, laptop = cookie_from(enter(door, token_of(door))), door.pair("laptop")
    assert door.ask("GET /devices", laptop).body == "1 phone\n2 laptop"
    assert door.post("/devices/strike-off", SAME, laptop, body=b"number=1").status == 303
    assert door.ask("GET /", phone).status == 401
    assert door.ask("GET /", laptop).status == 200


@pytest.mark.parametrize(
    "change", [lambda s: s[:-1], lambda s: s + "A", lambda s: s.swapcase(), lambda s: ""]
)
def test_a_cookie_that_is_nearly_right_is_wrong(door, change):
    name, secret = door.pair().removeprefix("Cookie: ").split("=", 1)
    assert door.ask("GET /", f"Cookie: {name}={change(secret)}").status == 401


def test_a_cookie_of_another_port_is_not_taken(door, open_door):
    other = open_door()
    assert other.ask("GET /", door.pair()).status == 401


def test_a_second_cookie_of_our_name_set_by_a_neighbour_locks_nobody_out(door):
    pair = door.pair().removeprefix("Cookie: ")
    name = pair.split("=")[0]
    assert door.ask("GET /", f"Cookie: {name}=planted; {pair}").status == 200
    assert door.ask("GET /", f"Cookie: x{pair}").status == 401


def test_a_very_long_form_is_not_read_to_its_end(door):
    token = token_of(door)
    body = b"pad=" + b"a" * 50_000 + f"&token={token}".encode()
    assert door.post("/enter", SAME, body=body).status == 403
    assert door.post("/enter", SAME, body=b"a" * 200_000).status == 413


def test_only_the_form_is_taken(door):
    assert door.ask("PUT /enter", SAME).status == 405
