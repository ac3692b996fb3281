"""Seams of wrap against plane statics worked by hand and against a walk round the drum."""

from __future__ import annotations

import math
import random

import pytest

from counterhoop.errors import BadInput
from counterhoop.wrap.seam_place import Base, SeamPlace, Wrapped, judge_seam, seam_places
from counterhoop.wrap.seat import seat

GIRTH = 1120.0
SHELL = Wrapped(girth_mm=GIRTH, from_down_mm=12.0, to_down_mm=188.0, overlap_mm=25.0, step_mm=0.5)


def lugs(count: int, *, breadth_mm: float = 30.0, first_mm: float = 0.0) -> list[Base]:
    """Lugs of both heads in line, 40 mm high each."""
    return [
        Base(
            name=f"{row} lug {n + 1}",
            along_mm=first_mm + n * GIRTH / count,
            breadth_mm=breadth_mm,
            from_down_mm=down,
            to_down_mm=down + 40.0,
            over_seam=True,
        )
        for n in range(count)
        for row, down in (("batter", 25.0), ("resonant", 135.0))
    ]


def thing(name: str, along_mm: float, breadth_mm: float) -> Base:
    return Base(
        name=name, along_mm=along_mm, breadth_mm=breadth_mm, from_down_mm=80.0, to_down_mm=120.0
    )


def test_under_a_line_of_lugs_goes_first() -> None:
    best = seam_places(on=SHELL, bases=lugs(8))[0]
    assert best.under == ("batter lug 1", "resonant lug 1")
    # 176 mm of wrap less two castings of 40 mm.
    assert best.shows_mm == pytest.approx(96.0)
    assert best.along_mm == (0.0,)


def test_on_the_far_side_from_the_badge() -> None:
    best = seam_places(on=SHELL, bases=[*lugs(8), thing("badge", 70.0, 40.0)], front_mm=70.0)[0]
    assert best.under
    assert best.along_mm[0] in (pytest.approx(560.0), pytest.approx(700.0))


def test_lugs_kept_off_the_seam_send_it_to_the_middle_of_a_gap() -> None:
    # Lugs of 45 mm with the seam in the middle of a gap: 140 / 2 - 22.5 - 12.5 = 35 mm.
    bases = [
        Base(
            name=b.name, along_mm=b.along_mm, breadth_mm=45.0,
            from_down_mm=b.from_down_mm, to_down_mm=b.to_down_mm,
        )
        for b in lugs(8)
    ]  # fmt: skip
    best = seam_places(on=SHELL, bases=bases)[0]
    assert best.under == ()
    assert best.along_mm[0] % 140 == pytest.approx(70.0)
    assert best.clear_mm == pytest.approx(35.0)


def test_a_vent_between_lugs_closes_its_gap() -> None:
    vent = thing("vent", 70.0, 14.0)
    bad = judge_seam(70.0, on=SHELL, bases=[*lugs(8), vent])
    assert bad.troubles == ("vent lies on the seam; 8 mm clear are wanted.",)
    near = judge_seam(95.0, on=SHELL, bases=[vent])
    assert near.troubles == ("vent is 5.5 mm from the seam; 8 mm are wanted.",)
    assert judge_seam(97.5, on=SHELL, bases=[vent]).allowed


def test_half_under_a_base_is_said_in_tenths_and_degrees() -> None:
    """The base rests on the step at its middle and on its end: slope 0.5 in 15."""
    one = lugs(8)[:1]
    bad = judge_seam(12.5, on=SHELL, bases=one)
    assert not bad.allowed
    degrees = math.degrees(math.atan(0.5 / 15.0))
    assert f"{degrees:.1f} degrees" in bad.troubles[0]
    assert "10 tenths" in bad.troubles[0]


def pose(offset: float, base: float, seam: float, step: float) -> float:
    """Return the slope at which a base rests; if that is none, the one to which it tips."""
    ends = (-base / 2, base / 2)
    low, high = max(ends[0], offset - seam / 2), min(ends[1], offset + seam / 2)
    points = [(ends[0], 0.0 if low > ends[0] else step), (low, step), (high, step),
              (ends[1], 0.0 if high < ends[1] else step)]  # fmt: skip
    rests, tips = [], []
    for x1, y1 in points:
        for x2, y2 in points:
            if x2 - x1 > 1e-9:
                slope = (y2 - y1) / (x2 - x1)
                if all(y <= y1 + slope * (x - x1) + 1e-9 for x, y in points):
                    tips.append(abs(slope))
                    rests += [abs(slope)] if x1 <= 0 <= x2 else []
    return max(rests) or max(tips)


