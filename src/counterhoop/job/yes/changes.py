"""Every change of a scheme, each with its place and what it does to the drum."""

from __future__ import annotations

from counterhoop.job.yes.besides import end_changes, finish_change, made_changes
from counterhoop.job.yes.change import SORTS, Change
from counterhoop.job.yes.holes import hole_changes
from counterhoop.job.yes.line import HoleLine, read_line
from counterhoop.job.yes.say import Says
from counterhoop.job.yes.undone import undone_changes
from counterhoop.scheme.code import permanent_changes
from counterhoop.scheme.plan import Scheme


def lines_of(scheme: Scheme) -> tuple[str, ...]:
    """Return the lines that a scheme's code is drawn from, which a yes to it must keep."""
    work = scheme.made_from.work if scheme.made_from is not None else ()
    return permanent_changes(scheme.layout, work=work)


def changes_of(scheme: Scheme, *, say: Says) -> tuple[Change, ...]:
    """Return every change of a scheme: permanent ones first, then hidden, then reversible.

    Permanent and hidden together are exactly what the code covers: each line of it that does
    anything belongs to one change, and each such change has its lines. Lines that only hold what
    stays (a finish, an edge that nothing is taken off, the depth of a shell that keeps it) have
    none: they are in the code so that no yes outlives a correction of them.

    Parameters
    ----------
    scheme : Scheme
        As it is worked out, or moved by hand.
    say : Says
        Prints lengths in the client's units.
    """
    every = lines_of(scheme)
    read = [(read_line(line), line) for line in every]
    of_holes = [line for one, line in read if isinstance(one, HoleLine)]
    others = {one.key: line for one, line in read if not isinstance(one, HoleLine)}
    layout = scheme.layout
    found = (
        *end_changes(layout, others, say=say),
        *made_changes(layout, others),
        *finish_change(layout, others),
        *hole_changes(layout, of_holes, say=say),
        *undone_changes(layout),
    )
    return tuple(change for sort in SORTS for change in found if change.sort == sort)
