"""A listing tells each change and each extra hole, claims nothing unseen, and praises nothing."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.job.trade.facts import CHANGED, DrumFacts, ExtraHole, PartFact
from counterhoop.job.trade.listing import Listing, listing

PRAISE = re.compile(
    r"\b(rare|beautiful|stunning|superb|excellent|great|perfect|mint|lovely|amazing|iconic|vintage"
    r"|classic|fine|wonderful|fantastic|best|warm|rich|sought|collectors?|pristine|top|quality"
    r"|good|nice|unique|legendary|holy|must)\b",
    re.IGNORECASE,
)
WORDS = st.text(st.sampled_from("abc xyz\n\t.,-()'éß鼓"), min_size=1, max_size=12).filter(
    lambda text: text.strip(" \n\t.") != ""
)
PARTS = st.lists(
    st.builds(
        PartFact,
        name=WORDS,
        state=st.sampled_from([*CHANGED, "original", "of the period", "not sure"]),
        says=st.one_of(st.just(""), WORDS),
    ),
    max_size=8,
).map(tuple)
HOLES = st.lists(
    st.builds(
        ExtraHole,
        number=st.integers(1, 99),
        across_mm=st.integers(2, 60).map(float),
        where=WORDS,
        state=st.sampled_from(["open", "plugged", "covered"]),
        sure=st.booleans(),
    ),
    max_size=8,
    unique_by=lambda hole: hole.number,
).map(tuple)
SNARE = DrumFacts(kind="snare drum", dia_in=14.0, deep_in=6.5)
WHOLE = DrumFacts(
    kind="snare drum", dia_in=14.0, deep_in=6.5, line="Corvane Tarnbeck", serial="18254",
    made="1962 to 1966 by its badge and lugs", shell="three plies, mahogany outside, with rings",
    finish="white pearl wrap, shrunk at the seam", edges="trued by us in 2026",
    parts=(
        PartFact(name="lugs", state="original", says="eight"),
        PartFact(name="strainer", state="later", says="a modern copy."),
        PartFact(name="batter hoop", state="missing"),
        PartFact(name="damper", state="not sure"),
    ),
    holes_counted=True,
    extra_holes=(
        ExtraHole(number=9, across_mm=6.0, where="between lugs 3 and 4", state="plugged"),
        ExtraHole(number=14, across_mm=5.5, where="", state="open", sure=False),
    ),
    faults=("chrome pitted on two lugs",), work_done=("one hole plugged",),
    comes_with=("the old wires in a bag",), not_known=("who drilled hole 9",),
)  # fmt: skip


def on_one_line(text: str) -> str:
    return " ".join(text.split()).removesuffix(".")


def part_of(told: Listing, head: str) -> list[str]:
    (found,) = [one.split("\n")[1:] for one in told.paragraphs if one.startswith(f"{head}")]
    return found


@given(PARTS, HOLES, st.booleans())
def test_each_changed_part_and_each_extra_hole_is_told(
    parts: tuple[PartFact, ...], holes: tuple[ExtraHole, ...], counted: bool
) -> None:
    drum = replace(SNARE, parts=parts, extra_holes=holes, holes_counted=counted)
    told = listing(drum)
    if drum.changed:
        lines = part_of(told, "Changed or missing:")
        assert len(lines) == len(drum.changed)
        for part, line in zip(drum.changed, lines, strict=True):
            assert line.startswith(f"- {on_one_line(part.name)}: {part.state}")
            assert on_one_line(part.says) in line
        assert "changed parts" in told.title
    if holes:
        (paragraph,) = [
            one for one in told.paragraphs if re.match(r"\d+ (extra|that may|holes? that may)", one)
        ]
        head, *lines = paragraph.split("\n")
        assert sum(map(int, re.findall(r"\d+", head))) == len(holes) == len(lines)
        for hole, line in zip(holes, lines, strict=True):
            assert line.startswith(f"- hole {hole.number}: {hole.across_mm:g} mm across, ")
            assert hole.state in line
            assert on_one_line(hole.where) in line
            assert ("perhaps the factory" in line) != hole.sure
    assert ("extra holes" in told.title) == any(hole.sure for hole in holes)
    assert ("No extra holes were found." in told.paragraphs) == (counted and not holes)


@given(PARTS)
def test_what_nobody_can_tell_is_never_called_original(parts: tuple[PartFact, ...]) -> None:
    told = listing(replace(SNARE, parts=parts))
    kept = "".join(one for one in told.paragraphs if "as far as can be told" in one)
    assert bool(kept) == any(part.state in ("original", "of the period") for part in parts)
    unsure = [on_one_line(part.name) for part in parts if part.state == "not sure"]
    unknown = part_of(told, "What could not be known:")
    for name in unsure:
        assert any(line.startswith(f"- {name}: can't tell") for line in unknown)


def test_a_drum_of_which_nothing_is_known_says_so() -> None:
    told = listing(SNARE)
    assert told.title == "snare drum, 14 dia x 6.5 deep"
    assert told.paragraphs == (
        "Snare drum, 14 dia x 6.5 deep in inches as it is called (about 356 mm dia x 165 mm deep).",
        "What could not be known:\n"
        "- when it was made\n"
        "- which parts are its own: they were not gone over\n"
        "- whether there are more holes: they were not all counted",
    )


def test_a_whole_listing_as_it_reads() -> None:
    """Golden text, read over by hand; the laws above prove what must be in it."""
    assert listing(WHOLE).text == (
        "Corvane Tarnbeck snare drum, 14 dia x 6.5 deep, with changed parts and extra holes\n\n"
        "Snare drum, 14 dia x 6.5 deep in inches as it is called (about 356 mm dia x 165 mm deep). "
        "Line: Corvane Tarnbeck. Serial number: 18254. Made: 1962 to 1966 by its badge and lugs. "
        "Shell: three plies, mahogany outside, with rings. Finish: white pearl wrap, shrunk at the "
        "seam. Bearing edges: trued by us in 2026.\n\n"
        "Changed or missing:\n- strainer: later (a modern copy)\n- batter hoop: missing\n\n"
        "Original, as far as can be told: lugs (eight).\n\n"
        "1 extra hole and 1 that may be extra:\n"
        "- hole 9: 6 mm across, plugged, between lugs 3 and 4\n"
        "- hole 14: 5.5 mm across, open, perhaps the factory made it\n\n"
        "Wrong with it:\n- chrome pitted on two lugs\n\n"
        "Done to it:\n- one hole plugged\n\n"
        "Comes with it:\n- the old wires in a bag\n\n"
        "What could not be known:\n- who drilled hole 9\n"
        "- damper: can't tell whether its own\n"
        "- hole 14: can't tell whether the factory made it"
    )


@pytest.mark.parametrize(("many", "head"), [(1, "1 hole that may"), (2, "2 holes that may")])
def test_holes_of_which_none_is_surely_extra_are_called_holes(many: int, head: str) -> None:
    unsure = [replace(WHOLE.extra_holes[0], number=n, sure=False) for n in range(many)]
    told = listing(replace(WHOLE, extra_holes=tuple(unsure)))
    assert f"{head} be extra:\n- hole 0" in told.text
    assert "extra holes" not in told.title


def test_no_word_of_its_own_praises() -> None:
    assert PRAISE.search("A Rare drum")
    for drum in (SNARE, WHOLE, replace(SNARE, holes_counted=True)):
        assert PRAISE.search(listing(drum).text) is None


def test_slips_are_refused() -> None:
    with pytest.raises(BadInput, match="what is it"):
        replace(SNARE, kind=" ")
    with pytest.raises(BadInput, match="without a size"):
        replace(SNARE, deep_in=0.0)
    with pytest.raises(BadInput, match="a part without a name"):
        PartFact(name=" ", state="later")
    with pytest.raises(BadInput, match="two extra holes of one number"):
        replace(WHOLE, extra_holes=WHOLE.extra_holes[:1] * 2)


def test_the_head_says_when_every_extra_hole_is_plugged() -> None:
    """By hand: one of two open is an extra hole to a buyer; all plugged is another thing."""
    first, other = (replace(hole, state="plugged", sure=True) for hole in WHOLE.extra_holes)
    plain = replace(SNARE, extra_holes=(first, other))
    assert listing(plain).title == "snare drum, 14 dia x 6.5 deep, with plugged extra holes"
    opened = replace(SNARE, extra_holes=(first, replace(other, state="open")))
    assert listing(opened).title.endswith(", with extra holes")
