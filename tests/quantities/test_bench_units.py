"""Weights, pulls, films and turns as they are written at a bench.

Truth: exact laws of the units (pound and inch of 1959, standard gravity of 1901) and hand-worked
values.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.quantities.film_thickness import parse_film_thickness
from counterhoop.quantities.force import parse_force
from counterhoop.quantities.turn_of_rod import parse_turn
from counterhoop.quantities.weight import parse_weight


@given(st.integers(1, 10))
def test_units_of_weight_agree(pounds: int) -> None:
    one = parse_weight(f"{pounds} lb")
    assert one.kg == pytest.approx(pounds * 0.45359237)
    assert parse_weight(f"{16 * pounds} oz") == one


@given(st.integers(1, 4000))
def test_units_of_force_agree(pull: int) -> None:
    # A pound is 0.45359237 kg, and standard gravity is 9.80665 m/s^2.
    assert parse_force(f"{pull} lbf").newtons == pytest.approx(pull * 0.45359237 * 9.80665)
    assert parse_force(f"{pull} N") == parse_force(f"{pull / 1000} kN")


@given(st.integers(1, 39))
def test_a_mil_is_a_thou(mils: int) -> None:
    assert parse_film_thickness(f"{mils} mil") == parse_film_thickness(f"{mils} thou")
    assert parse_film_thickness(f"{mils} mil").metres == pytest.approx(mils * 25.4e-6)


@given(st.integers(1, 7), st.sampled_from([8, 16, 32]))
def test_a_turn_is_360_degrees(parts: int, whole: int) -> None:
    assert parse_turn(f"{parts}/{whole}").exact == Fraction(parts, whole)
    degrees = Fraction(360 * parts, whole)
    assert parse_turn(f"-{float(degrees)} deg").exact == -Fraction(parts, whole)


@pytest.mark.parametrize(
    ("parse", "given", "exact"),
    [
        (parse_weight, "1½oz", 3 * Fraction("28.349523125") / 2),
        (parse_weight, "0,041 kg", Fraction(41)),
        (parse_force, "1-1/2 kN", Fraction(1500)),
        (parse_film_thickness, "7,5 mil", Fraction(1905, 10_000)),
        (parse_film_thickness, '.010"', Fraction(254, 1000)),
        (parse_film_thickness, "188 µm", Fraction(188, 1000)),
        (parse_turn, "1/3 turn", Fraction(1, 3)),
        (parse_turn, "−⅛", Fraction(-1, 8)),
        (parse_turn, "3", Fraction(3)),
        (parse_turn, "30 deg", Fraction(1, 12)),
    ],
)
def test_as_fingers_type_it(parse, given, exact) -> None:
    # By hand, from the units' own definitions.
    found = parse(given)
    names = ("exact", "exact_g", "exact_n", "exact_mm")
    assert next(getattr(found, name) for name in names if hasattr(found, name)) == exact
    assert found.as_written == given


def test_what_to_write_is_spelled_as_units_are() -> None:
    with pytest.raises(BadInput, match=r'"1500 N" or "1\.500 N"'):
        parse_force("1,500 N")


@pytest.mark.parametrize(
    ("parse", "given", "says"),
    [
        (parse_weight, "41", "no unit"),
        (parse_weight, "41 mm", "not a unit of weight"),
        (parse_weight, "0 g", "no head weighs that"),
        (parse_weight, 41, "bare number"),
        (parse_force, "40 kg", "is a weight"),
        (parse_force, "40", "no unit"),
        (parse_force, "40 Nm", "not a unit of force"),
        (parse_force, "99 kN", "no rod of a drum pulls so"),
        (parse_film_thickness, "10", "no unit"),
        (parse_film_thickness, "10 mm", "so thick"),
        (parse_film_thickness, "0.1 mil", "so thin"),
        (parse_turn, "0", "nothing was turned"),
        (parse_weight, "41 gr", "a gram to some and a grain to others"),
        (parse_weight, "-41 g", "never below nothing"),
        (parse_force, "90 pounds", "is a weight"),
        (parse_force, "1,500 N", "thousands"),
        (parse_film_thickness, "7+7 mil", "cannot be read as a thickness"),
        (parse_film_thickness, "2 x 7 mil", "cannot be read as a thickness"),
        (parse_turn, "30", "turns or degrees"),
        (parse_turn, "90 turns", "no rod goes so far"),
        (parse_turn, "a bit", "cannot be read"),
    ],
)
def test_a_slip_says_what_to_write(parse, given, says) -> None:
    with pytest.raises(BadInput, match=says) as caught:
        parse(given)
    assert caught.value.wanted
