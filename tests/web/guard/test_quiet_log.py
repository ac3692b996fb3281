"""The log tells nothing about a client; ``--verbose`` says more, but never a token."""

from __future__ import annotations

import logging

import pytest

CLIENT = "Quennick"
SAME = "Sec-Fetch-Site: same-origin"


@pytest.fixture
def logged(caplog):
    caplog.set_level(logging.DEBUG)
    return caplog


def everything(door):
    """Put a client's name wherever a request can hold one."""
    paired = door.pair(CLIENT)
    said = [
        door.ask(f"GET /jobs/{CLIENT}?q={CLIENT}", paired),
        door.ask(f"GET /broken/{CLIENT}", paired),
        door.ask(f"GET /nowhere/{CLIENT}", paired),
        door.post("/notes", SAME, paired, body=f"text={CLIENT}".encode()),
        door.post("/notes", SAME, paired, body=f"wrong={CLIENT}".encode()),
        door.ask("GET /", f"User-Agent: {CLIENT}", f"Referer: http://{CLIENT}/", paired),
        door.ask("GET /", host=f"{CLIENT}.example"),
        door.ask(f"{CLIENT} /", SAME, paired),
        door.raw(f"{CLIENT}\r\n\r\n".encode()),
        door.ask(f"GET /enter?token={CLIENT}"),
    ]
    assert [one.status for one in said] == [200, 500, 404, 303, 422, 200, 421, 405, 400, 200]
    door.stop()
    return paired.split("=")[1]


def test_no_client_stands_in_the_log_but_the_fault_can_be_found(door, logged):
    secret = everything(door)
    assert CLIENT.lower() not in logged.text.lower()
    assert secret not in logged.text
    assert "GET /jobs/{name} 200" in logged.text
    assert "ValueError" in logged.text
    assert "in broken" in logged.text


def test_verbose_says_where_and_what_but_no_query_and_no_secret(open_door, logged):
    door = open_door(verbose=True)
    secret = everything(door)
    assert f"/jobs/{CLIENT}" in logged.text
    assert f"no lug fits the drum of {CLIENT}" in logged.text
    assert f"token={CLIENT}" not in logged.text
    assert secret not in logged.text


def test_a_verbose_line_cannot_be_forged(open_door, logged):
    door = open_door(verbose=True)
    door.ask("GET /jobs/a%0a2030-01-01%20ERROR%20forged", door.pair())
    door.stop()
    assert all(
        "\n" not in record.getMessage()
        for record in logged.records
        if "forged" in record.getMessage()
    )
    assert "forged" in logged.text


def test_the_person_is_told_that_it_is_our_fault_and_nothing_more(door):
    said = door.ask(f"GET /broken/{CLIENT}", door.pair())
    assert said.status == 500
    assert CLIENT not in said.body
    assert "Traceback" not in said.body
