"""What was read round one end: the readings as strips, and what they come to in sentences."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from counterhoop.development.flat import End
from counterhoop.fittings.book import Book
from counterhoop.papers.drawing.around import Around
from counterhoop.papers.drawing.edge_strip import edge_strip
from counterhoop.papers.drawing.manner import AS_FOUND
from counterhoop.papers.drawing.radius_strip import radius_strip
from counterhoop.papers.drawing.records import Drawing, Stroke
from counterhoop.papers.drawing.shell_flat import fitting_scale, lead_mm
from counterhoop.papers.drawing.strip import strip_high_mm
from counterhoop.papers.drawing.strip_marks import strip_strokes
from counterhoop.papers.drawing.survey_picture import say_strip
from counterhoop.papers.drawing.view import view_as_found
from counterhoop.papers.facts import Lengths
from counterhoop.papers.screen.play import to_screen
from counterhoop.papers.survey_words import flat_words, head_words, rests_on, round_words
from counterhoop.shell.drum import Drum
from counterhoop.survey.drum_survey import DrumSurvey

WIDE_MM = 242.0
HIGH_MM, APART_MM = 24.0, 2.5
NUMBER_MM, NOTE_MM, SCALE_MM = 4.0, 3.7, 3.5
EDGE_MM = 4.0
SCALED_MM = 14.0
"""Room to the left for the numbers of a strip's scale, such as -0.75, in mm of paper."""

Units = Literal["mm", "in"]


@dataclass(frozen=True, slots=True, kw_only=True)
class EndView:
    """One end of the shell as a page shows it.

    Attributes
    ----------
    svg, title : str
        The strips, made by us alone; empty where nothing was read round it.
    says : tuple of (str, tuple of str)
        What is spoken of, and the sentences.
    rests_on : tuple of str
        Which readings they come from.
    """

    end: End
    svg: str
    title: str
    says: tuple[tuple[str, tuple[str, ...]], ...]
    rests_on: tuple[str, ...]


def end_views(
    drum: Drum, survey: DrumSurvey, *, book: Book | None, units: Units, ident: str
) -> tuple[EndView, ...]:
    """Return both ends, those of which anything was read."""
    say = Lengths(units)
    found = []
    for end in ("batter", "resonant"):
        read, one = drum.readings.at(end), survey.at(end)
        says = []
        if one.across is not None:
            says.append(("How round", tuple(round_words(drum, one, say=say))))
        if one.flat is not None:
            says.append(("How flat", tuple(flat_words(drum, one))))
        if read.head is not None:
            says.append(("The head in hand", tuple(head_words(read.head, say=say))))
        if not says:
            continue
        drawing = strips(drum, survey, end=end, book=book, units=units)
        found.append(
            EndView(
                end=end,
                svg=to_screen(drawing, ident=f"{ident}-{end}") if drawing else "",
                title=drawing.title if drawing else "",
                says=tuple(says),
                rests_on=tuple(
                    rests_on(
                        one, (("Radii", read.radii), ("Across", read.across), ("Edge", read.edge))
                    )
                ),
            )
        )
    return tuple(found)


def strips(
    drum: Drum, survey: DrumSurvey, *, end: End, book: Book | None, units: Units
) -> Drawing | None:
    """Draw the readings round one end on the along axis of the shell laid flat."""
    there = [
        strip
        for strip in (edge_strip(survey.at(end)), radius_strip(survey.at(end)))
        if strip is not None
    ]
    if not there:
        return None
    view = view_as_found(drum, book=book)
    lettered = replace(
        AS_FOUND, units=units, number_mm=NUMBER_MM, note_mm=NOTE_MM, scale_mm=SCALE_MM
    )
    manner = replace(lettered, scale=fitting_scale(view, manner=lettered, wide_mm=WIDE_MM))
    lead = lead_mm(view, manner=manner)
    around = Around(around_mm=view.around_mm, left_mm=-lead, right_mm=view.around_mm + lead)
    lugs = sorted({round(view.x_mm(f.place.along_deg), 6) for f in view.fittings if f.row})
    strokes: list[Stroke] = []
    at = 0.0
    for strip in there:
        strokes += strip_strokes(
            strip, around=around, top_mm=at, high_mm=HIGH_MM, manner=manner, lugs_mm=lugs
        )
        at += manner.mm(strip_high_mm(strip, high_mm=HIGH_MM) + APART_MM)
    edge, scaled = manner.mm(EDGE_MM), manner.mm(SCALED_MM)
    return Drawing(
        strokes=tuple(strokes), left_mm=-lead - scaled, top_mm=0.0,
        width_mm=view.around_mm + 2 * lead + scaled + edge, height_mm=at, scale=manner.scale,
        title=f"{drum.key}, {end} end: what was read round it",
        says=" ".join(say_strip(strip) for strip in there),
    )  # fmt: skip
