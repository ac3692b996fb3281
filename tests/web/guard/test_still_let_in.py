"""Answers that go on for long, and a device that is struck off meanwhile; truth: rule 4."""

from __future__ import annotations

import time

import pytest

from counterhoop.web.guard.paired_in_file import PairedInFile

SAME = "Sec-Fetch-Site: same-origin"
# The list is looked at twice a second; the rest is for a slow machine.
SOON_S = 5.0


class Listening:
    """A stream as a browser holds it open."""

    def __init__(self, door, path, who):
        self.talk = door.connect()
        self.talk.sendall(f"GET {path} HTTP/1.1\r\nHost: {door.host}\r\n{who}\r\n\r\n".encode())
        self.heard = b""
        self.until(b"\r\n\r\n")

    def until(self, wanted):
        while wanted not in self.heard:
            piece = self.talk.recv(10_000)
            assert piece, f"ended after {self.heard!r}"
            self.heard += piece

    def to_its_end(self):
        """Read on until the answer or the connection ends; return what came."""
        self.talk.settimeout(SOON_S)
        while not self.heard.endswith(b"\r\n0\r\n\r\n"):
            piece = self.talk.recv(10_000)
            if not piece:
                break
            self.heard += piece
        return self.heard

    def close(self):
        self.talk.close()


@pytest.fixture
def listen():
    opened = []

    def start(door, path, who):
        opened.append(Listening(door, path, who))
        return opened[-1]

    yield start
    for one in opened:
        one.close()


@pytest.fixture(params=["plain", "sealed"])
def door(request, open_door):
    return open_door(https=request.param == "sealed")


@pytest.mark.parametrize("every_s", [3600, 0.05])
def test_a_stream_ends_when_its_device_is_struck_off_whether_it_is_silent_or_not(
    door, listen, every_s
):
    mine, phone = door.pair("bench"), door.pair("phone")
    stream = listen(door, f"/stream?every_s={every_s}", phone)
    stream.until(b"event: first")
    assert door.post("/devices/strike-off", SAME, mine, body=b"number=2").status == 303
    began = time.monotonic()
    # A clean end, so that the browser asks again and is told that it is out.
    assert stream.to_its_end().endswith(b"\r\n0\r\n\r\n")
    assert time.monotonic() - began < SOON_S
    assert door.ask("GET /stream?every_s=1", phone).status == 401


def test_the_streams_of_others_go_on(door, listen):
    mine, phone = door.pair("bench"), door.pair("phone")
    theirs, ours = (listen(door, "/stream?every_s=0.05", who) for who in (phone, mine))
    door.settings.paired.strike_off(2)
    theirs.to_its_end()
    before = len(ours.heard)
    deadline = time.monotonic() + 1.5
    while time.monotonic() < deadline:
        ours.heard += ours.talk.recv(10_000)
    assert len(ours.heard) > before
    assert b"\r\n0\r\n\r\n" not in ours.heard


def test_a_file_that_said_its_length_is_broken_off_and_does_not_pass_for_whole(door, listen):
    phone = door.pair("phone")
    half = listen(door, "/half", phone)
    half.until(b"a" * 1000)
    door.settings.paired.strike_off(1)
    body = half.to_its_end().split(b"\r\n\r\n", 1)[1]
    assert body == b"a" * 1000


def test_deleting_the_list_ends_streams_too_and_so_does_harming_it(open_door, listen, tmp_path):
    for harm in (lambda file: file.unlink(), lambda file: file.write_text("{")):
        door = open_door(paired=PairedInFile(tmp_path))
        stream = listen(door, "/stream?every_s=3600", door.pair())
        stream.until(b"event: first")
        harm(tmp_path / "let-in.json")
        assert stream.to_its_end().endswith(b"\r\n0\r\n\r\n")


def test_a_page_that_runs_out_of_time_by_itself_is_a_fault_and_no_end(door):
    assert door.ask("GET /late", door.pair()).status == 500


def test_the_server_stops_though_streams_are_open(open_door, listen):
    door = open_door()
    listen(door, "/stream?every_s=0.05", door.pair()).until(b"data: tick")
    door.stop()
