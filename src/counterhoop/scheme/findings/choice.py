"""What is to be said of the scheme that somebody chose for a drum."""

from __future__ import annotations

from counterhoop.errors import Finding, Grade
from counterhoop.shell.choice import Chosen


def choice_gone(chosen: Chosen, *, because: str = "") -> Finding:
    """Say that a chosen scheme cannot be had any more.

    Parameters
    ----------
    because : str
        What stands against a row that was moved by hand; nothing where the scheme itself is not
        among those worked out.
    """
    code = chosen.scheme.strip()
    if because:
        return Finding(
            code="choice-gone",
            grade=Grade.TAKE_CARE,
            says=f"The row that was moved by hand in scheme {code} cannot stand there: {because}.",
            where="the choice",
            remedy=(
                "Take the scheme again and move the row anew. Until you do, the choice over the"
                " kit decides, and a yes to the old code covers nothing."
            ),
        )
    return Finding(
        code="choice-gone",
        grade=Grade.TAKE_CARE,
        says=(
            f"The scheme that was chosen, {code}, is no longer among those worked out: choose"
            " again."
        ),
        where="the choice",
        remedy=(
            "Look what changed since: the survey, the wish, a rule or the book. Until you choose,"
            " the choice over the kit decides, and a yes to the old code covers nothing."
        ),
    )
