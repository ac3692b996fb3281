"""Sizes of drums: either order when it is said, none when it is not."""

from __future__ import annotations

import pytest

from counterhoop.errors import BadInput
from counterhoop.quantities.size import parse_size


@pytest.mark.parametrize(
    ("text", "dia_mm", "deep_mm"),
    [
        ("12 in dia x 8 in deep", 304.8, 203.2),
        ('14" dia x 5.5" deep', 355.6, 139.7),
        ("5 1/2 in deep x 14 in dia", 355.6, 139.7),
        ("14″ dia × 5½″ deep", 355.6, 139.7),
        ("355 mm dia, 140 mm deep", 355.0, 140.0),
        ("dia 14 in, depth 5 1/2 in", 355.6, 139.7),
        ("14 in diameter by 5,5 in deep", 355.6, 139.7),
        ('dia 14" x 5.5" deep', 355.6, 139.7),
        ("14 in dia. 5.5 in deep", 355.6, 139.7),
        ("⌀ 14 in x 5.5 in deep", 355.6, 139.7),
    ],
)
def test_reads_in_either_order(text: str, dia_mm: float, deep_mm: float) -> None:
    size = parse_size(text)
    assert (size.dia.mm, size.deep.mm) == (dia_mm, deep_mm)
    assert size.as_written == text
    assert str(size) == text


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("14x5.5", "order differs between countries"),
        ('14" x 5.5"', "order differs between countries"),
        ("14 in x 5.5 in", "order differs between countries"),
        ("14 in dia x 5.5 in", "does not say whether"),
        ("14 in dia x 5.5 deep", "no unit"),
        ("14 dia x 6.5 deep", "no unit"),
        ("14 in dia", "not a diameter and a depth"),
        ("14 in dia x 14 in dia", 'two numbers marked "dia"'),
        ("14 in dai x 5.5 in deep", 'Did you mean "dia"?'),
        ("0 in dia x 5 in deep", "a length of nothing"),
        ("14 in dia x 5.5 in deep x 3 in deep", "not a diameter and a depth"),
        ("big", "not a diameter and a depth"),
        ("", "nothing is written"),
        (14, "in quotes"),
        ("51/2 in deep x 14 in dia", '"5 1/2 in"'),
    ],
)
def test_refuses_with_what_to_write(text: object, says: str) -> None:
    with pytest.raises(BadInput) as caught:
        parse_size(text, where="called")
    line = str(caught.value)
    assert says in line
    assert line.startswith("called: ")
    assert " in dia x " in line or "in quotes" in line or "in such as" in line or "5 1/2" in line
