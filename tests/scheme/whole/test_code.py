"""The code of the permanent changes, and what an approval of it lifts; exact laws."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import replace

import pytest

from counterhoop.development.place import Place
from counterhoop.development.shape import Round
from counterhoop.development.truing import Removal, Truing
from counterhoop.scheme.code import code_of
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.schemes import schemes_for
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.approval import Approval
from counterhoop.shell.hole import Origin
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.wish import FinishPlan, PutOn, SecondHead

PERMANENT = (Verdict.PLUG, Verdict.DRILL, Verdict.PLUG_AND_DRILL, Verdict.ENLARGE, Verdict.SLOT)


def wanted(bench, finish: FinishPlan | None = None) -> DrumWanted:
    return DrumWanted(drum=bench.case_a(), wishes=(SecondHead(),), finish=finish or FinishPlan())


def strainer(bench) -> DrumWanted:
    wish = PutOn(fitting="Varlow new strainer", replaces="strainer")
    return DrumWanted(drum=bench.case_d(), wishes=(wish,), finish=FinishPlan())


@pytest.fixture(scope="module")
def schemes(bench, shop) -> list[Scheme]:
    made = []
    for one in (wanted(bench), strainer(bench)):
        ranked = schemes_for(one, shop=shop)
        made += [*ranked.shown, *(aside.scheme for aside in ranked.set_aside)]
    verdicts = {plan.verdict for scheme in made for plan in scheme.layout.holes}
    assert {Verdict.PLUG, Verdict.DRILL, Verdict.PLUG_AND_DRILL, Verdict.KEEP} <= verdicts
    return made


def other(layout: Layout, number: int, **changes: object) -> Layout:
    holes = tuple(
        replace(plan, **changes) if plan.number == number else plan for plan in layout.holes
    )
    return replace(layout, holes=holes)


def moved(place: Place, *, along_deg: float = 0.0, down_mm: float = 0.0) -> Place:
    return Place(place.along_deg + along_deg, place.down_mm + down_mm)


CHANGES: dict[str, Callable[[HolePlan], dict[str, object]]] = {
    "turned by the width of a hair": lambda p: {"place": moved(p.place, along_deg=0.05)},
    "moved down": lambda p: {"place": moved(p.place, down_mm=0.2)},
    "left as it is": lambda _: {"verdict": Verdict.KEEP},
    "another size": lambda p: {"new": Round(max(p.new.size_mm) + 0.2)} if p.new else {},
    "a wider plug": lambda p: {"plug_mm": p.plug_mm + 0.5} if p.plug_mm else {},
    "its plug elsewhere": lambda p: (
        {"plug_place": moved(p.plug_place or p.place, down_mm=0.5)} if p.plug_mm else {}
    ),
}


@pytest.mark.parametrize("name", CHANGES)
def test_any_change_to_a_hole_that_is_cut_or_plugged_changes_the_code(name, schemes):
    tried = 0
    for scheme in schemes:
        for plan in scheme.layout.holes:
            change = CHANGES[name](plan) if plan.verdict in PERMANENT else {}
            if change:
                tried += 1
                assert code_of(other(scheme.layout, plan.number, **change)) != scheme.code
    assert tried > 20


def test_what_can_be_undone_leaves_the_code_alone(schemes):
    for scheme in schemes:
        layout = scheme.layout
        same = [
            replace(layout, fittings=(), hoops=(), rods=(), marks=()),
            other(layout, layout.holes[-1].number, covered=not layout.holes[-1].covered),
            other(layout, layout.holes[-1].number, origin=Origin.EXTRA, backing_washer_mm=40.0),
        ]
        same += [
            other(layout, plan.number, place=moved(plan.place, down_mm=1.0))
            for plan in layout.holes
            if plan.verdict not in PERMANENT
        ]
        assert {code_of(one) for one in same} == {scheme.code}


def test_a_hair_either_side_of_the_datum_is_one_place(schemes):
    layout = schemes[0].layout
    new = next(plan for plan in layout.holes if plan.verdict is Verdict.DRILL)
    codes = {
        code_of(other(layout, new.number, place=Place(along, new.place.down_mm)))
        for along in (0.0, 1e-9, -1e-9)
    }
    assert len(codes) == 1


@pytest.mark.parametrize(
    "finish",
    [
        FinishPlan(kind="paint"),
        FinishPlan(kind="clear lacquer"),
        FinishPlan(kind="new wrap", thickness_mm=0.5),
        FinishPlan(kind="new wrap", thickness_mm=1.0),
        FinishPlan(truing=Truing(batter=Removal(1.0))),
        FinishPlan(truing=Truing(resonant=Removal(1.0))),
        FinishPlan(truing=Truing(batter=Removal(1.0, cos_mm=0.5))),
        FinishPlan(truing=Truing(batter=Removal(1.0, sin_mm=0.5))),
    ],
)
def test_another_finish_or_another_edge_is_another_yes(finish, bench, shop):
    plain = schemes_for(wanted(bench), shop=shop)
    there = schemes_for(wanted(bench, finish), shop=shop)
    before = {scheme.code for scheme in plain.shown}
    assert not before & {scheme.code for scheme in there.shown}


def test_truing_either_end_is_not_the_same(schemes):
    layout = schemes[0].layout
    ends = [Truing(batter=Removal(1.0)), Truing(resonant=Removal(1.0))]
    assert len({code_of(replace(layout, truing=truing)) for truing in ends}) == 2


def yes(code: str, *, drum: str = "tom") -> Approval:
    return Approval(drum=drum, who="the owner", when=dt.date(2026, 3, 1), how="signed", covers=code)


@pytest.mark.parametrize(
    "write", [str, str.lower, lambda c: f"  {c} ", lambda c: f"{c[:5]} {c[5:]}"]
)
def test_a_yes_lifts_draft_for_exactly_its_scheme(write, bench, shop):
    first, *rest = schemes_for(wanted(bench), shop=shop).shown
    assert first.draft
    assert not first.approved
    asked = replace(shop, approvals=(yes(write(first.code)),))
    ranked = schemes_for(wanted(bench), shop=asked)
    approved = [scheme for scheme in ranked.shown if scheme.approved]
    assert [scheme.code for scheme in approved] == [first.code]
    assert not approved[0].draft
    assert approved[0].approved == "by the owner on 1 March 2026, signed"
    assert all(scheme.draft for scheme in ranked.shown if scheme.code in {s.code for s in rest})


def test_a_yes_for_another_drum_or_another_state_lifts_nothing(bench, shop):
    code = schemes_for(wanted(bench), shop=shop).shown[0].code
    for approval in (yes(code, drum="other tom"), yes(code[:-1]), yes(code + "A"), yes("")):
        ranked = schemes_for(wanted(bench), shop=replace(shop, approvals=(approval,)))
        assert all(scheme.draft for scheme in ranked.shown)
    trued = FinishPlan(truing=Truing(resonant=Removal(1.0)))
    ranked = schemes_for(wanted(bench, trued), shop=replace(shop, approvals=(yes(code),)))
    assert all(scheme.draft for scheme in ranked.shown)


def test_an_edge_a_ring_and_beds_are_in_the_code(schemes: list[Scheme]) -> None:
    """Two jobs on the same holes are two yeses when one of them cuts a new bearing edge."""
    layout = schemes[0].layout
    codes = {
        code_of(layout, work=work)
        for work in (
            (),
            (("make an edge", 1),),
            (("make an edge", 1), ("glue in a ring", 1)),
            (("cut a snare bed", 2),),
        )
    }
    assert len(codes) == 4
    assert code_of(layout, work=(("tune a drum", 1),)) == code_of(layout)