@pytest.mark.parametrize("seed", range(40))
def test_rocking_against_every_pair_of_contacts(seed: int) -> None:
    """A rigid bar on points: it rests on two that hold all others below and its middle between."""
    chance = random.Random(seed)
    base, seam = chance.uniform(15, 80), chance.uniform(5, 30)
    offset, step = chance.uniform(-60, 60), chance.uniform(0.2, 1.2)
    got = seat(offset, base_mm=base, seam_mm=seam, step_mm=step)
    if got.touches and not got.steady:
        assert math.tan(math.radians(got.rock_deg)) == pytest.approx(pose(offset, base, seam, step))
        assert got.rock_mm == pytest.approx(base * math.sin(math.radians(got.rock_deg)))
    else:
        assert got.rock_mm == got.rock_deg == 0.0


def test_two_rows_a_little_out_of_line() -> None:
    """Lugs of 30 mm, 4 mm out of line: only 1 mm of play is left, in the middle between them."""
    batter, resonant = lugs(8)[0], lugs(8, first_mm=4.0)[1]
    best = seam_places(on=SHELL, bases=[batter, resonant])[0]
    assert best.along_mm == (2.0,)
    assert len(best.under) == 2


def test_a_butt_seam_makes_nothing_rock() -> None:
    assert seat(5.0, base_mm=30.0, seam_mm=0.0, step_mm=0.0).steady
    assert seat(5.0, base_mm=30.0, seam_mm=0.0, step_mm=0.0).covers


def test_a_bass_drum_has_its_seam_at_the_bottom() -> None:
    shell = Wrapped(
        girth_mm=1760.0, from_down_mm=20.0, to_down_mm=340.0, overlap_mm=25.0, step_mm=0.5
    )
    spurs = [thing("left spur", 880.0 - 300.0, 60.0), thing("right spur", 880.0 + 300.0, 60.0)]
    assert seam_places(on=shell, bases=spurs, bottom_mm=880.0)[0].along_mm == (880.0,)
    # A plate at the bottom: just clear of it, 20 + 12.5 + 8 mm to one side.
    plate = thing("plate", 880.0, 40.0)
    best = seam_places(on=shell, bases=[*spurs, plate], bottom_mm=880.0)[0]
    assert abs(best.along_mm[0] - 880.0) == pytest.approx(40.5)


def test_both_seams_of_two_pieces_under_lugs() -> None:
    shell = Wrapped(
        girth_mm=GIRTH, from_down_mm=12.0, to_down_mm=188.0, overlap_mm=25.0, step_mm=0.5,
        second_after_mm=2 * GIRTH / 8,
    )  # fmt: skip
    best = seam_places(on=shell, bases=lugs(8))[0]
    assert len(best.under) == 4
    assert best.shows_mm == pytest.approx(2 * 96.0)


def walk(on: Wrapped, bases: list[Base]) -> list[SeamPlace]:
    steps = int(on.girth_mm)
    found = [judge_seam(float(n), on=on, bases=bases) for n in range(steps)]
    return [place for place in found if place.allowed]


@pytest.mark.parametrize("seed", range(12))
def test_a_walk_round_the_drum_finds_nothing_better(seed: int) -> None:
    chance = random.Random(seed)
    bases = lugs(chance.choice([5, 6, 8]), breadth_mm=chance.uniform(18, 40))
    bases += [
        thing(name, chance.uniform(0, GIRTH), chance.uniform(8, 90))
        for name in ("badge", "vent", "bracket", "leg")
    ]
    places = seam_places(on=SHELL, bases=bases)
    walked = walk(SHELL, bases)
    assert all(p.allowed for p in places)
    if not places:
        assert walked == []
        return
    assert places[0].shows_mm <= min(p.shows_mm for p in walked) + 1e-6
    bottom = chance.uniform(0, GIRTH)
    low = seam_places(on=SHELL, bases=bases, bottom_mm=bottom)[0]
    off = abs(SHELL.apart_mm(bottom, low.along_mm[0]))
    assert off <= min(abs(SHELL.apart_mm(bottom, p.along_mm[0])) for p in walked) + 1e-6


def test_a_plain_shell_takes_a_seam_anywhere() -> None:
    assert seam_places(on=SHELL, bases=[])[0].clear_mm == math.inf
    assert seam_places(on=SHELL, bases=[], front_mm=100.0)[0].along_mm == (660.0,)


def test_what_cannot_be_is_said() -> None:
    with pytest.raises(BadInput, match="badge: ends above"):
        Base(name="badge", along_mm=0.0, breadth_mm=5.0, from_down_mm=9.0, to_down_mm=3.0)
    with pytest.raises(BadInput, match="vent: not a size"):
        Base(name="vent", along_mm=0.0, breadth_mm=0.0, from_down_mm=1.0, to_down_mm=3.0)
    with pytest.raises(BadInput, match="wrap: not a size"):
        Wrapped(girth_mm=0.0, from_down_mm=1.0, to_down_mm=2.0, overlap_mm=1.0, step_mm=0.1)
