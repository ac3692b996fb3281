"""Papers are listed without being made, and one alone is the same as one out of all."""

from __future__ import annotations

import pytest

from counterhoop.bench import drum_papers
from counterhoop.bench.paper_list import listed_papers
from counterhoop.bench.paper_set import paper_set
from counterhoop.bench.paper_sorts import IDENTITY_SHEET, SORTS, TUNED_SHEET, sort_of
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.printing import Printing
from counterhoop.errors import BadInput
from planned_once import planned_demo


@pytest.fixture(scope="module")
def plan() -> JobPlan:
    return planned_demo()


def test_listing_makes_nothing(plan: JobPlan, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every maker that is called would need its setter, which is broken here."""

    def broken(*_args: object, **_more: object) -> bytes:
        raise AssertionError("a paper was made")

    for name in ("hole_list_pdf", "scheme_sheet_pdf", "template_pdf", "to_dxf", "look_over"):
        monkeypatch.setattr(drum_papers, name, broken)
    listed = listed_papers(plan)
    assert len(listed) == len({one.name for one in listed})
    key = plan.drums[0].key
    with pytest.raises(AssertionError, match="was made"):
        paper_set(plan).made_one(next(o.name for o in listed if "hole list" in o.name))
    assert {one.drum for one in listed} == {"", *(drum.key for drum in plan.drums)}
    only = listed_papers(plan, drum=key)
    assert {one.drum for one in only} == {"", key}
    assert {one.name for one in only} < {one.name for one in listed}


def test_every_sort_of_paper_is_met_in_the_demonstration(plan: JobPlan) -> None:
    met = {sort_of(one.name) for one in listed_papers(plan)}
    # Nobody has listened to a drum of the demonstration before it is opened; what a survey file
    # does not hold is no part of its papers.
    assert met | {TUNED_SHEET, IDENTITY_SHEET} == set(SORTS)
    for one in listed_papers(plan):
        assert one.says == sort_of(one.name).says


def test_one_paper_alone_is_the_same_as_out_of_all(plan: JobPlan) -> None:
    printing = Printing.read(paper="Letter", measured="179.6 mm, 249.5 mm")
    key = plan.drums[-1].key
    whole = paper_set(plan, drum=key, printing=printing)
    files = whole.made()
    for one in listed_papers(plan, drum=key, printing=printing):
        again = paper_set(plan, drum=key, printing=printing)
        assert again.made_one(one.name) == files[one.name], one.name


def test_a_paper_that_is_not_there_is_said_to_be_so(plan: JobPlan) -> None:
    with pytest.raises(BadInput, match="no paper of that name"):
        paper_set(plan).made_one("../../9 letter.pdf")
