"""The program as it is started: a process of its own, the printed link, and the way in."""

from __future__ import annotations

import re
import signal
import socket
import subprocess
import sys

import pytest
from fastapi import FastAPI

from counterhoop.errors import BadInput, CannotDo
from counterhoop.web.guard.door import Door
from counterhoop.web.guard.link_words import lan_words, link, opening_words, square
from counterhoop.web.guard.pen import LookingWrites
from counterhoop.web.guard.serve import names_for, serve_on, take_port

PROGRAM = """
from fastapi import APIRouter, FastAPI
from counterhoop.web.guard.pen import PageRoute
from counterhoop.web.guard.serve import serve_on
pages = APIRouter(route_class=PageRoute)
pages.get("/")(lambda: "the first page")
app = FastAPI(docs_url=None, redoc_url=None, openapi_url=None)
app.include_router(pages)
serve_on(app, port=0, say=lambda text: print(text, flush=True))
"""


@pytest.fixture
def program():
    running = subprocess.Popen(
        [sys.executable, "-c", PROGRAM], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    yield running
    running.kill()
    running.wait()


def test_the_printed_link_leads_in_and_ctrl_c_ends_it(program):
    import httpx

    printed = program.stdout.readline() + program.stdout.readline() + program.stdout.readline()
    found = re.search(r"(http://127\.0\.0\.1:(\d+))/enter\?token=(\S+)", printed)
    address, _, token = found.groups()
    with httpx.Client(base_url=address, headers={"Origin": address}, timeout=20) as browser:
        assert browser.get("/").status_code == 401
        assert browser.get(f"/enter?token={token}").status_code == 200
        assert browser.post("/enter", data={"token": token, "name": "bench"}).status_code == 303
        assert browser.get("/").json() == "the first page"
        assert browser.post("/enter", data={"token": token, "name": "again"}).status_code == 403
    program.send_signal(signal.SIGINT)
    rest, errors = program.communicate(timeout=20)
    assert token not in rest + errors
    assert "Traceback" not in errors


def test_the_body_of_an_answer_does_not_wait_for_its_head_to_be_acknowledged():
    """Head and body go out one after the other; a system that gathers small pieces holds the
    second back until the first is acknowledged (RFC 896), which is put off by up to 500 ms, on
    Linux by 40 (RFC 1122, 4.2.3.2; both from memory).
    """
    with take_port("127.0.0.1", 0) as listening:
        address = ("127.0.0.1", listening.getsockname()[1])
        with socket.create_connection(address, timeout=10), listening.accept()[0] as accepted:
            assert accepted.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY) != 0


def test_only_loopback_is_listened_at(program):
    printed = program.stdout.readline()
    port = int(re.search(r":(\d+)/", printed).group(1))
    with socket.create_connection(("127.0.0.1", port), timeout=10):
        pass
    # The same port at another address of this machine is free for anybody.
    with socket.create_server(("127.0.0.2", port)):
        pass


def test_a_port_that_is_taken_is_said_in_a_sentence():
    with socket.create_server(("127.0.0.1", 0)) as taken:
        app = FastAPI(docs_url=None, redoc_url=None, openapi_url=None)
        with pytest.raises(CannotDo, match=r"another port with --port"):
            serve_on(app, port=taken.getsockname()[1])


def test_an_app_with_a_route_past_the_rule_never_gets_a_server():
    said = []
    with pytest.raises(LookingWrites):
        serve_on(FastAPI(), port=0, say=said.append)
    assert said == []


def test_the_network_is_named_with_what_it_means():
    door = Door(port=8377, names=("192.0.2.7",))
    words = lan_words(door, token="one", phone_token="two")
    assert "strike them off" in words
    assert "others on it could read it" in words
    assert "http://127.0.0.1:8377/enter?token=one" in words
    assert "http://192.0.2.7:8377/enter?token=two" in words
    assert square(link(door, token="two", name="192.0.2.7")) in words
    sealed = Door(port=8377, scheme="https", names=("192.0.2.7",))
    assert "unsealed" not in lan_words(sealed, token="one", phone_token="two")
    assert "on this machine only" in opening_words(door, token="one")


def test_names_for_the_network_and_for_this_machine():
    assert names_for("127.0.0.1", ()) == ()
    assert names_for("127.0.0.1", ("Bench.local",)) == ("bench.local",)
    assert names_for("192.0.2.7", ("bench.local", "192.0.2.7")) == ("192.0.2.7", "bench.local")
    with pytest.raises(BadInput):
        names_for("127.0.0.1", ("*",))


def test_the_printed_square_is_the_code_itself():
    """Read back from the half blocks and held against the modules of the encoder."""
    import segno

    text = link(Door(port=8377, names=("192.0.2.7",)), token="x" * 22, name="192.0.2.7")
    code = segno.make_qr(text, error="m")
    wanted = [[bool(module) for module in row] for row in code.matrix_iter(border=4)]
    assert rows_of(square(text), width=len(wanted)) == wanted


def rows_of(printed, *, width):
    """Turn half blocks back into rows of dark modules."""
    plain = [re.sub(r"\x1b\[[0-9;]*m", "", line) for line in printed.splitlines()]
    light_above, light_below = "█▀", "█▄"
    assert all(line.startswith("\x1b[97;40m") for line in printed.splitlines())
    rows = []
    for line in plain:
        padded = line.ljust(width)
        rows.append([mark not in light_above for mark in padded])
        rows.append([mark not in light_below for mark in padded])
    return rows[:width]
