"""Killed in the middle of saving by the pages' own forms: what was answered is there.

Truth: brute force. The process is killed at random moments; what its answers said is held against
the store that it left behind, and against the pages of the next process.
"""

from __future__ import annotations

import io
import random
import re
import threading

import httpx
import pytest
from PIL import Image

from counterhoop.bench.folders.kinds import HANDOVER
from counterhoop.store.address import address_of
from counterhoop.store.copies.verify import verify
from counterhoop.store.enclosures.enclose import enclosures_of
from counterhoop.store.revision import find_document, history_of
from counterhoop.store.store import open_store

LONGEST_S = 0.6
"""How long a server is let go on with saving before it is killed."""


def picture(number):
    out = io.BytesIO()
    Image.effect_noise((60 + number % 7, 40), 80).save(out, "PNG")
    return out.getvalue()


def open_folder(server):
    made = server.browser.post("/jobs", data={"number": "30-001", "client": "Nell Ashby"})
    assert made.status_code == 303, made.text
    return re.match(r"/jobs/(\w+)", made.headers["location"])[1]


def sheet(job):
    """Return the address of a sheet with a form, which is sent to the same address."""
    return f"/jobs/{job}/handed-over"


def save_on(server, job, *, start, kill_after_s):
    """Save until the line breaks; return the last note and the photographs that were answered."""
    note, photographs = start, 0
    # The first page of a new process is slower than all others.
    server.browser.get(sheet(job))
    threading.Timer(kill_after_s, server.process.kill).start()
    try:
        while True:
            form = server.form(sheet(job), sheet(job))
            form["done"] = f"note {note + 1}"
            answer = server.browser.post(sheet(job), data=form)
            assert answer.status_code == 303, answer.text
            note += 1
            if note % 3 == 0:
                sent = {"files": (f"{note}.png", picture(note), "image/png")}
                answer = server.browser.post(f"/jobs/{job}/photographs", files=sent)
                assert answer.status_code == 303, answer.text
                photographs += 1
    except httpx.TransportError:
        server.process.join()
        return note, photographs


def held_against(data, job, *, note, photographs):
    """Return the number of the newest note in the store, which holds all that was answered."""
    with open_store(address_of(data=data)) as store:
        verdict = verify(store)
        assert verdict.sound, verdict.faults
        with store.reading() as r:
            document = find_document(r, job_id=job, kind=HANDOVER, name="")
            versions = history_of(r, document.id) if document else ()
            lying = len(enclosures_of(r, job_id=job))
    notes = [one.body["done"] for one in versions]
    assert notes == [f"note {number}" for number in range(1, len(notes) + 1)]
    # One more may be kept than was answered: killed before it could say so.
    assert note <= len(notes) <= note + 1
    assert photographs <= lying <= photographs + 1
    return len(notes), lying


@pytest.mark.parametrize("times", [4, pytest.param(200, marks=pytest.mark.full)])
def test_what_was_answered_is_there_after_a_kill(start, tmp_path, times):
    data = tmp_path / "data"
    server = start(data)
    job = open_folder(server)
    note = photographs = answered = 0
    for seed in range(times):
        moment = random.Random(seed).uniform(0.0, LONGEST_S)
        last, more = save_on(server, job, start=note, kill_after_s=moment)
        answered += last - note
        note, photographs = held_against(
            data, job, note=last, photographs=photographs + more
        )  # fmt: skip
        server = start(data)
        assert server.form(sheet(job), sheet(job))["done"] == (f"note {note}" if note else "")
    assert answered > times, "it was killed before it saved anything"


def test_what_is_lost_would_be_seen(start, tmp_path):
    """The comparison can fail: one note and one photograph that were answered and are not there."""
    server = start(tmp_path / "data")
    job = open_folder(server)
    server.kill()
    held_against(tmp_path / "data", job, note=0, photographs=0)
    with pytest.raises(AssertionError):
        held_against(tmp_path / "data", job, note=1, photographs=0)
    with pytest.raises(AssertionError):
        held_against(tmp_path / "data", job, note=0, photographs=1)
