"""Small things that would unpack to large ones, and large ones: sent to a program of its own.

What it takes in memory is read from the kernel (VmHWM, proc(5)), whose highest mark the program
sets back before each try.
"""

from __future__ import annotations

import functools
import gzip
import io
import re
import socket
import struct
import subprocess
import sys
import time
import zipfile
import zlib

import httpx
import pytest

PROGRAM = """
import sys, tempfile
from pathlib import Path
from typing import Annotated
from fastapi import APIRouter, FastAPI, Form, UploadFile
from fastapi.responses import PlainTextResponse, Response
from counterhoop.errors import BadInput
from counterhoop.store.address import address_of
from counterhoop.store.enclosures.keep import keep_file, place_of
from counterhoop.store.enclosures.picture import preview
from counterhoop.store.store import open_store
from counterhoop.web.guard.body_cap import UPLOAD_BYTES
from counterhoop.web.guard.content_key import ContentKey
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.serve import serve_on

data = Path(sys.argv[1])
pages = APIRouter(route_class=PageRoute)
KERNEL = Path("/proc/self")

@pages.post("/photographs")
def photograph(pen: GivenPen, file: UploadFile):
    pieces = iter(lambda: file.file.read(1 << 20), b"")
    return PlainTextResponse(keep_file(store, pieces).sha256)

@pages.post("/received")
def received(pen: GivenPen, file: UploadFile):
    return PlainTextResponse(f"{file.size} {type(file.file._file).__name__}")

@pages.post("/notes")
def note(pen: GivenPen, text: Annotated[str, Form()]):
    return PlainTextResponse(str(len(text)))

@pages.get("/photographs/{key}/small")
def small(key: ContentKey):
    content = place_of(store.address.files, key).read_bytes()
    return Response(preview(content, longest_px=400), media_type="image/jpeg")

@pages.get("/memory")
def memory():
    said = (KERNEL / "status").read_text()
    return PlainTextResponse(said.split("VmHWM:")[1].split()[0])

@pages.post("/memory")
def forget(pen: GivenPen):
    (KERNEL / "clear_refs").write_text("5")
    return memory()

app = FastAPI(docs_url=None, redoc_url=None, openapi_url=None)
app.include_router(pages)
app.add_exception_handler(
    BadInput, lambda request, fault: PlainTextResponse(str(fault), status_code=422)
)
caps = {"/photographs": UPLOAD_BYTES, "/received": UPLOAD_BYTES}
with open_store(address_of(data=data)) as store:
    serve_on(app, port=0, data=data, most_bytes_at=caps, say=lambda text: print(text, flush=True))
"""


