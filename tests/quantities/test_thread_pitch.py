"""A gauge's blade names threads to the inch or millimetres, never a bare number."""

from __future__ import annotations

from fractions import Fraction

import pytest

from counterhoop.errors import BadInput
from counterhoop.quantities.thread_pitch import parse_thread_pitch


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        # Exact: 25.4 mm to the inch.
        ("24 tpi", Fraction(254, 240)),
        ("24TPI", Fraction(254, 240)),
        ("20 threads per inch", Fraction(127, 100)),
        ("28 threads to the inch", Fraction(254, 280)),
        ("1 mm", Fraction(1)),
        ("0,75 mm pitch", Fraction(3, 4)),
        ("1/24 in", Fraction(254, 240)),
    ],
)
def test_pitches(text: str, mm: Fraction) -> None:
    found = parse_thread_pitch(text)
    assert (found.exact_mm, found.as_written) == (mm, text)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("24", 'wanted "24 tpi"'),
        ("240 tpi", "no screw has that pitch"),
        ("24 mm", "no screw has that pitch"),
        ("0.1 mm", "no screw has that pitch"),
        ("fine", 'such as "24 tpi"'),
        (24, "a bare number"),
    ],
)
def test_pitches_refused(text: object, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        parse_thread_pitch(text)
