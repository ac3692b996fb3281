"""Recordings on the Tuned sheet: a second place of the phone, put away, files that are none.

Truth: sounds are made by the forward model for a head that is even, with the phone in two places;
from one place alone that is not to be told from an uneven head with a still line at the phone.
"""

from __future__ import annotations

import html
import re

import numpy as np
import pytest
from worked_drums import WorkedJob, untuned

from counterhoop.bench.demonstration.recordings import recordings
from counterhoop.bench.folders.recordings import recordings_of
from counterhoop.heads.modes import modes
from counterhoop.heads.strike import EVEN, Blow, Ear, muted, struck
from counterhoop.heads.wav import wav_bytes

TOM = "low tom"
RATE_HZ, EVERY_S, LEAD_S = 22_050, 1.6, 0.3
PHOTOGRAPH = b"\xff\xd8\xff\xe0 not much of a photograph" * 40
PDF = b"%PDF-1.7\n% a quote of the workshop\n" * 40
MUTED = {"muted": "yes"}


@pytest.fixture(scope="module")
def places():
    """Soft taps at all rods of an even head, the phone at 135 degrees and an eighth further on."""
    one = next(one for one in recordings() if one.name == "low-tom-rim-after.wav")
    shell = muted(one.drum_struck)
    found = modes(shell, up_to_hz=500.0)
    return [_from(shell, found, one.taps, phone_deg=deg) for deg in (135.0, 180.0)]


def _from(shell, found, taps, *, phone_deg):
    sound = np.zeros(round((len(taps) * EVERY_S + 1.0) * RATE_HZ))
    for number, tap in enumerate(taps):
        stroke = struck(
            shell, found, blow=Blow(out=0.85, along_deg=tap.along_deg, impulse_n_s=0.02),
            ear=Ear(out=0.6, along_deg=phone_deg), lobes=EVEN, other_muted=True,
        )  # fmt: skip
        rings = stroke.sound(seconds=EVERY_S, rate_hz=RATE_HZ)
        first = round((LEAD_S + EVERY_S * number) * RATE_HZ)
        sound[first : first + len(rings)] += rings
    noise = 0.0005 * np.random.default_rng(5).standard_normal(len(sound))
    return wav_bytes(0.5 * sound / np.abs(sound).max() + noise, rate_hz=RATE_HZ)


@pytest.fixture
def job(shop, monkeypatch):
    # Strokes read one by one take longest, and nothing here is said of them.
    monkeypatch.setattr("counterhoop.bench.tune.listened.MOST_READ", 1)
    return WorkedJob(shop, TOM, change=untuned)


def said(answer):
    return html.unescape(answer.text)


def tuned(job):
    return f"/jobs/{job.id}/drums/{job.drum(TOM).id}/tuned"


def put_in(job, content, *, name="first.wav", **fields):
    answer = job.ask.post(
        f"{tuned(job)}/recordings", data=MUTED | fields, files={"file": (name, content)}
    )
    assert answer.status_code == 303, said(answer)
    return answer.headers["location"].partition("#")[0]


def put_second(job, page, content=b"", *, name="second.wav", **fields):
    action = re.search(r'id="second-form" method="post" action="([^"]+)"', page)[1]
    files = {"file": (name, content)} if content else {}
    return job.ask.post(html.unescape(action), data=fields, files=files)


def keep(job, page):
    action, form = re.search(r'action="([^"]+/keep)">(.*?)</form>', page, re.DOTALL).groups()
    sent = {}
    for name, value in re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', form):
        sent.setdefault(name, []).append(value)
    return job.ask.post(action, data=sent)


def readings(job):
    return job.drum(TOM).kept("tuning").table.get("readings", {})


def listed(job):
    return re.findall(r'/recordings/\w+">([^<]+)</a>', said(job.ask.get(tuned(job))))


def test_a_second_place_is_asked_for_put_in_read_with_the_first_and_kept(job, places):
    at = put_in(job, places[0])
    page = said(job.ask.get(at))
    assert "and a second may lie still there" in page
    assert re.search(r'<details class="more" open><summary>Tap round once more', page)
    answer = put_second(job, page, places[1], also_first="1", also_phone="4")
    assert answer.status_code == 303
    both = said(job.ask.get(answer.headers["location"]))
    assert "Read from two places of the phone, first.wav and second.wav" in both
    assert "and a second may lie still there" not in both
    assert "second-form" not in both
    assert len(re.findall(r'name="also_rod" aria-label="From the second place, stroke', both)) == 8
    assert both.count("<audio") == 2
    assert keep(job, both).status_code == 303
    (kept,) = readings(job).values()
    lying = recordings_of(job.shop, job.id, drum=job.drum(TOM).id)
    first, second = sorted(lying, key=lambda one: one.name_given)
    assert (kept["sound"], kept["file"]) == (first.file.sha256, "first.wav")
    (also,) = kept["also"]
    assert (also["sound"], also["file"]) == (second.file.sha256, "second.wav")
    assert also["rods"] == kept["rods"] == [1, 2, 3, 4, 5, 6, 7, 8]
    assert "from two places of the phone" in said(job.ask.get(tuned(job)))
    # Both stay as long as the reading does.
    for one in (first, second):
        lies = f"{tuned(job)}/recordings/{one.id}"
        assert "Reading 1 was made of this recording, so it stays" in said(job.ask.get(lies))
        assert job.ask.post(f"{lies}/away").status_code == 409
    assert sorted(listed(job)) == ["first.wav", "second.wav"]
    job.ask.post(f"{tuned(job)}/readings/1/out", data={"based_on": 0})
    assert job.ask.post(f"{tuned(job)}/recordings/{second.id}/away").status_code == 303
    assert listed(job) == ["first.wav"]


