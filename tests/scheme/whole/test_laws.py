"""Exact laws of whole schemes, reckoned anew with shapely from the holes and fittings alone.

The limits are the shop's own rules (common practice, no source).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

import pytest

from counterhoop.development.place import Place
from counterhoop.development.shape import Round
from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Kind, PatternHole
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.schemes import schemes_for
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.wish import BackToFactory

PRINTS_ALIKE_MM = 0.051  # a figure that prints like its limit meets it
SAW = math.hypot(0.5, 0.5)  # nobody calls what lies inside the doubt of two tape readings
SEEDS = [*range(36), *(pytest.param(n, marks=pytest.mark.full) for n in range(36, 900))]


@dataclass(frozen=True)
class Worked:
    """A scheme with the drum that it is for."""

    wanted: DrumWanted
    scheme: Scheme

    @property
    def girth_mm(self) -> float:
        return self.scheme.layout.flat.surface.circumference_mm

    @property
    def holes(self) -> dict[int, HolePlan]:
        return {plan.number: plan for plan in self.scheme.layout.holes}

    @property
    def open_after(self) -> list[HolePlan]:
        closed = (Verdict.PLUG, Verdict.PLUGGED_ALREADY)
        return [plan for plan in self.scheme.layout.holes if plan.verdict not in closed]

    def serving(self, fitting: FittingPlan) -> list[HolePlan]:
        return [plan for plan in self.scheme.layout.holes if plan.of == fitting.label]

    def seats(self, fitting: FittingPlan) -> list[tuple[Place, PatternHole]]:
        way = {0.0: 1.0, 180.0: -1.0}[fitting.turned_deg % 360.0]
        return [
            (
                Place(
                    fitting.place.along_deg + way * hole.right_mm * 360.0 / self.girth_mm,
                    fitting.place.down_mm + way * hole.down_mm,
                ),
                hole,
            )
            for hole in fitting.fitting.holes
        ]


@pytest.fixture(scope="module", params=SEEDS)
def worked(request, drums, bench, shop) -> list[Worked]:
    wanted = drums.random_wanted(request.param, bench=bench)
    try:
        ranked = schemes_for(wanted, shop=shop)
    except BadInput:
        if len(wanted.wishes) == 1:  # two may contradict each other, one alone can be met
            raise
        return []
    schemes = (*ranked.shown, *(aside.scheme for aside in ranked.set_aside))
    assert schemes
    return [Worked(wanted=wanted, scheme=scheme) for scheme in schemes]


def test_each_hole_as_found_is_in_the_layout_or_in_the_offcut(worked):
    for one in worked:
        layout = one.scheme.layout
        numbers = [plan.number for plan in layout.holes]
        assert len(set(numbers)) == len(numbers)
        for hole in one.wanted.drum.holes:
            down = hole.place.down_mm - layout.truing.batter.at_mm(hole.place.along_deg)
            assert (hole.number in numbers) is (0.0 <= down <= layout.flat.depth_mm)


def test_labels_are_unique_and_holes_serve_only_what_stands(worked):
    for one in worked:
        labels = [plan.label for plan in one.scheme.layout.standing]
        assert len(set(labels)) == len(labels)
        for plan in one.scheme.layout.holes:
            assert bool(plan.of) is bool(plan.serves)
            assert not plan.of or plan.of in labels
            if plan.verdict in (Verdict.PLUG, Verdict.PLUGGED_ALREADY, Verdict.LEAVE_OPEN):
                assert not plan.of


def test_each_wanted_hole_of_each_new_fitting_is_served_once(worked):
    for one in worked:
        if any(isinstance(wish, BackToFactory) for wish in one.wanted.wishes):
            continue  # originals go back on the holes they have, whatever the book's pattern says
        for fitting in one.scheme.layout.standing:
            if fitting.status != "new" or fitting.fitting.kind is Kind.COVER_PLATE:
                continue
            serving = one.serving(fitting)
            assert len({plan.serves for plan in serving}) == len(serving)
            assert len(serving) == len(fitting.fitting.holes)
            assert set(fitting.holes) == {plan.number for plan in serving}


def test_openings_hold_the_old_hole_and_let_the_screw_through(worked, skin, rules):
    for one in worked:
        if any(isinstance(wish, BackToFactory) for wish in one.wanted.wishes):
            continue
        for fitting in one.scheme.layout.standing:
            serving = one.serving(fitting) if fitting.status == "new" else []
            for plan in serving:
                _opening_serves(plan, fitting, one, skin, rules)


def _opening_serves(plan: HolePlan, fitting: FittingPlan, one: Worked, skin, rules) -> None:
    girth = one.girth_mm
    seat, want = min(
        one.seats(fitting),
        key=lambda pair: math.hypot(*skin.off(plan.place, pair[0], girth_mm=girth)),
    )
    along, down = skin.off(plan.place, seat, girth_mm=girth)
    if plan.verdict.drills:
        assert math.hypot(along, down) < 1e-6
        assert plan.new == Round(want.hole_mm)
        return
    # A slotted part takes the screw anywhere along its travel.
    along = math.copysign(max(0.0, abs(along) - want.slot_along_mm / 2), along)
    down = math.copysign(max(0.0, abs(down) - want.slot_down_mm / 2), down)
    off = math.hypot(along, down)
    screw = skin.hole(Round(want.screw_mm - 1e-6))
    x, y = skin.off(plan.new_place or plan.place, plan.place, girth_mm=girth)
    opening = skin.affinity.translate(skin.hole(plan.new), x, y)
    old = skin.hole(plan.old)
    assert skin.holds(opening, old)
    assert plan.off_mm == pytest.approx(off, abs=1e-6) or plan.verdict is Verdict.KEEP
    there = skin.affinity.translate(screw, -along, -down)
    if plan.verdict is not Verdict.KEEP or isinstance(plan.old, Round):
        assert skin.holds(opening, there)
    if plan.verdict is Verdict.ENLARGE:
        assert off <= rules.enlarge_mm + 1e-6
        assert skin.holds(
            opening, skin.affinity.translate(skin.hole(Round(want.hole_mm)), -along, -down)
        )
        if isinstance(plan.old, Round):
            both = off + (plan.old.diameter_mm + want.hole_mm) / 2
            size = max(plan.old.diameter_mm, want.hole_mm, both)
            assert plan.new.diameter_mm == pytest.approx(size, abs=1e-6)
    if plan.verdict is Verdict.SLOT:
        assert off <= rules.slot_mm + 1e-6
        if isinstance(plan.old, Round):
            assert plan.new.size_mm == pytest.approx((want.hole_mm + off, want.hole_mm), abs=1e-6)


def test_plugs_fill_their_holes_and_leave_wood_round_what_is_drilled_in_them(worked, skin, rules):
    for one in worked:
        for plan in one.scheme.layout.holes:
            if plan.verdict is not Verdict.PLUG and plan.verdict is not Verdict.PLUG_AND_DRILL:
                continue
            plug = skin.laid(
                skin.hole(Round(plan.plug_mm)),
                plan.plug_place or plan.place,
                plan.place,
                girth_mm=one.girth_mm,
            )
            if plan.verdict is Verdict.PLUG:
                assert skin.holds(plug, skin.hole(plan.old))
                continue
            assert plan.through
            assert skin.holds(plug, skin.hole(plan.new).buffer(rules.plug_web_mm))
            assert plan.plug_mm >= rules.plug_factor * max(plan.new.size_mm)
            for number in plan.through:
                old = one.holes[number]
                assert old.verdict is Verdict.PLUG
                assert (old.plug_mm, old.plug_place) == (plan.plug_mm, plan.plug_place)


def test_what_is_not_stopped_keeps_to_the_rules_of_wood(worked, skin, rules):
    for one in worked:
        if one.scheme.stopped:
            continue
        depth = one.scheme.layout.flat.depth_mm
        radius = one.girth_mm / 2 / math.pi
        bore = (radius - one.scheme.layout.flat.wall_mm) / radius
        for plan in one.open_after:
            at, high = plan.new_place or plan.place, plan.new.size_mm[1]
            edge = min(at.down_mm, depth - at.down_mm) - high / 2
            assert not plan.verdict.cuts or edge >= rules.edge_mm - SAW - PRINTS_ALIKE_MM
        for plan, other in combinations(one.open_after, 2):
            cut = plan.verdict.cuts or other.verdict.cuts
            if not cut or (plan.of and plan.of == other.of):
                continue
            x, y = skin.off(
                other.new_place or other.place, plan.new_place or plan.place, girth_mm=one.girth_mm
            )
            if math.hypot(x, y) > 80.0:
                continue
            need = max(rules.web_mm, min(plan.new.around_mm, other.new.around_mm))
            for drawn in (1.0, bore):
                beside = skin.affinity.translate(skin.hole(other.new), x * drawn, y)
                web = beside.distance(skin.hole(plan.new))
                assert web >= need - SAW - PRINTS_ALIKE_MM


def test_what_is_not_stopped_has_no_new_base_over_another(worked, skin):
    for one in worked:
        bases = [plan for plan in one.scheme.layout.standing if plan.outline is not None]
        for plan, other in combinations(bases, 2):
            if one.scheme.stopped or "new" not in (plan.status, other.status):
                continue
            there = skin.laid(
                skin.base(other.outline), other.place, plan.place, girth_mm=one.girth_mm
            )
            assert skin.base(plan.outline).buffer(-SAW).intersection(there).area < 0.5
