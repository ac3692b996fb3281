"""Taking the rows of a file, watched and stopped like other chores; all of them or none."""

from __future__ import annotations

from counterhoop.bench.chores import Chore, Outcome, Share, Stopped
from counterhoop.bench.rows.row_sorts import row_sort
from counterhoop.bench.rows.taken import Taken, find_taken
from counterhoop.bench.rows.try_rows import last_try
from counterhoop.bench.rows.waiting import Waiting, change_waiting, put_aside
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CounterhoopError

CUT_OFF = (
    "The program was ended while these rows were being taken. None of them is there: "
    "they come in all at once or not at all. Begin again when you like."
)

BROKE_OFF = "This broke off, by a mistake of the program. None of these rows is there."


def begin_taking(shop: Workshop, one: Waiting, *, by: str) -> None:
    """Begin to take the rows of a file that was tried.

    Raises
    ------
    BadInput
        When it was not tried yet, or nothing would change.
    CannotDo
        While another chore is under way.
    """
    tried = last_try(one)
    if tried is None:
        raise BadInput("these rows were not tried yet", where="rows", step="Try them first")
    if tried.changes_nothing:
        raise BadInput("there is nothing to take", where="rows", step="Put the file aside")

    def work(share: Share) -> Outcome:
        return _taken(shop, change_waiting(one, taking=True, said=()), by=by, share=share)

    shop.chores.start(says_of(one), work, now=shop.now, by=by)


def take_now(shop: Workshop, one: Waiting, *, by: str, share: Share) -> Taken:
    """Take the rows of a file that was tried, and delete the file.

    Raises
    ------
    CannotDo
        When what they rest on was changed since; then nothing of them is there.
    """
    tried = last_try(one)
    assert tried is not None
    taken = row_sort(one.sort).take(shop, one, tried, by, share)
    put_aside(one)
    return taken


def being_taken(shop: Workshop, one: Waiting) -> Chore | None:
    """Return how far a file is being taken just now, or None."""
    chore = shop.chores.state()
    # Its own mark as well: two files may be called alike.
    mine = one.taking and chore is not None and chore.says == says_of(one)
    return chore if mine and chore is not None and chore.ended is None else None


def settled(shop: Workshop, one: Waiting) -> Waiting | Taken:
    """Return what became of a file that was being taken when the program was ended."""
    if not one.taking or being_taken(shop, one):
        return one
    taken = find_taken(shop, one.id)
    if taken is not None:
        put_aside(one)
        return taken
    return change_waiting(one, taking=False, said=(CUT_OFF,))


def says_of(one: Waiting) -> str:
    """Return what is being done while a file is taken."""
    return f"The rows of {one.name} are being taken"


def taken_says(taken: Taken) -> str:
    """Return in a sentence what was taken.

    Examples
    --------
    >>> taken_says(Taken(id="", sort="shelf", file="a.csv", new=3, changed=1, left=0, refused=2,
    ...                  at="2026-11-02T10:00:00+00:00", by="bench"))
    '3 new pieces are on the shelf, and 1 was changed; 2 rows were refused and left out.'
    """
    sort = row_sort(taken.sort)
    parts = []
    if taken.new:
        what, are = (sort.one, "is") if taken.new == 1 else (sort.many, "are")
        parts.append(f"{taken.new} new {what} {are} {sort.there}")
    if taken.changed:
        what, were = (sort.one, "was") if taken.changed == 1 else (sort.many, "were")
        parts.append(f"{taken.changed} {'' if taken.new else what + ' '}{were} changed")
    says = ", and ".join(parts)
    if taken.refused:
        rows = "row was" if taken.refused == 1 else "rows were"
        says += f"; {taken.refused} {rows} refused and left out"
    return f"{says}."


def _taken(shop: Workshop, one: Waiting, *, by: str, share: Share) -> Outcome:
    try:
        taken = take_now(shop, one, by=by, share=share)
    except Stopped:
        says = "Stopped before it was done. Nothing of these rows was taken."
        change_waiting(one, taking=False, said=(says,))
        raise Stopped(says) from None
    except CounterhoopError as fault:
        change_waiting(one, taking=False, said=(str(fault),))
        raise
    except Exception:
        change_waiting(one, taking=False, said=(BROKE_OFF,))
        raise
    return Outcome(says=(f"{one.name}: {taken_says(taken)}",))
