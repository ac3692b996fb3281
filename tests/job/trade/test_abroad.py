"""Before posting abroad: listed timbers, what burns, what is of an animal, size and weight.

What is listed: CITES Appendices and their annotations, dangerous goods numbers (from memory).
"""

from __future__ import annotations

from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput, Finding, Grade
from counterhoop.job.trade.abroad import Goods, before_posting
from counterhoop.job.trade.made_of import CHECK, KINDS, about, listed
from counterhoop.job.trade.parcel import Limits, Parcel, against_limits

MAPLE = Goods(timbers=("maple",), nitrate="no", finished=True)
NO_LIMITS = Limits(carrier="")
BOX = Parcel(sides_mm=(480.0, 480.0, 330.0), weight_kg=7.2)


def codes(found: tuple[Finding, ...]) -> list[tuple[str, Grade]]:
    return [(one.code, one.grade) for one in found]


def test_every_row_of_the_table_can_be_used() -> None:
    names = [(row.kind, name) for row in listed() for name in row.names]
    assert len(set(names)) == len(names)
    for row in listed():
        assert row.kind in KINDS
        assert row.says
        assert not row.says.endswith(".")
        assert (row.grade is None) == (row.remedy == "")
        for name in row.names:
            found = about(name, kind=row.kind)
            assert [one.grade for one in found] == ([] if row.grade is None else [row.grade])
            assert all(row.says in one.says and one.rule == str(row.source) for one in found)


@pytest.mark.parametrize(
    ("words", "grades", "says"),
    [
        ("Brazilian  Rosewood veneer", [Grade.STOP], "Appendix I since 1992"),
        ("Indian rosewood", [Grade.TAKE_CARE], "all of Dalbergia"),
        ("African mahogany", [Grade.TAKE_CARE], "Khaya"),
        ("mahogany", [Grade.TAKE_CARE], "Swietenia"),
        ("Philippine mahogany", [], ""),
        ("maple/poplar/maple", [], ""),
        ("maple and ebony", [Grade.TAKE_CARE], "Madagascar"),
        ("maple over mahogany, rosewoods inside", [Grade.TAKE_CARE] * 2, "Swietenia"),
        ("maple and zebrano", [Grade.TAKE_CARE], "zebrano is in no row here"),
        ("washed", [Grade.TAKE_CARE], "in no row"),  # "ash" is not looked for inside a word
        ("", [], ""),
    ],
)
def test_a_timber_by_its_words(words: str, grades: list[Grade], says: str) -> None:
    found = about(words, kind="timber")
    assert [one.grade for one in found] == grades
    assert all(CHECK in one.remedy for one in found)
    assert not says or says in " ".join(one.says for one in found)


def test_ornaments_and_skins() -> None:
    assert codes(about("ivory", kind="ornament")) == [("abroad-ornament", Grade.STOP)]
    assert codes(about("mother-of-pearl", kind="ornament")) == [("abroad-ornament", Grade.NOTE)]
    assert codes(about("calfskin", kind="skin")) == [("abroad-skin", Grade.TAKE_CARE)]
    assert codes(about("monitor lizard", kind="skin")) == [("abroad-skin", Grade.STOP)]


@pytest.mark.parametrize("nitrate", ["maybe", "yes"])
def test_what_may_be_celluloid_stops_until_the_carrier_says_yes(
    nitrate: Literal["maybe", "yes"],
) -> None:
    goods = Goods(timbers=("maple",), nitrate=nitrate, finished=True)
    first = before_posting(goods, parcel=BOX, limits=NO_LIMITS)[0]
    assert (first.code, first.grade) == ("abroad-nitrate", Grade.STOP)
    assert "UN 2000" in first.rule
    assert "yes in writing" in first.remedy
    assert "abroad-nitrate" not in dict(codes(before_posting(MAPLE, parcel=BOX, limits=NO_LIMITS)))


def test_a_plain_drum_has_only_the_papers_and_what_was_not_typed() -> None:
    assert codes(before_posting(MAPLE, parcel=BOX, limits=NO_LIMITS)) == [
        ("parcel-limits-untyped", Grade.NOTE),
        ("abroad-papers", Grade.NOTE),
    ]
    assert codes(before_posting(MAPLE, parcel=None, limits=NO_LIMITS)) == [
        ("parcel-not-measured", Grade.NOTE),
        ("abroad-papers", Grade.NOTE),
    ]


