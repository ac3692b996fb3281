"""A measured drum and its head, as found and under a finish to come; sums by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from counterhoop.development.surface import Skin
from counterhoop.shell.drum import Circumference, Drum, OldFinish
from counterhoop.shell.readings import EndReadings, HeadRead, Readings, RimReadings
from counterhoop.shell.shop_rules import default_rules
from counterhoop.shell.wish import FinishPlan
from counterhoop.survey.drum_fit import EndFit, fit_of
from counterhoop.survey.head_fit import Fit

RULES = default_rules()
BARE_MM = 350.0
NEW_WRAP = FinishPlan(kind="new wrap", thickness_mm=0.5)


def across(*sizes_mm: float, resolution_mm: float = 0.1) -> RimReadings:
    step = 180.0 / len(sizes_mm)
    return RimReadings(
        along_deg=tuple(k * step for k in range(len(sizes_mm))), value_mm=sizes_mm,
        instrument="caliper", resolution_mm=resolution_mm,
    )  # fmt: skip


def drum(
    *, collar_mm: float, girth_mm: float, skin: Skin = Skin.OLD, kind: str = "lacquer",
    thick_mm: float = 0.0, sizes_mm: tuple[float, ...] = (), **end: Any,
) -> Drum:  # fmt: skip
    batter = EndReadings(
        end="batter",
        head=HeadRead(collar_mm=collar_mm),
        across=across(*sizes_mm) if sizes_mm else None,
        **end,
    )
    return Drum(
        key="tom",
        circumference=Circumference(
            skin=skin, mean_mm=girth_mm, readings_mm=(("batter", girth_mm),)
        ),
        wall_mm=5.0,
        depth_mm=200.0,
        finish=OldFinish(kind=kind, thickness_mm=thick_mm),
        readings=Readings(batter=batter),
    )


def at(made: Drum, finish: FinishPlan | None = None) -> EndFit:
    found = fit_of(made, "batter", rules=RULES, finish=finish)
    assert found is not None
    return found


def test_an_end_without_a_head_has_no_answer() -> None:
    assert fit_of(drum(collar_mm=354.0, girth_mm=1100.0), "resonant", rules=RULES) is None


def test_a_lacquered_shell_that_gets_a_wrap() -> None:
    """350.0 in 352.0 floats; over 0.5 of wrap 351.0 eased, 351.5 with the overlap: 0.5 is tight."""
    found = at(drum(collar_mm=352.0, girth_mm=BARE_MM * math.pi, sizes_mm=(350.0,) * 4), NEW_WRAP)
    assert found.as_found.known.fit is Fit.FLOATS
    assert found.to_come is not None
    assert found.to_come.known.clear_mm == pytest.approx(0.5)
    assert found.to_come.known.fit is Fit.TIGHT
    assert not found.shut_out
    assert at(drum(collar_mm=351.2, girth_mm=BARE_MM * math.pi), NEW_WRAP).shut_out


@pytest.mark.parametrize("skin", [Skin.BARE, Skin.OLD])
def test_the_same_shell_read_bare_or_over_its_wrap_is_the_same(skin: Skin) -> None:
    """Old wrap 0.4, bare 350.0: as found 351.2 through the overlap, under new lacquer 350.0."""
    over = 0.0 if skin is Skin.BARE else 0.8
    made = drum(
        collar_mm=353.0, girth_mm=(BARE_MM + over) * math.pi, skin=skin, kind="wrap",
        thick_mm=0.4, sizes_mm=(BARE_MM + over,) * 4,
    )  # fmt: skip
    found = at(made, FinishPlan(kind="clear lacquer"))
    assert found.as_found.largest_mm == pytest.approx(351.2)
    assert found.to_come is not None
    assert found.to_come.largest_mm == pytest.approx(350.0)
    rewrapped = at(made, replace(NEW_WRAP, thickness_mm=0.7)).to_come
    assert rewrapped is not None
    assert rewrapped.largest_mm == pytest.approx(350.0 + 3 * 0.7)


def test_a_finish_that_changes_no_diameter_is_no_second_answer() -> None:
    made = drum(collar_mm=352.0, girth_mm=BARE_MM * math.pi)
    assert at(made, FinishPlan()).to_come is None
    assert at(made, FinishPlan(kind="paint")).to_come is None


def test_a_reading_through_the_overlap_counts_it_once() -> None:
    wrapped = {
        "collar_mm": 353.0, "girth_mm": 351 * math.pi, "kind": "wrap", "thick_mm": 0.5,
        "sizes_mm": (351.5, 351.0, 351.0, 351.0),
    }  # fmt: skip
    assert at(drum(**wrapped, overlap_read=True)).as_found.largest_mm == pytest.approx(351.5)
    assert at(drum(**wrapped)).as_found.largest_mm == pytest.approx(352.0)


def test_radii_find_the_three_lobes_that_a_collar_meets() -> None:
    """Constant to the caliper: 175 + 0.5 cos 3a is 350 across everywhere, 351 in its circle."""
    along = tuple(15.0 * k for k in range(24))
    radii = RimReadings(
        along_deg=along,
        value_mm=tuple(175.0 + 0.5 * math.cos(math.radians(3 * a)) for a in along),
        instrument="dial gauge",
        resolution_mm=0.01,
    )
    made = drum(collar_mm=351.5, girth_mm=BARE_MM * math.pi, radii=radii)
    assert at(made).as_found.largest_mm == pytest.approx(351.0, abs=0.01)
    assert at(made).as_found.known.fit is Fit.TIGHT
    by_caliper = drum(collar_mm=351.5, girth_mm=BARE_MM * math.pi, sizes_mm=(350.0,) * 6)
    assert at(by_caliper).as_found.known.fit is Fit.SNUG


def test_a_tape_alone_leaves_how_it_stands_open() -> None:
    assert at(drum(collar_mm=352.0, girth_mm=BARE_MM * math.pi)).as_found.as_it_stands is None


@pytest.mark.parametrize("off_mm", [-3.0, 0.0, 0.5])
def test_how_long_the_bar_was_moves_no_fit(off_mm: float) -> None:
    """The mean diameter is the girth over pi; radii all off alike say nothing of it.

    350 on the mean with 2 (dmax - dmin) of oval is 351.0 at its largest, in 353.0 with 2.0 of room.
    """
    along = tuple(22.5 * k for k in range(16))
    radii = RimReadings(
        along_deg=along,
        value_mm=tuple(175.0 + off_mm + 0.5 * math.cos(math.radians(2 * a)) for a in along),
        instrument="dial gauge",
        resolution_mm=0.01,
    )
    found = at(drum(collar_mm=353.0, girth_mm=BARE_MM * math.pi, radii=radii)).as_found
    assert found.as_it_stands is not None
    assert found.as_it_stands.clear_mm == pytest.approx(2.0, abs=0.01)
    assert found.readings.smallest_mm == pytest.approx(349.0, abs=0.01)
    # The tape's 0.5 over pi and the head's 0.1: no surer than that.
    assert found.as_it_stands.doubt_mm >= math.hypot(0.5 / math.pi, 0.1)


def test_a_wrap_that_meets_itself_lies_nowhere_double() -> None:
    """350.0 over 0.5 of wrap is 351.0; the overlap would add another 0.5."""
    made = drum(collar_mm=353.0, girth_mm=BARE_MM * math.pi, sizes_mm=(350.0,) * 4)
    found = at(made, replace(NEW_WRAP, butt=True)).to_come
    assert found is not None
    assert found.largest_mm == pytest.approx(351.0)
    assert found.round_mm == pytest.approx(351.0)
