"""How wide a line of the shipped typeface is, so that nothing is set over anything else."""

from __future__ import annotations

from typing import TypeAlias

from counterhoop.papers.drawing.records import Text

CAP_SHARE = 0.7275
"""Height of a capital and of a figure as a share of the font size (Inter, OS/2 table)."""
DROP_SHARE = 0.21
"""Depth of g, p and y below the line, as a share of the font size."""

SIGNS = "".join(chr(code) for code in range(32, 127)) + "°·×±–→↑½¼¾⅛⅜⅝⅞″′Ø≤≥"
# fmt: off
REGULAR = (  # thousandths of the font size, from the hmtx table of Inter Regular
    281, 288, 466, 633, 642, 982, 644, 300, 365, 365, 501, 662, 288, 460, 288, 360, 631, 407, 610,
    618, 646, 593, 620, 566, 619, 620, 288, 302, 662, 662, 662, 511, 966, 690, 654, 730, 722, 601,
    590, 746, 743, 269, 571, 672, 565, 903, 753, 765, 639, 765, 644, 642, 646, 744, 690, 985, 682,
    679, 629, 365, 360, 365, 471, 456, 323, 562, 612, 571, 612, 583, 370, 613, 591, 242, 242, 549,
    242, 876, 591, 600, 612, 612, 376, 528, 327, 591, 562, 818, 546, 562, 552, 426, 333, 426, 662,
    456, 288, 662, 662, 500, 954, 834, 847, 802, 882, 857, 937, 941, 821, 442, 223, 765, 662, 662,
)
SEMIBOLD = (
    252, 321, 523, 644, 650, 1004, 663, 326, 373, 373, 540, 673, 319, 465, 319, 379, 660, 423,
    623, 636, 666, 612, 640, 576, 640, 640, 319, 329, 673, 673, 673, 543, 999, 728, 659, 737, 722,
    605, 588, 749, 746, 277, 580, 703, 565, 922, 759, 769, 645, 773, 652, 650, 660, 736, 728,
    1020, 720, 713, 652, 373, 379, 373, 481, 469, 351, 574, 624, 583, 624, 591, 389, 625, 612,
    262, 262, 569, 262, 900, 612, 609, 624, 624, 397, 549, 353, 612, 587, 839, 569, 588, 566, 455,
    359, 455, 673, 458, 319, 673, 673, 500, 954, 881, 870, 831, 907, 887, 963, 975, 849, 512, 257,
    769, 673, 673,
)
# fmt: on
WIDTHS = {
    False: dict(zip(SIGNS, REGULAR, strict=True)),
    True: dict(zip(SIGNS, SEMIBOLD, strict=True)),
}
WIDEST = 1000

Box: TypeAlias = tuple[float, float, float, float]


def width_mm(text: str, *, size_mm: float, bold: bool = False) -> float:
    """Width of a line without kerning; a sign the table lacks counts as one em.

    Examples
    --------
    >>> round(width_mm("12", size_mm=10.0), 2)
    10.17
    """
    widths = WIDTHS[bold]
    return sum(widths.get(sign, WIDEST) for sign in text) * size_mm / 1000.0


def box_of(text: Text) -> Box:
    """Left, top, right and bottom of a line of text, turned by a multiple of 90 degrees."""
    wide = width_mm(text.text, size_mm=text.size_mm, bold=text.bold)
    start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[text.anchor]
    low = DROP_SHARE if set(text.text) & set("gjpqy,;()/Q") else 0.02
    left, top, right, bottom = (
        start,
        -CAP_SHARE * text.size_mm,
        start + wide,
        low * text.size_mm,
    )
    for _ in range(round(text.turned_deg / 90.0) % 4):
        left, top, right, bottom = -bottom, left, -top, right
    return (text.x_mm + left, text.y_mm + top, text.x_mm + right, text.y_mm + bottom)
