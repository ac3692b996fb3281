"""An answer before the body was read ends the connection; nobody streams into the void for ever."""

from __future__ import annotations

import socket
import time

from counterhoop.web.guard.unread_body import SILENCE_S

SAME = "Sec-Fetch-Site: same-origin"


def head(door, path, *lines):
    return "\r\n".join([f"POST {path} HTTP/1.1", f"Host: {door.host}", *lines, "", ""]).encode()


def test_a_refusal_arrives_whole_though_the_body_is_still_being_sent(door):
    length = 5_000_000
    start = head(door, "/notes", f"Content-Length: {length}", "Host-Free: 1")
    said = door.raw(start.replace(door.host.encode(), b"evil.example"), b"a" * length)
    assert said.status == 421
    assert said.headers["connection"] == "close"


def test_a_page_that_does_not_read_its_body_closes_the_connection(door):
    said = door.raw(
        head(door, "/unread", door.pair(), SAME, "Content-Length: 90000"), b"a" * 90_000
    )
    assert (said.status, said.headers["connection"]) == (200, "close")


def test_a_body_without_end_is_not_taken_for_ever(door):
    began = time.monotonic()
    with door.connect() as talk:
        talk.sendall(head(door, "/notes", "Transfer-Encoding: chunked"))
        sent = 0
        try:
            while time.monotonic() - began < 30:
                talk.sendall(b"2710\r\n" + b"a" * 10_000 + b"\r\n")
                sent += 10_000
        except OSError:
            pass
    assert time.monotonic() - began < 15
    assert sent < 200_000_000


def test_what_follows_a_refused_body_is_not_taken_for_a_request(door):
    """Smuggling: the body of a refused request reads like a request of its own."""
    inner = f"GET /jobs/inner HTTP/1.1\r\nHost: {door.host}\r\n{door.pair()}\r\n\r\n".encode()
    with door.connect() as talk:
        talk.sendall(head(door, "/notes", f"Content-Length: {len(inner)}") + inner)
        talk.shutdown(socket.SHUT_WR)
        everything = b""
        while piece := talk.recv(65536):
            everything += piece
    assert everything.count(b"HTTP/1.1") == 1
    assert door.reached == []


def test_a_client_that_asks_first_is_answered_at_once_and_not_waited_for(door):
    began = time.monotonic()
    with door.connect() as talk:
        talk.sendall(head(door, "/notes", "Content-Length: 5000000", "Expect: 100-continue"))
        everything = b""
        while piece := talk.recv(65536):
            everything += piece
    assert everything.startswith(b"HTTP/1.1 413")
    assert time.monotonic() - began < SILENCE_S * 0.8


def test_a_body_that_was_read_leaves_the_connection_open(door):
    said = door.post("/notes", SAME, door.pair())
    assert said.status == 303
    assert "connection" not in said.headers


def test_one_that_was_told_to_go_on_is_heard_out_before_the_connection_closes(door):
    form = "Content-Type: application/x-www-form-urlencoded"
    lines = (door.pair(), SAME, form, "Transfer-Encoding: chunked", "Expect: 100-continue")
    chunk = b"4c4b40\r\n" + b"a" * 5_000_000 + b"\r\n"
    said = door.raw(head(door, "/notes", *lines), chunk, b"0\r\n\r\n")
    assert (said.status, said.headers["connection"]) == (413, "close")
    assert "smaller" in said.body