def test_a_second_that_is_none_leaves_the_reading_as_it_was(job, places):
    at = put_in(job, places[0], phone="3")
    page = said(job.ask.get(at))
    for content, name, why in (
        (b"", "", "No second recording was chosen"),
        (PHOTOGRAPH, "lug.jpg", "Not kept, lug.jpg: this is no recording"),
        (places[0], "again.wav", "This is the first recording once more"),
    ):
        answer = put_second(job, page, content, name=name, also_phone="5")
        back = said(answer)
        assert answer.status_code == 422
        assert why in back
        assert re.search(r'id="f-second-also-phone" name="also_phone" value="5"', back)
        assert re.search(r'name="phone" value="3"', back)
        assert "Keep this reading" in back
    assert listed(job) == ["first.wav"]


@pytest.mark.full
def test_a_second_that_lies_there_already_is_chosen_and_may_be_left_again(job, places):
    put_in(job, places[1], name="other.wav")
    at = put_in(job, places[0])
    page = said(job.ask.get(at))
    there = re.search(r'<option value="(\w+)">other\.wav</option>', page)[1]
    answer = put_second(job, page, also=there)
    both = said(job.ask.get(answer.headers["location"]))
    assert "first.wav and other.wav" in both
    alone = re.search(r'href="([^"#]+)#strokes">Read it without the second place', both)[1]
    assert "second-form" in said(job.ask.get(html.unescape(alone)))


def test_taps_against_the_numbers_are_read_so_and_the_order_is_said(job, places):
    at = put_in(job, places[0], way="back", first="3")
    page = said(job.ask.get(at))
    chosen = re.findall(r'name="rod".*?<option value="(\d)" selected', page)
    assert chosen == list("32187654")
    assert "Taken as tapped at rod 3, then rod 2 and so on: clockwise as you look down" in page
    # Turned about, they are put in order anew, whatever stands beside the strokes.
    turned = [("muted", "yes"), ("first", "3"), ("was_first", "3"), ("was_way", "back")]
    again = said(job.ask.get(at.partition("?")[0], params=[*turned, *(("rod", x) for x in chosen)]))
    assert re.findall(r'name="rod".*?<option value="(\d)" selected', again) == list("34567812")


def without_sound():
    """A WAV whose head is right and whose sound is missing."""
    return wav_bytes(np.zeros(10), rate_hz=RATE_HZ)[:44]


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("lug.jpg", PHOTOGRAPH), ("quote.pdf", PDF), ("notes.txt", b"Lug 4 is loose. " * 40),
        ("taps.wav", without_sound()),
    ],
)  # fmt: skip
def test_what_is_no_recording_is_said_in_a_line_and_does_not_stay(job, name, content):
    answer = job.ask.post(
        f"{tuned(job)}/recordings",
        data=MUTED | {"phone": "2", "way": "back"},
        files={"file": (name, content)},
    )
    page = said(answer)
    assert answer.status_code == 422
    (fault,) = re.findall(r'id="recording-file-fault" role="alert">([^<]+)<', page)
    assert fault.startswith(f"Not kept, {name}: ")
    assert len(fault) < 90
    assert re.search(r'name="phone" value="2"', page)
    assert '<option value="back" selected>' in page
    assert "Recordings of this drum" not in page
    assert listed(job) == []


def test_a_recording_is_put_away_and_taken_out_again(job, places):
    at = put_in(job, places[0]).partition("?")[0]
    answer = job.ask.post(f"{at}/away")
    assert (answer.status_code, answer.headers["location"]) == (303, f"{tuned(job)}#listen")
    assert listed(job) == []
    assert "This recording is put away" in said(job.ask.get(at))
    away = said(job.ask.get("/workshop/put-away"))
    assert f'<a href="{at}">First.wav of' in away
    sent = dict(re.findall(r'name="(thing\w*)" value="(\w+)"', away))
    back = job.ask.post("/workshop/put-away", data=sent)
    assert back.headers["location"] == at
    assert listed(job) == ["first.wav"]
