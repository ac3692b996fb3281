"""What an unknown part may be. Truth: Bayes' rule worked by hand, and laws of odds."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import exponnorm

from counterhoop.fittings.read_book import packaged_book
from counterhoop.parts.dimension import Dimension, Measured, read_measured
from counterhoop.parts.piece import Piece
from counterhoop.parts.unknown.candidate import Candidate, Candidates, candidates_of
from counterhoop.parts.unknown.density import BY, OUT_OF_TRUE
from counterhoop.parts.unknown.odds import Odds, Seen, odds

BOOK = candidates_of(packaged_book())
APART, HIGH, EARS = Dimension.HOLES_APART, Dimension.BASE_HIGH, Dimension.EARS


def read(dimension: Dimension, text: str) -> Measured:
    return read_measured(dimension, text)


def named(result: Odds) -> list[str]:
    return [one.candidate.name for one in result.ranked]


def lug(name: str, across_mm: float, commonness: float = 1.0) -> Candidate:
    return Candidate(
        name=name,
        kind="lug",
        dims={Dimension.BASE_WIDE: across_mm},
        spread={Dimension.BASE_WIDE: 0.2},
        worn={Dimension.BASE_WIDE: 0.1},
        commonness=commonness,
    )


def test_two_lugs_by_bayes_rule_worked_by_hand() -> None:
    two = Candidates((lug("narrow", 24.0, commonness=3.0), lug("wide", 24.8)))
    result = odds([Measured(dimension=Dimension.BASE_WIDE, value=24.3, doubt=0.3)], two)
    sd = math.hypot(0.2, 0.3 / math.sqrt(3.0))

    def fit(off: float) -> float:
        held = [exponnorm.pdf(-off, 0.1 / sd, scale=by * sd) for by in (1.0, BY)]
        return float((1.0 - OUT_OF_TRUE) * held[0] + OUT_OF_TRUE * held[1])

    by_name = {one.candidate.name: one.odds for one in result.ranked}
    ratio = by_name["narrow"] / by_name["wide"]
    assert math.isclose(ratio, 3.0 * fit(0.3) / fit(-0.5), rel_tol=1e-9)
    assert math.isclose(sum(by_name.values()) + result.none, 1.0, rel_tol=1e-9)


def test_the_lug_of_the_book_is_found_and_the_one_beside_it_is_not() -> None:
    holes = odds([read(APART, "42.1 mm")], BOOK, seen=Seen(kind="lug"))
    assert set(named(holes)[:2]) == {"Corvane round lug", "Corvane round bass lug"}
    assert holes.word == "could be"
    both = odds([read(APART, "42.1 mm"), read(HIGH, "61.8 mm")], BOOK, seen=Seen(kind="lug"))
    assert (named(both)[0], both.word) == ("Corvane round bass lug", "almost sure")
    assert both.says == "It is almost surely Corvane round bass lug."


def test_none_of_these_wins_when_nothing_fits() -> None:
    result = odds(
        [read(APART, "47.5 mm"), read(HIGH, "71 mm"), read(Dimension.REACH, "9 mm")],
        BOOK,
        seen=Seen(kind="lug"),
    )
    assert result.nothing_fits
    assert result.none > 0.95
    assert result.word == "can't tell"
    assert "none of the book" in result.says
    assert {one.candidate.kind for one in result.like} == {"lug"}
    assert f"most like {result.like[0].candidate.name}" in result.says
    assert abs(result.like[0].penalties[0].sigmas) > 3.0


def test_nothing_measured_tells_nothing() -> None:
    result = odds([], BOOK)
    assert result.word == "can't tell"
    assert not result.nothing_fits
    assert math.isclose(result.none, 0.1)
    none_at_all = odds([read(APART, "42 mm")], Candidates(()))
    assert none_at_all.nothing_fits
    assert none_at_all.ranked == ()


def test_the_penalties_say_what_a_colleague_would() -> None:
    result = odds([read(APART, "42.1 mm"), read(HIGH, "54.0 mm")], BOOK, seen=Seen(kind="lug"))
    (found,) = [one for one in result.ranked if one.candidate.name == "Corvane round lug"]
    off, fits = found.penalties
    assert (
        off.says
        == "base high 54.0 mm: 3.0 mm less than its 57.0 mm, too far off for one of its make"
    )
    assert (off.dimension, round(off.by, 6)) == (HIGH, -3.0)
    assert fits.says == "holes apart 42.1 mm: fits its 42.0 mm"


def test_the_side_of_a_square_of_holes_is_told_from_what_is_none_of_these() -> None:
    """Four holes 30 mm apart each way: 42.4 mm from corner to corner (Pythagoras)."""
    for text, says in (
        ("42.4 mm", "holes apart 42.4 mm: fits its 42.4 mm"),
        (
            "30.1 mm",
            "holes apart 30.1 mm: so far its neighbouring holes are apart; the two farthest are "
            "42.4 mm",
        ),
    ):
        found = odds([read(APART, text)], BOOK, seen=Seen(kind="spur"))
        assert named(found)[0] == "Corvane spur"
        assert not found.nothing_fits
        assert found.ranked[0].penalties[0].says == says
    between = odds([read(APART, "36.0 mm")], BOOK, seen=Seen(kind="spur"))
    assert between.nothing_fits


@pytest.mark.parametrize("text", ["1 1/4 in", "1 1/8 in", "31 mm", "31.3 mm", "29.2 mm"])
def test_the_figures_of_a_penalty_add_up(text: str) -> None:
    for instrument in ("rule", "caliper"):
        reading = read_measured(APART, text, instrument=instrument)
        (found,) = odds([reading], Candidates((apart_of(30.1),))).like[0].penalties
        at, off, size = (float(one) for one in re.findall(r"([0-9.]+) mm", found.says))
        assert math.isclose(abs(at - size), off, abs_tol=1e-9)


def apart_of(mm: float) -> Candidate:
    one = lug("narrow", 24.0)
    return replace(one, dims={APART: mm}, spread={APART: 0.2}, worn={APART: 0.0})


def test_a_piece_is_said_as_its_card_has_it() -> None:
    wide = Dimension.BASE_WIDE
    piece = Piece(id="1", number="1", kind="lug", says="odd", measured=(read(wide, "44.2 mm"),))
    found = odds([read(wide, "44.2 mm")], candidates_of((), [piece]))
    assert found.like[0].penalties[0].says == "base wide 44.2 mm: fits its 44.2 mm"


def test_wear_takes_metal_away_and_never_puts_it_on() -> None:
    one = Candidates((lug("narrow", 24.0),))
    thin, thick = (
        odds([Measured(dimension=Dimension.BASE_WIDE, value=value, doubt=0.1)], one)
        for value in (23.4, 24.6)
    )
    assert thin.none < thick.none


def test_of_two_readings_the_surer_counts() -> None:
    rough = Measured(dimension=APART, value=40.0, doubt=0.5)
    fine = Measured(dimension=APART, value=42.0, doubt=0.1)
    for order in ([rough, fine], [fine, rough]):
        assert odds(order, BOOK).measured == (fine,)


def test_the_kind_that_was_seen_may_be_wrong_but_seldom() -> None:
    plain = odds([read(APART, "44 mm")], BOOK)
    as_lug = odds([read(APART, "44 mm")], BOOK, seen=Seen(kind="lug"))

    def lugs(result: Odds) -> float:
        return sum(one.odds for one in result.ranked if one.candidate.kind == "lug")

    assert lugs(as_lug) > lugs(plain)
    assert lugs(as_lug) < 1.0


def test_a_piece_of_the_shelf_is_a_candidate_and_a_known_one_makes_its_entry_commoner() -> None:
    odd = Piece(
        id="9",
        number="L-9",
        kind="lug",
        says="lug from the blue box",
        measured=(read(APART, "47.5 mm"), read(HIGH, "71.0 mm")),
    )
    bare = replace(odd, id="10", number="L-10", says="")
    assert candidates_of([], [odd, bare]).each[1].name == "piece L-10"
    known = Piece(id="8", number="L-8", kind="lug", fitting="corvane  round LUG")
    shelf = candidates_of(packaged_book(), [odd, known, known])
    assert len(shelf) == len(BOOK) + 1
    found = odds(odd.measured, shelf)
    assert found.ranked[0].candidate.piece_id == "9"
    assert found.word == "almost sure"
    share = {one.name: one.commonness for one in shelf}
    assert math.isclose(share["Corvane round lug"] / share["Corvane round bass lug"], 3.0)


def test_a_finish_or_material_that_differs_speaks_against_it() -> None:
    pieces = [
        Piece(id=metal, number=metal, kind="claw", says=metal, material=metal, measured=(reading,))
        for metal in ("zinc", "steel")
        for reading in (read(Dimension.HOLE, "7.1 mm"),)
    ]
    seen = Seen(kind="claw", material="Steel")
    by_name = {
        one.candidate.name: one.odds
        for one in odds(
            [read(Dimension.HOLE, "7.1 mm")], candidates_of((), pieces), seen=seen
        ).ranked
    }
    assert math.isclose(by_name["zinc"] / by_name["steel"], 0.1, rel_tol=1e-9)


READINGS = st.lists(
    st.builds(
        lambda what, value, doubt: Measured(
            dimension=what,
            value=float(round(value)) if what.unit == "count" else value,
            doubt=0.0 if what.unit == "count" else doubt,
        ),
        st.sampled_from(list(Dimension)),
        st.floats(0.0, 1e4),
        st.floats(1e-3, 50.0),
    ),
    max_size=8,
)


@settings(max_examples=40)
@given(READINGS, st.randoms())
def test_odds_are_odds_whatever_was_measured_in_whatever_order(
    readings: list[Measured], chance: object
) -> None:
    once_each = list({one.dimension: one for one in readings}.values())
    result = odds(once_each, BOOK)
    whole = sum(one.odds for one in result.ranked) + result.none
    assert 0.0 <= result.none <= 1.0 + 1e-9
    assert 0.75 <= whole <= 1.0 + 1e-9
    assert math.isfinite(whole)
    turned = odds(once_each[::-1], BOOK)
    assert turned.none == pytest.approx(result.none, rel=1e-9, abs=1e-12)
    assert result.says.endswith(".")


def test_a_bound_of_words_is_the_surveys() -> None:
    one = odds([], BOOK).ranked[0]

    def said(share: float) -> str:
        return Odds(
            measured=(), seen=Seen(), ranked=(replace(one, odds=share),), none=1.0 - share
        ).word

    assert [said(share) for share in (0.96, 0.8, 0.55, 0.45)] == [
        "almost sure",
        "likely",
        "could be",
        "can't tell",
    ]


def test_what_is_named_beside_the_leader() -> None:
    first, second = odds([], BOOK).ranked[:2]

    def says(*shares: float, none: float) -> str:
        ranked = tuple(
            replace(one, odds=share) for one, share in zip((first, second), shares, strict=False)
        )
        return Odds(measured=(), seen=Seen(), ranked=ranked, none=none).says

    leader, other = first.candidate.name, second.candidate.name
    assert says(0.97, none=0.03) == f"It is almost surely {leader}."
    assert says(0.7, 0.25, none=0.05) == (
        f"It is likely {leader}; it could also be {other} or none of the book and the shelf."
    )
    assert says(0.45, 0.45, none=0.1).startswith(f"It could be {leader}; it could also be {other}")
    assert says(0.02, none=0.97).startswith("It is almost surely none of the book")
    assert says(0.15, 0.1, none=0.3) == "Can't tell yet: 2 sorts fit about as well."


def test_a_slip_on_one_card_makes_nobody_elses_odds_void() -> None:
    # Worked by hand: 0.03 mm less a tenth of wear would be a hole of less than nothing.
    slip = Measured(dimension=Dimension.HOLE, value=0.03, doubt=0.1)
    nothing = Measured(dimension=Dimension.REACH, value=0.0, doubt=0.1)
    piece = Piece(id="1", number="1", kind="claw", measured=(slip, nothing))
    flush = replace(packaged_book().find("Corvane round lug"), name="flush", rod_line_mm=0.0)
    with_slips = candidates_of([*packaged_book(), flush], [piece])
    for what in (Dimension.HOLE, Dimension.REACH, Dimension.ROD_LINE):
        taken = [read(what, "6 mm")]
        found, before = odds(taken, with_slips), odds(taken, BOOK)
        assert math.isclose(sum(one.odds for one in found.ranked) + found.none, 1.0, abs_tol=0.02)
        assert math.isclose(found.none, before.none, abs_tol=0.1), what


def test_a_kind_is_one_whatever_its_capitals() -> None:
    odd = (read(APART, "47.5 mm"), read(HIGH, "71 mm"))
    pieces = [
        Piece(id=kind, number=kind, kind=kind, measured=odd)
        for kind in ("Lug", "Gong nut", "gong  nut")
    ]
    found = candidates_of(packaged_book(), pieces)
    assert {*found.kinds} - {*BOOK.kinds} == {"Gong nut"}
