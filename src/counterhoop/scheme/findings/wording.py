"""How findings put figures, holes and labels into words."""

from __future__ import annotations

from collections.abc import Iterable


def figure(value: float) -> str:
    """Print a figure with one decimal: no rule at the bench shows more.

    Examples
    --------
    >>> figure(0.8), figure(-0.01)
    ('0.8', '0.0')
    """
    return f"{round(value, 1) + 0.0:.1f}"


def area(mm2: float) -> str:
    """Print an area as a tape can know it: whole mm2, and from 100 on the nearest ten.

    Examples
    --------
    >>> area(28.27), area(1819.5)
    ('28 mm²', '1820 mm²')
    """
    return f"{round(mm2, -1 if mm2 >= 100.0 else 0):.0f} mm²"


def both(words: Iterable[str]) -> str:
    """Join words as one says them.

    Examples
    --------
    >>> both(["7"]), both(["7", "8"]), both(["7", "8", "23"])
    ('7', '7 and 8', '7, 8 and 23')
    """
    listed = list(words)
    if len(listed) < 2:
        return "".join(listed)
    return f"{', '.join(listed[:-1])} and {listed[-1]}"


def either(words: Iterable[str]) -> str:
    """Join words of which one is true.

    Examples
    --------
    >>> either(["M5"]), either(["M5", "2BA", "10-32 UNF"])
    ('M5', 'M5, 2BA or 10-32 UNF')
    """
    listed = list(words)
    if len(listed) < 2:
        return "".join(listed)
    return f"{', '.join(listed[:-1])} or {listed[-1]}"


def holes_named(numbers: Iterable[int], *, most: int = 0) -> str:
    """Name holes by their numbers, in order; no more than ``most`` of them when that is given.

    Examples
    --------
    >>> holes_named([23, 7]), holes_named([4])
    ('holes 7 and 23', 'hole 4')
    >>> holes_named(range(1, 33), most=4)
    'holes 1, 2, 3 and 29 more'
    """
    listed = [str(number) for number in sorted(set(numbers))]
    if 1 < most < len(listed):
        listed = [*listed[: most - 1], f"{len(listed) - most + 1} more"]
    return f"{'hole' if len(listed) == 1 else 'holes'} {both(listed)}" if listed else ""


def the(label: str) -> str:
    """Name a fitting in a sentence: numbered ones go without an article.

    Examples
    --------
    >>> the("bracket"), the("batter lug 3"), the("shop's bracket")
    ('the bracket', 'batter lug 3', "the shop's bracket")
    """
    return label if label[-1:].isdigit() or label.startswith("the ") else f"the {label}"


def first_up(text: str) -> str:
    """Begin a sentence with a capital and leave the rest as it is."""
    return text[:1].upper() + text[1:]


def counted(count: int, noun: str) -> str:
    """Say how many of something there are.

    Examples
    --------
    >>> counted(1, "lug"), counted(8, "lug")
    ('1 lug', '8 lugs')
    """
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"
