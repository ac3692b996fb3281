"""Hands at work on one drum, as its page on the bench shows them."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from counterhoop.bench.promise.log_said import LogSaid, log_said
from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.today.after import say_clock
from counterhoop.bench.today.so_far import OperationSoFar, so_far_of
from counterhoop.papers.day_list import hands_said
from counterhoop.quantities.day import say_weekday
from counterhoop.quantities.duration import print_minutes
from counterhoop.store.mark import store_mark
from counterhoop.web.look.say import capfirst

if TYPE_CHECKING:
    from counterhoop.bench.workshop import Workshop
    from counterhoop.scheme.plan import Scheme
    from counterhoop.web.bench_desk import BenchDesk


@dataclass(frozen=True, slots=True, kw_only=True)
class HandsShown:
    """What is in hand on a drum and what it took so far.

    Attributes
    ----------
    in_hand : tuple of str
        A sentence for each piece of work that is in hand.
    face : str
        So far, against what the price holds.
    lines : tuple of (str, str, str)
        By operation that was begun: what it took, and what the price holds.
    rest : str
        What the price holds of all that was not begun.
    """

    in_hand: tuple[str, ...]
    face: str
    lines: tuple[tuple[str, str, str], ...]
    rest: str


def hands_on_drum(desk: BenchDesk, scheme: Scheme) -> HandsShown:
    """Return hands at work on a drum by the scheme that the bench works by."""
    whole = desk.planned.plan
    assert whole is not None
    now = clock_of(desk.shop)
    log = _log(desk.shop, now=now)
    so_far = so_far_of(
        log, job=desk.job.id, drum=desk.drum, scheme=scheme, figures=whole.opened.shop.figures
    )
    holds = f"the price holds {hands_said(round(so_far.price_min))}"
    if so_far.took_min:
        face = f"{print_minutes(so_far.took_min)} so far; {holds}"
    else:
        face = f"Nothing is written yet; {holds}"
    return HandsShown(
        in_hand=tuple(
            f"{capfirst(one.operation)}: in hand at {one.bench} since"
            f" {_since(one.stretch.picked_up, now=now)}."
            for one in log.workings
            if one.is_open and one.stretch is not None and one.job_id == desk.job.id
            and one.drum in (desk.drum.id, desk.drum.name)
        ),
        face=face,
        lines=tuple(
            (capfirst(one.operation), _took(one), _holds(one)) for one in so_far.lines
            if _begun(one)
        ),
        rest=hands_said(
            round(sum(one.price_min for one in so_far.lines if not _begun(one)))
        ),
    )  # fmt: skip


def _log(shop: Workshop, *, now: dt.datetime) -> LogSaid:
    """Return the log, read anew only when something was written or another hour has begun."""
    hour = now.replace(minute=0, second=0, microsecond=0)
    with shop.store.reading() as connection:
        key = ("log said", store_mark(connection), hour)
    found: LogSaid = shop.remembered.get(key, lambda: log_said(shop, now=now))
    return found


def _begun(one: OperationSoFar) -> bool:
    return bool(one.took_min or one.count)


def _took(one: OperationSoFar) -> str:
    done = f", {one.count} of {one.of} done" if one.of > 1 else ", done" if one.count else ""
    return f"{print_minutes(one.took_min)}{done}"


def _holds(one: OperationSoFar) -> str:
    return hands_said(round(one.price_min)) if one.of else "not in the price"


def _since(at: dt.datetime, *, now: dt.datetime) -> str:
    return (
        say_clock(at) if at.date() == now.date() else f"{say_weekday(at.date())}, {say_clock(at)}"
    )
