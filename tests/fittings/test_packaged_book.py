"""The packaged book: one of everything, held against geometry, standards and common practice."""

from __future__ import annotations

import math

import pytest

from counterhoop.fittings.choose import hoop_for, long_lugs_for, nearest_rod, rods, suits_mm
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.fittings.read_book import packaged_book
from counterhoop.standards.threads import find_thread

BOOK = packaged_book()
LUGS = BOOK.of_kind(Kind.LUG, Kind.LONG_LUG)
LONG_LUGS = BOOK.of_kind(Kind.LONG_LUG)
MOUNTED = tuple(entry for entry in BOOK if entry.holes)
# The stack between a hoop and a lug (common practice, no source): see the shop rules.
ENGAGED_MM, BOTTOM_CLEAR_MM = 10.0, 5.0


def by_name(entry: Fitting) -> str:
    return entry.name


def test_there_is_one_of_every_kind() -> None:
    assert {entry.kind for entry in BOOK} == set(Kind)


def test_every_entry_says_that_it_is_invented() -> None:
    assert {entry.source for entry in BOOK} == {"invented for the demonstration"}
    assert {entry.currency for entry in BOOK} == {"GBP"}


def test_there_are_lugs_for_every_case() -> None:
    assert len(LUGS) >= 6
    assert any(lug.swivel for lug in LUGS)
    assert any(not lug.swivel for lug in LUGS)
    assert any(hole.slot_down_mm or hole.slot_along_mm for lug in LUGS for hole in lug.holes)
    near_middle = [lug for lug in LONG_LUGS if all(abs(h.down_mm) < 20 for h in lug.holes)]
    near_ends = [lug for lug in LONG_LUGS if any(abs(h.down_mm) > 40 for h in lug.holes)]
    assert near_middle
    assert near_ends


def test_hoops_of_three_sorts_for_every_size_and_number_of_ears() -> None:
    hoops = BOOK.of_kind(Kind.HOOP)
    assert {hoop.hoop_kind for hoop in hoops} == {"flanged", "die-cast", "wood"}
    assert {hoop.ears for hoop in hoops} == {5, 6, 8, 10, None}
    for inches in (10, 12, 13, 14, 16, 18, 20, 22):
        assert any(hoop_for(BOOK, nominal_mm=inches * 25.4, ears=n) for n in (5, 6, 8, 10)), inches


# A 12 in tom is about 200 mm from bearing edge to bearing edge, a 13 in about 220: common practice,
# no source.
@pytest.mark.parametrize("depth_mm", [200.0, 220.0])
def test_long_lugs_for_the_usual_toms_stand_clear_of_the_hoop(depth_mm: float) -> None:
    suitable = long_lugs_for(BOOK, depth_mm=depth_mm)
    assert len({lug.family for lug in suitable}) >= 2
    for lug in suitable:
        assert lug.span_mm is not None
        from_edge = (depth_mm - lug.span_mm) / 2.0
        hoop = hoop_for(BOOK, nominal_mm=304.8, ears=6)
        assert hoop is not None
        assert hoop.below_edge_mm is not None
        # 5 mm below the hoop's lowest part and 3 mm for the head's stretch: common practice.
        assert from_edge >= hoop.below_edge_mm + 5.0 + 3.0


def test_the_long_lug_for_220_is_not_the_one_for_200() -> None:
    for family in {lug.family for lug in long_lugs_for(BOOK, depth_mm=200.0)}:
        short, long = (
            {lug.name for lug in long_lugs_for(BOOK, depth_mm=d) if lug.family == family}
            for d in (200.0, 220.0)
        )
        assert short
        assert long
        assert not short & long


# A long lug on the middle of such a depth that lands a few millimetres from an old hole gets new
# holes, its base covering plug, old holes and shadow: common practice, no source. Here the old
# holes are those of a row 41.0 from the edge.
def test_a_long_lug_lands_near_an_old_hole_and_covers_the_old_lug() -> None:
    old = BOOK.find("Corvane round lug")
    new = BOOK.find("Corvane round long lug 134")
    old_place, middle = 41.0 + 21.0, 100.0
    apart = min(
        abs(old_place + a.down_mm - middle - b.down_mm) for a in old.holes for b in new.holes
    )
    assert 4.0 < apart < 6.0
    assert old.base is not None
    assert new.base is not None
    _, old_top, _, old_bottom = old.base.bounds_mm
    _, new_top, _, new_bottom = new.base.bounds_mm
    assert new_top + middle <= old_top + old_place
    assert new_bottom + middle >= old_bottom + old_place
    assert old.base.bounds_mm[2] == new.base.bounds_mm[2]


# A large bracket adds 2.5 to 3 in to a drum's width: common practice, no source.
def test_a_large_bracket_adds_to_the_drums_width() -> None:
    assert 2.5 * 25.4 <= BOOK.find("Hallmere large bracket").reach_mm <= 3.0 * 25.4
    assert BOOK.find("Corvane block bracket").reach_mm < 2.0 * 25.4


