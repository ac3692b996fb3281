"""The Tuned sheet of a drum without a browser: what is written, sent and refused."""

from __future__ import annotations

import html
import re
from types import SimpleNamespace

import pytest
from worked_drums import WorkedJob, untuned

from counterhoop.bench.demonstration.recordings import recordings
from counterhoop.bench.tune.heard import StrokeHeard
from counterhoop.web.app import UPLOADS
from counterhoop.web.guard.body_cap import BodyCap
from counterhoop.web.stroke_lines import stroke_lines

TOM, SMALL = "low tom", "small tom"
JPEG = b"\xff\xd8\xff\xe0 not much of a photograph"


@pytest.fixture
def job(shop):
    return WorkedJob(shop, TOM, change=untuned)


def said(answer):
    return html.unescape(answer.text)


def tuned(job, name=TOM):
    return f"/jobs/{job.id}/drums/{job.drum(name).id}/tuned"


def tuning(job, name=TOM):
    return job.drum(name).kept("tuning").table


def write(job, what, name=TOM, number=None, **fields):
    number = job.drum(name).kept("tuning").number if number is None else number
    return job.ask.post(f"{tuned(job, name)}/written/{what}", data={"based_on": number, **fields})


def send(job, *, name="taps.wav", content=b"", **fields):
    files = {"file": (name, content)} if name else {}
    return job.ask.post(f"{tuned(job)}/recordings", data=fields, files=files)


def test_the_sheet_stands_in_the_index_between_bench_and_hand_over(job):
    page = said(job.ask.get(tuned(job)))
    lines = re.findall(r"<li[^>]*><a href=\"[^\"]*\"[^>]*>([^<]+)", page)
    assert lines.index("On the bench") + 1 == lines.index("Tuned") < lines.index("Handed over")
    assert "how it is tuned</h1>" in page


def test_what_is_taken_for_granted_of_heads_is_said_until_it_is_written(job):
    before = said(job.ask.get(tuned(job)))
    assert "The batter head is taken to be one ply of 10 mil film." in before
    answer = write(job, "heads/new", **{"batter.film": "7 mil"})
    assert (answer.status_code, tuning(job)) == (303, {"batter": {"film": "7 mil"}})
    after = said(job.ask.get(tuned(job)))
    assert "The batter head is taken to be" not in after
    assert "Batter head 7 mil" in after


def test_a_film_that_cannot_be_read_is_kept_as_typed_and_said_at_its_field(job):
    answer = write(job, "heads/new", **{"batter.film": "thick"})
    page = said(job.ask.get(answer.headers["location"]))
    assert tuning(job) == {"batter": {"film": "thick"}}
    assert re.search(r'value="thick"', page)
    assert re.search(r'class="fault"[^>]*role="alert"', page)


def test_turns_are_put_in_changed_and_taken_out_and_a_step_is_undone(job):
    one = {"head": "batter", "from": "190 Hz", "to": "205 Hz", "turns": "1/8"}
    assert write(job, "turns/new", **one).status_code == 303
    assert write(job, "turns/0", **one | {"to": "207 Hz"}).status_code == 303
    assert tuning(job)["turns"] == [one | {"to": "207 Hz"}]
    assert "From 190 Hz, to 207 Hz" in said(job.ask.get(tuned(job))).replace("Batter head, f", "F")
    write(job, "turns/0", take_out="yes", **one)
    assert "turns" not in tuning(job)
    page = said(job.ask.get(tuned(job)))
    number = re.search(r'name="number" value="(\d+)"', page)[1]
    based_on = job.drum(TOM).kept("tuning").number
    undone = job.ask.post(f"{tuned(job)}/undo", data={"number": number, "based_on": based_on})
    assert undone.status_code == 303
    assert tuning(job)["turns"] == [one | {"to": "207 Hz"}]


def test_a_new_turn_that_is_sent_twice_is_kept_once(job):
    one = {"head": "batter", "from": "190 Hz", "to": "205 Hz", "turns": "1/8"}
    for _ in range(2):
        write(job, "turns/new", number=0, **one)
    assert tuning(job)["turns"] == [one]


def test_two_benches_at_the_same_heads_are_shown_both(job):
    write(job, "heads/new", **{"batter.film": "7 mil"})
    answer = write(job, "heads/new", number=0, **{"batter.film": "10 mil"})
    assert answer.status_code == 409
    page = said(answer)
    assert "Two versions: choose one" in page
    assert "7 mil" in page
    assert "10 mil" in page
    kept = job.ask.post(
        f"{tuned(job)}/written/heads/new",
        data={"based_on": job.drum(TOM).kept("tuning").number, "keep": "theirs"},
    )
    assert kept.status_code == 303
    assert tuning(job) == {"batter": {"film": "7 mil"}}


def test_two_benches_at_heads_and_at_turns_do_not_meet(job):
    one = {"head": "batter", "from": "190 Hz", "to": "205 Hz", "turns": "1/8"}
    write(job, "heads/new", **{"batter.film": "7 mil"})
    assert write(job, "turns/new", number=0, **one).status_code == 303
    assert tuning(job) == {"batter": {"film": "7 mil"}, "turns": [one]}


@pytest.mark.parametrize(
    ("name", "content", "why"),
    [
        ("", b"", "No recording was chosen"),
        ("empty.wav", b"", "empty: wanted"),
        ("taps.wav", b"Lug 4 is loose.", "this is no recording: choose a sound file or a film"),
        ("taps.m4a", JPEG, "this is no recording: choose a sound file or a film"),
    ],
)
def test_what_is_no_recording_is_said_and_what_was_typed_stands(job, name, content, why):
    answer = send(job, name=name, content=content, stage="after", first="3", muted="yes", phone="2")
    page = said(answer)
    assert answer.status_code == 422
    assert why in page
    assert '<option value="after" selected>' in page
    assert re.search(r'name="first" value="3"', page)
    assert re.search(r'name="phone" value="2"', page)
    assert answered(page) == ["yes"]


