"""How long glue, paint or a soak is left alone in a room as warm as this one."""

from __future__ import annotations

import math

from counterhoop.errors import BadInput
from counterhoop.shell.operations import Operation


def cured_after(operation: Operation, *, room_c: float) -> int:
    """Return the calendar minutes that an operation is then left alone, rounded up.

    The book's hours hold at the temperature that the book says and double for every so many
    degrees below it; a warmer room is not trusted to be quicker. Common practice, no source: the
    tin's own sheet goes before it.

    Parameters
    ----------
    operation : Operation
        From the operations book, or with the workshop's own waiting.
    room_c : float
        Temperature of the room through the whole cure, nights too.

    Raises
    ------
    BadInput
        In a room too cold for it to cure at all.

    Examples
    --------
    >>> from counterhoop.shell.operations import operations
    >>> plug = next(o for o in operations() if o.name == "plug a hole")
    >>> cured_after(plug, room_c=20.0), cured_after(plug, room_c=10.0)
    (720, 1440)
    """
    minutes = 60.0 * operation.cure_hours
    warmth = operation.warmth
    if warmth is None or not minutes:
        return _whole(minutes)
    if not room_c >= warmth.least_c:
        raise BadInput(
            f"too cold to {operation.name}: it would not cure",
            where="room",
            given=f"{room_c:g} °C",
            wanted=f"{warmth.least_c:g} °C or warmer, day and night",
            step="Warm the room or wait; the tin may ask for more",
        )
    colder_k = max(0.0, warmth.at_c - room_c)
    return _whole(minutes * 2.0 ** (colder_k / warmth.twice_for_k))


def _whole(minutes: float) -> int:
    # What floats add in the twelfth place is no minute.
    return math.ceil(round(minutes, 6))
