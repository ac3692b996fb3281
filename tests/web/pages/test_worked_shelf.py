"""The shelf of the worked job comes with its folder and goes with one press. Truth: by hand."""

from __future__ import annotations

from counterhoop.bench.folders.worked_job import put_worked_job

AWAY = "/shelf/worked/away"


def test_it_comes_with_the_worked_job_and_goes_with_one_press(ask, shop):
    assert AWAY not in ask.get("/shelf").text
    put_worked_job(shop, by="bench")
    assert "60 pieces on this shelf came with the worked job" in ask.get("/shelf").text
    assert ask.get("/?find=ashgrove").text.count('class="job-name"') == 1
    assert ask.post(AWAY).headers["location"] == "/shelf"
    gone = ask.get("/shelf").text
    assert AWAY not in gone
    assert "Nothing lies on the shelf yet" in gone
