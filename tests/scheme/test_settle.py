"""Verdicts: exact laws and the bench cases' figures (common practice, no source)."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.place import Place
from counterhoop.development.shape import Round
from counterhoop.scheme.draft import Cut, draft_of
from counterhoop.scheme.ground import ground_of
from counterhoop.scheme.settle import settle
from counterhoop.scheme.verdict import Verdict
from counterhoop.scheme.wide_plug import plug_round
from counterhoop.shell.hole import Condition
from counterhoop.shell.shop_rules import default_rules
from counterhoop.shell.wish import FinishPlan


def _draft(bench, drum):
    return draft_of(ground_of(drum, finish=FinishPlan(), book=bench.book))


@given(
    st.lists(
        st.tuples(st.floats(-9, 9), st.floats(-9, 9), st.floats(3, 13)), min_size=1, max_size=3
    ),
    st.floats(4, 9),
)
def test_one_plug_holds_the_old_holes_and_leaves_wood_round_the_new(bench, old, new_mm):
    # Exact law: circles inside a circle, checked by the triangle inequality.
    draft = _draft(bench, bench.bare())
    surface, rules = draft.ground.flat.surface, default_rules()
    at = Place(40.0, 100.0)
    spots = [
        (Place(40.0 + x * 360.0 / surface.circumference_mm, 100.0 + y), Round(d)) for x, y, d in old
    ]
    centre, plug_mm = plug_round([(at, Round(new_mm))], spots, surface=surface, rules=rules)
    cx = surface.apart_mm(at.along_deg, centre.along_deg)
    cy = centre.down_mm - at.down_mm
    assert math.hypot(cx, cy) + new_mm / 2 + rules.plug_web_mm <= plug_mm / 2 + 1e-9
    for x, y, d in old:
        assert math.hypot(x - cx, y - cy) + d / 2 <= plug_mm / 2 + 1e-9
    assert plug_mm >= rules.plug_factor * new_mm


def test_case_c_plug_of_15_centred_between_holes_3_apart(bench):
    # Common practice, no source: case C of the bench cases.
    draft = _draft(bench, bench.bare())
    surface = draft.ground.flat.surface
    old = (Place(3.0 * 360.0 / surface.circumference_mm, 60.0), Round(6.0))
    centre, plug_mm = plug_round(
        [(Place(0.0, 60.0), Round(6.0))], [old], surface=surface, rules=default_rules()
    )
    assert plug_mm == 15.0
    assert surface.apart_mm(0.0, centre.along_deg) == pytest.approx(1.5)


@pytest.mark.parametrize(
    ("apart_mm", "verdict", "through"),
    [
        (4.0, Verdict.PLUG_AND_DRILL, (1,)),
        (8.9, Verdict.PLUG_AND_DRILL, (1,)),
        (9.5, Verdict.DRILL, ()),
    ],
)
def test_a_hole_near_an_old_one_goes_through_a_plug(bench, rules, apart_mm, verdict, through):
    # Web of 3 between a 6 mm hole and a 6 mm plug is met at 9 apart down the shell.
    drum = bench.with_hole(bench.bare(), 10.0, 60.0, 6.0)
    draft = _draft(bench, drum)
    cut = Cut(place=Place(10.0, 60.0 + apart_mm), shape=Round(6.0), of="lug 1", serves="lug 1")
    layout = settle(draft.with_fittings((), uses=(), cuts=(cut,)), rules=rules)
    new = layout.holes[-1]
    assert (new.verdict, new.through) == (verdict, through)
    assert layout.holes[0].verdict is Verdict.PLUG


def test_holes_of_fittings_that_stay_are_kept_and_the_vent_stays_open(bench, rules):
    layout = settle(_draft(bench, bench.case_a()), rules=rules)
    verdicts = [hole.verdict for hole in layout.holes]
    assert verdicts.count(Verdict.KEEP) == 16
    assert verdicts[-1] is Verdict.LEAVE_OPEN
    assert not layout.marks


def test_taking_a_fitting_off_leaves_plugs_and_a_shadow(bench, rules):
    draft = _draft(bench, bench.case_a()).without("bracket")
    layout = settle(draft, rules=rules)
    assert [h.verdict for h in layout.holes].count(Verdict.PLUG) == 4
    assert [mark.of for mark in layout.marks] == ["bracket"]
    assert {f.label for f in layout.standing} == {f"batter lug {n}" for n in range(1, 7)}


def test_an_earlier_owners_dowel_is_no_hole_to_plug(bench, rules):
    drum = bench.with_hole(bench.bare(), 10.0, 60.0, 9.5, condition=Condition.DOWEL)
    layout = settle(_draft(bench, drum), rules=rules)
    assert layout.holes[0].verdict is Verdict.PLUGGED_ALREADY
