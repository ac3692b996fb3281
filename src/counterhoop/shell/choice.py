"""The scheme that was chosen for a drum, and how far its rows are moved by hand."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class RowMoved:
    """A row moved by hand from where its scheme puts it.

    Attributes
    ----------
    row : str
        "batter", "resonant", or "both" for long lugs; the label of a fitting that belongs to no
        row.
    right_mm : float
        Along the surface that the scheme is laid out on; below zero to the left.
    down_mm : float
        Toward the resonant edge; below zero toward the batter edge.
    """

    row: str
    right_mm: float = 0.0
    down_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """The scheme that a person chose for one drum.

    Attributes
    ----------
    scheme : str
        Its code as it was worked out, before anything was moved; as it was written down.
    title : str
        Its heading, where two schemes have one code: other parts on the same holes.
    moved : tuple of RowMoved
        Rows moved by hand, each at most once.
    """

    scheme: str
    title: str = ""
    moved: tuple[RowMoved, ...] = ()
