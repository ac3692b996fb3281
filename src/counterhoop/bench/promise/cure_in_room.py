"""How long work is left alone in the workshop's room, also where that is too cold for it."""

from __future__ import annotations

from counterhoop.errors import BadInput
from counterhoop.job.hours.cure import cured_after
from counterhoop.shell.operations import Operation


def cure_in_room(operation: Operation, *, room_c: float) -> tuple[int, str]:
    """Return the minutes, and a sentence where the room is too cold; it is empty else.

    In a room too cold it is reckoned as in the coldest that does: as if it were warmed.

    Examples
    --------
    >>> from counterhoop.shell.operations import operations
    >>> plug = next(o for o in operations() if o.name == "plug a hole")
    >>> cure_in_room(plug, room_c=20.0)
    (720, '')
    """
    try:
        return cured_after(operation, room_c=room_c), ""
    except BadInput as cold:
        assert operation.warmth is not None
        says = f"{str(cold)[:1].upper()}{str(cold)[1:]}."
        return cured_after(operation, room_c=operation.warmth.least_c), says
