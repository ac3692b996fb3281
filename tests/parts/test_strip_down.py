"""What a drum comes apart into, what was ticked, what is wanted, what goes into the spares bag."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterhoop.bench.demo import open_demo
from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Behind, Fitting, Kind, PatternHole
from counterhoop.fittings.read_book import packaged_book
from counterhoop.parts.comes_apart import Sort, comes_apart
from counterhoop.parts.spares import spares_bag
from counterhoop.parts.strip_down import StripDown, strip_down
from counterhoop.parts.ticked import Counted, Stage, Tick, count_off
from counterhoop.parts.wants import wants_of
from counterhoop.scheme.layout import RodPlan
from counterhoop.shell.drum import Drum

BOOK = packaged_book()
DRUMS = {wanted.drum.key: wanted.drum for wanted in open_demo().job.drums}
SNARE = strip_down(DRUMS["old snare"], book=BOOK)
FOUND = [
    Tick(place=line.place, piece=line.sort.piece, stage=Stage.FOUND, count=line.count)
    for line in SNARE.lines
]


def told(stripped: StripDown) -> dict[str, int]:
    return {sort.piece: count for sort, count in stripped.sorts().items()}


def tick(place: str, piece: str, **stages: int) -> list[Tick]:
    return [
        Tick(place=place, piece=piece, stage=Stage[name.upper()], count=count)
        for name, count in stages.items()
    ]


def line_of(counted: tuple[Counted, ...], place: str, piece: str) -> Counted:
    return next(
        one for one in counted if (one.expected.place, one.expected.sort.piece) == (place, piece)
    )


def test_the_old_snare_by_hand() -> None:
    """Counted by hand from its survey: 16 lugs, two strainers (one lost), butt, badge, damper.

    Two screws a lug, each with a washer, make 32; the lost strainer and the butt are held by two
    of the same each, the later strainer by two 8-32.
    """
    assert told(SNARE) == {
        "14 in head": 2,
        "flanged hoop 14 in, 8 ears": 2,
        "rod 12-24 UNC": 16,
        "rod washer": 16,
        "Corvane round short lug": 16,
        "screw 10-24 x 5/8 in": 36,
        "screw washer 14": 36,
        "Corvane lever strainer": 1,
        "Quennick roller strainer": 1,
        "screw 8-32 x 5/8 in": 2,
        "washer, 12.0 mm across, 1.0 mm thick": 2,
        "Corvane butt": 1,
        "Corvane oval badge": 1,
        "badge grommet 12.7": 1,
        "Corvane damper": 1,
        "wires": 1,
        "cord or strap": 2,
    }
    assert SNARE.unsaid == (
        "The book does not say what holds Corvane damper on: count what comes off.",
    )
    assert {line.place for line in SNARE.lines if line.lost} == {"strainer"}


def test_claws_t_rods_swivel_nuts_and_springs_of_the_bass_drum() -> None:
    """By hand: 8 lugs a head with a claw, a T-rod, a swivel nut and a spring each."""
    bass = told(strip_down(DRUMS["bass drum"], book=BOOK))
    for piece in ("T-rod M6", "claw", "swivel nut M6", "lug spring 8 x 28"):
        assert bass[piece] == 16
    assert "rod M6" not in bass
    assert bass["screw M5 x 16 mm"] == bass["screw washer 14"] == 32


def test_a_single_headed_drum_has_one_head_and_one_hoop() -> None:
    tom = strip_down(DRUMS["small tom"], book=BOOK)
    assert told(tom)["12 in head"] == told(tom)["flanged hoop 12 in, 6 ears"] == 1
    assert "resonant head" not in {line.place for line in tom.lines}


def test_three_legs_come_off_with_their_brackets() -> None:
    assert told(strip_down(DRUMS["floor tom"], book=BOOK))["leg 10.5 x 610 mm"] == 3


def test_a_row_of_long_lugs_takes_rods_from_both_ends() -> None:
    """By hand: eight long lugs have sixteen mouths, eight to each end, and one body each."""
    snare = DRUMS["old snare"]
    row = snare.rows[0]
    long = replace(row, fitting="Dunmarrow bullet long lug 72")
    lugs = tuple(replace(lug, fitting=long.fitting, label=f"long lug {n}") for n, lug in
                 enumerate(row.lugs, 1))  # fmt: skip
    drum = replace(snare, rows=(replace(long, lugs=lugs),))
    stripped = strip_down(drum, book=BOOK)
    rods = {line.place: line.count for line in stripped.lines if line.sort.kind == Kind.ROD}
    assert rods == {"batter head": 8, "resonant head": 8}
    assert told(stripped)["swivel nut M6"] == 16
    assert told(stripped)["Dunmarrow bullet long lug 72"] == 8


def test_rods_are_named_by_their_length_where_it_was_worked_out() -> None:
    rod = BOOK.find("rod 12-24 x 42 mm")
    plan = RodPlan(head="batter", count=8, thread="12-24", least_mm=38.0, most_mm=45.0, rod=rod)
    named = told(strip_down(DRUMS["old snare"], book=BOOK, rods=(plan,)))
    assert (named["rod 12-24 x 42 mm"], named["rod 12-24 UNC"]) == (8, 8)


def test_screws_from_outside_have_nuts_behind() -> None:
    """By hand from the book: four holes, a screw, a washer and a nut each."""
    plate = BOOK.find("cover plate 90 x 100, four holes")
    counts = {sort.kind: count for sort, count in comes_apart(plate, BOOK)}
    assert counts == {"cover plate": 1, "screw": 4, "washer": 4, "nut": 4}


def test_pieces_that_no_book_lists_are_described() -> None:
    odd = Fitting(
        name="odd lug", kind=Kind.LUG, source="invented for the tests", gasket_mm=0.8,
        holes=(PatternHole(right_mm=0, down_mm=0, hole_mm=6, screw_mm=5),), thread="M6",
        screw_thread="M7x0.9", screw_length_mm=14.0, screw_depth_mm=9.0,
        behind=Behind(washer_mm=2.0, washer_diameter_mm=17.0), inserts=("felt",),
    )  # fmt: skip
    assert [(sort.piece, sort.book, n) for sort, n in comes_apart(odd, Book(()))] == [
        ("odd lug", "odd lug", 1),
        ("screw M7x0.9 x 14 mm", "", 1),
        ("washer, 17.0 mm across, 2.0 mm thick", "", 1),
        ("felt", "", 1),
        ("gasket of odd lug, 0.8 mm", "", 1),
    ]


@pytest.mark.parametrize("key", DRUMS)
def test_lines_and_sorts_agree_and_every_screw_of_the_book_is_counted(key: str) -> None:
    """Counted a second way: screws are the mounting holes of whatever names a screw."""
    drum: Drum = DRUMS[key]
    stripped = strip_down(drum, book=BOOK)
    kinds: Counter[str] = Counter()
    for sort, count in stripped.sorts().items():
        kinds[sort.kind] += count
    entries = [BOOK.find(placed.fitting) for placed in drum.everything]
    screws = sum(len(entry.holes) for entry in entries if entry.screw_thread)
    assert kinds["screw"] == screws
    assert kinds["rod"] + kinds["T-rod"] == sum(len(entry.mouths) for entry in entries)
    places = [(line.place, line.sort.piece) for line in stripped.lines]
    assert len(places) == len(set(places))


def test_nothing_is_wanted_before_it_is_counted_but_what_is_known_to_be_lost() -> None:
    wants = wants_of(count_off(SNARE, ()))
    assert wants.by_name == {
        "Corvane lever strainer": 1,
        "screw 10-24 x 5/8 in": 2,
        "screw washer 14": 2,
    }
    assert len(wants.uncounted) == sum(not line.lost for line in SNARE.lines)


def test_missing_and_spoilt_pieces_of_one_sort_are_wanted_together() -> None:
    """By hand: one screw short at lug 3, one stripped at lug 5, both of the lost strainer's."""
    screw = "screw 10-24 x 5/8 in"
    counted = count_off(
        SNARE,
        [
            *(one for one in FOUND if one.place != "strainer"),
            *tick("batter lug 3", screw, found=1),
            *tick("batter lug 5", screw, found=2, spoilt=1),
        ],
    )
    wants = wants_of(counted)
    (want,) = [one for one in wants.lines if one.sort.piece == screw]
    assert (want.count, want.spoilt) == (4, 1)
    assert want.places == (("batter lug 3", 1), ("batter lug 5", 1), ("strainer", 2))
    assert wants.uncounted == ()
    without = wants_of(counted, stays_off={"strainer"})
    assert without.by_name == {screw: 2}


