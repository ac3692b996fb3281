"""What is to be said beside evening: how the pitch of the head stands to what is wanted of it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class PitchSaid:
    """How the middle pitch stands to the one that is wanted, and what its rods pull.

    Attributes
    ----------
    limit : str
        Said before all else: the rods pull more than they may; "" where they do not, or nobody
        says how much that is.
    slack : bool
        Whether for that reason no rod may be tightened.
    says : str
        How far it is off, and what to do; "" where no pitch is wanted of it.
    turns : bool
        Whether rods are to be turned for it, all alike.
    first : bool
        Whether it is so far off that evening waits for it.
    """

    limit: str = ""
    slack: bool = False
    says: str = ""
    turns: bool = False
    first: bool = False
