"""A job from nothing to ticked holes by a program of one's own."""

from __future__ import annotations

import json

import pytest

from counterhoop.bench.listing import listing_schema

jsonschema = pytest.importorskip("jsonschema")
SHELL = {"circumference": "951 mm", "depth": "203 mm", "wall": "5 mm"}


def test_from_nothing_to_a_drum(api):
    job = api.ask.post("/api/jobs", json={"job": {"number": "30-001"}}).json()["id"]
    drum = api.ask.post(f"/api/jobs/{job}/drums", json={"name": "tom", "survey": SHELL})
    assert drum.status_code == 201
    drum = drum.json()["id"]
    place = f"/api/jobs/{job}/documents/survey?drum={drum}"
    first = api.ask.put(place, json={"body": {**SHELL, "wall": "6 mm"}, "based_on": 1})
    assert first.json() == {"revision": 2}
    late = api.ask.put(place, json={"body": {**SHELL, "wall": "7 mm"}, "based_on": 1})
    assert late.status_code == 409
    assert (late.json()["mine"]["wall"], late.json()["theirs"]["wall"]) == ("7 mm", "6 mm")
    whole = api.ask.get(f"/api/jobs/{job}").json()
    (survey,) = [one for one in whole["documents"] if one["kind"] == "survey"]
    assert (survey["body"]["wall"], survey["revision"]) == ("6 mm", 2)
    assert api.ask.get("/api/jobs").json()["jobs"][0]["drums"] == ["tom"]


def test_schemes_papers_and_ticks_of_the_demonstration(api, demo):
    told = api.ask.get(f"/api/jobs/{demo}/schemes").json()
    jsonschema.validate(told, listing_schema())
    drums = {d["name"]: d["id"] for d in api.ask.get(f"/api/jobs/{demo}").json()["drums"]}
    ticks = {}
    for name in ("marching snare", "small tom"):
        drum = next(d for d in told["drums"] if d["drum"] == name)
        chosen = next(s for s in drum["schemes"] if s["chosen"])
        tick = {"hole": chosen["holes"][0]["number"], "done": True, "code": chosen["code"]}
        ticks[name] = (f"/api/jobs/{demo}/drums/{drums[name]}/ticks", tick)
    place, tick = ticks["marching snare"]
    assert api.ask.post(place, json=tick).json() == {"revision": 1}
    assert api.ask.post(place, json=tick | {"code": "AAAA-AAAA"}).status_code == 409
    # Nobody has said yes to the small tom's.
    place, tick = ticks["small tom"]
    assert "No yes" in api.ask.post(place, json=tick).json()["what"]
    papers = api.ask.get(f"/api/jobs/{demo}/papers").json()["papers"]
    name = next(p["name"] for p in papers if "hole list" in p["name"])
    made = api.ask.get(f"/api/jobs/{demo}/paper", params={"name": name})
    assert made.content.startswith(b"%PDF")
    assert made.headers["content-disposition"].startswith("attachment")


@pytest.mark.parametrize(
    ("method", "path", "body", "code"),
    [
        ("GET", "/api/jobs/none", None, 404),
        ("GET", "/api/jobs/none/schemes", None, 404),
        ("GET", "/api/jobs?sheet=0", None, 422),
        ("GET", "/api/nothing", None, 404),
        ("POST", "/api/jobs/none/drums", {"name": "tom"}, 422),
        ("POST", "/api/jobs", {"job": 7}, 422),
        ("POST", "/api/jobs", {"jobs": {}}, 422),
        ("DELETE", "/api/jobs", None, 405),
        ("PUT", "/api/jobs/none/documents/approval", {"body": {}, "based_on": 0}, 422),
    ],
)
def test_every_fault_has_one_shape(api, method, path, body, code):
    answer = api.ask.request(method, path, json=body)
    assert answer.status_code == code
    assert set(answer.json()) == {"what", "where", "given", "wanted", "step"}
    assert answer.json()["what"]


def test_a_job_without_a_drum_that_can_be_planned_says_so(api):
    job = api.ask.post("/api/jobs", json={}).json()["id"]
    answer = api.ask.get(f"/api/jobs/{job}/schemes")
    assert answer.status_code == 409
    assert "planned" in json.dumps(answer.json())
