"""Places where a search for the best pose goes wrong first; expected values by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from counterhoop.scheme.reuse import (
    Barred,
    BarredDrill,
    Limits,
    NoRoom,
    OldHole,
    Reuse,
    Tier,
    WantedFitting,
    WantedGroup,
    WantedHole,
    WantedRow,
    Weights,
    Window,
    best_reuse,
    reuse_at,
)

GIRTH = 1000.0
LIMITS = Limits(keep_mm=0.8, enlarge_mm=2.0, slot_mm=4.0)
ONLY_KEEP = Limits(keep_mm=0.8, enlarge_mm=0.0, slot_mm=0.0)


def want(right_mm: float = 0.0, down_mm: float = 0.0, **changes: float) -> WantedHole:
    return WantedHole(
        **{"right_mm": right_mm, "down_mm": down_mm, "hole_mm": 7.0, "screw_mm": 5.0, **changes}
    )


def hole(number: int, along_mm: float, down_mm: float, diameter_mm: float = 7.0) -> OldHole:
    return OldHole(number=number, along_mm=along_mm, down_mm=down_mm, diameter_mm=diameter_mm)


def one_lug(*holes: WantedHole, **more: Any) -> WantedRow:
    return WantedRow(holes=holes, count=1, girth_mm=GIRTH, **more)


def about(turn_mm: float, down_mm: float, half_mm: float) -> Window:
    return Window(
        turn_min_mm=turn_mm - half_mm,
        turn_max_mm=turn_mm + half_mm,
        down_min_mm=down_mm - half_mm,
        down_max_mm=down_mm + half_mm,
    )


def solve(wanted: Any, old: list[OldHole], **more: Any) -> Reuse:
    given = {"window": about(0, 50, 10), "ideal": (0.0, 50.0), "limits": LIMITS, **more}
    found = best_reuse(wanted, old, **given)
    assert isinstance(found, Reuse)
    return found


def square(x: float, y: float, half: float) -> tuple[tuple[float, float], ...]:
    return ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))


def test_a_window_inside_one_region_leaves_the_row_on_its_ideal() -> None:
    found = solve(one_lug(want()), [hole(1, 0.1, 50.1)], window=about(0, 50, 0.2))
    assert (found.kept, found.turn_mm, found.down_mm) == (1, 0.0, 50.0)
    assert found.matches[0].off_along_mm == pytest.approx(0.1)
    assert found.matches[0].off_down_mm == pytest.approx(0.1)


def test_nothing_to_reuse_leaves_the_row_on_its_ideal() -> None:
    found = solve(one_lug(want()), [])
    assert (found.value, found.turn_mm, found.down_mm, found.matches) == (0, 0.0, 50.0, ())


def test_two_discs_that_only_touch() -> None:
    # the row has to stand where both holes are exactly at the limit, 0.8 off, one each way
    row = one_lug(want(), want(down_mm=20))
    found = solve(row, [hole(1, 1.3, 50), hole(2, 2.9, 70)], limits=ONLY_KEEP)
    assert found.kept == 2
    assert found.turn_mm == pytest.approx(2.1, abs=1e-7)
    assert found.down_mm == pytest.approx(50.0, abs=1e-4)
    apart = solve(row, [hole(1, 1.3, 50), hole(2, 2.901, 70)], limits=ONLY_KEEP)
    assert apart.kept == 1


def test_one_old_hole_serves_once() -> None:
    row = WantedGroup(
        fittings=(
            WantedFitting(along_mm=0.0, holes=(want(), want(down_mm=30))),
            WantedFitting(along_mm=3.0, holes=(want(),)),
        ),
        girth_mm=GIRTH,
    )
    found = solve(row, [hole(1, 1.5, 50)])
    assert found.used == 1


def test_coincident_old_holes_serve_two_wanted_ones() -> None:
    # one hole drilled twice is listed twice: it may serve two wanted holes by its two numbers
    row = WantedGroup(
        fittings=tuple(WantedFitting(along_mm=x, holes=(want(),)) for x in (0.0, 1.0)),
        girth_mm=GIRTH,
    )
    found = solve(row, [hole(1, 0.5, 50), hole(2, 0.5, 50)])
    assert {m.number for m in found.matches} == {1, 2}
    assert found.kept == 2


def test_across_the_datum() -> None:
    # old holes 0.3 before and 0.3 past the datum; wanted 0.6 apart about it
    row = WantedGroup(
        fittings=tuple(WantedFitting(along_mm=x, holes=(want(),)) for x in (-20.0, 20.0)),
        girth_mm=GIRTH,
    )
    old = [hole(1, GIRTH - 20.1, 50), hole(2, 19.9, 50)]
    for turn in (0.0, GIRTH, -GIRTH):
        found = solve(row, old, window=about(turn, 50, 5), ideal=(-0.1, 50.0))
        assert found.kept == 2
        assert found.turn_mm == pytest.approx(turn - 0.1)
        assert found.from_ideal_mm == pytest.approx(0.0, abs=1e-9)
        assert found.misfit_mm2 == pytest.approx(0.0, abs=1e-9)


def test_a_window_once_round_finds_the_same_as_three_times_round() -> None:
    row = WantedRow(holes=(want(),), count=8, girth_mm=GIRTH)
    old = [hole(i, i * GIRTH / 8 + 40.0 + 0.3 * (i % 2), 50) for i in range(8)]
    for low, high in ((0.0, 125.0), (-62.5, 62.5), (0.0, 375.0), (-500.0, 500.0)):
        window = Window(turn_min_mm=low, turn_max_mm=high, down_min_mm=50, down_max_mm=50)
        found = solve(row, old, window=window)
        assert found.kept == 8
        assert low <= found.turn_mm <= high
        assert found.from_ideal_mm == pytest.approx(40.3 - 0.8)


def test_a_named_fitting_ends_the_sameness_of_a_row() -> None:
    # lug 0 may not stand at 0 to 500: the row has to be turned half round
    row = WantedRow(holes=(want(),), count=4, girth_mm=GIRTH)
    old = [hole(i, i * 250.0, 50) for i in range(4)]
    bar = Barred(points=((-10, 0), (260, 0), (260, 100), (-10, 100)), lug=0)
    window = Window(turn_min_mm=0, turn_max_mm=1000, down_min_mm=50, down_max_mm=50)
    found = solve(row, old, window=window, barred=(bar,))
    assert found.kept == 4
    assert 499 < found.turn_mm < 751
    assert {m.number for m in found.matches if m.lug == 0} <= {2, 3}
    none = best_reuse(
        row, old, window=window, ideal=(0, 50), limits=LIMITS, barred=(replace(bar, lug=None),)
    )
    assert isinstance(none, NoRoom)


def test_a_ring_that_crosses_nothing() -> None:
    # the second hole may not be drilled within 0.5 of its place when the first fits perfectly;
    # the ideal is the very centre, so no point of the circles is any nearer than another
    row = one_lug(want(), want(down_mm=20))
    bar = BarredDrill(along_mm=0, down_mm=70, radius_mm=0.5, hole=1)
    found = solve(row, [hole(1, 0, 50)], limits=ONLY_KEEP, barred_drill=(bar,))
    assert found.kept == 1
    assert found.from_ideal_mm == pytest.approx(0.5)


def test_a_ring_left_by_a_bar_inside_a_disc() -> None:
    found = solve(
        one_lug(want()),
        [hole(1, 0, 50)],
        limits=ONLY_KEEP,
        barred=(Barred(points=square(0, 50, 0.3)),),
    )
    assert found.kept == 1
    assert found.from_ideal_mm == pytest.approx(0.3)


def test_a_bar_is_open_and_a_free_place_inside_it_counts() -> None:
    outer = square(0, 50, 40)
    walled = {"window": about(0, 50, 30), "limits": ONLY_KEEP, "ideal": (9.0, 50.0)}
    nowhere = best_reuse(
        one_lug(want()), [hole(1, 0, 50)], barred=(Barred(points=outer),), **walled
    )
    assert isinstance(nowhere, NoRoom)
    yard = Barred(points=outer, holes=(square(0, 50, 0.2),))
    found = solve(one_lug(want()), [hole(1, 0, 50)], barred=(yard,), **walled)
    assert found.kept == 1
    assert (found.turn_mm, found.down_mm) == pytest.approx((0.2, 50.0))
    # no width at all: two bars leave a line
    left = Barred(points=((-40, 0), (0.1, 0), (0.1, 100), (-40, 100)))
    right = Barred(points=((0.1, 0), (40, 0), (40, 100), (0.1, 100)))
    found = solve(one_lug(want()), [hole(1, 0, 50)], barred=(left, right), **walled)
    assert found.turn_mm == pytest.approx(0.1)


def test_windows_of_no_width() -> None:
    row, old = one_lug(want()), [hole(1, 1.0, 50.6)]
    level = Window(turn_min_mm=-5, turn_max_mm=5, down_min_mm=50, down_max_mm=50)
    assert solve(row, old, window=level, limits=ONLY_KEEP).turn_mm == pytest.approx(
        1.0 - math.sqrt(0.8**2 - 0.6**2)
    )
    upright = Window(turn_min_mm=1.8, turn_max_mm=1.8, down_min_mm=40, down_max_mm=60)
    found = solve(row, old, window=upright, limits=ONLY_KEEP)
    assert (found.kept, found.down_mm) == (1, pytest.approx(50.6))
    point = about(1.0, 51.4, 0.0)
    assert solve(row, old, window=point, limits=ONLY_KEEP).kept == 1
    assert solve(row, old, window=about(1.0, 51.401, 0.0), limits=ONLY_KEEP).kept == 0


def test_the_play_of_the_screw_is_the_true_limit() -> None:
    # a 6 mm hole on a 5.4 mm screw lets it lie 0.3 off, whatever keep_mm says
    for off, kept in ((0.3, 1), (0.301, 0)):
        found = solve(one_lug(want(screw_mm=5.4)), [hole(1, off, 50, 6.0)], window=about(0, 50, 0))
        assert found.kept == kept
    tight = solve(one_lug(want(screw_mm=5.4)), [hole(1, 0.0, 50, 5.0)], window=about(0, 50, 0))
    assert tight.matches[0].tier is Tier.ENLARGE


def test_openings_are_sized_to_hold_both_holes() -> None:
    spot = {"window": about(0, 50, 0)}
    small = solve(one_lug(want()), [hole(1, 1.5, 50, 5.0)], **spot).matches[0]
    assert (small.tier, small.width_mm) == (Tier.ENLARGE, 1.5 + 6.0)
    large = solve(one_lug(want()), [hole(1, 1.5, 50, 12.0)], **spot).matches[0]
    assert (large.tier, large.width_mm) == (Tier.ENLARGE, 12.0)
    row = one_lug(want(), want(down_mm=20))
    slot = solve(row, [hole(1, -3.0, 50, 5.0), hole(2, 0, 70)], **spot).matches[0]
    assert (slot.tier, slot.width_mm, slot.length_mm) == (Tier.SLOT, 7.0, 10.0)
    assert slot.off_along_mm == -3.0


def test_a_slot_runs_along_the_shell() -> None:
    row = one_lug(want(), want(down_mm=20))
    # off down: a slot of 7 has (7 - 5) / 2 of play for the screw and (7 - 7) / 2 for the old
    # hole, but no more than keep_mm
    for down, used in ((0.8, 2), (0.81, 1)):
        old = [hole(1, 3.0, 50 + down), hole(2, 0, 70)]
        assert solve(row, old, window=about(0, 50, 0)).used == used
        free = replace(LIMITS, lengthways=True)
        assert solve(row, old, window=about(0, 50, 0), limits=free).used == 2
    # an old hole wider than the slot would show beside it
    assert solve(row, [hole(1, 3.0, 50, 7.1), hole(2, 0, 70)], window=about(0, 50, 0)).used == 1


def test_a_fitting_never_hangs_in_slots_alone() -> None:
    spot = {"window": about(0, 50, 0)}
    assert solve(one_lug(want()), [hole(1, 3, 50)], **spot).used == 0
    row = one_lug(want(), want(down_mm=20))
    both = [hole(1, 3.0, 50), hole(2, 2.5, 70)]
    found = solve(row, both, **spot)
    assert [m.number for m in found.matches] == [2]
    assert solve(row, both, limits=replace(LIMITS, bush=True), **spot).slotted == 2


def test_where_it_may_not_be_drilled_it_must_be_served() -> None:
    row = one_lug(want(), want(down_mm=20))
    stays = BarredDrill(along_mm=0, down_mm=73, radius_mm=6)
    spot = {"window": about(0, 50, 0), "barred_drill": (stays,)}
    assert solve(row, [hole(1, 0, 70)], **spot).used == 1
    none = best_reuse(row, [hole(1, 0, 50)], ideal=(0, 50), limits=LIMITS, **spot)
    assert isinstance(none, NoRoom)
    # both could only be slotted, and the upper one may not be given up: the lower one is
    upper = BarredDrill(along_mm=0, down_mm=50, radius_mm=2, lug=0, hole=0)
    found = solve(
        row, [hole(1, 3, 50), hole(2, 2.5, 70)], window=about(0, 50, 0), barred_drill=(upper,)
    )
    assert [m.number for m in found.matches] == [1]


def test_slotted_parts_and_long_old_holes_take_up_misfit() -> None:
    spot = {"window": about(0, 50, 0), "limits": ONLY_KEEP}
    part = one_lug(want(slot_along_mm=4.0))
    assert solve(part, [hole(1, 2.8, 50)], **spot).kept == 1
    assert solve(part, [hole(1, 2.81, 50)], **spot).kept == 0
    assert solve(part, [hole(1, 0, 50.81)], **spot).kept == 0
    long = OldHole(number=1, along_mm=0, down_mm=53.3, diameter_mm=7, longer_down_mm=5.0)
    kept = solve(one_lug(want()), [long], **spot).matches[0]
    assert (kept.width_mm, kept.length_mm) == (7.0, 12.0)
    assert kept.off_down_mm == pytest.approx(0.8)
    assert solve(one_lug(want()), [replace(long, down_mm=53.31)], **spot).kept == 0


def test_a_base_limits_the_opening() -> None:
    # base 14 wide: a slot of 6 for 3.0 off reaches 6.0 from the middle and 1.0 is left hidden
    spot = {"window": about(0, 50, 0)}
    for half, used in ((7.0, 2), (6.99, 1)):
        base = ((-half, -30.0), (half, -30.0), (half, 60.0), (-half, 60.0))
        row = one_lug(want(hole_mm=6.0), want(down_mm=20, hole_mm=6.0), base=base)
        assert solve(row, [hole(1, -3.0, 50, 6.0), hole(2, 0, 70, 6.0)], **spot).used == used
    base = ((-3.4, -30.0), (3.4, -30.0), (3.4, 60.0), (-3.4, 60.0))
    assert solve(one_lug(want(), base=base), [hole(1, 0, 50, 6.0)], **spot).kept == 1
    assert solve(one_lug(want(), base=base), [hole(1, 0, 50, 6.9)], **spot).kept == 0
    washer = one_lug(want(washer_mm=12.0), base=base)
    assert solve(washer, [hole(1, 0, 50, 6.9)], **spot).kept == 1


def test_ties_go_to_the_ideal_then_to_the_better_fit() -> None:
    # either hole could be kept; the one on the right is nearer to the ideal
    found = solve(one_lug(want()), [hole(1, -3, 50), hole(2, 2.5, 50)], limits=ONLY_KEEP)
    assert found.matches[0].number == 2
    assert found.from_ideal_mm == pytest.approx(1.7)
    # both hold the ideal; the one that fits better serves
    found = solve(one_lug(want()), [hole(1, -0.3, 50), hole(2, 0.2, 50)], limits=ONLY_KEEP)
    assert found.matches[0].number == 2
    assert found.turn_mm == 0.0


def test_more_then_better() -> None:
    # two slots beside a kept hole are worth more than one hole kept and one enlarged
    row = one_lug(want(), want(down_mm=20), want(down_mm=40))
    old = [hole(1, 0, 50), hole(2, 3, 70), hole(3, 3, 90)]
    few = [hole(1, 0, 50), hole(2, 1.5, 70)]
    spot = {"window": about(0, 50, 0)}
    assert solve(row, old, **spot).value > solve(row, few, **spot).value
    w = Weights.more_then_better(3)
    assert 2 * w.slot > w.keep
    assert w.enlarge + 2 * w.slot > w.keep + w.enlarge


def test_any_pose_can_be_asked() -> None:
    row, old = one_lug(want()), [hole(1, 0.5, 50)]
    bar = Barred(points=square(0, 50, 1))
    found = reuse_at(row, old, turn_mm=0, down_mm=50, limits=LIMITS, barred=(bar,))
    assert (found.kept, found.free, found.proven, found.candidates) == (1, False, False, 1)
    away = reuse_at(row, old, turn_mm=400, down_mm=50, limits=LIMITS, ideal=(-500.0, 50.0))
    assert (away.value, away.free, away.from_ideal_mm) == (0, True, 100.0)
    stays = BarredDrill(along_mm=300, down_mm=50, radius_mm=1)
    stuck = reuse_at(row, old, turn_mm=300, down_mm=50, limits=LIMITS, barred_drill=(stays,))
    assert (stuck.value, stuck.free) == (0, False)
