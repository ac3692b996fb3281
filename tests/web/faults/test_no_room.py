"""The disk takes no more while something is saved or put in: said, and nothing of it half kept.

Truth: the system itself refuses every byte of a file beyond a limit, in the database, in its
journal and in uploads alike; afterwards the store is looked over without the limit.
"""

from __future__ import annotations

import io
import random

from PIL import Image
from test_killed_while_saving import open_folder, sheet

from counterhoop.bench.folders.kinds import HANDOVER
from counterhoop.store.address import address_of
from counterhoop.store.copies.verify import verify
from counterhoop.store.enclosures.enclose import enclosures_of
from counterhoop.store.revision import find_document, history_of
from counterhoop.store.store import open_store

ROOM = 600_000
SAID = ("There is no room left on the disk", "The disk did not take it")


def left_behind(data, job):
    """Return the notes and the photographs in a store that must be sound and hold no scraps."""
    with open_store(address_of(data=data)) as store:
        verdict = verify(store)
        assert (verdict.faults, verdict.leftovers) == ((), ())
        with store.reading() as r:
            document = find_document(r, job_id=job, kind=HANDOVER, name="")
            versions = history_of(r, document.id) if document else ()
            names = [one.name_given for one in enclosures_of(r, job_id=job)]
    return [one.body["done"] for one in versions], names


def noise(side):
    """Return a picture that no method makes smaller."""
    out = io.BytesIO()
    pixels = random.Random(side).randbytes(3 * side * side)
    Image.frombytes("RGB", (side, side), pixels).save(out, "PNG")
    return out.getvalue()


def test_a_save_that_finds_no_room_is_said_and_what_was_answered_is_there(start, tmp_path):
    data = tmp_path / "data"
    server = start(data, most_bytes=ROOM)
    job = open_folder(server)
    page = sheet(job)
    answered = []
    while len(answered) < 200:
        form = server.form(page, page)
        note = f"{len(answered)} " + "x" * 4000
        answer = server.browser.post(page, data={**form, "done": note})
        if answer.status_code != 303:
            break
        answered.append(note)
    assert answer.status_code == 409
    assert any(words in answer.text for words in SAID)
    assert "what was saved before is safe" in answer.text
    assert len(answered) > 5
    # Looking goes on.
    assert answered[-1] in server.browser.get(page).text
    server.stop()
    assert "Traceback" not in server.said
    assert left_behind(data, job) == (answered, [])
    roomy = start(data)
    form = roomy.form(page, page)
    assert roomy.browser.post(page, data={**form, "done": "more"}).status_code == 303


def test_a_photograph_that_finds_no_room_is_said_and_the_others_are_kept(start, tmp_path):
    data = tmp_path / "data"
    server = start(data, most_bytes=ROOM)
    job = open_folder(server)
    sent = [("before.png", noise(50)), ("large.png", noise(480)), ("after.png", noise(51))]
    assert len(sent[1][1]) > ROOM
    answer = server.browser.post(
        f"/jobs/{job}/photographs", files=[("files", one) for one in sent], data={"view": ""}
    )
    assert answer.status_code == 422
    assert "large.png" in answer.text
    assert "no room left on the disk" in answer.text
    server.stop()
    assert "Traceback" not in server.said
    assert left_behind(data, job) == ([], ["before.png", "after.png"])


def test_an_upload_larger_than_the_room_for_what_comes_in_is_said(start, tmp_path):
    """What comes in lies in a file of the system's own until all of it is there."""
    data = tmp_path / "data"
    server = start(data, most_bytes=ROOM)
    job = open_folder(server)
    answer = server.browser.post(
        f"/jobs/{job}/photographs", files={"files": ("huge.png", noise(700))}, data={"view": ""}
    )
    assert answer.status_code == 409
    assert "there may be no room left" in answer.text
    assert "nothing of this was kept" in answer.text
    server.stop()
    assert "Traceback" not in server.said
    assert left_behind(data, job) == ([], [])
