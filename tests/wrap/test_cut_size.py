"""Cut sizes against plain geometry: a circle, its circumference, layers of a known thickness."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.wrap.cut_size import CutSize, cut_size


def size(girth_mm: float = 1115.0, **changes: object) -> CutSize:
    given_: dict[str, object] = {
        "depths_mm": [203.0],
        "thickness_mm": 0.5,
        "batter_clear_mm": 12.0,
        "resonant_clear_mm": 10.0,
    } | changes
    return cut_size([girth_mm], **given_)


def test_worked_by_hand() -> None:
    # A bare shell of 355.0 mm: pi x 355.5 = 1116.836; and 25 mm overlap.
    got = size(355.0 * math.pi)
    assert got.lengths_mm == pytest.approx((1141.836,), abs=5e-4)
    assert got.width_mm == 181.0
    assert got.diameter_mm == pytest.approx(356.0)
    assert got.across_overlap_mm == pytest.approx(356.5)


def test_a_butt_seam_does_not_thicken_the_shell() -> None:
    got = size(overlap_mm=0.0)
    assert got.across_overlap_mm == got.diameter_mm


def test_the_shortest_depth_and_the_longest_girth_decide() -> None:
    got = cut_size(
        [1115.0, 1113.5, 1114.0],
        depths_mm=[203.0, 201.5, 204.0],
        thickness_mm=0.5,
        batter_clear_mm=12.0,
        resonant_clear_mm=12.0,
    )
    assert got.width_mm == 177.5
    assert got.lengths_mm[0] == pytest.approx(1115.0 + math.pi * 0.5 + 25.0)
    assert got.loosest_overlap_mm == pytest.approx(26.5)


def test_a_drum_longer_than_the_sheet_gets_a_patch() -> None:
    # 22 in bass drum, girth 1755: one turn 1756.571, sheet 1400, overlap 25:
    # the main piece is the whole sheet, the patch 1756.571 + 2 x 25 - 1400 = 406.571.
    got = size(1755.0, sheet_length_mm=1400.0)
    assert got.lengths_mm == pytest.approx((1400.0, 406.571), abs=5e-4)


def test_both_seams_on_lines_of_lugs() -> None:
    # Eight lugs: spacing 219.571; the patch has to span at least 381.571, so two spacings.
    got = size(1755.0, sheet_length_mm=1400.0, lugs=8)
    assert got.patch_arc_mm == pytest.approx(2 * 1756.5708 / 8, abs=1e-3)
    assert got.lengths_mm[1] == pytest.approx(439.1427 + 25.0, abs=1e-3)


def test_a_patch_is_never_a_sliver() -> None:
    got = size(1380.0, sheet_length_mm=1400.0)
    assert min(got.lengths_mm) == pytest.approx(100.0)


@given(
    girth=st.floats(400, 2000),
    sheet=st.floats(600, 2200),
    overlap=st.floats(0, 40),
    thickness=st.floats(0.2, 1.5),
    lugs=st.integers(0, 12),
)
def test_the_pieces_go_round_and_come_off_the_sheet(
    girth: float, sheet: float, overlap: float, thickness: float, lugs: int
) -> None:
    try:
        got = size(
            girth, sheet_length_mm=sheet, overlap_mm=overlap, thickness_mm=thickness, lugs=lugs
        )
    except BadInput:
        # Two pieces may each be a whole sheet at most; lugs may leave no arc that fits.
        assert girth + math.pi * thickness + 2 * overlap > sheet
        return
    assert all(0 < length <= sheet + 1e-6 for length in got.lengths_mm)
    covered = sum(got.lengths_mm) - len(got.lengths_mm) * overlap
    assert covered == pytest.approx(girth + math.pi * thickness)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"depths_mm": []}, "depth: no reading"),
        ({"depths_mm": [20.0]}, "nothing is left between the edges"),
        ({"thickness_mm": 0.0}, "wrap thickness: not a size"),
        ({"thickness_mm": 9.0}, "too thick"),
        ({"overlap_mm": -1.0}, "overlap: not a length"),
        ({"sheet_length_mm": 500.0}, "two pieces of this sheet do not go round"),
    ],
)
def test_what_cannot_be_is_said(changes: dict[str, object], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        size(**changes)
