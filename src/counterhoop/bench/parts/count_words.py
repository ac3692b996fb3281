"""How far a strip-down is, in a few words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from counterhoop.papers.facts import count, listed
from counterhoop.parts.ticked import Counted

PLURALS = {"wires": "sets of wires", "cord or strap": "cords or straps"}
SINGULARS = {"wires": "set of wires"}


def how_far(counted: Iterable[Counted]) -> str:
    """Say how far the count of a drum is: what lacks first.

    Examples
    --------
    >>> from counterhoop.parts.comes_apart import Sort
    >>> from counterhoop.parts.strip_down import Expected
    >>> screws = Expected(place="lug 1", sort=Sort(piece="screw M5", kind="screw"), count=16)
    >>> springs = Expected(place="lug 1", sort=Sort(piece="spring", kind="lug spring"), count=8)
    >>> how_far([Counted(expected=screws, found=14), Counted(expected=springs, found=8, soaked=8)])
    '2 screws missing; 8 lug springs still wet.'
    >>> how_far([Counted(expected=screws)])
    'Nothing is counted yet: 16 pieces should come off.'
    >>> how_far([Counted(expected=screws, found=17)])
    '1 screw too many.'
    """
    lines = tuple(counted)
    total = sum(one.expected.count for one in lines)
    open_ = [one for one in lines if one.found is None]
    if not lines:
        return "Nothing is known yet of what should come off."
    if all(one.found is None or one.expected.lost for one in lines) and open_:
        lost = _kinds(
            (one.expected.sort.kind, one.expected.count) for one in lines if one.found is not None
        )
        gone = f" The survey says that {lost} are gone." if lost else ""
        return f"Nothing is counted yet: {count(total, 'piece')} should come off.{gone}"
    parts = []
    if missing := _kinds((one.expected.sort.kind, one.missing) for one in lines):
        parts.append(f"{missing} missing")
    if wet := _kinds((one.expected.sort.kind, one.wet) for one in lines):
        parts.append(f"{wet} still wet")
    if over := _kinds((one.expected.sort.kind, one.over) for one in lines):
        parts.append(f"{over} too many")
    if left := sum(one.expected.count for one in open_):
        parts.append(f"{left} of {count(total, 'piece')} not counted yet")
    back = sum(one.refitted for one in lines)
    if not parts:
        parts = [f"all {count(total, 'piece')} are there"]
        if back == total:
            parts = [f"all {count(total, 'piece')} are back on"]
    if 0 < back < total:
        parts.append(f"{back} back on")
    said = "; ".join(parts)
    return f"{said[0].upper()}{said[1:]}."


def of_one_sort(counted: Iterable[Counted]) -> str:
    """Say how far one sort, or one place, is: "14 of 16 found, 2 missing, 8 still wet".

    Examples
    --------
    >>> from counterhoop.parts.comes_apart import Sort
    >>> from counterhoop.parts.strip_down import Expected
    >>> rods = Expected(place="batter head", sort=Sort(piece="rod", kind="rod"), count=8)
    >>> of_one_sort([Counted(expected=rods, found=9)])
    '9 of 8 found, 1 more than should be there: count again, or it belongs to another drum'
    """
    lines = tuple(counted)
    total = sum(one.expected.count for one in lines)
    if all(one.found is None for one in lines):
        return "not counted"
    found = sum(one.found or 0 for one in lines)
    spoilt = sum(one.spoilt for one in lines)
    missing = sum(one.missing for one in lines)
    open_ = sum(one.expected.count for one in lines if one.found is None)
    wet, back = sum(one.wet for one in lines), sum(one.refitted for one in lines)
    said = [
        f"{found} of {total} found"
        if found != total
        else f"all {total} found"
        if total > 1
        else "found"
    ]
    if all(one.expected.lost and not one.found for one in lines):
        said = ["gone, the survey says"]
    if open_:
        said.append(f"{open_} not counted")
    if over := sum(one.over for one in lines):
        said.append(
            f"{over} more than should be there: count again, or "
            f"{'it belongs' if over == 1 else 'they belong'} to another drum"
        )
    if missing - spoilt > 0:
        said.append(f"{missing - spoilt} missing")
    if spoilt:
        said.append(f"{spoilt} no use again")
    if wet:
        said.append(f"{wet} still wet")
    if back:
        said.append("all back on" if back == total else f"{back} back on")
    return ", ".join(said)


def _kinds(counts: Iterable[tuple[str, int]]) -> str:
    """Say how many of each kind: "2 screws and 1 lug spring"."""
    total: Counter[str] = Counter()
    for kind, number in counts:
        if number:
            total[kind] += number
    return listed(
        [
            f"{n} {SINGULARS.get(k, k) if n == 1 else PLURALS.get(k, k + 's')}"
            for k, n in total.items()
        ]
    )
