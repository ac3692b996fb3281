"""The same door, sealed: a wrong scheme is a stranger's, and nothing goes round the seal."""

from __future__ import annotations

import re
import socket
import ssl
import subprocess
import sys

import pytest
from fastapi import FastAPI

from counterhoop.errors import BadInput
from counterhoop.web.guard.cookie import cookie_name
from counterhoop.web.guard.door import Door
from counterhoop.web.guard.serve import serve_on

SAME = "Sec-Fetch-Site: same-origin"


def enter(door):
    token = door.settings.links.make(now=door.clock.now())
    return door.post("/enter", SAME, body=f"token={token}&name=phone".encode())


def test_the_way_in_gives_a_cookie_that_never_leaves_the_seal(sealed):
    said = enter(sealed)
    assert said.status == 303
    name, *rest = re.split(r"=|; ", said.headers["set-cookie"])
    assert name == f"__Host-counterhoop-{sealed.port}"
    assert {"Secure", "HttpOnly", "Strict"} <= set(rest)
    cookie = "Cookie: " + said.headers["set-cookie"].split(";")[0]
    assert sealed.ask("GET /", cookie).body == "the first page"


def test_a_cookie_by_the_unsealed_name_is_not_taken(sealed):
    """Anybody on the network can plant one of that name over plain http; not one of __Host-."""
    secret = sealed.pair().split("=", 1)[1]
    unsealed = cookie_name(Door(port=sealed.port))
    assert sealed.ask("GET /", f"Cookie: {unsealed}={secret}").status == 401


@pytest.mark.parametrize(
    "headers",
    [
        (),
        ("Origin: null",),
        ("Origin: http://{host}",),
        ("Origin: https://127.0.0.1",),
        ("Origin: https://localhost:{port}",),
        ("Origin: https://evil.example",),
        ("Sec-Fetch-Site: cross-site", "Origin: https://{host}"),
        ("Origin: http://{host}", "X-Forwarded-Proto: http"),
    ],
)
def test_a_page_of_another_scheme_or_site_changes_nothing(sealed, headers):
    filled = [header.format(host=sealed.host, port=sealed.port) for header in headers]
    assert sealed.post("/notes", *filled, sealed.pair()).status == 403
    assert (sealed.reached, sealed.notes) == ([], [])


def test_our_own_page_changes_something(sealed):
    assert sealed.post("/notes", f"Origin: https://{sealed.host}", sealed.pair()).status == 303
    assert sealed.post("/notes", SAME, sealed.pair()).status == 303
    assert sealed.notes == ["hello", "hello"]


def test_what_a_proxy_would_say_of_the_scheme_is_not_believed(door):
    claims = ("X-Forwarded-Proto: https", "Forwarded: proto=https")
    said = door.post("/notes", f"Origin: https://{door.host}", *claims, door.pair())
    assert said.status == 403


@pytest.mark.parametrize("host", ["evil.example:{port}", "127.0.0.1", "127.0.0.1:443", ""])
def test_foreign_names_are_refused_here_too(sealed, host):
    said = sealed.ask("GET /", sealed.pair(), host=host.format(port=sealed.port))
    assert said.status == 421
    assert sealed.reached == []


def test_the_name_asked_for_in_the_seal_opens_no_other_door(sealed):
    """What a client calls us while it shakes hands (SNI) is no Host line."""
    careless = ssl.create_default_context()
    careless.check_hostname = False
    careless.verify_mode = ssl.CERT_NONE
    with careless.wrap_socket(sealed.connect_unsealed(), server_hostname="evil.example") as talk:
        talk.sendall(f"GET / HTTP/1.1\r\nHost: evil.example\r\n{sealed.pair()}\r\n\r\n".encode())
        assert talk.recv(100).startswith(b"HTTP/1.1 421")


def test_other_loopback_names_lead_to_the_sealed_one(sealed):
    said = sealed.ask("GET /jobs/a", host=f"localhost:{sealed.port}")
    assert (said.status, said.headers["location"]) == (307, f"https://{sealed.host}/jobs/a")


def test_an_unsealed_request_to_the_sealed_port_gets_nothing(sealed):
    with sealed.connect_unsealed() as talk:
        talk.sendall(f"GET / HTTP/1.1\r\nHost: {sealed.host}\r\n{sealed.pair()}\r\n\r\n".encode())
        heard = b""
        try:
            while piece := talk.recv(1000):
                heard += piece
        except ConnectionResetError:
            pass
    assert b"HTTP/" not in heard
    assert sealed.reached == []
    # And the server goes on.
    assert sealed.ask("GET /", sealed.pair()).status == 200


