"""What may come off an edge: by hand, and by lowering the edge until the checks speak.

The second is brute force: the layout with so much more taken off is held against all checks.
"""

from __future__ import annotations

from dataclasses import replace
from types import ModuleType
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.flat import Ring
from counterhoop.development.truing import Removal, Truing
from counterhoop.scheme.budget import Budget, budgets
from counterhoop.scheme.findings import look_over
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.shop_rules import ShopRules, default_rules

STOPS = {
    "hole-near-edge", "edge-through-hole", "ring-narrow", "hoop-near-lug", "hoop-on-lug",
    "hoop-meets-fitting", "rod-bottoms", "shank-meets-lug", "long-lug-off-middle",
}  # fmt: skip
PRINTS_ALIKE_MM = 0.05
"""The checks speak only of what prints as past its limit."""


def lowered(layout: Layout, end: str, off_mm: float) -> Layout:
    """The same layout with that much more off one end, all round."""
    up = off_mm if end == "batter" else 0.0
    cut = getattr(layout.truing, end)
    truing = replace(layout.truing, **{end: Removal(cut.mean_mm + off_mm, cut.cos_mm, cut.sin_mm)})

    def moved(place: Any) -> Any:
        return None if place is None else replace(place, down_mm=place.down_mm - up)

    return replace(
        layout,
        truing=truing,
        finish=replace(layout.finish, truing=truing),
        flat=replace(
            layout.flat,
            depth_mm=layout.flat.depth_mm - off_mm,
            after_truing=True,
            rings=tuple(
                replace(r, wide_mm=r.wide_mm - off_mm) if r.end == end else r
                for r in layout.flat.rings
            ),
        ),
        holes=tuple(
            replace(
                h,
                place=moved(h.place),
                new_place=moved(h.new_place),
                plug_place=moved(h.plug_place),
            )
            for h in layout.holes
        ),
        fittings=tuple(replace(f, place=moved(f.place)) for f in layout.fittings),
    )


def said(layout: Layout, rules: ShopRules, *, sure: bool = False) -> set[tuple[str, str]]:
    """What the checks say of these; ``sure``: without what is only too close to call."""
    found = look_over(layout, rules=rules).findings
    return {(f.code, f.where) for f in found if f.code in STOPS and not (sure and f.too_close)}


def only(found: tuple[Budget, ...], end: str) -> Budget:
    return next(b for b in found if b.end == end)


def full(shells: ModuleType, **changes: Any) -> Layout:
    """Six lugs, a hoop, rods of 42, a ring and an old hole near the batter edge."""
    given_ = {"down_mm": 62.0, "hole_mm": 30.0, "ring_mm": 20.0, "bracket_mm": 100.0, **changes}
    ring = Ring(end="batter", wide_mm=given_["ring_mm"], thick_mm=5.0)
    truing = Truing(batter=Removal(1.0, given_.get("cos_mm", 0.0), 0.0))
    s = shells.Shell(truing=truing, rings=(replace(ring, wide_cos_mm=-truing.batter.cos_mm),))
    s.drum = replace(s.drum, rings=(replace(ring, wide_mm=given_["ring_mm"] + 1.0),))
    s.flat = replace(s.flat, depth_cos_mm=-truing.batter.cos_mm)
    s.row(down_mm=given_["down_mm"])
    s.fit(shells.BLOCK, 30.0, given_["bracket_mm"], label="bracket")
    s.old(15.0, given_["hole_mm"], verdict=given_.get("verdict", Verdict.KEEP), doubt_mm=0.0)
    return s.layout(hoops=(shells.hoop(),), rods=(shells.rods(),))


def test_by_hand(shells: ModuleType, rules: ShopRules) -> None:
    """Hole of 6 at 30: 27 to the edge, less 12 is 15. Mouths at 62 - 28.5 = 33.5, less hoop 12,
    stretch 3 and 5 below it: 13.5. Rods of 42: 1.5 of washer, 33.5 - 7 to the mouth, 30 of free
    depth less 5: 53.0, so 11.0. Their shank of 14: 1.5 + 26.5 - 3 - 14 = 11.0 too. Ring 20 - 6.
    Bracket at 100 - 19.05: 80.95 - 15 = 65.95."""
    [batter, resonant] = budgets(full(shells), rules=rules)
    assert batter.end == "batter"
    assert batter.most_mm == pytest.approx(11.0)
    assert batter.stopped_by.startswith("the batter rods of 42 mm")
    assert [round(mm, 3) for _, mm in batter.limits[:5]] == [11.0, 11.0, 13.5, 14.0, 15.0]
    assert "hole 14: 12.0 mm of wood to the edge is your rule" in dict(batter.limits)
    assert batter.limits[2][0] == "batter lug 1 and 5 more: the hoop at full travel"
    assert ("the bracket: the hoop comes down on it", pytest.approx(65.95)) in batter.limits
    # Off the other end there are no lugs: the lower holes of the lugs at 83 stand 200 - 86 away.
    assert resonant.most_mm == pytest.approx(200.0 - 103.0 - 12.0)
    assert resonant.stopped_by.startswith("hole 13")


