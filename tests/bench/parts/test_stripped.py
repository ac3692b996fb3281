"""A drum's strip-down: ticks of two benches go together, and nothing impossible is kept."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.parts.count_words import how_far
from counterhoop.bench.parts.stripped import Stripped, counted_of, stripped_of
from counterhoop.bench.parts.tick_parts import (
    Line,
    chosen_lines,
    pressed_to,
    presses_for,
    tick_parts,
)
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.parts.comes_apart import Sort
from counterhoop.parts.strip_down import Expected, StripDown
from counterhoop.parts.ticked import Counted, Stage
from counterhoop.store.pointer import value_at, write_pointer
from counterhoop.store.save import Conflict, Saved

Now = Callable[[], tuple[KeptJob, KeptDrum]]
SCREW, WASHER = "screw 10-24 x 5/8 in", "screw washer 14"
LUG_3: Line = ("batter lug 3", SCREW)
LUG_4: Line = ("batter lug 4", SCREW)


def seen(shop: Workshop, now: Now) -> tuple[Stripped, int]:
    job, drum = now()
    return stripped_of(shop, job, drum), drum.kept("stripped").number


def ticked(
    shop: Workshop, now: Now, ticks: dict[Line, dict[Stage, int]], *, based_on: int, by: str = "b"
) -> Saved | Conflict:
    job, drum = now()
    stripped, _ = seen(shop, now)
    return tick_parts(
        shop, job.id, drum.id, stripped=stripped, ticks=ticks, based_on=based_on, by=by
    )


def found(shop: Workshop, now: Now, line: Line) -> int | None:
    stripped, _ = seen(shop, now)
    return next(
        one.found
        for one in stripped.counted
        if (one.expected.place, one.expected.sort.piece) == line
    )


def test_what_should_come_off_is_known_before_anything_is_planned(shop: Workshop, now: Now) -> None:
    """By hand: 16 lugs with 2 screws each, strainer (gone) and butt with 2 each, 36 in all."""
    stripped, _ = seen(shop, now)
    screws = chosen_lines(stripped, piece=SCREW)
    assert sum(one.expected.count for one in screws) == 36
    assert [one.expected.place for one in screws if one.expected.lost] == ["strainer"]
    assert how_far(stripped.counted).startswith("Nothing is counted yet")


def test_two_benches_tick_different_lines_of_one_page(shop: Workshop, now: Now) -> None:
    """Both were looking at the page as it was before anything was ticked."""
    assert isinstance(ticked(shop, now, {LUG_3: {Stage.FOUND: 2}}, based_on=0, by="a"), Saved)
    assert isinstance(ticked(shop, now, {LUG_4: {Stage.FOUND: 1}}, based_on=0, by="b"), Saved)
    assert (found(shop, now, LUG_3), found(shop, now, LUG_4)) == (2, 1)


def test_two_benches_that_count_one_line_otherwise_are_told(shop: Workshop, now: Now) -> None:
    ticked(shop, now, {LUG_4: {Stage.FOUND: 2}}, based_on=0)
    ticked(shop, now, {LUG_3: {Stage.FOUND: 2}}, based_on=0)
    _, before = seen(shop, now)
    told = ticked(shop, now, {LUG_3: {Stage.FOUND: 1}}, based_on=0)
    assert isinstance(told, Conflict)
    assert found(shop, now, LUG_3) == 2
    # What the other bench ticked elsewhere is in mine too, so that keeping mine takes none of it.
    place = write_pointer(["counted", *LUG_4, "found"])
    assert value_at(told.mine, place) == 2
    assert isinstance(ticked(shop, now, {LUG_3: {Stage.FOUND: 1}}, based_on=before), Saved)
    assert found(shop, now, LUG_3) == 1


def test_the_same_tick_twice_is_one_tick(shop: Workshop, now: Now) -> None:
    """A press that is sent again because the answer was lost."""
    ticked(shop, now, {LUG_3: {Stage.FOUND: 2}}, based_on=0)
    assert isinstance(ticked(shop, now, {LUG_3: {Stage.FOUND: 2}}, based_on=0), Saved)
    _, drum = now()
    assert drum.kept("stripped").number == 1


def test_counts_that_contradict_each_other_are_refused_in_words(shop: Workshop, now: Now) -> None:
    with pytest.raises(BadInput, match="more soaked than the 1 found") as told:
        ticked(shop, now, {LUG_3: {Stage.FOUND: 1, Stage.SOAKED: 2}}, based_on=0)
    assert told.value.where == f"batter lug 3, {SCREW}"
    assert found(shop, now, LUG_3) is None
    with pytest.raises(BadInput, match="not on this drum's list any more"):
        ticked(shop, now, {("batter lug 9", SCREW): {Stage.FOUND: 1}}, based_on=0)


def test_a_tick_is_taken_back_whole(shop: Workshop, now: Now) -> None:
    ticked(shop, now, {LUG_3: {Stage.FOUND: 2}}, based_on=0)
    ticked(shop, now, {LUG_3: {}}, based_on=1)
    assert found(shop, now, LUG_3) is None


def line(place: str, piece: str, kind: str, count: int = 8) -> Expected:
    return Expected(place=place, sort=Sort(piece=piece, kind=kind), count=count)


def test_ticks_follow_rods_that_are_called_otherwise_since() -> None:
    """Rods are named by their length, and that changes when the shell is measured again."""
    rods, washers = line("batter head", "rod M6 x 45 mm", "rod"), line("batter head", "w", "washer")
    table = {"counted": {"batter head": {"rod M6 x 42 mm": {"kind": "rod", "found": 7}}}}
    one = counted_of(StripDown(drum="tom", lines=(rods, washers)), table)
    assert [o.found for o in one.counted] == [7, None]
    assert one.carried == {("batter head", rods.sort.piece): ("batter head", "rod M6 x 42 mm")}
    assert not one.strays
    # Two sorts of rods there: nobody can tell which is meant.
    other = line("batter head", "rod M6 x 50 mm", "rod")
    two = counted_of(StripDown(drum="tom", lines=(rods, other)), table)
    assert [o.found for o in two.counted] == [None, None]
    assert two.strays == ("rod M6 x 42 mm at batter head",)


def test_odd_documents_stop_no_page() -> None:
    """What came in by another way may hold anything."""
    expected = StripDown(drum="tom", lines=(line("lug 1", "screw", "screw", 2),))
    for body in ({"counted": 3}, {"counted": {"lug 1": []}}, {"counted": {"lug 1": {"screw": 4}}}):
        assert counted_of(expected, body).counted[0].found is None
    wrong = {"counted": {"lug 1": {"screw": {"found": 1, "soaked": 5}}}}
    (fault,) = counted_of(expected, wrong).faults
    assert "more soaked" in str(fault)


KINDS = st.sampled_from(["screw", "lug", "head", "gasket", "badge"])
LINES = st.lists(
    st.builds(
        Expected,
        place=st.sampled_from(["lug 1", "lug 2", "badge"]),
        sort=st.builds(Sort, piece=st.sampled_from(["a", "b", "wood hoop"]), kind=KINDS),
        count=st.integers(1, 9),
        lost=st.booleans(),
    ),
    min_size=1, max_size=6, unique_by=lambda one: (one.place, one.sort.piece),
)  # fmt: skip
STAGES = st.sampled_from([Stage.FOUND, Stage.SOAKED, Stage.DRY, Stage.REFITTED])


@given(lines=LINES, pressed=st.lists(st.tuples(STAGES, st.booleans()), max_size=8))
def test_no_row_of_presses_comes_to_what_cannot_be(
    lines: list[Expected], pressed: list[tuple[Stage, bool]]
) -> None:
    """A law: whatever is pressed in whatever order, the count can be read, and no press unticks."""
    stripped = StripDown(drum="tom", lines=tuple(lines))
    table: dict[str, dict[str, dict[str, dict[str, int]]]] = {"counted": {}}
    for stage, soak in pressed:
        now = counted_of(stripped, table)
        if stage not in [one.stage for one in presses_for(now.counted, soak=soak)]:
            continue
        for one in now.counted:
            counts = pressed_to(one, stage)
            at = table["counted"].setdefault(one.expected.place, {})
            at.setdefault(one.expected.sort.piece, {}).update(
                {which.value: count for which, count in counts.items()}
            )
        then = counted_of(stripped, table)
        assert not then.faults
        for before, after in zip(now.counted, then.counted, strict=True):
            assert (after.found or 0) >= (before.found or 0)
            assert after.refitted >= before.refitted
            assert after.refitted == 0 or after.wet == 0


def test_the_face_names_what_lacks_first() -> None:
    """By hand."""
    screws = line("lug 1", "screw M5", "screw", 16)
    springs = line("lug 1", "spring 8 x 28", "lug spring")
    lines = (
        Counted(expected=screws, found=14), Counted(expected=springs, found=8, soaked=8),
        Counted(expected=line("snares", "wires", "wires", 1)),
    )  # fmt: skip
    said = "2 screws missing; 8 lug springs still wet; 1 of 25 pieces not counted yet."
    assert how_far(lines) == said