def test_silence_on_the_timber_and_a_bare_shell_are_told() -> None:
    silent = Goods(timbers=(), nitrate="no", finished=True)
    assert codes(before_posting(silent, parcel=BOX, limits=NO_LIMITS))[0] == (
        "abroad-timber-unsaid",
        Grade.TAKE_CARE,
    )
    bare = Goods(timbers=("mahogany",), nitrate="no", finished=False)
    assert dict(codes(before_posting(bare, parcel=BOX, limits=NO_LIMITS))) == {
        "abroad-timber": Grade.TAKE_CARE,
        "abroad-not-finished": Grade.TAKE_CARE,
        "parcel-limits-untyped": Grade.NOTE,
        "abroad-papers": Grade.NOTE,
    }


def test_the_gravest_come_first_and_nothing_twice() -> None:
    goods = Goods(
        timbers=("Brazilian rosewood", "Brazilian rosewood", "maple"),
        nitrate="maybe",
        finished=True,
        ornaments=("abalone",),
        skins=("calf",),
    )
    found = before_posting(goods, parcel=BOX, limits=NO_LIMITS)
    assert [one.grade for one in found] == sorted((one.grade for one in found), reverse=True)
    assert len(set(found)) == len(found) == 6


def test_length_and_girth_worked_by_hand() -> None:
    """480 long, 2 x (480 + 330) round: 2100 together."""
    assert (BOX.longest_mm, BOX.girth_mm) == (480.0, 1620.0)

    def held(together_mm: float) -> list[tuple[str, Grade]]:
        limits = Limits(
            carrier="post", longest_mm=600.0, length_and_girth_mm=together_mm, weight_kg=10.0
        )
        return codes(against_limits(BOX, limits))

    assert held(2200.0) == []
    assert held(2110.0) == [("parcel-girth", Grade.TAKE_CARE)]
    assert held(2095.0) == [("parcel-girth", Grade.TAKE_CARE)]
    assert held(2000.0) == [("parcel-girth", Grade.STOP)]


def test_weight_and_longest_side() -> None:
    limits = Limits(carrier="van", longest_mm=400.0, length_and_girth_mm=None, weight_kg=7.25)
    longest, weight, untyped = against_limits(BOX, limits)
    assert longest.says == "The parcel is 480 mm long, and van takes 400 mm."
    assert (longest.grade, longest.too_close) == (Grade.STOP, False)
    assert weight.says == "The parcel weighs 7.2 kg, and van takes 7.25 kg: too close to call."
    assert (weight.grade, weight.too_close) == (Grade.TAKE_CARE, True)
    assert untyped.says == "Not checked, no limit typed: length and girth."


@given(st.permutations([310.0, 470.0, 520.0]), st.floats(100.0, 3000.0), st.floats(0.0, 500.0))
def test_turning_the_box_changes_nothing_and_a_looser_limit_is_never_graver(
    sides: list[float], limit_mm: float, looser_mm: float
) -> None:
    a, b, c = sides
    turned = Parcel(sides_mm=(a, b, c), weight_kg=5.0)
    straight = Parcel(sides_mm=(310.0, 470.0, 520.0), weight_kg=5.0)

    def gravest(box: Parcel, limit: float) -> int:
        limits = Limits(carrier="x", longest_mm=limit, length_and_girth_mm=limit, weight_kg=9.0)
        return max((one.grade for one in against_limits(box, limits)), default=0)

    assert gravest(turned, limit_mm) == gravest(straight, limit_mm)
    assert gravest(turned, limit_mm + looser_mm) <= gravest(turned, limit_mm)


def test_a_parcel_without_a_size_is_refused() -> None:
    for sides, weight in (((0.0, 1.0, 1.0), 1.0), ((1.0, 1.0, 1.0), float("nan"))):
        with pytest.raises(BadInput, match="without a size"):
            Parcel(sides_mm=sides, weight_kg=weight)
