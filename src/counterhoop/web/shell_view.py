"""The shell laid flat as a template takes it: the drawing, its holes in words, rows to move."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from counterhoop.errors import Finding
from counterhoop.fittings.book import Book
from counterhoop.papers.client_picture import after_picture, common_frame
from counterhoop.papers.drawing.begun import (
    draw_unread,
    faint_strokes,
    guessed_view,
    missing_words,
)
from counterhoop.papers.drawing.manner import AS_FOUND, WORKING, Manner, Units
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.drawing.shell_flat import draw_view, fitting_scale
from counterhoop.papers.drawing.survey_picture import survey_pictures
from counterhoop.papers.drawing.view import View, view_as_found, view_of_layout
from counterhoop.papers.screen.hole_words import HoleLine, hole_lines, length
from counterhoop.papers.screen.named import named_groups
from counterhoop.papers.screen.play import to_screen
from counterhoop.papers.screen.ring import Ring, rings_of
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.drum import Drum
from counterhoop.survey.drum_survey import DrumSurvey

WIDE_MM = 252.0
"""The drawing's own width, 952 px: a whole drum beside a margin index on a laptop."""
HIGH_MM = 190.0
"""What a shell with its readings may take from top to bottom before it is parted in two."""
NUMBER_MM, NOTE_MM, SCALE_MM = 4.0, 3.7, 3.5
"""Font sizes at that width, 13 to 15 px: read at arm's length."""
SCALE_STEP = 0.001
"""So that lettering does not swell and shrink while a row is dragged across the datum."""
LEAD_STEP_MM = 10.0
"""Nor does the picture move under the finger."""
STEP_MM = {"mm": (1.0, 10.0), "in": (25.4 / 32, 25.4 / 4)}
"""What an arrow key moves, alone and with shift."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowHandle:
    """A row that may be moved, and how far it stands by hand from where its scheme put it.

    ``right`` and ``down`` are texts as the person would type them; ``says`` names it.
    """

    name: str
    says: str
    right_mm: float
    down_mm: float
    right: str
    down: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShellView:
    """One drawing for a page.

    Attributes
    ----------
    ident : str
        Before every id.
    svg : str
        Made by us alone: safe to stand in a page as it is.
    around_mm, tape_mm, depth_mm : float
        Once round the drawn surface, what the tape itself reads there, and the depth.
    skin : str
        The surface that millimetres along lie on.
    holes : tuple of HoleLine
        The same in words, in the order along; none on a client's copy.
    missing : tuple of str
        What is not entered yet.
    box : tuple of float
        Left, top, width and height of the drawing, for what is laid over it.
    """

    ident: str
    svg: str
    title: str
    says: str
    around_mm: float
    tape_mm: float
    depth_mm: float
    units: Units
    skin: str
    holes: tuple[HoleLine, ...] = ()
    rows: tuple[RowHandle, ...] = ()
    missing: tuple[str, ...] = ()
    places: tuple[tuple[Finding, str], ...] = ()
    box: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0)

    @property
    def step_mm(self) -> tuple[float, float]:
        """What an arrow key moves, alone and with shift."""
        return STEP_MM[self.units]

    @property
    def drawn(self) -> dict[str, tuple[float, float]]:
        """How far each row that may be moved stands by hand in this drawing."""
        return {row.name: (row.right_mm, row.down_mm) for row in self.rows}

    def place_of(self, finding: Finding) -> str:
        """Return the id of a finding's place on the drawing, empty when it has none."""
        return next((name for found, name in self.places if found == finding), "")


def found_view(
    drum: Drum, *, ident: str, units: Units = "mm", book: Book | None = None,
    findings: Sequence[Finding] = (), tape_mm: float | None = None,
) -> ShellView:  # fmt: skip
    """Draw a drum as found, also one that is only half entered.

    Parameters
    ----------
    book : Book, optional
        Gives the bases of fittings.
    tape_mm : float, optional
        What the tape read once round, from which a place on the tape is reckoned; the girth
        when it is not known.
    """
    view = view_as_found(drum, book=book)
    manner = _manner(AS_FOUND, view, units=units)
    title = f"{drum.key} as found: the shell laid flat"
    drawing = draw_view(view, manner=manner, title=title, faint=faint_strokes(drum, view))
    shown = _shown(view, drawing, manner=manner, ident=ident, findings=findings)
    return replace(shown, tape_mm=tape_mm or view.around_mm, missing=missing_words(drum, view))


