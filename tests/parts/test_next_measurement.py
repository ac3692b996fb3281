"""What to measure next. Truth: entropies worked by hand, and limits of any information."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.fittings.read_book import packaged_book
from counterhoop.parts.dimension import Dimension, read_measured
from counterhoop.parts.unknown.candidate import Candidate, Candidates, candidates_of
from counterhoop.parts.unknown.next_measurement import (
    entropy_bits,
    expected_drop_bits,
    measurements,
    next_measurement,
)
from counterhoop.parts.unknown.odds import Seen, odds

BOOK = candidates_of(packaged_book())
EVEN = np.array([0.5, 0.5])


def test_entropies_worked_by_hand() -> None:
    assert entropy_bits(np.full(8, 1.0 / 8.0)) == 3.0
    assert entropy_bits(np.array([1.0, 0.0])) == 0.0
    quarter = 2.0 - 0.75 * math.log2(3.0)
    assert math.isclose(entropy_bits(np.array([0.25, 0.75])), quarter)


def test_a_coin_that_is_read_wrong_one_time_in_ten() -> None:
    # The capacity of a binary channel: 1 - H(0.1) = 0.531 bits.
    channel = np.array([[0.9, 0.1], [0.1, 0.9]])
    drop = expected_drop_bits(EVEN, channel, np.ones(2))
    assert math.isclose(drop, 1.0 + 0.1 * math.log2(0.1) + 0.9 * math.log2(0.9))


def test_alike_tells_nothing_and_apart_tells_all() -> None:
    nodes = np.linspace(-5.0, 15.0, 4001)

    def bell(middle: float) -> np.ndarray:
        return np.exp(-0.5 * (nodes - middle) ** 2)

    weights = np.gradient(nodes)
    same = expected_drop_bits(EVEN, np.column_stack((bell(0.0), bell(0.0))), weights)
    apart = expected_drop_bits(EVEN, np.column_stack((bell(0.0), bell(10.0))), weights)
    assert abs(same) < 1e-12
    assert abs(apart - 1.0) < 1e-5
    # Four candidates, two of each size: one of two bits is told.
    pairs = np.column_stack((bell(0.0), bell(0.0), bell(10.0), bell(10.0)))
    assert abs(expected_drop_bits(np.full(4, 0.25), pairs, weights) - 1.0) < 1e-5


def test_two_bells_as_a_published_integral() -> None:
    # Information of two equal normals 2 sd apart by sampling, independent of the nodes.
    nodes = np.linspace(-8.0, 10.0, 2001)
    held = np.column_stack([np.exp(-0.5 * (nodes - at) ** 2) for at in (0.0, 2.0)])
    ours = expected_drop_bits(EVEN, held, np.gradient(nodes))
    drawn = np.random.default_rng(7).normal(size=400_000)
    sampled = 1.0 - np.mean(np.log2(1.0 + np.exp(2.0 * drawn - 2.0)))
    assert abs(ours - sampled) < 0.005


@given(
    st.lists(st.floats(0.01, 1.0), min_size=2, max_size=6),
    st.integers(2, 12),
    st.integers(0, 2**32 - 1),
)
def test_no_reading_tells_less_than_nothing_or_more_than_all(
    raw: list[float], nodes: int, seed: int
) -> None:
    shares = np.array(raw) / sum(raw)
    held = np.random.default_rng(seed).random((nodes, len(shares)))
    drop = expected_drop_bits(shares, held, np.ones(nodes))
    assert -1e-12 <= drop <= entropy_bits(shares) + 1e-9


def test_lugs_that_share_their_holes_are_told_by_their_height() -> None:
    found = odds([read_measured(Dimension.HOLES_APART, "42.1 mm")], BOOK, seen=Seen(kind="lug"))
    told = next_measurement(found, BOOK)
    assert told is not None
    assert told.dimension is not Dimension.HOLES_APART
    assert told.drop_bits > 0.9
    assert told.says.startswith(told.dimension.about.taken)
    assert "Corvane round lug has" in told.says


def test_what_is_sure_needs_no_more_measuring() -> None:
    read = [
        read_measured(Dimension.HOLES_APART, "42.1 mm"),
        read_measured(Dimension.BASE_HIGH, "57.0 mm"),
        read_measured(Dimension.REACH, "20.0 mm"),
    ]
    assert next_measurement(odds(read, BOOK, seen=Seen(kind="lug")), BOOK) is None


def two(dims: dict[Dimension, tuple[float, float]]) -> Candidates:
    return Candidates(
        tuple(
            Candidate(
                name=name,
                kind="lug",
                dims={what: sizes[at] for what, sizes in dims.items()},
                spread=dict.fromkeys(dims, 0.2),
                worn=dict.fromkeys(dims, 0.0),
            )
            for at, name in enumerate(("one", "other"))
        )
    )


def test_trouble_counts_when_two_measurements_tell_as_much() -> None:
    both = two({Dimension.BASE_HIGH: (40.0, 60.0), Dimension.ROD_LINE: (8.0, 12.0)})
    assert Dimension.BASE_HIGH.about.minutes < Dimension.ROD_LINE.about.minutes
    offered = measurements(odds([], both), both)
    assert [one.dimension for one in offered] == [Dimension.BASE_HIGH, Dimension.ROD_LINE]


def test_the_worth_of_a_measurement_is_not_its_ease_alone() -> None:
    both = two({Dimension.HOLE_COUNT: (2.0, 2.0), Dimension.ROD_LINE: (8.0, 12.0)})
    told = next_measurement(odds([], both), both)
    assert told is not None
    assert told.dimension is Dimension.ROD_LINE


def test_a_count_that_none_of_the_likely_states_is_offered_and_tells_little() -> None:
    both = two({Dimension.BASE_HIGH: (40.0, 40.4)})
    holed = Candidate(
        name="third", kind="lug", dims={Dimension.HOLE_COUNT: 1e9, Dimension.BASE_HIGH: 90.0},
        spread={Dimension.HOLE_COUNT: 0.0, Dimension.BASE_HIGH: 0.2},
        worn={Dimension.HOLE_COUNT: 0.0, Dimension.BASE_HIGH: 0.0}, commonness=1e-9,
    )  # fmt: skip
    three = Candidates((*both.each, holed))
    found = odds([read_measured(Dimension.BASE_HIGH, "40.1 mm")], three)
    assert "third" not in {one.candidate.name for one in found.ranked}
    (offered,) = measurements(found, three)
    assert offered.dimension is Dimension.HOLE_COUNT
    assert offered.drop_bits < 0.1


@pytest.mark.parametrize("kind", ["lug", "rod", "hoop", "screw", "washer"])
def test_following_the_advice_finds_the_part(kind: str) -> None:
    """Someone who measures what is asked for, without error, ends almost sure or with twins."""
    truth = next(one for one in BOOK if one.kind == kind)
    read = []
    found = odds(read, BOOK, seen=Seen(kind=kind))
    while (told := next_measurement(found, BOOK)) is not None and told.dimension in truth.dims:
        assert told.dimension not in {one.dimension for one in found.measured}
        size = truth.dims[told.dimension]
        unit = {"mm": " mm", "g": " g", "count": ""}[told.dimension.unit]
        written = f"{size:.0f}" if unit == "" else f"{size:.2f}{unit}"
        read.append(read_measured(told.dimension, written))
        found = odds(read, BOOK, seen=Seen(kind=kind))
    assert 1 <= len(read) <= 6
    leaders = [one for one in found.ranked if one.odds >= found.ranked[0].odds / 2.0]
    assert truth.name in {one.candidate.name for one in leaders}
    assert len(leaders) <= 2
