"""A plain app behind the guard on a real server, and a raw socket to speak to it."""

from __future__ import annotations

import asyncio
import hashlib
import socket
import ssl
import threading
import time
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from http.client import HTTPResponse
from typing import Annotated

import pytest
from fastapi import APIRouter, FastAPI, Form, UploadFile
from fastapi.responses import (
    PlainTextResponse,
    RedirectResponse,
    Response,
    StreamingResponse,
)
from fastapi.staticfiles import StaticFiles

from counterhoop.web.guard.certificate import own_certificate
from counterhoop.web.guard.content_key import ContentKey
from counterhoop.web.guard.cookie import cookie_name
from counterhoop.web.guard.door import Door
from counterhoop.web.guard.pairing import PairedInMemory, let_in
from counterhoop.web.guard.pen import GivenPen, PageRoute, Pen
from counterhoop.web.guard.serve import guarded_server, take_port
from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.guard.stack import Settings
from counterhoop.web.guard.wrong_tries import WrongTries

NOON = datetime(2030, 5, 17, 12, 0, tzinfo=UTC)
JPEG_START = b"\xff\xd8\xff"
CLIENT = "Quennick"


@dataclass
class Said:
    """An answer as it came over the wire."""

    status: int
    headers: dict[str, str]
    all_headers: list[tuple[str, str]]
    body: str


class Clock:
    """A clock that the test moves."""

    def __init__(self):
        self.s = 0.0

    def __call__(self):
        return self.s

    def now(self):
        return NOON + timedelta(seconds=self.s)


@dataclass
class Opened:
    """The running server: what reached the app, what it kept, and how to speak to it."""

    port: int
    settings: Settings
    reached: list = field(default_factory=list)
    notes: list = field(default_factory=list)
    files: dict = field(default_factory=dict)
    clock: Clock | None = None
    server: object = None
    thread: threading.Thread | None = None
    address: str = "127.0.0.1"

    def let_go(self):
        """Tell the server to stop and do not wait for it."""
        self.server.should_exit = True

    def stop(self):
        """Stop the server and wait until it has written its last line."""
        self.let_go()
        self.thread.join(timeout=10)
        assert not self.thread.is_alive()

    @property
    def host(self):
        return f"127.0.0.1:{self.port}"

    @property
    def origin(self):
        return self.settings.door.address()

    def pair(self, name="bench", kind="browser"):
        """Let one in without the page and return its header line."""
        secret = let_in(self.settings.paired, name=name, kind=kind, now=NOON)
        if kind == "program":
            return f"Authorization: Bearer {secret}"
        return f"Cookie: {cookie_name(self.settings.door)}={secret}"

    def connect(self):
        """Speak to the server as it wants to be spoken to; its certificate must be the one kept."""
        talk = self.connect_unsealed()
        certificate = self.settings.certificate
        if certificate is None:
            return talk
        trusting = ssl.create_default_context(cafile=certificate.file)
        return trusting.wrap_socket(talk, server_hostname=self.address)

    def connect_unsealed(self):
        talk = socket.create_connection((self.address, self.port), timeout=20)
        talk.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        return talk

    def raw(self, *pieces, pause_s=0.0):
        """Send bytes as they are and return the first answer."""
        with self.connect() as talk:
            for piece in pieces:
                talk.sendall(piece)
                time.sleep(pause_s)
            return heard(talk, method="HEAD" if pieces[0].startswith(b"HEAD ") else "GET")

    def ask(self, line, *headers, body=b"", host=None):
        """Send one request, its headers exactly as given, and return the answer."""
        lines = [f"{line} HTTP/1.1", f"Host: {self.host if host is None else host}", *headers]
        if body:
            lines.append(f"Content-Length: {len(body)}")
        return self.raw("\r\n".join([*lines, "", ""]).encode() + body)

    def post(self, path, *headers, body=b"text=hello", host=None):
        form = "Content-Type: application/x-www-form-urlencoded"
        return self.ask(f"POST {path}", form, *headers, body=body, host=host)

    def upload(self, *headers, content, file_name="drum.jpg", kind="image/jpeg"):
        """Send a file as a form does; the name goes out as it is given."""
        start = (
            f'--edge\r\nContent-Disposition: form-data; name="file"; filename="{file_name}"\r\n'
            f"Content-Type: {kind}\r\n\r\n"
        )
        body = start.encode() + content + b"\r\n--edge--\r\n"
        multipart = "Content-Type: multipart/form-data; boundary=edge"
        return self.ask("POST /photographs", multipart, *headers, body=body)


def heard(talk, *, method):
    """Read one answer from a socket; one to HEAD has no body."""
    answer = HTTPResponse(talk, method=method)
    answer.begin()
    body = answer.read().decode()
    pairs = [(name.lower(), value) for name, value in answer.getheaders()]
    return Said(answer.status, dict(pairs), pairs, body)