def scheme_view(
    scheme: Scheme, *, ident: str, units: Units = "mm", findings: Sequence[Finding] | None = None,
    movable: Mapping[str, tuple[float, float]] | None = None, live: bool = False,
) -> ShellView:  # fmt: skip
    """Draw a scheme.

    Parameters
    ----------
    findings : sequence of Finding, optional
        Those whose places can be shown; the scheme's own when left out.
    movable : mapping of str to (right_mm, down_mm)
        Rows that may be moved, and how far each stands by hand already.
    live : bool
        While a row is being moved: without numbers, names and the list of holes, which take most
        of the time.
    """
    layout, movable = scheme.layout, movable or {}
    view = view_of_layout(layout)
    manner = _manner(WORKING, view, units=units)
    if live:
        manner = replace(manner, numbers=False, notes=False)
    title = f"{layout.drum.key}, {scheme.title}: the shell laid flat"
    drawing = draw_view(view, manner=manner, title=title)
    found = scheme.findings if findings is None else findings
    shown = _shown(
        view, drawing, manner=manner, ident=ident, findings=found, movable=tuple(movable),
        listed=not live,
    )  # fmt: skip
    rows = tuple(
        RowHandle(
            name=name, says=_row_says(name, layout), right_mm=right_mm, down_mm=down_mm,
            right=length(right_mm, units=units), down=length(down_mm, units=units),
        )
        for name, (right_mm, down_mm) in movable.items()
    )  # fmt: skip
    return replace(shown, rows=rows)


def readings_views(
    drum: Drum, survey: DrumSurvey, *, ident: str, book: Book | None = None
) -> tuple[ShellView, ...]:
    """Draw what was read round the ends over and under the shell as found: one picture or two.

    They are to be looked at: nothing in them can be chosen, and their words say every reading.
    """
    drawings = survey_pictures(drum, survey, book=book, wide_mm=WIDE_MM, high_mm=HIGH_MM)
    return tuple(
        _still(view_as_found(drum), drawing, ident=f"{ident}-read-{turn}")
        for turn, drawing in enumerate(drawings, 1)
    )


def client_view(layout: Layout, *, ident: str, title: str = "") -> ShellView:
    """Draw a scheme for the client: no numbers, no scales, nothing to choose."""
    view = view_of_layout(layout)
    drawing = after_picture(layout, frame=common_frame([layout], wide_mm=WIDE_MM), title=title)
    return _still(view, drawing, ident=ident)


def blank_view(
    *, ident: str, units: Units = "mm", around_mm: float | None = None,
    depth_mm: float | None = None,
) -> ShellView:  # fmt: skip
    """Draw a shell of which not even the eight numbers are all known, in likely proportions."""
    view = guessed_view(around_mm=around_mm, depth_mm=depth_mm)
    manner = _manner(AS_FOUND, view, units=units)
    drawing = draw_unread(view, around_mm=around_mm, depth_mm=depth_mm, manner=manner)
    read = (("the way round", around_mm), ("the depth", depth_mm))
    missing = tuple(words for words, value in read if value is None)
    shown = _shown(view, drawing, manner=manner, ident=ident, findings=())
    return replace(shown, missing=(*missing, "the lugs"))


def _still(view: View, drawing: Drawing, *, ident: str) -> ShellView:
    """A picture in which nothing can be chosen."""
    return ShellView(
        ident=ident, svg=to_screen(drawing, ident=ident), title=drawing.title, says=drawing.says,
        around_mm=view.around_mm, tape_mm=view.around_mm, depth_mm=view.flat.depth_mm,
        units="mm", skin=view.flat.surface.skin.value,
    )  # fmt: skip


def _manner(manner: Manner, view: View, *, units: Units) -> Manner:
    lettered = replace(
        manner, units=units, number_mm=NUMBER_MM, note_mm=NOTE_MM, scale_mm=SCALE_MM, arms_mm=1.2,
        lead_step_mm=LEAD_STEP_MM,
    )  # fmt: skip
    scale = fitting_scale(view, manner=lettered, wide_mm=WIDE_MM)
    return replace(lettered, scale=math.floor(scale / SCALE_STEP) * SCALE_STEP)


def _shown(
    view: View, drawing: Drawing, *, manner: Manner, ident: str, findings: Sequence[Finding],
    movable: Sequence[str] = (), listed: bool = True,
) -> ShellView:  # fmt: skip
    rings = rings_of(findings, view=view, manner=manner)
    group_of = named_groups(view, drawing, manner=manner, movable=movable)
    return ShellView(
        ident=ident,
        svg=to_screen(drawing, ident=ident, group_of=group_of, rings=rings),
        title=drawing.title,
        says=drawing.says,
        around_mm=view.around_mm,
        tape_mm=view.around_mm,
        depth_mm=view.flat.depth_mm,
        units=manner.units,
        skin=view.flat.surface.skin.value,
        holes=hole_lines(view, manner=manner) if listed else (),
        places=_named_places(findings, rings, ident=ident),
        box=(drawing.left_mm, drawing.top_mm, drawing.width_mm, drawing.height_mm),
    )


def _named_places(
    findings: Sequence[Finding], rings: Sequence[Ring], *, ident: str
) -> tuple[tuple[Finding, str], ...]:
    names = {ring.name for ring in rings}
    return tuple(
        (finding, f"{ident}-place-{turn}")
        for turn, finding in enumerate(findings, 1)
        if f"place-{turn}" in names
    )


def _row_says(name: str, layout: Layout) -> str:
    if name == "both":
        return "row of long lugs"
    rows = {plan.row for plan in layout.standing}
    return f"{name} row" if name in rows else name
