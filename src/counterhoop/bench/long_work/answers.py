"""What is answered when long work is asked for: it is done, under way, or failed and why."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, Literal, TypeVar

from counterhoop.errors import CounterhoopError

T = TypeVar("T")
Why = Literal["refused", "stopped", "replaced", "died", "fault", "unknown"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Done(Generic[T]):
    """Work that is done.

    Attributes
    ----------
    id : str
        Under which the work is found again.
    value : object
        What came of it.
    """

    id: str
    value: T


@dataclass(frozen=True, slots=True, kw_only=True)
class Working:
    """Work that waits or is under way.

    Attributes
    ----------
    says : str
        What is being done just now.
    share : float
        Of the whole, 0 to 1.
    """

    id: str
    says: str
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Failed:
    """Work of which nothing came.

    Attributes
    ----------
    says : str
        The reason as a page shows it.
    why : str
        "refused": what was written cannot be worked on, ``fault`` says it place by place.
        "stopped": by a person. "replaced": newer work of the same folder came before it began.
        "died": the process that did it was ended from outside, or memory ran out. "fault": a
        mistake of the program. "unknown": it is not kept any more, or never was.
    fault : CounterhoopError or None
        What was raised, when it was raised on purpose.
    """

    id: str
    says: str
    why: Why
    fault: CounterhoopError | None = None


Answer = Done[T] | Working | Failed

SAYS: dict[Why, str] = {
    "stopped": "Stopped before it was done. What you wrote is kept.",
    "replaced": "The survey was changed before this was begun; the newer one is worked out.",
    "died": (
        "Cut off half way: the process that did it was ended from outside, or memory ran out."
        " What you wrote is kept. Try again."
    ),
    "fault": (
        "This could not be worked out, by a mistake of the program and not of yours."
        " What you wrote is kept."
    ),
    "unknown": "This work is not kept any more. Load the page again.",
}


def failed(id_: str, why: Why) -> Failed:
    """Return a failure in its usual words."""
    return Failed(id=id_, says=SAYS[why], why=why)
