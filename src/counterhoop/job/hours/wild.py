"""A time out of all proportion is asked about before it counts in full."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.job.hours.belief import WILD_FACTOR, Belief, too_quick
from counterhoop.job.hours.worked import Worked
from counterhoop.quantities.duration import print_minutes
from counterhoop.shell.operations import Operation

NUMBERS = (
    *("no", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wild:
    """A time more than three times what is expected, or less than a third of it.

    Attributes
    ----------
    operation : str
        Name in the operations book.
    minutes, expected_min : float
        What was written down, and what so many usually take.
    asks : str
        The question for whoever wrote it.
    how_long : bool
        It was too quick for any work: a yes is no answer, only how long it was.
    """

    operation: str
    minutes: float
    expected_min: float
    asks: str
    how_long: bool = False


def asked_about(one: Worked, *, operation: Operation, belief: Belief) -> Wild | None:
    """Return the question that a working raises, or None where it raises none.

    Parameters
    ----------
    one : Worked
        As it was written down; one that was answered raises none.
    operation : Operation
        What was done.
    belief : Belief
        What was believed of it before this working.

    Examples
    --------
    >>> import datetime as dt
    >>> from counterhoop.job.hours.belief import believed
    >>> from counterhoop.shell.operations import operations
    >>> drill = next(o for o in operations() if o.name == "drill a hole")
    >>> long = Worked(operation=drill.name, count=1, minutes=20.0, when=dt.date(2026, 3, 4))
    >>> asked_about(long, operation=drill, belief=believed(drill, ())).asks
    '20 min for one hole, where 6 min is usual: was that one hole or three?'
    """
    expected_min = one.count * belief.median_min
    if one.answered or not expected_min:
        return None
    if expected_min / WILD_FACTOR <= one.minutes <= expected_min * WILD_FACTOR:
        return None
    done = so_many(one.count, operation.per)
    took = "less than a minute" if one.minutes < 1.0 else print_minutes(one.minutes)
    likely = round(one.minutes / belief.median_min)
    how_long = too_quick(one, median_min=belief.median_min)
    if how_long:
        asks = "how long was it?"
    elif likely < 1:
        asks = "was it picked up late?" if one.count == 1 else "were all of them done?"
    else:
        asks = f"was that {done} or {_number(likely)}?"
    return Wild(
        operation=one.operation,
        minutes=one.minutes,
        expected_min=expected_min,
        asks=f"{took} for {done}, where {print_minutes(expected_min)} is usual: {asks}",
        how_long=how_long,
    )


def so_many(count: int, per: str) -> str:
    """Return how many of what an operation is counted by.

    Examples
    --------
    >>> so_many(1, "hole"), so_many(3, "patch"), so_many(20, "lug")
    ('one hole', 'three patches', '20 lugs')
    """
    plural = f"{per}es" if per.endswith("ch") else f"{per}s"
    return f"{_number(count)} {per if count == 1 else plural}"


def _number(count: int) -> str:
    return NUMBERS[count] if count < len(NUMBERS) else str(count)
