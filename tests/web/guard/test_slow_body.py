"""Bodies and headers that trickle; the patience of these tests is a fraction of the true one."""

from __future__ import annotations

import time

import pytest

from counterhoop.web.guard.headers_in_time import HeadersInTime
from counterhoop.web.guard.slow_body import Patience

SAME = "Sec-Fetch-Site: same-origin"
FORM = "Content-Type: application/x-www-form-urlencoded"
SHORT = Patience(silence_s=0.4, grace_s=1.0, bytes_per_s=1000)


@pytest.fixture
def hasty(open_door):
    return open_door(patience=SHORT)


def head(door, path, length):
    lines = [f"POST {path} HTTP/1.1", f"Host: {door.host}", door.pair(), SAME, FORM]
    return "\r\n".join([*lines, f"Content-Length: {length}", "", ""]).encode()


def test_a_body_that_stops_is_given_up(hasty):
    began = time.monotonic()
    said = hasty.raw(head(hasty, "/notes", 100), b"text=a")
    assert said.status == 408
    assert said.headers["connection"] == "close"
    assert time.monotonic() - began < 4
    assert hasty.notes == []


def test_a_body_that_creeps_is_given_up_though_it_never_stops(hasty):
    pieces = [b"text=", *[b"a"] * 100]
    began = time.monotonic()
    with hasty.connect() as talk:
        talk.sendall(head(hasty, "/notes", 105))
        talk.settimeout(0.1)
        heard = b""
        for piece in pieces:
            talk.sendall(piece)
            try:
                heard = talk.recv(100)
            except TimeoutError:
                continue
            break
    assert heard.startswith(b"HTTP/1.1 408")
    assert 0.9 < time.monotonic() - began < 4
    assert hasty.notes == []


def test_a_slow_body_that_keeps_coming_passes(hasty):
    """Twice the grace, but above the rate: 4 times 600 bytes in 1.2 s, allowed 1 s + 2.4 s."""
    pieces = [b"text=" + b"a" * 595, *[b"a" * 600] * 3]
    said = hasty.raw(head(hasty, "/notes", 2400), *pieces, pause_s=0.3)
    assert said.status == 303
    assert len(hasty.notes[0]) == 2395


@pytest.fixture
def in_a_hurry(monkeypatch, open_door):
    monkeypatch.setattr(HeadersInTime, "headers_s", 0.4)
    return open_door()


@pytest.mark.parametrize("sent", [b"", b"GET / HT", b"GET / HTTP/1.1\r\nHost: x\r\nX-Pad: "])
def test_headers_that_never_end_are_given_up(in_a_hurry, sent):
    began = time.monotonic()
    with in_a_hurry.connect() as talk:
        talk.sendall(sent)
        assert talk.recv(100) == b""
    assert 0.3 < time.monotonic() - began < 3


def test_so_are_those_of_a_second_request(in_a_hurry):
    door = in_a_hurry
    with door.connect() as talk:
        talk.sendall(f"GET / HTTP/1.1\r\nHost: {door.host}\r\n{door.pair()}\r\n\r\n".encode())
        answer = b""
        while b"the first page" not in answer:
            piece = talk.recv(10_000)
            assert piece
            answer += piece
        talk.sendall(b"GET ")
        began = time.monotonic()
        for _ in range(30):
            time.sleep(0.1)
            try:
                talk.sendall(b"/")
            except OSError:
                break
        assert time.monotonic() - began < 2


def test_a_long_body_is_not_held_to_the_time_of_the_headers(in_a_hurry):
    pieces = [b"text=", *[b"a"] * 6]
    assert in_a_hurry.raw(head(in_a_hurry, "/notes", 11), *pieces, pause_s=0.15).status == 303


def test_headers_without_end_in_length_are_refused(door):
    with door.connect() as talk:
        talk.sendall(f"GET / HTTP/1.1\r\nHost: {door.host}\r\nX-Pad: ".encode() + b"a" * 200_000)
        assert talk.recv(100).startswith(b"HTTP/1.1 400")
    assert door.reached == []
