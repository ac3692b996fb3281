"""Which rows of a scheme can be moved by hand, and how far."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.quantities.print_length import print_mm
from counterhoop.scheme.draft import Draft
from counterhoop.scheme.level import Level
from counterhoop.scheme.phrases import listed
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.puzzle import turned
from counterhoop.scheme.row_put import RowPut
from counterhoop.shell.choice import RowMoved

ALL_ROUND_DEG = 360.0


@dataclass(frozen=True, slots=True, kw_only=True)
class MovableRow:
    """A row, or a single fitting, that a scheme puts on.

    Attributes
    ----------
    name : str
        "batter", "resonant", "both" for long lugs, or the label of a single fitting.
    says : str
        What it is called in a sentence.
    labels : tuple of str
        What its fittings are called where the scheme puts them.
    right_mm, down_mm : float
        How far it has been moved by hand.
    aside_mm, down_mm_range : float, (float, float)
        How far it can be moved either way along, and down, from where the scheme puts it: no
        farther than half round the shell, and with every hole on the shell.
    """

    drum: str
    name: str
    says: str
    labels: tuple[str, ...]
    right_mm: float
    down_mm: float
    aside_mm: float
    down_mm_range: tuple[float, float]

    def check(self, *, right_mm: float, down_mm: float) -> None:
        """Refuse a move that takes the row off the shell.

        Raises
        ------
        BadInput
        """
        least_mm, most_mm = self.down_mm_range
        if not least_mm <= down_mm <= most_mm:
            raise BadInput(
                f"that takes {self.says} off the shell",
                where=f"drums.{self.drum}.chosen.moved.down",
                given=f"{down_mm:.1f} mm",
                wanted=f"from {print_mm(least_mm)} to {print_mm(most_mm)} from where it was put",
            )
        if not abs(right_mm) <= self.aside_mm:
            raise BadInput(
                f"that takes {self.says} more than half round the shell",
                where=f"drums.{self.drum}.chosen.moved.right",
                given=f"{right_mm:.1f} mm",
                wanted=f"at most {print_mm(self.aside_mm)}, or the other way round",
            )


def movable_rows(scheme: Scheme) -> tuple[MovableRow, ...]:
    """Return the rows and single fittings that a scheme puts on, in the order that it does.

    What stays on its holes as found is not among them, nor an original that goes back on its own
    holes.
    """
    draft = scheme.made_from
    if draft is None:
        return ()
    by_hand = {move.row: move for move in scheme.moved}
    return tuple(
        _movable(put, draft, by_hand.get(put.name), drum=scheme.drum) for put in draft.rows
    )


def row_called(scheme: Scheme, name: str) -> MovableRow:
    """Return a movable row by its name.

    Raises
    ------
    BadInput
        For one that stays as it was found, or is not there.
    """
    rows = movable_rows(scheme)
    plain = " ".join(name.split()).casefold()
    for row in rows:
        if row.name.casefold() == plain:
            return row
    stays = any(plain in (f.label.casefold(), f.row) for f in scheme.layout.standing)
    names = listed([f'"{row.name}"' for row in rows]) if rows else ""
    raise BadInput(
        "this stays on the holes it has, so it cannot be moved by hand"
        if stays
        else "the scheme puts nothing of that name on",
        where=f"drums.{scheme.drum}.chosen.moved.row",
        given=name,
        wanted=f"what it puts on: {names}" if names else "a scheme that puts something on",
    )


def _movable(put: RowPut, draft: Draft, move: RowMoved | None, *, drum: str) -> MovableRow:
    head = put.wanted.head
    says = f"the {head} row" if head else f"the {put.wanted.called}"
    return MovableRow(
        drum=drum,
        name=put.name,
        says="the row of long lugs" if head == "both" else says,
        labels=put.labels,
        right_mm=move.right_mm if move else 0.0,
        down_mm=move.down_mm if move else 0.0,
        aside_mm=draft.ground.flat.surface.circumference_mm / 2.0,
        down_mm_range=_down_range_mm(put, draft),
    )


def _down_range_mm(put: RowPut, draft: Draft) -> tuple[float, float]:
    """How far up and down every hole stays on the shell, wherever round it the row may stand.

    Where the scheme itself puts one over an edge, it may stay there.
    """
    level = Level(flat=draft.ground.flat, row=put.wanted.head)
    top_mm, bottom_mm = level.room_mm(from_deg=0.0, to_deg=ALL_ROUND_DEG)
    reach = [(0.0, 0.0)]
    for hole in put.wanted.fitting.holes:
        _, down_mm = turned(hole.right_mm, hole.down_mm, put.wanted.turned_deg)
        half_mm = hole.hole_mm / 2.0
        reach.append((down_mm - half_mm, down_mm + half_mm))
    highest_mm = min(up for up, _ in reach)
    lowest_mm = max(down for _, down in reach)
    return (
        min(0.0, top_mm - put.down_mm - highest_mm),
        max(0.0, bottom_mm - put.down_mm - lowest_mm),
    )
