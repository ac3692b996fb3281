"""How many are left, reckoned from the movements, and what may not be done."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from counterhoop.errors import BadInput
from counterhoop.parts.movement import Movement


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """How many of a piece there are.

    ``came_in + by_count == on_shelf + gone`` after any movements.

    Attributes
    ----------
    came_in, on_shelf, gone : int
        That ever came; that lie here, set aside ones with them; that were used, sold, scrapped
        or given back.
    by_count : int
        What counts have added; below zero, taken away.
    set_aside : mapping of str to int
        By job.
    """

    came_in: int = 0
    on_shelf: int = 0
    gone: int = 0
    by_count: int = 0
    set_aside: Mapping[str, int] = field(default_factory=dict)

    @property
    def free(self) -> int:
        """How many nobody has been promised; never below zero."""
        return self.on_shelf - sum(self.set_aside.values())


def stock(movements: Iterable[Movement], *, owner: str = "") -> Stock:
    """Reckon the stock of one piece from its movements, oldest first.

    Parameters
    ----------
    movements : iterable of Movement
        All of one piece.
    owner : str
        The client whose piece it is; empty for the shop's own.

    Raises
    ------
    BadInput
        At the first movement that there was no stock for, or that its owner bars.
    """
    reckoned = Stock()
    for movement in movements:
        reckoned = after(reckoned, movement, owner=owner)
    return reckoned


def after(now: Stock, movement: Movement, *, owner: str = "") -> Stock:
    """Return the stock after one more movement.

    What is used, sold, scrapped or given back for a job comes from what is set aside for it
    first, then from the free ones.

    Raises
    ------
    BadInput
        When fewer than that are free, or the owner bars it.

    Examples
    --------
    >>> import datetime as dt
    >>> on = dt.datetime(2026, 11, 2, 9, 30)
    >>> two = after(Stock(), Movement(piece_id="1", kind="came in", count=2, on=on))
    >>> after(two, Movement(piece_id="1", kind="set aside", count=1, job="Hale", on=on)).free
    1
    """
    _owner_allows(movement, owner=owner)
    count, job = movement.count, movement.job
    match movement.kind:
        case "came in":
            return replace(now, came_in=now.came_in + count, on_shelf=now.on_shelf + count)
        case "counted":
            _need(now.on_shelf - count, now.free, movement)
            by_count = now.by_count + count - now.on_shelf
            return replace(now, on_shelf=count, by_count=by_count)
        case "set aside":
            _need(count, now.free, movement)
            return replace(now, set_aside=_changed(now.set_aside, job, count))
        case "put back":
            _need(count, now.set_aside.get(job, 0), movement)
            return replace(now, set_aside=_changed(now.set_aside, job, -count))
        case _:
            promised = min(count, now.set_aside.get(job, 0)) if job else 0
            _need(count - promised, now.free, movement)
            return replace(
                now,
                on_shelf=now.on_shelf - count,
                gone=now.gone + count,
                set_aside=_changed(now.set_aside, job, -promised),
            )


def _changed(set_aside: Mapping[str, int], job: str, by: int) -> Mapping[str, int]:
    changed = {**set_aside, job: set_aside.get(job, 0) + by}
    return {name: count for name, count in changed.items() if count}


def _need(count: int, there: int, movement: Movement) -> None:
    if count <= there:
        return
    if movement.kind == "put back":
        what, step = f"only {there} set aside for {movement.job}", "Look at the job's list"
    elif movement.kind == "counted":
        what = "fewer than are promised to jobs"
        step = "Put back what cannot be kept first, then write the count"
    else:
        what = f"only {there} free"
        step = "Put one back that is set aside for another job, or count the shelf"
    raise BadInput(what, where=movement.kind, given=movement.count, step=step)


def _owner_allows(movement: Movement, *, owner: str) -> None:
    kind, client = movement.kind, movement.client
    if not owner:
        if kind == "given back":
            raise BadInput(
                "the shop's own piece goes back to nobody",
                where=kind,
                step="Write it as sold, used or scrapped",
            )
        return
    if kind in ("set aside", "used", "given back") and client != owner:
        raise BadInput(
            f"this piece is {owner}'s",
            where=kind,
            given=client or "no client",
            wanted=f"{owner}" if kind == "given back" else f"a job of {owner}",
        )
    if kind in ("sold", "scrapped") and not movement.release.strip():
        raise BadInput(
            f"this piece is {owner}'s",
            where=kind,
            wanted="the signed release that lets it go",
            step="Give it back, or have a release signed and name it",
        )
