"""Cautions, each beside the step that it concerns, with where it comes from."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.papers.order_of_work import PACKAGE
from counterhoop.sources import load_table

DEFER = (
    "Cautions say what is usual. The rules of your place and the safety sheets of what you use go"
    " before them; work that needs a licence goes to somebody who has one."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """What to beware of, in a word and in full, and who says so."""

    short: str
    says: str
    source: str


def cautions_for(key: str, *, needs: frozenset[str]) -> tuple[Caution, ...]:
    """Return the cautions that stand beside a step of the work.

    Parameters
    ----------
    key : str
        Sort of step, as in the order of work.
    needs : frozenset of str
        What holds of the scheme.
    """
    rows = load_table(PACKAGE, "cautions.toml")
    return tuple(
        Caution(short=row.values["short"], says=row.values["says"], source=str(row.source))
        for row in rows
        if key in row.values["steps"] and needs.issuperset(row.values["when"])
    )
