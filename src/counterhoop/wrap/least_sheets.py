"""How few sheets could do at best, without laying anything out."""

from __future__ import annotations

from collections.abc import Iterable

from counterhoop.wrap.tenths import Tenths


def least_sheets(nest: Tenths) -> int:
    """Return a number of new sheets below which no layout exists.

    Extents are replaced by others that can only be packed more easily: everything longer than
    ``sheet - eps`` becomes a whole sheet, everything shorter than ``eps`` nothing. Area then
    counts. ``eps`` of 0 both ways is the area bound; of half a sheet along and 0 across the
    strip bound (pieces longer than half a sheet lie one above another).

    Notes
    -----
    Dual feasible function ``u^(eps)`` of S. P. Fekete and J. Schepers, "A general framework for
    bounds for higher-dimensional orthogonal packing problems", Math. Meth. Oper. Res. 60, 2004
    (from memory). A piece that may be turned counts with the smaller of its two products.

    Examples
    --------
    >>> from counterhoop.wrap.tenths import Box
    >>> strip = Box(extents=((900, 250),), turned=(False,))
    >>> least_sheets(Tenths(boxes=(strip,) * 3, sheet=(1400, 610), offcuts=(), kerf=0,
    ...                     most_sheets=9))
    2
    """
    length, width = nest.sheet
    boxes = nest.boxes
    best = 0
    for along in thresholds((e[0] for b in boxes for e in b.extents), length):
        for across in thresholds((e[1] for b in boxes for e in b.extents), width):
            total = sum(
                min(eased(w, along, length) * eased(h, across, width) for w, h in b.extents)
                for b in boxes
            )
            given = sum(room(w, along, length) * room(h, across, width) for w, h in nest.offcuts)
            best = max(best, -((given - total) // (length * width)))
    return max(0, best)


def thresholds(extents: Iterable[int], whole: int) -> list[int]:
    """Every value at which a bound can change, up to half the sheet."""
    found = {0}
    for extent in extents:
        found |= {e for e in (extent, whole - extent + 1) if 0 < 2 * e <= whole}
    return sorted(found)


def eased(extent: int, eps: int, whole: int) -> int:
    """Return an extent that can only be packed more easily: the whole, itself, or nothing."""
    if extent > whole - eps:
        return whole
    return extent if extent >= eps else 0


def room(extent: int, eps: int, whole: int) -> int:
    """Return the most that eased pieces come to side by side in an offcut of this extent."""
    if eps == 0:
        return extent
    if extent < eps:
        return 0
    # A longer offcut is cut into sheets in thought; one piece may lie across each such line.
    return whole * (2 * -(-extent // whole) - 1)