class Counted:
    """Note all that passes the guard, whether there is a page for it or not."""

    def __init__(self, app, reached):
        self.app = app
        self.reached = reached

    async def __call__(self, scope, receive, send):
        if scope["type"] == "http":
            self.reached.append((scope["method"], scope["path"]))
        await self.app(scope, receive, send)


def kind_of(content):
    return "image/jpeg" if content.startswith(JPEG_START) else "application/octet-stream"


def plain_app(opened, static):
    """Return an app with one page for each thing that the guard must hold."""
    pages = APIRouter(route_class=PageRoute)

    @pages.get("/")
    def first():
        return PlainTextResponse("the first page", headers={"Cache-Control": "max-age=600"})

    @pages.get("/jobs/{name}")
    def job(name: str):
        return PlainTextResponse(f"the folder of {name}")

    @pages.post("/notes")
    def note(pen: GivenPen, text: Annotated[str, Form()]):
        opened.notes.append(text)
        return RedirectResponse("/", status_code=303)

    @pages.get("/sly")
    def sly():
        Pen()
        opened.notes.append("written while looking")

    @pages.post("/unread")
    async def unread():
        return PlainTextResponse("did not look at the body")

    @pages.post("/photographs")
    def photograph(pen: GivenPen, file: UploadFile):
        content = file.file.read()
        key = hashlib.sha256(content).hexdigest()
        opened.files[key] = (file.filename, content)
        return PlainTextResponse(key)

    @pages.get("/photographs/{key}")
    def shown(key: ContentKey):
        name, content = opened.files[key]
        return Response(content, headers=upload_headers(kind=kind_of(content), name=name))

    @pages.get("/stream")
    async def stream(every_s: float):
        async def events():
            yield "event: first\ndata: begun\n\n"
            while True:
                await asyncio.sleep(every_s)
                yield "data: tick\n\n"

        return StreamingResponse(events(), media_type="text/event-stream")

    @pages.get("/half")
    async def half():
        async def pieces():
            yield b"a" * 1000
            await asyncio.sleep(3600)

        return StreamingResponse(pieces(), headers={"Content-Length": "2000"})

    @pages.get("/late")
    async def late():
        raise TimeoutError

    @pages.get("/devices")
    def devices():
        return PlainTextResponse(
            "\n".join(f"{one.number} {one.name}" for one in opened.settings.paired.listed())
        )

    @pages.post("/devices/strike-off")
    def strike_off(pen: GivenPen, number: Annotated[int, Form()]):
        opened.settings.paired.strike_off(number)
        return RedirectResponse("/devices", status_code=303)

    @pages.get("/broken/{name}")
    def broken(name: str):
        raise ValueError(f"no lug fits the drum of {name}")

    app = FastAPI(docs_url=None, redoc_url=None, openapi_url=None)
    app.include_router(pages)
    app.mount("/static", StaticFiles(directory=static))
    app.add_middleware(Counted, reached=opened.reached)
    return app


@pytest.fixture(scope="session")
def started():
    """All servers of the run: each takes a moment to stop, so they are waited for at the end."""
    servers = []
    yield servers
    for opened, listening in servers:
        opened.stop()
        listening.close()


@pytest.fixture
def open_door(tmp_path, started):
    """Start servers on free ports; stop them all at the end."""
    running = []
    static = tmp_path / "static"
    static.mkdir()
    (static / "paper.css").write_text("body { color: #22303a }")
    (tmp_path / "secret.txt").write_text("not for strangers")

    def start(
        *, app=None, names=(), address="127.0.0.1", https=False, on_network=False, **settings
    ):
        listening = take_port(address, 0)
        clock = Clock()
        certificate = (
            own_certificate(tmp_path, names=names, now=datetime.now(UTC)) if https else None
        )
        chosen = Settings(
            door=Door(
                port=listening.getsockname()[1],
                scheme="https" if https else "http",
                names=names,
                on_network=on_network,
            ),
            certificate=certificate,
            tries=WrongTries(clock=clock),
            now=clock.now,
            most_bytes=100_000,
            **{
                "paired": PairedInMemory(),
                "most_bytes_at": {"/photographs": 1_000_000},
                **settings,
            },
        )
        opened = Opened(port=chosen.door.port, settings=chosen, clock=clock, address=address)
        opened.server = guarded_server(app or plain_app(opened, static), settings=chosen)
        opened.thread = threading.Thread(
            target=opened.server.run, kwargs={"sockets": [listening]}, daemon=True
        )
        opened.thread.start()
        running.append(opened)
        started.append((opened, listening))
        return opened

    yield start
    for opened in running:
        opened.let_go()


@pytest.fixture
def door(open_door):
    return open_door()


@pytest.fixture
def sealed(open_door):
    return open_door(https=True)


@pytest.fixture
def anyio_run():
    """Run one coroutine to its end."""
    return asyncio.run


@pytest.fixture
def utc_noon():
    return NOON
