"""The blank survey sheet: boxes for a pencil, headed as the survey file is."""

from __future__ import annotations

from counterhoop.papers.drawing.blank_shell import draw_blank_shell
from counterhoop.papers.drawing.pens import PRINT
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.drawing.stations_round import draw_stations_round
from counterhoop.papers.facts import sheet_for
from counterhoop.papers.sheets import MARGIN_MM
from counterhoop.papers.svg import to_svg
from counterhoop.papers.typst.set import set_pdf
from counterhoop.shell.readings import CUTS

STATIONS = 16
SHELL_DEEP_MM = 84.0
TITLE = "Blank survey sheet"


def blank_survey_pdf(*, paper: str = "A4") -> bytes:
    """Set the sheets on which one drum is written down at the bench.

    Headings stand in the order of the survey file, each with the name that it has there, so that
    typing it in is copying.

    Parameters
    ----------
    paper : str
        "Letter" sets it on Letter, anything else on A4, both lying.
    """
    sheet = sheet_for(paper)
    pictures = {
        "shell": draw_blank_shell(wide_mm=sheet.long_mm - 2 * MARGIN_MM, deep_mm=SHELL_DEEP_MM),
        "stations": draw_stations_round(STATIONS),
    }
    data = {
        "wide": sheet.long_mm,
        "high": sheet.short_mm,
        # Sheets come apart at the bench: each says whose it is.
        "facts": (
            ("Paper", TITLE.lower()),
            ("Job", f"job {'_' * 16}"),
            ("Drum", f"drum {'_' * 28}"),
        ),
        "pictures": {name: _shown(picture) for name, picture in pictures.items()},
        "stations": [
            {"number": n, "deg": f"{360.0 * (n - 1) / STATIONS:g}°"} for n in range(1, STATIONS + 1)
        ],
        "diameters": [f"{n} to {n + STATIONS // 2}" for n in range(1, STATIONS // 2 + 1)],
        "cuts": list(CUTS),
    }
    images = {
        name: to_svg(picture, palette=PRINT, ident=f"{name}-") for name, picture in pictures.items()
    }
    return set_pdf("blank_survey", data, title=TITLE, images=images)


def _shown(picture: Drawing) -> dict[str, object]:
    return {"alt": f"{picture.title}. {picture.says}", "wide": picture.width_mm}