def answered(page):
    """What is chosen of whether the other head was muted."""
    return re.findall(r'<input type="radio" name="muted"[^>]*value="(\w+)"[^>]* checked', page)


def test_whether_the_other_head_was_muted_is_asked_with_no_answer_put_in(job):
    page = said(job.ask.get(tuned(job)))
    choices = re.findall(r'<input type="radio" name="muted"[^>]*required[^>]*> <span>([^<]+)', page)
    assert choices == ["yes, with a cloth", "no"]
    assert answered(page) == []
    assert "Say whether the other head was muted" not in page


def test_without_that_answer_the_form_comes_back_as_typed_and_nothing_is_kept(job, recorded):
    content = recorded["low-tom-rim-before.wav"].wav
    answer = send(job, content=content, stage="after", first="3", phone="2")
    page = said(answer)
    assert answer.status_code == 422
    assert "Say whether the other head was muted" in page
    assert "choose the recording once more" in page
    assert '<option value="after" selected>' in page
    assert re.search(r'name="first" value="3"', page)
    assert re.search(r'name="phone" value="2"', page)
    assert "Recordings of this drum" not in page
    assert answered(said(send(job, name="", muted="no"))) == ["no"]


def test_only_what_the_store_takes_is_offered(job):
    """Bare AAC (ADTS) has no head that tells it from noise: the store refuses it."""
    page = said(job.ask.get(tuned(job)))
    ends = re.search(r'name="file" accept="([^"]+)"', page)[1].split(",")
    assert ".m4a" in ends
    assert ".aac" not in ends
    adts = b"\xff\xf1\x50\x80" + bytes(60)
    assert "this is no recording" in said(send(job, name="a.aac", content=adts, muted="yes"))


def test_only_the_recording_itself_may_be_long():
    cap = BodyCap(None, at=UPLOADS).cap
    assert cap("/jobs/7/drums/2/tuned/recordings") > 50_000_000
    assert cap("/jobs/7/drums/2/tuned/recordings/9/second") > 50_000_000
    assert cap("/jobs/7/drums/2/tuned/recordings/9/keep") == 1_000_000
    assert cap("/jobs/7/drums/2/tuned") == 1_000_000


@pytest.mark.parametrize(("cents", "told"), [(1.0, False), (9.9, False), (12.0, True)])
def test_a_stroke_that_comes_down_by_next_to_nothing_is_not_said_to(cents, told):
    """Ten cents: a choice of the program."""
    one = StrokeHeard(
        number=1, starts_s=0.5, ends_s=2.0, rod=1, hz=200.0, quality="good", glide_cents=cents,
        dropped="", says=(),
    )  # fmt: skip
    heard = SimpleNamespace(rods=(), strokes=(one,))
    assert ("came down" in stroke_lines(heard)[0].says[0]) is told


def test_an_unknown_thing_or_recording_is_no_page(job):
    assert job.ask.get(f"{tuned(job)}/recordings/0000000000000000/sound").status_code == 404
    assert write(job, "ring/0").status_code == 422


# --- what is heard ------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def recorded():
    """The worked job's recordings by name: sounds of the model, with what was put into them."""
    return {one.name: one for one in recordings()}


def heard_at(job, recorded, name, **fields):
    answer = send(job, name=name, content=recorded[name].wav, **fields)
    assert answer.status_code == 303
    return answer.headers["location"].partition("#")[0]


def keep_it(job, page, **fields):
    action, form = re.search(r'action="([^"]+/keep)">(.*?)</form>', page, re.DOTALL).groups()
    sent = {}
    for name, value in re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', form):
        sent.setdefault(name, []).append(value)
    return job.ask.post(action, data=sent | fields)


def test_taps_are_listened_to_kept_and_set_side_by_side(job, recorded):
    """Pitches as put in; the first recording holds a tap that was too hard, which is left out."""
    for name, stage in (("low-tom-rim-before.wav", "before"), ("low-tom-rim-after.wav", "after")):
        at = heard_at(job, recorded, name, stage=stage, muted="yes")
        rods = [("rod", "0" if tap.too_loud else str(tap.rod)) for tap in recorded[name].taps]
        page = said(job.ask.get(at, params=[("muted", "yes"), ("stage", stage), *rods]))
        assert f"{len(rods)} found" in page
        assert "pitch round the rim, on the shell laid flat" in page
        assert page.count('id="plot-') == 2
        assert page.index('id="strokes"') < page.index("Keep this reading")
        assert answered(page) == ["yes"]
        unanswered = keep_it(job, page, muted="")
        assert unanswered.status_code == 422
        assert "Say whether the other head was muted" in said(unanswered)
        kept = keep_it(job, page, says="quiet room")
        assert kept.status_code == 303
    readings = tuning(job)["readings"]
    assert [one["stage"] for one in readings.values()] == ["before", "after"]
    page = said(job.ask.get(tuned(job)))
    assert page.count("Take this reading out") == 2
    papers = re.search(r'href="([^"#]+)#([^"]+)">Papers of this drum', page)
    shelf = said(job.ask.get(papers[1]))
    own = shelf[shelf.index(f'id="{papers[2]}"') :]
    assert "Tuned sheet" in own.partition("</section>")[0]
    assert "Batter head, before: pitch round the rim" in page
    assert "Batter head, after: pitch round the rim" in page
    out = job.ask.post(f"{tuned(job)}/readings/1/out", data={"based_on": 0})
    assert (out.status_code, [*tuning(job)["readings"]]) == (303, ["2"])
