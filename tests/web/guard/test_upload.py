"""Files that strangers made: handed out as files, never as pages, under no name of theirs."""

from __future__ import annotations

import hashlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.guard.shown_name import shown_name

SAME = "Sec-Fetch-Site: same-origin"
JPEG = b"\xff\xd8\xff\xe0 a drum"
PAGE = b"<script>alert(document.cookie)</script>"


def brought_in(door, content, name, kind="image/jpeg"):
    said = door.upload(SAME, door.pair(), content=content, file_name=name, kind=kind)
    assert said.status == 200
    return said.body


def test_a_photograph_is_shown_and_named(door):
    key = brought_in(door, JPEG, "snare bed.jpg")
    assert key == hashlib.sha256(JPEG).hexdigest()
    with door.connect() as talk:
        talk.sendall(
            f"GET /photographs/{key} HTTP/1.1\r\nHost: {door.host}\r\n{door.pair()}\r\n"
            "Connection: close\r\n\r\n".encode()
        )
        everything = b""
        while piece := talk.recv(65536):
            everything += piece
    head, _, body = everything.partition(b"\r\n\r\n")
    assert body == JPEG
    assert b"content-type: image/jpeg" in head
    assert b'content-disposition: inline; filename="snare bed.jpg"' in head
    assert b"x-content-type-options: nosniff" in head


@pytest.mark.parametrize(
    "kind", ["text/html", "image/svg+xml", "application/xhtml+xml", "image/jpeg"]
)
def test_a_page_that_calls_itself_a_photograph_is_only_saved(door, kind):
    said = door.ask(f"GET /photographs/{brought_in(door, PAGE, 'a.html', kind)}", door.pair())
    assert said.body == PAGE.decode()
    assert said.headers["content-type"] == "application/octet-stream"
    assert said.headers["content-disposition"].startswith("attachment;")
    assert said.headers["x-content-type-options"] == "nosniff"
    policies = [value for name, value in said.all_headers if name == "content-security-policy"]
    assert "default-src 'none'; sandbox" in policies
    assert len(policies) == 2
    assert said.headers["cache-control"] == "no-store"


@pytest.mark.parametrize(
    "name",
    [
        "../../../../etc/passwd",
        "..\\\\..\\\\boot.ini",
        "/etc/cron.d/x",
        "CON",
        "a.jpg\\x00.exe",
        ".htaccess",
        "a; rm -rf x.jpg",
        "$(id).jpg",
    ],
)
def test_no_file_appears_under_a_name_that_was_sent(door, name, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    before = {file: file.stat().st_mtime_ns for file in tmp_path.rglob("*")}
    key = brought_in(door, JPEG, name)
    assert door.ask(f"HEAD /photographs/{key}", door.pair()).status in (200, 405)
    assert {file: file.stat().st_mtime_ns for file in tmp_path.rglob("*")} == before
    assert set(door.files) == {key}


@pytest.mark.parametrize(
    "key", ["passwd", "0" * 63, "0" * 65, "A" * 64, "0" * 64 + "%0a", "0" * 63 + "."]
)
def test_nothing_but_a_hash_asks_for_a_file(door, key):
    assert door.ask(f"GET /photographs/{key}", door.pair()).status in (400, 404, 422)


def test_a_name_cannot_add_a_header():
    name = 'a".jpg\r\nSet-Cookie: x=1'
    plain, true = "a_.jpg Set-Cookie_ x_1", "a%22.jpg%20Set-Cookie%3A%20x%3D1"
    assert upload_headers(kind="image/jpeg", name=name)["Content-Disposition"] == (
        f"inline; filename=\"{plain}\"; filename*=UTF-8''{true}"
    )


@given(st.text(max_size=300), st.sampled_from(["image/jpeg", "text/html", "image/svg+xml"]))
def test_whatever_the_name_the_headers_are_plain(name, kind):
    headers = upload_headers(kind=kind, name=name)
    for value in headers.values():
        assert value.isascii()
        assert value.isprintable()
    assert headers["Content-Disposition"].count('"') == 2
    assert (kind == "image/jpeg") == headers["Content-Disposition"].startswith("inline")


@given(st.text(max_size=300))
def test_a_shown_name_is_one_line_without_a_path(name):
    shown = shown_name(name, otherwise="file")
    assert 0 < len(shown) <= 80
    assert shown.isprintable()
    assert not set(shown) & set("/\\")
    assert shown not in {".", ".."}
    assert shown_name(shown, otherwise="file") == shown


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("Quénnick tom ½.jpg", "Quénnick tom ½.jpg"),
        ("太鼓.jpg", "太鼓.jpg"),
        ("gpj.\u202eexe", "gpj.exe"),
        ("a\u200b\ufeffb", "ab"),
        ("\x00", "file"),
        ("", "file"),
    ],
)
def test_names_of_all_tongues_stay(written, shown):
    assert shown_name(written, otherwise="file") == shown