def test_a_sealed_request_to_an_unsealed_port_gets_nothing(door):
    with door.connect_unsealed() as talk, pytest.raises((ssl.SSLError, OSError)):
        ssl.create_default_context().wrap_socket(talk, server_hostname="127.0.0.1")
    assert door.reached == []
    assert door.ask("GET /", door.pair()).status == 200


@pytest.mark.filterwarnings("ignore:ssl.TLSVersion:DeprecationWarning")
def test_old_seals_are_not_taken(sealed):
    """It is the server that ends it: the client here would take them."""
    old = ssl.create_default_context(cafile=sealed.settings.certificate.file)
    old.set_ciphers("ALL:@SECLEVEL=0")
    old.minimum_version = ssl.TLSVersion.TLSv1
    old.maximum_version = ssl.TLSVersion.TLSv1_1
    with (
        sealed.connect_unsealed() as talk,
        pytest.raises(ssl.SSLError, match=r"EOF|alert protocol version"),
    ):
        old.wrap_socket(talk, server_hostname="127.0.0.1")
    with sealed.connect() as talk:
        assert talk.version() in ("TLSv1.2", "TLSv1.3")


def test_bodies_are_capped_beneath_the_seal(sealed):
    body = b"text=" + b"a" * 300_000
    said = sealed.post("/notes", SAME, sealed.pair(), body=body)
    assert said.status == 413
    assert "smaller" in said.body
    assert sealed.notes == []


def test_headers_that_trusted_origins_get(sealed):
    said = sealed.ask("GET /enter")
    assert said.headers["cross-origin-opener-policy"] == "same-origin"
    assert "microphone=(self)" in said.headers["permissions-policy"]


PROGRAM = """
import sys
from pathlib import Path
from fastapi import APIRouter, FastAPI
from counterhoop.web.guard.pen import PageRoute
from counterhoop.web.guard.serve import serve_on
pages = APIRouter(route_class=PageRoute)
pages.get("/")(lambda: "the first page")
app = FastAPI(docs_url=None, redoc_url=None, openapi_url=None)
app.include_router(pages)
serve_on(
    app,
    port=int(sys.argv[2]),
    data=Path(sys.argv[1]),
    https=sys.argv[3] == "https",
    say=lambda text: print(text + "END", flush=True),
)
"""


@pytest.fixture
def start():
    running = []

    def run(folder, port, scheme):
        program = subprocess.Popen(
            [sys.executable, "-c", PROGRAM, str(folder), str(port), scheme],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        running.append(program)
        said = ""
        while "END" not in said:
            line = program.stdout.readline()
            assert line, program.stderr.read()
            said += line
        return program, said

    yield run
    for program in running:
        program.kill()
        program.communicate()


def free_port():
    with socket.create_server(("127.0.0.1", 0)) as held:
        return held.getsockname()[1]


@pytest.mark.parametrize("scheme", ["http", "https"])
def test_whoever_was_let_in_is_still_in_after_a_restart_and_the_used_link_is_not(
    start, tmp_path, scheme
):
    import httpx

    port = free_port()
    program, said = start(tmp_path, port, scheme)
    address, token = re.search(
        rf"({scheme}://127\.0\.0\.1:{port})/enter\?token=(\S+)", said
    ).groups()
    trusted = tmp_path / "https.pem" if scheme == "https" else None
    with httpx.Client(
        base_url=address,
        headers={"Origin": address},
        verify=ssl.create_default_context(cafile=trusted),
    ) as browser:
        form = {"token": token, "name": "bench"}
        assert browser.post("/enter", data=form).status_code == 303
        assert browser.get("/").json() == "the first page"
        # As if the power went.
        program.kill()
        program.wait()
        _, said = start(tmp_path, port, scheme)
        assert token not in said
        assert browser.get("/").json() == "the first page"
        assert browser.post("/enter", data=form).status_code == 403
    assert ("It is new" in said) is False


def test_without_a_data_folder_there_is_no_certificate():
    with pytest.raises(BadInput, match="data folder"):
        serve_on(
            FastAPI(docs_url=None, redoc_url=None, openapi_url=None), port=0, https=True, say=print
        )
