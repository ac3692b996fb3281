"""Paper against the law of ISO 216 and an independent list."""

from __future__ import annotations

import math

import papersize
import pytest

from counterhoop.errors import BadInput
from counterhoop.standards.paper import (
    POINT_MM,
    all_papers,
    bank_card,
    find_paper,
    side_tolerance_mm,
)


@pytest.mark.parametrize("step", range(6))
def test_a_series_by_its_law(step: int) -> None:
    """Source: ISO 216: sides 1000 x 2^(-1/4 - n/2) and 1000 x 2^(1/4 - n/2) mm, rounded down to
    the millimetre after adding 0.2."""
    paper = find_paper(f"A{step}")
    assert paper.short_mm == math.floor(1000 * 2 ** (-1 / 4 - step / 2) + 0.2)
    assert paper.long_mm == math.floor(1000 * 2 ** (1 / 4 - step / 2) + 0.2)


@pytest.mark.parametrize("name", ["A0", "A1", "A2", "A3", "A4", "A5", "Letter", "Legal", "Tabloid"])
def test_sheets_of_an_independent_list(name: str) -> None:
    """Source: papersize 1.6.1."""
    paper = find_paper(name)
    short, long = papersize.parse_papersize(name.lower(), "mm")
    assert paper.short_mm == pytest.approx(float(short), abs=1e-6)
    assert paper.long_mm == pytest.approx(float(long), abs=1e-6)


def test_letter_in_millimetres() -> None:
    assert (find_paper("letter").short_mm, find_paper(" Letter ").long_mm) == (215.9, 279.4)
    assert (find_paper("tabloid").short_mm, find_paper("TABLOID").long_mm) == (279.4, 431.8)


def test_faults_of_that_list() -> None:
    """Its "pt" is the point of TeX, and its B4 is 250 x 352; ISO 216 rounds 353.55 to 353."""
    assert float(papersize.convert_length(1, "pt", "mm")) == pytest.approx(25.4 / 72.27, rel=1e-6)
    assert float(papersize.convert_length(1, "bp", "mm")) == pytest.approx(POINT_MM, rel=1e-6)
    listed_mm = float(papersize.parse_papersize("b4", "mm")[1])
    assert listed_mm == pytest.approx(352.0, abs=1e-6)
    assert math.floor(1000 * 2 ** (0 - 3 / 2) + 0.2) == 353


def test_point_of_pdf() -> None:
    """Source: ISO 32000-1, default user space: 1/72 in = 0.352778 mm."""
    assert pytest.approx(0.352778, abs=5e-7) == POINT_MM


def test_rolls_have_a_width_and_no_length() -> None:
    for name, width_mm in (
        ("A1 roll", 594.0),
        ("A0 roll", 841.0),
        ("24 in roll", 609.6),
        ("36 in roll", 914.4),
    ):
        roll = find_paper(name)
        assert (roll.kind, roll.short_mm, roll.long_mm) == ("roll", width_mm, None)
    assert all(paper.long_mm for paper in all_papers() if paper.kind != "roll")


def test_card_in_the_pocket() -> None:
    """ISO/IEC 7810 ID-1 (from memory)."""
    card = bank_card()
    assert (card.long_mm, card.short_mm) == (85.60, 53.98)
    assert not card.source.seen
    with pytest.raises(BadInput):
        find_paper("bank card")


@pytest.mark.parametrize(
    ("side_mm", "off_mm"),
    [(105.0, 1.5), (150.0, 1.5), (150.1, 2.0), (600.0, 2.0), (600.1, 3.0), (1189.0, 3.0)],
)
def test_tolerances(side_mm: float, off_mm: float) -> None:
    """Source: ISO 216 as quoted by informationdelight.info and studiofrog.cz."""
    assert side_tolerance_mm(side_mm) == off_mm


@pytest.mark.parametrize("side_mm", [0.0, -1.0, float("nan")])
def test_no_such_side(side_mm: float) -> None:
    with pytest.raises(BadInput):
        side_tolerance_mm(side_mm)


def test_a_near_miss_is_named() -> None:
    with pytest.raises(BadInput, match='Did you mean "Letter"'):
        find_paper("leter", where="paper")
