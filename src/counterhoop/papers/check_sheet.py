"""The sheet that tells what a printer does to lengths."""

from __future__ import annotations

from counterhoop.papers.printer import LONG_BAR_MM, MOST_OFF, SHORT_BAR_MM
from counterhoop.papers.sheets import MARGIN_MM, sheet_of
from counterhoop.papers.typst.set import set_pdf


def check_sheet_pdf(*, paper: str = "A4") -> bytes:
    """Set the check sheet: a bar of 180 mm along the short side, one of 250 mm along the long."""
    sheet = sheet_of(paper)
    data = {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "long-across": False,
        "short-bar": SHORT_BAR_MM,
        "long-bar": LONG_BAR_MM,
        "short-says": f"{SHORT_BAR_MM:.0f}",
        "long-says": f"{LONG_BAR_MM:.0f}",
        "short-most": f"{SHORT_BAR_MM * MOST_OFF:.1f}",
        "long-most": f"{LONG_BAR_MM * MOST_OFF:.0f}",
        "short-x": sheet.short_mm - MARGIN_MM - SHORT_BAR_MM,
        "short-y": MARGIN_MM,
        "long-x": MARGIN_MM,
        "long-y": min(
            (sheet.long_mm - LONG_BAR_MM) / 2 + 5.0, sheet.long_mm - MARGIN_MM - LONG_BAR_MM
        ),
        "paper": sheet.name,
    }
    return set_pdf("check_sheet", data, title=f"Printer check sheet, {sheet.name}")
