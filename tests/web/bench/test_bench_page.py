"""On the bench: the hole list and its ticks, without a browser."""

from __future__ import annotations

import html
import re
from dataclasses import replace

import pytest
from worked_drums import WorkedJob

from counterhoop.bench.folders import tick_off as tick_off_module
from counterhoop.bench.folders.tick_off import TickedOtherwise, seen_of, tick_off
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.papers.hole_list import hole_rows
from counterhoop.papers.screen.hole_words import length
from counterhoop.scheme.verdict import Verdict
from counterhoop.store.save import Saved
from counterhoop.web.bench_holes import left_of, stages
from counterhoop.web.plans import plan_for

SNARE, TOM = "marching snare", "floor tom"
PART = {"HX-Request": "true"}


@pytest.fixture
def job(shop):
    return WorkedJob(shop, SNARE, TOM)


@pytest.fixture
def plan(job):
    return plan_for(job.shop, job.kept).plan


@pytest.fixture
def snare(plan):
    return plan.drum(SNARE).chosen


def said(answer):
    return html.unescape(answer.text)


def tick(job, name=SNARE, *, hole, done="yes", seen="", code=None, headers=None, **more):
    scheme = plan_for(job.shop, job.kept).plan.drum(name).chosen
    data = {"hole": hole, "done": done, "seen": seen, "code": code or scheme.code, **more}
    return job.ask.post(f"{job.bench(name)}/tick", data=data, headers=headers)


# --- the list -----------------------------------------------------------------------------------


@pytest.mark.parametrize("name", [SNARE, TOM])
@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_list_says_the_same_as_the_paper(plan, name, units):
    # Independent implementation: the paper hole list, which is checked against the templates.
    scheme = plan.drum(name).chosen
    listed = {
        hole.number: hole for stage in stages(scheme, units=units, done={}) for hole in stage.holes
    }
    rows = hole_rows(replace(plan.opened.job, units=units), scheme)
    assert sorted(listed) == sorted(row["number"] for row in rows)
    assert len(rows) == sum(len(stage.holes) for stage in stages(scheme, units=units, done={}))
    for row in rows:
        hole = listed[row["number"]]
        cells = [row["along"], row["batter"], row["resonant"]]
        said = [f"{mm} mm" if units == "mm" else inches or "0 in" for mm, inches in cells]
        assert [hole.along, hole.down, hole.up] == said
        assert (hole.verdict, hole.serves) == (row["verdict"], row["serves"])
        assert hole.deg.rstrip("°") == row["deg"].removesuffix(".0")


def test_near_sides_by_hand(snare):
    # Hand-worked: the upper edge of a round hole lies half its diameter above its middle.
    by_number = {hole.number: hole for hole in snare.layout.holes}
    for stage in stages(snare, units="mm", done={}):
        for hole in stage.holes:
            plan = by_number[hole.number]
            place = plan.new_place or plan.place
            shape = plan.old if plan.verdict is Verdict.PLUG else plan.new or plan.old
            assert hole.near == length(place.down_mm - shape.size_mm[1] / 2, units="mm")


def test_the_order_of_the_work(snare, plan):
    # Common practice, no source: plugs first, nothing through a wrap before it is on.
    found = stages(snare, units="mm", done={})
    assert [stage.ident for stage in found] == ["plug", "through-wrap", "drill"]
    assert left_of(found) == (49, 49)
    # What lies under no new wrap and keeps its hole is not worked on.
    stays = replace(
        snare, layout=replace(snare.layout, finish=replace(snare.layout.finish, kind="stays"))
    )
    kept = sum(hole.verdict in (Verdict.KEEP, Verdict.LEAVE_OPEN) for hole in snare.layout.holes)
    assert kept == 9
    assert left_of(stages(stays, units="mm", done={})) == (49 - kept, 49 - kept)


def test_inches_come_first_for_who_reads_them(job):
    page = job.ask.get(job.bench(SNARE), headers={"cookie": "counterhoop-mine=in.day"})
    assert "2 3/4 in" in said(page)
    assert "mm dia" not in said(page)


# --- DRAFT --------------------------------------------------------------------------------------


def test_draft_is_said_and_nothing_is_ticked(job):
    page = said(job.ask.get(job.bench(TOM)))
    assert "DRAFT" in page
    assert "Do not drill by this drawing" in page
    assert "tick-box" not in page
    hole = int(re.search(r'data-hole-line="(\d+)"', page)[1])
    answer = tick(job, TOM, hole=hole)
    assert answer.status_code == 409
    assert "Nobody has said yes" in said(answer)
    assert job.ticks(TOM) == {}


def test_a_yes_that_covers_it_takes_draft_away(job):
    page = said(job.ask.get(job.bench(SNARE)))
    assert "DRAFT" not in page
    assert "tick-box" in page
    assert "The yes: by the band's drummer on 21 March 2026" in page


def test_a_yes_to_another_scheme_is_told(shop):
    def other(tables):
        tables["approval"][0]["covers"] = "AAAA-AAAA"

    job = WorkedJob(shop, SNARE, change=other)
    page = said(job.ask.get(job.bench(SNARE)))
    assert "DRAFT" in page
    assert (
        "The band's drummer said yes on 21 March 2026, but to another scheme (AAAA-AAAA)." in page
    )


# --- ticks --------------------------------------------------------------------------------------


