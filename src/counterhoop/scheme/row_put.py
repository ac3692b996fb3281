"""Where a scheme put a row, kept so that the row can be lifted and put elsewhere."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from counterhoop.scheme.plan import ReuseProof

if TYPE_CHECKING:
    from counterhoop.scheme.row import RowWanted


@dataclass(frozen=True, slots=True, kw_only=True)
class RowPut:
    """A row, or one fitting, that a scheme puts on.

    Attributes
    ----------
    labels : tuple of str
        What its fittings are called on the drum.
    turn_mm, down_mm : float
        The pose of its first fitting, on the surface worked on, heights as the row counts them.
    proof : ReuseProof
        What the search says of itself; its distances are from where the eye expects the row.
    only_here : tuple of str
        Parts of the heading and sentences that are true of this place and no other.
    step : int
        In which part of the heading those stand.
    """

    wanted: RowWanted
    labels: tuple[str, ...]
    turn_mm: float
    down_mm: float
    proof: ReuseProof
    only_here: tuple[str, ...] = ()
    step: int = 0

    @property
    def name(self) -> str:
        """What it goes by: the head of a row, the label of a single fitting."""
        return self.wanted.head or self.wanted.called
