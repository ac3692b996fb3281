"""Wrap and finish: what is cut, what each drum gets, the wraps of the job."""

from __future__ import annotations

import html
import re

import pytest
from worked_drums import WorkedJob

from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.quantities.print_length import print_mm
from counterhoop.scheme.wrapping import wrap_plans
from counterhoop.web.plans import plan_for

SNARE, TOM, BASS = "marching snare", "floor tom", "bass drum"


@pytest.fixture
def job(shop):
    return WorkedJob(shop, SNARE, TOM)


def said(answer):
    return html.unescape(answer.text)


def look(job, **asked):
    answer = job.ask.get(f"/jobs/{job.id}/wrap", params=asked)
    assert answer.status_code == 200
    return said(answer)


def write(job, **fields):
    number = job.kept.kept("job").number
    data = {"based_on": number, "was": "", **fields}
    return job.ask.post(f"/jobs/{job.id}/wrap/stock", data=data)


def wraps(job):
    return job.kept.kept("job").table["wraps"]


def test_what_is_cut(job, shop):
    # The plan itself, which is checked against brute force in its own room.
    plan = plan_for(shop, job.kept).plan
    (wrap,) = wrap_plans(
        plan.opened.job, [drum.chosen for drum in plan.drums], rules=plan.opened.shop.rules
    )
    page = look(job)
    assert wrap.nesting.says in page
    assert page.count("seen from its face</figcaption>") == len(wrap.nesting.sheets)
    for drum in wrap.drums:
        assert f"The seam at {print_mm(drum.seams[0].along_mm[0])} along" in page
        assert all(line in page for line in drum.fits)
    assert "Trim after 15 h, drill after 30 h." in page
    # Its heads are too small for the wrapped shell: that stops, and says so.
    assert re.search(
        r'class="finding stop"><strong class="grade">Stop.</strong> Over the new', page
    )


def test_no_new_wrap_is_told(shop):
    job = WorkedJob(shop, BASS)
    assert "No drum of this job gets a new wrap." in look(job)


def test_a_wrap_that_has_no_name(shop):
    def nameless(tables):
        tables["drums"][TOM]["finish_plan"] = {"kind": "new wrap", "thickness": "0.5 mm"}

    page = look(WorkedJob(shop, TOM, change=nameless))
    assert "Nothing can be cut yet." in page
    assert "Floor tom: a new wrap is planned, but not which." in page


def test_what_each_drum_gets_is_said_with_its_place(job):
    page = look(job)
    assert "New wrap, green ripple, batter edge: flat." in page
    assert f"/drums/{job.drum(SNARE).id}/shell?open=finish-plan" in page


def test_a_wrap_is_written_changed_and_taken_out(job):
    page = look(job, write="green ripple")
    assert 'name="was" value="green ripple"' in page
    fields = {"thickness": "0.4 mm", "length": "2000 mm", "width": "700 mm"}
    assert write(job, _name="red flame", **fields).status_code == 303
    assert list(wraps(job)) == ["green ripple", "red flame"]
    assert wraps(job)["red flame"]["length"] == "2000 mm"
    assert "Red flame: 2000 mm long, 700 mm wide, 0.4 mm thick" in re.sub("<[^>]+>", "", look(job))
    # Called otherwise it is the same wrap; the drums of the job are still there.
    assert write(job, was="red flame", _name="blue flame", **fields).status_code == 303
    assert list(wraps(job)) == ["green ripple", "blue flame"]
    assert len(job.kept.drums) == 2
    assert write(job, was="blue flame", _name="blue flame", take_out="yes").status_code == 303
    assert list(wraps(job)) == ["green ripple"]


def test_a_wrap_that_cannot_be_read_is_kept_as_typed(job):
    answer = write(job, _name="red flame", thickness="thin", length="2 m", width="700 mm")
    assert "write=red" in answer.headers["location"]
    assert wraps(job)["red flame"]["thickness"] == "thin"
    page = look(job, write="red flame")
    assert 'aria-invalid="true"' in page
    assert 'value="thin"' in page
    nameless = write(job, thickness="0.4 mm")
    assert nameless.status_code == 422
    assert 'value="0.4 mm"' in nameless.text


def test_a_wrap_is_never_written_over_another_one(job):
    green = wraps(job)["green ripple"]
    fields = {"thickness": "0.4 mm", "length": "2000 mm", "width": "700 mm"}
    refused = write(job, _name="green ripple", **fields)
    assert refused.status_code == 422
    assert "another wrap of this job is called so" in said(refused).lower()
    assert 'value="2000 mm"' in refused.text
    assert write(job, _name="red flame", **fields).status_code == 303
    # Sent again because the answer was lost, it is the same wrap.
    assert write(job, _name="red flame", **fields).status_code == 303
    refused = write(job, was="red flame", _name="green ripple", **fields)
    assert refused.status_code == 422
    assert 'name="was" value="red flame"' in refused.text
    assert wraps(job) == {"green ripple": green, "red flame": fields}


@pytest.mark.parametrize("name", ["new", "1/2 red & #2 ö", "a?write=b"])
def test_a_wrap_may_be_called_anything(job, name):
    answer = write(job, _name=name, thickness="thin")
    page = said(job.ask.get(answer.headers["location"]))
    assert f'name="was" value="{name}"' in page
    assert 'value="thin"' in page


def test_two_write_the_same_wrap(job):
    number = job.kept.kept("job").number
    body = job.kept.kept("job").table
    theirs = {**body["wraps"], "green ripple": {**body["wraps"]["green ripple"], "width": "620 mm"}}
    change = Change(kind="job", pointer="/wraps", value=theirs, based_on=number)
    write_down(job.shop, job.id, change, by="shed")
    mine = {"thickness": "0.5 mm", "length": "1500 mm", "width": "600 mm"}
    answer = write(job, based_on=number, was="green ripple", _name="green ripple", **mine)
    assert answer.status_code == 409
    assert "620 mm" in said(answer)
    assert "600 mm" in said(answer)
    assert wraps(job)["green ripple"]["width"] == "620 mm"
    # Another wrap is no conflict, whatever was changed elsewhere in the job.
    assert write(job, based_on=number, _name="red flame", **mine).status_code == 303


def test_undo(job):
    before = job.kept.kept("job").number
    write(job, _name="red flame", length="2000 mm", width="700 mm", thickness="0.4 mm")
    data = {"number": before, "based_on": before + 1}
    assert job.ask.post(f"/jobs/{job.id}/wrap/undo", data=data).status_code == 303
    assert list(wraps(job)) == ["green ripple"]
