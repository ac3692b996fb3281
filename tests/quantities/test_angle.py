"""Angles: read, turned into [0, 360), and the shorter way round."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.quantities.angle import difference_deg, parse_angle, print_deg, turned_deg


@pytest.mark.parametrize(
    ("text", "deg"),
    [
        ("22.5 deg", Fraction(45, 2)),
        ("22.5°", Fraction(45, 2)),
        ("22,5 deg", Fraction(45, 2)),
        ("22 1/2 degrees", Fraction(45, 2)),
        ("22½º", Fraction(45, 2)),
        ("90deg.", Fraction(90)),
        ("0 deg", Fraction(0)),
        ("360 deg", Fraction(360)),
    ],
)
def test_reads_exactly(text: str, deg: Fraction) -> None:
    angle = parse_angle(text)
    assert angle.exact_deg == deg
    assert angle.as_written == text
    assert angle.turned_deg == float(deg) % 360


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("90", 'wanted "90 deg"'),
        (90, 'such as "90 deg"'),
        (True, "not an angle"),
        ("", "nothing is written"),
        ("deg", "cannot be read"),
        ("-30 deg", '"330 deg"'),
        ("361 deg", "more than a full turn"),
        ("90 dge", 'Did you mean "deg"?'),
        ("2 rad", "not a unit of angle"),
        ("22°30'", "cannot be read"),
        ("nan deg", "cannot be read"),
        ("1/0 deg", "fraction of nothing"),
        ("90 deg 5", "cannot be read"),
    ],
)
def test_refuses_with_what_to_write(text: object, says: str) -> None:
    with pytest.raises(BadInput, match=r"^along: ") as caught:
        parse_angle(text, where="along")
    assert says in str(caught.value)


def test_below_zero_where_it_makes_sense() -> None:
    assert parse_angle("-30 deg", allow_negative=True).turned_deg == 330.0


@given(st.floats(-1e6, 1e6))
def test_turned_is_the_same_direction_in_the_first_turn(along_deg: float) -> None:
    turned = turned_deg(along_deg)
    assert 0.0 <= turned < 360.0
    off = (turned - along_deg) / 360.0
    assert off == pytest.approx(round(off), abs=1e-8)


@given(st.floats(-720, 720), st.floats(-720, 720))
def test_difference_is_the_shorter_way_and_leads_there(from_deg: float, to_deg: float) -> None:
    step = difference_deg(to_deg, from_deg=from_deg)
    assert -180.0 <= step < 180.0
    left = difference_deg(turned_deg(from_deg + step), from_deg=to_deg)
    assert left == pytest.approx(0.0, abs=1e-9)


def test_a_hair_below_zero_is_not_a_full_turn() -> None:
    assert turned_deg(-1e-18) == 0.0
    assert turned_deg(360.0 - 1e-14) < 360.0


def test_printed_without_trailing_zeros() -> None:
    assert print_deg(22.5) == "22.5 deg"
    assert print_deg(90.0) == "90 deg"
    assert print_deg(5.0424, resolution_deg=0.01) == "5.04 deg"
    assert print_deg(-0.01) == "0 deg"
