"""Two situations from the bench, worked by hand (common practice, no source)."""

from __future__ import annotations

import math

import pytest

from counterhoop.scheme.reuse import (
    Limits,
    OldHole,
    Reuse,
    Tier,
    WantedHole,
    WantedRow,
    Window,
    best_reuse,
)

LIMITS = Limits(keep_mm=0.8, enlarge_mm=2.0, slot_mm=4.0)


def lug_holes(hole_mm: float = 6.0) -> tuple[WantedHole, ...]:
    return tuple(
        WantedHole(right_mm=0.0, down_mm=d, hole_mm=hole_mm, screw_mm=5.0) for d in (-21.0, 21.0)
    )


def base(wide_mm: float) -> tuple[tuple[float, float], ...]:
    x = wide_mm / 2
    return ((-x, -30.0), (x, -30.0), (x, 30.0), (-x, 30.0))


class TestOneLugOff:
    """355.0 across, eight lugs of two 6 mm holes, lug 4 drilled 3.0 toward lug 3."""

    girth = math.pi * 355.0
    pinned = Window(turn_min_mm=0, turn_max_mm=0, down_min_mm=300, down_max_mm=300)

    def old(self) -> list[OldHole]:
        return [
            OldHole(
                number=2 * lug + i + 1,
                along_mm=lug * self.girth / 8 - (3.0 if lug == 3 else 0.0),
                down_mm=300 + d,
                diameter_mm=6.0,
            )
            for lug in range(8)
            for i, d in enumerate((-21.0, 21.0))
        ]

    def solve(self, *, bush: bool, wide_mm: float = 24.0) -> Reuse:
        row = WantedRow(holes=lug_holes(), count=8, girth_mm=self.girth, base=base(wide_mm))
        limits = Limits(keep_mm=0.8, enlarge_mm=2.0, slot_mm=4.0, bush=bush)
        found = best_reuse(row, self.old(), window=self.pinned, ideal=(0, 300), limits=limits)
        assert isinstance(found, Reuse)
        return found

    def test_spacing(self) -> None:
        assert self.girth / 8 == pytest.approx(139.41, abs=0.005)

    def test_slot_6_by_9_under_the_base(self) -> None:
        found = self.solve(bush=True)
        assert (found.kept, found.slotted) == (14, 2)
        for match in (m for m in found.matches if m.lug == 3):
            assert match.tier is Tier.SLOT
            assert (match.width_mm, match.length_mm) == (6.0, pytest.approx(9.0))
            assert match.off_along_mm == pytest.approx(-3.0)
            far_end = -match.off_along_mm + match.width_mm / 2
            assert far_end == pytest.approx(6.0)
            assert far_end + LIMITS.opening_inside_mm <= 12.0

    def test_without_a_bush_one_hole_has_to_locate_the_lug(self) -> None:
        found = self.solve(bush=False)
        assert (found.kept, found.slotted, found.wanted) == (14, 1, 16)

    @pytest.mark.parametrize(("wide_mm", "slotted"), [(14.0, 2), (13.9, 0)])
    def test_the_base_has_to_hide_it(self, wide_mm: float, slotted: int) -> None:
        assert self.solve(bush=True, wide_mm=wide_mm).slotted == slotted


class TestTenLugsEightWanted:
    """353.4 across, ten lugs: eight at 45 degrees agree with ten at 36 at 0 and 180 only."""

    girth = math.pi * 353.4

    def solve(self, window: Window, **limits: float) -> Reuse:
        old = [
            OldHole(
                number=2 * lug + i + 1,
                along_mm=lug * self.girth / 10,
                down_mm=60 + d,
                diameter_mm=6,
            )
            for lug in range(10)
            for i, d in enumerate((-21.0, 21.0))
        ]
        row = WantedRow(holes=lug_holes(), count=8, girth_mm=self.girth)
        found = best_reuse(row, old, window=window, ideal=(0, 60), limits=Limits(**limits))
        assert isinstance(found, Reuse)
        return found

    def test_two_lugs_kept(self) -> None:
        turned = Window(
            turn_min_mm=-self.girth / 16,
            turn_max_mm=self.girth / 16,
            down_min_mm=50,
            down_max_mm=70,
        )
        found = self.solve(turned, keep_mm=0.8, enlarge_mm=2.0, slot_mm=4.0)
        assert (found.turn_mm, found.down_mm) == (0.0, 60.0)
        assert {m.lug for m in found.matches} == {0, 4}
        assert {m.number for m in found.matches} == {1, 2, 11, 12}
        kept, per_lug = found.kept, 2
        assert kept // per_lug == 2
        assert 10 - kept // per_lug == 8  # lugs to plug
        assert 8 - kept // per_lug == 6  # lugs to drill
        # both rows: 32 plugs and 24 holes
        assert (2 * (20 - kept), 2 * (16 - kept)) == (32, 24)

    def test_the_next_nearest_is_nine_degrees_off(self) -> None:
        nine = 9 / 360 * self.girth
        assert nine == pytest.approx(27.76, abs=0.005)
        spot = Window(turn_min_mm=0, turn_max_mm=0, down_min_mm=60, down_max_mm=60)
        for reach, used in ((nine - 0.01, 4), (nine + 0.01, 12)):
            found = self.solve(spot, keep_mm=0.5, enlarge_mm=reach, slot_mm=0.0)
            assert found.used == used