def test_what_stays_off_is_not_asked_for_nor_spared() -> None:
    off = {"later strainer"}
    assert all("8-32" not in spare.sort.piece for spare in spares_bag(SNARE, stays_off=off))
    uncounted = wants_of(count_off(SNARE, ()), stays_off=off).uncounted
    assert "later strainer" not in {one.expected.place for one in uncounted}


def test_a_later_tick_takes_the_earlier_ones_place() -> None:
    two = tick("batter head", "rod washer", found=8) + tick("batter head", "rod washer", found=7)
    line = line_of(count_off(SNARE, two), "batter head", "rod washer")
    assert (line.found, line.missing, line.over) == (7, 1, 0)


def test_more_than_expected_is_no_fault() -> None:
    found = tick("batter head", "rod washer", found=9)
    line = line_of(count_off(SNARE, found), "batter head", "rod washer")
    assert (line.missing, line.over) == (0, 1)


@pytest.mark.parametrize(
    ("stages", "says"),
    [
        ({"found": -1}, "fewer than none"),
        ({"soaked": 1}, "more soaked than the 0 found"),
        ({"found": 8, "soaked": 9}, "more soaked than the 8 found"),
        ({"found": 8, "soaked": 4, "dry": 5}, "more dry than the 4 soaked"),
        ({"found": 8, "soaked": 8, "dry": 6, "refitted": 7}, "more refitted than the 6"),
        ({"found": 8, "spoilt": 1, "refitted": 8}, "more refitted than the 7"),
        ({"found": 8, "spoilt": 9}, "more no use again than the 8 found"),
    ],
)
def test_counts_that_contradict_each_other_are_refused(stages: dict[str, int], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        count_off(SNARE, tick("batter head", "rod washer", **stages))


def test_a_place_or_piece_that_is_not_on_the_list_is_refused_with_the_nearest() -> None:
    with pytest.raises(BadInput, match='Did you mean "batter head"'):
        count_off(SNARE, tick("bater head", "rod washer", found=1))
    with pytest.raises(BadInput, match='Did you mean "rod washer"'):
        count_off(SNARE, tick("batter head", "rod wascher", found=1))


@settings(max_examples=25)
@given(st.data())
def test_found_sound_and_wanted_make_what_is_expected(data: st.DataObject) -> None:
    """Exact: what is sound and what is wanted is what should be there, or more was found."""
    ticks = []
    for line in SNARE.lines:
        found = data.draw(st.integers(0, line.count + 2))
        spoilt = data.draw(st.integers(0, found))
        ticks += tick(line.place, line.sort.piece, found=found, spoilt=spoilt)
    counted = count_off(SNARE, ticks)
    for one in counted:
        sound = (one.found or 0) - one.spoilt
        assert sound + one.missing == max(sound, one.expected.count)
    wants = wants_of(counted)
    assert sum(wants.by_name.values()) == sum(one.missing for one in counted)
    assert all(want.count == sum(n for _, n in want.places) for want in wants.lines)
    assert all(0 <= want.spoilt <= want.count for want in wants.lines)


def test_the_spares_bag_of_the_old_snare_by_hand() -> None:
    """Two of each screw and washer, one rod; no gaskets, springs or swivel nuts on this drum."""
    bag = {spare.sort.piece: spare.count for spare in spares_bag(SNARE)}
    assert bag == {
        "rod 12-24 UNC": 1,
        "rod washer": 2,
        "screw 10-24 x 5/8 in": 2,
        "screw washer 14": 2,
        "screw 8-32 x 5/8 in": 2,
        "washer, 12.0 mm across, 1.0 mm thick": 2,
    }
    floor = {spare.sort.piece: spare.count for spare in
             spares_bag(strip_down(DRUMS["floor tom"], book=BOOK))}  # fmt: skip
    assert floor["Dunmarrow bullet gasket"] == floor["lug spring 8 x 28"] == 1
    assert floor["swivel nut M6"] == 1


def test_no_more_spares_than_the_drum_carries() -> None:
    one = Sort(piece="screw", kind="screw")
    few = StripDown(drum="d", lines=(replace(SNARE.lines[0], sort=one, count=1),))
    assert [spare.count for spare in spares_bag(few)] == [1]
