"""In which order drums rise, where their own order leaves no room."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.heads.even_steps import Range


def rising_order(
    ranges: Sequence[Range], *, least: int, first: bool = False, last: bool = False
) -> tuple[int, ...] | None:
    """Return an order in which all drums have room, as little changed as can be.

    Parameters
    ----------
    ranges : sequence of Range
        In the order that is wished for.
    least : int
        The smallest step from one to the next.
    first, last : bool
        Whether the first or the last of them stays where it is.

    Returns
    -------
    tuple of int, or None
        Places in ``ranges`` by rising pitch, with the fewest pairs turned round. None where no
        order fits.

    Notes
    -----
    Exact: for each set of drums that may be the lower ones it keeps how low the highest of them
    can be for how few pairs turned round, whatever their order; the rest asks for no more.

    Examples
    --------
    >>> narrow, wide = Range(low=360, high=530, middle=445), Range(low=0, high=900, middle=450)
    >>> rising_order([narrow, wide], least=100), rising_order([wide, narrow], least=600)
    ((0, 1), None)
    >>> rising_order([Range(low=400, high=500, middle=450), Range(low=0, high=480, middle=460)],
    ...              least=100)
    (1, 0)
    """
    count = len(ranges)
    reached: dict[int, list[_Way]] = {0: [(0, ranges[0].low, ())]}
    for placed in range(count):
        grown: dict[int, list[_Way]] = {}
        for lower, ways in reached.items():
            waiting = [one for one in range(count) if not lower >> one & 1]
            for passed, one in enumerate(waiting):
                if first and (one == 0) != (placed == 0):
                    continue
                if last and (one == count - 1) != (placed == count - 1):
                    continue
                for turned, at, order in ways:
                    low = max(ranges[one].low, at + least) if order else ranges[one].low
                    if low <= ranges[one].high:
                        way = (turned + passed, low, (*order, one))
                        grown.setdefault(lower | 1 << one, []).append(way)
        reached = {lower: _worth_keeping(ways) for lower, ways in grown.items()}
    ways = reached.get((1 << count) - 1, [])
    return ways[0][2] if ways else None


_Way = tuple[int, int, tuple[int, ...]]


def _worth_keeping(ways: list[_Way]) -> list[_Way]:
    """Those by fewer turned pairs that no other undercuts, fewest first."""
    kept: list[_Way] = []
    for way in sorted(ways):
        if not kept or way[1] < kept[-1][1]:
            kept.append(way)
    return kept
