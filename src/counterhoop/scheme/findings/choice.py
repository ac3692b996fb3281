"""What is to be said of the scheme that somebody chose for a drum."""

from __future__ import annotations

from counterhoop.errors import Finding, Grade
from counterhoop.shell.choice import Chosen


def choice_gone(chosen: Chosen) -> Finding:
    """Say that a chosen scheme is not among those worked out any more."""
    return Finding(
        code="choice-gone",
        grade=Grade.TAKE_CARE,
        says=(
            f"The scheme that was chosen, {chosen.scheme.strip()}, is no longer among those worked"
            " out: choose again."
        ),
        where="the choice",
        remedy=(
            "Look what changed since: the survey, the wish, a rule or the book. Until you choose,"
            " the choice over the kit decides, and a yes to the old code covers nothing."
        ),
    )
