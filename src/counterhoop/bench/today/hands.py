"""Pick work up, put it down: one pair of hands, at whatever bench it is written."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace

from counterhoop.bench.promise.bench_now import bench_now
from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.today.what import What, what_of, what_was
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.work_log.read_log import in_hand_now, working_of
from counterhoop.store.work_log.working import Working
from counterhoop.store.work_log.write_log import PickedUp, correct_working, pick_up, put_down

BY_MISTAKE = "picked up by mistake"


@dataclass(frozen=True, slots=True, kw_only=True)
class Down:
    """What is said as work is put down.

    Attributes
    ----------
    count : int or None
        How many were done since it was last counted; None where nobody said.
    done : bool
        This piece of work is done; else it goes on another time.
    nothing_more : bool
        What is left of it by the scheme is not to be done.
    note : str
        What differed.
    """

    count: int | None = None
    done: bool = False
    nothing_more: bool = False
    note: str = ""


def take_in_hand(
    shop: Workshop, *, job: str, drum: str, operation: str, by: str, mark: str = ""
) -> PickedUp:
    """Pick work up; what is in hand anywhere in the workshop is put down first.

    Parameters
    ----------
    job, drum, operation : str
        As ``what_of`` takes them.
    by : str
        At which bench.
    mark : str
        Of the form: sent twice, it picks up once.

    Returns
    -------
    PickedUp
        With what was put down for it, here or at another bench.

    Raises
    ------
    BadInput
        As ``what_of``, and for what waits for a yes.
    """
    what = what_of(bench_now(shop), job=job, drum=drum, operation=operation)
    if what.waits_for:
        raise BadInput(
            f"the {what.drum.name} waits for {what.waits_for}", where="operation", given=operation,
            step="Ask for it; stripping needs none, nor does cleaning once a price is agreed",
        )  # fmt: skip
    at, stamp = clock_of(shop), shop.stamp(by)
    with shop.store.writing() as connection:
        taken = pick_up(
            connection, job_id=what.job.kept.id, drum=what.drum.id, operation=operation, at=at,
            stamp=stamp, mark=mark,
        )  # fmt: skip
        for other in in_hand_now(connection):
            # Where this was sent twice, what was picked up after it stays in hand.
            if other.entry < taken.working.entry:
                down = put_down(
                    connection, at=_not_before(other, at), stamp=stamp, entry=other.entry
                )
                taken = replace(taken, put_down=down)
    return taken


def lay_down(shop: Workshop, *, entry: int, down: Down, by: str, mark: str = "") -> Working:
    """Put down what is in hand, at this bench or another.

    Parameters
    ----------
    entry : int
        Which working is meant.
    by : str
        At which bench it is said.
    mark : str
        Of the form: sent twice, it is put down once.

    Raises
    ------
    BadInput
        Where it is not in hand any more; where fewer are done than were to be; where nobody said
        how many were done of what the scheme does not ask for. ``where`` is the field.
    """
    bench, at = bench_now(shop), clock_of(shop)
    with shop.store.writing() as connection:
        held = working_of(connection, entry)
        return put_down(
            connection, at=_not_before(held, at), stamp=shop.stamp(by), entry=entry,
            count=_count(what_was(bench, held), down) if held.is_open else 0,
            finished=down.nothing_more, note=down.note, mark=mark,
        )  # fmt: skip


def never_picked_up(shop: Workshop, *, entry: int, by: str, mark: str = "") -> Working:
    """Strike what is in hand: it was picked up by mistake, and no time is written.

    Raises
    ------
    BadInput
        Where it is not in hand any more.
    """
    with shop.store.writing() as connection:
        held = working_of(connection, entry)
        if not held.is_open:
            raise BadInput(
                "it is not in hand any more", where=held.operation,
                step="Strike it in the log of the day",
            )  # fmt: skip
        struck = replace(held, struck=True)
        return correct_working(connection, struck, why=BY_MISTAKE, stamp=shop.stamp(by), mark=mark)


def piece_of(what: What) -> int:
    """Return how many one goes for at a time: as many as the plan has in one go."""
    return what.left[0].times if what.left else 0


def _count(what: What | None, down: Down) -> int:
    """Return how many were done.

    Raises
    ------
    BadInput
        Where what was said leaves it open.
    """
    if not down.done:
        return down.count or 0
    goes = piece_of(what) if what else 0
    if down.count is None or (down.count == 0 and not down.nothing_more):
        if down.nothing_more:
            return 0
        if not goes and what is not None and what.per_piece:
            raise BadInput(
                "how many were done?", where="count", given=down.count,
                wanted="a whole number such as 2",
            )  # fmt: skip
        return goes or 1
    if down.count < goes and not down.nothing_more:
        raise BadInput(
            f"{down.count} of {goes} are done", where="count",
            step="Put it down to do the others another time, or say that they are not to be done",
        )  # fmt: skip
    return down.count


def _not_before(held: Working, at: dt.datetime) -> dt.datetime:
    """Return the time, or when it was picked up where a clock was put back since."""
    return max(at, held.stretch.picked_up) if held.stretch else at
