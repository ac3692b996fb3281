"""Path tricks: the public folder leads to nothing private, and no trick reaches a page."""

from __future__ import annotations

import pytest


@pytest.mark.parametrize(
    "path",
    [
        "/static/../secret.txt",
        "/static/%2e%2e/secret.txt",
        "/static/..%2fsecret.txt",
        "/static/..%5csecret.txt",
        "/static/.%2e/jobs/a",
        "/jobs%2fa",
        "/jobs/a%2Fb",
        "/static//jobs/a",
        "//jobs/a",
        "/static/%00",
        "/jobs/%0d%0aSet-Cookie:x=1",
        "/jobs/./a",
        "/jobs/a%E2%80%AEb",
        "/jobs/" + "a" * 3000,
    ],
)
def test_a_trick_is_not_read(door, path):
    for who in ((), (door.pair(),)):
        said = door.ask(f"GET {path}", *who)
        assert said.status == 400
        assert "not for strangers" not in said.body
    assert door.reached == []


def test_the_static_folder_itself_holds(door):
    assert door.ask("GET /static/paper.css").body == "body { color: #22303a }"
    assert door.ask("GET /static/secret.txt").status == 404


def test_a_plain_name_with_accents_is_read(door):
    said = door.ask("GET /jobs/Qu%C3%A9nnick%20tom", door.pair())
    assert said.body == "the folder of Quénnick tom"