def test_a_tick_is_kept_and_taken_back(job, snare):
    answer = tick(job, hole=44)
    assert answer.status_code == 303
    assert answer.headers["location"] == f"{job.bench(SNARE)}#flat-line-44"
    mark = job.ticks(SNARE)["done"]["44"]
    assert job.ticks(SNARE)["code"] == snare.code
    assert mark["by"] == "this bench"
    page = said(job.ask.get(job.bench(SNARE)))
    assert "48 of 49 holes left" in page
    assert "27 of 28 left" in page
    assert 'aria-label="Done: hole 44"' in page
    assert re.search(r'id="tick-44" aria-pressed="true"', page)
    assert tick(job, hole=44, done="no", seen=seen_of(mark)).status_code == 303
    assert "49 holes to do" in said(job.ask.get(job.bench(SNARE)))


def test_a_part_is_answered_with_what_changed(job):
    answer = tick(job, hole=44, headers=PART)
    assert answer.status_code == 200
    text = said(answer)
    assert text.count('data-hole-line="') == 1
    assert "48 of 49 holes left" in text
    assert 'hx-target="#flat-done"' in text
    assert "<html" not in text


def test_what_cannot_be_ticked(job):
    assert tick(job, hole=999).status_code == 422
    answer = tick(job, hole=44, code="AAAA-AAAA")
    assert answer.status_code == 409
    assert "The scheme has changed" in said(answer)
    assert job.ask.get("/jobs/none/drums/none/bench").status_code == 404


def test_two_benches_tick_different_holes(job, shop, snare, monkeypatch):
    # Between reading and writing of one bench the other saves: the first reads again.
    drum = job.drum(SNARE).id
    quicker = iter([45, 46])
    true_tick = tick_off_module.tick

    def late(shop, job_id, kept, **given):
        other = next(quicker, None)
        if other is not None:
            newest = job.drum(SNARE)
            done = true_tick(shop, job_id, newest, **{**given, "hole": other, "by": "shed"})
            assert isinstance(done, Saved)
        return true_tick(shop, job_id, kept, **given)

    monkeypatch.setattr(tick_off_module, "tick", late)
    done = tick_off(shop, job.id, drum, scheme=snare, hole=44, done=True, seen="", by="window")
    assert not isinstance(done, TickedOtherwise)
    marks = job.ticks(SNARE)["done"]
    assert {number: mark["by"] for number, mark in marks.items()} == {
        "44": "window", "45": "shed", "46": "shed",
    }  # fmt: skip


def test_two_benches_tick_the_same_hole(job):
    assert tick(job, hole=44).status_code == 303
    first = job.ticks(SNARE)["done"]["44"]
    # The other page was opened before and shows it undone: done twice is done.
    assert tick(job, hole=44, seen="").status_code == 303
    assert job.ticks(SNARE)["done"]["44"] == first
    # A page that saw an older tick than the one that stands there would take back a tick that it
    # never showed: both are shown.
    answer = tick(job, hole=44, done="no", seen="2030-05-17T14:03:00+00:00 shed")
    assert answer.status_code == 409
    assert "Two versions" in said(answer)
    assert job.ticks(SNARE)["done"]["44"] == first
    theirs = re.search(r'name="seen" value="([^"]+)"', answer.text)[1]
    assert html.unescape(theirs) == seen_of(first)
    assert tick(job, hole=44, done="no", seen=seen_of(first), keep="theirs").status_code == 303
    assert "44" in job.ticks(SNARE)["done"]
    assert tick(job, hole=44, done="no", seen=seen_of(first), keep="mine").status_code == 303
    assert "44" not in job.ticks(SNARE)["done"]


def test_ticks_of_another_scheme_do_not_count(job, shop, snare):
    assert tick(job, hole=44).status_code == 303
    other = replace(snare, code="BBBB-BBBB")
    tick_off(
        shop, job.id, job.drum(SNARE).id, scheme=other, hole=45, done=True, seen="", by="bench"
    )
    assert list(job.ticks(SNARE)["done"]) == ["45"]
    assert "49 holes to do" in said(job.ask.get(job.bench(SNARE)))


# --- the rest of the page -----------------------------------------------------------------------


def test_work_and_edges_stand_beneath(job, plan):
    page = said(job.ask.get(job.bench(SNARE)))
    assert "Then leave it alone for 48 h." in page
    assert "Beware of: cutter and saw, lead at the rim, hardwood dust" in page
    # The truing sheet's own figures, which are checked against its drawing.
    assert "Most comes off at stations 5 and 13: 0.6 mm" in page
    assert "Tick above plate, mm" in page


def test_why_there_is_nothing_to_work_by(shop):
    job = WorkedJob(shop, TOM, change=lambda tables: tables["drums"][TOM].pop("finish_plan"))
    assert "Nothing is wished for this drum" in said(job.ask.get(job.bench(TOM)))
    drum = job.drum(TOM)
    wall = Change(
        kind="survey", name=drum.id, pointer="/wall", value="thick",
        based_on=drum.kept("survey").number,
    )  # fmt: skip
    write_down(shop, job.id, wall, by="bench")
    page = said(job.ask.get(job.bench(TOM)))
    assert "cannot be read whole yet" in page
    assert "tick-box" not in page


# --- how much there is of it ----------------------------------------------------------------------


def test_the_longest_bench_sheet_stays_light(job):
    # A page may weigh 300 KB with what it loads (scripts, styles and fonts: under 130 KB).
    assert len(job.ask.get(job.bench(SNARE)).content) < 168_000
