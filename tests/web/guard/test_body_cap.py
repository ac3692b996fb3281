"""Long bodies, declared and not; caps by hand: 100,000 bytes, 1,000,000 for photographs."""

from __future__ import annotations

import pytest

SAME = "Sec-Fetch-Site: same-origin"
FORM = "Content-Type: application/x-www-form-urlencoded"
MULTIPART = "Content-Type: multipart/form-data; boundary=edge"


def head(door, path, *lines):
    return "\r\n".join(
        [f"POST {path} HTTP/1.1", f"Host: {door.host}", door.pair(), SAME, *lines, "", ""]
    ).encode()


def chunks(total, size=50_000):
    for start in range(0, total, size):
        piece = b"a" * min(size, total - start)
        yield f"{len(piece):x}\r\n".encode() + piece + b"\r\n"
    yield b"0\r\n\r\n"


def test_a_declared_length_over_the_cap_is_refused_before_a_byte_is_sent(door):
    said = door.raw(head(door, "/notes", FORM, "Content-Length: 100001"))
    assert said.status == 413
    assert said.headers["connection"] == "close"
    assert door.reached == []


@pytest.mark.parametrize("form", [FORM, MULTIPART])
def test_a_body_in_chunks_over_the_cap_is_refused(door, form):
    field = b"text="
    if form == MULTIPART:
        field = b'--edge\r\nContent-Disposition: form-data; name="text"; filename="a"\r\n\r\n'
    start = f"{len(field):x}\r\n".encode() + field + b"\r\n"
    said = door.raw(
        head(door, "/notes", form, "Transfer-Encoding: chunked"), start, *chunks(300_000)
    )
    assert said.status == 413
    assert "smaller" in said.body
    assert door.notes == []


def test_up_to_the_cap_both_are_taken(door):
    body = b"text=" + b"a" * 99_995
    assert len(body) == 100_000
    assert door.post("/notes", SAME, door.pair(), body=body).status == 303
    said = door.raw(
        head(door, "/notes", FORM, "Transfer-Encoding: chunked"),
        b"5\r\ntext=\r\n",
        *chunks(99_995),
    )
    assert said.status == 303
    assert [len(note) for note in door.notes] == [99_995, 99_995]


def test_one_byte_more_is_refused(door):
    body = b"text=" + b"a" * 99_996
    assert door.post("/notes", SAME, door.pair(), body=body).status == 413
    said = door.raw(
        head(door, "/notes", FORM, "Transfer-Encoding: chunked"),
        b"5\r\ntext=\r\n",
        *chunks(99_996),
    )
    assert said.status == 413
    assert door.notes == []


def test_photographs_have_their_own_cap(door):
    jpeg = b"\xff\xd8\xff" + b"\0" * 500_000
    assert door.upload(SAME, door.pair(), content=jpeg).status == 200
    assert door.upload(SAME, door.pair(), content=jpeg * 3).status == 413
    assert len(door.files) == 1


def test_sixty_megabytes_are_refused_with_a_sentence_and_not_a_broken_connection(door):
    """Sent by a client that writes everything before it reads, as browsers do."""
    total = 60_000_000
    piece = b"a" * 1_000_000
    said = door.raw(
        head(door, "/photographs", MULTIPART, f"Content-Length: {total}"), *[piece] * 60
    )
    assert said.status == 413
    assert "smaller" in said.body


@pytest.mark.parametrize(
    "lines",
    [
        ("Content-Length: -1",),
        ("Content-Length: 5", "Content-Length: 6"),
        ("Content-Length: 5", "Transfer-Encoding: chunked"),
        ("Content-Length: 0x10",),
        ("Content-Length: 99999999999999999999999",),
        ("Transfer-Encoding: gzip, chunked",),
        ("Transfer-Encoding: chunked, chunked",),
    ],
)
def test_lengths_that_contradict_are_not_guessed_at(door, lines):
    said = door.raw(head(door, "/notes", FORM, *lines) + b"5\r\ntext=\r\n0\r\n\r\n")
    assert said.status in (400, 413, 422, 501)
    assert door.notes == []
