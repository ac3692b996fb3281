"""Names under which we do not answer; the truth is rule 1: loopback with our port, or a given name.

Rebinding: a page's own name is made to resolve to this machine, so that everything about its
request is right except the Host line (seen in a browser by the project: matching Origin, no
Sec-Fetch-Site).
"""

from __future__ import annotations

import pytest

from counterhoop.errors import BadInput
from counterhoop.web.guard.door import Door, host_name
from counterhoop.web.guard.host_check import HostCheck


@pytest.mark.parametrize(
    "host",
    [
        "127.0.0.1",  # the usual port, which is not ours
        "127.0.0.1:1",
        "127.0.0.1:{port}0",
        "127.0.0.1.:{port}",
        "localhost.:{port}",
        "rebound.example:{port}",
        "127.0.0.1.rebound.example:{port}",
        "localhost.rebound.example:{port}",
        "[::ffff:127.0.0.1]:{port}",
        "[0:0:0:0:0:0:0:1]:{port}",
        "::1:{port}",
        "127.1:{port}",
        "127.0.0.2:{port}",
        "2130706433:{port}",
        "0x7f000001:{port}",
        "0.0.0.0:{port}",
        "user@127.0.0.1:{port}",
        "127.0.0.1:{port}@rebound.example",
        "127.0.0.1:{port}, rebound.example",
        "127.0.0.1:+{port}",
        "",
    ],
)
def test_a_foreign_name_is_refused_before_any_page(door, host):
    said = door.ask("GET /", door.pair(), host=host.format(port=door.port))
    assert said.status == 421
    assert door.reached == []


def test_a_rebound_name_with_everything_else_right_writes_nothing(door):
    host = f"rebound.example:{door.port}"
    said = door.post("/notes", f"Origin: http://{host}", door.pair(), host=host)
    assert said.status == 421
    assert (door.reached, door.notes) == ([], [])


@pytest.mark.parametrize(
    "order", [("127.0.0.1:{port}", "evil.example"), ("evil.example", "127.0.0.1:{port}")]
)
def test_two_host_lines_are_refused(door, order):
    first, second = (host.format(port=door.port) for host in order)
    said = door.raw(
        f"GET / HTTP/1.1\r\nHost: {first}\r\nHost: {second}\r\n{door.pair()}\r\n\r\n".encode()
    )
    # The server's own reader may be the one that refuses.
    assert said.status in (400, 421)
    assert door.reached == []


def test_the_old_protocol_without_a_host_line_is_refused(door):
    said = door.raw(f"GET / HTTP/1.0\r\n{door.pair()}\r\n\r\n".encode())
    assert said.status == 421
    assert door.reached == []


@pytest.mark.parametrize("target", ["http://evil.example/", "http://127.0.0.1/", "*"])
def test_a_target_that_is_no_path_is_refused(door, target):
    said = door.ask(f"GET {target}", door.pair())
    assert said.status == 421
    assert door.reached == []


def test_what_a_proxy_would_say_is_not_believed(door):
    claims = (f"X-Forwarded-Host: {door.host}", f"Forwarded: host={door.host}")
    assert door.ask("GET /", door.pair(), *claims, host="evil.example").status == 421
    claims = ("X-Forwarded-Host: evil.example", "X-Forwarded-Proto: https")
    assert door.ask("GET /", door.pair(), *claims).status == 200


def test_our_own_name_is_answered(door):
    assert door.ask("GET /", door.pair()).body == "the first page"
    assert door.reached == [("GET", "/")]


@pytest.mark.parametrize("name", ["localhost", "LOCALHOST", "[::1]"])
def test_other_loopback_names_lead_to_the_one_we_use(door, name):
    said = door.ask("GET /jobs/a%20b?x=1&y=//e.example", host=f"{name}:{door.port}")
    assert said.status == 307
    assert said.headers["location"] == f"{door.origin}/jobs/a%20b?x=1&y=//e.example"
    assert door.reached == []


def test_a_redirect_never_leads_elsewhere(door):
    said = door.ask("GET //evil.example/", host=f"localhost:{door.port}")
    assert said.headers["location"].startswith(f"{door.origin}/")


def test_nothing_is_written_under_another_loopback_name(door):
    host = f"localhost:{door.port}"
    said = door.post("/notes", f"Origin: http://{host}", door.pair(), host=host)
    assert said.status == 421
    assert door.notes == []


def test_a_name_that_the_person_gave_is_answered_with_its_port_only(open_door):
    door = open_door(names=("bench.local",))
    assert door.ask("GET /", door.pair(), host=f"bench.local:{door.port}").status == 200
    assert door.ask("GET /", door.pair(), host=f"Bench.Local:{door.port}").status == 200
    assert door.ask("GET /", door.pair(), host="bench.local").status == 421
    assert door.ask("GET /", door.pair(), host=f"x.bench.local:{door.port}").status == 421


def test_two_host_lines_are_refused_whichever_server_stands_before_us(anyio_run):
    said = []

    async def send(message):
        said.append(message)

    async def app(scope, receive, send):
        said.append("reached")

    scope = {
        "type": "http",
        "method": "GET",
        "raw_path": b"/",
        "query_string": b"",
        "headers": [(b"host", b"127.0.0.1:8377"), (b"host", b"127.0.0.1:8377")],
    }
    anyio_run(HostCheck(app, door=Door(port=8377))(scope, None, send))
    assert said[0]["status"] == 421


@pytest.mark.parametrize(
    "written", ["*", "*.local", "bench.local:8377", "http://bench", "a b", "", "1.2", "a..b"]
)
def test_a_pattern_is_no_name(written):
    with pytest.raises(BadInput):
        host_name(written)


def test_on_the_usual_port_the_name_stands_alone():
    door = Door(port=443, scheme="https")
    assert door.knows("127.0.0.1")
    assert not door.knows("127.0.0.1:443")
    assert door.address() == "https://127.0.0.1"