class Program:
    """The program, and a browser that was let in."""

    def __init__(self, folder):
        self.running = subprocess.Popen(
            [sys.executable, "-c", PROGRAM, str(folder)],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        said = "".join(self.running.stdout.readline() for _ in range(3))
        address, token = re.search(r"(http://\S+)/enter\?token=(\S+)", said).groups()
        self.address = address
        self.browser = httpx.Client(base_url=address, headers={"Origin": address}, timeout=60)
        self.browser.post("/enter", data={"token": token, "name": "bench"})
        # What is loaded once counts for none of the bombs.
        assert self.bring(picture(8, 8)).status_code == 200
        assert self.small(self.bring(picture(8, 8)).text).status_code == 200

    def bring(self, content, *, path="/photographs", name="drum.png"):
        return self.browser.post(path, files={"file": (name, content, "image/png")})

    def small(self, key):
        return self.browser.get(f"/photographs/{key}/small")

    def forget(self):
        return int(self.browser.post("/memory").text)

    def grown_mb(self, before_kb):
        return (int(self.browser.get("/memory").text) - before_kb) / 1000


@pytest.fixture(scope="module")
def program(tmp_path_factory):
    started = Program(tmp_path_factory.mktemp("data"))
    yield started
    started.browser.close()
    started.running.kill()
    started.running.communicate()


def piece(kind, content):
    check = struct.pack(">I", zlib.crc32(kind + content))
    return struct.pack(">I", len(content)) + kind + content + check


def png(width, height, *pieces):
    """A PNG of these pieces; one bit a dot (ISO/IEC 15948, clauses 5 and 11)."""
    head = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + piece(b"IHDR", head) + b"".join(pieces) + piece(b"IEND", b"")


@functools.cache
def packed(total):
    """So many zeros, packed without ever lying in memory."""
    packer = zlib.compressobj(9)
    zeros = bytes(1 << 20)
    parts = [
        packer.compress(zeros[: min(len(zeros), total - at)]) for at in range(0, total, 1 << 20)
    ]
    return b"".join([*parts, packer.flush()])


def picture(width, height):
    """A whole, true PNG, all black."""
    return png(width, height, piece(b"IDAT", packed(height * (1 + (width + 7) // 8))))


def jpeg_that_claims(width, height):
    """Start and frame of a JPEG (ISO/IEC 10918-1, B.2.2), without a scan."""
    frame = struct.pack(">BHHB", 8, height, width, 1) + bytes((1, 0x11, 0))
    return b"\xff\xd8\xff\xc0" + struct.pack(">H", len(frame) + 2) + frame + b"\xff\xd9"


@pytest.mark.parametrize(
    "make",
    [
        lambda: picture(50_000, 50_000),
        lambda: png(4_000_000_000, 4_000_000_000, piece(b"IDAT", packed(1000))),
        lambda: jpeg_that_claims(65_500, 65_500),
    ],
    ids=["true", "claimed", "jpeg"],
)
def test_a_picture_that_would_fill_the_memory_is_refused_in_words(program, make):
    content = make()
    assert len(content) < 400_000
    before = program.forget()
    said = program.bring(content)
    assert said.status_code == 422
    assert "dots" in said.text
    assert program.grown_mb(before) < 20


def test_a_large_one_is_kept_but_not_unpacked_to_show_it_small(program):
    """14,000 by 14,000: a camera's, by the count of dots, but 200 MB or more when unpacked."""
    before = program.forget()
    kept = program.bring(picture(14_000, 14_000))
    assert kept.status_code == 200
    said = program.small(kept.text)
    assert (said.status_code, "kept as it is" in said.text) == (422, True)
    assert program.grown_mb(before) < 30


@pytest.mark.parametrize(
    ("kind", "begins"),
    [(b"zTXt", b"Comment\0\0"), (b"iTXt", b"Comment\0\1\0\0\0"), (b"iCCP", b"profile\0\0")],
    ids=["zTXt", "iTXt", "iCCP"],
)
def test_notes_packed_into_a_picture_are_not_unpacked_beyond_reason(program, kind, begins):
    """Refused or kept, but 300 MB of zeros never lie in memory."""
    chunk = piece(kind, begins + packed(300_000_000))
    before = program.forget()
    content = png(8, 8, chunk, piece(b"IDAT", packed(16)))
    said = program.bring(content)
    assert said.status_code in (200, 422)
    assert said.status_code == 422 or program.small(said.text).status_code in (200, 422)
    assert program.grown_mb(before) < 80


def test_a_picture_of_a_million_pieces_is_read_piece_by_piece(program):
    before = program.forget()
    content = png(8, 8, piece(b"IDAT", packed(16)), piece(b"tEXt", b"") * 1_000_000)
    said = program.bring(content)
    assert said.status_code in (200, 422)
    # The file itself is 12 MB and is looked over in memory.
    assert program.grown_mb(before) < 60


@pytest.mark.parametrize("mention", [b":GPS", b"a:GPSb", b"<a:GPSb>", b"Exif\0\0", b"+00.0-000.0"])
def test_a_photograph_that_only_speaks_of_places_does_not_hold_the_program_up(program, mention):
    """Before there was a limit, 1 MB of the first took a minute."""
    content = b"\xff\xd8\xff" + mention * (10_000_000 // len(mention))
    began = time.monotonic()
    assert program.bring(content, name="drum.jpg").status_code == 422
    assert time.monotonic() - began < 20


@functools.cache
def zipped(name, total):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(name, bytes(total))
    return out.getvalue()


@pytest.mark.parametrize("name", ["drum.png", "backup.zip", "../../counterhoop.sqlite3"])
def test_an_archive_is_no_photograph_and_is_not_opened(program, name):
    before = program.forget()
    said = program.bring(zipped("big", 100_000_000), name=name)
    assert said.status_code == 422
    assert "photograph" in said.text
    assert program.grown_mb(before) < 20


def test_a_packed_body_is_not_unpacked(program):
    body = gzip.compress(b"text=" + bytes(100_000_000))
    before = program.forget()
    form = {"Content-Type": "application/x-www-form-urlencoded", "Content-Encoding": "gzip"}
    said = program.browser.post("/notes", content=body, headers=form)
    assert said.status_code in (400, 413, 415, 422, 501)
    assert program.grown_mb(before) < 20


def test_a_form_of_a_hundred_thousand_fields_or_files_is_refused(program):
    before = program.forget()
    fields = "&".join(f"a{n}=" for n in range(100_000)).encode()
    plain = {"Content-Type": "application/x-www-form-urlencoded"}
    assert program.browser.post("/notes", content=fields, headers=plain).status_code in (400, 413)
    start = b'--e\r\nContent-Disposition: form-data; name="file"; filename="a"\r\n\r\n\r\n'
    parts = {"Content-Type": "multipart/form-data; boundary=e"}
    said = program.browser.post("/received", content=start * 100_000 + b"--e--\r\n", headers=parts)
    assert said.status_code == 400
    assert program.grown_mb(before) < 40


def test_a_long_upload_lies_on_the_disk_and_not_in_memory(program):
    before = program.forget()
    said = program.bring(bytes(45_000_000), path="/received")
    assert said.status_code == 200
    size, where = said.text.split()
    assert int(size) == 45_000_000
    assert where != "BytesIO"
    assert program.grown_mb(before) < 20


def test_sixty_megabytes_are_refused_by_what_keeps_them_and_more_by_the_door(program):
    start = picture(8, 8)
    said = program.bring(start + bytes(60_000_000))
    assert said.status_code == 422
    assert "at most 50 MB" in said.text
    said = program.bring(start + bytes(64_000_000))
    assert said.status_code == 413
    assert "fewer at a time" in said.text


def test_sixty_five_megabytes_in_chunks_are_cut_off(program):
    def chunks():
        yield b'--e\r\nContent-Disposition: form-data; name="file"; filename="a"\r\n\r\n'
        for _ in range(65):
            yield bytes(1_000_000)
        yield b"\r\n--e--\r\n"

    before = program.forget()
    parts = {"Content-Type": "multipart/form-data; boundary=e"}
    said = program.browser.post("/received", content=chunks(), headers=parts)
    assert said.status_code == 413
    assert program.grown_mb(before) < 20


def test_after_all_that_the_program_still_answers(program):
    key = program.bring(picture(640, 480)).text
    assert program.small(key).headers["content-type"] == "image/jpeg"
    host, port = program.address.removeprefix("http://").split(":")
    with socket.create_connection((host, int(port)), timeout=10):
        pass
