"""A scheme is taken, the client says yes, holes are ticked: each bound to the exact scheme."""

from __future__ import annotations

import json

import pytest

from counterhoop.bench.folders.decide import Yes, approve, choose, take_back, tick
from counterhoop.bench.folders.drum_state import state_of_drum
from counterhoop.bench.folders.first_page import on_the_bench
from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.history import choose_version
from counterhoop.bench.folders.kinds import APPROVAL, CHOICE, JOB
from counterhoop.bench.folders.open_folder import call_drum
from counterhoop.bench.folders.source import to_plan
from counterhoop.bench.folders.ticks import ticks_of
from counterhoop.bench.long_work.answers import Done
from counterhoop.bench.plan_job import DrumPlan
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.scheme.code import code_for
from counterhoop.store.save import Saved

YES = Yes(who="the client", when="2030-05-17", how="signed at the bench")
TOM = "small tom"


def planned(shop: Workshop, job: str) -> DrumPlan:
    source = to_plan(kept_job(shop, job), shop=drawer(shop)).source
    assert source is not None
    answer = shop.works.plan(source)
    assert isinstance(answer, Done), answer
    return answer.value.drum(TOM)


def tom_id(shop: Workshop, job: str) -> str:
    return next(drum.id for drum in kept_job(shop, job).drums if drum.name == TOM)


def test_from_choice_to_the_last_tick(shop: Workshop, demo: str) -> None:
    tom = tom_id(shop, demo)
    plan = planned(shop, demo)
    other = next(s for s in plan.ranked.shown if plan.chosen and s.code != plan.chosen.code)
    done = choose(shop, demo, tom, code=other.code, moved=[], based_on=0, by="bench")
    assert isinstance(done, Saved)
    plan = planned(shop, demo)
    assert plan.chosen is not None
    assert plan.chosen.code == other.code
    assert plan.chosen.draft

    drum = kept_job(shop, demo).drum(tom)
    with pytest.raises(BadInput, match="changed since"):
        approve(shop, demo, drum, scheme=plan.chosen, shown_code="AAAA-AAAA", yes=YES, by="bench")
    for bad in (Yes(who="", when=YES.when, how="x"), Yes(who="x", when="today", how="x")):
        with pytest.raises(BadInput):
            approve(
                shop, demo, drum, scheme=plan.chosen, shown_code=other.code, yes=bad, by="bench"
            )
    approve(shop, demo, drum, scheme=plan.chosen, shown_code=other.code, yes=YES, by="bench")
    plan = planned(shop, demo)
    assert plan.chosen is not None
    assert not plan.chosen.draft
    assert "the client" in plan.chosen.approved

    hole = plan.chosen.layout.holes[0].number
    for wanted in (True, False, True):
        drum = kept_job(shop, demo).drum(tom)
        tick(shop, demo, drum, scheme=plan.chosen, hole=hole, done=wanted, by="phone")
        drum = kept_job(shop, demo).drum(tom)
        assert (str(hole) in ticks_of(drum, scheme=plan.chosen)) is wanted
    with pytest.raises(BadInput, match="no such hole"):
        tick(shop, demo, drum, scheme=plan.chosen, hole=9999, done=True, by="phone")
    (first,) = on_the_bench(shop)
    assert first.state == "on the bench"
    assert first.says == (
        "1 hole ticked on the small tom on 17 May 2030. "
        "The band's drummer said yes to the marching snare on 21 March 2026. "
        "5 drums without a scheme yet."
    )