def test_the_block_bracket_measures_two_by_one_and_a_half_inches() -> None:
    base = BOOK.find("Corvane block bracket").base
    assert base is not None
    left, top, right, bottom = base.bounds_mm
    assert (right - left, bottom - top) == pytest.approx((50.8, 38.1))
    assert len(BOOK.find("Corvane block bracket").holes) == 4


@pytest.mark.parametrize("lug", LUGS, ids=by_name)
def test_every_lug_finds_a_rod_in_the_book(lug: Fitting) -> None:
    """On a tom or snare the mouth 33 mm below the edge and the seat 7; on a bass drum 60 and 6."""
    bass = "bass" in lug.name
    free_mm = (60.0 - 6.0 if bass else 33.0 - 7.0) + 1.5
    assert lug.free_depth_mm is not None
    engaged_mm = max(ENGAGED_MM, 1.5 * find_thread(lug.thread).major_mm)
    rod = nearest_rod(
        BOOK,
        least_mm=free_mm + engaged_mm,
        most_mm=free_mm + lug.free_depth_mm - BOTTOM_CLEAR_MM,
        thread=lug.thread,
        kind=Kind.T_ROD if bass else Kind.ROD,
    )
    assert rod is not None
    assert rod.rod_length_mm is not None
    assert rod.thread_length_mm is not None
    # The shank stays out of the lug's thread.
    assert rod.rod_length_mm - rod.thread_length_mm <= free_mm


@pytest.mark.parametrize("entry", MOUNTED, ids=by_name)
def test_mounting_screws_hold_in_an_ordinary_wall(entry: Fitting) -> None:
    """Through 5 mm of shell: 1.5 diameters of thread, and short of the bottom."""
    if not entry.screw_thread:
        return
    assert entry.screw_length_mm is not None
    through_mm = 5.0 + entry.gasket_mm + entry.behind.washer_mm
    if entry.screw_depth_mm is None:
        assert entry.behind.nut_mm > 0.0
        assert entry.screw_length_mm >= through_mm + entry.behind.nut_mm
        return
    engaged_mm = entry.screw_length_mm - through_mm
    assert 1.5 * find_thread(entry.screw_thread).major_mm <= engaged_mm <= entry.screw_depth_mm


@pytest.mark.parametrize("entry", MOUNTED, ids=by_name)
def test_holes_leave_wood_between_them(entry: Fitting) -> None:
    # 6 mm of web, or the smaller diameter: common practice, no source.
    for i, a in enumerate(entry.holes):
        for b in entry.holes[:i]:
            apart = math.hypot(a.right_mm - b.right_mm, a.down_mm - b.down_mm)
            assert apart - (a.hole_mm + b.hole_mm) / 2 >= max(6.0, min(a.hole_mm, b.hole_mm))


def test_loose_parts_and_counterparts_are_in_the_book() -> None:
    for entry in BOOK:
        for name in entry.inserts:
            BOOK.find(name)
        if entry.opposite:
            assert BOOK.find(entry.opposite).kind is Kind.BUTT


def test_every_mounting_screw_is_in_the_book() -> None:
    screws = {(s.screw_thread, s.screw_length_mm) for s in BOOK.of_kind(Kind.SCREW)}
    used = {(e.screw_thread, e.screw_length_mm) for e in MOUNTED if e.screw_thread}
    assert used <= screws


def test_cover_plates_of_several_sizes_take_the_holes_of_brackets() -> None:
    plates = BOOK.of_kind(Kind.COVER_PLATE)
    assert len({plate.base for plate in plates}) >= 2
    patterns = {
        tuple((h.right_mm, h.down_mm, h.hole_mm) for h in bracket.holes)
        for bracket in BOOK.of_kind(Kind.BRACKET)
    }
    taken = [
        p for p in plates if tuple((h.right_mm, h.down_mm, h.hole_mm) for h in p.holes) in patterns
    ]
    assert len(taken) >= 2


def test_rods_run_from_32_to_110_millimetres() -> None:
    for thread in ("12-24", "7/32-24", "M6"):
        lengths = [rod.rod_length_mm for rod in rods(BOOK, thread=thread)]
        assert lengths[0] == 32.0
        assert lengths[-1] == 110.0
        assert lengths == sorted(lengths)


def test_what_a_long_lug_suits_holds_its_span() -> None:
    for lug in LONG_LUGS:
        least, most = suits_mm(lug)
        assert lug.span_mm is not None
        assert lug.span_mm < least < most


def test_the_ears_of_a_14_inch_hoop_stand_on_371_millimetres() -> None:
    # A trade figure, no source: the chord between 8 ears is then 141.98 mm.
    hoop = BOOK.find("flanged hoop 14 in, 8 ears")
    assert hoop.ear_circle_mm == pytest.approx(371.0)
    assert hoop.ear_circle_mm * math.sin(math.pi / 8) == pytest.approx(141.98, abs=0.01)
