"""What stood in the file, short enough to be quoted in one line."""

from __future__ import annotations

import datetime as dt

from counterhoop.errors import BadInput

_WHOLE_SHOWN = 10**12


class Bare(str):
    """Words that are printed without quotes round them."""

    __slots__ = ()

    def __repr__(self) -> str:
        return str(self)


def shown(given: object) -> object:
    """Return what stood there as it can be quoted: lists and tables by their size only.

    Examples
    --------
    >>> shown("5 mm"), shown([1, 2]), shown({}), shown(True)
    ('5 mm', a list of 2, an empty table, true)
    """
    if isinstance(given, bool):
        return Bare("true" if given else "false")
    if isinstance(given, list | tuple):
        return Bare(f"a list of {len(given)}" if given else "an empty list")
    if isinstance(given, dict):
        return Bare(f"a table of {len(given)}" if given else "an empty table")
    if isinstance(given, dt.date | dt.time):
        return Bare(given.isoformat())
    if isinstance(given, int) and abs(given) >= _WHOLE_SHOWN:
        return Bare("a huge number")
    return given


def listed(words: tuple[str, ...]) -> str:
    """Return words as one says a choice.

    Examples
    --------
    >>> print(listed(("batter", "resonant")))
    "batter" or "resonant"
    """
    quoted = [f'"{word}"' for word in words]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} or {quoted[-1]}"


def plain_only(given: object, *, noun: str, example: str) -> None:
    """Refuse a list, a table, a date or a yes/no where one text belongs."""
    if isinstance(given, bool) or not isinstance(given, str | int | float):
        raise BadInput(
            f"one text belongs here: {noun}", given=shown(given), wanted=f'one such as "{example}"'
        )
    if isinstance(given, int) and abs(given) >= _WHOLE_SHOWN:
        raise BadInput(
            "a bare number, without its unit",
            given=shown(given),
            wanted=f'{noun} with its unit, in quotes, such as "{example}"',
        )
