"""The table of likeness, and that a likelier drum never counts less."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.job.trade.features import Features
from counterhoop.job.trade.likeness import kernels, likeness

MINE = Features(
    dia_in=14.0,
    deep_in=6.5,
    kind="snare drum",
    line="Corvane Tarnbeck",
    made=(1960, 1964),
    finish="white pearl wrap",
    condition=frozenset({"edge chipped"}),
    complete=0.9,
    extra_holes=2,
    changed=frozenset({"strainer"}),
)


def whole(other: Features, mine: Features = MINE) -> float:
    return math.prod(float(table[0, 0]) for table in likeness([mine], [other]).values())


def one(feature: str, other: Features, mine: Features = MINE) -> float:
    return float(likeness([mine], [other])[feature][0, 0])


def test_every_row_of_the_table_can_be_used() -> None:
    assert len(kernels()) == 10
    assert sorted(row.let_go for row in kernels() if row.let_go) == [1, 2, 3, 4, 5, 6, 7, 8]
    for row in kernels():
        assert row.shape in ("bell", "word", "set")
        assert (row.width > 0.0) == (row.shape == "bell")
        assert (0.0 < row.unlike < 1.0) == (row.shape != "bell")
        assert 0.0 < row.unsaid < 1.0
        assert row.apart > 0.0
        assert row.because.endswith(".")
    assert {row.feature for row in kernels()} == likeness([MINE], [MINE]).keys()


def test_the_same_drum_counts_whole_however_it_is_written() -> None:
    assert whole(MINE) == 1.0
    assert whole(replace(MINE, line=" corvane  TARNBECK", finish="White pearl wrap")) == 1.0


@pytest.mark.parametrize(
    ("feature", "change", "counts"),
    [
        # Worked by hand from the table: exp(-(difference / width)^2 / 2), or unlike ^ differences.
        ("diameter", {"dia_in": 15.5}, math.exp(-2.0)),
        ("depth", {"deep_in": 5.5}, math.exp(-0.5)),
        ("years", {"made": (1967, 1970)}, math.exp(-0.125)),
        ("years", {"made": (1962, 1975)}, 1.0),
        ("line", {"line": "Dunmarrow"}, 0.15),
        ("line", {"line": ""}, 0.3),
        ("condition", {"condition": frozenset({"mould", "wrap shrunk"})}, 0.75**3),
        ("condition", {"condition": None}, 0.7),
        ("changed parts", {"changed": frozenset()}, 0.75),
        ("extra holes", {"extra_holes": 0}, math.exp(-0.5 * (math.log(3.0) / 0.7) ** 2)),
        ("completeness", {"complete": None}, 0.6),
    ],
)
def test_a_difference_counts_what_the_table_says(
    feature: str, change: dict[str, Any], counts: float
) -> None:
    other = replace(MINE, **change)
    assert one(feature, other) == pytest.approx(counts)
    assert whole(other) == pytest.approx(counts)
    assert one(feature, MINE, other) == pytest.approx(counts)


@given(
    st.sampled_from(["dia_in", "deep_in", "extra_holes", "complete", "years"]),
    st.tuples(st.integers(0, 20), st.integers(0, 20)),
    st.sampled_from([-1, 1]),
)
def test_the_nearer_of_two_never_counts_less(
    feature: str, steps: tuple[int, int], way: int
) -> None:
    near, far = sorted(steps)

    def moved(by: int) -> Features:
        if feature == "years":
            return replace(MINE, made=(1960 + way * by, 1964 + way * by))
        if feature == "extra_holes":
            return replace(MINE, extra_holes=2 + by)
        if feature == "complete":
            return replace(MINE, complete=0.9 - by / 25)
        return replace(MINE, **{feature: getattr(MINE, feature) + way * by / 8})

    assert 0.0 < whole(moved(far)) <= whole(moved(near)) <= 1.0


@given(
    st.frozensets(st.sampled_from("abcdef")),
    st.frozensets(st.sampled_from("abcdef")),
    st.sampled_from("abcdef"),
)
def test_a_fault_more_that_only_one_has_never_makes_them_liker(
    mine: frozenset[str], theirs: frozenset[str], fault: str
) -> None:
    a, b = replace(MINE, condition=mine), replace(MINE, condition=theirs)
    with_it = replace(MINE, condition=theirs | {fault})
    apart = len(mine ^ (theirs | {fault})) - len(mine ^ theirs)
    assert one("condition", with_it, a) == pytest.approx(one("condition", b, a) * 0.75**apart)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"dia_in": 355.6}, "diameter: no drum is of that size: found 355.6, wanted inches"),
        ({"deep_in": 0.0}, "depth: no drum"),
        ({"made": (1970, 1960)}, "the wrong way round: found '1970 to 1960'"),
        ({"complete": 90.0}, "not a share"),
        ({"extra_holes": -1}, "fewer than none"),
    ],
)
def test_what_no_drum_is_gets_refused(change: dict[str, Any], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        replace(MINE, **change)
