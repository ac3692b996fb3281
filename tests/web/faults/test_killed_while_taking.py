"""Killed while the rows of a sheet are put on the shelf: all of them are there, or none.

Truth: brute force. The process is killed at random moments; the shelf that it left behind is
counted, and the page of the next process must say the same.
"""

from __future__ import annotations

import contextlib
import random
import re
import time

import httpx
import pytest

from counterhoop.store.address import address_of
from counterhoop.store.copies.verify import verify
from counterhoop.store.shelf.look_up import all_pieces
from counterhoop.store.store import open_store

ROOT = "/shelf/rows"
CUT_OFF = "The program was ended while these rows were being taken. None of them is there"
DONE = "new pieces are on the shelf"


def sheet(pieces, *, turn):
    rows = [f"{turn}-{n},lug,{40 + n % 60}.5 mm,{1 + n % 9},round no {n}" for n in range(pieces)]
    return "\n".join(["number,kind,holes apart,count,says", *rows]).encode()


def numbers(data):
    with open_store(address_of(data=data)) as store:
        verdict = verify(store)
        assert verdict.sound, verdict.faults
        with store.reading() as connection:
            return {one.piece.number for one in all_pieces(connection)}


def to_dry_run(server, data):
    """Put a sheet in and wait until it was tried; return its address."""
    sent = {"file": ("shelf.csv", data, "text/csv")}
    made = server.browser.post(ROOT, files=sent)
    assert made.status_code == 303, made.text
    address = made.headers["location"]
    answer = until(server, address, "row-columns")
    form = dict(re.findall(r'name="(f\d+)"[^>]*>.*?value="([^"]*)" selected', answer, re.S))
    assert set(form.values()) == {"number", "kind", "holes apart", "count", "says"}
    assert server.browser.post(f"{address}/columns", data=form).status_code == 303
    until(server, f"{address}/tried", "0 refused.")
    return address


def until(server, address, says):
    end = time.monotonic() + 120
    while says not in (text := server.browser.get(address).text):
        assert time.monotonic() < end, text
        time.sleep(0.05)
    return text


def taking_takes_s(server, *, pieces):
    """Take a sheet in whole, and return how long that is from the press on."""
    address = to_dry_run(server, sheet(pieces, turn="whole"))
    began = time.monotonic()
    server.browser.post(f"{address}/take")
    until(server, f"{address}/tried", DONE)
    return time.monotonic() - began


def held(start, folder, *, kills, pieces, longest_s):
    """Kill servers; return how often the rows were there or not, the last one, what is there."""
    chance = random.Random(71)
    server = start(folder)
    longest_s = longest_s or 1.5 * taking_takes_s(server, pieces=pieces)
    there, came = numbers(folder), {True: 0, False: 0}
    for turn in range(kills):
        address = to_dry_run(server, sheet(pieces, turn=turn))
        new = {f"{turn}-{n}" for n in range(pieces)}
        moment = time.monotonic() + chance.uniform(0.02, longest_s)
        # The press is answered after a while of taking; the kill does not wait for that.
        with contextlib.suppress(httpx.TimeoutException):
            server.browser.post(f"{address}/take", timeout=max(0.01, moment - time.monotonic()))
        time.sleep(max(0.0, moment - time.monotonic()))
        server.kill()
        now = numbers(folder)
        assert now in (there, there | new), (turn, len(now), len(there))
        server = start(folder)
        text = server.browser.get(f"{address}/tried").text
        if now == there:
            # Killed before it had begun, there is nothing to be told.
            assert CUT_OFF in text or "Nothing is taken yet." in text
            # Only so many files may wait.
            assert server.browser.post(f"{address}/aside").status_code == 303
        else:
            assert DONE in text
        came[now != there] += 1
        there = now
    return came, server, there


def test_rows_are_there_as_a_whole_or_not_at_all(start, tmp_path):
    came, _, _ = held(start, tmp_path / "data", kills=1, pieces=800, longest_s=0.9)
    assert sum(came.values()) == 1


@pytest.mark.full
def test_they_are_so_many_times(start, tmp_path):
    kills, pieces = 30, 2000
    came, server, there = held(start, tmp_path / "data", kills=kills, pieces=pieces, longest_s=0)
    # Both must have happened, or the kills were not in the middle.
    assert min(came.values()) > 2, came
    address = to_dry_run(server, sheet(pieces, turn=kills))
    server.browser.post(f"{address}/take")
    until(server, f"{address}/tried", DONE)
    assert len(numbers(tmp_path / "data")) == len(there) + pieces