def test_without_a_hoop_the_budget_says_what_it_leaves_out(
    shells: ModuleType, rules: ShopRules
) -> None:
    """No hoop: rods and travel are out, so the ring stops it at 14; and that is said."""
    layout = full(shells)
    [batter, resonant] = budgets(replace(layout, hoops=(), rods=()), rules=rules)
    assert batter.most_mm == pytest.approx(14.0)
    assert "no hoop is known" in batter.not_counted
    assert resonant.not_counted == ""  # no lugs at that end
    assert only(budgets(layout, rules=rules), "batter").not_counted == ""


def test_what_is_past_its_limit_before_is_told_apart(shells: ModuleType, rules: ShopRules) -> None:
    """A hole with 7.0 to the edge is nearer than the rule already; the edge may come to it."""
    batter = only(budgets(full(shells, hole_mm=10.0), rules=rules), "batter")
    assert batter.most_mm == pytest.approx(7.0)
    assert batter.stopped_by == "hole 14: the edge runs through"
    assert batter.already == ("hole 14: 12.0 mm of wood to the edge is your rule",)


def test_a_slanting_cut_counts_where_it_left_least(shells: ModuleType, rules: ShopRules) -> None:
    """The ring is 20 wide on the mean and has lost 10 more at the datum: 10 less 6 is 4."""
    batter = only(budgets(full(shells, cos_mm=10.0), rules=rules), "batter")
    assert batter.most_mm == pytest.approx(4.0)
    assert batter.stopped_by.startswith("the ring")


def test_nothing_on_the_shell_stops_nothing(shells: ModuleType, rules: ShopRules) -> None:
    assert budgets(shells.Shell().layout(), rules=rules) == ()


@pytest.mark.parametrize("below_mm", [-1.0, 0.0, 1.0])
@pytest.mark.parametrize("end", ["batter", "resonant"])
def test_long_lugs_leave_the_middle_by_half_of_what_comes_off(
    shells: ModuleType, rules: ShopRules, end: str, below_mm: float
) -> None:
    """1.5 off the middle is the rule; 1.0 of it may be used up, to either side."""
    s = shells.Shell()
    s.row(shells.LONG, head="both", down_mm=100.0 + below_mm, status="new")
    limits = dict(only(budgets(s.layout(), rules=rules), end).limits)
    toward = below_mm if end == "batter" else -below_mm
    [mm] = [mm for what, mm in limits.items() if "off the middle" in what]
    assert mm == pytest.approx(2.0 * (1.5 + toward))


@given(
    down=st.floats(45.0, 80.0),
    hole=st.floats(4.0, 60.0),
    ring=st.floats(2.0, 40.0),
    bracket=st.floats(40.0, 120.0),
    cos=st.sampled_from([0.0, 1.5]),
    verdict=st.sampled_from([Verdict.KEEP, Verdict.PLUG]),
    end=st.sampled_from(["batter", "resonant"]),
)
def test_the_checks_speak_just_beyond_the_budget_and_not_before(
    shells: ModuleType, down: float, hole: float, ring: float, bracket: float, cos: float,
    verdict: Verdict, end: str,
) -> None:  # fmt: skip
    rules = default_rules()
    layout = full(
        shells, down_mm=down, hole_mm=hole, ring_mm=ring, bracket_mm=bracket, cos_mm=cos,
        verdict=verdict,
    )  # fmt: skip
    before = said(layout, rules)
    budget = only(budgets(layout, rules=rules), end)
    inside = said(lowered(layout, end, max(budget.most_mm - 0.01, 0.0)), rules, sure=True)
    assert inside <= before
    over = said(lowered(layout, end, budget.most_mm + PRINTS_ALIKE_MM + 0.01), rules)
    assert over - before


def test_a_ring_left_narrow_is_said_however_much_comes_off(
    shells: ModuleType, rules: ShopRules
) -> None:
    """At 20 mm a cut becomes an offcut; the 5 mm of ring that it leaves are as narrow as before."""
    for off in (19.0, 19.1, 21.0):
        found = said(lowered(full(shells, ring_mm=off + 5.0), "batter", off), rules)
        assert ("ring-narrow", "batter ring") in found


def test_a_budget_that_says_too_much_would_be_caught(shells: ModuleType, rules: ShopRules) -> None:
    """The comparison above can fail: with 1.0 more than the budget the checks have spoken."""
    layout = full(shells)
    budget = only(budgets(layout, rules=rules), "batter")
    assert said(lowered(layout, "batter", budget.most_mm + 1.0), rules) - said(layout, rules)
