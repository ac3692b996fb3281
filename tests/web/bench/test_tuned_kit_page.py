"""How a kit is tuned, without a browser: what is wished, what each drum is to sound like."""

from __future__ import annotations

import html
import re

import pytest
from worked_drums import WorkedJob, untuned

from counterhoop.bench.tune.kit_pitches import kit_pitches
from counterhoop.web.plans import plan_for

SMALL, LOW = "small tom", "low tom"


@pytest.fixture
def job(shop):
    return WorkedJob(shop, SMALL, LOW, change=untuned)


def said(answer):
    return html.unescape(answer.text)


def wish(job, *, number=None, **fields):
    number = job.kept.kept("kit").number if number is None else number
    return job.ask.post(f"/jobs/{job.id}/tuned/wish", data={"based_on": number, **fields})


def test_the_page_says_what_the_plan_of_pitches_says(job, shop):
    """The plan itself is checked against physics in its own room."""
    pitches = kit_pitches(plan_for(shop, job.kept).plan)
    page = said(job.ask.get(f"/jobs/{job.id}/tuned"))
    for drum in pitches.drums:
        assert f"{drum.planned.note}, struck in the middle" in page
        for head in drum.planned.heads:
            assert head.note in page
            assert all(line in page for line in head.says)
    heights = [page.index(f">{name.capitalize()}</h2>") for name in (LOW, SMALL)]
    assert heights == sorted(heights)
    for drum in job.kept.drums:
        assert f'href="/jobs/{job.id}/drums/{drum.id}/tuned"' in page


def test_a_wish_is_kept_heard_and_undone(job):
    written = {"lowest.drum": LOW, "lowest.pitch": "G2", "bottom": "a third higher"}
    assert wish(job, **written).status_code == 303
    kept = {"lowest": {"drum": LOW, "pitch": "G2"}, "bottom": "a third higher"}
    assert job.kept.kept("kit").table == kept
    page = said(job.ask.get(f"/jobs/{job.id}/tuned"))
    assert "G2 (98 Hz), struck in the middle" in page
    assert "Lowest G2" in page
    wish(job, **written | {"lowest.pitch": "A2"})
    page = said(job.ask.get(f"/jobs/{job.id}/tuned"))
    number = re.search(r'name="number" value="(\d+)"', page)[1]
    number_now = job.kept.kept("kit").number
    answer = job.ask.post(
        f"/jobs/{job.id}/tuned/undo", data={"number": number, "based_on": number_now}
    )
    assert (answer.status_code, job.kept.kept("kit").table) == (303, kept)


def test_a_pitch_that_cannot_be_read_stops_no_drum(job):
    answer = wish(job, **{"lowest.drum": LOW, "lowest.pitch": "low"})
    page = said(job.ask.get(answer.headers["location"]))
    assert 'value="low"' in page
    assert "the plan does without it" in page
    assert "struck in the middle" in page
    assert plan_for(job.shop, job.kept).faults == {}


@pytest.mark.parametrize(
    "fields",
    [
        {"highest.drum": "smal tom", "highest.pitch": "D3"},
        {"as_heard.0.drum": "smal tom", "as_heard.0.pitch": "D3"},
    ],
)
def test_a_drum_that_is_not_there_is_refused_by_the_names_of_those_that_are(job, fields):
    answer = wish(job, **fields)
    assert answer.headers["location"].endswith("?write=yes#kit-form")
    page = said(job.ask.get(f"/jobs/{job.id}/tuned"))
    assert "What is wished cannot be read whole" in page
    assert "No such drum in this job" in page
    assert f'"{SMALL}" or "{LOW}"' in page
    assert 'did you mean "small tom"' in page.casefold()


def test_a_wish_that_cannot_be_met_is_said_once(job):
    wish(job, **{"lowest.drum": LOW, "lowest.pitch": "A5"})
    page = said(job.ask.get(f"/jobs/{job.id}/tuned"))
    assert page.count("is too high") == 1
    assert "no plan before there is one for the low tom" in page


def test_two_benches_that_wish_otherwise_are_shown_both(job):
    wish(job, **{"lowest.pitch": "G2"})
    answer = wish(job, number=0, **{"lowest.pitch": "A2"})
    assert answer.status_code == 409
    assert "Two versions: choose one" in said(answer)
