"""The table of widths against the typeface that is shipped."""

from __future__ import annotations

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

import counterhoop.papers
from counterhoop.papers.drawing.lettering import CAP_SHARE, SIGNS, WIDTHS, box_of
from counterhoop.papers.drawing.records import Layer, Text


@pytest.mark.parametrize(("name", "bold"), [("Inter-Regular", False), ("Inter-SemiBold", True)])
def test_widths_are_those_of_the_shipped_typeface(name: str, bold: bool) -> None:
    font = TTFont(Path(counterhoop.papers.__file__).parent / "fonts" / f"{name}.ttf")
    per_em, glyphs, widths = font["head"].unitsPerEm, font.getBestCmap(), font["hmtx"]
    for sign in SIGNS:
        assert WIDTHS[bold][sign] == pytest.approx(
            widths[glyphs[ord(sign)]][0] / per_em * 1000, abs=0.51
        )
    assert font["OS/2"].sCapHeight / per_em == pytest.approx(CAP_SHARE, abs=1e-3)


def test_a_turned_line_takes_the_turned_box() -> None:
    line = Text(layer=Layer.NOTE, x_mm=10.0, y_mm=20.0, text="IIII", size_mm=10.0)
    left, top, right, bottom = box_of(line)
    wide, high = right - left, bottom - top
    up = Text(layer=Layer.NOTE, x_mm=10.0, y_mm=20.0, text="IIII", size_mm=10.0, turned_deg=-90.0)
    l2, t2, r2, b2 = box_of(up)
    assert (r2 - l2, b2 - t2) == pytest.approx((high, wide))
    assert b2 == pytest.approx(20.0)
    assert r2 == pytest.approx(10.0, abs=0.25), "reads upward: the line's foot is to the right"
