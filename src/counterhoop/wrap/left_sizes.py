"""Which sizes the largest rectangle left could have at all, before anything is laid out."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from counterhoop.wrap.least_sheets import eased, room, thresholds
from counterhoop.wrap.tenths import Tenths


def left_sizes(
    nest: Tenths, *, bins: Sequence[tuple[int, int]], new: int, least: int
) -> tuple[tuple[int, int, int], ...]:
    """Return extents along and across, and net area, of every rectangle that might be left.

    A rectangle left is one more piece. Pieces pushed together into the corners leave one that is
    as long as a sheet less the extents of some pieces, so no other size has to be tried; and one
    that breaks the bound of ``least_sheets`` on so many sheets cannot be.

    Parameters
    ----------
    nest : Tenths
        Pieces, sheet and offcuts.
    bins : sequence of (int, int)
        What may be cut into.
    new : int
        New sheets among them.
    least : int
        Only rectangles of a larger net area are asked for.

    Examples
    --------
    >>> from counterhoop.wrap.tenths import Box
    >>> strip = Box(extents=((900, 250),), turned=(False,))
    >>> kit = Tenths(boxes=(strip,), sheet=(1400, 610), offcuts=(), kerf=0, most_sheets=1)
    >>> left_sizes(kit, bins=[(1400, 610)], new=1, least=400_000)
    ((1400, 360, 504000),)
    """
    kerf = nest.kerf
    wide, high = (
        sorted({b[side] - s for b in bins for s in _sums(nest, side, b[side] - kerf)})
        for side in (0, 1)
    )
    area = np.outer(np.asarray(wide) - kerf, np.asarray(high) - kerf)
    may = area > least
    length, width = nest.sheet
    extents = [e for box in nest.boxes for e in box.extents]
    for along in thresholds((e[0] for e in extents), length):
        eased_wide = np.asarray([eased(w, along, length) for w in wide])
        for across in thresholds((e[1] for e in extents), width):
            eased_high = np.asarray([eased(h, across, width) for h in high])
            taken = sum(
                min(eased(w, along, length) * eased(h, across, width) for w, h in box.extents)
                for box in nest.boxes
            )
            given = new * length * width + sum(
                room(w, along, length) * room(h, across, width) for w, h in nest.offcuts
            )
            may &= np.outer(eased_wide, eased_high) <= given - taken
    return tuple((wide[i], high[j], int(area[i, j])) for i, j in np.argwhere(may))


def _sums(nest: Tenths, side: int, most: int) -> set[int]:
    """Every total of extents of some pieces, up to ``most``."""
    totals = {0}
    for box in nest.boxes:
        totals |= {t + e[side] for t in totals for e in box.extents if t + e[side] <= most}
    return totals
