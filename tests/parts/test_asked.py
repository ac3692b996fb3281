"""Words and measurements in one line: what is read, what it means, and what is said of the rest."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.parts.asked import LONGEST, Asked, asked
from counterhoop.parts.asked_names import FILLERS, NAMES
from counterhoop.parts.dimension import Dimension
from counterhoop.quantities.print_length import CALIPER_MM, TAPE_MM

Read = list[tuple[Dimension, float, float]]


def read(found: Asked) -> Read:
    return [(m.dimension, round(m.value, 4), round(m.doubt, 4)) for m in found.measures]


@pytest.mark.parametrize(
    ("line", "words", "measures"),
    [
        (
            "single-ended, holes 42 +- 0.5, 24 to the inch",
            ("single-ended",),
            [(Dimension.HOLES_APART, 42.0, 0.5), (Dimension.PITCH, 1.0583, 0.02)],
        ),
        ("Holes 42 ± 1 mm", (), [(Dimension.HOLES_APART, 42.0, 1.0)]),
        ("holes 42.3", (), [(Dimension.HOLES_APART, 42.3, CALIPER_MM)]),
        ("holes 42,5 nickel", ("nickel",), [(Dimension.HOLES_APART, 42.5, TAPE_MM)]),
        ("holes 1⅝″", (), [(Dimension.HOLES_APART, 41.275, TAPE_MM)]),
        ("holes 1 5/8", (), [(Dimension.HOLES_APART, 41.275, TAPE_MM)]),
        ("hole .25in", (), [(Dimension.HOLE, 6.35, CALIPER_MM)]),
        ("holes between 40 and 44", (), [(Dimension.HOLES_APART, 42.0, 2.0)]),
        ("holes 40-44 mm", (), [(Dimension.HOLES_APART, 42.0, 2.0)]),
        (
            "lug 2 holes 42 mm apart",
            ("lug",),
            [(Dimension.HOLE_COUNT, 2.0, 0.0), (Dimension.HOLES_APART, 42.0, TAPE_MM)],
        ),
        (
            "24 mm wide holes 42",
            (),
            [(Dimension.BASE_WIDE, 24.0, TAPE_MM), (Dimension.HOLES_APART, 42.0, TAPE_MM)],
        ),
        ("wires 46 wide 20 strands", ("wires", "20", "strands"), [(Dimension.WIDE, 46.0, TAPE_MM)]),
        ("hoop 38 high", ("hoop",), [(Dimension.HIGH, 38.0, TAPE_MM)]),
        ("lug 57 high", ("lug",), [(Dimension.BASE_HIGH, 57.0, TAPE_MM)]),
        ("rod 12-24 x 42 mm", ("rod", "12-24"), [(Dimension.LENGTH, 42.0, TAPE_MM)]),
        ("rod M6 x 42", ("rod", "m6"), [(Dimension.LENGTH, 42.0, TAPE_MM)]),
        ("screw 5/8 in", ("screw",), [(Dimension.LENGTH, 15.875, TAPE_MM)]),
        ("M6x0.75", ("m6x0.75",), []),
        ("5 ears, inside 360 to 364", (), [(Dimension.EARS, 5, 0), (Dimension.INSIDE, 362, 2)]),
        ("61 g", (), [(Dimension.MASS, 61.0, 1.0)]),
        ("pitch 1 mm", (), [(Dimension.PITCH, 1.0, 0.02)]),
        ("hole in the shell: 6", (), [(Dimension.SHELL_HOLE, 6.0, TAPE_MM)]),
        ('chrome "old" (pitted) lug 412', ("chrome", "old", "pitted", "lug", "412"), []),
        ("", (), []),
    ],
)
def test_what_is_read(line: str, words: tuple[str, ...], measures: Read) -> None:
    """By hand: 1 in = 25.4 mm and 1/24 in = 1.0583 mm exactly; a rule is read to 0.5 mm, a
    caliper to 0.1 (common practice, no source)."""
    found = asked(line)
    assert (found.words, read(found), found.unread) == (words, measures, ())


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("holes 2", '2: how many, or how far apart? Write "2 holes" or "holes 2 mm".'),
        ("44 to 40 long", "the smaller end of a range comes first"),
        ("-5 mm long", "no part measures less than nothing"),
        ("holes 1,500", "the comma may mean thousands or a decimal"),
        ("holes 51/2 in", "a space may be missing"),
        ("pitch 24", "threads to the inch, or millimetres?"),
        ("pitch 1 to 2 mm", "one pitch at a time"),
        ("hoop 14 in", "14 in: of what?"),
        ("5.5 ears", "not a count"),
        ("500 to the inch", "no screw has that pitch"),
        ("long 61 g", "is not a unit of length"),
        ("holes 0 mm", "0 mm"),
    ],
)
def test_what_cannot_be_read_is_said_and_the_rest_is_kept(line: str, says: str) -> None:
    found = asked(f"{line}, chrome, bore 42 mm")
    assert len(found.unread) == 1
    assert says in found.unread[0]
    assert "chrome" in found.words
    assert read(found)[-1] == (Dimension.INSIDE, 42.0, TAPE_MM)


def test_one_dimension_is_asked_for_once() -> None:
    found = asked("holes 42 mm, holes 44 mm")
    assert read(found) == [(Dimension.HOLES_APART, 42.0, TAPE_MM)]
    assert found.unread == (
        '44 mm: holes apart was said before, 42 mm. Write a range such as "40 to 44 mm" if either'
        " will do.",
    )


def test_a_size_that_nothing_names_is_still_looked_for_as_words() -> None:
    assert asked("hoop 14 in").words == ("hoop", "14", "in")


def test_bare_lengths_are_in_what_the_person_works_in() -> None:
    """Exact: 1 in = 25.4 mm; what has a unit keeps it."""
    assert read(asked("holes 1.5, hole 6 mm", units="in")) == [
        (Dimension.HOLES_APART, 38.1, TAPE_MM),
        (Dimension.HOLE, 6.0, TAPE_MM),
    ]


def test_how_it_was_taken_is_said_no_finer_than_its_instrument() -> None:
    found = asked("holes 1 5/8 in, 2 ears, 61 g, 24 tpi")
    assert found.read_as == (
        "holes apart 41.5 mm, give or take 0.5 mm",
        "ears 2",
        "mass 61 g, give or take 1 g",
        "pitch 1.06 mm, 24 to the inch",
    )
    assert asked("pitch 0.75 mm").read_as == ("pitch 0.75 mm",)


def test_far_too_long_a_line_is_refused() -> None:
    with pytest.raises(BadInput, match="too long for one line"):
        asked("lug " * LONGEST)


LENGTHS = [
    (what, name)
    for what, names in NAMES.items()
    for name in names
    if what.unit == "mm" and what not in (Dimension.PITCH, Dimension.WIDE, Dimension.HIGH)
]


@pytest.mark.parametrize(("what", "name"), LENGTHS)
def test_every_name_is_read_before_and_after_its_number(what: Dimension, name: str) -> None:
    for line in (f"{name} 7.3 mm", f"7.3 mm {name}", f"lug, {name} of about 7.3, used"):
        found = asked(line)
        assert read(found) == [(what, 7.3, CALIPER_MM)], line
        assert found.unread == ()


@given(
    st.sampled_from(LENGTHS),
    st.integers(101, 9_999).filter(lambda tenths: tenths % 5),
    st.integers(1, 100),
)
def test_a_length_and_its_allowance_come_back_as_written(
    named: tuple[Dimension, str], tenths: int, give: int
) -> None:
    """Exact: what is written in tenths of a millimetre is read in tenths of a millimetre."""
    what, name = named
    found = asked(f"{name} {tenths / 10} +- {give / 10}")
    assert read(found) == [(what, tenths / 10, give / 10)]


PLAIN = st.text("abcdefghijklmnopqrstuvwxyz-", min_size=4, max_size=9).filter(
    lambda word: (
        word.strip("-") == word
        and word not in FILLERS
        and all(word not in name.split() for names in NAMES.values() for name in names)
    )
)


@given(st.lists(PLAIN, max_size=6))
def test_words_come_back_in_their_order(words: list[str]) -> None:
    assert asked(", ".join(words)).words == tuple(words)


@given(
    st.one_of(
        st.text(max_size=LONGEST),
        st.lists(
            st.sampled_from(
                [*"0123456789 .,/-+x'\"", "holes", "12-24", "m6", "in", "mm", "g", "to", "tpi"]
            ),
            max_size=60,
        ).map("".join),
    )
)
def test_no_line_is_a_fault_and_no_measurement_is_without_doubt(line: str) -> None:
    found = asked(line[:LONGEST])
    assert all(m.doubt > 0.0 or m.dimension.unit == "count" for m in found.measures)
    assert len(found.read_as) == len(found.measures)
    assert all(says.strip() for says in found.unread)


def test_every_dimension_has_a_name_and_no_name_has_two_meanings() -> None:
    assert set(NAMES) | {Dimension.HOLE_COUNT} == set(Dimension)  # "2 holes" counts them
    called = [name for names in NAMES.values() for name in names]
    assert len(called) == len(set(called))
