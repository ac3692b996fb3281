"""Sheets cover the shell, overlap, and are joined where no hole is cut."""

from __future__ import annotations

import itertools
import math

import papersize
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.papers.printer import PrinterCorrection
from counterhoop.papers.sheets import MARGIN_MM, SIZES, sheet_of
from counterhoop.papers.tiles import (
    OVERLAP_MM,
    STRIP_BOTTOM_MM,
    STRIP_LEFT_MM,
    STRIP_TOP_MM,
    joints,
    tile_shell,
)


@pytest.mark.parametrize("name", ["A4", "A3", "Letter"])
def test_paper_sizes_are_those_of_an_independent_table(name: str) -> None:
    """papersize (independent table; ISO 216 and ANSI/ASME Y14.1)."""
    wide, high = papersize.parse_papersize(name.lower(), "mm")
    assert (SIZES[name].short_mm, SIZES[name].long_mm) == pytest.approx(
        (float(wide), float(high)), abs=0.01
    )


@given(
    around=st.floats(480.0, 2100.0), depth=st.floats(80.0, 470.0),
    paper=st.sampled_from(["A4", "A3", "Letter", "roll"]),
    short=st.floats(0.98, 1.02), long=st.floats(0.98, 1.02),
)  # fmt: skip
def test_sheets_cover_the_shell_and_stay_within_the_margins(
    around: float, depth: float, paper: str, short: float, long: float
) -> None:
    right = PrinterCorrection(short_factor=short, long_factor=long, paper_mm=0.1)
    tiling = tile_shell(
        around_mm=around, depth_mm=depth, beyond_mm=9.0, paper=paper, correction=right
    )
    assert len(tiling.tiles) == tiling.columns * tiling.rows
    for tile in tiling.tiles:
        x1, y1 = tiling.on_sheet(tile, tile.left_mm, tile.top_mm)
        x2, y2 = tiling.on_sheet(tile, tile.right_mm, tile.bottom_mm)
        assert x1 >= MARGIN_MM + STRIP_LEFT_MM * 0.97
        assert y1 >= MARGIN_MM + STRIP_TOP_MM * 0.97
        assert x2 <= tiling.page_wide_mm - MARGIN_MM + 1e-6
        assert y2 <= tiling.page_high_mm - MARGIN_MM - STRIP_BOTTOM_MM * 0.97 + 1e-6
    first_row = [t for t in tiling.tiles if t.row == 0]
    assert first_row[0].left_mm == 0.0
    assert first_row[-1].right_mm == pytest.approx(around + OVERLAP_MM)
    for left, beside in itertools.pairwise(first_row):
        assert left.joint_right_mm == beside.left_mm
        assert left.right_mm - beside.left_mm == pytest.approx(OVERLAP_MM)
    column = [t for t in tiling.tiles if t.column == 0]
    assert column[0].top_mm == -9.0
    assert column[-1].bottom_mm == pytest.approx(depth + 9.0)


@given(
    end=st.floats(300.0, 2000.0), room=st.floats(120.0, 390.0),
    holes=st.lists(st.floats(0.0, 2000.0), max_size=12),
)  # fmt: skip
def test_joints_spare_holes_and_never_leave_a_gap(
    end: float, room: float, holes: list[float]
) -> None:
    spare = [(h - 5.0, h + 5.0) for h in holes]
    edges = joints(0.0, end, room=room, spare=spare)
    assert edges[0] == 0.0
    assert edges[-1] == end
    least = math.ceil((end - OVERLAP_MM) / (room - OVERLAP_MM) - 1e-9)
    assert len(edges) - 1 == max(1, least), "no more sheets than are needed"
    for i, (a, b) in enumerate(itertools.pairwise(edges)):
        assert b > a
        shown = b - a + (0.0 if i == len(edges) - 2 else OVERLAP_MM)
        assert shown <= room + 1e-6


def test_a_joint_gives_way_to_a_hole() -> None:
    free = joints(0.0, 800.0, room=178.0)
    assert all(edge % 5 == 0 for edge in free[1:-1])
    held = joints(0.0, 800.0, room=178.0, spare=[(free[2] - 4.0, free[2] + 4.0)])
    assert len(held) == len(free)
    assert not any(free[2] - 4.0 < edge < free[2] + 4.0 for edge in held)


def test_deep_shells_are_cut_both_ways() -> None:
    tiling = tile_shell(around_mm=1757.0, depth_mm=356.0, beyond_mm=9.0, paper="A4")
    assert tiling.rows >= 2
    assert tiling.columns >= 6
    assert tile_shell(around_mm=950.0, depth_mm=203.0, beyond_mm=9.0, paper="A4").rows == 1
    assert tile_shell(around_mm=1757.0, depth_mm=356.0, beyond_mm=9.0, paper="roll").columns == 1


def test_paper_that_nobody_sells_is_refused() -> None:
    with pytest.raises(BadInput, match="A4, A3, Letter or roll"):
        tile_shell(around_mm=791.0, depth_mm=178.0, beyond_mm=9.0, paper="B7")
    assert sheet_of(" letter ").name == "Letter"
