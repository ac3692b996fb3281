"""A piece on the shelf: what it is, what was measured on it, whose it is."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.parts.dimension import Dimension, Measured, surest


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece, or several alike that lie together.

    Attributes
    ----------
    id, number : str
        The store's own key, and the number that the shop wrote on its bag.
    kind : str
        As the fittings book calls kinds ("lug"), or the shop's own word.
    says : str
        What it is in the shop's words.
    measured : tuple of Measured
        Each with its doubt; a dimension may stand there more than once.
    material, plating, finish : str
        As far as known.
    condition : tuple of str
        Facts, not a letter: "pitted under the rim", "one ear bent".
    count : int
        How many came; what is left is reckoned from the movements.
    bin : str
        Where it lies.
    lot : str
        What it came with.
    lot_share : float or None
        Its part of the lot's cost, 0 to 1.
    owner : str
        The client whose it is; empty for the shop's own.
    price_minor, currency : int or None, str
        Price in minor units of this currency (ISO 4217).
    came_on : date or None
        The day it came.
    fitting : str
        The entry of the book that it is, by name; empty while unknown.
    matched_set : bool
        They belong together and are not parted.

    Raises
    ------
    BadInput
        For a count below zero or a share that is none.
    """

    id: str
    number: str
    kind: str = ""
    says: str = ""
    measured: tuple[Measured, ...] = ()
    material: str = ""
    plating: str = ""
    finish: str = ""
    condition: tuple[str, ...] = ()
    count: int = 1
    bin: str = ""
    lot: str = ""
    lot_share: float | None = None
    owner: str = ""
    price_minor: int | None = None
    currency: str = ""
    came_on: dt.date | None = None
    fitting: str = ""
    matched_set: bool = False

    def __post_init__(self) -> None:
        if self.count < 0:
            raise BadInput(
                "fewer than none",
                where=f"piece {self.number}",
                given=self.count,
                wanted="0 or more",
            )
        if self.lot_share is not None and not 0.0 <= self.lot_share <= 1.0:
            raise BadInput(
                "not a share of a lot",
                where=f"piece {self.number}",
                given=self.lot_share,
                wanted="0 to 1",
            )

    def may_serve(self, client: str) -> bool:
        """Return whether it may be offered to a job of this client.

        Examples
        --------
        >>> Piece(id="1", number="7", owner="A. Hale").may_serve("B. Rowe")
        False
        """
        return not self.owner or self.owner == client

    def best(self, dimension: Dimension) -> Measured | None:
        """Return the reading of least doubt; the last of equal ones; None when there is none."""
        kept = {each.dimension: each for each in surest(self.measured)}
        return kept.get(dimension)
