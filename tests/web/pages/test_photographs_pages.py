"""Photographs of a folder, without a browser."""

from __future__ import annotations

import io
import re
from importlib.resources import files

from folder_words import drum_of, jpeg, put_in
from PIL import Image

from counterhoop.bench.folders.folder import kept_job
from counterhoop.web.app import UPLOADS
from counterhoop.web.guard.body_cap import BodyCap

DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()
PART = {"HX-Request": "true"}


def test_views_are_given_in_turn_to_what_comes_at_once(ask, shop, job):
    drum = drum_of(shop, job)
    put_in(ask, job, ("b.jpg", jpeg()), drum=drum, view="outside 90")
    named = [(f"{n}.jpg", jpeg(60 + 2 * n)) for n in range(3)]
    answer = put_in(ask, job, *named, drum=drum, view="in turn", says="as it came")
    assert answer.status_code == 303
    told = kept_job(shop, job).kept("photographs").table.values()
    views = ["outside 90", "outside 0", "outside 180", "outside 270"]
    assert [words["view"] for words in told] == views
    assert "4 of 10 views" in ask.get(f"/jobs/{job}/photographs").text


def test_what_is_none_is_said_and_the_rest_is_kept(ask, job):
    pdf = b"%PDF-1.7 no photograph at all, but a paper"
    cut = jpeg(2000)[:400]
    answer = put_in(ask, job, ("a.jpg", jpeg()), ("b.jpg", b"text"), ("c.jpg", pdf), ("d.jpg", cut))
    assert answer.status_code == 422
    assert "1 of 4 are in the folder" in answer.text
    assert answer.text.count("this is no photograph that can be read, whatever its name") == 2
    assert answer.text.count("<li><b>") == 3
    assert put_in(ask, job, ("", b"")).status_code == 422
    assert "No photograph was chosen" in put_in(ask, job).text


def test_a_photograph_is_sent_small_once_and_its_name_does_no_harm(ask, job):
    put_in(ask, job, ('../../x".jpg', jpeg(900)))
    at = re.search(
        rf"/jobs/{job}/photographs/\w+(?=/small)", ask.get(f"/jobs/{job}/photographs").text
    )[0]
    small = ask.get(f"{at}/small.jpg")
    assert Image.open(io.BytesIO(small.content)).size == (400, 200)
    assert small.headers["cache-control"] == "private, no-cache"
    assert small.headers["x-content-type-options"] == "nosniff"
    again = ask.get(f"{at}/small.jpg", headers={"If-None-Match": small.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")
    whole = ask.get(f"{at}/original")
    assert whole.content == jpeg(900)
    assert "/" not in whole.headers["content-disposition"].partition("filename*")[0]
    assert ask.get(f"{at}/huge.jpg").status_code == 404
    assert ask.get(f"/jobs/{job}/photographs/0000000000000000/small.jpg").status_code == 404
    other = ask.post("/jobs", data={"number": "2"}).headers["location"]
    assert ask.get(at.replace(f"/jobs/{job}", other) + "/small.jpg").status_code == 404


def test_only_uploads_may_be_long(ask):
    cap = BodyCap(None, at=UPLOADS).cap
    assert cap("/jobs/7/photographs") > 60_000_000
    assert cap("/jobs/7/photographs/ab") == cap("/jobs/7/arrival") == 1_000_000


def test_how_much_is_sent_can_be_said(ask, job):
    page = ask.get(f"/jobs/{job}/photographs").text
    assert "data-sending" in page
    assert "<progress" in page
    script = re.search(r'src="([^"]*sending[^"]*\.js[^"]*)"', page)[1]
    assert ask.get(script).status_code == 200