def test_a_yes_keeps_its_lines_and_can_be_taken_back(shop: Workshop, demo: str) -> None:
    """Before the drill or after the first hole: the papers are drafts again, nothing is lost."""
    tom = tom_id(shop, demo)
    scheme = planned(shop, demo).chosen
    assert scheme is not None
    drum = kept_job(shop, demo).drum(tom)
    approve(shop, demo, drum, scheme=scheme, shown_code=scheme.code, yes=YES, by="bench")
    drum = kept_job(shop, demo).drum(tom)
    (row,) = drum.kept(APPROVAL).rows
    assert code_for(TOM, row["lines"]) == scheme.code
    approved = planned(shop, demo).chosen
    assert approved is not None
    hole = approved.layout.holes[0].number
    tick(shop, demo, drum, scheme=approved, hole=hole, done=True, by="phone")

    def back(
        code: str, *, when: str = "2030-05-17", how: str = "the owner, by telephone"
    ) -> object:
        drum = kept_job(shop, demo).drum(tom)
        return take_back(shop, demo, drum, code=code, when=when, how=how, by="bench")

    for bad in ({"code": "AAAA-AAAA"}, {"when": "soon"}, {"how": " "}):
        with pytest.raises(BadInput):
            back(**{"code": scheme.code, **bad})
    assert isinstance(back(scheme.code.lower()), Saved)
    with pytest.raises(BadInput, match="stands"):
        back(scheme.code)
    drum = kept_job(shop, demo).drum(tom)
    kept = drum.kept(APPROVAL)
    with pytest.raises(CannotDo, match="nobody's word"):
        # The version before is the one in which the yes still stood.
        choose_version(
            shop, kept.document_id, number=kept.number - 1, based_on=kept.number, by="bench"
        )
    assert kept.rows == [
        {**row, "taken_back": "2030-05-17", "taken_back_how": "the owner, by telephone"}
    ]
    state = state_of_drum(drum)
    assert state.yes == ()
    assert state.says == ("1 hole ticked on 17 May 2030; the yes was taken back on 17 May 2030.")
    assert state.taken_back[0].back_says() == (
        "the client said yes on 17 May 2030, and that was taken back on 17 May 2030"
    )
    scheme = planned(shop, demo).chosen
    assert scheme is not None
    assert scheme.draft
    with pytest.raises(CannotDo, match="No yes"):
        tick(shop, demo, drum, scheme=scheme, hole=hole, done=True, by="phone")
    tick(shop, demo, drum, scheme=scheme, hole=hole, done=False, by="phone")
    drum = kept_job(shop, demo).drum(tom)
    approve(shop, demo, drum, scheme=scheme, shown_code=scheme.code, yes=YES, by="bench")
    scheme = planned(shop, demo).chosen
    assert scheme is not None
    assert not scheme.draft


def test_a_drum_keeps_its_name_once_a_yes_goes_by_it(shop: Workshop, demo: str) -> None:
    tom = tom_id(shop, demo)

    def call(name: str) -> object:
        number = kept_job(shop, demo).kept(JOB).number
        return call_drum(shop, demo, tom, name=name, based_on=number, by="bench")

    assert isinstance(call("wee tom"), Saved)
    call(TOM)
    scheme = planned(shop, demo).chosen
    assert scheme is not None
    drum = kept_job(shop, demo).drum(tom)
    approve(shop, demo, drum, scheme=scheme, shown_code=scheme.code, yes=YES, by="bench")
    with pytest.raises(CannotDo, match="yes"):
        call("wee tom")
    assert isinstance(call(f" {TOM} "), Saved)
    scheme = planned(shop, demo).chosen
    assert scheme is not None
    assert not scheme.draft


def test_the_choice_can_be_left_to_the_kit_again(shop: Workshop, demo: str) -> None:
    tom = tom_id(shop, demo)
    plan = planned(shop, demo)
    assert plan.chosen is not None
    own = plan.chosen.code
    code = plan.ranked.shown[-1].code
    choose(shop, demo, tom, code=code, moved=[], based_on=0, by="bench")
    choose(shop, demo, tom, code="", moved=[], based_on=1, by="bench")
    plan = planned(shop, demo)
    assert plan.chosen is not None
    assert plan.chosen.code == own
    assert kept_job(shop, demo).drum(tom).kept(CHOICE).number == 2


def test_the_worker_gets_plain_tables(shop: Workshop, demo: str) -> None:
    found = to_plan(kept_job(shop, demo), shop=drawer(shop))
    assert found.source is not None
    assert found.faults == {}
    assert len(json.loads(found.source.tables_json)["drums"]) == 7
    again = to_plan(kept_job(shop, demo), shop=drawer(shop)).source
    assert again is not None
    assert again.key == found.source.key
